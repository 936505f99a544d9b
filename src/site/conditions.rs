//! What the building is heated against: the design conditions.

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
        }
    }
}
