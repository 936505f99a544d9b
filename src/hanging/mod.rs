//! Where a run hangs: its candidates, the cheapest set that obeys its maker's rule,
//! what each hanger carries, how long it is, and how far the hot tube swings it.
//!
//! Works on plain data of its own: `structure` describes the steel, the caller the
//! run, and nothing here knows the document.

mod beam;
mod candidate;
mod case;
mod cases;
mod channel;
mod check;
mod choice;
mod cutting;
mod first_pull;
mod growth;
mod hardware;
mod joint;
mod limit;
mod loads;
mod locked;
mod obstacle;
mod outcome;
mod piece;
mod run;
mod search;
mod shift;
mod steel;
mod suspension;
mod totals;

pub use beam::{BeamLoad, BeamSolver, Held, PointLoad, Support};
pub use candidate::{Candidate, ChannelLay, Hold, Kind, Place, Refusal, candidates};
pub use case::{Case, Room};
pub use cases::{LoadCases, WorstCase};
pub use channel::{ChannelCheck, ChannelLoad, leg_factor};
pub use choice::{Beginning, Choice, RankedSet, Rung};
pub use cutting::{Bar, CuttingPlan, cutting_plan};
pub use growth::{EXPANSION_PER_K, Growth, TemperatureRise, mean_rise_k};
pub use hardware::{AdjusterStock, Cut, MakeUp, NoMakeUp, PieceStock, Wanted, weakest_that_bears};
pub use joint::{Beside, Group, MOST_SETS_TOGETHER, Settled, Together, hang_together, settle};
pub use limit::{Bound, Limit, LimitBreach};
pub use loads::{GRAVITY, HangerLoad, HoldLoad, LoadPlace};
pub use locked::{LockedAt, LockedHanger, Loss, LostHanger, check_locked};
pub use obstacle::Obstacle;
pub use outcome::{Hanger, Hanging, Status, hang};
pub use piece::{ChannelCutting, Piece, PieceHanger, pieces};
pub use run::{Eyes, HangingRule, PointMass, RunAxis, RunGeometry, RunWeight, Window};
pub use search::MOST_SETS;
pub use shift::{Aim, Area, FoundPlace, Order, Outcome, SETS_PER_PLACE, STEP_M, Seek, Shift, Turn};
pub use steel::{Capacity, ChannelStock, HangPoints, KindCosts, SpanInSpace};
pub use suspension::{LeastSuspension, Suspension};
pub use totals::{LoadPart, PlaceLoad, total};
