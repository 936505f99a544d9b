//! One run as hanging sees it: a tube in space, its maker's hanging rule, its weight.

use super::growth::TemperatureRise;
use crate::geometry::math::{atan, cos, sin};
use crate::geometry::{DVec2, DVec3};

/// Where a run's tube is. For a hairpin this is the midline between its legs, and
/// the length is that of one leg: one hanger carries both legs from a yoke.
#[derive(Debug, Clone, PartialEq)]
pub struct RunGeometry {
    /// Tube axis at the burner flange, cold: station 0.
    pub flange: DVec3,
    /// Unit vector in plan from the burner to the exhaust (hairpin: to the bend).
    pub heading: DVec2,
    /// Fall of the tube per plan length, m/m; positive falls from the burner.
    pub slope: f64,
    /// Length of the tube (hairpin: of a leg), along the tube, m.
    pub tube_length_m: f64,
    /// Height of a hanger's eye over the tube axis, along +z, m. Of two eyes, that of
    /// the middle between them at no tilt.
    pub eye_rise_m: f64,
    /// By how many eyes a hanger is suspended.
    pub eyes: Eyes,
    /// How much warmer the tube gets than it is hung.
    pub rise: TemperatureRise,
}

/// By how many eyes a hanger is suspended.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Eyes {
    /// One, straight over the axis.
    #[default]
    One,
    /// Two, whose suspensions meet at one attach point.
    Two {
        /// Their distance across the reflector, m.
        apart_m: f64,
        /// How far they turn with the reflector about the tube axis, rad; positive aims
        /// left and so lowers the right one.
        tilt_rad: f64,
    },
}

impl RunGeometry {
    /// The stations and levels of this run, with the trigonometry of its slope done.
    #[must_use]
    pub fn axis(&self) -> RunAxis {
        let angle = atan(self.slope);
        let (sine, cosine) = (sin(angle), cos(angle));
        let pair = match self.eyes {
            Eyes::One => None,
            Eyes::Two { apart_m, tilt_rad } => {
                let (sin_tilt, cos_tilt) = (sin(tilt_rad), cos(tilt_rad));
                let turned = |left_m: f64| {
                    DVec2::new(
                        left_m * cos_tilt - self.eye_rise_m * sin_tilt,
                        left_m * sin_tilt + self.eye_rise_m * cos_tilt,
                    )
                };
                Some([turned(apart_m / 2.0), turned(-apart_m / 2.0)])
            }
        };
        RunAxis {
            flange: self.flange,
            heading: self.heading,
            along: DVec3::new(self.heading.x * cosine, self.heading.y * cosine, -sine),
            cosine,
            eye_rise_m: self.eye_rise_m,
            pair,
            tube_length_m: self.tube_length_m,
        }
    }
}

/// A run's axis, ready to turn stations into points and points into stations.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunAxis {
    flange: DVec3,
    /// Unit vector in plan along the run.
    pub(super) heading: DVec2,
    /// Unit vector along the tube, in space.
    along: DVec3,
    /// Cosine of the slope angle: plan length per tube length.
    cosine: f64,
    eye_rise_m: f64,
    /// Of two eyes, how far each is left of and above the axis, m; the left one first.
    pair: Option<[DVec2; 2]>,
    /// Length of the tube, m.
    pub(super) tube_length_m: f64,
}

impl RunAxis {
    /// The tube's axis at a station.
    #[must_use]
    pub fn point(&self, station_m: f64) -> DVec3 {
        self.flange + self.along * station_m
    }

    /// The eye of a hanger at a station, straight over the axis; of two eyes, where one
    /// would be.
    #[must_use]
    pub fn eye(&self, station_m: f64) -> DVec3 {
        self.point(station_m) + DVec3::new(0.0, 0.0, self.eye_rise_m)
    }

    /// Every eye of a hanger at a station: one straight over the axis, or two, the left
    /// one first.
    pub fn eyes(&self, station_m: f64) -> impl Iterator<Item = DVec3> + use<> {
        let axis = self.point(station_m);
        let left = self.heading.perp();
        let pair = self.pair.into_iter().flatten();
        let one = self.pair.is_none().then(|| self.eye(station_m));
        one.into_iter()
            .chain(pair.map(move |at| axis + (left * at.x).extend(at.y)))
    }

    /// Elevation of the highest eye of a hanger at a station, m.
    #[must_use]
    pub fn highest_eye_m(&self, station_m: f64) -> f64 {
        let above_m = self
            .pair
            .map_or(self.eye_rise_m, |[left, right]| left.y.max(right.y));
        self.flange.z + self.along.z * station_m + above_m
    }

    /// Whether hangers have two eyes.
    #[must_use]
    pub const fn has_two_eyes(&self) -> bool {
        self.pair.is_some()
    }

    /// Elevation of the eye of a hanger at a station, m.
    #[must_use]
    pub fn eye_level(&self, station_m: f64) -> f64 {
        self.flange.z + self.along.z * station_m + self.eye_rise_m
    }

    /// The station whose axis point has `plan` abreast of it, not rounded.
    #[must_use]
    pub fn station_abreast(&self, plan: DVec2) -> f64 {
        (plan - self.flange.truncate()).dot(self.heading) / self.cosine
    }

    /// How far `plan` lies left of the run, m; negative to the right.
    #[must_use]
    pub fn offset_left(&self, plan: DVec2) -> f64 {
        self.heading.perp_dot(plan - self.flange.truncate())
    }

    /// Plan length of a piece of tube, m.
    #[must_use]
    pub fn plan_length(&self, tube_m: f64) -> f64 {
        tube_m * self.cosine
    }
}

/// Two limits, both of which still pass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// The least that passes.
    pub least_m: f64,
    /// The greatest that passes.
    pub greatest_m: f64,
}

/// What the heater's maker asks of its hangers, already looked up for this run's
/// length. All limits are inclusive, with [`crate::geometry::tolerance::LIMIT`].
#[derive(Debug, Clone, PartialEq)]
pub struct HangingRule {
    /// Stations where the first hanger may be.
    pub first: Window,
    /// How far after the first hanger the second may be.
    pub second: Window,
    /// How far apart each further hanger may be from the one before it.
    pub spacing: Window,
    /// Greatest length of tube beyond the last hanger, m.
    pub greatest_overhang_m: f64,
    /// Stations of the tube joints: strictly inside the leg, ascending.
    pub joints_m: Vec<f64>,
    /// Nearest that a hanger may be to a tube joint, m.
    pub joint_keep_off_m: f64,
    /// Least suspension length for this run, m.
    pub least_suspension_m: f64,
    /// Greatest lean of a suspension across the run, cold, rad.
    pub greatest_lean_rad: f64,
    /// Greatest lean of a suspension along the run, hot, rad.
    pub greatest_swing_rad: f64,
}

/// What hangs on a run's hangers. Gas, cable and exhaust pipe hang from the
/// structure, not from the run.
#[derive(Debug, Clone, PartialEq)]
pub struct RunWeight {
    /// Tube, reflector and hardware together, kg per metre of station, spread
    /// evenly from the flange to the tube's end (hairpin: both legs).
    pub spread_kg_per_m: f64,
    /// Single masses: burner, return bend, exhaust fitting.
    pub single: Vec<PointMass>,
    /// Bending stiffness of what hangs, N m2. The level case doesn't depend on it
    /// (it cancels); slack and level errors do.
    pub stiffness_n_m2: f64,
}

/// A mass at one station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PointMass {
    /// Where its centre is, m; the burner's is negative, behind the flange.
    pub station_m: f64,
    /// Its mass, kg.
    pub mass_kg: f64,
}
