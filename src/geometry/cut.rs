//! Convex solids cut by an upright plane, and what of them is seen behind it.

use super::pieces::convex_hull;
use super::polygon::ring_edges;
use super::{ConvexSolid, DVec2, DVec3, tolerance};

/// An upright plane in the site, with coordinates (u, z) on it: u metres along, z metres
/// above the floor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UprightPlane {
    /// The plan point where u is 0.
    pub origin: DVec2,
    /// Unit vector in plan along which u grows.
    pub along: DVec2,
    /// Unit vector in plan, square to it, towards what is looked at.
    pub into: DVec2,
}

impl UprightPlane {
    /// Distance of a point behind the plane, m; less than zero in front of it.
    #[must_use]
    pub fn behind_m(&self, p: DVec3) -> f64 {
        (p.truncate() - self.origin).dot(self.into)
    }

    /// A point seen square to the plane: (u, z).
    #[must_use]
    pub fn seen(&self, p: DVec3) -> DVec2 {
        DVec2::new((p.truncate() - self.origin).dot(self.along), p.z)
    }

    /// The point of the site at (u, z) on the plane.
    #[must_use]
    pub fn site_from_plane(&self, at: DVec2) -> DVec3 {
        (self.origin + self.along * at.x).extend(at.y)
    }

    /// A direction of the site as it is seen: along u and up.
    #[must_use]
    pub fn seen_direction(&self, v: DVec3) -> DVec2 {
        DVec2::new(v.truncate().dot(self.along), v.z)
    }
}

impl ConvexSolid {
    /// The area in which an upright plane cuts the solid: convex, counter-clockwise in
    /// (u, z); empty where it doesn't.
    ///
    /// A solid that only touches the plane is cut where it lies behind it, and not where
    /// it lies in front of it, so that of two that abut in the plane just one is cut.
    #[must_use]
    pub fn cut_by(&self, plane: &UprightPlane) -> Vec<DVec2> {
        let depths = self.depths(plane);
        let has = |wanted: fn(f64) -> bool| depths.iter().any(|&depth| wanted(depth));
        if !has(|depth| tolerance::SAME_POINT < depth)
            || !has(|depth| depth <= tolerance::SAME_POINT)
        {
            return Vec::new();
        }
        let mut points = Vec::new();
        self.points_at(plane, &depths, 0.0, &mut points);
        area(&points)
    }

    /// The outline of what is seen of the solid behind an upright plane, up to a depth:
    /// convex, counter-clockwise in (u, z); empty where nothing is.
    #[must_use]
    pub fn seen_behind(&self, plane: &UprightPlane, depth_m: f64) -> Vec<DVec2> {
        let depths = self.depths(plane);
        let nearest = depths.iter().copied().fold(f64::INFINITY, f64::min);
        let farthest = depths.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        if farthest <= tolerance::SAME_POINT || depth_m <= nearest {
            return Vec::new();
        }
        let mut points: Vec<DVec2> = self
            .vertices()
            .iter()
            .zip(&depths)
            .filter(|(_, depth)| 0.0 <= **depth && **depth <= depth_m)
            .map(|(vertex, _)| plane.seen(*vertex))
            .collect();
        self.points_at(plane, &depths, 0.0, &mut points);
        self.points_at(plane, &depths, depth_m, &mut points);
        area(&points)
    }

    fn depths(&self, plane: &UprightPlane) -> Vec<f64> {
        self.vertices()
            .iter()
            .map(|vertex| plane.behind_m(*vertex))
            .collect()
    }

    /// Where edges pass through a depth behind the plane, and corners that lie there.
    fn points_at(&self, plane: &UprightPlane, depths: &[f64], at_m: f64, into: &mut Vec<DVec2>) {
        let vertices = self.vertices();
        for (vertex, depth) in vertices.iter().zip(depths) {
            if (depth - at_m).abs() <= tolerance::SAME_POINT {
                into.push(plane.seen(*vertex));
            }
        }
        for &(a, b) in self.edges() {
            let (from, to) = (depths[a] - at_m, depths[b] - at_m);
            if from * to < 0.0 {
                let part = from / (from - to);
                into.push(plane.seen(vertices[a].lerp(vertices[b], part)));
            }
        }
    }
}

/// The convex area round points; nothing where they lie on a line.
fn area(points: &[DVec2]) -> Vec<DVec2> {
    let hull = convex_hull(points);
    if hull.len() < 3 { Vec::new() } else { hull }
}

/// The outline of the union of convex areas, counter-clockwise each, as straight pieces:
/// what lies inside another area, or where two abut, is left out.
#[must_use]
pub fn union_outline(areas: &[Vec<DVec2>]) -> Vec<(DVec2, DVec2)> {
    let mut outline = Vec::new();
    for (place, area) in areas.iter().enumerate() {
        for (a, b) in ring_edges(area) {
            let length = a.distance(b);
            if length <= tolerance::SAME_POINT {
                continue;
            }
            let mut kept: Vec<(f64, f64)> = vec![(0.0, 1.0)];
            for (other, cover) in areas.iter().enumerate() {
                if other == place {
                    continue;
                }
                let Some((from, to)) = covered(a, b, cover, place < other) else {
                    continue;
                };
                kept = kept
                    .into_iter()
                    .flat_map(|(start, end)| [(start, end.min(from)), (start.max(to), end)])
                    .filter(|(start, end)| tolerance::SAME_POINT < (end - start) * length)
                    .collect();
            }
            let pieces = kept.into_iter();
            outline.extend(pieces.map(|(start, end)| (a.lerp(b, start), a.lerp(b, end))));
        }
    }
    outline
}

/// The stretch of an edge, as parts of it, that a convex area covers. Along an edge of
/// that area which runs the same way only one of both is left out: not the one that
/// `keeps_shared`.
fn covered(a: DVec2, b: DVec2, area: &[DVec2], keeps_shared: bool) -> Option<(f64, f64)> {
    let along = b - a;
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (c, d) in ring_edges(area) {
        let edge = (d - c).try_normalize()?;
        // Inside is to the left of each edge.
        let (start, end) = (edge.perp_dot(a - c), edge.perp_dot(b - c));
        if start.abs() <= tolerance::SAME_POINT && end.abs() <= tolerance::SAME_POINT {
            if 0.0 < edge.dot(along) && keeps_shared {
                return None;
            }
            continue;
        }
        if start <= 0.0 && end <= 0.0 {
            return None;
        }
        let step = end - start;
        if start < 0.0 {
            from = from.max(-start / step);
        } else if end < 0.0 {
            to = to.min(-start / step);
        }
    }
    (from < to).then_some((from, to))
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use super::*;
    use crate::geometry::math::sin_cos_degrees;
    use crate::geometry::polygon::signed_area;
    use crate::geometry::{Bounds, Elevation, Frame, Polygon};

    /// A plane across x at `x`, looking east; u grows south.
    fn across(x: f64) -> UprightPlane {
        UprightPlane {
            origin: DVec2::new(x, 0.0),
            along: -DVec2::Y,
            into: DVec2::X,
        }
    }

    fn block() -> ConvexSolid {
        let ring = Polygon::rectangle(DVec2::ZERO, DVec2::new(4.0, 3.0)).outline;
        ConvexSolid::prism(&ring, Elevation::level(1.0), Elevation::level(3.5)).unwrap()
    }

    fn check_area(found: &[DVec2], expected: f64) {
        let area = signed_area(found);
        assert!(
            (area - expected).abs() < 1e-9,
            "{area}, not {expected}: {found:?}"
        );
    }

    #[test]
    fn a_block_is_cut_in_a_rectangle() {
        let cut = block().cut_by(&across(1.0));
        check_area(&cut, 3.0 * 2.5);
        assert!(cut.iter().all(|p| (-3.0..=0.0).contains(&p.x)));
    }

    #[test]
    fn of_two_that_abut_in_the_plane_one_is_cut() {
        check_area(&block().cut_by(&across(0.0)), 7.5);
        assert!(block().cut_by(&across(4.0)).is_empty());
        assert!(block().cut_by(&across(-0.1)).is_empty());
        assert!(block().cut_by(&across(4.1)).is_empty());
    }

    #[test]
    fn a_slanting_cut_is_longer_by_its_slant() {
        let (sin, cos) = sin_cos_degrees(30.0);
        let along = DVec2::new(cos, sin);
        let plane = UprightPlane {
            origin: DVec2::new(2.0, 1.5),
            along,
            into: along.perp(),
        };
        // 4 m wide in x, and 4 tan 30 = 2.31 m in y, less than its 3 m.
        check_area(&block().cut_by(&plane), 4.0 / cos * 2.5);
    }

    #[test]
    fn a_sloped_prism_is_cut_in_a_trapezium() {
        let ring = Polygon::rectangle(DVec2::ZERO, DVec2::new(4.0, 3.0)).outline;
        let top = Elevation {
            base_m: 2.0,
            gradient: DVec2::new(0.5, 0.25),
        };
        let solid = ConvexSolid::prism(&ring, Elevation::level(0.0), top).unwrap();
        // At x = 2 the top rises from 3.0 to 3.75 over 3 m.
        check_area(&solid.cut_by(&across(2.0)), 3.0 * 3.375);
    }

    #[test]
    fn a_turned_site_is_cut_in_the_same_area() {
        let frame = Frame::sloped(DVec3::new(3.0, 2.0, 4.0), 25.0, 0.02);
        let local = Bounds {
            low: DVec3::new(0.0, -0.3, -0.1),
            high: DVec3::new(6.0, 0.3, 0.2),
        };
        let plane = UprightPlane {
            origin: DVec2::new(4.0, 4.0),
            along: DVec2::X,
            into: DVec2::Y,
        };
        let cut = ConvexSolid::turned_box(&frame, &local)
            .unwrap()
            .cut_by(&plane);
        let expected = signed_area(&cut);
        assert!(expected > 0.1);
        for degrees in [17.0, 90.0, 211.5] {
            let (sin, cos) = sin_cos_degrees(degrees);
            // Clockwise, as bearings count.
            let turn = |p: DVec2| DVec2::new(p.x * cos + p.y * sin, p.y * cos - p.x * sin);
            let shift = DVec2::new(1e3, -2e3);
            let moved = (turn(frame.origin.truncate()) + shift).extend(frame.origin.z);
            let turned = Frame::sloped(moved, 25.0 + degrees, 0.02);
            let plane = UprightPlane {
                origin: turn(plane.origin) + shift,
                along: turn(plane.along),
                into: turn(plane.into),
            };
            let again = ConvexSolid::turned_box(&turned, &local)
                .unwrap()
                .cut_by(&plane);
            check_area(&again, expected);
        }
    }

    #[test]
    fn what_is_behind_is_seen_up_to_the_depth() {
        check_area(&block().seen_behind(&across(-1.0), 2.0), 7.5);
        check_area(&block().seen_behind(&across(1.0), 0.5), 7.5);
        assert!(block().seen_behind(&across(-1.0), 1.0).is_empty());
        assert!(block().seen_behind(&across(4.0), 9.0).is_empty());
        let ring = Polygon::rectangle(DVec2::ZERO, DVec2::new(4.0, 3.0)).outline;
        let top = Elevation {
            base_m: 1.0,
            gradient: DVec2::new(0.5, 0.0),
        };
        let ramp = ConvexSolid::prism(&ring, Elevation::level(0.0), top).unwrap();
        // Up to x = 2 the ramp reaches 2 m.
        check_area(&ramp.seen_behind(&across(-1.0), 3.0), 3.0 * 2.0);
    }

    fn length(outline: &[(DVec2, DVec2)]) -> f64 {
        outline.iter().map(|(a, b)| a.distance(*b)).sum()
    }

    fn rectangle(x: f64, y: f64, width: f64, height: f64) -> Vec<DVec2> {
        let low = DVec2::new(x, y);
        Polygon::rectangle(low, low + DVec2::new(width, height)).outline
    }

    #[test]
    fn seams_are_no_outline() {
        let halves = [rectangle(0.0, 0.0, 2.0, 1.0), rectangle(2.0, 0.0, 1.0, 1.0)];
        assert!((length(&union_outline(&halves)) - 8.0).abs() < 1e-9);
        // Half of a side is shared.
        let steps = [rectangle(0.0, 0.0, 2.0, 2.0), rectangle(2.0, 0.0, 2.0, 1.0)];
        assert!((length(&union_outline(&steps)) - 12.0).abs() < 1e-9);
    }

    #[test]
    fn what_overlaps_has_one_outline() {
        // A cross of two bars: 12 sides of 1 m.
        let cross = [rectangle(0.0, 1.0, 3.0, 1.0), rectangle(1.0, 0.0, 1.0, 3.0)];
        assert!((length(&union_outline(&cross)) - 12.0).abs() < 1e-9);
        // One within the other, with a side in common; and the same twice.
        let within = [rectangle(0.0, 0.0, 3.0, 3.0), rectangle(0.0, 1.0, 1.0, 1.0)];
        assert!((length(&union_outline(&within)) - 12.0).abs() < 1e-9);
        let twice = [rectangle(0.0, 0.0, 3.0, 3.0), rectangle(0.0, 0.0, 3.0, 3.0)];
        assert!((length(&union_outline(&twice)) - 12.0).abs() < 1e-9);
        assert!(union_outline(&[]).is_empty());
    }
}
