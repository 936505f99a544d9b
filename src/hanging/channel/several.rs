//! A cross channel that carries several hangers.

use super::ChannelCheck;
use crate::hanging::steel::ChannelStock;

/// One load on a channel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChannelLoad {
    /// Distance from its first hold, m; between 0 and its span.
    pub to_first_m: f64,
    /// The load, N, not negative.
    pub load_n: f64,
}

impl ChannelCheck {
    /// Loads a channel of span S with several loads F at a and b = S - a from its ends.
    /// Moments and deflections add up (any table of simple beams):
    ///
    /// - moment at x: F b x / S up to the load, F a (S - x) / S beyond it; the greatest
    ///   is at one of the loads.
    /// - deflection at x: F (b x (S2 - b2 - x2) + S <x - a>3) / (6 E I S); the greatest is
    ///   where the slope, which only falls along a beam that no load lifts, is zero.
    #[must_use]
    pub fn under(stock: &ChannelStock, span_m: f64, loads: &[ChannelLoad]) -> Self {
        let mut loads = loads.to_vec();
        loads.sort_by(|one, other| one.to_first_m.total_cmp(&other.to_first_m));
        let beam = Beam {
            span_m,
            loads: &loads,
        };
        let moment_n_m = loads
            .iter()
            .map(|load| beam.moment(load.to_first_m))
            .fold(0.0, f64::max);
        let stiffness = stock.elasticity_pa * stock.second_moment_m4;
        let lowest_m = beam.lowest();
        Self {
            moment_n_m,
            allowed_moment_n_m: stock.allowed_stress_pa * stock.section_modulus_m3,
            deflection_m: beam.sag(lowest_m) / (6.0 * stiffness * span_m),
            allowed_deflection_m: span_m * stock.greatest_deflection_ratio,
        }
    }
}

/// A simple beam with its loads, ascending.
struct Beam<'a> {
    span_m: f64,
    loads: &'a [ChannelLoad],
}

impl Beam<'_> {
    fn moment(&self, x: f64) -> f64 {
        let s = self.span_m;
        let of_one = |load: &ChannelLoad| {
            let a = load.to_first_m;
            let lever = if x <= a { (s - a) * x } else { a * (s - x) };
            load.load_n * lever / s
        };
        self.loads.iter().map(of_one).sum()
    }

    /// Deflection times 6 E I S.
    fn sag(&self, x: f64) -> f64 {
        let s = self.span_m;
        let of_one = |load: &ChannelLoad| {
            let b = s - load.to_first_m;
            let beyond = (x - load.to_first_m).max(0.0);
            load.load_n * (b * x * (s * s - b * b - x * x) + s * beyond * beyond * beyond)
        };
        self.loads.iter().map(of_one).sum()
    }

    /// Where it is lowest. Between two loads the slope is c0 + c1 x + c2 x2 (times
    /// 6 E I S): each load adds b (S2 - b2) - 3 b x2, and once x is beyond it
    /// 3 S (x - a)2.
    fn lowest(&self) -> f64 {
        let s = self.span_m;
        let (mut c0, mut c1, mut c2) = (0.0, 0.0, 0.0);
        for load in self.loads {
            let b = s - load.to_first_m;
            c0 += load.load_n * b * (s * s - b * b);
            c2 -= 3.0 * load.load_n * b;
        }
        let ends = self.loads.iter().map(|load| load.to_first_m).chain([s]);
        for (end_m, passed) in ends.zip(self.loads.iter().map(Some).chain([None])) {
            if c0 + end_m * (c1 + end_m * c2) <= 0.0 {
                return falling_root(c0, c1, c2).clamp(0.0, end_m);
            }
            if let Some(load) = passed {
                let (a, stiff) = (load.to_first_m, 3.0 * s * load.load_n);
                c0 += stiff * a * a;
                c1 -= 2.0 * stiff * a;
                c2 += stiff;
            }
        }
        // Without any load the slope is zero everywhere.
        s / 2.0
    }
}

/// The root at which c0 + c1 x + c2 x2, c1 not positive, falls through zero, worked out
/// so that nearly equal numbers are not taken from each other; 0 where all is zero.
fn falling_root(c0: f64, c1: f64, c2: f64) -> f64 {
    let divisor = (c1 * c1 - 4.0 * c0 * c2).max(0.0).sqrt() - c1;
    if divisor > 0.0 {
        2.0 * c0 / divisor
    } else {
        0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hanging::candidate::ChannelLay;

    /// The beam by halves of a millimetre: moment and deflection of each load apart.
    fn sampled(stock: &ChannelStock, span_m: f64, loads: &[ChannelLoad]) -> (f64, f64) {
        let stiffness = stock.elasticity_pa * stock.second_moment_m4;
        let steps = 20_000;
        let (mut moment, mut sag) = (0.0_f64, 0.0_f64);
        for step in 0..=steps {
            let x = span_m * f64::from(step) / f64::from(steps);
            let reaction: f64 = loads
                .iter()
                .map(|it| it.load_n * (span_m - it.to_first_m) / span_m)
                .sum();
            let passed = loads.iter().filter(|it| it.to_first_m < x);
            let taken: f64 = passed.map(|it| it.load_n * (x - it.to_first_m)).sum();
            moment = moment.max(reaction * x - taken);
            let at_x: f64 = loads
                .iter()
                .map(|it| {
                    // Seen from the nearer end's table entry: a beam is the same from both.
                    let (a, x) = if x <= it.to_first_m {
                        (it.to_first_m, x)
                    } else {
                        (span_m - it.to_first_m, span_m - x)
                    };
                    let b = span_m - a;
                    it.load_n * b * x * (span_m * span_m - b * b - x * x)
                        / (6.0 * stiffness * span_m)
                })
                .sum();
            sag = sag.max(at_x);
        }
        (moment, sag)
    }

    fn near(value: f64, expected: f64, part: f64) {
        assert!(
            (value - expected).abs() <= part * expected.abs().max(1e-12),
            "{value}, expected {expected}"
        );
    }

    #[test]
    fn several_loads_are_those_of_a_finely_sampled_beam() {
        let stock = ChannelStock::default();
        let mut random = fastrand::Rng::with_seed(11);
        for _ in 0..200 {
            let span_m = 0.3 + 2.7 * random.f64();
            let loads: Vec<ChannelLoad> = (0..random.usize(1..5))
                .map(|_| ChannelLoad {
                    to_first_m: span_m * random.f64(),
                    load_n: 900.0 * random.f64(),
                })
                .collect();
            let check = ChannelCheck::under(&stock, span_m, &loads);
            let (moment, sag) = sampled(&stock, span_m, &loads);
            near(check.moment_n_m, moment, 1e-3);
            near(check.deflection_m, sag, 1e-6);
            assert!(check.moment_n_m >= moment - 1e-9);
            assert!(check.deflection_m >= sag - 1e-12);
        }
    }

    #[test]
    fn one_load_is_the_single_load_of_the_tables() {
        let stock = ChannelStock::default();
        for to_first_m in [0.05, 0.4, 0.75, 1.1, 1.45] {
            let lay = ChannelLay {
                span_m: 1.5,
                to_first_m,
            };
            let load_n = 400.0;
            let one = ChannelCheck::new(&stock, lay, load_n);
            let same = ChannelCheck::under(&stock, 1.5, &[ChannelLoad { to_first_m, load_n }]);
            near(same.moment_n_m, one.moment_n_m, 1e-12);
            near(same.deflection_m, one.deflection_m, 1e-12);
        }
    }

    #[test]
    fn an_unloaded_channel_is_straight() {
        let none = ChannelCheck::under(&ChannelStock::default(), 2.0, &[]);
        assert_eq!((none.moment_n_m, none.deflection_m), (0.0, 0.0));
        let nothing = ChannelLoad {
            to_first_m: 0.7,
            load_n: 0.0,
        };
        let light = ChannelCheck::under(&ChannelStock::default(), 2.0, &[nothing]);
        assert_eq!((light.moment_n_m, light.deflection_m), (0.0, 0.0));
    }
}
