//! The measures of a section: heights, and the room in each direction.

use super::{Cut, CutRun, Stage};
use crate::clearance::Direction;
use crate::geometry::{DVec2, DVec3, Polygon};
use crate::site::RunId;
use crate::study::{self, Room, RunStudy, Study, Thing, worst_rooms};
use crate::units::Length;

/// How high a run hangs, and what may be stacked below it.
#[derive(Debug, Clone, PartialEq)]
pub struct Height {
    /// Which run.
    pub run: RunId,
    /// The tube axis where it is cut.
    pub axis: DVec2,
    /// Height of the tube at the burner, as entered.
    pub tube: Length,
    /// Elevation of its lowest part, m.
    pub lowest_m: f64,
    /// The height to which goods may be stacked, as the posted notice says.
    pub stacking: Length,
    /// From where to where that holds along the section, m.
    pub stacking_from_to: (f64, f64),
}

/// The room from a run to a thing in one of its directions, where it lies in the section.
#[derive(Debug, Clone, PartialEq)]
pub struct RoomSeen {
    /// Which run.
    pub run: RunId,
    /// The room, measured over the whole run.
    pub room: Room,
    /// From the heater's outermost part there.
    pub from: DVec2,
    /// As far as the nearest point of the thing.
    pub to: DVec2,
    /// That nearest point, which may lie aside of the way from the heater's part.
    pub contact: DVec2,
}

/// Heights of the runs that are cut.
pub(super) fn heights(cut: &[CutRun], study: &Study) -> Vec<Height> {
    cut.iter()
        .filter_map(|it| {
            let run = study.run(&it.run)?;
            let stacking = &run.clearance.stacking;
            // What is cut of the bodies says how wide the run is here; goods are kept
            // clear below the whole envelope.
            let across = it.boxes.iter().flatten().map(|p| p.x);
            let from = across.clone().fold(f64::INFINITY, f64::min);
            let to = across.fold(f64::NEG_INFINITY, f64::max);
            let side = |required_m: f64| required_m.max(0.0);
            let required = &run.clearance.to_what_burns;
            let wide = side(required.left_m).max(side(required.right_m));
            Some(Height {
                run: it.run.clone(),
                axis: it.at,
                tube: run.run.tube_height,
                lowest_m: stacking.lowest_part_m,
                stacking: stacking.posted,
                stacking_from_to: (from - wide, to + wide),
            })
        })
        .collect()
}

/// In each direction of each run that is cut, if that direction lies in the plane: the
/// room to what leaves least to spare there. Between two runs it is said once.
pub(super) fn rooms(
    stage: &Stage,
    runs: &[CutRun],
    things: &[Cut],
    study: &Study,
) -> Vec<RoomSeen> {
    let mut seen: Vec<RoomSeen> = Vec::new();
    for run in runs.iter().filter_map(|it| study.run(&it.run)) {
        let mut all = study::rooms(study, run);
        all.retain(|room| is_in_plane(stage, run, room.direction));
        all.retain(|room| {
            is_beside_plane(stage, room.contact) || touches(stage, things, runs, room)
        });
        for room in worst_rooms(&all).into_iter().flatten() {
            let is_said = seen.iter().any(|it| {
                it.room.thing == Thing::Run(run.run.id.clone())
                    && room.thing == Thing::Run(it.run.clone())
            });
            if !is_said {
                seen.push(RoomSeen {
                    run: run.run.id.clone(),
                    from: stage.plane.seen(room.from),
                    to: stage.plane.seen(room.to),
                    contact: stage.plane.seen(room.contact),
                    room: room.clone(),
                });
            }
        }
    }
    seen
}

fn is_in_plane(stage: &Stage, run: &RunStudy, direction: Direction) -> bool {
    /// Sine of the greatest angle between a direction and the plane at which the measure
    /// is still drawn in the plane.
    const OUT_OF_PLANE: f64 = 0.05;
    let mut axis = DVec3::ZERO;
    axis[direction.axis()] = direction.sign();
    let axis = run.clearance.bodies.frame.site_direction(axis);
    axis.truncate().dot(stage.plane.into).abs() <= OUT_OF_PLANE
}

fn is_beside_plane(stage: &Stage, place: DVec3) -> bool {
    let behind_m = stage.plane.behind_m(place);
    -super::IN_FRONT_M <= behind_m && behind_m <= stage.depth_m
}

/// Whether the measure ends at what is cut of the thing: its nearest point may lie
/// elsewhere along the run, and the thing be as near here.
fn touches(stage: &Stage, things: &[Cut], runs: &[CutRun], room: &Room) -> bool {
    /// What slope and taper may make of it, m.
    const NEAR_M: f64 = 0.1;
    let ends = [room.contact, room.to].map(|end| stage.plane.seen(end));
    let is_at = |area: &Vec<DVec2>| {
        let area = Polygon::new(area.clone());
        let is_on = |end| area.contains(end) || area.distance_to_boundary(end) <= NEAR_M;
        ends.into_iter().any(is_on)
    };
    let of_things = things
        .iter()
        .filter(|it| it.thing == room.thing)
        .flat_map(|it| &it.areas);
    let of_runs = runs
        .iter()
        .filter(|it| room.thing == Thing::Run(it.run.clone()))
        .flat_map(|it| &it.boxes);
    of_things.chain(of_runs).any(is_at)
}
