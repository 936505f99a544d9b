//! Quantities with their unit in the type, how people type them and how they are shown.
//!
//! Inside everything is SI (angles and temperatures in degrees), one `f64` per
//! quantity. There is no `From<f64>` and no `Deref`: a number becomes a length
//! only by naming its unit, and a length becomes a number only by naming one.

mod display;
mod entry;
mod exact;
mod factor;
mod feet_inches;
mod field;
mod kind;
mod number;
mod quantity;
mod rounding;
mod system;
pub mod tolerance;

pub use display::Precision;
pub use entry::{EntryError, Fault};
pub use field::{Quantity, SmallLength};
pub use quantity::{
    Angle, AreaLoad, Force, Length, LinearDensity, Mass, Power, Pressure, Temperature,
    TemperatureDifference, ThermalTransmittance,
};
pub use rounding::Rounding;
pub use system::{LengthUnit, UnitSystem};
