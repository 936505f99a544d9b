//! A simple polygon with holes, in plan.

use super::segment::distance_to_segment;
use super::{DVec2, tolerance};

/// An area in plan: an outline less its holes, corners in metres.
///
/// Rings may run either way round and don't repeat their first corner at the end.
/// The functions here promise sense for polygons that pass [`Polygon::check`] and
/// never panic for others.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Polygon {
    /// The outer ring.
    pub outline: Vec<DVec2>,
    /// Rings cut out of it; they touch neither each other nor the outline.
    pub holes: Vec<Vec<DVec2>>,
}

impl Polygon {
    /// A polygon without holes.
    #[must_use]
    pub fn new(outline: Vec<DVec2>) -> Self {
        Self {
            outline,
            holes: Vec::new(),
        }
    }

    /// A rectangle along the axes between two opposite corners, counter-clockwise
    /// from the lower left.
    #[must_use]
    pub fn rectangle(one: DVec2, other: DVec2) -> Self {
        let (low, high) = (one.min(other), one.max(other));
        Self::new(vec![
            low,
            DVec2::new(high.x, low.y),
            high,
            DVec2::new(low.x, high.y),
        ])
    }

    /// The outline, then the holes.
    pub fn rings(&self) -> impl Iterator<Item = &[DVec2]> {
        std::iter::once(self.outline.as_slice()).chain(self.holes.iter().map(Vec::as_slice))
    }

    /// Every edge of every ring, as its two ends.
    pub fn edges(&self) -> impl Iterator<Item = (DVec2, DVec2)> {
        self.rings().flat_map(ring_edges)
    }

    /// Area of the outline less the holes, m2.
    #[must_use]
    pub fn area(&self) -> f64 {
        signed_area(&self.outline).abs()
            - self
                .holes
                .iter()
                .map(|hole| signed_area(hole).abs())
                .sum::<f64>()
    }

    /// The lowest and the highest coordinates; `None` without corners.
    #[must_use]
    pub fn bounds(&self) -> Option<(DVec2, DVec2)> {
        bounds(&self.outline)
    }

    /// Whether p lies inside or on the boundary, which is as wide as
    /// [`tolerance::SAME_POINT`] to either side.
    #[must_use]
    pub fn contains(&self, p: DVec2) -> bool {
        let mut inside = false;
        for (a, b) in self.edges() {
            if distance_to_segment(p, a, b) <= tolerance::SAME_POINT {
                return true;
            }
            // A corner at p's height belongs to the edge below, so that a ray through
            // a corner counts it once.
            if (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x) {
                inside = !inside;
            }
        }
        inside
    }

    /// Distance from p to the nearest point of any ring, m; infinite without corners.
    #[must_use]
    pub fn distance_to_boundary(&self, p: DVec2) -> f64 {
        self.edges()
            .map(|(a, b)| distance_to_segment(p, a, b))
            .fold(f64::INFINITY, f64::min)
    }

    /// Moved by a vector.
    #[must_use]
    pub fn translated(&self, by: DVec2) -> Self {
        let moved = |ring: &Vec<DVec2>| ring.iter().map(|&p| p + by).collect();
        Self {
            outline: moved(&self.outline),
            holes: self.holes.iter().map(moved).collect(),
        }
    }
}

/// The edges of a closed ring, each as its two ends.
pub fn ring_edges(ring: &[DVec2]) -> impl Iterator<Item = (DVec2, DVec2)> {
    ring.iter()
        .zip(ring.iter().cycle().skip(1))
        .map(|(&a, &b)| (a, b))
}

/// The lowest and the highest coordinates of points; `None` where there are none.
#[must_use]
pub fn bounds(points: &[DVec2]) -> Option<(DVec2, DVec2)> {
    let (&first, rest) = points.split_first()?;
    Some(
        rest.iter()
            .fold((first, first), |(low, high), &p| (low.min(p), high.max(p))),
    )
}

/// Area enclosed by a ring, m2: positive counter-clockwise, negative clockwise.
///
/// Taken about the first corner, so that a ring 10 km from the origin loses no digits.
#[must_use]
pub fn signed_area(ring: &[DVec2]) -> f64 {
    let Some(&origin) = ring.first() else {
        return 0.0;
    };
    ring_edges(ring)
        .map(|(a, b)| (a - origin).perp_dot(b - origin))
        .sum::<f64>()
        / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn p(x: f64, y: f64) -> DVec2 {
        DVec2::new(x, y)
    }

    fn room_with_pillar() -> Polygon {
        Polygon {
            outline: vec![p(0.0, 0.0), p(10.0, 0.0), p(10.0, 6.0), p(0.0, 6.0)],
            holes: vec![vec![p(4.0, 2.0), p(5.0, 2.0), p(5.0, 3.0), p(4.0, 3.0)]],
        }
    }

    #[test]
    fn area_is_the_outline_less_the_holes() {
        assert_eq!(room_with_pillar().area(), 59.0);
    }

    #[test]
    fn signed_area_tells_the_direction() {
        let mut ring = vec![p(0.0, 0.0), p(2.0, 0.0), p(0.0, 3.0)];
        assert_eq!(signed_area(&ring), 3.0);
        ring.reverse();
        assert_eq!(signed_area(&ring), -3.0);
        assert_eq!(signed_area(&[]), 0.0);
    }

    #[test]
    fn area_ten_kilometres_away_is_as_exact() {
        let ring: Vec<DVec2> = [p(0.0, 0.0), p(0.1, 0.0), p(0.0, 0.1)]
            .map(|c| c + p(1e4, -1e4))
            .to_vec();
        assert!((signed_area(&ring) - 0.005).abs() < 1e-12);
    }

    #[test]
    fn the_boundary_is_inside() {
        let room = room_with_pillar();
        for (point, expected) in [
            (p(1.0, 1.0), true),
            (p(0.0, 3.0), true),
            (p(10.0, 6.0), true),
            (p(10.0 + 0.9e-6, 3.0), true),
            (p(10.0 + 1.1e-6, 3.0), false),
            (p(4.5, 2.5), false),
            (p(4.0, 2.5), true),
            (p(4.5, 2.0 + 1.1e-6), false),
            (p(-1.0, 0.0), false),
            (p(-1.0, 6.0), false),
            (p(11.0, 2.0), false),
            (p(2.0, 2.0), true),
        ] {
            assert_eq!(room.contains(point), expected, "at {point}");
        }
    }

    #[test]
    fn an_empty_polygon_has_nothing() {
        let nothing = Polygon::default();
        assert_eq!(nothing.area(), 0.0);
        assert_eq!(nothing.bounds(), None);
        assert!(!nothing.contains(p(0.0, 0.0)));
    }
}
