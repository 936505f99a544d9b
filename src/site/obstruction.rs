//! Obstructions: solids that are in the way, may burn, or cast a heat shadow.

use super::bay::Combustibility;
use super::id::ObstructionId;
use crate::geometry::DVec2;
use crate::units::{Length, Temperature};
use serde::{Deserialize, Serialize};

/// A solid that is in the way, may burn, or casts a heat shadow.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Obstruction {
    /// Its id.
    pub id: ObstructionId,
    /// What people call it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// What it is.
    pub kind: ObstructionKind,
    /// Its plan.
    pub footprint: Footprint,
    /// Its bottom above the finished floor.
    pub bottom: Length,
    /// Its top: of the load where goods are stored.
    pub top: Length,
    /// Racking: the top of the uprights, where goods are stored on it up to `top`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub upright_top: Option<Length>,
    /// Whether it burns.
    pub burns: Combustibility,
    /// The hottest that it may get.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature_limit: Option<Temperature>,
    /// What the user noted.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// The plan of an obstruction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Footprint {
    /// A simple polygon, with holes.
    Area {
        /// Corners in order, either way round, m.
        outline: Vec<DVec2>,
        /// Holes, m.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        holes: Vec<Vec<DVec2>>,
    },
    /// A line with a width: a duct, a pipe, a partition.
    Line {
        /// Points of its centre line, m.
        points: Vec<DVec2>,
        /// Width across it.
        width: Length,
    },
}

/// What an obstruction is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum ObstructionKind {
    /// Racking with what is stored on it.
    Racking,
    /// Goods stored on the floor.
    StoredGoods,
    /// The space that a crane or hoist moves through.
    CraneTravel,
    /// A vehicle raised on a lift.
    LiftedVehicle,
    /// A parked vehicle or boat.
    ParkedVehicle,
    /// The space that a door moves through, and where it rests open.
    DoorTravel,
    /// A duct.
    Duct,
    /// A pipe.
    Pipe,
    /// A cable tray.
    CableTray,
    /// A lamp.
    Lamp,
    /// A sprinkler head or its pipe.
    Sprinkler,
    /// A raised floor and its stairs.
    Mezzanine,
    /// A partition.
    Partition,
    /// A column.
    Column,
    /// Where no heater may be at all.
    HazardZone,
    /// Anything else.
    Other,
}

impl ObstructionKind {
    /// All kinds, in the order in which they are offered.
    pub const ALL: [Self; 16] = [
        Self::Racking,
        Self::StoredGoods,
        Self::ParkedVehicle,
        Self::LiftedVehicle,
        Self::CraneTravel,
        Self::DoorTravel,
        Self::Duct,
        Self::Pipe,
        Self::CableTray,
        Self::Lamp,
        Self::Sprinkler,
        Self::Mezzanine,
        Self::Partition,
        Self::Column,
        Self::HazardZone,
        Self::Other,
    ];

    /// The trade's name for it.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Racking => "racking",
            Self::StoredGoods => "stored goods",
            Self::CraneTravel => "crane travel",
            Self::LiftedVehicle => "lifted vehicle",
            Self::ParkedVehicle => "parked vehicle",
            Self::DoorTravel => "door travel",
            Self::Duct => "duct",
            Self::Pipe => "pipe",
            Self::CableTray => "cable tray",
            Self::Lamp => "lamp",
            Self::Sprinkler => "sprinkler",
            Self::Mezzanine => "mezzanine",
            Self::Partition => "partition",
            Self::Column => "column",
            Self::HazardZone => "hazard zone",
            Self::Other => "other",
        }
    }

    /// What a new one is taken to be until the user says otherwise: bottom, top, and
    /// whether it burns. Planning figures, in the middle of what the trade meets.
    pub const fn usual(self) -> (Length, Length, Combustibility) {
        use Combustibility::{Combustible, NonCombustible, Unknown};
        let (bottom, top, burns) = match self {
            Self::Racking => (0.0, 4.8, Combustible),
            Self::StoredGoods => (0.0, 2.4, Combustible),
            Self::CraneTravel => (4.5, 6.0, NonCombustible),
            Self::LiftedVehicle => (0.0, 3.5, Combustible),
            Self::ParkedVehicle => (0.0, 4.2, Combustible),
            Self::DoorTravel => (4.0, 4.5, Combustible),
            Self::Duct => (5.0, 5.6, NonCombustible),
            Self::Pipe => (5.0, 5.2, NonCombustible),
            Self::CableTray => (5.0, 5.1, Combustible),
            Self::Lamp => (5.0, 5.3, Unknown),
            Self::Sprinkler => (5.8, 6.0, NonCombustible),
            Self::Mezzanine => (2.8, 3.1, Unknown),
            Self::Partition => (0.0, 3.0, Unknown),
            Self::Column => (0.0, 6.0, NonCombustible),
            Self::HazardZone => (0.0, 3.0, Combustible),
            Self::Other => (0.0, 2.0, Unknown),
        };
        (Length::metres(bottom), Length::metres(top), burns)
    }
}
