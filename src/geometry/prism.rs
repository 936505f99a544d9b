//! Solids that buildings are made of: prisms with level or sloped ends, sloped bars,
//! turned boxes.

use super::bounds::Bounds;
use super::frame::Frame;
use super::pieces::{convex_hull, cut_by_line};
use super::polygon::{Polygon, ring_edges, signed_area};
use super::solid::ConvexSolid;
use super::{DVec2, DVec3, tolerance};

/// A plane that is not vertical, as the elevation it has over each plan point:
/// z = base + gradient . p.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Elevation {
    /// Elevation over the plan origin, m.
    pub base_m: f64,
    /// Rise per metre east and per metre north.
    pub gradient: DVec2,
}

impl Elevation {
    /// The same elevation everywhere.
    #[must_use]
    pub fn level(z_m: f64) -> Self {
        Self {
            base_m: z_m,
            gradient: DVec2::ZERO,
        }
    }

    /// The plane of elevation `z_m` over `point` that rises along the unit vector
    /// `direction` by `slope`, rise over run, and is level across it.
    #[must_use]
    pub fn along(point: DVec2, direction: DVec2, z_m: f64, slope: f64) -> Self {
        let gradient = direction * slope;
        Self {
            base_m: z_m - gradient.dot(point),
            gradient,
        }
    }

    /// The elevation over a plan point, m.
    #[must_use]
    pub fn at(&self, p: DVec2) -> f64 {
        self.base_m + self.gradient.dot(p)
    }

    /// The plane raised by a height.
    #[must_use]
    pub fn raised(&self, by_m: f64) -> Self {
        Self {
            base_m: self.base_m + by_m,
            gradient: self.gradient,
        }
    }
}

impl ConvexSolid {
    /// An upright prism over a convex ring between two planes.
    ///
    /// The ring may run either way. Where the planes meet over the ring, the prism
    /// ends there, as a wedge. `None` where the ring is not convex, or nothing has a
    /// volume: the ring has no area, or the top is nowhere above the bottom.
    #[must_use]
    pub fn prism(ring: &[DVec2], bottom: Elevation, top: Elevation) -> Option<Self> {
        let outline = convex_outline(ring)?;
        // Kept where bottom(p) <= top(p).
        let falling = bottom.gradient - top.gradient;
        let base = cut_by_line(&outline, falling, top.base_m - bottom.base_m);
        let height = |p: &DVec2| top.at(*p) - bottom.at(*p);
        if base.iter().map(height).fold(0.0, f64::max) <= tolerance::SAME_POINT {
            return None;
        }
        let n = base.len();
        let mut vertices: Vec<DVec3> = base.iter().map(|&p| p.extend(bottom.at(p))).collect();
        let mut upper = Vec::with_capacity(n);
        for (index, p) in base.iter().enumerate() {
            if height(p) <= tolerance::SAME_POINT {
                upper.push(index);
            } else {
                upper.push(vertices.len());
                vertices.push(p.extend(top.at(*p)));
            }
        }
        let side = |k: usize| {
            let next = (k + 1) % n;
            let along = base[next] - base[k];
            let normal = DVec3::new(along.y, -along.x, 0.0);
            (normal, vec![k, next, upper[next], upper[k]])
        };
        let lid = (
            DVec3::new(-top.gradient.x, -top.gradient.y, 1.0),
            upper.clone(),
        );
        let floor = (
            bottom.gradient.extend(-1.0),
            (0..n).rev().collect::<Vec<_>>(),
        );
        let faces = (0..n).map(side).chain([floor, lid]).collect();
        Self::from_faces(vertices, faces)
    }

    /// The convex prisms over a polygon with holes between two planes.
    #[must_use]
    pub fn prisms(polygon: &Polygon, bottom: Elevation, top: Elevation) -> Vec<Self> {
        polygon
            .convex_pieces()
            .iter()
            .filter_map(|piece| Self::prism(piece, bottom, top))
            .collect()
    }

    /// A sloped bar: a member, a duct, a pipe. `from` and `to` are the ends of the
    /// centre line of its underside; it is `width_m` wide in plan and `depth_m` deep,
    /// measured upright; its ends are upright.
    ///
    /// `None` for an upright bar (that is a prism), or one without width or depth.
    #[must_use]
    pub fn bar(from: DVec3, to: DVec3, width_m: f64, depth_m: f64) -> Option<Self> {
        let (a, b) = (from.truncate(), to.truncate());
        let length_m = a.distance(b);
        if length_m <= tolerance::SAME_POINT {
            return None;
        }
        let along = (b - a) / length_m;
        let across = along.perp() * (width_m / 2.0);
        let gradient = along * ((to.z - from.z) / length_m);
        let underside = Elevation {
            base_m: from.z - gradient.dot(a),
            gradient,
        };
        let ring = [a - across, b - across, b + across, a + across];
        Self::prism(&ring, underside, underside.raised(depth_m))
    }

    /// A convex profile drawn in an upright plane, drawn out level.
    ///
    /// The profile is a ring of (out, up) points, running either way: `out` m from
    /// `origin` along the unit vector `out` in plan, `up` the elevation, m. `along` is the
    /// vector in plan that it is drawn out by. `None` where the ring is not convex, or
    /// nothing has a volume.
    #[must_use]
    pub fn extruded(profile: &[DVec2], origin: DVec2, out: DVec2, along: DVec2) -> Option<Self> {
        let ring = convex_outline(profile)?;
        let handed = out.perp_dot(along);
        if handed.abs() <= tolerance::SAME_POINT {
            return None;
        }
        // Seen against `along`, a counter-clockwise ring must run counter-clockwise.
        let (origin, along) = if handed < 0.0 {
            (origin, along)
        } else {
            (origin + along, -along)
        };
        let n = ring.len();
        let at = |p: &DVec2, by: DVec2| (origin + out * p.x + by).extend(p.y);
        let near = ring.iter().map(|p| at(p, DVec2::ZERO));
        let far = ring.iter().map(|p| at(p, along));
        let side = |k: usize| {
            let next = (k + 1) % n;
            let edge = ring[next] - ring[k];
            let normal = (out * edge.y).extend(-edge.x);
            (normal, vec![k, next, next + n, k + n])
        };
        let ends = [
            ((-along).extend(0.0), (0..n).rev().collect::<Vec<_>>()),
            (along.extend(0.0), (n..2 * n).collect()),
        ];
        let faces = (0..n).map(side).chain(ends).collect();
        Self::from_faces(near.chain(far).collect(), faces)
    }

    /// The straight body between a convex ring and the same ring moved along: a tube. The
    /// rings run counter-clockwise seen from the second one.
    ///
    /// `None` where it has no volume, or the rings differ in their number of corners.
    #[must_use]
    pub fn tube(from: &[DVec3], to: &[DVec3]) -> Option<Self> {
        let n = from.len();
        if n < 3 || to.len() != n {
            return None;
        }
        let along = (to[0] - from[0]).try_normalize()?;
        let side = |k: usize| {
            let next = (k + 1) % n;
            let normal = (from[next] - from[k]).cross(along);
            (normal, vec![k, next, n + next, n + k])
        };
        let ends = [
            (-along, (0..n).rev().collect::<Vec<_>>()),
            (along, (n..2 * n).collect()),
        ];
        let faces = (0..n).map(side).chain(ends).collect();
        Self::from_faces(from.iter().chain(to).copied().collect(), faces)
    }

    /// The box between two corners given in a frame's local coordinates.
    ///
    /// `None` where it has no volume.
    #[must_use]
    pub fn turned_box(frame: &Frame, local: &Bounds) -> Option<Self> {
        if local.half_size().min_element() * 2.0 <= tolerance::SAME_POINT {
            return None;
        }
        // The corners are numbered as `Frame::corners` numbers them.
        let faces = vec![
            (-frame.along, vec![0, 4, 6, 2]),
            (frame.along, vec![1, 3, 7, 5]),
            (-frame.left, vec![0, 1, 5, 4]),
            (frame.left, vec![2, 6, 7, 3]),
            (-frame.up, vec![0, 2, 3, 1]),
            (frame.up, vec![4, 5, 7, 6]),
        ];
        Self::from_faces(frame.corners(local).to_vec(), faces)
    }
}

/// The ring counter-clockwise and without straight corners; `None` where it is not
/// convex. Corners that stand in by rounding alone are forgiven.
fn convex_outline(ring: &[DVec2]) -> Option<Vec<DVec2>> {
    if !ring.iter().all(|c| c.is_finite()) {
        return None;
    }
    let hull = convex_hull(ring);
    let perimeter: f64 = ring_edges(&hull).map(|(a, b)| a.distance(b)).sum();
    let missing = signed_area(&hull) - signed_area(ring).abs();
    let slack = tolerance::SAME_POINT * perimeter;
    (signed_area(&hull) > slack && missing <= slack).then_some(hull)
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use super::*;
    use crate::geometry::solid::Face;

    fn square(side: f64) -> Vec<DVec2> {
        Polygon::rectangle(DVec2::ZERO, DVec2::splat(side)).outline
    }

    /// Volume by the divergence theorem: a third of the sum of offset x area of the faces.
    fn volume(solid: &ConvexSolid) -> f64 {
        let face_volume = |face: &Face| {
            let corner = |k: usize| solid.vertices()[face.corners[k]];
            let twice_area: DVec3 = (1..face.corners.len() - 1)
                .map(|k| (corner(k) - corner(0)).cross(corner(k + 1) - corner(0)))
                .sum();
            assert!(
                twice_area.normalize().abs_diff_eq(face.normal, 1e-9),
                "corners run counter-clockwise"
            );
            face.offset * twice_area.length() / 6.0
        };
        solid.faces().iter().map(face_volume).sum()
    }

    fn check(solid: &ConvexSolid, expected_volume: f64) {
        assert!(
            (volume(solid) - expected_volume).abs() < 1e-9,
            "{}",
            volume(solid)
        );
        assert_eq!(
            solid.vertices().len() + solid.faces().len(),
            solid.edges().len() + 2,
            "Euler's formula"
        );
        for face in solid.faces() {
            assert!(
                solid
                    .vertices()
                    .iter()
                    .all(|v| face.normal.dot(*v) <= face.offset + 1e-9)
            );
        }
    }

    #[test]
    fn a_tube_is_the_area_of_its_ring_times_its_length() {
        let ring = |x: f64| {
            [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)].map(|(y, z)| DVec3::new(x, y, z))
        };
        check(&ConvexSolid::tube(&ring(1.0), &ring(6.0)).unwrap(), 10.0);
        assert!(ConvexSolid::tube(&ring(1.0), &ring(1.0)).is_none());
        assert!(ConvexSolid::tube(&ring(1.0), &ring(6.0)[..3]).is_none());
    }

    #[test]
    fn a_level_prism_is_area_times_height() {
        let solid =
            ConvexSolid::prism(&square(2.0), Elevation::level(1.0), Elevation::level(4.0)).unwrap();
        check(&solid, 12.0);
        assert_eq!(solid.edge_directions().len(), 3);
        assert!(solid.contains(DVec3::new(2.0, 1.0, 4.0)));
        assert!(!solid.contains(DVec3::new(2.0, 1.0, 4.1)));
    }

    #[test]
    fn a_sloped_top_and_a_wedge() {
        let slope = Elevation {
            base_m: 1.0,
            gradient: DVec2::new(0.5, 0.0),
        };
        check(
            &ConvexSolid::prism(&square(2.0), Elevation::level(0.0), slope).unwrap(),
            6.0,
        );
        let wedge = Elevation {
            base_m: 0.0,
            ..slope
        };
        check(
            &ConvexSolid::prism(&square(2.0), Elevation::level(0.0), wedge).unwrap(),
            2.0,
        );
        let half = Elevation {
            base_m: -0.5,
            ..slope
        };
        check(
            &ConvexSolid::prism(&square(2.0), Elevation::level(0.0), half).unwrap(),
            0.5,
        );
        let corner = Elevation {
            base_m: -3.0,
            gradient: DVec2::new(1.0, 1.0),
        };
        check(
            &ConvexSolid::prism(&square(2.0), Elevation::level(0.0), corner).unwrap(),
            1.0 / 6.0,
        );
    }

    #[test]
    fn clockwise_and_straight_corners_make_no_difference() {
        let mut ring = square(2.0);
        ring.reverse();
        ring.insert(1, (ring[0] + ring[1]) / 2.0);
        let solid =
            ConvexSolid::prism(&ring, Elevation::level(0.0), Elevation::level(1.0)).unwrap();
        check(&solid, 4.0);
        assert_eq!(solid.vertices().len(), 8);
    }

    #[test]
    fn a_bar_slopes_with_its_axis() {
        let bar = ConvexSolid::bar(
            DVec3::new(1.0, 1.0, 5.0),
            DVec3::new(4.0, 5.0, 6.0),
            0.2,
            0.5,
        )
        .unwrap();
        check(&bar, 5.0 * 0.2 * 0.5);
        assert!(bar.contains(DVec3::new(2.5, 3.0, 5.75)));
        assert!(!bar.contains(DVec3::new(2.5, 3.0, 5.49)));
    }

    #[test]
    fn a_profile_is_drawn_out_either_way() {
        let profile = [(0.0, 1.0), (2.0, 1.0), (2.0, 2.0), (1.0, 3.0), (0.0, 3.0)];
        for flipped in [1.0, -1.0] {
            let mut ring = profile.map(DVec2::from).to_vec();
            if flipped < 0.0 {
                ring.reverse();
            }
            let out = DVec2::new(0.6, 0.8);
            let along = out.perp() * (5.0 * flipped);
            let solid = ConvexSolid::extruded(&ring, DVec2::new(1.0, 2.0), out, along).unwrap();
            check(&solid, 3.5 * 5.0);
            let inside = DVec2::new(1.0, 2.0) + out * 0.5 + along * 0.5;
            assert!(solid.contains(inside.extend(2.9)));
            assert!(!solid.contains((inside + out * 1.4).extend(2.5)));
        }
        assert_eq!(
            ConvexSolid::extruded(&square(1.0), DVec2::ZERO, DVec2::X, DVec2::X),
            None
        );
    }

    #[test]
    fn a_turned_box_follows_its_frame() {
        let frame = Frame::sloped(DVec3::new(3.0, 4.0, 5.0), 33.0, 0.02);
        let local = Bounds {
            low: DVec3::new(-1.0, -2.0, -0.5),
            high: DVec3::new(2.0, 1.0, 0.25),
        };
        let solid = ConvexSolid::turned_box(&frame, &local).unwrap();
        check(&solid, 3.0 * 3.0 * 0.75);
        let back = solid.seen_from(&frame);
        check(&back, 3.0 * 3.0 * 0.75);
        assert!(back.bounds().low.abs_diff_eq(local.low, 1e-12));
        let moved = solid.translated(DVec3::new(1.0, 1.0, 1.0));
        assert!(
            moved
                .contains(solid.vertices()[0] + 1.0 + (frame.along + frame.left + frame.up) * 1e-6)
        );
    }

    #[test]
    fn what_has_no_volume_is_none() {
        let level = Elevation::level;
        let concave = [(0.0, 0.0), (4.0, 0.0), (1.0, 1.0), (0.0, 4.0)].map(DVec2::from);
        assert_eq!(ConvexSolid::prism(&concave, level(0.0), level(1.0)), None);
        assert_eq!(
            ConvexSolid::prism(&square(2.0), level(1.0), level(1.0)),
            None
        );
        assert_eq!(
            ConvexSolid::prism(&square(2.0), level(2.0), level(1.0)),
            None
        );
        assert_eq!(ConvexSolid::prism(&[], level(0.0), level(1.0)), None);
        assert_eq!(
            ConvexSolid::prism(&[DVec2::NAN; 3], level(0.0), level(1.0)),
            None
        );
        for z in [f64::INFINITY, f64::NAN, 1e300] {
            assert_eq!(ConvexSolid::prism(&square(2.0), level(0.0), level(z)), None);
            let corner = DVec3::splat(z);
            assert_eq!(ConvexSolid::bar(DVec3::ZERO, corner, 0.2, 0.2), None);
            let local = Bounds {
                low: DVec3::ZERO,
                high: corner,
            };
            assert_eq!(ConvexSolid::turned_box(&Frame::AXES, &local), None);
        }
        assert_eq!(
            ConvexSolid::bar(DVec3::ZERO, DVec3::Z, 0.2, 0.2),
            None,
            "an upright bar has no plan direction"
        );
    }
}
