//! What a run comes near to, pair by pair, and the room in each of its directions.

use super::point;
use crate::clearance::{Measured, Reach};
use crate::findings::Subject;
use crate::study::{RunStudy, Study, direction_word, rooms, worst_rooms};
use serde::Serialize;

/// A thing near a run, in one of the directions in which it lies.
#[derive(Debug, Serialize)]
pub(super) struct ClearanceReport {
    subject: String,
    /// Whether it burns, or may; false for another run.
    burns: bool,
    direction: &'static str,
    available_m: f64,
    required_m: f64,
    separation_m: f64,
    part: &'static str,
    at_m: [f64; 3],
}

/// The least room in one direction.
#[derive(Debug, Serialize)]
pub(super) struct RoomReport {
    /// Above, below, left, right, burner end, far end.
    direction: &'static str,
    /// The same as the maker has it: front, rear, exhaust end, bend end.
    called: &'static str,
    /// Null where nothing lies in that direction.
    subject: Option<String>,
    burns: Option<bool>,
    available_m: Option<f64>,
    required_m: f64,
    /// How deep the subject is inside the envelope; 0 where it is outside.
    depth_m: f64,
    /// How deep it reaches into the heater itself; 0 where it doesn't.
    inside_body_m: f64,
    /// On the heater's face.
    from_m: Option<[f64; 3]>,
    /// The nearest point of the subject.
    at_m: Option<[f64; 3]>,
}

/// Everything near a run, other runs last.
pub(super) fn of_run(study: &Study, run: &RunStudy) -> Vec<ClearanceReport> {
    let report =
        |subject: String, burns: bool, measured: &Measured, reach: &Reach| ClearanceReport {
            subject,
            burns,
            direction: reach.direction.label(),
            available_m: reach.available_m,
            required_m: reach.required_m,
            separation_m: measured.separation_m,
            part: reach.part.label(),
            at_m: point(reach.place),
        };
    let mut reports = Vec::new();
    for near in &run.clearance.near {
        let subject = Subject::from(&near.thing).to_string();
        let burns = near.burns.counts_as_combustible();
        for reach in near.measured.reaches.iter().flatten() {
            reports.push(report(subject.clone(), burns, &near.measured, reach));
        }
    }
    // A pair is measured from its first run.
    for pair in study.pairs.iter().filter(|it| it.first == run.run.id) {
        for reach in pair.measured.reaches.iter().flatten() {
            let subject = pair.second.to_string();
            reports.push(report(subject, false, &pair.measured, reach));
        }
    }
    reports
}

/// The least room in each direction of a run.
pub(super) fn rooms_of_run(study: &Study, run: &RunStudy) -> Vec<RoomReport> {
    let all = rooms(study, run);
    let worst = crate::clearance::Direction::ALL
        .into_iter()
        .zip(worst_rooms(&all));
    worst
        .map(|(direction, room)| RoomReport {
            direction: direction.label(),
            called: direction_word(run, direction),
            subject: room.map(|it| Subject::from(&it.thing).to_string()),
            burns: room.map(|it| it.burns),
            available_m: room.map(|it| it.available_m),
            required_m: room.map_or_else(
                || run.clearance.to_what_burns.towards(direction),
                |it| it.required_m,
            ),
            depth_m: room.map_or(0.0, |it| it.depth_m),
            inside_body_m: room.map_or(0.0, |it| it.inside_body_m),
            from_m: room.map(|it| point(it.from)),
            at_m: room.map(|it| point(it.contact)),
        })
        .collect()
}
