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

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

    use super::*;
    use crate::geometry::DVec3;
    use crate::hanging::beam::PointLoad;
    use crate::hanging::candidate::{Hold, Kind, Place};
    use std::sync::Arc;

    const G: f64 = crate::hanging::GRAVITY;

    fn at(station_m: f64) -> Candidate {
        Candidate {
            station_m,
            kind: Kind::Line,
            first: Hold {
                member: Arc::from("P-1"),
                span: 0,
                place: Place::Line,
                position_m: 0.0,
                share: 1.0,
            },
            second: None,
            channel: None,
            attach: DVec3::new(station_m, 0.0, 1.0),
            suspension_m: 1.0,
            lean_rad: 0.0,
            ahead_m: 0.0,
            cost: 1_000,
            refused: None,
        }
    }

    fn of(load: &BeamLoad, stations_m: &[f64], level_error_m: f64) -> Vec<LoadCases> {
        let set: Vec<Candidate> = stations_m.iter().map(|&m| at(m)).collect();
        let supports: Vec<Support> = stations_m
            .iter()
            .map(|&station_m| Support {
                station_m,
                offset_m: 0.0,
            })
            .collect();
        let held = load.held_by(&supports).unwrap();
        cases(load, &set, &held.pull_n, level_error_m)
    }

    fn even(length_m: f64, kg_per_m: f64) -> BeamLoad {
        BeamLoad {
            length_m,
            spread_n_per_m: kg_per_m * G,
            points: Vec::new(),
            stiffness_n_m2: 106_841.0,
        }
    }

    /// codes.json `hang.level`: the middle one of five 5 mm low is slack (at 3.3 mm), and
    /// its neighbours carry about 35 kg.
    #[test]
    fn a_low_middle_hanger_loads_its_neighbours() {
        let cases = of(&even(12.0, 6.5), &[0.0, 3.0, 6.0, 9.0, 12.0], 0.005);
        for which in [1, 3] {
            let case = &cases[which];
            assert!((case.level_n / G - 22.29).abs() < 0.03);
            assert!((case.level_error.load_n / G - 35.0).abs() < 0.5, "{case:?}");
            assert_eq!(case.level_error.by, Some(2));
            // With its other neighbour slack, the end of the tube, it carries yet more.
            assert!(case.neighbour_slack.load_n > case.level_error.load_n - 1e-6);
        }
        // Low by a third of that, everything stays in proportion: 19.02 kg / 5 mm.
        let third = of(&even(12.0, 6.5), &[0.0, 3.0, 6.0, 9.0, 12.0], 0.005 / 3.0);
        let more_kg = (third[1].level_error.load_n - third[1].level_n) / G;
        assert!(
            (more_kg - 19.02 / 3.0).abs() < 0.01 * 19.02 / 3.0,
            "{more_kg}"
        );
    }

    /// codes.json `hang.burner.out`: with the burner's hanger slack, statics of the rest.
    #[test]
    fn the_burners_neighbour_takes_its_load() {
        let load = BeamLoad {
            points: vec![PointLoad {
                station_m: 0.0,
                force_n: 30.0 * G,
            }],
            ..even(12.5, 6.5)
        };
        let stations = [0.9, 3.65, 6.4, 9.15, 11.9];
        let cases = of(&load, &stations, 0.005);
        for (case, kg) in cases.iter().zip([56.54, 3.06, 21.4, 18.59, 11.65]) {
            assert!((case.level_n / G - kg).abs() < 0.005 * kg, "{case:?}");
        }
        assert_eq!(cases[1].neighbour_slack.by, Some(0));
        let rest: Vec<Support> = stations[1..]
            .iter()
            .map(|&station_m| Support {
                station_m,
                offset_m: 0.0,
            })
            .collect();
        let without_first = load.held_by(&rest).unwrap();
        assert!((cases[1].neighbour_slack.load_n - without_first.pull_n[0]).abs() < 1e-9);
        assert!(cases.iter().all(|case| !case.tips_without));
    }

    #[test]
    fn of_two_hangers_neither_can_be_spared() {
        let cases = of(&even(4.0, 6.5), &[0.5, 3.5], 0.005);
        for case in &cases {
            assert!(case.tips_without);
            assert_eq!(case.worst().by, None, "the level case is all there is");
            assert!((case.greatest_n() - 13.0 * G).abs() < 1e-9);
        }
    }

    /// No case has less than the level load, none is negative, and each is what a beam
    /// on the same hangers has.
    #[test]
    fn cases_are_those_of_the_beam_one_by_one() {
        let mut random = fastrand::Rng::with_seed(5);
        for _ in 0..300 {
            let length_m = 4.0 + 17.0 * random.f64();
            let load = BeamLoad {
                points: vec![PointLoad {
                    station_m: -0.25,
                    force_n: 400.0 * random.f64(),
                }],
                ..even(length_m, 4.0 + 3.0 * random.f64())
            };
            let mut stations = vec![0.1 + 0.5 * random.f64()];
            while let Some(&last) = stations.last()
                && last < length_m - 2.8
            {
                stations.push(last + 0.9 + 1.9 * random.f64());
            }
            stations.push(length_m - 0.2);
            let supports = |low: Option<usize>| -> Vec<Support> {
                let all = stations.iter().enumerate();
                all.map(|(which, &station_m)| Support {
                    station_m,
                    offset_m: if low == Some(which) { -0.005 } else { 0.0 },
                })
                .collect()
            };
            if load.held_by(&supports(None)).is_none() {
                continue;
            }
            let cases = of(&load, &stations, 0.005);
            let level_n: f64 = cases.iter().map(|case| case.level_n).sum();
            assert!((level_n - load.total_n()).abs() < 1e-9 * load.total_n());
            for (which, case) in cases.iter().enumerate() {
                let mut error_n = case.level_n;
                let mut slack_n = case.level_n;
                for (other, of_other) in cases.iter().enumerate() {
                    let held = load.held_by(&supports(Some(other))).unwrap();
                    error_n = error_n.max(held.pull_n[which]);
                    let mut rest = supports(None);
                    rest.remove(other);
                    let Some(held) = load.held_by(&rest) else {
                        assert!(of_other.tips_without);
                        continue;
                    };
                    if which != other {
                        slack_n = slack_n.max(held.pull_n[which - usize::from(other < which)]);
                    }
                }
                assert!(case.level_n >= 0.0);
                assert!((case.level_error.load_n - error_n).abs() < 1e-9 * load.total_n());
                assert!((case.neighbour_slack.load_n - slack_n).abs() < 1e-9 * load.total_n());
                assert!(case.greatest_n() >= case.level_n);
            }
        }
    }
}
