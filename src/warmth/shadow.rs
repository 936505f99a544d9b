//! What of a line a place doesn't see: exactly, for convex solids.
//!
//! Seen from a place, a convex solid hides one stretch of a straight line. The triangle
//! of all sight lines from the place to the line is clipped by the solid's faces; the
//! shadow of what is left, thrown from the place onto the line, is that stretch.

use super::irradiance::LineSource;
use crate::geometry::{ConvexSolid, DVec2, DVec3};

/// The stretch of a line of some length that a solid hides from a place, m along it;
/// none where it hides nothing.
#[must_use]
pub fn hidden(place: DVec3, line: (DVec3, DVec3, f64), solid: &ConvexSolid) -> Option<(f64, f64)> {
    let (start, along, length_m) = line;
    // place + t (start - place) + w along, with w = t s.
    let toward = start - place;
    let mut region = vec![DVec2::ZERO, DVec2::new(1.0, 0.0), DVec2::new(1.0, length_m)];
    for face in solid.faces() {
        let normal = DVec2::new(face.normal.dot(toward), face.normal.dot(along));
        let room = face.offset - face.normal.dot(place);
        region = clipped(&region, normal, room);
        if region.is_empty() {
            return None;
        }
    }
    let seen = region.iter().filter(|it| 0.0 < it.x).map(|it| it.y / it.x);
    let (low, high) = seen.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), s| {
        (low.min(s), high.max(s))
    });
    (low < high).then_some((low, high))
}

/// The part of a convex region where `normal . p <= room`.
fn clipped(region: &[DVec2], normal: DVec2, room: f64) -> Vec<DVec2> {
    let Some(&last) = region.last() else {
        return Vec::new();
    };
    let mut kept = Vec::with_capacity(region.len() + 1);
    let mut before = last;
    for &here in region {
        let (a, b) = (normal.dot(before) - room, normal.dot(here) - room);
        if (a <= 0.0) != (b <= 0.0) {
            kept.push(before + (here - before) * (a / (a - b)));
        }
        if b <= 0.0 {
            kept.push(here);
        }
        before = here;
    }
    kept
}

/// Irradiance at a place with solids in the way, W/m2.
#[must_use]
pub fn shaded(source: &LineSource, place: DVec3, normal: DVec3, solids: &[ConvexSolid]) -> f64 {
    let length_m = source.length_m();
    let line = (source.start, source.along, length_m);
    let mut gone: Vec<(f64, f64)> = solids
        .iter()
        .filter_map(|solid| hidden(place, line, solid))
        .collect();
    gone.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut sum = 0.0;
    let mut seen_m = 0.0;
    for (from, to) in gone {
        if seen_m < from {
            sum += source.irradiance_between(place, normal, (seen_m, from));
        }
        seen_m = to.max(seen_m);
    }
    if seen_m < length_m {
        sum += source.irradiance_between(place, normal, (seen_m, length_m));
    }
    sum
}
