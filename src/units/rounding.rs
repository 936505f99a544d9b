//! Rounding to the safe side: it never turns a breach into a pass.
//!
//! What there is (a distance, a capacity) is rounded down, what is needed (a
//! clearance, a load) is rounded up. A figure within the margin that limits are
//! judged by counts as being on the step, so that a limit which is just met is
//! printed as met.

use super::quantity::{Angle, AreaLoad, Force, Length, LinearDensity, Mass, Power, Pressure};
use super::tolerance;

/// Which way a figure is rounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Rounding {
    /// To the nearest step, halves away from zero: figures that nobody compares with a limit.
    #[default]
    Nearest,
    /// Towards minus infinity: what is available.
    Down,
    /// Towards plus infinity: what is needed.
    Up,
}

/// How far on the wrong side of a step a figure may be and still count as on it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Slack {
    /// In the base unit.
    pub(super) absolute: f64,
    /// As a share of the figure.
    pub(super) relative: f64,
}

impl Slack {
    /// Metres, as lengths are judged.
    pub(super) const LENGTH: Self = Self {
        absolute: tolerance::ROUNDING_STEP,
        relative: 0.0,
    };
    /// Degrees: lengths and angles are judged alike, angles in radians.
    pub(super) const ANGLE: Self = Self {
        absolute: tolerance::ROUNDING_STEP * 180.0 / std::f64::consts::PI,
        relative: 0.0,
    };
    /// A share, as loads are judged.
    pub(super) const RELATIVE: Self = Self {
        absolute: 0.0,
        relative: tolerance::ROUNDING_STEP,
    };

    /// The slack of a figure in the base unit.
    pub(super) fn of(self, value: f64) -> f64 {
        self.absolute + self.relative * value.abs()
    }
}

/// `value` as a multiple of `step`; unchanged where the step is not a positive number.
fn to_step(value: f64, step: f64, slack: Slack, rounding: Rounding) -> f64 {
    if !(step.is_finite() && step > 0.0) {
        return value;
    }
    let slack = slack.of(value);
    let steps = match rounding {
        Rounding::Nearest => (value / step).round(),
        Rounding::Down => ((value + slack) / step).floor(),
        Rounding::Up => ((value - slack) / step).ceil(),
    };
    steps * step
}

/// Gives a quantity its safe roundings.
macro_rules! safe_rounding {
    ($($name:ident, $base:ident, $as_base:ident, $slack:expr;)*) => { $(
        impl $name {
            /// Down to a multiple of `step`, for what is available. Within the margin
            /// that limits are judged by, the next multiple counts as reached. A step
            /// that is not positive changes nothing.
            #[must_use]
            pub fn rounded_down_to(self, step: Self) -> Self {
                Self::$base(to_step(self.$as_base(), step.$as_base(), $slack, Rounding::Down))
            }

            /// Up to a multiple of `step`, for what is needed. Within the margin that
            /// limits are judged by, the multiple below counts as not passed. A step
            /// that is not positive changes nothing.
            #[must_use]
            pub fn rounded_up_to(self, step: Self) -> Self {
                Self::$base(to_step(self.$as_base(), step.$as_base(), $slack, Rounding::Up))
            }

            /// To the nearest multiple of `step`, halves away from zero. Not for what
            /// is compared with a limit. A step that is not positive changes nothing.
            #[must_use]
            pub fn rounded_to(self, step: Self) -> Self {
                Self::$base(to_step(self.$as_base(), step.$as_base(), $slack, Rounding::Nearest))
            }
        }
    )* };
}

safe_rounding! {
    Length, metres, as_metres, Slack::LENGTH;
    Angle, degrees, as_degrees, Slack::ANGLE;
    Force, newtons, as_newtons, Slack::RELATIVE;
    Mass, kilograms, as_kilograms, Slack::RELATIVE;
    Power, watts, as_watts, Slack::RELATIVE;
    Pressure, pascals, as_pascals, Slack::RELATIVE;
    AreaLoad, pascals, as_pascals, Slack::RELATIVE;
    LinearDensity, kilograms_per_metre, as_kilograms_per_metre, Slack::RELATIVE;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slack_is_the_margin_that_limits_are_judged_by() {
        assert_eq!(tolerance::ROUNDING_STEP, crate::geometry::tolerance::LIMIT);
    }

    #[test]
    fn available_goes_down_and_needed_goes_up() {
        let step = Length::millimetres(100.0);
        let close = |left: Length, right_m: f64| (left.as_metres() - right_m).abs() < 1e-12;
        assert!(close(Length::metres(3.99).rounded_down_to(step), 3.9));
        assert!(close(
            Length::metres(3.999_999_999_6).rounded_down_to(step),
            4.0
        ));
        assert!(close(Length::metres(3.999_998).rounded_down_to(step), 3.9));
        assert!(close(Length::metres(-0.01).rounded_down_to(step), -0.1));
        assert!(close(Length::metres(3.91).rounded_up_to(step), 4.0));
        assert!(close(
            Length::metres(4.000_000_000_4).rounded_up_to(step),
            4.0
        ));
        assert!(close(Length::metres(4.000_002).rounded_up_to(step), 4.1));
        assert!(close(Length::metres(3.96).rounded_to(step), 4.0));
        let four_inches = Length::inches(4.0);
        assert_eq!(
            Length::feet(12.5).rounded_down_to(four_inches),
            four_inches * 37.0
        );
    }

    #[test]
    fn rounding_never_turns_a_breach_into_a_pass() {
        let mut random = fastrand::Rng::with_seed(7);
        let step = Length::millimetres(10.0);
        for _ in 0..20_000 {
            let required_m = f64::from(random.u32(0..1_000)) * 0.01;
            let shortfall_m = random.f64() * 1e-4;
            let measured = Length::metres(required_m - shortfall_m);
            let breach = shortfall_m > crate::geometry::tolerance::LIMIT + 1e-12;
            let shown_m = measured.rounded_down_to(step).as_metres();
            if breach {
                assert!(
                    shown_m < required_m - 0.005,
                    "{required_m} less {shortfall_m}"
                );
            }
        }
        // A load is judged relative to what is allowed.
        let allowed = Force::newtons(450.0);
        let step = Force::newtons(1.0);
        assert_eq!(Force::newtons(450.000_3).rounded_up_to(step), allowed);
        assert!(Force::newtons(450.001).rounded_up_to(step) > allowed);
    }

    #[test]
    fn a_senseless_step_changes_nothing() {
        let length = Length::metres(1.234);
        for step in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(length.rounded_down_to(Length::metres(step)), length);
            assert_eq!(length.rounded_up_to(Length::metres(step)), length);
            assert_eq!(length.rounded_to(Length::metres(step)), length);
        }
    }
}
