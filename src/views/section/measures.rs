//! The measures of a section: heights, and the room in each direction.

use super::{Cut, CutRun, Stage};
use crate::clearance::{Direction, Reach};
use crate::geometry::{DVec2, DVec3, Polygon, tolerance};
use crate::site::RunId;
use crate::study::{RunStudy, Study, Thing};
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

/// The room from a run to a thing in one of its directions.
#[derive(Debug, Clone, PartialEq)]
pub struct Room {
    /// Which run.
    pub run: RunId,
    /// To what.
    pub thing: Thing,
    /// In which direction.
    pub direction: Direction,
    /// From the heater's outermost part there.
    pub from: DVec2,
    /// To the nearest point of the thing.
    pub to: DVec2,
    /// What there is, m, measured over the whole run.
    pub available_m: f64,
    /// What is required, m.
    pub required_m: f64,
}

impl Room {
    /// Whether less is there than is required.
    #[must_use]
    pub fn is_breach(&self) -> bool {
        tolerance::LIMIT < self.required_m - self.available_m
    }
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
/// room to what leaves least to spare there.
pub(super) fn rooms(stage: &Stage, runs: &[CutRun], things: &[Cut], study: &Study) -> Vec<Room> {
    let studied = runs.iter().filter_map(|it| study.run(&it.run));
    studied
        .flat_map(|run| {
            Direction::ALL
                .into_iter()
                .filter_map(|direction| least_room(stage, things, run, direction))
        })
        .collect()
}

fn least_room(stage: &Stage, things: &[Cut], run: &RunStudy, direction: Direction) -> Option<Room> {
    /// Sine of the greatest angle between a direction and the plane at which the measure
    /// is still drawn in the plane.
    const OUT_OF_PLANE: f64 = 0.05;
    let frame = &run.clearance.bodies.frame;
    let mut axis = DVec3::ZERO;
    axis[direction.axis()] = direction.sign();
    let axis = frame.site_direction(axis);
    if OUT_OF_PLANE < axis.truncate().dot(stage.plane.into).abs() {
        return None;
    }
    let missing = |it: &Room| it.required_m - it.available_m;
    run.clearance
        .near
        .iter()
        .filter_map(|near| {
            // To what is inside the envelope one distance tells: the one that the
            // shortest move would make right.
            let tells = !near.measured.is_breach() || near.measured.governing == Some(direction);
            let reach = near.measured.reaches[direction.index()].as_ref();
            let reach = reach.filter(|_| tells)?;
            let room = room(stage, run, direction, axis, &near.thing, reach)?;
            (is_beside_plane(stage, reach.place) || touches(things, &room)).then_some(room)
        })
        .max_by(|a, b| {
            missing(a)
                .total_cmp(&missing(b))
                .then_with(|| b.thing.cmp(&a.thing))
        })
}

fn room(
    stage: &Stage,
    run: &RunStudy,
    direction: Direction,
    axis: DVec3,
    thing: &Thing,
    reach: &Reach,
) -> Option<Room> {
    let bodies = &run.clearance.bodies;
    let body = bodies.bodies.iter().find(|body| body.part == reach.part)?;
    let place = bodies.frame.local_from_site(reach.place);
    let mut on_face = place.clamp(body.local.low, body.local.high);
    on_face[direction.axis()] = direction.face_of(&body.local);
    let from = bodies.frame.site_from_local(on_face);
    let to = from + axis * reach.available_m;
    Some(Room {
        run: run.run.id.clone(),
        thing: thing.clone(),
        direction,
        from: stage.plane.seen(from),
        to: stage.plane.seen(to),
        available_m: reach.available_m,
        required_m: reach.required_m,
    })
}

fn is_beside_plane(stage: &Stage, place: DVec3) -> bool {
    let behind_m = stage.plane.behind_m(place);
    -super::IN_FRONT_M <= behind_m && behind_m <= stage.depth_m
}

/// Whether the measure ends at what is cut of the thing: its nearest point may lie
/// elsewhere along the run, and the thing be as near here.
fn touches(things: &[Cut], room: &Room) -> bool {
    /// What slope and taper may make of it, m.
    const NEAR_M: f64 = 0.1;
    let mut areas = things
        .iter()
        .filter(|it| it.thing == room.thing)
        .flat_map(|it| &it.areas);
    areas.any(|area| {
        let area = Polygon::new(area.clone());
        area.contains(room.to) || area.distance_to_boundary(room.to) <= NEAR_M
    })
}
