//! One envelope against one convex piece.

use super::corridor::{Range, Seen};
use super::direction::Direction;
use crate::geometry::distance::{Nearness, Separation, box_to_points, separation};
use crate::geometry::parting::widest_gap;
use crate::geometry::{Bounds, ConvexSolid, DVec3, Frame, tolerance};

/// The box round the points of an obstacle that are equally near, in (s, l, u).
pub(super) type Span = Bounds;

/// One body's envelope and one piece of an obstacle, measured.
pub(super) struct Pair {
    /// Signed distance between them, m.
    pub(super) separation_m: f64,
    /// Whether the piece is inside the envelope by more than [`tolerance::LIMIT`].
    pub(super) is_inside: bool,
    /// Round the nearest points of the piece; round all of it where it is inside.
    pub(super) nearest: Span,
    /// By [`Direction::ALL`]: the coordinate of the nearest point of the piece between
    /// the other five faces of the envelope, and round what lies there.
    pub(super) towards: [Option<(f64, Span)>; 6],
}

/// Measures an envelope against a piece; `None` where they are farther apart than the margin.
pub(super) fn measure_pair(
    seen: &Seen<'_>,
    envelope: &Bounds,
    margin_m: f64,
    candidates: &mut Vec<DVec3>,
) -> Option<Pair> {
    let ranges = ranges(seen, envelope, candidates);
    let is_inside = (0..3).all(|axis| {
        ranges[axis].is_some_and(|range| {
            range.low_m < envelope.high[axis] - tolerance::LIMIT
                && envelope.low[axis] + tolerance::LIMIT < range.high_m
        })
    });
    let (separation_m, nearest) = if is_inside {
        (widest_gap(envelope, &seen.hull()).gap_m, seen.bounds)
    } else {
        straight_gap(seen, envelope, &ranges).or_else(|| gap(seen, envelope, margin_m))?
    };
    if separation_m > margin_m {
        return None;
    }
    Some(Pair {
        separation_m,
        is_inside,
        nearest,
        towards: nearest_of(seen, envelope, &ranges, candidates),
    })
}

/// [`Pair::towards`] alone, however far away the piece lies.
pub(super) fn towards(
    seen: &Seen<'_>,
    envelope: &Bounds,
    candidates: &mut Vec<DVec3>,
) -> [Option<(f64, Span)>; 6] {
    let ranges = ranges(seen, envelope, candidates);
    nearest_of(seen, envelope, &ranges, candidates)
}

fn ranges(seen: &Seen<'_>, envelope: &Bounds, candidates: &mut Vec<DVec3>) -> [Option<Range>; 3] {
    [0, 1, 2].map(|axis| seen.range_in_corridor(axis, envelope, candidates))
}

fn nearest_of(
    seen: &Seen<'_>,
    envelope: &Bounds,
    ranges: &[Option<Range>; 3],
    candidates: &mut Vec<DVec3>,
) -> [Option<(f64, Span)>; 6] {
    Direction::ALL.map(|direction| {
        let way = (direction.axis(), direction.sign());
        let range = ranges[way.0].as_ref()?;
        seen.nearest_in_corridor(way, envelope, range, candidates)
    })
}

/// The gap straight along an axis, where the point of the whole piece that lies
/// nearest along it is in the corridor: nothing can be nearer.
fn straight_gap(
    seen: &Seen<'_>,
    envelope: &Bounds,
    ranges: &[Option<Range>; 3],
) -> Option<(f64, Span)> {
    for (axis, range) in ranges.iter().enumerate() {
        let Some(range) = range else {
            continue;
        };
        let (above_m, below_m) = (
            range.low_m - envelope.high[axis],
            envelope.low[axis] - range.high_m,
        );
        if 0.0 <= above_m && range.low_m - seen.bounds.low[axis] <= tolerance::DISTANCE {
            return Some((above_m, range.lowest));
        }
        if 0.0 <= below_m && seen.bounds.high[axis] - range.high_m <= tolerance::DISTANCE {
            return Some((below_m, range.highest));
        }
    }
    None
}

/// The signed distance in general; `None` where it is greater than the margin.
fn gap(seen: &Seen<'_>, envelope: &Bounds, margin_m: f64) -> Option<(f64, Span)> {
    match box_to_points(envelope, seen.vertices, margin_m) {
        Nearness::Farther => None,
        Nearness::Apart(found) => {
            let span = all_nearest(seen, envelope, &found);
            Some((found.distance_m, span))
        }
        Nearness::Close => {
            let whole = ConvexSolid::turned_box(&Frame::AXES, envelope)?;
            let found = separation(&whole, &seen.solid());
            Some((found.distance_m, Bounds::EMPTY.with(found.on_other)))
        }
    }
}

/// Round all points of a piece that are as near to the envelope as the one found.
///
/// The envelope's nearest points are a corner, an edge or a face of it, which runs
/// along those axes that the line between the nearest points is square to. Along an
/// edge, many points may be equally near, and the quick method finds any of them.
fn all_nearest(seen: &Seen<'_>, envelope: &Bounds, found: &Separation) -> Span {
    let point = Bounds::EMPTY.with(found.on_other);
    let is_free = |axis: usize| found.normal[axis].abs() <= tolerance::SQUARE;
    let mut free = (0..3).filter(|&axis| is_free(axis));
    let (Some(axis), None) = (free.next(), free.next()) else {
        return point;
    };
    let Some((low_m, high_m)) = seen.line_in_solid(axis, found.on_other, tolerance::DISTANCE)
    else {
        return point;
    };
    let (low_m, high_m) = (
        low_m.max(envelope.low[axis]),
        high_m.min(envelope.high[axis]),
    );
    if high_m < low_m {
        return point;
    }
    let mut span = point;
    (span.low[axis], span.high[axis]) = (low_m, high_m);
    span
}
