//! A polygon cut into convex pieces, and convex rings cut by a line.

use super::orientation::{Turn, turn};
use super::polygon::{Polygon, ring_edges, signed_area};
use super::{DVec2, tolerance};
use geo::TriangulateEarcut;
use std::collections::BTreeMap;

impl Polygon {
    /// Convex rings, counter-clockwise, that cover the polygon without overlapping.
    ///
    /// The polygon is cut into triangles, and triangles are joined again across every
    /// cut whose two ends stay convex, longest cut first (Hertel and Mehlhorn 1983: at
    /// most four times as many pieces as the least possible). The same polygon always
    /// gives the same pieces. Expects a polygon that passes [`Polygon::check`];
    /// another one gives pieces of little meaning, or none.
    #[must_use]
    pub fn convex_pieces(&self) -> Vec<Vec<DVec2>> {
        let is_usable = |ring: &[DVec2]| 3 <= ring.len() && ring.iter().all(|c| c.is_finite());
        if !self.rings().all(is_usable) {
            return Vec::new();
        }
        let corners: Vec<DVec2> = self.rings().flatten().copied().collect();
        let mut pieces: Vec<Vec<usize>> = self.triangles(&corners);
        join(&corners, &mut pieces);
        pieces
            .iter()
            .map(|piece| piece.iter().map(|&i| corners[i]).collect::<Vec<_>>())
            .map(|ring| without_straight_corners(&ring))
            .filter(|ring| 3 <= ring.len())
            .collect()
    }

    /// Counter-clockwise triangles with an area, as positions in the list of corners.
    fn triangles(&self, corners: &[DVec2]) -> Vec<Vec<usize>> {
        // Triangles are cut about the first corner: far from the origin the cutter's
        // plain arithmetic would lose digits.
        let origin = corners.first().copied().unwrap_or_default();
        let ring = |corners: &[DVec2]| {
            corners
                .iter()
                .map(|&c| (c.x - origin.x, c.y - origin.y))
                .collect::<geo::LineString>()
        };
        let polygon = geo::Polygon::new(
            ring(&self.outline),
            self.holes.iter().map(|hole| ring(hole)).collect(),
        );
        polygon
            .earcut_triangles_raw()
            .triangle_indices
            .chunks_exact(3)
            .filter_map(|t| {
                match turn(
                    *corners.get(t[0])?,
                    *corners.get(t[1])?,
                    *corners.get(t[2])?,
                ) {
                    Turn::Left => Some(t.to_vec()),
                    Turn::Right => Some(vec![t[0], t[2], t[1]]),
                    Turn::Straight => None,
                }
            })
            .collect()
    }
}

/// Joins pieces across their common edges wherever the union is convex.
fn join(corners: &[DVec2], pieces: &mut Vec<Vec<usize>>) {
    let mut owner: BTreeMap<(usize, usize), usize> = BTreeMap::new();
    for (index, piece) in pieces.iter().enumerate() {
        for edge in index_edges(piece) {
            owner.insert(edge, index);
        }
    }
    let mut cuts: Vec<(usize, usize)> = owner
        .keys()
        .copied()
        .filter(|&(a, b)| a < b && owner.contains_key(&(b, a)))
        .collect();
    let length = |&(a, b): &(usize, usize)| corners[a].distance_squared(corners[b]);
    cuts.sort_by(|one, other| length(other).total_cmp(&length(one)).then(one.cmp(other)));
    for (a, b) in cuts {
        let (Some(&keeper), Some(&joined)) = (owner.get(&(a, b)), owner.get(&(b, a))) else {
            continue;
        };
        if keeper == joined {
            continue;
        }
        if let Some(union) = convex_union(corners, &pieces[keeper], &pieces[joined], (a, b)) {
            owner.remove(&(a, b));
            owner.remove(&(b, a));
            for edge in index_edges(&pieces[joined]) {
                if let Some(index) = owner.get_mut(&edge) {
                    *index = keeper;
                }
            }
            pieces[keeper] = union;
            pieces[joined].clear();
        }
    }
    pieces.retain(|piece| !piece.is_empty());
}

fn index_edges(piece: &[usize]) -> impl Iterator<Item = (usize, usize)> {
    piece
        .iter()
        .zip(piece.iter().cycle().skip(1))
        .map(|(&a, &b)| (a, b))
}

/// One ring round two that share the edge a-b (as b-a in the second); `None` where it
/// would turn right at a or b.
fn convex_union(
    corners: &[DVec2],
    one: &[usize],
    other: &[usize],
    (a, b): (usize, usize),
) -> Option<Vec<usize>> {
    let from = |ring: &[usize], start: usize| -> Option<Vec<usize>> {
        let at = ring.iter().position(|&i| i == start)?;
        Some(ring[at..].iter().chain(&ring[..at]).copied().collect())
    };
    // b ... a of the first ring, then what follows a up to before b in the second.
    let mut union = from(one, b)?;
    let second = from(other, a)?;
    union.extend_from_slice(second.get(1..second.len().checked_sub(1)?)?);
    let n = union.len();
    let turns_right = |at: usize| {
        turn(
            corners[union[(at + n - 1) % n]],
            corners[union[at]],
            corners[union[(at + 1) % n]],
        ) == Turn::Right
    };
    let end = one.len() - 1;
    (!turns_right(0) && !turns_right(end)).then_some(union)
}

/// The convex ring round points, counter-clockwise, without straight corners; fewer
/// than three points where they lie on one line.
#[must_use]
pub fn convex_hull(points: &[DVec2]) -> Vec<DVec2> {
    let mut sorted = points.to_vec();
    sorted.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    sorted.dedup();
    // The lower chain from left to right, then the upper one back.
    let chain = |points: &mut dyn Iterator<Item = DVec2>| {
        let mut hull: Vec<DVec2> = Vec::new();
        for p in points {
            while let [.., a, b] = hull[..] {
                if turn(a, b, p) == Turn::Left {
                    break;
                }
                hull.pop();
            }
            hull.push(p);
        }
        hull.pop();
        hull
    };
    let mut hull = chain(&mut sorted.iter().copied());
    hull.extend(chain(&mut sorted.iter().rev().copied()));
    hull
}

/// The ring without corners that lie straight between their neighbours.
#[must_use]
pub fn without_straight_corners(ring: &[DVec2]) -> Vec<DVec2> {
    let n = ring.len();
    (0..n)
        .filter(|&k| turn(ring[(k + n - 1) % n], ring[k], ring[(k + 1) % n]) != Turn::Straight)
        .map(|k| ring[k])
        .collect()
}

/// The part of a convex ring where `normal . p <= offset`; empty where nothing is left.
///
/// Corners within [`tolerance::SAME_POINT`] of the line count as on it.
#[must_use]
pub fn cut_by_line(ring: &[DVec2], normal: DVec2, offset: f64) -> Vec<DVec2> {
    let slack = tolerance::SAME_POINT * normal.length();
    let side = |p: DVec2| {
        let distance = normal.dot(p) - offset;
        if distance.abs() <= slack {
            0.0
        } else {
            distance
        }
    };
    let mut kept = Vec::with_capacity(ring.len() + 1);
    for (a, b) in ring_edges(ring) {
        let (side_a, side_b) = (side(a), side(b));
        if side_a <= 0.0 {
            kept.push(a);
        }
        if side_a * side_b < 0.0 {
            kept.push(a.lerp(b, side_a / (side_a - side_b)));
        }
    }
    if signed_area(&kept).abs() > 0.0 && 3 <= kept.len() {
        kept
    } else {
        Vec::new()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::math::sin_cos_degrees;

    fn p(x: f64, y: f64) -> DVec2 {
        DVec2::new(x, y)
    }

    /// It never turns right and encloses an area.
    fn is_convex(ring: &[DVec2]) -> bool {
        let n = ring.len();
        3 <= n
            && signed_area(ring) > 0.0
            && (0..n).all(|k| turn(ring[k], ring[(k + 1) % n], ring[(k + 2) % n]) != Turn::Right)
    }

    fn check(polygon: &Polygon, n_most: usize) {
        assert_eq!(polygon.check(), Ok(()));
        let pieces = polygon.convex_pieces();
        assert!(
            pieces.len() <= n_most,
            "{} pieces: {pieces:?}",
            pieces.len()
        );
        assert!(pieces.iter().all(|piece| is_convex(piece)), "{pieces:?}");
        let total: f64 = pieces.iter().map(|piece| signed_area(piece)).sum();
        assert!((total - polygon.area()).abs() < 1e-9 * polygon.area());
        assert_eq!(pieces, polygon.convex_pieces());
    }

    #[test]
    fn a_convex_outline_stays_whole() {
        let octagon = (0..8).map(|k| {
            let (sin, cos) = sin_cos_degrees(45.0 * f64::from(k) + 10.0);
            p(3.0 * cos + 9_000.0, 3.0 * sin)
        });
        check(&Polygon::new(octagon.collect()), 1);
        check(&Polygon::rectangle(p(0.0, 0.0), p(4.0, 1.0)), 1);
    }

    #[test]
    fn straight_corners_are_left_out() {
        let bar = Polygon::new(vec![
            p(0.0, 0.0),
            p(1.0, 0.0),
            p(2.0, 0.0),
            p(2.0, 1.0),
            p(0.0, 1.0),
        ]);
        check(&bar, 1);
        assert_eq!(bar.convex_pieces()[0].len(), 4);
    }

    #[test]
    fn concave_outlines_with_holes_are_covered() {
        let l_shape = vec![
            p(0.0, 0.0),
            p(0.0, 5.0),
            p(2.0, 5.0),
            p(2.0, 2.0),
            p(6.0, 2.0),
            p(6.0, 0.0),
        ];
        check(&Polygon::new(l_shape), 2);
        let yard = Polygon {
            outline: vec![p(0.0, 0.0), p(10.0, 0.0), p(10.0, 10.0), p(0.0, 10.0)],
            holes: vec![vec![p(3.0, 3.0), p(7.0, 3.0), p(7.0, 7.0), p(3.0, 7.0)]],
        };
        check(&yard, 5);
    }

    #[test]
    fn stars_with_pillars_are_covered() {
        let mut random = fastrand::Rng::with_seed(4);
        for _ in 0..200 {
            let n = random.u32(3..40);
            let star = (0..n).map(|k| {
                let (sin, cos) = sin_cos_degrees(360.0 * f64::from(k) / f64::from(n));
                let radius = 2.0 + 5.0 * random.f64();
                p(cos * radius, sin * radius) + p(500.0, -800.0)
            });
            let mut polygon = Polygon::new(star.collect());
            if 7 < n {
                let hole =
                    |dx: f64| Polygon::rectangle(p(500.2 + dx, -800.2), p(500.6 + dx, -799.7));
                polygon.holes = vec![hole(0.0).outline, hole(-0.8).outline];
            }
            if polygon.check().is_ok() {
                check(&polygon, 60);
            }
        }
    }

    #[test]
    fn nonsense_gives_no_pieces_and_no_panic() {
        assert!(Polygon::default().convex_pieces().is_empty());
        assert!(
            Polygon::new(vec![p(0.0, 0.0), p(f64::NAN, 1.0), p(1.0, 1.0)])
                .convex_pieces()
                .is_empty()
        );
        assert!(
            Polygon::new(vec![p(0.0, 0.0), p(1.0, 1.0), p(2.0, 2.0)])
                .convex_pieces()
                .is_empty()
        );
    }

    #[test]
    fn a_line_cuts_a_ring() {
        let square = Polygon::rectangle(p(0.0, 0.0), p(2.0, 2.0)).outline;
        let area = |normal, offset| signed_area(&cut_by_line(&square, normal, offset));
        assert_eq!(area(p(1.0, 0.0), 0.5), 1.0);
        assert_eq!(area(p(1.0, 1.0), 2.0), 2.0);
        assert_eq!(area(p(1.0, 0.0), 2.0), 4.0);
        assert!(cut_by_line(&square, p(1.0, 0.0), 0.0).is_empty());
        assert!(cut_by_line(&square, p(0.0, -1.0), -3.0).is_empty());
    }
}
