//! Keeps hangers where they are, and moves, adds and removes single ones.

use crate::editor::Editor;
use crate::editor::arrange::Way;
use crate::editor::command::Command;
use crate::editor::hangers::{
    self, Stride, Toward, across, added, moved, place_of, said, widest_gap, without,
};
use crate::editor::intent::Message;
use crate::hanging::Candidate;
use crate::site::{Edit, Hanging, Object, ObjectId, Run, RunId};
use crate::study::RunStudy;
use std::collections::BTreeSet;
use std::sync::Arc;

impl Editor {
    pub(super) fn hanger_command(&mut self, command: Command) {
        match command {
            Command::LockHangers => self.lock_hangers(&self.picked_name()),
            Command::NextHanger => self.pick_neighbouring_hanger(Toward::Exhaust),
            Command::PreviousHanger => self.pick_neighbouring_hanger(Toward::Burner),
            Command::AddHanger => self.add_hanger(),
            Command::Delete => self.remove_hanger(),
            Command::Nudge(way) => self.step_hanger(way, Stride::Direct),
            Command::NudgeFinely(way) => self.step_hanger(way, Stride::Any),
            _ => {}
        }
    }

    /// Picks one hanger of a run, and the run with it.
    pub(super) fn pick_hanger(&mut self, hanger: Option<(RunId, usize)>) {
        if let Some((run, _)) = &hanger {
            self.selection
                .pick(BTreeSet::from([ObjectId::Run(run.clone())]));
        }
        self.selection.hanger = hanger;
    }

    /// The study of the only picked run, unless it lags behind the site.
    fn hung_run_now(&self) -> Option<Arc<RunStudy>> {
        let study = self.hung_run()?;
        let scheme = self.document.committed().scheme();
        let run = scheme.run(&study.run.id)?;
        Arc::ptr_eq(run, &study.run).then(|| Arc::clone(study))
    }

    fn pick_neighbouring_hanger(&mut self, toward: Toward) {
        let Some(study) = self.hung_run() else {
            return;
        };
        let count = study.hanging.hangers.len();
        let place = match (self.selection.hanger(), toward) {
            _ if count == 0 => return,
            (None, Toward::Exhaust) => 0,
            (None, Toward::Burner) => count - 1,
            (Some((_, place)), Toward::Exhaust) => (place + 1) % count,
            (Some((_, place)), Toward::Burner) => (place + count - 1) % count,
        };
        let hanger = Some((study.run.id.clone(), place));
        self.pick_hanger(hanger);
        self.say_hanger();
    }

    /// Says where the picked hanger is.
    fn say_hanger(&mut self) {
        let units = self.document.committed().units;
        let said = self.selection.hanger().and_then(|(run, place)| {
            let hanger = self.results.run(run)?.hanging.hangers.get(place)?;
            Some(format!(
                "Hanger {} of {run}: {}",
                place + 1,
                said(units, &hanger.at)
            ))
        });
        self.message = said.map(Message::done);
    }

    /// Moves the picked hanger to the next hang point that way on the plan; across the run,
    /// to the next one at its station.
    fn step_hanger(&mut self, way: Way, stride: Stride) {
        let Some((place, study)) = self.picked_hanger() else {
            return;
        };
        let toward = way.vector();
        let heading = study.geometry.heading;
        let along = toward.dot(heading);
        let at = &study.hanging.hangers[place].at;
        let all = self.hang_points.of(&study.run.id);
        let found = if along.abs() < 0.5 {
            across(all, &study.geometry.axis(), at, heading.perp_dot(toward))
        } else if 0.0 < along {
            hangers::next(all, &others(&study, place), at, Toward::Exhaust, stride)
        } else {
            hangers::next(all, &others(&study, place), at, Toward::Burner, stride)
        };
        match found.cloned() {
            Some(to) => self.move_hanger(&study, place, &to),
            None => {
                self.message = Some(Message::done("There is no hang point farther that way"));
            }
        }
    }

    /// Moves the picked hanger to the next hang point toward one end of its run.
    pub(crate) fn hanger_beyond(&self, toward: Toward, stride: Stride) -> Option<Candidate> {
        let (place, study) = self.picked_hanger()?;
        let all = self.hang_points.of(&study.run.id);
        let at = &study.hanging.hangers[place].at;
        hangers::next(all, &others(&study, place), at, toward, stride).cloned()
    }

    /// Moves the picked hanger to another hang point of its run.
    pub(super) fn move_picked_hanger(&mut self, to: &Candidate) {
        if let Some((place, study)) = self.picked_hanger() {
            self.move_hanger(&study, place, to);
        }
    }

    fn picked_hanger(&self) -> Option<(usize, Arc<RunStudy>)> {
        let (_, place) = self.selection.hanger()?;
        let study = self.hung_run_now()?;
        (place < study.hanging.hangers.len()).then_some((place, study))
    }

    fn move_hanger(&mut self, study: &RunStudy, place: usize, to: &Candidate) {
        let Some(run) = moved(study, place, to) else {
            return;
        };
        let id = study.run.id.clone();
        let name = format!("Move hanger {} of {id}", place + 1);
        if self.step(&name, &Edit::Put(Object::Run(Arc::new(run)))) {
            let place = place_of(study, to.station_m, Some(place));
            self.pick_hanger(Some((id.clone(), place)));
            let units = self.document.committed().units;
            let said = said(units, to);
            self.message = Some(Message::done(format!(
                "Hanger {} of {id}: {said}",
                place + 1
            )));
        }
    }

    fn add_hanger(&mut self) {
        let Some(study) = self.hung_run_now() else {
            return;
        };
        let all = self.hang_points.of(&study.run.id);
        match widest_gap(&study, all).cloned() {
            Some(at) => self.add_hanger_at(&at),
            None => {
                let said = "There is no place left that it could hang from";
                self.message = Some(Message::trouble(said));
            }
        }
    }

    /// One hanger more, at a hang point of the picked run.
    pub(super) fn add_hanger_at(&mut self, at: &Candidate) {
        let Some(study) = self.hung_run_now() else {
            return;
        };
        let id = study.run.id.clone();
        let edit = Edit::Put(Object::Run(Arc::new(added(&study, at))));
        if self.step(&format!("Add a hanger to {id}"), &edit) {
            let place = place_of(&study, at.station_m, None);
            self.pick_hanger(Some((id.clone(), place)));
            let said = said(self.document.committed().units, at);
            self.message = Some(Message::done(format!(
                "Hanger {} of {id}: {said}",
                place + 1
            )));
        }
    }

    fn remove_hanger(&mut self) {
        let Some((place, study)) = self.picked_hanger() else {
            return;
        };
        let id = &study.run.id;
        if let Some(run) = without(&study, place) {
            let name = format!("Remove hanger {} of {id}", place + 1);
            if self.step(&name, &Edit::Put(Object::Run(Arc::new(run)))) {
                self.selection.hanger = None;
            }
        }
    }

    /// Keeps the hangers of the picked runs where they are; if all are kept already, lets
    /// them be chosen again.
    fn lock_hangers(&mut self, what: &str) {
        let scheme = self.document.committed().scheme();
        let picked = || {
            let ids = &self.selection.ids;
            scheme
                .runs
                .iter()
                .filter(|run| ids.contains(&ObjectId::Run(run.id.clone())))
        };
        let all_kept = picked().all(|run| matches!(run.hanging, Hanging::Locked(_)));
        let edits: Vec<Edit> = picked()
            .filter_map(|run| {
                let run = match (&run.hanging, all_kept) {
                    (Hanging::Locked(_), true) => Run {
                        hanging: Hanging::Solved,
                        ..Run::clone(run)
                    },
                    (Hanging::Solved, false) => self
                        .results
                        .run(&run.id)
                        // Hangers of where it was are not to be kept where it is now.
                        .filter(|study| Arc::ptr_eq(&study.run, run))
                        .filter(|study| !study.hanging.hangers.is_empty())?
                        .with_kept_hangers(),
                    _ => return None,
                };
                Some(Edit::Put(Object::Run(Arc::new(run))))
            })
            .collect();
        if edits.is_empty() {
            let said = "No hangers have been found for it, so there are none to keep";
            self.message = Some(Message::trouble(said));
            return;
        }
        let verb = if all_kept { "Free" } else { "Lock" };
        self.step(&format!("{verb} the hangers of {what}"), &Edit::All(edits));
    }
}

/// The stations of a run's other hangers, m.
fn others(study: &RunStudy, place: usize) -> Vec<f64> {
    let hangers = study.hanging.hangers.iter().enumerate();
    hangers
        .filter(|(other, _)| *other != place)
        .map(|(_, it)| it.at.station_m)
        .collect()
}
