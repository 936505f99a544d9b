//! Points and outlines.

use super::{PLAN, SIZE};
use crate::geometry::validity::{MOST_CORNERS, Ring};
use crate::geometry::{DVec2, Polygon, PolygonFault, tolerance};
use crate::problem::Check;
use crate::site::{Footprint, Site};
use std::fmt::Display;

/// A plan point within the greatest distance from the origin.
pub(super) fn check_point(field: impl Display, point: DVec2, check: &mut Check<'_>) {
    check.number(format_args!("{field}.x"), point.x, PLAN);
    check.number(format_args!("{field}.y"), point.y, PLAN);
}

/// A simple polygon with its holes inside. Tells whether it is one.
pub(super) fn check_area(outline: &[DVec2], holes: &[Vec<DVec2>], check: &mut Check<'_>) {
    let n_before = check.n_problems();
    for (i, point) in outline.iter().enumerate() {
        check_point(format_args!("outline[{i}]"), *point, check);
    }
    for (h, hole) in holes.iter().enumerate() {
        for (i, point) in hole.iter().enumerate() {
            check_point(format_args!("holes[{h}][{i}]"), *point, check);
        }
    }
    // Coordinates that are no places make no polygon, and once the list of problems is
    // full the search for crossings is not worth its time.
    if check.n_problems() > n_before || check.is_full() {
        return;
    }
    let polygon = Polygon {
        outline: outline.to_vec(),
        holes: holes.to_vec(),
    };
    if let Err(fault) = polygon.check() {
        let accepted = "a simple polygon: at least 3 corners, edges that meet only at \
                        corners, holes inside the outline and apart from each other";
        match place_of(&fault) {
            (Ring::Outline, None) => check.refuse("outline", fault, accepted),
            (Ring::Outline, Some(i)) => {
                check.refuse(format_args!("outline[{i}]"), fault, accepted);
            }
            (Ring::Hole(h), None) => check.refuse(format_args!("holes[{h}]"), fault, accepted),
            (Ring::Hole(h), Some(i)) => {
                check.refuse(format_args!("holes[{h}][{i}]"), fault, accepted);
            }
        }
    }
}

/// The ring that is at fault, and its corner where there is one to name.
fn place_of(fault: &PolygonFault) -> (Ring, Option<usize>) {
    match *fault {
        PolygonFault::NotFinite { ring, corner }
        | PolygonFault::RepeatedCorner { ring, corner, .. } => (ring, Some(corner)),
        PolygonFault::SelfCrossing { ring, edges, .. } => (ring, Some(edges.1)),
        PolygonFault::TooFewCorners { ring, .. } | PolygonFault::ZeroArea { ring } => (ring, None),
        PolygonFault::TooManyCorners { .. } => (Ring::Outline, None),
        PolygonFault::HoleOutside { hole }
        | PolygonFault::HoleTouches { hole, .. }
        | PolygonFault::HoleCrosses { hole, .. }
        | PolygonFault::HoleInHole { hole, .. } => (Ring::Hole(hole), None),
    }
}

/// A line of at least two points, no two in a row in one place, with a width.
pub(super) fn check_line(points: &[DVec2], width_m: f64, check: &mut Check<'_>) {
    check.count("points", points.len(), 2, MOST_CORNERS);
    for (i, point) in points.iter().enumerate() {
        check_point(format_args!("points[{i}]"), *point, check);
    }
    for (i, pair) in points.windows(2).enumerate() {
        if pair[0].distance(pair[1]) <= tolerance::SAME_POINT {
            let field = format_args!("points[{}]", i + 1);
            let accepted = "a point apart from the one before it";
            check.refuse(field, "the same place again", accepted);
        }
    }
    check.number("width", width_m, SIZE);
}

/// Corners of all outlines, holes and lines.
pub(super) fn n_corners(site: &Site) -> usize {
    let rings = |outline: &[DVec2], holes: &[Vec<DVec2>]| {
        outline.len() + holes.iter().map(Vec::len).sum::<usize>()
    };
    let bays = site.bays.iter().map(|bay| rings(&bay.outline, &bay.holes));
    let obstructions = site.obstructions.iter().map(|it| match &it.footprint {
        Footprint::Area { outline, holes } => rings(outline, holes),
        Footprint::Line { points, .. } => points.len(),
    });
    bays.chain(obstructions).sum()
}
