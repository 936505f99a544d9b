//! The quantity types themselves.

use serde::{Deserialize, Serialize};

use super::factor::Factor;

/// Declares a quantity: a newtype over `f64` with one base unit and named
/// constructors and readers for each unit that people use.
macro_rules! quantity {
    (
        $(#[$doc:meta])* $name:ident, $base:ident, $as_base:ident;
        $( $unit:ident, $as_unit:ident, $factor:expr, $unit_doc:literal; )*
    ) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(f64);

        impl $name {
            /// Nothing of it.
            pub const ZERO: Self = Self(0.0);

            /// Made from the base unit.
            pub const fn $base(value: f64) -> Self { Self(value) }

            /// Read in the base unit.
            pub const fn $as_base(self) -> f64 { self.0 }

            $(
                #[doc = concat!("Made from ", $unit_doc, ".")]
                pub const fn $unit(value: f64) -> Self { Self($factor.base_of(value)) }

                #[doc = concat!("Read in ", $unit_doc, ".")]
                pub const fn $as_unit(self) -> f64 { $factor.units_in(self.0) }
            )*

            /// The smaller of two; the other one where one is not a number.
            #[must_use]
            pub fn min(self, other: Self) -> Self { Self(self.0.min(other.0)) }

            /// The larger of two; the other one where one is not a number.
            #[must_use]
            pub fn max(self, other: Self) -> Self { Self(self.0.max(other.0)) }

            /// Without its sign.
            #[must_use]
            pub const fn abs(self) -> Self { Self(self.0.abs()) }

            /// Neither infinite nor not-a-number.
            pub const fn is_finite(self) -> bool { self.0.is_finite() }
        }

        impl std::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self { Self(self.0 + other.0) }
        }
        impl std::ops::Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self { Self(self.0 - other.0) }
        }
        impl std::ops::Neg for $name {
            type Output = Self;
            fn neg(self) -> Self { Self(-self.0) }
        }
        impl std::ops::Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self { Self(self.0 * factor) }
        }
        impl std::ops::Div<f64> for $name {
            type Output = Self;
            fn div(self, divisor: f64) -> Self { Self(self.0 / divisor) }
        }
        impl std::ops::Div<$name> for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 { self.0 / other.0 }
        }
        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(items: I) -> Self {
                items.fold(Self::ZERO, |total, item| total + item)
            }
        }
    };
}

quantity! {
    /// A length, kept in metres.
    Length, metres, as_metres;
    millimetres, as_millimetres, Factor::MILLI, "millimetres";
    inches, as_inches, Factor::INCH, "international inches";
    feet, as_feet, Factor::FOOT, "international feet";
}

quantity! {
    /// A rate of energy, kept in watts.
    Power, watts, as_watts;
    kilowatts, as_kilowatts, Factor::KILO, "kilowatts";
    btu_per_hour, as_btu_per_hour, Factor::BTU_PER_HOUR, "Btu per hour";
}

quantity! {
    /// A mass, kept in kilograms.
    Mass, kilograms, as_kilograms;
    pounds, as_pounds, Factor::POUND, "pounds";
}

quantity! {
    /// A force, kept in newtons.
    Force, newtons, as_newtons;
    pounds_force, as_pounds_force, Factor::POUND_FORCE, "pounds-force";
}

quantity! {
    /// An angle or a bearing, kept in degrees, as drawings state it.
    Angle, degrees, as_degrees;
}

quantity! {
    /// A pressure, kept in pascals.
    Pressure, pascals, as_pascals;
    millibars, as_millibars, Factor::HECTO, "millibars";
    inches_of_water, as_inches_of_water, Factor::INCH_OF_WATER, "inches of water column at 4 degC";
}

quantity! {
    /// A load spread over an area, as roofs are rated, kept in pascals (N/m2).
    AreaLoad, pascals, as_pascals;
    pounds_per_square_foot, as_pounds_per_square_foot, Factor::PSF, "pounds-force per square foot";
}

quantity! {
    /// A mass per length, kept in kilograms per metre.
    LinearDensity, kilograms_per_metre, as_kilograms_per_metre;
    pounds_per_foot, as_pounds_per_foot, Factor::POUND_PER_FOOT, "pounds per foot";
}

quantity! {
    /// A thermal transmittance (U-value), kept in W/(m2 K).
    ThermalTransmittance, watts_per_square_metre_kelvin, as_watts_per_square_metre_kelvin;
    btu_per_hour_square_foot_fahrenheit, as_btu_per_hour_square_foot_fahrenheit,
        Factor::BTU_PER_HOUR_SQUARE_FOOT_FAHRENHEIT, "Btu per hour, square foot and degree Fahrenheit";
}

quantity! {
    /// A difference of two temperatures, kept in kelvins.
    TemperatureDifference, kelvins, as_kelvins;
    fahrenheit_degrees, as_fahrenheit_degrees, Factor::FAHRENHEIT_DEGREE, "degrees of the Fahrenheit scale";
}

/// A temperature on the Celsius scale. Differences are [`TemperatureDifference`]:
/// twenty degrees and a rise of twenty degrees are not the same thing.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Temperature(f64);

impl Temperature {
    /// Made from degrees Celsius.
    pub const fn celsius(value: f64) -> Self {
        Self(value)
    }

    /// Read in degrees Celsius.
    pub const fn as_celsius(self) -> f64 {
        self.0
    }

    /// Made from degrees Fahrenheit.
    pub const fn fahrenheit(value: f64) -> Self {
        Self(Factor::FAHRENHEIT_DEGREE.base_of(value - 32.0))
    }

    /// Read in degrees Fahrenheit.
    pub const fn as_fahrenheit(self) -> f64 {
        Factor::FAHRENHEIT_DEGREE.units_in(self.0) + 32.0
    }

    /// Read in kelvins.
    pub const fn as_kelvins(self) -> f64 {
        self.0 + 273.15
    }

    /// Neither infinite nor not-a-number.
    pub const fn is_finite(self) -> bool {
        self.0.is_finite()
    }
}

impl std::ops::Sub for Temperature {
    type Output = TemperatureDifference;
    fn sub(self, other: Self) -> TemperatureDifference {
        TemperatureDifference::kelvins(self.0 - other.0)
    }
}

impl std::ops::Add<TemperatureDifference> for Temperature {
    type Output = Self;
    fn add(self, rise: TemperatureDifference) -> Self {
        Self(self.0 + rise.as_kelvins())
    }
}
