//! The integration tests, one binary: a crate with a window links slowly.

mod bad_files;
mod bad_files_cli;
mod clearance_by_hand;
mod clearance_distance;
mod clearance_invariance;
mod clearance_oracle;
mod clearance_polygon_faults;
mod clearance_sampling;
mod clearance_support;
mod document;
mod door;
mod drawing;
mod folder;
mod golden_runs;
mod hanging_choice;
mod hanging_instances;
mod hanging_oracle;
mod hanging_statics;
mod made;
mod rules;
mod samples;
mod sound;
mod store;
mod study;
mod window_canvas;
mod window_panels;
