//! A cross channel as a simple beam under its loads, and the pull in a leaning leg.

mod several;

pub use several::ChannelLoad;

use super::candidate::ChannelLay;
use super::steel::ChannelStock;
use crate::geometry::math::cos;
use crate::geometry::tolerance;

/// What its loads do to a cross channel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChannelCheck {
    /// Greatest bending moment, N m.
    pub moment_n_m: f64,
    /// Allowed stress times section modulus, N m.
    pub allowed_moment_n_m: f64,
    /// Greatest deflection, m, wherever it is.
    pub deflection_m: f64,
    /// The part of its span that it may deflect, m.
    pub allowed_deflection_m: f64,
}

impl ChannelCheck {
    /// Loads a channel of span S with F at a and b = S - a from its ends: moment
    /// F a b / S; deflection F c (S2 - c2)^1.5 / (9 sqrt(3) E I S), c the lesser of a
    /// and b (any table of simple beams; CODES.md 4.5 has the same beam at midspan).
    #[must_use]
    pub fn new(stock: &ChannelStock, lay: ChannelLay, load_n: f64) -> Self {
        let span = lay.span_m;
        let (a, b) = (lay.to_first_m, span - lay.to_first_m);
        let c = a.min(b);
        let free = span * span - c * c;
        let stiffness = stock.elasticity_pa * stock.second_moment_m4;
        Self {
            moment_n_m: load_n * a * b / span,
            allowed_moment_n_m: stock.allowed_stress_pa * stock.section_modulus_m3,
            deflection_m: load_n * c * free * free.sqrt()
                / (9.0 * 3.0_f64.sqrt() * stiffness * span),
            allowed_deflection_m: span * stock.greatest_deflection_ratio,
        }
    }

    /// Whether it bears the load and stays straight enough.
    #[must_use]
    pub fn passes(&self) -> bool {
        self.moment_n_m <= self.allowed_moment_n_m * (1.0 + tolerance::LIMIT)
            && self.deflection_m <= self.allowed_deflection_m * (1.0 + tolerance::LIMIT)
    }

    /// The greatest load that passes, N: both figures grow with the load.
    #[must_use]
    pub fn greatest_load_n(stock: &ChannelStock, lay: ChannelLay) -> f64 {
        let of_one = Self::new(stock, lay, 1.0);
        (of_one.allowed_moment_n_m / of_one.moment_n_m)
            .min(of_one.allowed_deflection_m / of_one.deflection_m)
    }
}

/// Pull in each of `legs` equal legs for each newton that hangs on them, all leaning
/// by `angle_rad` (less than a quarter turn) from the vertical: 1 / (legs cos angle).
#[must_use]
pub fn leg_factor(legs: u32, angle_rad: f64) -> f64 {
    1.0 / (f64::from(legs) * cos(angle_rad))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Force, Length};

    /// A channel of `i_in4` and `z_in3`, as the load tables give them.
    fn stock(i_in4: f64, z_in3: f64, deflection_ratio: f64) -> ChannelStock {
        let inch = Length::inches(1.0).as_metres();
        ChannelStock {
            second_moment_m4: i_in4 * inch.powi(4),
            section_modulus_m3: z_in3 * inch.powi(3),
            greatest_deflection_ratio: deflection_ratio,
            ..ChannelStock::default()
        }
    }

    fn midspan(span_in: f64) -> ChannelLay {
        let span_m = Length::inches(span_in).as_metres();
        ChannelLay {
            span_m,
            to_first_m: span_m / 2.0,
        }
    }

    fn pounds(force_n: f64) -> f64 {
        Force::newtons(force_n).as_pounds_force()
    }

    fn near(value: f64, expected: f64, part: f64) {
        assert!(
            (value - expected).abs() <= part * expected,
            "{value}, expected {expected}"
        );
    }

    /// codes.json `strut.*`: allowed even load W, half of it at midspan; deflection
    /// under W, which is 1/0.8 of that under W/2 at midspan; W for S/240 and S/360,
    /// 8/5 of the midspan load of equal deflection.
    #[test]
    fn strength_and_deflection_are_those_of_the_load_tables() {
        for (i, z, span_in, w, deflection, w_240, w_360) in [
            (0.185, 0.202, 24.0, 1683.3, 0.056, 3031.9, 2021.3),
            (0.185, 0.202, 60.0, 673.3, 0.347, 485.1, 323.4),
            (0.185, 0.202, 120.0, 336.7, 1.388, 121.3, 80.9),
            (0.302, 0.242, 36.0, 1344.4, 0.092, 2199.8, 1466.5),
            (0.302, 0.242, 96.0, 504.2, 0.652, 309.3, 206.2),
        ] {
            let lay = midspan(span_in);
            let endless = stock(i, z, f64::INFINITY);
            let at_midspan = ChannelCheck::greatest_load_n(&endless, lay);
            near(2.0 * pounds(at_midspan), w, 0.01);
            let check = ChannelCheck::new(&endless, lay, at_midspan);
            let sag_in = Length::metres(check.deflection_m).as_inches();
            near(sag_in / 0.8, deflection, 0.01);
            for (ratio, expected) in [(240.0, w_240), (360.0, w_360)] {
                let stiff = ChannelStock {
                    allowed_stress_pa: f64::INFINITY,
                    ..stock(i, z, 1.0 / ratio)
                };
                let load = ChannelCheck::greatest_load_n(&stiff, lay);
                near(1.6 * pounds(load), expected, 0.01);
            }
        }
    }

    /// codes.json `strut.published.*`: rows of trade tables, 2 %.
    #[test]
    fn published_rows_are_met() {
        for (z, span_in, slots, published) in [
            (0.242, 36.0, 1.0, 1350.0),
            (0.242, 72.0, 1.0, 670.0),
            (0.158, 36.0, 0.9, 792.0),
            (0.158, 120.0, 0.9, 234.0),
        ] {
            let endless = stock(0.302, z, f64::INFINITY);
            let load = ChannelCheck::greatest_load_n(&endless, midspan(span_in));
            near(2.0 * slots * pounds(load), published, 0.02);
        }
    }

    #[test]
    fn greatest_deflection_is_between_the_load_and_midspan() {
        // Against a fine sum of the deflection curve, load at 0.3 of the span.
        let stock = ChannelStock::default();
        let lay = ChannelLay {
            span_m: 1.5,
            to_first_m: 0.45,
        };
        let check = ChannelCheck::new(&stock, lay, 400.0);
        let stiffness = stock.elasticity_pa * stock.second_moment_m4;
        let (b, s) = (1.05, 1.5);
        let greatest = (0..=1500)
            .map(|mm| {
                let x = f64::from(mm) / 1000.0;
                let cube = (x - 0.45_f64).max(0.0).powi(3);
                400.0 / (6.0 * stiffness * s) * (b * x * (s * s - b * b - x * x) + s * cube)
            })
            .fold(0.0, f64::max);
        near(check.deflection_m, greatest, 1e-5);
        near(check.moment_n_m, 400.0 * 0.45 * 1.05 / 1.5, 1e-12);
    }

    /// codes.json `rope.vee`.
    #[test]
    fn two_legs_share_as_the_bridle_table_says() {
        for (degrees, factor) in [(30.0_f64, 0.577), (45.0, 0.707), (60.0, 1.0)] {
            near(leg_factor(2, degrees.to_radians()), factor, 0.001);
        }
    }
}
