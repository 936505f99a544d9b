//! Which hangers are taut and which are slack.

use super::{BeamSolver, Support};
use crate::geometry::tolerance;

/// Rounds of the quick way, in which all that are wrong change sides at once. It
/// nearly always ends in the first two; it has no proof, so it is cut short.
const QUICK_ROUNDS: usize = 6;

/// Steps of the sure way for each support: far more than it ever needs, in case
/// rounding makes two nearly equal balances change places without end.
const SURE_STEPS: usize = 20;

/// The straight part of the beam's line: stiffness times height is
/// `at_zero + per_m * station` plus what bending adds.
#[derive(Debug, Clone, Copy)]
pub(super) struct Line {
    at_zero: f64,
    per_m: f64,
}

impl BeamSolver<'_> {
    /// Finds the pulls; false where the beam would tip.
    ///
    /// The quick way changes all wrong supports at once and stops when none is wrong,
    /// which is the answer since the answer is unique. Failing that, the sure way:
    /// from two taut supports that carry the weight between them, add the most
    /// stretched slack one, step towards the new balance as far as no taut one
    /// pushes, drop those that reach zero (the active-set method for convex
    /// quadratic programs; Lawson and Hanson 1974, chapter 23). Each full step lowers
    /// the energy, so that no set of taut supports comes back, and there are finitely
    /// many.
    pub fn solve(&mut self, supports: &[Support]) -> bool {
        self.pull_n.clear();
        self.pull_n.resize(supports.len(), 0.0);
        if self.total_n == 0.0 && self.moment_n_m == 0.0 {
            return true;
        }
        let Some(first_of_pair) = self.bearing_pair(supports) else {
            return false;
        };
        if supports.len() == 1 {
            self.pull_n[0] = self.total_n;
            return true;
        }
        if !self.quick_way(supports) {
            self.sure_way(supports, first_of_pair);
        }
        for pull_n in &mut self.pull_n {
            // What is left below zero is rounding: a hanger never pushes.
            *pull_n = pull_n.max(0.0);
        }
        true
    }

    /// How far the beam lies above each taut length, m, after [`Self::solve`].
    pub(super) fn lift_m(&self, supports: &[Support]) -> Vec<f64> {
        let mut pulling = (0..supports.len()).filter(|&which| self.pull_n[which] > 0.0);
        let (Some(first), Some(last)) = (pulling.next(), pulling.next_back()) else {
            return vec![0.0; supports.len()];
        };
        let line = self.line(supports, first, last);
        (0..supports.len())
            .map(|which| {
                if self.pull_n[which] > 0.0 {
                    0.0
                } else {
                    (self.lift(supports, line, which) / self.load.stiffness_n_m2).max(0.0)
                }
            })
            .collect()
    }

    /// Two neighbouring supports with the weight between them, by index of the first.
    fn bearing_pair(&self, supports: &[Support]) -> Option<usize> {
        let (first, last) = (supports.first()?.station_m, supports.last()?.station_m);
        let reach = tolerance::BEAM * self.load.length_m.abs().max(1.0);
        let centre = self.moment_n_m / self.total_n;
        if !(first - reach <= centre && centre <= last + reach) {
            return None;
        }
        let after = supports.partition_point(|support| support.station_m <= centre);
        Some(after.clamp(1, supports.len().max(2) - 1) - 1)
    }

    fn quick_way(&mut self, supports: &[Support]) -> bool {
        self.taut.clear();
        self.taut.extend(0..supports.len());
        let (pull_rounding, lift_rounding) = (self.pull_rounding(), self.lift_rounding());
        for _ in 0..QUICK_ROUNDS {
            if self.taut.len() < 2 {
                return false;
            }
            self.try_taut(supports);
            self.accept_trial();
            let mut wrong = self.trial_n.iter().any(|&pull_n| pull_n < -pull_rounding);
            if !wrong && self.taut.len() == supports.len() {
                return true;
            }
            let line = self.line(supports, self.taut[0], self.taut[self.taut.len() - 1]);
            self.previous.clone_from(&self.taut);
            self.taut.clear();
            let mut before = self.previous.iter().peekable();
            for which in 0..supports.len() {
                let stays = if before.next_if_eq(&&which).is_some() {
                    self.pull_n[which] >= -pull_rounding
                } else {
                    let stretched = self.lift(supports, line, which) < -lift_rounding;
                    wrong |= stretched;
                    stretched
                };
                if stays {
                    self.taut.push(which);
                }
            }
            if !wrong {
                return true;
            }
        }
        false
    }

    fn sure_way(&mut self, supports: &[Support], first_of_pair: usize) {
        self.taut.clear();
        self.taut.extend([first_of_pair, first_of_pair + 1]);
        self.try_taut(supports);
        self.accept_trial();
        let lift_rounding = self.lift_rounding();
        for _ in 0..SURE_STEPS * supports.len() {
            let line = self.line(supports, self.taut[0], self.taut[self.taut.len() - 1]);
            let most_stretched = (0..supports.len())
                .filter(|which| self.taut.binary_search(which).is_err())
                .map(|which| (self.lift(supports, line, which), which))
                .min_by(|a, b| a.0.total_cmp(&b.0))
                .filter(|&(lift, _)| lift < -lift_rounding);
            let Some((_, which)) = most_stretched else {
                return;
            };
            let at = self.taut.partition_point(|&taut| taut < which);
            self.taut.insert(at, which);
            self.rebalance(supports);
        }
    }

    /// From pulls that balance, steps to the balance of the taut supports, dropping
    /// those that would have to push.
    fn rebalance(&mut self, supports: &[Support]) {
        let rounding = self.pull_rounding();
        loop {
            self.try_taut(supports);
            let step = self
                .taut
                .iter()
                .zip(&self.trial_n)
                .filter(|&(_, &trial_n)| trial_n < -rounding)
                .map(|(&which, &trial_n)| {
                    let pull_n = self.pull_n[which].max(0.0);
                    pull_n / (pull_n - trial_n)
                })
                .fold(f64::INFINITY, f64::min);
            if step > 1.0 || self.taut.len() <= 2 {
                self.accept_trial();
                return;
            }
            for (&which, &trial_n) in self.taut.iter().zip(&self.trial_n) {
                self.pull_n[which] += step * (trial_n - self.pull_n[which]);
            }
            let mut trial = self.trial_n.iter();
            let pull_n = &mut self.pull_n;
            self.taut.retain(|&which| {
                let pushes = trial.next().is_some_and(|&trial_n| trial_n < -rounding);
                let drop = pushes && pull_n[which] <= rounding;
                if drop {
                    pull_n[which] = 0.0;
                }
                !drop
            });
        }
    }

    fn accept_trial(&mut self) {
        self.pull_n.fill(0.0);
        for (&which, &trial_n) in self.taut.iter().zip(&self.trial_n) {
            self.pull_n[which] = trial_n;
        }
    }

    /// Rounding of a lift times stiffness, N m3.
    fn lift_rounding(&self) -> f64 {
        let length = self.load.length_m;
        self.pull_rounding() * length * length * length
    }

    /// How far the beam is above the taut length of a support, times stiffness.
    fn lift(&self, supports: &[Support], line: Line, which: usize) -> f64 {
        let support = supports[which];
        let straight = line.at_zero + line.per_m * support.station_m;
        straight + self.bending(supports, support.station_m)
            - self.load.stiffness_n_m2 * support.offset_m
    }

    /// The straight part of the line through two taut supports.
    fn line(&self, supports: &[Support], first: usize, last: usize) -> Line {
        let left = |which: usize| {
            let support = supports[which];
            self.load.stiffness_n_m2 * support.offset_m - self.bending(supports, support.station_m)
        };
        let (from, to) = (supports[first].station_m, supports[last].station_m);
        let per_m = (left(last) - left(first)) / (to - from);
        Line {
            at_zero: left(first) - per_m * from,
            per_m,
        }
    }

    /// What the pulls and loads before a station bend into the line there, times
    /// stiffness: the twice integrated moment (Macaulay's brackets).
    fn bending(&self, supports: &[Support], station_m: f64) -> f64 {
        let cube = |reach: f64| {
            let reach = reach.max(0.0);
            reach * reach * reach
        };
        let pulls: f64 = supports
            .iter()
            .zip(&self.pull_n)
            .map(|(support, &pull_n)| pull_n * cube(station_m - support.station_m))
            .sum();
        let points: f64 = self
            .points
            .iter()
            .map(|point| point.force_n * cube(station_m - point.station_m))
            .sum();
        let spread = self.load.spread_n_per_m * station_m * cube(station_m);
        (pulls - points) / 6.0 - spread / 24.0
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

    use super::*;
    use crate::hanging::beam::{BeamLoad, PointLoad};

    /// The sure way alone, for comparison.
    fn surely(load: &BeamLoad, supports: &[Support]) -> Vec<f64> {
        let mut solver = BeamSolver::new(load);
        solver.pull_n.resize(supports.len(), 0.0);
        let pair = solver.bearing_pair(supports).unwrap();
        solver.sure_way(supports, pair);
        solver.pull_n
    }

    #[test]
    fn both_ways_find_the_same_balance() {
        let mut random = fastrand::Rng::with_seed(7);
        let mut slack = 0;
        for _ in 0..2_000 {
            let length_m = 4.0 + 18.0 * random.f64();
            let load = BeamLoad {
                length_m,
                spread_n_per_m: 60.0 * random.f64(),
                points: vec![
                    PointLoad {
                        station_m: -random.f64(),
                        force_n: 500.0 * random.f64(),
                    },
                    PointLoad {
                        station_m: length_m * random.f64(),
                        force_n: 300.0 * random.f64(),
                    },
                ],
                stiffness_n_m2: 1e5,
            };
            let mut supports = Vec::new();
            let mut station_m = 0.5 * random.f64();
            while station_m < length_m {
                supports.push(Support {
                    station_m,
                    offset_m: 0.01 * (random.f64() - 0.5),
                });
                station_m += 0.3 + 2.5 * random.f64();
            }
            let mut solver = BeamSolver::new(&load);
            if !solver.solve(&supports) {
                continue;
            }
            for (quick, sure) in solver.pull_n().iter().zip(surely(&load, &supports)) {
                assert!(
                    (quick - sure).abs() < 1e-7 * load.total_n(),
                    "{quick} {sure}"
                );
                slack += usize::from(sure == 0.0);
            }
        }
        assert!(slack > 1_000, "only {slack} slack hangers were tried");
    }
}
