//! Sets of hangers that obey a hanging rule, cheapest first.
//!
//! The order is that of DESIGN.md section 14, *Choice*: cost in whole thousandths,
//! greatest gap, number, stations, member ids. Sets come one at a time, so that the
//! first whose loads are allowed is the answer, proven.
//!
//! A set is a path: each hanger leads to those within the next window. `Ladder` knows
//! for every candidate the least cost, least greatest gap and least number of what
//! must follow it (dynamic programming from the far end, O(n log n)). `RankedSets`
//! then searches best-first with these as bounds. A bound never exceeds what it
//! bounds in the order above, so sets leave the search in exactly that order.

mod ladder;
mod ranked;

pub use ladder::{Ladder, Rung};
pub use ranked::{RankedSet, RankedSets};
