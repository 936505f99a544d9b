//! A reflector's cross-section, traced: how its tube's radiation spreads over the angles
//! below it, and how much of it never gets out.
//!
//! Tube and reflector are both prisms along the tube, so that a ray's angle along the
//! tube is kept and its way in the cross-section is a way in the plane: one trace in two
//! dimensions gives everything. Traced from the angles back to the tube, by evenly
//! spaced rays, so that the same profile gives the same table.

use crate::geometry::math::{cos, sin};
use crate::geometry::{DVec2, tolerance};
use crate::warmth::source::Optics;
use std::f64::consts::{PI, TAU};

/// A cross-section: x to the left, y up, m.
#[derive(Debug, Clone, PartialEq)]
pub struct CrossSection {
    /// Axes of the tubes; of a hairpin the hot leg first.
    pub tubes: Vec<DVec2>,
    /// Radius of a tube, m.
    pub radius_m: f64,
    /// The reflector, as a line of points; shields as more of them.
    pub profile: Vec<DVec2>,
    /// Reflectance of it, like a mirror's, 0 to 1.
    pub reflectance: f64,
}

/// Below this part of its first strength a ray is given up.
const SPENT: f64 = 1e-6;
/// A ray that left a mirror is not on it, m.
const OFF_M: f64 = 1e-10;

enum Hit {
    Tube(usize),
    Mirror { at: DVec2, along: DVec2 },
}

impl CrossSection {
    /// Radiance that a black first tube sends into an angle (radians from straight down,
    /// positive to the left), summed over the width of the heater, over that of the tube
    /// alone: the mean of so many rays.
    #[must_use]
    pub fn strength(&self, angle_rad: f64, n_rays: usize) -> f64 {
        let out = DVec2::new(sin(angle_rad), -cos(angle_rad));
        let across = DVec2::new(cos(angle_rad), sin(angle_rad));
        let reach_m = self.reach_m();
        let n = count(n_rays.max(1));
        let mut sum = 0.0;
        for k in 0..n_rays {
            let offset_m = (2.0 * (count(k) + 0.5) / n - 1.0) * reach_m;
            let start = out * (4.0 * reach_m) + across * offset_m;
            sum += self.followed(start, -out).0;
        }
        sum * 2.0 * reach_m / n / (2.0 * self.radius_m)
    }

    /// Where the radiation of the first tube goes, by so many places round it and so
    /// many ways from each.
    #[must_use]
    pub fn optics(&self, n: usize) -> Optics {
        let mut optics = Optics {
            room: 0.0,
            hood: 0.0,
            own: 0.0,
            other: 0.0,
        };
        let Some(&centre) = self.tubes.first() else {
            return optics;
        };
        let each = 1.0 / (count(n) * count(n));
        for k in 0..n {
            let place = TAU * (count(k) + 0.5) / count(n);
            let normal = DVec2::new(cos(place), sin(place));
            let start = centre + normal * self.radius_m;
            for j in 0..n {
                // Evenly in the sine of the angle to the normal: the cosine law.
                let side = 2.0 * (count(j) + 0.5) / count(n) - 1.0;
                let way = normal * (1.0 - side * side).sqrt() + normal.perp() * side;
                let (own, other, room) = self.sent(start, way);
                optics.own += each * own;
                optics.other += each * other;
                optics.room += each * room;
                optics.hood += each * (1.0 - own - other - room);
            }
        }
        optics
    }

    /// Half the width of a circle round everything, m.
    fn reach_m(&self) -> f64 {
        let tubes = self.tubes.iter().map(|it| it.length() + self.radius_m);
        let profile = self.profile.iter().map(|it| it.length());
        tubes.chain(profile).fold(self.radius_m, f64::max) * 1.000_1
    }

    /// The strength with which a ray ends on the first tube.
    fn followed(&self, start: DVec2, way: DVec2) -> (f64, Option<usize>) {
        let (mut at, mut way, mut weight) = (start, way, 1.0);
        while SPENT < weight {
            match self.next(at, way) {
                None => return (0.0, None),
                Some(Hit::Tube(0)) => return (weight, Some(0)),
                Some(Hit::Tube(k)) => return (0.0, Some(k)),
                Some(Hit::Mirror { at: met, along }) => {
                    weight *= self.reflectance;
                    at = met;
                    way = along * (2.0 * way.dot(along)) - way;
                }
            }
        }
        (0.0, None)
    }

    /// How much of a ray ends on the first tube, on the other one, in the room.
    fn sent(&self, start: DVec2, way: DVec2) -> (f64, f64, f64) {
        let (mut at, mut way, mut weight) = (start, way, 1.0);
        while SPENT < weight {
            match self.next(at, way) {
                None => return (0.0, 0.0, weight),
                Some(Hit::Tube(0)) => return (weight, 0.0, 0.0),
                Some(Hit::Tube(_)) => return (0.0, weight, 0.0),
                Some(Hit::Mirror { at: met, along }) => {
                    weight *= self.reflectance;
                    at = met;
                    way = along * (2.0 * way.dot(along)) - way;
                }
            }
        }
        (0.0, 0.0, 0.0)
    }

    /// The nearest thing on a ray's way.
    fn next(&self, at: DVec2, way: DVec2) -> Option<Hit> {
        let mut nearest = f64::INFINITY;
        let mut hit = None;
        for (k, centre) in self.tubes.iter().enumerate() {
            let to = *centre - at;
            let along = to.dot(way);
            let off2 = to.length_squared() - along * along;
            let half2 = self.radius_m * self.radius_m - off2;
            if half2 <= 0.0 {
                continue;
            }
            let t = along - half2.sqrt();
            if OFF_M < t && t < nearest {
                (nearest, hit) = (t, Some(Hit::Tube(k)));
            }
        }
        for pair in self.profile.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            let edge = to - from;
            let across = way.perp_dot(edge);
            if across.abs() <= tolerance::PARALLEL {
                continue;
            }
            let t = (from - at).perp_dot(edge) / across;
            let part = (from - at).perp_dot(way) / across;
            if OFF_M < t && t < nearest && (0.0..=1.0).contains(&part) {
                nearest = t;
                hit = Some(Hit::Mirror {
                    at: at + way * t,
                    along: edge.normalize_or_zero(),
                });
            }
        }
        hit
    }
}

/// Strengths by angle, all round, in even steps.
#[derive(Debug, Clone, PartialEq)]
pub struct Spread {
    strengths: Vec<f64>,
}

impl Spread {
    /// Of a tube without a reflector.
    #[must_use]
    pub fn even() -> Self {
        Self {
            strengths: vec![1.0],
        }
    }

    /// Of the first tube of a cross-section, in so many steps round, each of so many rays.
    #[must_use]
    pub fn traced(section: &CrossSection, n_steps: usize, n_rays: usize) -> Self {
        let n_steps = n_steps.max(1);
        let step = TAU / count(n_steps);
        let strengths = (0..n_steps).map(|k| section.strength(count(k) * step, n_rays));
        Self {
            strengths: strengths.collect(),
        }
    }

    /// The strength at an angle, radians, between its neighbours on a line.
    #[must_use]
    pub fn at(&self, angle_rad: f64) -> f64 {
        let n = self.strengths.len();
        let place = (angle_rad / TAU).rem_euclid(1.0) * count(n);
        let part = place.fract();
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "from 0 up to the number of steps"
        )]
        let first = place as usize;
        let [a, b] = [first % n, (first + 1) % n].map(|k| self.strengths[k]);
        a + (b - a) * part
    }

    /// Their mean: the part of the tube's radiation that gets into the room.
    #[must_use]
    pub fn mean(&self) -> f64 {
        self.strengths.iter().sum::<f64>() / count(self.strengths.len())
    }
}

/// Radiance of a heater summed over its width, W/(m sr), where its tube alone sends this
/// much power a metre into a room without a reflector: `power = pi^2 strength`.
#[must_use]
pub fn bare_strength(power_w_per_m: f64) -> f64 {
    power_w_per_m / (PI * PI)
}

#[expect(clippy::cast_precision_loss, reason = "rays are counted in thousands")]
const fn count(n: usize) -> f64 {
    n as f64
}
