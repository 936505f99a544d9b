//! The camera: looks at a point, from a bearing, tilted down, from a distance.

use crate::geometry::math::{sin_cos_degrees, tan};
use crate::geometry::{Bounds, DVec2, DVec3};

/// A camera that walks round a point of the site. Pictures are in perspective.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Camera {
    /// The point that is in the middle of the picture.
    pub target: DVec3,
    /// The bearing at which one stands as seen from that point, degrees clockwise from
    /// plan north: 180 stands south and looks north.
    pub from_degrees: f64,
    /// How steeply one looks down, degrees: 0 level, 90 straight down.
    pub tilt_degrees: f64,
    /// How far one stands from that point, m.
    pub distance_m: f64,
}

/// Half the angle that the picture's longer side spans, degrees: a calm perspective.
const HALF_VIEW_DEGREES: f64 = 17.0;
/// Nearer than this nothing is drawn, m.
pub(super) const NEAREST_M: f64 = 0.2;
/// Least and greatest distance from the target, m.
const DISTANCES_M: (f64, f64) = (1.0, 50_000.0);

impl Default for Camera {
    fn default() -> Self {
        Self {
            target: DVec3::ZERO,
            from_degrees: 215.0,
            tilt_degrees: 28.0,
            distance_m: 60.0,
        }
    }
}

/// A point as it is seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seen {
    /// Where in the picture, pixels from its top left corner, y down.
    pub at: DVec2,
    /// How far before the camera, m, along its axis.
    pub depth_m: f64,
}

/// A camera with its axes and the picture's size worked out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Lens {
    pub(super) eye: DVec3,
    pub(super) right: DVec3,
    pub(super) up: DVec3,
    pub(super) forward: DVec3,
    /// Pixels per unit of slope.
    pub(super) focal: f64,
    pub(super) middle: DVec2,
}

impl Camera {
    fn axes(&self) -> [DVec3; 3] {
        let (sin_b, cos_b) = sin_cos_degrees(self.from_degrees);
        let (sin_t, cos_t) = sin_cos_degrees(self.tilt_degrees);
        let out = DVec3::new(sin_b * cos_t, cos_b * cos_t, sin_t);
        let right = DVec3::new(-cos_b, sin_b, 0.0);
        let forward = -out;
        [right, right.cross(forward), forward]
    }

    pub(super) fn lens(&self, size: DVec2) -> Lens {
        let [right, up, forward] = self.axes();
        let half = size.max_element() / 2.0;
        Lens {
            eye: self.target - forward * self.distance_m,
            right,
            up,
            forward,
            focal: half / tan(HALF_VIEW_DEGREES.to_radians()),
            middle: size / 2.0,
        }
    }

    /// Where a point is seen in a picture of a size in pixels; none behind the camera.
    #[must_use]
    pub fn see(&self, point: DVec3, size: DVec2) -> Option<Seen> {
        let lens = self.lens(size);
        let seen = lens.local(point);
        (NEAREST_M <= seen.z).then(|| Seen {
            at: lens.pixel(seen),
            depth_m: seen.z,
        })
    }

    /// The way into the site under a pixel: where one stands, and a unit vector.
    #[must_use]
    pub fn ray(&self, at: DVec2, size: DVec2) -> (DVec3, DVec3) {
        let lens = self.lens(size);
        let slope = (at - lens.middle) / lens.focal;
        let way = lens.forward + lens.right * slope.x - lens.up * slope.y;
        (lens.eye, way.normalize_or_zero())
    }

    /// The same direction, from where all of a box is in a picture of a size in pixels.
    #[must_use]
    pub fn fitted(&self, all: &Bounds, size: DVec2) -> Self {
        /// Part of the picture that the box may fill; the rest is for names.
        const FILL: f64 = 0.9;
        let [right, up, forward] = self.axes();
        let slopes = size / size.max_element() * tan(HALF_VIEW_DEGREES.to_radians()) * FILL;
        let (low, high) = (all.low, all.high);
        let corners: [DVec3; 8] = std::array::from_fn(|k| {
            let pick = |bit: usize, low: f64, high: f64| if k & bit == 0 { low } else { high };
            DVec3::new(
                pick(1, low.x, high.x),
                pick(2, low.y, high.y),
                pick(4, low.z, high.z),
            )
        });
        // Two rounds: stand far enough away, then put what is seen into the middle.
        let mut target = all.centre();
        let mut distance_m = DISTANCES_M.0;
        for _ in 0..3 {
            distance_m = corners
                .iter()
                .map(|&corner| {
                    let arm = corner - target;
                    let side = (arm.dot(right).abs() / slopes.x).max(arm.dot(up).abs() / slopes.y);
                    side - arm.dot(forward)
                })
                .fold(DISTANCES_M.0, f64::max);
            let (mut least, mut greatest) = (DVec2::INFINITY, DVec2::NEG_INFINITY);
            for &corner in &corners {
                let arm = corner - target;
                let slope =
                    DVec2::new(arm.dot(right), arm.dot(up)) / (arm.dot(forward) + distance_m);
                least = least.min(slope);
                greatest = greatest.max(slope);
            }
            let off = (least + greatest) / 2.0 * distance_m;
            target += right * off.x + up * off.y;
        }
        Self {
            target,
            distance_m: distance_m.clamp(DISTANCES_M.0, DISTANCES_M.1),
            ..*self
        }
    }

    /// Walked round by degrees clockwise, and tilted.
    #[must_use]
    pub fn orbited(&self, around_degrees: f64, tilt_degrees: f64) -> Self {
        Self {
            from_degrees: (self.from_degrees + around_degrees).rem_euclid(360.0),
            tilt_degrees: (self.tilt_degrees + tilt_degrees).clamp(-10.0, 90.0),
            ..*self
        }
    }

    /// Moved sideways so that the picture moves by pixels.
    #[must_use]
    pub fn panned(&self, by: DVec2, size: DVec2) -> Self {
        let lens = self.lens(size);
        let metres = by * self.distance_m / lens.focal;
        Self {
            target: self.target - lens.right * metres.x + lens.up * metres.y,
            ..*self
        }
    }

    /// Nearer by a factor.
    #[must_use]
    pub fn nearer(&self, factor: f64) -> Self {
        Self {
            distance_m: (self.distance_m / factor).clamp(DISTANCES_M.0, DISTANCES_M.1),
            ..*self
        }
    }
}

impl Lens {
    /// A point in the camera's own axes: right, up, forward.
    pub(super) fn local(&self, point: DVec3) -> DVec3 {
        let arm = point - self.eye;
        DVec3::new(arm.dot(self.right), arm.dot(self.up), arm.dot(self.forward))
    }

    /// The pixel of a point in the camera's own axes; it must lie before the camera.
    pub(super) fn pixel(&self, local: DVec3) -> DVec2 {
        let scale = self.focal / local.z;
        DVec2::new(
            self.middle.x + local.x * scale,
            self.middle.y - local.y * scale,
        )
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use super::*;

    const SIZE: DVec2 = DVec2::new(800.0, 500.0);

    #[test]
    fn from_the_south_east_is_right_and_up_is_up() {
        let camera = Camera {
            from_degrees: 180.0,
            tilt_degrees: 0.0,
            distance_m: 10.0,
            ..Camera::default()
        };
        let at = |p: DVec3| camera.see(p, SIZE).unwrap().at;
        assert!((at(DVec3::ZERO) - SIZE / 2.0).length() < 1e-9);
        assert!(at(DVec3::X).x > 400.0 && (at(DVec3::X).y - 250.0).abs() < 1e-9);
        assert!(at(DVec3::Z).y < 250.0);
        assert_eq!(camera.see(DVec3::new(0.0, -20.0, 0.0), SIZE), None);
        // Half the longer side spans 17 degrees.
        let edge = 10.0 * tan(17_f64.to_radians());
        assert!((at(DVec3::X * edge).x - 800.0).abs() < 1e-9);
    }

    #[test]
    fn from_the_west_south_is_right() {
        let camera = Camera {
            from_degrees: 270.0,
            ..Camera::default()
        };
        let at = |p: DVec3| camera.see(p, SIZE).unwrap().at;
        assert!(at(-DVec3::Y).x > 400.0);
    }

    #[test]
    fn straight_down_is_a_plan_with_the_bearing_at_the_bottom() {
        let camera = Camera {
            from_degrees: 180.0,
            tilt_degrees: 90.0,
            ..Camera::default()
        };
        let at = |p: DVec3| camera.see(p, SIZE).unwrap().at;
        assert!(at(DVec3::Y).y < 250.0 && at(DVec3::X).x > 400.0);
    }

    #[test]
    fn a_fitted_box_is_in_the_picture_and_fills_it() {
        let all = Bounds {
            low: DVec3::new(-5.0, 20.0, 0.0),
            high: DVec3::new(67.0, 56.0, 9.0),
        };
        for from in [0.0, 37.0, 215.0] {
            for tilt in [0.0, 28.0, 90.0] {
                let camera = Camera {
                    from_degrees: from,
                    tilt_degrees: tilt,
                    ..Camera::default()
                }
                .fitted(&all, SIZE);
                let mut least = DVec2::INFINITY;
                let mut greatest = DVec2::NEG_INFINITY;
                for x in [-5.0, 67.0] {
                    for y in [20.0, 56.0] {
                        for z in [0.0, 9.0] {
                            let at = camera.see(DVec3::new(x, y, z), SIZE).unwrap().at;
                            least = least.min(at);
                            greatest = greatest.max(at);
                        }
                    }
                }
                assert!(least.cmpge(DVec2::ZERO).all() && greatest.cmple(SIZE).all());
                let part = (greatest - least) / SIZE;
                assert!(0.8 < part.max_element(), "{from} {tilt}: {part}");
            }
        }
    }

    #[test]
    fn a_ray_leads_back_to_its_point() {
        let camera = Camera::default();
        let point = DVec3::new(3.0, -2.0, 4.0);
        let (eye, way) = camera.ray(camera.see(point, SIZE).unwrap().at, SIZE);
        assert!((point - eye).normalize().dot(way) > 1.0 - 1e-12);
    }
}
