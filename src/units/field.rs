//! What a field, a sheet or a message needs of a quantity, the same for all of them.

use std::fmt;

use super::display::{self, Precision};
use super::entry::{self, EntryError, Fault, quoted};
use super::feet_inches;
use super::kind::{self, Kind, Shown};
use super::quantity::{
    Angle, AreaLoad, Force, Length, LinearDensity, Mass, Power, Pressure, Temperature,
    TemperatureDifference, ThermalTransmittance,
};
use super::rounding::Rounding;
use super::system::{LengthUnit, UnitSystem};

/// A quantity that can be typed and shown in either unit system.
///
/// `T::parse(&value.show(system), system)` is `value`, to the bit unless the value
/// was within rounding noise of a tidy figure; see [`Quantity::show`]. So a field must
/// write only what was edited: a text that is still what was shown is no entry.
pub trait Quantity: Copy + PartialEq {
    /// Reads what somebody typed. A bare number is in the unit shown; any other unit
    /// of the same kind may be written behind it, whatever the system.
    ///
    /// # Errors
    /// What is not such a quantity, as one sentence for the person who typed it.
    fn parse(text: &str, system: UnitSystem) -> Result<Self, EntryError>;

    /// The figure for a field, without its unit: the shortest that brings the value
    /// back. Noise is left out: a length within 1e-9 m of a hundredth of a millimetre,
    /// of a sixteenth or of a thousandth of an inch, any other quantity within 1e-13
    /// of nine digits is shown as that. `no figure` where the value is not finite.
    fn show(self, system: UnitSystem) -> String;

    /// The figure for sheets and the canvas, without its unit: a constant number of
    /// decimals, or sixteenths of an inch. [`Rounding::Down`] for what there is and
    /// [`Rounding::Up`] for what is needed never turn a breach into a pass.
    fn show_rounded(self, system: UnitSystem, precision: Precision, rounding: Rounding) -> String;

    /// The precision that sheets use unless they say otherwise.
    fn sheet_precision(system: UnitSystem) -> Precision;

    /// The unit shown, as it stands behind a field or in a column's head; empty for
    /// plain numbers.
    fn unit_label(system: UnitSystem) -> &'static str;

    /// A shown figure with its unit. Feet and inches carry theirs already.
    fn with_unit(figure: String, system: UnitSystem) -> String {
        match Self::unit_label(system) {
            "" => figure,
            "°" => figure + "°",
            label => format!("{figure} {label}"),
        }
    }

    /// [`Quantity::show`] with its unit.
    fn show_with_unit(self, system: UnitSystem) -> String {
        Self::with_unit(self.show(system), system)
    }
}

const fn shown(kind: &Kind, system: UnitSystem) -> &Shown {
    match system {
        UnitSystem::Metric => &kind.metric,
        UnitSystem::FeetInches => &kind.feet_inches,
    }
}

/// Implements [`Quantity`] by a kind's table of units.
macro_rules! decimal_quantity {
    ($($name:ty, $kind:expr, $make:expr, $read:expr;)*) => { $(
        impl Quantity for $name {
            fn parse(text: &str, system: UnitSystem) -> Result<Self, EntryError> {
                entry::parse(text, &$kind, shown(&$kind, system).unit).map($make)
            }

            fn show(self, system: UnitSystem) -> String {
                display::show($read(self), shown(&$kind, system))
            }

            fn show_rounded(
                self,
                system: UnitSystem,
                precision: Precision,
                rounding: Rounding,
            ) -> String {
                let shown = shown(&$kind, system);
                display::show_rounded($read(self), shown, $kind.slack, precision.decimals, rounding)
            }

            fn sheet_precision(system: UnitSystem) -> Precision {
                Precision::decimals(shown(&$kind, system).decimals)
            }

            fn unit_label(system: UnitSystem) -> &'static str {
                shown(&$kind, system).label
            }
        }
    )* };
}

decimal_quantity! {
    Power, kind::POWER, Self::watts, Self::as_watts;
    Mass, kind::MASS, Self::kilograms, Self::as_kilograms;
    Force, kind::FORCE, Self::newtons, Self::as_newtons;
    Angle, kind::ANGLE, Self::degrees, Self::as_degrees;
    Temperature, kind::TEMPERATURE, Self::celsius, Self::as_celsius;
    TemperatureDifference, kind::TEMPERATURE_DIFFERENCE, Self::kelvins, Self::as_kelvins;
    Pressure, kind::PRESSURE, Self::pascals, Self::as_pascals;
    AreaLoad, kind::AREA_LOAD, Self::pascals, Self::as_pascals;
    LinearDensity, kind::LINEAR_DENSITY, Self::kilograms_per_metre, Self::as_kilograms_per_metre;
    ThermalTransmittance, kind::THERMAL_TRANSMITTANCE,
        Self::watts_per_square_metre_kelvin, Self::as_watts_per_square_metre_kelvin;
    f64, kind::NUMBER, std::convert::identity, std::convert::identity;
}

/// A count of things: whole, not negative.
impl Quantity for u32 {
    fn parse(text: &str, system: UnitSystem) -> Result<Self, EntryError> {
        let refuse = |fault| EntryError::new(fault, &kind::COUNT);
        let number = entry::parse(text, &kind::COUNT, shown(&kind::COUNT, system).unit)?;
        if number.fract() != 0.0 {
            return Err(refuse(Fault::NotWhole(quoted(text))));
        }
        // Whole, so that its text is digits alone, or has a sign, or too many.
        format!("{number:.0}")
            .parse()
            .ok()
            .ok_or_else(|| refuse(Fault::OutOfRange(quoted(text))))
    }

    fn show(self, _: UnitSystem) -> String {
        self.to_string()
    }

    fn show_rounded(self, _: UnitSystem, _: Precision, _: Rounding) -> String {
        self.to_string()
    }

    fn sheet_precision(_: UnitSystem) -> Precision {
        Precision::decimals(0)
    }

    fn unit_label(_: UnitSystem) -> &'static str {
        ""
    }
}

impl LengthUnit {
    const fn kind(self) -> &'static Kind {
        match self {
            Self::Metres | Self::FeetInches => &kind::LENGTH,
            Self::Millimetres => &kind::SMALL_LENGTH,
        }
    }

    const fn shown(self) -> &'static Shown {
        match self {
            Self::Metres => &kind::LENGTH.metric,
            Self::Millimetres => &kind::SMALL_LENGTH.metric,
            Self::FeetInches => &kind::LENGTH.feet_inches,
        }
    }
}

impl Length {
    /// Reads a length; a bare number is in `unit`. Feet and inches are understood
    /// whatever the unit, `12-6` for 12 ft 6 in too.
    ///
    /// # Errors
    /// What is not a length, as one sentence for the person who typed it.
    pub fn parse_in(text: &str, unit: LengthUnit) -> Result<Self, EntryError> {
        feet_inches::parse(text, unit.kind(), unit.shown().unit).map(Self::metres)
    }

    /// As [`Quantity::show`], in this unit.
    pub fn show_in(self, unit: LengthUnit) -> String {
        match unit {
            LengthUnit::FeetInches => feet_inches::show(self.as_metres()),
            LengthUnit::Metres | LengthUnit::Millimetres => None,
        }
        .unwrap_or_else(|| display::show(self.as_metres(), unit.shown()))
    }

    /// As [`Quantity::show_rounded`], in this unit.
    pub fn show_rounded_in(
        self,
        unit: LengthUnit,
        precision: Precision,
        rounding: Rounding,
    ) -> String {
        let length_m = self.as_metres();
        match unit {
            LengthUnit::FeetInches => {
                feet_inches::show_rounded(length_m, precision.inch_parts, rounding)
            }
            LengthUnit::Metres | LengthUnit::Millimetres => None,
        }
        .unwrap_or_else(|| {
            let decimals = precision.decimals;
            display::show_rounded(
                length_m,
                unit.shown(),
                unit.kind().slack,
                decimals,
                rounding,
            )
        })
    }
}

/// A length that is shown in millimetres in a metric site: a depth, a hardware size.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct SmallLength(pub Length);

/// Implements [`Quantity`] for a length by the unit that it is shown in.
macro_rules! length_quantity {
    ($($name:ident, $unit_of:path, $make:expr, $read:expr;)*) => { $(
        impl Quantity for $name {
            fn parse(text: &str, system: UnitSystem) -> Result<Self, EntryError> {
                Length::parse_in(text, $unit_of(system)).map($make)
            }

            fn show(self, system: UnitSystem) -> String {
                $read(self).show_in($unit_of(system))
            }

            fn show_rounded(
                self,
                system: UnitSystem,
                precision: Precision,
                rounding: Rounding,
            ) -> String {
                $read(self).show_rounded_in($unit_of(system), precision, rounding)
            }

            fn sheet_precision(system: UnitSystem) -> Precision {
                Precision::decimals($unit_of(system).shown().decimals)
            }

            fn unit_label(system: UnitSystem) -> &'static str {
                $unit_of(system).shown().label
            }

            fn with_unit(figure: String, system: UnitSystem) -> String {
                match system {
                    UnitSystem::Metric => format!("{figure} {}", Self::unit_label(system)),
                    UnitSystem::FeetInches => figure,
                }
            }
        }
    )* };
}

length_quantity! {
    Length, LengthUnit::of, std::convert::identity, std::convert::identity;
    SmallLength, LengthUnit::of_small, SmallLength, |small: Self| small.0;
}

/// Prints a quantity in metric units, for messages that know no unit system.
macro_rules! metric_display {
    ($($name:ident),* $(,)?) => { $(
        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.pad(&self.show_with_unit(UnitSystem::Metric))
            }
        }
    )* };
}

metric_display! {
    Length, SmallLength, Power, Mass, Force, Angle, Temperature, TemperatureDifference, Pressure,
    AreaLoad, LinearDensity, ThermalTransmittance,
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use super::*;
    use UnitSystem::{FeetInches, Metric};

    /// A figure of the sort that people type, or one that an engine computes.
    fn figure(random: &mut fastrand::Rng) -> f64 {
        let size = [0.01, 1.0, 100.0, 1e4, 1e6][random.usize(0..5)];
        let any = (random.f64() - 0.5) * size;
        match random.u8(0..4) {
            0 => any.round(),
            1 => (any * 100.0).round() / 100.0,
            2 => (any * 16.0).round() / 16.0,
            _ => any,
        }
    }

    /// Checks that values come back, at most `noise` off and only seldom off at all.
    fn check<Q: Quantity>(noise: fn(f64) -> f64, make: impl Fn(f64) -> Q, read: impl Fn(Q) -> f64) {
        let mut random = fastrand::Rng::with_seed(5);
        let (mut n_tidied, n_all) = (0, 5_000);
        for _ in 0..n_all {
            let value = figure(&mut random);
            for system in UnitSystem::ALL {
                let text = make(value).show(system);
                let back = read(Q::parse(&text, system).unwrap());
                if back != value {
                    // Temperatures near 0 degC have more digits than they have in degF.
                    n_tidied += usize::from(value.abs() >= 1.0);
                    assert!((back - value).abs() <= noise(value), "{value} as {text}");
                }
                assert_eq!(make(back).show(system), text);
            }
        }
        assert!(n_tidied <= n_all / 200, "{n_tidied} of {n_all} changed");
    }

    #[test]
    fn what_is_shown_comes_back() {
        let exactly = |value: f64| 1e-12 * value.abs().max(1.0);
        let resolution = |_: f64| crate::units::tolerance::TIDY_LENGTH;
        check(resolution, Length::metres, Length::as_metres);
        check(
            resolution,
            |m| SmallLength(Length::metres(m)),
            |s| s.0.as_metres(),
        );
        check(exactly, Power::watts, Power::as_watts);
        check(exactly, Mass::kilograms, Mass::as_kilograms);
        check(exactly, Force::newtons, Force::as_newtons);
        check(exactly, Angle::degrees, Angle::as_degrees);
        check(exactly, Temperature::celsius, Temperature::as_celsius);
        check(
            exactly,
            TemperatureDifference::kelvins,
            TemperatureDifference::as_kelvins,
        );
        check(exactly, Pressure::pascals, Pressure::as_pascals);
        check(exactly, AreaLoad::pascals, AreaLoad::as_pascals);
        check(
            exactly,
            LinearDensity::kilograms_per_metre,
            LinearDensity::as_kilograms_per_metre,
        );
        check(
            exactly,
            ThermalTransmittance::watts_per_square_metre_kelvin,
            ThermalTransmittance::as_watts_per_square_metre_kelvin,
        );
        check(exactly, |number: f64| number, |number| number);
    }

    #[test]
    fn switching_the_units_there_and_back_changes_nothing() {
        let mut random = fastrand::Rng::with_seed(9);
        for _ in 0..5_000 {
            // Whole tenths of a millimetre up to 400 m.
            let typed = format!("{}", f64::from(random.u32(0..4_000_000)) / 10_000.0);
            let entered = Length::parse(&typed, Metric).unwrap();
            assert_eq!(entered.show(Metric), typed);
            let feet_inches = entered.show(FeetInches);
            let back = Length::parse(&feet_inches, FeetInches).unwrap();
            assert_eq!(back, entered, "{typed} as {feet_inches}");
            assert_eq!(back.show(Metric), typed);
        }
        for (typed, system) in [("140000", FeetInches), ("40.35", Metric)] {
            let entered = Power::parse(typed, system).unwrap();
            let other = UnitSystem::ALL[usize::from(system == Metric)];
            let back = Power::parse(&entered.show(other), other).unwrap();
            assert_eq!((back, back.show(system)), (entered, typed.to_owned()));
        }
    }

    #[test]
    fn labels_name_the_shown_unit() {
        assert_eq!(Length::unit_label(Metric), "m");
        assert_eq!(SmallLength::unit_label(Metric), "mm");
        assert_eq!(Length::unit_label(FeetInches), "ft in");
        assert_eq!(Force::unit_label(FeetInches), "lbf");
        assert_eq!(f64::unit_label(Metric), "");
    }

    #[test]
    fn a_count_is_whole_and_not_negative() {
        assert_eq!(u32::parse("12", Metric), Ok(12));
        assert_eq!(u32::parse("1 200", FeetInches), Ok(1_200));
        assert_eq!(u32::parse("-0", Metric), Ok(0));
        for text in ["1.5", "-3", "5000000000", "1/2", "two"] {
            assert!(u32::parse(text, Metric).is_err(), "{text}");
        }
        assert_eq!(12_u32.show(Metric), "12");
    }
}
