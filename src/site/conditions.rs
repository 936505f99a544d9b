//! What the building is heated against: the design conditions.

use crate::catalogue::SuspensionKind;
use crate::units::{Length, Pressure, Temperature};
use serde::{Deserialize, Serialize};

/// The design conditions of a site.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Conditions {
    /// Outside design temperature.
    pub outside: Temperature,
    /// Operative temperature wanted at work height.
    pub wanted_operative: Temperature,
    /// Height of the site above sea level.
    pub altitude: Length,
    /// What is burnt.
    pub gas: Gas,
    /// Gauge pressure at the delivery point.
    pub supply_pressure: Pressure,
    /// Seismic design category.
    #[serde(default, skip_serializing_if = "SeismicCategory::is_unknown")]
    pub seismic: SeismicCategory,
    /// Whether wind blows through the hall: open sides, or doors that stand open.
    #[serde(default, skip_serializing_if = "WindExposure::is_sheltered")]
    pub wind: WindExposure,
    /// What suspensions are made of, where a run doesn't say otherwise.
    #[serde(default, skip_serializing_if = "SuspensionKind::is_usual")]
    pub suspension: SuspensionKind,
}

/// Seismic design category of the building, by ASCE 7, section 11.6: the building's
/// engineer or the authority having jurisdiction states it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, PartialOrd, Ord, Serialize, Deserialize)]
pub enum SeismicCategory {
    /// Nobody has said: printed "unknown: engineer".
    #[default]
    Unknown,
    /// Category A.
    A,
    /// Category B.
    B,
    /// Category C.
    C,
    /// Category D.
    D,
    /// Category E.
    E,
    /// Category F.
    F,
}

impl SeismicCategory {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 7] = [
        Self::Unknown,
        Self::A,
        Self::B,
        Self::C,
        Self::D,
        Self::E,
        Self::F,
    ];

    /// Whether nobody has said.
    pub const fn is_unknown(&self) -> bool {
        matches!(self, Self::Unknown)
    }

    /// As printed.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Unknown => "unknown: engineer",
            Self::A => "A",
            Self::B => "B",
            Self::C => "C",
            Self::D => "D",
            Self::E => "E",
            Self::F => "F",
        }
    }
}

/// Whether wind gets into a hall.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum WindExposure {
    /// Closed walls; doors are shut but for a passage.
    #[default]
    Sheltered,
    /// Open sides, or doors that stand open: what hangs sways.
    Open,
}

impl WindExposure {
    /// Whether it is closed.
    pub const fn is_sheltered(&self) -> bool {
        matches!(self, Self::Sheltered)
    }
}

/// The fuel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Gas {
    /// Natural gas.
    Natural,
    /// Undiluted propane.
    Propane,
}

impl Default for Conditions {
    fn default() -> Self {
        Self {
            outside: Temperature::celsius(-5.0),
            wanted_operative: Temperature::celsius(15.0),
            altitude: Length::ZERO,
            gas: Gas::Natural,
            supply_pressure: Pressure::millibars(20.0),
            seismic: SeismicCategory::Unknown,
            wind: WindExposure::Sheltered,
            suspension: SuspensionKind::default(),
        }
    }
}
