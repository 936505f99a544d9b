//! Signed distance between convex solids: how far apart, or how deep in each other.

use super::bounds::Bounds;
use super::parting::widest_gap;
use super::solid::{ConvexSolid, Face};
use super::{DVec3, tolerance};
use parry3d_f64::math::Pose;
use parry3d_f64::query::gjk::{CsoPoint, GJKResult, VoronoiSimplex, closest_points};
use parry3d_f64::shape::SupportMap;

/// How two convex solids lie to each other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Separation {
    /// Distance between their nearest points, m; where they overlap, less than zero:
    /// the length of the shortest move that parts them.
    pub distance_m: f64,
    /// Unit vector from the first to the second along the nearest points; where they
    /// overlap, the direction in which the second is parted from the first.
    pub normal: DVec3,
    /// The point of the first nearest to the second; where they overlap, the point of
    /// its surface that ends up touching after the shortest move.
    pub on_one: DVec3,
    /// The point of the second nearest to the first; where they overlap, the point of
    /// it that lies deepest in the first.
    pub on_other: DVec3,
}

/// The answer of [`box_to_points`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Nearness {
    /// They are farther apart than was asked about.
    Farther,
    /// They are apart, and this is certain to within [`tolerance::DISTANCE`].
    Apart(Separation),
    /// They touch, overlap, or the quick method has not come to an end:
    /// [`separation`] knows.
    Close,
}

/// How far the hull of points is from a box along the axes, up to a greatest distance.
///
/// The quick way for the many pairs that are apart. Every answer is certified: the
/// two lie on both sides of a slab as wide as the distance between their nearest points.
#[must_use]
pub fn box_to_points(one: &Bounds, points: &[DVec3], most_m: f64) -> Nearness {
    let other = Points(points);
    let here = Pose::IDENTITY;
    let towards = Bounds::around(points).centre() - one.centre();
    let mut simplex = VoronoiSimplex::new();
    let start = towards.try_normalize().unwrap_or(DVec3::X);
    simplex.reset(CsoPoint::from_shapes(&here, &BoxMap(*one), &other, start));
    match closest_points(&here, &BoxMap(*one), &other, most_m, true, &mut simplex) {
        GJKResult::ClosestPoints(on_one, on_other, _) => {
            let Some(normal) = (on_other - on_one).try_normalize() else {
                return Nearness::Close;
            };
            let slab_m = (other.local_support_point(-normal) - one.farthest(normal)).dot(normal);
            let distance_m = on_one.distance(on_other);
            if 0.0 < slab_m && distance_m - slab_m <= tolerance::DISTANCE {
                Nearness::Apart(Separation {
                    distance_m,
                    normal,
                    on_one,
                    on_other,
                })
            } else {
                Nearness::Close
            }
        }
        GJKResult::NoIntersection(axis) => {
            let slab_m = (other.local_support_point(-axis) - one.farthest(axis)).dot(axis);
            if most_m < slab_m {
                Nearness::Farther
            } else {
                Nearness::Close
            }
        }
        GJKResult::Intersection | GJKResult::Proximity(_) => Nearness::Close,
    }
}

struct BoxMap(Bounds);

impl SupportMap for BoxMap {
    fn local_support_point(&self, direction: DVec3) -> DVec3 {
        self.0.farthest(direction)
    }
}

struct Points<'a>(&'a [DVec3]);

impl SupportMap for Points<'_> {
    fn local_support_point(&self, direction: DVec3) -> DVec3 {
        let mut best = DVec3::ZERO;
        let mut reach = f64::NEG_INFINITY;
        for &p in self.0 {
            let at = p.dot(direction);
            if reach < at {
                (reach, best) = (at, p);
            }
        }
        best
    }
}

/// The signed distance between two convex solids, exact but for rounding.
///
/// Where no direction parts them, the least overlap is the depth. Otherwise the
/// nearest points are looked for among all pairs of corner and face, and of edge and
/// edge. Where a whole edge or face is nearest, the points are the middle of what is.
#[must_use]
pub fn separation(one: &ConvexSolid, other: &ConvexSolid) -> Separation {
    let gap = widest_gap(one, other);
    if 0.0 < gap.gap_m {
        let (on_one, on_other) = nearest_points(one, other);
        let distance_m = on_one.distance(on_other);
        return Separation {
            distance_m,
            normal: (on_other - on_one).try_normalize().unwrap_or(gap.normal),
            on_one,
            on_other,
        };
    }
    // After the shortest move the two just touch; there they are deepest in each other.
    let shift = gap.normal * -gap.gap_m;
    let (on_one, on_other) = nearest_points(one, &other.translated(shift));
    Separation {
        distance_m: gap.gap_m,
        normal: gap.normal,
        on_one,
        on_other: on_other - shift,
    }
}

/// The nearest points of two solids that are apart or touch: the middle of all pairs
/// of features that are nearest.
fn nearest_points(one: &ConvexSolid, other: &ConvexSolid) -> (DVec3, DVec3) {
    let mut nearest = Nearest::default();
    for &v in one.vertices() {
        for face in other.faces() {
            if let Some(foot) = foot_in_face(v, face, other.vertices()) {
                nearest.offer(v, foot);
            }
        }
    }
    for &v in other.vertices() {
        for face in one.faces() {
            if let Some(foot) = foot_in_face(v, face, one.vertices()) {
                nearest.offer(foot, v);
            }
        }
    }
    let end = |solid: &ConvexSolid, k: usize| solid.vertices()[k];
    for &(a, b) in one.edges() {
        for &(c, d) in other.edges() {
            let (p, q) =
                nearest_of_segments((end(one, a), end(one, b)), (end(other, c), end(other, d)));
            nearest.offer(p, q);
        }
    }
    nearest.middle()
}

/// The pairs of points found to be nearest so far.
struct Nearest {
    distance_m: f64,
    pairs: Vec<(DVec3, DVec3)>,
}

impl Default for Nearest {
    fn default() -> Self {
        Self {
            distance_m: f64::INFINITY,
            pairs: Vec::new(),
        }
    }
}

impl Nearest {
    fn offer(&mut self, p: DVec3, q: DVec3) {
        let distance_m = p.distance(q);
        if distance_m < self.distance_m {
            self.distance_m = distance_m;
        }
        if distance_m <= self.distance_m + tolerance::DISTANCE {
            self.pairs.push((p, q));
        }
    }

    fn middle(mut self) -> (DVec3, DVec3) {
        let most_m = self.distance_m + tolerance::DISTANCE;
        self.pairs.retain(|(p, q)| p.distance(*q) <= most_m);
        let mut distinct: Vec<(DVec3, DVec3)> = Vec::with_capacity(self.pairs.len());
        for (p, q) in self.pairs {
            let is_known = |known: &(DVec3, DVec3)| known.0.distance(p) <= tolerance::SAME_POINT;
            if !distinct.iter().any(is_known) {
                distinct.push((p, q));
            }
        }
        let share = 1.0 / f64::from(u32::try_from(distinct.len().max(1)).unwrap_or(u32::MAX));
        let sum = distinct
            .iter()
            .fold((DVec3::ZERO, DVec3::ZERO), |sum, pair| {
                (sum.0 + pair.0, sum.1 + pair.1)
            });
        (sum.0 * share, sum.1 * share)
    }
}

/// The foot of the perpendicular from a point outside a face onto it, if it falls inside.
fn foot_in_face(p: DVec3, face: &Face, vertices: &[DVec3]) -> Option<DVec3> {
    let height = face.normal.dot(p) - face.offset;
    if height < -tolerance::DISTANCE {
        return None;
    }
    let foot = p - face.normal * height;
    let corners = face.corners.iter();
    let inside = corners
        .clone()
        .zip(corners.cycle().skip(1))
        .all(|(&a, &b)| {
            let (from, to) = (vertices[a], vertices[b]);
            let outward = (to - from).cross(face.normal).normalize_or_zero();
            outward.dot(foot - from) <= tolerance::DISTANCE
        });
    inside.then_some(foot)
}

/// The nearest points of two segments; of parallel ones, a pair of nearest points with
/// an end in it.
fn nearest_of_segments(one: (DVec3, DVec3), other: (DVec3, DVec3)) -> (DVec3, DVec3) {
    let (d, e) = (one.1 - one.0, other.1 - other.0);
    let from = one.0 - other.0;
    let (dd, ee, de) = (d.dot(d), e.dot(e), d.dot(e));
    let (df, ef) = (d.dot(from), e.dot(from));
    let square = dd * ee - de * de;
    let is_parallel = square <= tolerance::PARALLEL * dd * ee;
    let s = if is_parallel {
        0.0
    } else {
        ((de * ef - df * ee) / square).clamp(0.0, 1.0)
    };
    let t = ((de * s + ef) / ee).clamp(0.0, 1.0);
    let s = ((de * t - df) / dd).clamp(0.0, 1.0);
    (one.0 + d * s, other.0 + e * t)
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use super::*;
    use crate::geometry::Frame;

    fn block(low: [f64; 3], high: [f64; 3]) -> ConvexSolid {
        let frame = Frame::sloped(DVec3::ZERO, 90.0, 0.0);
        let local = Bounds {
            low: DVec3::from(low),
            high: DVec3::from(high),
        };
        ConvexSolid::turned_box(&frame, &local).unwrap()
    }

    fn check(one: &ConvexSolid, other: &ConvexSolid, distance_m: f64, normal: [f64; 3]) {
        for (a, b, way) in [(one, other, 1.0), (other, one, -1.0)] {
            let found = separation(a, b);
            assert!((found.distance_m - distance_m).abs() < 1e-12, "{found:?}");
            assert!(
                found.normal.abs_diff_eq(DVec3::from(normal) * way, 1e-12),
                "{found:?}"
            );
            let between = (found.on_other - found.on_one).dot(found.normal);
            assert!((between - distance_m).abs() < 1e-12, "{found:?}");
        }
    }

    #[test]
    fn face_to_face_the_points_lie_in_the_middle() {
        let (a, b) = (
            block([0.0, 0.0, 0.0], [1.0, 1.0, 1.0]),
            block([3.0, 0.5, -1.0], [4.0, 2.0, 0.5]),
        );
        check(&a, &b, 2.0, [1.0, 0.0, 0.0]);
        let found = separation(&a, &b);
        assert!(found.on_one.abs_diff_eq(DVec3::new(1.0, 0.75, 0.25), 1e-12));
    }

    #[test]
    fn edges_and_corners_are_measured_across() {
        let a = block([0.0, 0.0, 0.0], [1.0, 1.0, 1.0]);
        check(
            &a,
            &block([4.0, 5.0, 0.0], [6.0, 6.0, 1.0]),
            5.0,
            [0.6, 0.8, 0.0],
        );
        check(
            &a,
            &block([3.0, 3.0, 2.0], [6.0, 6.0, 4.0]),
            3.0,
            [2.0 / 3.0, 2.0 / 3.0, 1.0 / 3.0],
        );
    }

    #[test]
    fn an_overlap_is_as_deep_as_the_shortest_way_out() {
        let a = block([0.0, 0.0, 0.0], [4.0, 4.0, 4.0]);
        check(
            &a,
            &block([1.0, 1.0, 3.5], [2.0, 2.0, 9.0]),
            -0.5,
            [0.0, 0.0, 1.0],
        );
        check(
            &a,
            &block([1.0, -9.0, 0.5], [1.5, 9.0, 3.5]),
            -1.5,
            [-1.0, 0.0, 0.0],
        );
        let deepest = separation(&a, &block([1.0, 1.0, 3.5], [2.0, 2.0, 9.0]));
        assert!(
            deepest
                .on_other
                .abs_diff_eq(DVec3::new(1.5, 1.5, 3.5), 1e-12)
        );
        assert!(deepest.on_one.abs_diff_eq(DVec3::new(1.5, 1.5, 4.0), 1e-12));
    }

    #[test]
    fn touching_is_zero() {
        let a = block([0.0, 0.0, 0.0], [1.0, 1.0, 1.0]);
        check(
            &a,
            &block([1.0, 0.0, 0.0], [2.0, 1.0, 1.0]),
            0.0,
            [1.0, 0.0, 0.0],
        );
    }

    #[test]
    fn the_quick_way_agrees_or_says_that_it_cannot_tell() {
        let one = Bounds {
            low: DVec3::ZERO,
            high: DVec3::ONE,
        };
        let other = block([4.0, 5.0, 0.0], [6.0, 6.0, 1.0]);
        let Nearness::Apart(found) = box_to_points(&one, other.vertices(), 10.0) else {
            panic!("they are apart");
        };
        assert!((found.distance_m - 5.0).abs() < 1e-12);
        assert_eq!(
            box_to_points(&one, other.vertices(), 4.9),
            Nearness::Farther
        );
        let inside = block([0.2, 0.2, 0.2], [0.3, 0.3, 0.3]);
        assert_eq!(box_to_points(&one, inside.vertices(), 1.0), Nearness::Close);
    }
}
