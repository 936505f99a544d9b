//! What hangers carry when their run isn't level: one hanger hung low, or one slack.
//!
//! The level case alone decides the choice of hangers. These two say what each hanger,
//! its hardware and its hang point must be able to bear besides.

use super::beam::{BeamLoad, BeamSolver, Support};
use super::candidate::Candidate;

/// The greatest load of a hanger over some cases, and the hanger that causes it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WorstCase {
    /// The load, N, never less than the level one.
    pub load_n: f64,
    /// The hanger whose fault it is, by its place; none where the level case is worst.
    pub by: Option<usize>,
}

/// The loads of one hanger.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadCases {
    /// With every hanger at its length, N.
    pub level_n: f64,
    /// With any single hanger low by what goes unnoticed.
    pub level_error: WorstCase,
    /// With any single other hanger gone slack.
    pub neighbour_slack: WorstCase,
    /// Without this hanger the run would tip: it can't go slack before the run does.
    pub tips_without: bool,
}

impl LoadCases {
    /// The loads of a hanger for which no case is known but the level one.
    #[must_use]
    pub(super) const fn level(level_n: f64) -> Self {
        let worst = WorstCase {
            load_n: level_n,
            by: None,
        };
        Self {
            level_n,
            level_error: worst,
            neighbour_slack: worst,
            tips_without: false,
        }
    }

    /// The greatest load of all cases, N: what hardware must bear.
    #[must_use]
    pub const fn greatest_n(&self) -> f64 {
        self.level_error.load_n.max(self.neighbour_slack.load_n)
    }

    /// The worst case.
    #[must_use]
    pub fn worst(&self) -> WorstCase {
        if self.level_error.load_n < self.neighbour_slack.load_n {
            self.neighbour_slack
        } else {
            self.level_error
        }
    }
}

impl WorstCase {
    fn consider(&mut self, load_n: f64, by: usize) {
        if self.load_n < load_n {
            *self = Self {
                load_n,
                by: Some(by),
            };
        }
    }
}

/// The cases of every hanger of a set that holds its run level with `level_n`.
pub(super) fn cases(
    load: &BeamLoad,
    set: &[Candidate],
    level_n: &[f64],
    level_error_m: f64,
) -> Vec<LoadCases> {
    let mut cases: Vec<LoadCases> = level_n.iter().map(|&n| LoadCases::level(n)).collect();
    let mut supports: Vec<Support> = set
        .iter()
        .map(|candidate| Support {
            station_m: candidate.station_m,
            offset_m: 0.0,
        })
        .collect();
    let mut solver = BeamSolver::new(load);
    for low in 0..set.len() {
        supports[low].offset_m = -level_error_m;
        if solver.solve(&supports) {
            for (case, &pull_n) in cases.iter_mut().zip(solver.pull_n()) {
                case.level_error.consider(pull_n, low);
            }
        }
        supports[low].offset_m = 0.0;
    }
    for slack in 0..set.len() {
        let left_out = supports.remove(slack);
        if solver.solve(&supports) {
            let others = (0..set.len()).filter(|&which| which != slack);
            for (which, &pull_n) in others.zip(solver.pull_n()) {
                cases[which].neighbour_slack.consider(pull_n, slack);
            }
        } else {
            cases[slack].tips_without = true;
        }
        supports.insert(slack, left_out);
    }
    cases
}
