//! Obstructions: solids that are in the way, may burn, or cast a heat shadow.

use super::bay::{Combustibility, along};
use super::id::ObstructionId;
use crate::geometry::DVec2;
use crate::units::{Angle, Length, Temperature};
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
    /// What only some kinds have, or only some of a kind.
    #[serde(default, skip_serializing_if = "Particulars::are_none")]
    pub particulars: Particulars,
    /// What the user noted.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// What only some kinds of obstruction have, or only some of a kind.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Particulars {
    /// A line that slopes: its bottom above the finished floor at its last point, where
    /// `bottom` is that at the first. Its top rises with it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bottom_at_end: Option<Length>,
    /// An area whose top slopes: `top` is then its lowest.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub top_slope: Option<TopSlope>,
    /// Lifted vehicle: how high the lift raises it; `top` is then its height on the floor.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lift: Option<Length>,
    /// Crane travel: how near to the ends and sides of the runway the hook comes. Within
    /// that the hook with its load passes from the floor up to `bottom`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hook_approach: Option<Length>,
    /// Sprinkler: the temperature rating of its heads.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rating: Option<SprinklerRating>,
    /// Sprinkler: its deflectors above the finished floor, where that is not `bottom`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub deflector: Option<Length>,
    /// Aircraft: the highest of its wings and engine enclosures, where that is not `top`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wing_top: Option<Length>,
    /// Hazard zone: what makes it one.
    #[serde(skip_serializing_if = "Hazard::is_usual")]
    pub hazard: Hazard,
}

/// What makes a hazard zone one: how far heaters keep off it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Hazard {
    /// Classified air, or another place with bounds of its own: no heater within them.
    #[default]
    Bounded,
    /// Paint or solvent is sprayed: no heater within the spraying distance of it either.
    Spraying,
}

impl Hazard {
    fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}

impl Particulars {
    fn are_none(&self) -> bool {
        *self == Self::default()
    }
}

/// How the top of an area slopes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TopSlope {
    /// Bearing toward which it rises.
    pub rises_toward: Angle,
    /// Rise over run.
    pub pitch: f64,
}

/// The temperature rating of a sprinkler head, by the classes of NFPA 13.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum SprinklerRating {
    /// 57 to 77 degC (135 to 170 degF).
    Ordinary,
    /// 79 to 107 degC (175 to 225 degF).
    Intermediate,
    /// 121 to 149 degC (250 to 300 degF).
    High,
}

impl SprinklerRating {
    /// Its word.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Ordinary => "ordinary",
            Self::Intermediate => "intermediate",
            Self::High => "high",
        }
    }
}

impl Obstruction {
    /// The highest that it reaches: raised, at its higher end, at the upper edge of its
    /// slope.
    pub fn highest(&self) -> Length {
        let rise = match &self.footprint {
            Footprint::Line { .. } => self
                .particulars
                .bottom_at_end
                .map_or(Length::ZERO, |end| (end - self.bottom).max(Length::ZERO)),
            Footprint::Area { outline, .. } => {
                self.particulars.top_slope.map_or(Length::ZERO, |slope| {
                    let up = along(slope.rises_toward);
                    let reach = |fold: fn(f64, f64) -> f64, from: f64| {
                        outline.iter().map(|p| up.dot(*p)).fold(from, fold)
                    };
                    let run = reach(f64::max, f64::NEG_INFINITY) - reach(f64::min, f64::INFINITY);
                    Length::metres(slope.pitch * run.max(0.0))
                })
            }
        };
        self.top + rise + self.particulars.lift.unwrap_or(Length::ZERO)
    }

    /// The lowest that it reaches; of a crane that of its bridge, not of its hook.
    pub fn lowest(&self) -> Length {
        match self.particulars.bottom_at_end {
            Some(end) if matches!(self.footprint, Footprint::Line { .. }) => self.bottom.min(end),
            _ => self.bottom,
        }
    }
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
    /// A parked vehicle.
    ParkedVehicle,
    /// The space that an aircraft takes where it stands, and is moved in and out.
    Aircraft,
    /// The space that a boat takes on its cradle or trailer.
    Boat,
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
    /// A raised floor.
    Mezzanine,
    /// Stairs: drawn as a line, they rise from its first point to its last.
    Stairs,
    /// A partition.
    Partition,
    /// A column.
    Column,
    /// A skylight or a translucent panel: it lies in the roof, whatever its heights say.
    Skylight,
    /// Where no heater may be at all.
    HazardZone,
    /// Anything else.
    Other,
}

impl ObstructionKind {
    /// All kinds, in the order in which they are offered.
    pub const ALL: [Self; 20] = [
        Self::Racking,
        Self::StoredGoods,
        Self::ParkedVehicle,
        Self::LiftedVehicle,
        Self::Aircraft,
        Self::Boat,
        Self::CraneTravel,
        Self::DoorTravel,
        Self::Duct,
        Self::Pipe,
        Self::CableTray,
        Self::Lamp,
        Self::Sprinkler,
        Self::Mezzanine,
        Self::Stairs,
        Self::Partition,
        Self::Column,
        Self::Skylight,
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
            Self::Aircraft => "aircraft",
            Self::Boat => "boat",
            Self::DoorTravel => "door travel",
            Self::Duct => "duct",
            Self::Pipe => "pipe",
            Self::CableTray => "cable tray",
            Self::Lamp => "lamp",
            Self::Sprinkler => "sprinkler",
            Self::Mezzanine => "mezzanine",
            Self::Stairs => "stairs",
            Self::Partition => "partition",
            Self::Column => "column",
            Self::Skylight => "skylight",
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
            // What it will carry, its cab and its cable insulation count, whatever its steel is.
            Self::CraneTravel => (4.5, 6.0, Unknown),
            // A car of 1.6 m on a lift of 1.9 m.
            Self::LiftedVehicle => (0.0, 1.6, Combustible),
            Self::ParkedVehicle => (0.0, 4.2, Combustible),
            Self::Aircraft => (0.0, 4.5, Combustible),
            Self::Boat => (0.0, 4.5, Combustible),
            Self::DoorTravel => (4.0, 4.5, Combustible),
            Self::Duct => (5.0, 5.6, NonCombustible),
            Self::Pipe => (5.0, 5.2, NonCombustible),
            Self::CableTray => (5.0, 5.1, Combustible),
            Self::Lamp => (5.0, 5.3, Unknown),
            Self::Sprinkler => (5.8, 6.0, NonCombustible),
            Self::Mezzanine => (2.8, 3.1, Unknown),
            Self::Stairs => (0.0, 3.1, Unknown),
            Self::Partition => (0.0, 3.0, Unknown),
            Self::Column => (0.0, 6.0, NonCombustible),
            Self::Skylight => (6.0, 6.1, Combustible),
            Self::HazardZone => (0.0, 3.0, Combustible),
            Self::Other => (0.0, 2.0, Unknown),
        };
        (Length::metres(bottom), Length::metres(top), burns)
    }

    /// What a new one has beyond heights and nature until the user says otherwise: its
    /// particulars, and the hottest that it may get.
    pub const fn usual_particulars(self) -> (Particulars, Option<Temperature>) {
        let mut particulars = Particulars {
            bottom_at_end: None,
            top_slope: None,
            lift: None,
            hook_approach: None,
            rating: None,
            deflector: None,
            wing_top: None,
            hazard: Hazard::Bounded,
        };
        let mut limit = None;
        match self {
            Self::LiftedVehicle => particulars.lift = Some(Length::metres(1.9)),
            Self::CraneTravel => particulars.hook_approach = Some(Length::metres(0.9)),
            // What most lamps are made to run in.
            Self::Lamp => limit = Some(Temperature::celsius(40.0)),
            // The jacket of ordinary cable.
            Self::CableTray => limit = Some(Temperature::celsius(70.0)),
            _ => {}
        }
        (particulars, limit)
    }

    /// The width of a new one that is drawn along its centre line; none where outlines
    /// are the usual way. A crane's line is that of its runway, its width the span.
    pub const fn usual_width(self) -> Option<Length> {
        match self {
            Self::Duct => Some(Length::metres(0.6)),
            Self::Pipe => Some(Length::metres(0.1)),
            Self::CableTray => Some(Length::metres(0.3)),
            Self::Partition => Some(Length::metres(0.12)),
            Self::Stairs => Some(Length::metres(1.2)),
            Self::CraneTravel => Some(Length::metres(12.0)),
            _ => None,
        }
    }
}

/// A vehicle by its kind: how high it stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VehicleHeight {
    /// The trade's name for it.
    pub label: &'static str,
    /// How high it stands on the floor.
    pub top: Length,
}

/// What vehicles stand how high, lowest first: planning figures.
pub const VEHICLE_HEIGHTS: [VehicleHeight; 5] = [
    vehicle("car", 1.6),
    vehicle("car with roof load", 2.0),
    vehicle("van", 2.6),
    vehicle("truck", 4.2),
    vehicle("truck with load", 4.6),
];

const fn vehicle(label: &'static str, top_m: f64) -> VehicleHeight {
    VehicleHeight {
        label,
        top: Length::metres(top_m),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn obstruction(footprint: Footprint, particulars: Particulars) -> Obstruction {
        Obstruction {
            id: "O1".into(),
            name: String::new(),
            kind: ObstructionKind::Other,
            footprint,
            bottom: Length::metres(4.0),
            top: Length::metres(5.0),
            upright_top: None,
            burns: Combustibility::Unknown,
            temperature_limit: None,
            particulars,
            notes: String::new(),
        }
    }

    #[test]
    fn a_line_that_falls_is_lowest_at_its_end_and_one_that_climbs_highest() {
        let check = |end: f64, lowest: f64, highest: f64| {
            let line = Footprint::Line {
                points: vec![DVec2::ZERO, DVec2::X],
                width: Length::metres(0.5),
            };
            let particulars = Particulars {
                bottom_at_end: Some(Length::metres(end)),
                ..Particulars::default()
            };
            let it = obstruction(line, particulars);
            assert_eq!(it.lowest(), Length::metres(lowest));
            assert_eq!(it.highest(), Length::metres(highest));
        };
        check(3.5, 3.5, 5.0);
        check(4.5, 4.0, 5.5);
    }

    #[test]
    fn a_sloped_top_and_a_lift_raise_it() {
        let area = Footprint::Area {
            outline: [(1.0, 0.0), (3.0, 0.0), (3.0, 6.0), (1.0, 6.0)]
                .map(DVec2::from)
                .to_vec(),
            holes: Vec::new(),
        };
        let particulars = Particulars {
            top_slope: Some(TopSlope {
                rises_toward: Angle::degrees(90.0),
                pitch: 0.5,
            }),
            lift: Some(Length::metres(2.0)),
            ..Particulars::default()
        };
        let highest = obstruction(area, particulars).highest();
        assert!((highest.as_metres() - 8.0).abs() < 1e-12);
    }
}
