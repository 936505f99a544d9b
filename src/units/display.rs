//! Figures with decimals, as they are shown in fields and on sheets.

use super::exact::Exact;
use super::kind::{Shown, Tidy};
use super::rounding::{Rounding, Slack};
use super::tolerance;

/// What stands for a figure that is infinite or not a number. No field accepts it.
const NO_FIGURE: &str = "no figure";

/// How finely a rounded figure is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Precision {
    /// Digits behind the decimal point, always all of them, so that columns line up.
    pub decimals: u8,
    /// Parts of an inch, for lengths in feet and inches, which have no decimals: a
    /// power of two, 1 to 64.
    pub inch_parts: u8,
}

impl Precision {
    /// So many decimals, and sixteenths of an inch.
    pub const fn decimals(decimals: u8) -> Self {
        Self {
            decimals,
            inch_parts: 16,
        }
    }
}

/// The shortest figure that brings `base` back, noise left out.
///
/// A tidy figure that the value is within noise of is shown instead; any other has as
/// many digits as bring back the very same value.
pub(super) fn show(base: f64, shown: &Shown) -> String {
    show_exactly(base, shown).unwrap_or_else(|| beyond_bounds(base, shown))
}

fn show_exactly(base: f64, shown: &Shown) -> Option<String> {
    let figure = shown.unit.figure_of(Exact::from_f64(base)?)?;
    let back = |figure: Exact| Some(shown.unit.base_of(figure)?.to_f64());
    let (places, within) = match shown.tidy {
        Tidy::Places(places) => (places, tolerance::TIDY_LENGTH),
        Tidy::Digits => (
            (8 - figure.magnitude()).min(9),
            tolerance::TIDY * base.abs().max(1.0),
        ),
    };
    if let Some(tidy) = figure.rounded(places, Rounding::Nearest)
        && back(tidy).is_some_and(|tidy| (tidy - base).abs() <= within)
    {
        return Some(tidy.plain());
    }
    // Below fifteen digits two decimals never mean the same f64, so nothing
    // shorter is missed: its further digits are zeros and are left out. Where a scale
    // begins elsewhere (0 degC is 32 degF), values near zero have more digits in
    // base units than the figure can have; seventeen are the figure's own.
    (15..=20)
        .filter_map(|digits| figure.to_digits(digits))
        .find(|figure| back(*figure) == Some(base))
        .or_else(|| figure.to_digits(17))
        .map(Exact::plain)
}

/// Rounded to a constant number of decimals.
pub(super) fn show_rounded(
    base: f64,
    shown: &Shown,
    slack: Slack,
    decimals: u8,
    rounding: Rounding,
) -> String {
    round(base, shown, slack, i32::from(decimals), rounding)
        .unwrap_or_else(|| beyond_bounds(base, shown))
}

fn round(
    base: f64,
    shown: &Shown,
    slack: Slack,
    decimals: i32,
    rounding: Rounding,
) -> Option<String> {
    let figure = shown.unit.figure_of(Exact::from_f64(base)?)?;
    // Floating-point noise must not decide which way a half goes: 2.675 is kept as
    // a little less, and is meant to become 2.68.
    let nearest = figure
        .rounded(decimals + 6, Rounding::Nearest)?
        .rounded(decimals, Rounding::Nearest)?;
    let is_on_step = (shown.unit.base_of(nearest)?.to_f64() - base).abs() <= slack.of(base);
    if rounding == Rounding::Nearest || is_on_step {
        return Some(nearest.fixed());
    }
    figure.rounded(decimals, rounding).map(Exact::fixed)
}

/// Figures that no building has, as short as they can be said.
fn beyond_bounds(base: f64, shown: &Shown) -> String {
    let figure = shown.unit.figure_of_f64(base);
    if figure.is_finite() {
        format!("{figure:e}")
    } else {
        NO_FIGURE.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use crate::units::LengthUnit::{Metres, Millimetres};
    use crate::units::UnitSystem::{FeetInches, Metric};
    use crate::units::{
        Angle, Force, Length, Power, Precision, Quantity, Rounding, SmallLength, Temperature,
        ThermalTransmittance,
    };

    #[test]
    fn fields_show_no_noise() {
        let check = |length_m: f64, in_metres: &str, in_millimetres: &str| {
            let length = Length::metres(length_m);
            assert_eq!(length.show_in(Metres), in_metres);
            assert_eq!(length.show_in(Millimetres), in_millimetres);
        };
        check(3.2, "3.2", "3200");
        check(0.1 + 0.2, "0.3", "300");
        check(1.25, "1.25", "1250");
        check(-0.0, "0", "0");
        check(1e-300, "0", "0");
        check(4.000_000_000_5, "4", "4000");
        check(4.000_000_002, "4.000000002", "4000.000002");
        check(1.0 / 3.0, "0.3333333333333333", "333.3333333333333");
        check(72.0, "72", "72000");
        check(1e300, "1e300", "1e303");
        check(f64::NAN, "no figure", "no figure");
        check(f64::NEG_INFINITY, "no figure", "no figure");
    }

    #[test]
    fn other_quantities_show_their_unit() {
        let power = Power::btu_per_hour(140_000.0);
        assert_eq!(power.show(FeetInches), "140000");
        assert_eq!(power.show_with_unit(FeetInches), "140000 Btu/h");
        assert_eq!(Power::watts(40_000.0).show_with_unit(Metric), "40 kW");
        let cold = Temperature::fahrenheit(-4.0);
        assert_eq!(cold.show_with_unit(FeetInches), "-4 °F");
        assert_eq!(cold.show_with_unit(Metric), "-20 °C");
        assert_eq!(Angle::degrees(22.5).show_with_unit(Metric), "22.5°");
        assert_eq!(0.85.show_with_unit(Metric), "0.85");
        assert_eq!(7_u32.show_with_unit(FeetInches), "7");
        let u = ThermalTransmittance::btu_per_hour_square_foot_fahrenheit(0.06);
        assert_eq!(u.show_with_unit(FeetInches), "0.06 Btu/h ft² °F");
        let length = Length::inches(150.5);
        assert_eq!(length.show_with_unit(FeetInches), "12' 6 1/2\"");
        assert_eq!(SmallLength(length).show_with_unit(Metric), "3822.7 mm");
        assert_eq!(format!("{:>10}|", Length::metres(3.2)), "     3.2 m|");
    }

    #[test]
    fn sheets_show_constant_decimals() {
        let check = |length_m: f64, rounding, expected: &str| {
            let length = Length::metres(length_m);
            let precision = Length::sheet_precision(Metric);
            assert_eq!(length.show_rounded(Metric, precision, rounding), expected);
        };
        check(3.25, Rounding::Nearest, "3.25");
        check(3.0, Rounding::Nearest, "3.00");
        check(2.675, Rounding::Nearest, "2.68");
        check(-2.675, Rounding::Nearest, "-2.68");
        check(-0.001, Rounding::Nearest, "0.00");
        check(2.996, Rounding::Nearest, "3.00");
        check(2.996, Rounding::Down, "2.99");
        check(2.999_999_5, Rounding::Down, "3.00");
        check(2.999_998, Rounding::Down, "2.99");
        check(3.001, Rounding::Up, "3.01");
        check(3.000_000_5, Rounding::Up, "3.00");
        check(3.000_002, Rounding::Up, "3.01");
        check(f64::NAN, Rounding::Nearest, "no figure");
        check(1e300, Rounding::Nearest, "1e300");
        let load = Force::newtons(449.6);
        let whole = Force::sheet_precision(Metric);
        assert_eq!(load.show_rounded(Metric, whole, Rounding::Up), "450");
        assert_eq!(load.show_rounded(FeetInches, whole, Rounding::Up), "102");
        let millimetres = SmallLength(Length::metres(0.0603));
        let precision = SmallLength::sheet_precision(Metric);
        let shown = millimetres.show_rounded(Metric, precision, Rounding::Nearest);
        assert_eq!(shown, "60");
        let tenths = Precision::decimals(1);
        assert_eq!(1.000_02.show_rounded(Metric, tenths, Rounding::Up), "1.1");
    }
}
