//! The room on all sides of the runs that are looked at: the picked one, and the one
//! whose finding the pointer is on. Worked out once for each study.

use super::results::Results;
use crate::findings::{Finding, Subject};
use crate::site::RunId;
use crate::study::{Room, Study, Thing, rooms};
use std::sync::Arc;

/// What is known of them.
#[derive(Debug, Default)]
pub(crate) struct Rooms {
    study: Option<Arc<Study>>,
    known: Vec<(RunId, Vec<Room>)>,
}

impl Rooms {
    /// Keeps what is known that of these runs in the newest study.
    pub(super) fn follow<'a>(&mut self, results: &Results, runs: impl Iterator<Item = &'a RunId>) {
        let Some(study) = results.study() else {
            return;
        };
        let is_same = self.study.as_ref().is_some_and(|it| Arc::ptr_eq(it, study));
        if !is_same {
            self.known.clear();
            self.study = Some(Arc::clone(study));
        }
        for id in runs {
            if self.known.iter().all(|(known, _)| known != id)
                && let Some(run) = study.run(id)
            {
                self.known.push((id.clone(), rooms(study, run)));
            }
        }
    }

    /// The room on all sides of a run; nothing of one that nobody looks at.
    pub(crate) fn of(&self, run: &RunId) -> &[Room] {
        let known = self.known.iter().find(|(known, _)| known == run);
        known.map_or(&[], |(_, rooms)| rooms)
    }
}

/// The run that a finding is about: the first that it names.
pub(crate) fn run_of(finding: &Finding) -> Option<&RunId> {
    finding.subjects.iter().find_map(|subject| match subject {
        Subject::Run(id) | Subject::Hanger(id, _) => Some(id),
        _ => None,
    })
}

/// Whether a finding is about a thing.
pub(crate) fn names(finding: &Finding, thing: &Thing) -> bool {
    finding.subjects.contains(&Subject::from(thing))
}
