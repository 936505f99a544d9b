//! The integration tests, one binary: a crate with a window links slowly.

mod clearance_polygon_faults;
mod drawing;
