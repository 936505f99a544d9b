//! Bays: outlined, roofed, heated spaces, and the openings in their walls.

use super::door::Door;
use super::id::{BayId, OpeningId};
use crate::geometry::DVec2;
use crate::geometry::math::sin_cos_degrees;
use crate::units::{Angle, AreaLoad, Length, ThermalTransmittance};
use serde::{Deserialize, Serialize};

/// An outlined, roofed, heated space of the building.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Bay {
    /// Its id.
    pub id: BayId,
    /// What people call it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// What it is used for.
    #[serde(default, rename = "use", skip_serializing_if = "BayUse::is_usual")]
    pub used_as: BayUse,
    /// Corners of the inside face of its walls in order, either way round, m.
    pub outline: Vec<DVec2>,
    /// Courts and cores that are no part of it, m.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub holes: Vec<Vec<DVec2>>,
    /// Underside of the deck (= top of the members) at its lowest over the outline.
    pub eave: Length,
    /// The roof's form.
    pub roof: Roof,
    /// What the walls are made of.
    pub wall: Construction,
    /// What the roof deck is made of, seen from below.
    pub deck: Construction,
    /// Edges of the outline (0 = from corner 0 to corner 1) that have no wall, as
    /// between two bays of one hall.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub open_edges: Vec<usize>,
    /// What the roof may carry in addition to itself, spread over its plan area, in all
    /// (its collateral allowance); none where nobody has said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub collateral: Option<AreaLoad>,
    /// What the user noted.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// What a bay is used for, as far as codes care.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum BayUse {
    /// Storage and handling of goods.
    #[default]
    Warehouse,
    /// Workshop or assembly.
    Workshop,
    /// Public or repair garage.
    Garage,
    /// Repair of vehicles that run on fuel gas lighter than air, or liquefied gas.
    GasVehicleGarage,
    /// Storage and service of aircraft.
    Hangar,
    /// Shop or office beside a hangar.
    HangarShop,
    /// Washing of vehicles.
    WashBay,
}

impl BayUse {
    /// All uses, in the order in which they are offered.
    pub const ALL: [Self; 7] = [
        Self::Warehouse,
        Self::Workshop,
        Self::Garage,
        Self::GasVehicleGarage,
        Self::Hangar,
        Self::HangarShop,
        Self::WashBay,
    ];

    /// The trade's name for it.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Warehouse => "warehouse",
            Self::Workshop => "workshop",
            Self::Garage => "public or repair garage",
            Self::GasVehicleGarage => "garage for gas-fuelled vehicles",
            Self::Hangar => "hangar",
            Self::HangarShop => "hangar shop or office",
            Self::WashBay => "wash bay",
        }
    }

    /// Whether it is a garage, whatever drives in it.
    pub const fn is_garage(self) -> bool {
        matches!(self, Self::Garage | Self::GasVehicleGarage)
    }

    /// Whether vehicles drive about under the heaters.
    pub const fn is_driven_in(self) -> bool {
        self.is_garage() || matches!(self, Self::WashBay)
    }

    fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}

/// The form of a roof. Pitch is rise over run in plan.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Roof {
    /// Level.
    Flat,
    /// One plane, rising toward a bearing.
    SingleSlope {
        /// Bearing toward which it rises.
        rises_toward: Angle,
        /// Rise over run.
        pitch: f64,
    },
    /// Two planes falling from a ridge, which may run along any line.
    Gable {
        /// A point of the ridge in plan, m.
        ridge_through: DVec2,
        /// Bearing of the ridge.
        ridge_bearing: Angle,
        /// Rise over run, both sides.
        pitch: f64,
    },
}

/// A roof with its eave: elevations by plan point.
///
/// One or two planes z = c + g . p; the roof is the lower of them.
#[derive(Debug, Clone, PartialEq)]
pub struct RoofPlanes {
    /// `(c, g)` of each plane, m and rise over run.
    pub planes: Vec<(f64, DVec2)>,
}

impl RoofPlanes {
    /// Elevation of the underside of the deck at a plan point, m.
    pub fn elevation_at(&self, point: DVec2) -> f64 {
        self.planes
            .iter()
            .map(|(c, g)| c + g.dot(point))
            .fold(f64::INFINITY, f64::min)
    }
}

impl Bay {
    /// Its roof as planes. The lowest elevation over the outline equals the eave.
    pub fn roof_planes(&self) -> RoofPlanes {
        let eave = self.eave.as_metres();
        let planes = match &self.roof {
            Roof::Flat => vec![(eave, DVec2::ZERO)],
            Roof::SingleSlope {
                rises_toward,
                pitch,
            } => {
                let slope = along(*rises_toward) * *pitch;
                let lowest = self
                    .outline
                    .iter()
                    .map(|p| slope.dot(*p))
                    .fold(f64::INFINITY, f64::min);
                vec![(eave - lowest, slope)]
            }
            Roof::Gable {
                ridge_through,
                ridge_bearing,
                pitch,
            } => {
                let across = along(*ridge_bearing).perp();
                let reach = |p: &DVec2| across.dot(*p - *ridge_through).abs();
                let farthest = self.outline.iter().map(reach).fold(0.0, f64::max);
                let ridge = eave + pitch * farthest;
                let slope = across * *pitch;
                vec![
                    (ridge + slope.dot(*ridge_through), -slope),
                    (ridge - slope.dot(*ridge_through), slope),
                ]
            }
        };
        RoofPlanes { planes }
    }
}

/// Unit vector of a bearing in plan: degrees clockwise from plan north (+y).
pub fn along(bearing: Angle) -> DVec2 {
    let (sin, cos) = sin_cos_degrees(bearing.as_degrees());
    DVec2::new(sin, cos)
}

/// What a wall or a deck is made of, as far as heat and fire care.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Construction {
    /// What people call it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Thermal transmittance.
    pub u_value: ThermalTransmittance,
    /// Whether it burns itself, seen from inside where it has no facing.
    pub burns: Combustibility,
    /// Whether the facing of an insulation on its inside burns; none where it is bare.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub facing: Option<Combustibility>,
}

impl Construction {
    /// Whether what heat meets first, its inside face, burns. A facing that does not
    /// burn keeps the heat from nothing: what is behind it counts too.
    pub fn inside_burns(&self) -> Combustibility {
        use Combustibility::{Combustible, NonCombustible, Unknown};
        match (self.burns, self.facing.unwrap_or(NonCombustible)) {
            (Combustible, _) | (_, Combustible) => Combustible,
            (Unknown, _) | (_, Unknown) => Unknown,
            (NonCombustible, NonCombustible) => NonCombustible,
        }
    }
}

/// Whether a surface burns. What is not known is treated as combustible.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Combustibility {
    /// It burns, or holds what burns.
    Combustible,
    /// Steel, masonry, concrete and the like.
    NonCombustible,
    /// Nobody has looked yet: treated as combustible, printed "verify on site".
    Unknown,
}

impl Combustibility {
    /// Whether the keep-clear envelope applies.
    pub const fn counts_as_combustible(self) -> bool {
        !matches!(self, Self::NonCombustible)
    }
}

/// An opening in a wall of a bay.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Opening {
    /// Its id.
    pub id: OpeningId,
    /// The bay.
    pub bay: BayId,
    /// The edge of the bay's outline: 0 from corner 0 to corner 1.
    pub edge: usize,
    /// Distance of its nearer jamb from the edge's first corner.
    pub from_corner: Length,
    /// Clear width.
    pub width: Length,
    /// Bottom above the finished floor.
    pub sill: Length,
    /// Clear height.
    pub height: Length,
    /// What it is.
    pub kind: OpeningKind,
    /// How its leaf moves.
    #[serde(default, skip_serializing_if = "is_usual_door")]
    pub door: Door,
    /// What the user noted.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

fn is_usual_door(door: &Door) -> bool {
    *door == Door::default()
}

/// What an opening is, a door by the way it moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum OpeningKind {
    /// Sectional door: open, its panels lie flat under the roof.
    SectionalDoor,
    /// Sectional door on high-lift tracks: partly upright, partly flat.
    HighLiftDoor,
    /// Roll-up door: open, a drum above the lintel.
    RollUpDoor,
    /// Hinged door or gate.
    SwingDoor,
    /// Sliding door or gate.
    SlidingDoor,
    /// Door at a loading dock, sectional.
    DockDoor,
    /// Window.
    Window,
}

impl OpeningKind {
    /// All kinds, in the order in which they are offered.
    pub const ALL: [Self; 7] = [
        Self::SectionalDoor,
        Self::HighLiftDoor,
        Self::RollUpDoor,
        Self::SwingDoor,
        Self::SlidingDoor,
        Self::DockDoor,
        Self::Window,
    ];

    /// The trade's name for it.
    pub const fn label(self) -> &'static str {
        match self {
            Self::SectionalDoor => "sectional door",
            Self::HighLiftDoor => "high-lift door",
            Self::RollUpDoor => "roll-up door",
            Self::SwingDoor => "swing door",
            Self::SlidingDoor => "sliding door",
            Self::DockDoor => "dock door",
            Self::Window => "window",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bay(roof: Roof) -> Bay {
        let plain = Construction {
            name: String::new(),
            u_value: ThermalTransmittance::watts_per_square_metre_kelvin(0.5),
            burns: Combustibility::NonCombustible,
            facing: None,
        };
        Bay {
            id: "B1".into(),
            name: String::new(),
            used_as: BayUse::Warehouse,
            outline: [(0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (0.0, 10.0)]
                .map(DVec2::from)
                .to_vec(),
            holes: Vec::new(),
            eave: Length::metres(6.0),
            roof,
            wall: plain.clone(),
            deck: plain,
            open_edges: Vec::new(),
            collateral: None,
            notes: String::new(),
        }
    }

    #[test]
    fn single_slope_is_lowest_at_the_eave() {
        let planes = bay(Roof::SingleSlope {
            rises_toward: Angle::degrees(0.0),
            pitch: 0.1,
        })
        .roof_planes();
        assert!((planes.elevation_at(DVec2::new(3.0, 0.0)) - 6.0).abs() < 1e-12);
        assert!((planes.elevation_at(DVec2::new(3.0, 10.0)) - 7.0).abs() < 1e-12);
    }

    #[test]
    fn gable_is_highest_on_its_ridge_and_meets_the_eave_at_the_farthest_corner() {
        let roof = Roof::Gable {
            ridge_through: DVec2::new(0.0, 4.0),
            ridge_bearing: Angle::degrees(90.0),
            pitch: 0.25,
        };
        let planes = bay(roof).roof_planes();
        assert!((planes.elevation_at(DVec2::new(9.0, 4.0)) - 7.5).abs() < 1e-12);
        assert!((planes.elevation_at(DVec2::new(9.0, 10.0)) - 6.0).abs() < 1e-12);
        assert!((planes.elevation_at(DVec2::new(9.0, 0.0)) - 6.5).abs() < 1e-12);
    }
}
