//! Where a run hangs: its candidates, the cheapest set that obeys its maker's rule,
//! what each hanger carries, how long it is, and how far the hot tube swings it.
//!
//! Works on plain data of its own: `structure` describes the steel, the caller the
//! run, and nothing here knows the document.

mod beam;
mod candidate;
mod case;
mod choice;
mod run;
mod steel;

pub use beam::{BeamLoad, BeamSolver, Held, PointLoad, Support};
pub use candidate::{Candidate, ChannelLay, Hold, Kind, Place, Refusal, candidates};
pub use case::Case;
pub use choice::{Ladder, RankedSet, RankedSets, Rung};
pub use run::{HangingRule, PointMass, RunAxis, RunGeometry, RunWeight, Window};
pub use steel::{Capacity, ChannelStock, HangPoints, KindCosts, SpanInSpace};
