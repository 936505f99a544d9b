//! Keep-clear envelopes, and how near everything in the way comes to them.
//!
//! Works on plain figures: the study builds them from the site and the catalogue. A
//! run is a set of boxes along its own axes ([`RunBodies`]); what must stay clear of
//! it is a set of convex solids. Every pair is measured exactly: no sampling.

pub mod bodies;
mod corridor;
mod depth;
pub mod direction;
pub mod heads;
pub mod measure;
pub mod obstacles;
mod pair;
pub mod required;
pub mod stacking;
mod towards;
mod way_out;

pub use bodies::{Body, BurnerBox, ExhaustBox, Form, Part, RunBodies, RunFigures, Side, bodies};
pub use direction::Direction;
pub use heads::{HeadPlace, HeadZone};
pub use measure::{CheckedRun, Measured, Reach, check_obstacle, check_run};
pub use obstacles::{Class, Obstacle, Obstacles};
pub use required::{KeepClear, KeepClearRow, Required, RowShields, Shields, keep_clear};
pub use stacking::{Stacking, StackingGround};
pub use towards::{may_reach, reaches, reaches_of_all};
pub use way_out::least_move;
