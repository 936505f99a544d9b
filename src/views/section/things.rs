//! Walls, decks, members and obstructions: cut by the plane, or seen behind it.

use super::{Cut, Seen, Stage};
use crate::geometry::cut::union_outline;
use crate::geometry::{Bounds, ConvexSolid, DVec2, DVec3};
use crate::site::ObstructionKind;
use crate::structure::{DoorPart, Member};
use crate::study::{Study, Surrounding, Thing};

/// What is cut, and what is seen.
pub(super) fn things(stage: &Stage, study: &Study) -> (Vec<Cut>, Vec<Seen>) {
    let (mut cut, mut seen) = (Vec::new(), Vec::new());
    for thing in &study.surroundings.things {
        let near: Vec<&ConvexSolid> = thing
            .solids
            .iter()
            .filter(|solid| is_near(stage, solid.bounds()))
            .collect();
        if near.is_empty() {
            continue;
        }
        let areas = shown(stage, &near, |solid| solid.cut_by(&stage.plane));
        if !areas.is_empty() {
            cut.push(Cut {
                thing: thing.thing.clone(),
                kind: kind_of(thing),
                outline: union_outline(&areas),
                areas,
            });
        }
        let areas = shown(stage, &near, |solid| {
            solid.seen_behind(&stage.plane, stage.depth_m)
        });
        if !areas.is_empty() {
            seen.push(Seen {
                lines: web(stage, study, thing),
                behind_m: behind(stage, &near),
                thing: thing.thing.clone(),
                kind: kind_of(thing),
                outline: union_outline(&areas),
                areas,
            });
        }
    }
    (cut, seen)
}

/// The kind that a thing is drawn as: a door as the space that it moves through, or, where
/// it rests open, as a thing without a hatch of its own.
fn kind_of(thing: &Surrounding) -> Option<ObstructionKind> {
    match &thing.thing {
        Thing::Door(_, DoorPart::Travel) => Some(ObstructionKind::DoorTravel),
        Thing::Door(_, DoorPart::Open) => Some(ObstructionKind::Other),
        _ => thing.kind,
    }
}

fn shown(
    stage: &Stage,
    solids: &[&ConvexSolid],
    area: impl Fn(&ConvexSolid) -> Vec<DVec2>,
) -> Vec<Vec<DVec2>> {
    let areas = solids.iter().map(|solid| stage.within(&area(solid)));
    areas.filter(|area| 3 <= area.len()).collect()
}

/// How far behind the plane solids begin, m.
pub(super) fn behind(stage: &Stage, solids: &[&ConvexSolid]) -> f64 {
    let corners = solids.iter().flat_map(|solid| solid.vertices());
    let nearest = corners.map(|corner| stage.plane.behind_m(*corner));
    nearest.fold(f64::INFINITY, f64::min).max(0.0)
}

/// Whether anything in a box may be on the plane or behind it within the depth.
pub(super) fn is_near(stage: &Stage, bounds: &Bounds) -> bool {
    let (centre, half) = (bounds.centre(), bounds.half_size());
    let reach = |axis: DVec2| half.x * axis.x.abs() + half.y * axis.y.abs();
    let behind_m = stage.plane.behind_m(centre);
    let u = stage.plane.seen(centre).x;
    let (deep, wide) = (reach(stage.plane.into), reach(stage.plane.along));
    0.0 <= behind_m + deep
        && behind_m - deep <= stage.depth_m
        && 0.0 <= u + wide
        && u - wide <= stage.width_m
}

/// The web of a joist or truss that runs along the plane: from panel point to panel
/// point, between its chords, as a zigzag. Where the web really runs nobody says; the
/// panel points do.
fn web(stage: &Stage, study: &Study, thing: &Surrounding) -> Vec<(DVec2, DVec2)> {
    /// Cosine between a member and the plane's axis above which it is seen from its side.
    const ALONG: f64 = 0.9;
    let Thing::Member(id) = &thing.thing else {
        return Vec::new();
    };
    let Some(member) = study.structure.member(id.as_str()) else {
        return Vec::new();
    };
    if member.direction.dot(stage.plane.along).abs() < ALONG {
        return Vec::new();
    }
    web_of(member)
        .into_iter()
        .map(|(a, b)| (stage.plane.seen(a), stage.plane.seen(b)))
        .filter(|ends| {
            let inside = |p: DVec2| 0.0 <= p.x && p.x <= stage.width_m;
            inside(ends.0) && inside(ends.1)
        })
        .collect()
}

/// A member's web in space: panel points on the bottom chord, joined to the top chord
/// half way between them. Nothing for beams and purlins.
pub(in crate::views) fn web_of(member: &Member) -> Vec<(DVec3, DVec3)> {
    let below = |at_m: f64| member.plan_at(at_m).extend(member.underside_at(at_m));
    let above = |at_m: f64| member.plan_at(at_m).extend(member.top_at(at_m));
    let points = &member.panel_points;
    let mut lines = Vec::new();
    if let (Some(first), Some(last)) = (points.first(), points.last()) {
        lines.push((above(0.0), below(first.at_m)));
        lines.push((below(last.at_m), above(member.length_m)));
    }
    for pair in points.windows(2) {
        let (from, to) = (pair[0].at_m, pair[1].at_m);
        let top = above(f64::midpoint(from, to));
        lines.push((below(from), top));
        lines.push((top, below(to)));
    }
    lines
}
