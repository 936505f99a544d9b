//! A frame along a sloped axis in space.

use super::{Bounds, DVec2, DVec3, math};

/// A right-handed frame along an axis that may slope: `along` the axis, `left` of it
/// (always level) and `up` from it.
///
/// Local coordinates are (s, l, u): the station along the axis, the distance left and
/// the distance up, each in metres from the origin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Where s = l = u = 0, in site space.
    pub origin: DVec3,
    /// Unit vector along the axis.
    pub along: DVec3,
    /// Unit vector to the left, level.
    pub left: DVec3,
    /// Unit vector up from the axis, square to both others.
    pub up: DVec3,
}

impl Frame {
    /// The axes of the space itself: s = x, l = y, u = z.
    pub const AXES: Self = Self {
        origin: DVec3::ZERO,
        along: DVec3::X,
        left: DVec3::Y,
        up: DVec3::Z,
    };

    /// A frame at `origin` whose axis bears `bearing_degrees` clockwise from plan north
    /// and falls by `slope` (rise over run in plan; positive slope falls along the axis).
    ///
    /// h = (sin b, cos b, 0), left = z x h, along = h cos a - z sin a with a = atan(slope),
    /// up = along x left.
    #[must_use]
    pub fn sloped(origin: DVec3, bearing_degrees: f64, slope: f64) -> Self {
        let (sin, cos) = math::sin_cos_degrees(bearing_degrees);
        let level = DVec3::new(sin, cos, 0.0);
        let left = DVec3::new(-cos, sin, 0.0);
        let secant = (1.0 + slope * slope).sqrt();
        let along = (level - DVec3::Z * slope) / secant;
        Self {
            origin,
            along,
            left,
            up: along.cross(left),
        }
    }

    /// The point at station s on the axis.
    #[must_use]
    pub fn at_station(&self, s_m: f64) -> DVec3 {
        self.origin + self.along * s_m
    }

    /// Local coordinates (s, l, u) of a point in site space.
    #[must_use]
    pub fn local_from_site(&self, p: DVec3) -> DVec3 {
        self.local_direction(p - self.origin)
    }

    /// The point in site space with local coordinates (s, l, u).
    #[must_use]
    pub fn site_from_local(&self, slu: DVec3) -> DVec3 {
        self.origin + self.site_direction(slu)
    }

    /// A direction turned into local coordinates.
    #[must_use]
    pub fn local_direction(&self, v: DVec3) -> DVec3 {
        DVec3::new(v.dot(self.along), v.dot(self.left), v.dot(self.up))
    }

    /// A local direction turned into site space.
    #[must_use]
    pub fn site_direction(&self, slu: DVec3) -> DVec3 {
        self.along * slu.x + self.left * slu.y + self.up * slu.z
    }

    /// The corners of a box given in local coordinates, in site space. Bit 0 of a
    /// corner's position says high s, bit 1 high l, bit 2 high u.
    #[must_use]
    pub fn corners(&self, local: &Bounds) -> [DVec3; 8] {
        let (low, high) = (local.low, local.high);
        std::array::from_fn(|k| {
            let pick = |bit: usize, low: f64, high: f64| if k & bit == 0 { low } else { high };
            self.site_from_local(DVec3::new(
                pick(1, low.x, high.x),
                pick(2, low.y, high.y),
                pick(4, low.z, high.z),
            ))
        })
    }

    /// The axis's bearing as a unit vector in plan.
    #[must_use]
    pub fn heading(&self) -> DVec2 {
        DVec2::new(self.left.y, -self.left.x)
    }

    /// Moved by a vector in site space.
    #[must_use]
    pub fn translated(&self, by: DVec3) -> Self {
        Self {
            origin: self.origin + by,
            ..*self
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_level_run_to_the_north_looks_along_y() {
        let frame = Frame::sloped(DVec3::new(1.0, 2.0, 3.0), 0.0, 0.0);
        assert_eq!(
            (frame.along, frame.left, frame.up),
            (DVec3::Y, DVec3::NEG_X, DVec3::Z)
        );
        assert_eq!(
            frame.site_from_local(DVec3::new(5.0, 1.0, -0.5)),
            DVec3::new(0.0, 7.0, 2.5)
        );
    }

    #[test]
    fn positive_slope_falls_along_the_axis() {
        let frame = Frame::sloped(DVec3::ZERO, 90.0, 0.75);
        assert!(frame.along.abs_diff_eq(DVec3::new(0.8, 0.0, -0.6), 1e-15));
        assert!(frame.left.abs_diff_eq(DVec3::Y, 1e-15));
        assert!(frame.up.abs_diff_eq(DVec3::new(0.6, 0.0, 0.8), 1e-15));
        assert!(frame.heading().abs_diff_eq(DVec2::X, 1e-15));
    }

    #[test]
    fn there_and_back_is_the_same_point() {
        let frame = Frame::sloped(DVec3::new(900.0, -40.0, 6.0), 217.3, 0.004);
        let p = DVec3::new(905.25, -33.5, 4.75);
        assert!(
            frame
                .site_from_local(frame.local_from_site(p))
                .abs_diff_eq(p, 1e-12)
        );
        assert!((frame.along.cross(frame.left)).abs_diff_eq(frame.up, 1e-15));
    }
}
