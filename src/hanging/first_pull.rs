//! What the first hanger carries at least, whatever hangs beyond the first few.
//!
//! The burner makes the first hanger the one that most often asks too much of its hold,
//! and thousands of sets that differ far away only would all be tried in vain. What is
//! far away hardly matters, so that from the first few stations alone a close lower
//! bound is known, and a beginning which can't come to anything is left at once.
//!
//! Notation: hangers 1, 2, .. k; M bending moment, sagging positive; q even load;
//! v >= 0 the lift of the beam at a hanger, 0 where it pulls ("taut"). No single load
//! stands between the first and the last hanger, so M1 at the first and Mk at the last
//! are those of the overhangs. Statics gives the first pull as `(L + M2) / h`, h from
//! hanger 1 to 2, L the moment of all loads up to hanger 2 about it; what follows bounds
//! M2 from below.
//!
//! 1. The three-moment equation holds between taut hangers a, b, c at H and H':
//!    `2 Mb (H + H') + Ma H + Mc H' = -q (H3 + H'3) / 4`. With any hanger in place of a
//!    or c, since v >= 0 there, the left side is at least the right one.
//! 2. Where the neighbouring taut hangers hog by at most C, `M <= C / 2` at every hanger
//!    between: at a taut one by 1; at a slack one, a part t along H, v >= 0 asks for
//!    `A (2 - t) + B (1 + t) >= q H2 (1 + t - t2) / 4` of the hogging A and B of its
//!    neighbours, and with it M is at most `s(t) A + s(1 - t) B`,
//!    `s(t) = (1 - t)(3 t - t2 - 1) / (1 + t - t2)`, whose maximum over A, B in -C/2..C
//!    and all t is C / 2; s(t) is at most 0.152.
//! 3. By 1 and 2 no taut hanger within hogs by more than
//!    `max(q g2 / 6, q g2 / 8 + max(|M1|, |Mk|) / 4)`, g the greatest gap.
//!
//! Every choice of taut hangers among the known ones that 2 doesn't rule out is followed:
//! by 1 each moment is known from that of the next taut hanger, with a factor of about a
//! quarter, until the known hangers end and 2 and 3 bound the last.

use super::beam::BeamLoad;
use super::run::HangingRule;
use crate::geometry::tolerance;

/// The bound for one run.
#[derive(Debug, Clone, Copy)]
pub(super) struct FirstPull<'a> {
    load: &'a BeamLoad,
    least_gap_m: f64,
    greatest_gap_m: f64,
    /// Greatest hogging at the last hanger, N m.
    last_hogging: f64,
    /// The bound holds for first hangers from here on.
    clear_from_m: f64,
}

/// The greatest of s(t) in 2 above.
const SLACK_SHARE: f64 = 0.152;

/// The first hangers of a set, and what is known of all beyond.
#[derive(Clone, Copy)]
struct Known<'a> {
    stations_m: &'a [f64],
    q: f64,
    /// Moment at the first.
    m1: f64,
    /// Greatest hogging of any taut hanger but the first.
    hogging: f64,
    least_gap_m: f64,
}

/// The taut hangers followed so far: the moment before the last of them is
/// `alpha - beta M`, M that at the last, and the one sought is `x + y M`.
#[derive(Clone, Copy)]
struct Chain {
    last: usize,
    span_m: f64,
    alpha: f64,
    beta: f64,
    x: f64,
    y: f64,
}

impl<'a> FirstPull<'a> {
    /// Prepares the bound for a rule's windows.
    pub(super) fn new(load: &'a BeamLoad, rule: &HangingRule) -> Self {
        let length_m = load.length_m;
        let overhang_m = (rule.greatest_overhang_m + tolerance::LIMIT).min(length_m);
        let beyond = load
            .points
            .iter()
            .filter(|point| point.station_m >= length_m);
        let of_points: f64 = beyond
            .map(|point| point.force_n * (point.station_m - length_m + overhang_m))
            .sum();
        let clear_from_m = load
            .points
            .iter()
            .map(|point| point.station_m)
            .filter(|&station_m| station_m < length_m)
            .fold(f64::NEG_INFINITY, f64::max);
        let greatest_m = rule.second.greatest_m.max(rule.spacing.greatest_m);
        Self {
            load,
            least_gap_m: (rule.spacing.least_m - tolerance::LIMIT).max(0.0),
            greatest_gap_m: (greatest_m + tolerance::LIMIT).min(length_m),
            last_hogging: load.spread_n_per_m * overhang_m * overhang_m / 2.0 + of_points,
            clear_from_m,
        }
    }

    /// A lower bound of the first hanger's pull, N, in any set that begins with these
    /// stations, three at least, and goes on or ends; 0 where nothing is known.
    pub(super) fn least_n(&self, stations_m: &[f64]) -> f64 {
        let &[first, second, _, ..] = stations_m else {
            return 0.0;
        };
        let load = self.load;
        // Some hanger beyond the first is taut if the weight is beyond it.
        if first < self.clear_from_m || load.moment_n_m() <= load.total_n() * first {
            return 0.0;
        }
        let (q, g) = (load.spread_n_per_m, self.greatest_gap_m);
        let m1 = -self.left_of(first);
        let within = q * g * g / 8.0 + self.last_hogging.max(-m1) / 4.0;
        let known = Known {
            stations_m,
            q,
            m1,
            hogging: within.max(q * g * g / 6.0).max(self.last_hogging),
            least_gap_m: self.least_gap_m,
        };
        ((self.left_of(second) + known.least_second_moment()) / (second - first)).max(0.0)
    }

    /// Moment of the loads left of a station about it, N m.
    fn left_of(&self, station_m: f64) -> f64 {
        let points = self
            .load
            .points
            .iter()
            .filter(|point| point.station_m < station_m)
            .map(|point| point.force_n * (station_m - point.station_m));
        self.load.spread_n_per_m * station_m * station_m / 2.0 + points.sum::<f64>()
    }
}

impl Known<'_> {
    /// A lower bound of the moment at the second hanger.
    fn least_second_moment(&self) -> f64 {
        let (m1, q) = (self.m1, self.q);
        let to_second = self.gap(0, 1);
        let mut least = f64::INFINITY;
        for taut in 1..self.stations_m.len() {
            if !self.may_skip(0, taut, -m1) {
                continue;
            }
            let span_m = self.gap(0, taut);
            // Between the first and the next taut one the moment is a parabola.
            let part = to_second / span_m;
            least = least.min(self.follow(Chain {
                last: taut,
                span_m,
                alpha: m1,
                beta: 0.0,
                x: m1 * (1.0 - part) + q * to_second * (span_m - to_second) / 2.0,
                y: part,
            }));
        }
        if self.may_skip_all_after(0, -m1) {
            least = least.min(self.if_the_next_is_beyond());
        }
        least
    }

    /// The bound in all sets whose taut hangers begin with a chain.
    fn follow(&self, chain: Chain) -> f64 {
        let ended = self.ended(chain);
        if chain.last + 1 == self.stations_m.len() {
            return ended;
        }
        let mut least = if self.may_skip_all_after(chain.last, self.hogging) {
            ended
        } else {
            f64::INFINITY
        };
        for next in chain.last + 1..self.stations_m.len() {
            if self.may_skip(chain.last, next, self.hogging) {
                let after = self.gap(chain.last, next);
                let (known, divisor) = self.three_moments(chain, after);
                let (alpha, beta) = (known / divisor, after / divisor);
                least = least.min(self.follow(Chain {
                    last: next,
                    span_m: after,
                    alpha,
                    beta,
                    x: chain.x + chain.y * alpha,
                    y: -chain.y * beta,
                }));
            }
        }
        least.max(ended)
    }

    /// The equation at the last of a chain: what is known, and what its moment is
    /// multiplied by.
    fn three_moments(&self, chain: Chain, after: f64) -> (f64, f64) {
        let before = chain.span_m;
        let cubes = before * before * before + after * after * after;
        (
            -self.q * cubes / 4.0 - chain.alpha * before,
            2.0 * (before + after) - chain.beta * before,
        )
    }

    /// The bound that needs nothing beyond the last of a chain but the next hanger.
    fn ended(&self, chain: Chain) -> f64 {
        let c = self.hogging;
        if chain.y < 0.0 {
            // By 1 with a next taut hanger that hogs by at most c, at any distance.
            let most = (c / 2.0).max(-chain.alpha / (2.0 - chain.beta));
            return chain.x + chain.y * most;
        }
        let mut least = -c;
        if chain.last + 1 < self.stations_m.len() {
            // By 1 with the next hanger, whose moment is at most c / 2, or, if the last
            // one sags, at most 0.152 c more than that.
            let after = self.gap(chain.last, chain.last + 1);
            let (known, divisor) = self.three_moments(chain, after);
            let hogs = (known - c / 2.0 * after) / divisor;
            let sags = (known - SLACK_SHARE * c * after) / (divisor + after);
            least = least.max(hogs.min(sags));
        }
        chain.x + chain.y * least
    }

    /// The next taut hanger is beyond the known ones: the second is on the parabola to
    /// it, lowest where it is nearest.
    fn if_the_next_is_beyond(&self) -> f64 {
        let (q, m1, to_second) = (self.q, self.m1, self.gap(0, 1));
        let nearest = self.gap(0, self.stations_m.len() - 1) + self.least_gap_m;
        let relief = -m1 - self.hogging;
        // Relief shrinks with the distance; where the load's part doesn't outgrow that,
        // relief is left out.
        let relief = if relief < 0.0 || relief <= q / 2.0 * nearest * nearest {
            relief
        } else {
            0.0
        };
        m1 + relief * to_second / nearest + q * to_second * (nearest - to_second) / 2.0
    }

    fn gap(&self, from: usize, to: usize) -> f64 {
        self.stations_m[to] - self.stations_m[from]
    }

    /// Whether by 2 all hangers between two taut ones can be slack, the first of which
    /// hogs by at most `hogging`.
    fn may_skip(&self, from: usize, to: usize, hogging: f64) -> bool {
        let span = self.gap(from, to);
        (from + 1..to).all(|between| {
            let t = self.gap(from, between) / span;
            let held = hogging * (2.0 - t) + self.hogging * (1.0 + t);
            held >= self.q * span * span * (1.0 + t - t * t) / 4.0
        })
    }

    /// The same with the next taut hanger beyond the known ones. What the load asks for
    /// grows with its distance faster than what holds, so that the nearest one decides.
    fn may_skip_all_after(&self, from: usize, hogging: f64) -> bool {
        let known = self.stations_m.len();
        let span = self.gap(from, known - 1) + self.least_gap_m;
        (from + 1..known).all(|between| {
            let d = self.gap(from, between);
            let t = d / span;
            let held = hogging * (2.0 - t) + self.hogging * (1.0 + t);
            let asked = self.q * (span * span + d * span - d * d) / 4.0;
            let holds_more_farther = hogging * d / (span * span) > self.q * (2.0 * span + d) / 4.0;
            held >= asked || holds_more_farther
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hanging::beam::{BeamSolver, PointLoad, Support};
    use crate::hanging::run::Window;

    /// Random sets within the windows: the bound is never above what the first hanger
    /// really carries, and mostly near it.
    #[test]
    fn first_hanger_never_carries_less() {
        let mut random = fastrand::Rng::with_seed(5);
        let mut between = |least: f64, greatest: f64| least + (greatest - least) * random.f64();
        let (mut near, mut sets) = ([0; 7], 0);
        for _ in 0..20_000 {
            let window = |least_m: f64, greatest_m: f64| Window {
                least_m,
                greatest_m,
            };
            let rule = HangingRule {
                first: window(0.1, between(0.3, 1.2)),
                second: window(1.1, between(1.2, 2.6)),
                spacing: window(between(0.2, 0.9), between(1.6, 2.9)),
                greatest_overhang_m: between(0.3, 1.4),
                joints_m: Vec::new(),
                joint_keep_off_m: 0.0,
                least_suspension_m: 0.0,
                greatest_lean_rad: 0.1,
                greatest_swing_rad: 0.1,
            };
            let length_m = between(3.5, 22.0);
            let load = BeamLoad {
                length_m,
                spread_n_per_m: between(20.0, 120.0),
                points: vec![
                    PointLoad {
                        station_m: -between(0.0, 0.5),
                        force_n: between(0.0, 500.0),
                    },
                    PointLoad {
                        station_m: length_m + between(0.0, 0.4),
                        force_n: between(0.0, 200.0),
                    },
                ],
                stiffness_n_m2: 1.0,
            };
            let mut stations = vec![between(rule.first.least_m, rule.first.greatest_m)];
            stations.push(stations[0] + between(1.1, rule.second.greatest_m));
            while let Some(&last) = stations.last()
                && length_m - last > rule.greatest_overhang_m
            {
                let window = rule.spacing;
                // Often at the ends of the window, where hangers go slack.
                let part = [0.0, 1.0, between(0.0, 1.0), between(0.0, 1.0)];
                let part = part[stations.len() * 7 % 4];
                let step = window.least_m + part * (window.greatest_m - window.least_m);
                stations.push(last + step);
            }
            if stations.len() < 4 || stations[stations.len() - 1] > length_m {
                continue;
            }
            let supports: Vec<Support> = stations
                .iter()
                .map(|&station_m| Support {
                    station_m,
                    offset_m: 0.0,
                })
                .collect();
            let mut solver = BeamSolver::new(&load);
            if !solver.solve(&supports) {
                continue;
            }
            let pull_n = solver.pull_n()[0];
            let bound = FirstPull::new(&load, &rule);
            for (known, part) in [(3, 0.85), (4, 0.9), (5, 0.95), (6, 0.97)] {
                let least_n = bound.least_n(&stations[..known.min(stations.len())]);
                assert!(
                    least_n <= pull_n * (1.0 + 1e-9),
                    "{least_n} is more than {pull_n}: {load:?} {stations:?}"
                );
                near[known] += usize::from(least_n > part * pull_n);
            }
            sets += 1;
        }
        assert!(sets > 5_000, "only {sets} sets");
        assert!(
            near[3..].iter().all(|near| near * 2 > sets),
            "{near:?} of {sets}"
        );
    }
}
