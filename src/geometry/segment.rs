//! Segments in plan: nearest points, crossings, and lines with a width.

use super::orientation::{Turn, turn};
use super::polygon::Polygon;
use super::validity::PolygonFault;
use super::{DVec2, tolerance};

/// The point of the segment a-b nearest to p; a itself where the segment has no length.
#[must_use]
pub fn nearest_on_segment(p: DVec2, a: DVec2, b: DVec2) -> DVec2 {
    let along = b - a;
    let length_squared = along.length_squared();
    if length_squared > 0.0 {
        a + along * ((p - a).dot(along) / length_squared).clamp(0.0, 1.0)
    } else {
        a
    }
}

/// Distance from p to the segment a-b, m.
#[must_use]
pub fn distance_to_segment(p: DVec2, a: DVec2, b: DVec2) -> f64 {
    p.distance(nearest_on_segment(p, a, b))
}

/// How two segments meet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Meeting {
    /// Each passes through the other at an inner point.
    Cross(DVec2),
    /// An end of one lies on the other, within [`tolerance::SAME_POINT`]; segments
    /// that overlap along a length touch too.
    Touch(DVec2),
}

impl Meeting {
    /// Where they meet.
    #[must_use]
    pub fn place(self) -> DVec2 {
        match self {
            Self::Cross(place) | Self::Touch(place) => place,
        }
    }
}

/// Whether and where the segments a-b and c-d meet.
#[must_use]
pub fn meeting(a: DVec2, b: DVec2, c: DVec2, d: DVec2) -> Option<Meeting> {
    for (p, from, to) in [(a, c, d), (b, c, d), (c, a, b), (d, a, b)] {
        if distance_to_segment(p, from, to) <= tolerance::SAME_POINT {
            return Some(Meeting::Touch(p));
        }
    }
    let crosses = opposite(turn(a, b, c), turn(a, b, d)) && opposite(turn(c, d, a), turn(c, d, b));
    crosses.then(|| {
        let (along, other) = (b - a, d - c);
        let t = (c - a).perp_dot(other) / along.perp_dot(other);
        Meeting::Cross(a + along * t)
    })
}

fn opposite(one: Turn, other: Turn) -> bool {
    matches!(
        (one, other),
        (Turn::Left, Turn::Right) | (Turn::Right, Turn::Left)
    )
}

/// A corner turning by more than this keeps no mitre, cosine of the turn: beyond
/// 120 degrees the mitre's tip would stand out by more than a whole width.
const SHARPEST_MITRE_COS: f64 = -0.5;

/// The outline of a line drawn with a width: a pipe, a tray, a partition.
///
/// Corners are mitred, very sharp ones cut off square; ends are cut square. The
/// outline runs counter-clockwise.
///
/// # Errors
/// Says what is wrong with the outline where the axis has fewer than two different
/// points, folds onto itself, or turns within less than the width.
pub fn thick_line(axis: &[DVec2], width_m: f64) -> Result<Polygon, PolygonFault> {
    let mut points: Vec<DVec2> = Vec::with_capacity(axis.len());
    for &p in axis {
        if points
            .last()
            .is_none_or(|last| last.distance(p) > tolerance::SAME_POINT)
        {
            points.push(p);
        }
    }
    let directions: Vec<DVec2> = points
        .windows(2)
        .map(|pair| (pair[1] - pair[0]).normalize_or_zero())
        .collect();
    let half = width_m / 2.0;
    let mut right = Vec::with_capacity(points.len() + 2);
    let mut left = Vec::with_capacity(points.len() + 2);
    for (i, &p) in points.iter().enumerate() {
        let before = i.checked_sub(1).and_then(|k| directions.get(k)).copied();
        let after = directions.get(i).copied();
        match (before, after) {
            (Some(before), Some(after)) => {
                let cos = before.dot(after);
                let mitre = (before.perp() + after.perp()) * (half / (1.0 + cos));
                if cos >= SHARPEST_MITRE_COS {
                    left.push(p + mitre);
                    right.push(p - mitre);
                } else if before.perp_dot(after) > 0.0 {
                    left.push(p + mitre);
                    right.extend([p - before.perp() * half, p - after.perp() * half]);
                } else {
                    left.extend([p + before.perp() * half, p + after.perp() * half]);
                    right.push(p - mitre);
                }
            }
            (Some(only), None) | (None, Some(only)) => {
                left.push(p + only.perp() * half);
                right.push(p - only.perp() * half);
            }
            (None, None) => {}
        }
    }
    left.reverse();
    right.append(&mut left);
    let polygon = Polygon::new(right);
    polygon.check().map(|()| polygon)
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use super::*;

    fn p(x: f64, y: f64) -> DVec2 {
        DVec2::new(x, y)
    }

    #[test]
    fn nearest_point_is_clamped_to_the_ends() {
        let (a, b) = (p(0.0, 0.0), p(4.0, 0.0));
        assert_eq!(distance_to_segment(p(2.0, 3.0), a, b), 3.0);
        assert_eq!(distance_to_segment(p(7.0, 4.0), a, b), 5.0);
        assert_eq!(distance_to_segment(p(-3.0, -4.0), a, b), 5.0);
        assert_eq!(distance_to_segment(p(3.0, 4.0), a, a), 5.0);
    }

    #[test]
    fn segments_cross_touch_or_miss() {
        let (a, b) = (p(0.0, 0.0), p(4.0, 4.0));
        assert_eq!(
            meeting(a, b, p(0.0, 4.0), p(4.0, 0.0)),
            Some(Meeting::Cross(p(2.0, 2.0)))
        );
        assert_eq!(
            meeting(a, b, p(2.0, 2.0), p(4.0, 0.0)),
            Some(Meeting::Touch(p(2.0, 2.0)))
        );
        assert!(matches!(
            meeting(a, b, p(1.0, 1.0), p(6.0, 6.0)),
            Some(Meeting::Touch(_))
        ));
        assert_eq!(meeting(a, b, p(5.0, 5.0), p(6.0, 5.0)), None);
        assert_eq!(meeting(a, b, p(0.0, 1.0), p(3.0, 4.0)), None);
    }

    #[test]
    fn a_straight_thick_line_is_its_length_times_its_width() {
        let line = thick_line(&[p(1.0, 1.0), p(4.0, 5.0)], 0.4).unwrap();
        assert!((line.area() - 2.0).abs() < 1e-12);
    }

    #[test]
    fn a_mitred_corner_loses_nothing() {
        let line = thick_line(&[p(0.0, 0.0), p(5.0, 0.0), p(5.0, 3.0)], 1.0).unwrap();
        assert_eq!(
            line.outline,
            [
                p(0.0, -0.5),
                p(5.5, -0.5),
                p(5.5, 3.0),
                p(4.5, 3.0),
                p(4.5, 0.5),
                p(0.0, 0.5)
            ]
        );
    }

    #[test]
    fn a_sharp_corner_is_cut_off() {
        let line = thick_line(&[p(0.0, 0.0), p(10.0, 0.0), p(1.0, 4.0)], 0.2).unwrap();
        assert!(line.outline.iter().all(|c| c.x < 10.2));
    }

    #[test]
    fn a_line_that_is_none_is_refused() {
        assert!(thick_line(&[], 1.0).is_err());
        assert!(thick_line(&[p(1.0, 1.0), p(1.0, 1.0)], 1.0).is_err());
        assert!(thick_line(&[p(0.0, 0.0), p(5.0, 0.0), p(0.0, 0.0)], 1.0).is_err());
        assert!(thick_line(&[p(0.0, 0.0), p(5.0, 0.0)], 0.0).is_err());
        assert!(thick_line(&[p(0.0, 0.0), p(f64::NAN, 0.0)], 1.0).is_err());
    }
}
