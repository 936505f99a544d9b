//! What arrives at a place from a heater that is a line with a spread over the angles
//! round it.
//!
//! The angle round the tube at which a place lies is the same from all along it, so the
//! spread is read once, and the sum along the tube has a closed form. A receiver sees
//! only what is before it: what of the tube lies behind its plane is left out.

use super::reflector::Spread;
use crate::geometry::DVec3;
use crate::geometry::math::{atan, atan2};

/// A stretch of the line that is equally strong all along.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// From here along the line, m.
    pub from_m: f64,
    /// To here, m.
    pub to_m: f64,
    /// Radiance summed over the tube's width, of the tube without its reflector,
    /// W/(m sr).
    pub strength: f64,
}

/// A heater as a line.
#[derive(Debug, Clone, PartialEq)]
pub struct LineSource {
    /// Where it begins, m.
    pub start: DVec3,
    /// Its direction, a unit vector that is not upright.
    pub along: DVec3,
    /// How strong it is, piece after piece.
    pub pieces: Vec<Piece>,
    /// How its strength spreads round it, the reflector not tilted.
    pub spread: Spread,
    /// Turn of the reflector, radians, positive to the left seen along the line.
    pub tilt_rad: f64,
}

/// Nearer than this to the axis there is no place: it is inside the tube, m.
const ON_AXIS_M: f64 = 1e-6;

impl LineSource {
    /// Irradiance of a small surface at a place, W/m2. `normal` is a unit vector.
    #[must_use]
    pub fn irradiance(&self, place: DVec3, normal: DVec3) -> f64 {
        self.irradiance_between(place, normal, (f64::NEG_INFINITY, f64::INFINITY))
    }

    /// The same from a part of the line alone, between two places along it, m.
    #[must_use]
    pub fn irradiance_between(
        &self,
        place: DVec3,
        normal: DVec3,
        (from_m, to_m): (f64, f64),
    ) -> f64 {
        let beside = place - self.start;
        let foot_m = beside.dot(self.along);
        let off = beside - self.along * foot_m;
        let distance_m = off.length();
        if distance_m < ON_AXIS_M {
            return 0.0;
        }
        // Toward the axis; the surface's part across and along the line.
        let toward = -off / distance_m;
        let (across, along) = (normal.dot(toward), normal.dot(self.along));
        let (mut low_m, mut high_m) = (from_m - foot_m, to_m - foot_m);
        // Before the receiver: across * distance + along * z > 0.
        let level = -across * distance_m;
        if along > 0.0 {
            low_m = low_m.max(level / along);
        } else if along < 0.0 {
            high_m = high_m.min(level / along);
        } else if across <= 0.0 {
            return 0.0;
        }
        let spread = self.spread.at(self.angle_of(-toward) - self.tilt_rad);
        let part = |z: f64| {
            let square = distance_m * distance_m + z * z;
            let radial = z / (2.0 * square) + atan(z / distance_m) / (2.0 * distance_m);
            let axial = -distance_m / (2.0 * square);
            across * radial + along * axial
        };
        self.pieces
            .iter()
            .map(|piece| {
                let (from, to) = (
                    (piece.from_m - foot_m).max(low_m),
                    (piece.to_m - foot_m).min(high_m),
                );
                if from < to {
                    spread * piece.strength * (part(to) - part(from))
                } else {
                    0.0
                }
            })
            .sum()
    }

    /// The angle of a direction out from the axis, radians from straight down, positive
    /// to the left.
    fn angle_of(&self, out: DVec3) -> f64 {
        let left = DVec3::Z.cross(self.along).normalize_or_zero();
        let up = self.along.cross(left);
        atan2(out.dot(left), -out.dot(up))
    }

    /// Where it ends, m along it.
    #[must_use]
    pub fn length_m(&self) -> f64 {
        self.pieces.last().map_or(0.0, |piece| piece.to_m)
    }
}
