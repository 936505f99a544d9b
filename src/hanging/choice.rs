//! Sets of hangers that obey a hanging rule, cheapest first.
//!
//! The order is that of DESIGN.md section 14, *Choice*: cost in whole thousandths,
//! greatest gap, number, stations, member ids. Sets come one at a time, so that the
//! first whose loads are allowed is the answer, proven.
//!
//! A set is a path: each hanger leads to those within the next window. Three steps,
//! each on less than the one before:
//! - the least cost that completes a set from each candidate, by dynamic programming
//!   from the far end with a sliding minimum, O(n) (`cheapest`);
//! - on the candidates of the cheapest sets alone, the least greatest gap and the
//!   least number too, O(n log n) (`Ladder`);
//! - a best-first search through their paths with these as bounds (`RankedSets`). A
//!   bound never exceeds what it bounds in the order above, so sets leave the search
//!   in exactly that order.
//!
//! Only when the loads refuse every cheapest set do the other candidates join in.

mod cheapest;
mod ladder;
mod ranked;

use cheapest::cheapest;
use ladder::{Ladder, Limits};
use ranked::RankedSets;

use super::run::HangingRule;

pub use ladder::Rung;

/// A set of hangers, with the figures that it is ranked by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RankedSet<'a> {
    /// The chosen rungs, from burner to exhaust.
    pub rungs: &'a [usize],
    /// Sum of their costs, in thousandths.
    pub cost: u64,
    /// Greatest distance between two that follow each other, nm; 0 for one alone.
    pub greatest_gap_nm: i64,
}

/// All sets of a run's candidates that obey its rule, in the order of preference.
#[derive(Debug)]
pub struct Choice {
    limits: Limits,
    rungs: Vec<Rung>,
    stage: Stage,
    /// The set that was handed out last.
    set: Vec<usize>,
}

#[derive(Debug)]
enum Stage {
    /// Sets of the least cost, from those rungs that are in any.
    Cheapest {
        least: u64,
        names: Vec<usize>,
        sets: RankedSets,
    },
    /// All sets, of which those up to the least cost were handed out.
    Dearer { least: u64, sets: RankedSets },
    /// There is none.
    Nothing,
}

impl Choice {
    /// Starts the choice among rungs, which must ascend by station and stand in the
    /// order of their member ids at one station.
    #[must_use]
    pub fn new(rule: &HangingRule, tube_length_m: f64, rungs: Vec<Rung>) -> Self {
        let limits = Limits::new(rule, tube_length_m);
        let stage = match cheapest(&limits, &rungs) {
            None => Stage::Nothing,
            Some((least, names)) => {
                let few = names.iter().map(|&name| rungs[name]).collect();
                Stage::Cheapest {
                    least,
                    sets: RankedSets::new(Ladder::new(limits, few)),
                    names,
                }
            }
        };
        Self {
            limits,
            rungs,
            stage,
            set: Vec::new(),
        }
    }

    /// The next best set, if there is one.
    pub fn next_set(&mut self) -> Option<RankedSet<'_>> {
        if let Stage::Cheapest { least, names, sets } = &mut self.stage {
            match sets.next_set() {
                Some(set) if set.cost == *least => {
                    self.set.clear();
                    self.set.extend(set.rungs.iter().map(|&rung| names[rung]));
                    return Some(RankedSet {
                        rungs: &self.set,
                        ..set
                    });
                }
                _ => {
                    let ladder = Ladder::new(self.limits, self.rungs.clone());
                    self.stage = Stage::Dearer {
                        least: *least,
                        sets: RankedSets::new(ladder),
                    };
                }
            }
        }
        let Stage::Dearer { least, sets } = &mut self.stage else {
            return None;
        };
        loop {
            let set = sets.next_set()?;
            if set.cost > *least {
                self.set.clear();
                self.set.extend_from_slice(set.rungs);
                return Some(RankedSet {
                    rungs: &self.set,
                    cost: set.cost,
                    greatest_gap_nm: set.greatest_gap_nm,
                });
            }
        }
    }
}
