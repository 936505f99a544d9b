//! The quantity types themselves.

use serde::{Deserialize, Serialize};

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
                pub const fn $unit(value: f64) -> Self { Self(value * $factor) }

                #[doc = concat!("Read in ", $unit_doc, ".")]
                pub const fn $as_unit(self) -> f64 { self.0 / $factor }
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

/// Metres in an international inch, exact.
const INCH: f64 = 0.0254;
/// Watts in a Btu (International Table) per hour, exact to the digits given: 1055.055 852 62 J / 3600 s.
const BTU_PER_HOUR: f64 = 1_055.055_852_62 / 3_600.0;
/// Kilograms in a pound avoirdupois, exact.
const POUND: f64 = 0.453_592_37;
/// Standard gravity, m/s2 (3rd General Conference on Weights and Measures, 1901), exact.
const GRAVITY: f64 = 9.806_65;

quantity! {
    /// A length, kept in metres.
    Length, metres, as_metres;
    millimetres, as_millimetres, 0.001, "millimetres";
    inches, as_inches, INCH, "international inches";
    feet, as_feet, (INCH * 12.0), "international feet";
}

quantity! {
    /// A rate of energy, kept in watts.
    Power, watts, as_watts;
    kilowatts, as_kilowatts, 1_000.0, "kilowatts";
    btu_per_hour, as_btu_per_hour, BTU_PER_HOUR, "Btu per hour";
}

quantity! {
    /// A mass, kept in kilograms.
    Mass, kilograms, as_kilograms;
    pounds, as_pounds, POUND, "pounds";
}

quantity! {
    /// A force, kept in newtons.
    Force, newtons, as_newtons;
    pounds_force, as_pounds_force, (POUND * GRAVITY), "pounds-force";
}

quantity! {
    /// An angle or a bearing, kept in degrees, as drawings state it.
    Angle, degrees, as_degrees;
}

quantity! {
    /// A pressure, kept in pascals.
    Pressure, pascals, as_pascals;
    millibars, as_millibars, 100.0, "millibars";
    inches_of_water, as_inches_of_water, 249.088_91, "inches of water column at 4 degC";
}

quantity! {
    /// A mass per length, kept in kilograms per metre.
    LinearDensity, kilograms_per_metre, as_kilograms_per_metre;
    pounds_per_foot, as_pounds_per_foot, (POUND / (INCH * 12.0)), "pounds per foot";
}

quantity! {
    /// A thermal transmittance (U-value), kept in W/(m2 K).
    ThermalTransmittance, watts_per_square_metre_kelvin, as_watts_per_square_metre_kelvin;
}

quantity! {
    /// A difference of two temperatures, kept in kelvins.
    TemperatureDifference, kelvins, as_kelvins;
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
        Self((value - 32.0) / 1.8)
    }

    /// Read in degrees Fahrenheit.
    pub const fn as_fahrenheit(self) -> f64 {
        self.0 * 1.8 + 32.0
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

impl Length {
    /// Divided by an angle's tangent and the like belongs to the engines; this is
    /// the one rounding that people see: down to a multiple of `step`.
    ///
    /// A length within a micrometre below a multiple counts as that multiple, so
    /// that 4.0 m computed as 3.999 999 999 6 m is not printed as 3.9 m.
    #[must_use]
    pub fn rounded_down_to(self, step: Self) -> Self {
        Self(((self.0 + 1e-6) / step.0).floor() * step.0)
    }
}
