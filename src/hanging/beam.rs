//! A tube on its hangers: a continuous beam on supports that pull up or go slack.
//!
//! Three-moment equation (Clapeyron 1857; any text on statics of continuous beams)
//! for the taut supports, with support settlements:
//! `M[i-1] h[i-1] + 2 M[i] (h[i-1] + h[i]) + M[i+1] h[i] = -6 (A a / h)[i-1] - 6 (A b / h)[i] + 6 EI (slope[i] - slope[i-1])`,
//! M sagging positive, `slope[i] = (v[i+1] - v[i]) / h[i]`, v upward. What is known is
//! a minimum of the strain energy plus the energy of the loads over all reactions
//! that don't push: strictly convex, so that the answer is unique and any answer
//! without pushes and without stretched slack hangers is the answer.

mod contact;

use crate::geometry::tolerance;

/// A downward force at one station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PointLoad {
    /// Where it acts, m; may be outside the tube.
    pub station_m: f64,
    /// Its size, N.
    pub force_n: f64,
}

/// What a beam carries: an even load over `0..=length_m`, and single loads.
#[derive(Debug, Clone, PartialEq)]
pub struct BeamLoad {
    /// Length of the tube, m.
    pub length_m: f64,
    /// Even load, N/m.
    pub spread_n_per_m: f64,
    /// Single loads.
    pub points: Vec<PointLoad>,
    /// Bending stiffness, N m2, positive.
    pub stiffness_n_m2: f64,
}

/// Where a hanger holds the beam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Support {
    /// Its station, m, on the tube.
    pub station_m: f64,
    /// How much higher than level the taut hanger holds the beam, m; negative when
    /// it was hung too long.
    pub offset_m: f64,
}

/// What each support does.
#[derive(Debug, Clone, PartialEq)]
pub struct Held {
    /// Pull of each hanger, N, never negative.
    pub pull_n: Vec<f64>,
    /// How far the beam lifts off each taut length, m; zero where a hanger pulls.
    pub lift_m: Vec<f64>,
}

impl BeamLoad {
    /// All that the hangers carry, N.
    #[must_use]
    pub fn total_n(&self) -> f64 {
        self.points
            .iter()
            .fold(self.spread_n_per_m * self.length_m, |sum, point| {
                sum + point.force_n
            })
    }

    /// Moment of all loads about station 0, N m.
    #[must_use]
    pub fn moment_n_m(&self) -> f64 {
        let spread = self.spread_n_per_m * self.length_m * self.length_m / 2.0;
        self.points
            .iter()
            .fold(spread, |sum, point| sum + point.force_n * point.station_m)
    }

    /// What the hangers do, supports ascending by station and on the tube; none where
    /// the beam would tip, because its weight is not between the outermost of them.
    #[must_use]
    pub fn held_by(&self, supports: &[Support]) -> Option<Held> {
        let mut solver = BeamSolver::new(self);
        solver.solve(supports).then(|| Held {
            pull_n: solver.pull_n().to_vec(),
            lift_m: solver.lift_m(supports),
        })
    }
}

/// Solves one loaded beam on many sets of supports without new memory for each.
#[derive(Debug, Clone)]
pub struct BeamSolver<'a> {
    load: &'a BeamLoad,
    total_n: f64,
    moment_n_m: f64,
    /// Single loads by station.
    points: Vec<PointLoad>,
    pull_n: Vec<f64>,
    /// Trial pulls of the taut supports.
    trial_n: Vec<f64>,
    taut: Vec<usize>,
    previous: Vec<usize>,
    moments: Vec<f64>,
    /// Elimination's upper diagonal.
    upper: Vec<f64>,
}

impl<'a> BeamSolver<'a> {
    /// Prepares a loaded beam.
    #[must_use]
    pub fn new(load: &'a BeamLoad) -> Self {
        let mut points = load.points.clone();
        points.sort_by(|a, b| a.station_m.total_cmp(&b.station_m));
        Self {
            load,
            total_n: load.total_n(),
            moment_n_m: load.moment_n_m(),
            points,
            pull_n: Vec::new(),
            trial_n: Vec::new(),
            taut: Vec::new(),
            previous: Vec::new(),
            moments: Vec::new(),
            upper: Vec::new(),
        }
    }

    /// Pull of each support after a successful [`Self::solve`], N.
    #[must_use]
    pub fn pull_n(&self) -> &[f64] {
        &self.pull_n
    }

    /// Rounding of a pull, N.
    fn pull_rounding(&self) -> f64 {
        self.total_n.abs() * tolerance::BEAM
    }

    /// Fills `trial_n` with what the taut supports would carry, pushes included.
    /// At least two are taut.
    fn try_taut(&mut self, supports: &[Support]) {
        let at = |taut: &[usize], which: usize| supports[taut[which]].station_m;
        let count = self.taut.len();
        self.moments.clear();
        self.moments.resize(count, 0.0);
        self.upper.clear();
        self.upper.resize(count, 0.0);
        self.trial_n.clear();
        self.trial_n.resize(count, 0.0);
        let (first, last) = (at(&self.taut, 0), at(&self.taut, count - 1));
        let spread = self.load.spread_n_per_m;
        // The overhangs: their weight goes to the outermost supports, their moment
        // into the beam.
        let end = self.load.length_m - last;
        self.moments[0] = -spread * first * first / 2.0;
        self.moments[count - 1] = -spread * end * end / 2.0;
        self.trial_n[0] += spread * first;
        self.trial_n[count - 1] += spread * end;
        let inner_from = self.points.partition_point(|p| p.station_m < first);
        let inner_to = self.points.partition_point(|p| p.station_m < last);
        for point in &self.points[..inner_from] {
            self.moments[0] -= point.force_n * (first - point.station_m);
            self.trial_n[0] += point.force_n;
        }
        for point in &self.points[inner_to..] {
            self.moments[count - 1] -= point.force_n * (point.station_m - last);
            self.trial_n[count - 1] += point.force_n;
        }
        self.solve_moments(supports, inner_from..inner_to);
        let mut next_point = inner_from;
        for span in 0..count - 1 {
            let (from, to) = (at(&self.taut, span), at(&self.taut, span + 1));
            let length = to - from;
            let from_moments = (self.moments[span + 1] - self.moments[span]) / length;
            let half = spread * length / 2.0;
            self.trial_n[span] += half + from_moments;
            self.trial_n[span + 1] += half - from_moments;
            while next_point < inner_to && self.points[next_point].station_m < to {
                let point = self.points[next_point];
                let to_right = point.force_n * (point.station_m - from) / length;
                self.trial_n[span + 1] += to_right;
                self.trial_n[span] += point.force_n - to_right;
                next_point += 1;
            }
        }
    }

    /// Solves the three-moment equations; the outermost moments are known.
    fn solve_moments(&mut self, supports: &[Support], inner: std::ops::Range<usize>) {
        let count = self.taut.len();
        let stiffness = self.load.stiffness_n_m2;
        let mut points = &self.points[inner];
        // What the loads of a span ask of the equations at its two ends.
        let mut span_terms = |from: f64, to: f64| {
            let length = to - from;
            let even = self.load.spread_n_per_m * length * length * length / 4.0;
            let (mut at_from, mut at_to) = (even, even);
            let here = points.partition_point(|p| p.station_m < to);
            for point in &points[..here] {
                let (a, b) = (point.station_m - from, to - point.station_m);
                at_from += point.force_n * b * (length * length - b * b) / length;
                at_to += point.force_n * a * (length * length - a * a) / length;
            }
            points = &points[here..];
            (at_from, at_to)
        };
        let support = |which: usize| supports[self.taut[which]];
        let slope = |which: usize| {
            let (a, b) = (support(which), support(which + 1));
            (b.offset_m - a.offset_m) / (b.station_m - a.station_m)
        };
        let (_, mut from_left) = span_terms(support(0).station_m, support(1).station_m);
        let mut upper_before = 0.0;
        for which in 1..count - 1 {
            let (left, here, right) = (support(which - 1), support(which), support(which + 1));
            let (before, after) = (
                here.station_m - left.station_m,
                right.station_m - here.station_m,
            );
            let (to_right, at_next) = span_terms(here.station_m, right.station_m);
            let mut known =
                -from_left - to_right + 6.0 * stiffness * (slope(which) - slope(which - 1));
            from_left = at_next;
            known -= before * self.moments[which - 1];
            if which == count - 2 {
                known -= after * self.moments[count - 1];
            }
            let diagonal = 2.0 * (before + after) - before * upper_before;
            upper_before = after / diagonal;
            self.upper[which] = upper_before;
            self.moments[which] = known / diagonal;
        }
        for which in (1..count.saturating_sub(2)).rev() {
            self.moments[which] -= self.upper[which] * self.moments[which + 1];
        }
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

    use super::*;

    /// Kilograms in, kilograms out: gravity cancels.
    fn check(load: &BeamLoad, stations_m: &[f64], offsets_m: &[f64], expected: &[f64], tol: f64) {
        let supports: Vec<Support> = stations_m
            .iter()
            .zip(offsets_m)
            .map(|(&station_m, &offset_m)| Support {
                station_m,
                offset_m,
            })
            .collect();
        let held = load.held_by(&supports).unwrap();
        assert_eq!(held.pull_n.len(), expected.len());
        for (pull, expected) in held.pull_n.iter().zip(expected) {
            assert!((pull - expected).abs() <= tol, "{:?}", held.pull_n);
        }
    }

    fn even(length_m: f64, spread_n_per_m: f64, stiffness_n_m2: f64) -> BeamLoad {
        BeamLoad {
            length_m,
            spread_n_per_m,
            points: Vec::new(),
            stiffness_n_m2,
        }
    }

    /// codes.json `hang.2span`, `hang.3span`, `hang.4span`.
    #[test]
    fn equal_spans_share_as_in_the_tables() {
        for expected in [
            &[0.375, 1.25, 0.375][..],
            &[0.4, 1.1, 1.1, 0.4],
            &[0.393, 1.143, 0.929, 1.143, 0.393],
        ] {
            let spans = expected.len() - 1;
            let stations: Vec<f64> = (0..=spans).map(|n| n as f64).collect();
            let level = vec![0.0; stations.len()];
            check(
                &even(spans as f64, 1.0, 1.0),
                &stations,
                &level,
                expected,
                0.001,
            );
        }
    }

    /// codes.json `hang.burner.out`, at the burner's end station 0.
    #[test]
    fn burner_outboard_of_the_first_hanger_loads_it_most() {
        let load = BeamLoad {
            points: vec![PointLoad {
                station_m: 0.0,
                force_n: 30.0,
            }],
            ..even(12.5, 6.5, 1.0)
        };
        let expected = [56.54, 3.06, 21.4, 18.59, 11.65];
        check(
            &load,
            &[0.9, 3.65, 6.4, 9.15, 11.9],
            &[0.0; 5],
            &expected,
            0.011,
        );
    }

    /// codes.json `hang.level`: four spans of 3 m, middle hanger 5 mm low, if it
    /// could push.
    #[test]
    fn level_error_follows_from_stiffness() {
        let stations = [0.0, 3.0, 6.0, 9.0, 12.0];
        let load = even(12.0, 6.5 * 9.806_65, 106_841.0);
        let level: Vec<f64> = [7.66, 22.29, 18.12, 22.29, 7.66]
            .iter()
            .map(|kg| kg * 9.806_65)
            .collect();
        check(&load, &stations, &[0.0; 5], &level, 0.3);
        // Low by so little that it stays taut: the change is in proportion.
        let part = 0.5;
        let changed: Vec<f64> = [-5.19, 19.02, -27.66, 19.02, -5.19]
            .iter()
            .zip(&level)
            .map(|(change, level)| level + part * change * 9.806_65)
            .collect();
        let low = [0.0, 0.0, -0.005 * part, 0.0, 0.0];
        check(&load, &stations, &low, &changed, 1.5);
        // 5 mm low it is slack, and its neighbours carry about 35 kg.
        let supports: Vec<Support> = stations
            .iter()
            .zip([0.0, 0.0, -0.005, 0.0, 0.0])
            .map(|(&station_m, offset_m)| Support {
                station_m,
                offset_m,
            })
            .collect();
        let held = load.held_by(&supports).unwrap();
        assert_eq!(held.pull_n[2], 0.0);
        assert!((held.lift_m[2] - (0.005 - 0.0033)).abs() < 1e-4, "{held:?}");
        assert!((held.pull_n[1] / 9.806_65 - 35.0).abs() < 0.5);
    }

    #[test]
    fn weight_beyond_the_outermost_hanger_tips() {
        let supports = [0.0, 1.0].map(|station_m| Support {
            station_m,
            offset_m: 0.0,
        });
        assert_eq!(even(3.0, 1.0, 1.0).held_by(&supports), None);
        assert_eq!(even(3.0, 1.0, 1.0).held_by(&supports[..0]), None);
        assert!(even(2.0, 1.0, 1.0).held_by(&supports).is_some());
    }

    #[test]
    fn one_hanger_at_the_centre_carries_all() {
        check(&even(3.0, 2.0, 1.0), &[1.5], &[0.0], &[6.0], 1e-12);
    }
}
