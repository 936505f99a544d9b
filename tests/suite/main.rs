//! The integration tests, one binary: a crate with a window links slowly.

mod clearance_by_hand;
mod clearance_distance;
mod clearance_invariance;
mod clearance_oracle;
mod clearance_polygon_faults;
mod clearance_sampling;
mod clearance_support;
mod drawing;
mod made;
mod samples;
mod study;
