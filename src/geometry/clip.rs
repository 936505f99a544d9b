//! Lines and segments clipped by a polygon with holes.

use super::polygon::Polygon;
use super::{DVec2, tolerance};

/// A stretch of a line, as distances in metres from the line's first point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// Where it begins.
    pub from_m: f64,
    /// Where it ends, beyond `from_m`.
    pub to_m: f64,
}

impl Interval {
    /// Its length, m.
    #[must_use]
    pub fn length_m(self) -> f64 {
        self.to_m - self.from_m
    }

    /// Whether it holds a distance; its ends count.
    #[must_use]
    pub fn contains(self, at_m: f64) -> bool {
        self.from_m <= at_m && at_m <= self.to_m
    }
}

/// On which side of a line the points that lie on it are counted.
#[derive(Clone, Copy)]
enum OnLine {
    CountsLeft,
    CountsRight,
}

impl Polygon {
    /// The stretches of the endless line through `point` along `direction` that lie in
    /// the polygon, sorted, apart from each other, each longer than
    /// [`tolerance::SAME_POINT`].
    ///
    /// The boundary belongs to the polygon: a line along an edge, or within
    /// [`tolerance::SAME_POINT`] of it, is kept over that edge's length, the edge of a
    /// hole too. Touching a corner leaves nothing. A direction without length gives
    /// nothing.
    #[must_use]
    pub fn clip_line(&self, point: DVec2, direction: DVec2) -> Vec<Interval> {
        let Some(along) = direction.try_normalize() else {
            return Vec::new();
        };
        let mut stretches = self.crossings_in_pairs(point, along, OnLine::CountsLeft);
        stretches.extend(self.crossings_in_pairs(point, along, OnLine::CountsRight));
        united(stretches)
    }

    /// The stretches of the segment a-b that lie in the polygon, as distances from a;
    /// otherwise as [`Polygon::clip_line`].
    #[must_use]
    pub fn clip_segment(&self, a: DVec2, b: DVec2) -> Vec<Interval> {
        let length_m = a.distance(b);
        self.clip_line(a, b - a)
            .into_iter()
            .map(|stretch| Interval {
                from_m: stretch.from_m.max(0.0),
                to_m: stretch.to_m.min(length_m),
            })
            .filter(|stretch| stretch.length_m() > tolerance::SAME_POINT)
            .collect()
    }

    /// The line, shifted by a hair to one side so that it meets no corner, crosses the
    /// rings an even number of times; between the first and second, third and fourth
    /// crossing and so on it is inside.
    fn crossings_in_pairs(&self, point: DVec2, along: DVec2, on_line: OnLine) -> Vec<Interval> {
        let side = |p: DVec2| {
            let distance = along.perp_dot(p - point);
            if distance.abs() <= tolerance::SAME_POINT {
                0.0
            } else {
                distance
            }
        };
        let is_left = |distance: f64| match on_line {
            OnLine::CountsLeft => 0.0 <= distance,
            OnLine::CountsRight => 0.0 < distance,
        };
        let mut stations: Vec<f64> = self
            .edges()
            .filter_map(|(a, b)| {
                let (side_a, side_b) = (side(a), side(b));
                (is_left(side_a) != is_left(side_b)).then(|| {
                    let (at_a, at_b) = (along.dot(a - point), along.dot(b - point));
                    at_a + (at_b - at_a) * (side_a / (side_a - side_b))
                })
            })
            .collect();
        stations.sort_by(f64::total_cmp);
        stations
            .chunks_exact(2)
            .map(|pair| Interval {
                from_m: pair[0],
                to_m: pair[1],
            })
            .collect()
    }
}

/// Overlapping or abutting intervals made one, in order.
fn united(mut stretches: Vec<Interval>) -> Vec<Interval> {
    stretches.sort_by(|one, other| one.from_m.total_cmp(&other.from_m));
    let mut result: Vec<Interval> = Vec::with_capacity(stretches.len());
    for stretch in stretches {
        match result.last_mut() {
            Some(last) if stretch.from_m <= last.to_m + tolerance::SAME_POINT => {
                last.to_m = last.to_m.max(stretch.to_m);
            }
            _ => result.push(stretch),
        }
    }
    result.retain(|stretch| stretch.length_m() > tolerance::SAME_POINT);
    result
}

#[cfg(test)]
mod tests {
    use super::*;

    fn p(x: f64, y: f64) -> DVec2 {
        DVec2::new(x, y)
    }

    fn check(polygon: &Polygon, a: DVec2, b: DVec2, expected: &[(f64, f64)]) {
        let found = polygon.clip_segment(a, b);
        let as_pairs: Vec<(f64, f64)> = found.iter().map(|i| (i.from_m, i.to_m)).collect();
        let is_close = as_pairs.len() == expected.len()
            && as_pairs
                .iter()
                .zip(expected)
                .all(|(f, e)| (f.0 - e.0).abs() < 1e-9 && (f.1 - e.1).abs() < 1e-9);
        assert!(is_close, "{a} to {b}: {as_pairs:?}, expected {expected:?}");
    }

    /// A U open to the north, with a pillar in its west leg.
    fn u_shape() -> Polygon {
        Polygon {
            outline: vec![
                p(0.0, 0.0),
                p(9.0, 0.0),
                p(9.0, 6.0),
                p(6.0, 6.0),
                p(6.0, 2.0),
                p(3.0, 2.0),
                p(3.0, 6.0),
                p(0.0, 6.0),
            ],
            holes: vec![vec![p(1.0, 3.0), p(2.0, 3.0), p(2.0, 4.0), p(1.0, 4.0)]],
        }
    }

    #[test]
    fn holes_and_concave_parts_cut_a_segment() {
        check(
            &u_shape(),
            p(-1.0, 3.5),
            p(10.0, 3.5),
            &[(1.0, 2.0), (3.0, 4.0), (7.0, 10.0)],
        );
        check(
            &u_shape(),
            p(1.5, 3.5),
            p(8.0, 3.5),
            &[(0.5, 1.5), (4.5, 6.5)],
        );
        check(&u_shape(), p(4.0, 3.0), p(5.0, 5.0), &[]);
    }

    #[test]
    fn an_edge_belongs_to_the_polygon() {
        check(&u_shape(), p(0.0, 0.0), p(9.0, 0.0), &[(0.0, 9.0)]);
        check(&u_shape(), p(0.0, 2.0), p(9.0, 2.0), &[(0.0, 9.0)]);
        check(
            &u_shape(),
            p(-1.0, 6.0),
            p(10.0, 6.0),
            &[(1.0, 4.0), (7.0, 10.0)],
        );
        check(&u_shape(), p(0.0, 3.0), p(3.0, 3.0), &[(0.0, 3.0)]);
        check(&u_shape(), p(0.0, -0.9e-6), p(9.0, -0.9e-6), &[(0.0, 9.0)]);
        check(&u_shape(), p(0.0, -1.1e-6), p(9.0, -1.1e-6), &[]);
    }

    #[test]
    fn a_corner_alone_is_nothing() {
        let diamond = Polygon::new(vec![p(1.0, 0.0), p(2.0, 1.0), p(1.0, 2.0), p(0.0, 1.0)]);
        check(&diamond, p(0.0, 2.0), p(2.0, 2.0), &[]);
        check(&diamond, p(0.0, 1.0), p(2.0, 1.0), &[(0.0, 2.0)]);
        check(&diamond, p(1.0, 1.0), p(1.0, 1.0), &[]);
    }

    #[test]
    fn a_turned_line_is_cut_at_the_same_places() {
        let shape = u_shape();
        let (a, b) = (p(-1.0, 2.0), p(10.0, 2.0));
        for degrees in 0..360 {
            let (sin, cos) = crate::geometry::math::sin_cos_degrees(f64::from(degrees) + 0.37);
            let turn = |q: DVec2| p(cos * q.x - sin * q.y, sin * q.x + cos * q.y) + p(1e3, -5e2);
            let turned = Polygon {
                outline: shape.outline.iter().map(|&q| turn(q)).collect(),
                holes: shape
                    .holes
                    .iter()
                    .map(|hole| hole.iter().map(|&q| turn(q)).collect())
                    .collect(),
            };
            check(&turned, turn(a), turn(b), &[(1.0, 10.0)]);
        }
    }
}
