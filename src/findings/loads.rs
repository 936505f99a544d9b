//! Loads on places of members as rules speak of them.

use super::Subject;
use crate::hanging::{Capacity, Hanger, LoadPlace, Place, PlaceLoad};
use crate::site::RunId;
use crate::study::Study;

/// One hanger's part of what a place carries.
#[derive(Debug, Clone, Copy)]
pub(super) struct Carried<'a> {
    /// The run.
    pub(super) run: &'a RunId,
    /// The hanger's number, from 1.
    pub(super) number: usize,
    /// The hanger.
    pub(super) hanger: &'a Hanger,
    /// Its load there, N.
    pub(super) load_n: f64,
    /// What one attachment may carry there.
    pub(super) allowed: Capacity,
}

impl Carried<'_> {
    /// The hanger.
    pub(super) fn subject(&self) -> Subject {
        Subject::Hanger(self.run.clone(), self.number)
    }
}

/// Who puts what on a place.
pub(super) fn carried<'a>(
    study: &'a Study,
    place: &LoadPlace,
    sum: &PlaceLoad,
) -> Vec<Carried<'a>> {
    sum.parts
        .iter()
        .filter_map(|part| {
            let run = study.runs.get(part.run)?;
            let hanger = run.hanging.hangers.get(part.hanger)?;
            let hold = hanger.load.holds.iter().find(|hold| hold.place == *place)?;
            Some(Carried {
                run: &run.run.id,
                number: part.hanger + 1,
                hanger,
                load_n: part.load_n,
                allowed: hold.allowed_single,
            })
        })
        .collect()
}

/// Who puts what on a member span, wherever on it.
pub(super) fn on_member(study: &Study, sum: &PlaceLoad) -> Vec<Subject> {
    let mut hangers: Vec<Subject> = sum
        .parts
        .iter()
        .filter_map(|part| {
            let run = study.runs.get(part.run)?;
            Some(Subject::Hanger(run.run.id.clone(), part.hanger + 1))
        })
        .collect();
    hangers.dedup();
    hangers
}

/// A place in words: `panel point 4 of J-07/AB`.
pub(super) fn place_words(place: &LoadPlace) -> String {
    let member = &place.member;
    match place.place {
        Place::PanelPoint(number) => format!("panel point {number} of {member}"),
        // Beyond the outermost panel points nothing is hung.
        Place::ChordPanel(number) => {
            format!(
                "the chord of {member} between panel points {number} and {}",
                number + 1
            )
        }
        Place::Line => member.to_string(),
    }
}
