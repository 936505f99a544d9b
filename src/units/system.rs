//! Which units people type and read.

use serde::{Deserialize, Serialize};

/// The units that a site is shown in. It changes what is typed and read, never
/// what is kept: everything inside is SI, so switching changes no value.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum UnitSystem {
    /// Metres (millimetres for small lengths), kilowatts, kilograms, newtons, degC, millibars.
    #[default]
    Metric,
    /// Feet and inches with binary fractions, Btu/h, pounds, pounds-force, degF, inches of water.
    FeetInches,
}

impl UnitSystem {
    /// Every system, in the order in which a choice lists them.
    pub const ALL: [Self; 2] = [Self::Metric, Self::FeetInches];

    /// The name that a choice shows.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Metric => "Metric",
            Self::FeetInches => "Feet and inches",
        }
    }
}

/// The unit that a length is shown in, and therefore the unit of a bare number
/// typed for it: `1250` is 1250 m in a field that shows metres, 1.25 m in one
/// that shows millimetres, 1250 ft in one that shows feet and inches.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LengthUnit {
    /// Metres: buildings, runs, heights.
    Metres,
    /// Millimetres: tube and chord depths, clearances of hardware.
    Millimetres,
    /// Feet, inches and sixteenths of an inch; a bare number is feet.
    FeetInches,
}

impl LengthUnit {
    /// The unit of an ordinary length.
    pub const fn of(system: UnitSystem) -> Self {
        match system {
            UnitSystem::Metric => Self::Metres,
            UnitSystem::FeetInches => Self::FeetInches,
        }
    }

    /// The unit of a small length: millimetres in a metric site.
    pub const fn of_small(system: UnitSystem) -> Self {
        match system {
            UnitSystem::Metric => Self::Millimetres,
            UnitSystem::FeetInches => Self::FeetInches,
        }
    }
}
