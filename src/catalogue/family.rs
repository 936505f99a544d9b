//! One family of heaters: everything that its certified manual says of it.

use crate::geometry::DVec2;
use crate::units::{Angle, Length, LinearDensity, Mass, Power, Pressure};
use serde::{Deserialize, Serialize};

/// A family of heaters that share tube, reflector and hanging rule.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Family {
    /// Its id, as runs name it.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// Where its figures come from.
    pub source: Source,
    /// Straight, or a hairpin (U-tube).
    pub shape: FamilyShape,
    /// Its sizes.
    pub sizes: Vec<HeaterSize>,
    /// Outside diameter of the tube.
    pub tube_diameter: Length,
    /// Wall thickness of the tube.
    pub tube_wall: Length,
    /// Distance between tube joints, from the start of each leg.
    pub joint_spacing: Length,
    /// Mass of the tube, per metre of tube (a hairpin has two legs of it).
    pub tube_mass: LinearDensity,
    /// The reflector.
    pub reflector: Reflector,
    /// Mass of couplings, brackets and hangers, per metre of leg.
    pub hardware_mass: LinearDensity,
    /// The burner's body.
    pub burner: BurnerBody,
    /// The exhaust fitting at the far end of the tube.
    pub exhaust: ExhaustFitting,
    /// How it may be hung.
    pub hanging: HangingFigures,
    /// What must stay clear round it, by tilt band and shields. Holds for all sizes that
    /// have no table of their own.
    pub keep_clear: Vec<KeepClearBand>,
    /// How high it may hang. Holds for all sizes that have no heights of their own.
    pub mounting: MountingHeights,
    /// Gas, air, power and efficiency.
    pub figures: Figures,
}

/// Where figures come from, and whether they are certified.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// The document.
    pub document: String,
    /// Its revision.
    pub revision: String,
    /// Its date.
    pub date: String,
    /// Whether these are the figures of a certified manual.
    pub certified: bool,
}

/// The form of a family's tube.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum FamilyShape {
    /// One straight tube.
    Straight,
    /// Two legs joined by a bend.
    Hairpin {
        /// Distance between the legs' axes.
        leg_spacing: Length,
        /// How far the bend reaches beyond the legs.
        bend_length: Length,
        /// Mass of the bend.
        bend_mass: Mass,
    },
}

/// One size of a family.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HeaterSize {
    /// Its id within the family, as runs name it.
    pub id: String,
    /// Rated heat input, net calorific value.
    pub input_net: Power,
    /// Length of tube, without burner, bend and exhaust fitting; of a hairpin, both legs.
    pub tube_length: Length,
    /// Mass of the burner.
    pub burner_mass: Mass,
    /// What must stay clear round this size, in place of the family's whole table: manuals
    /// tabulate it by input. Empty where the family's holds.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub keep_clear: Vec<KeepClearBand>,
    /// How high this size may hang, in place of the family's heights.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mounting: Option<MountingHeights>,
}

/// The reflector over the tube.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reflector {
    /// Its cross-section as a line of points (left positive, up positive), origin at the
    /// tube axis (hairpin: midway between the legs), m, at no tilt.
    pub profile: Vec<DVec2>,
    /// Mass per metre of leg.
    pub mass: LinearDensity,
    /// Reflectance of its inside, 0 to 1.
    pub reflectance: f64,
}

/// The burner's body: a box behind the flange, centred on the tube axis.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BurnerBody {
    /// Length behind the flange.
    pub length: Length,
    /// Width.
    pub width: Length,
    /// Reach above the tube axis.
    pub above_axis: Length,
    /// Reach below the tube axis.
    pub below_axis: Length,
    /// Its centre of mass behind the flange.
    pub centre_behind_flange: Length,
}

/// The exhaust fitting: a box beyond the tube's exhaust end, centred on the tube axis.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ExhaustFitting {
    /// Length beyond the tube.
    pub length: Length,
    /// Width and height.
    pub diameter: Length,
    /// Mass.
    pub mass: Mass,
}

/// How a family may be hung. Stations are along the tube from the burner flange.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HangingFigures {
    /// Least station of the first hanger.
    pub first_least: Length,
    /// Greatest station of the first hanger.
    pub first_greatest: Length,
    /// Least distance of the second hanger from the first.
    pub second_least: Length,
    /// Greatest distance of the second hanger from the first.
    pub second_greatest: Length,
    /// Least distance between further hangers.
    pub spacing_least: Length,
    /// Greatest distance between further hangers.
    pub spacing_greatest: Length,
    /// Greatest length beyond the last hanger.
    pub overhang_greatest: Length,
    /// No hanger within this of a tube joint.
    pub joint_keep_off: Length,
    /// Fall along the tube from the burner, rise over run (0.004 = 4 mm/m).
    pub slope: f64,
    /// The hanger's eye above the tube axis.
    pub eye_rise: Length,
    /// Least suspension by tube length, shortest tubes first.
    pub least_suspension: Vec<LeastSuspension>,
    /// Greatest swing of a suspension, hot.
    pub swing_greatest: Angle,
    /// Greatest lean of a suspension across the run, cold.
    pub lean_greatest: Angle,
    /// How many suspensions a hanger has.
    #[serde(default, skip_serializing_if = "HangerEyes::is_one")]
    pub eyes: HangerEyes,
}

/// By how many eyes a hanger is suspended.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum HangerEyes {
    /// By one, over the tube's axis; a hairpin's on a yoke over both legs.
    #[default]
    One,
    /// By two, whose suspensions meet at one hang point. They turn with the reflector.
    Two {
        /// Their distance across the reflector.
        apart: Length,
    },
}

impl HangerEyes {
    /// Whether it is one eye, so that files need not say it.
    #[must_use]
    pub const fn is_one(&self) -> bool {
        matches!(self, Self::One)
    }
}

/// The least suspension for tubes up to a length.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeastSuspension {
    /// Holds for tubes up to this length.
    pub tube_up_to: Length,
    /// The least suspension.
    pub suspension: Length,
}

/// Keep-clear distances for one tilt band and set of shields.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KeepClearBand {
    /// Least tilt of the band, either way.
    pub tilt_from: Angle,
    /// Greatest tilt of the band, either way.
    pub tilt_to: Angle,
    /// Shields fitted.
    pub shields: ShieldSet,
    /// The distances.
    pub distances: KeepClearFigures,
}

/// Shields fitted, seen from the aimed side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum ShieldSet {
    /// None; in files `Without`, as a bare `None` means a missing value there.
    #[serde(rename = "Without", alias = "None")]
    None,
    /// On the aimed side.
    Front,
    /// On the other side.
    Rear,
    /// On both sides.
    Both,
}

/// Distances to what burns, from the heater's outermost part in each direction.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KeepClearFigures {
    /// Above.
    pub above: Length,
    /// Below.
    pub below: Length,
    /// On the aimed side.
    pub front: Length,
    /// On the other side.
    pub rear: Length,
    /// Beyond the burner.
    pub burner_end: Length,
    /// Beyond the exhaust (hairpin: beyond the bend).
    pub exhaust_end: Length,
}

/// How high a heater may hang: its lowest part above the floor.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MountingHeights {
    /// Least height of the lowest part.
    pub least: Length,
    /// Greatest height of the lowest part.
    pub greatest: Length,
}

/// Gas, air, power and efficiency.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Figures {
    /// Emissivity of the tube's outside, 0 to 1.
    pub tube_emissivity: f64,
    /// Thermal efficiency, net calorific value, 0 to 1.
    pub thermal_efficiency: f64,
    /// Radiant factor: radiant output downward over net input, 0 to 1.
    pub radiant_factor: f64,
    /// Excess air ratio (lambda), 1 or more.
    pub air_ratio: f64,
    /// Least gas inlet pressure.
    pub inlet_least: Pressure,
    /// Greatest gas inlet pressure.
    pub inlet_greatest: Pressure,
    /// Diameter of the exhaust.
    pub exhaust_diameter: Length,
    /// Running current, A.
    pub current_a: f64,
    /// Voltage, V.
    pub voltage_v: f64,
    /// Loss of input per 300 m of altitude, 0 to 1.
    pub derating_per_300_m: f64,
}

impl Family {
    /// Length of the straight part that hanging rules use: the tube, or one leg of a hairpin.
    pub fn leg_length(&self, size: &HeaterSize) -> Length {
        match self.shape {
            FamilyShape::Straight => size.tube_length,
            FamilyShape::Hairpin { .. } => size.tube_length / 2.0,
        }
    }

    /// What must stay clear round a size: its own table, or the family's.
    pub fn keep_clear_of<'a>(&'a self, size: &'a HeaterSize) -> &'a [KeepClearBand] {
        if size.keep_clear.is_empty() {
            &self.keep_clear
        } else {
            &size.keep_clear
        }
    }

    /// How high a size may hang: its own heights, or the family's.
    pub fn mounting_of(&self, size: &HeaterSize) -> MountingHeights {
        size.mounting.unwrap_or(self.mounting)
    }

    /// The least suspension for a tube: of the first entry long enough for it, or of the
    /// last where the tube is longer than all. Tube length is the leg's for a hairpin.
    pub fn least_suspension(&self, size: &HeaterSize) -> Length {
        /// Equal passes: a tube of exactly the stated length is within it.
        const SAME: f64 = crate::geometry::tolerance::LIMIT;
        let leg = self.leg_length(size).as_metres();
        let entries = &self.hanging.least_suspension;
        entries
            .iter()
            .find(|entry| leg <= entry.tube_up_to.as_metres() + SAME)
            .or_else(|| entries.last())
            .map_or(Length::ZERO, |entry| entry.suspension)
    }

    /// Mass per metre of leg that the hangers carry: tube, reflector, hardware.
    pub fn mass_per_metre(&self) -> LinearDensity {
        let legs = match self.shape {
            FamilyShape::Straight => 1.0,
            FamilyShape::Hairpin { .. } => 2.0,
        };
        self.tube_mass * legs + self.reflector.mass + self.hardware_mass
    }
}
