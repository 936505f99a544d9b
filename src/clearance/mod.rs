//! Keep-clear envelopes, and how near everything in the way comes to them.
//!
//! Works on plain figures: the study builds them from the site and the catalogue. A
//! run is a set of boxes along its own axes ([`RunBodies`]); what must stay clear of
//! it is a set of convex solids. Every pair is measured exactly: no sampling.

pub mod bodies;
pub mod direction;
pub mod required;

pub use bodies::{Body, BurnerBox, ExhaustBox, Form, Part, RunBodies, RunFigures, Side, bodies};
pub use direction::Direction;
pub use required::{KeepClear, KeepClearRow, Required, RowShields, Shields, keep_clear};
