//! A hanger in the hand, on the plan or on the run profile.

use super::change::{moved, place_of, stations};
use super::load::{is_too_much, part, percent};
use super::reach::{Aim, aimed};
use super::words::{broken, said};
use crate::editor::Editor;
use crate::editor::intent::Intent;
use crate::hanging::{Candidate, RunAxis};
use crate::site::{Edit, Object};
use crate::study::RunStudy;
use std::sync::Arc;

/// A hanger that is being dragged along its tube.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct HangerDrag {
    /// The run as it was when the drag began.
    study: Arc<RunStudy>,
    /// Which of its hangers.
    place: usize,
    /// Where it could be.
    all: Arc<[Candidate]>,
    /// The hang point that it has been dragged to.
    to: Option<Candidate>,
}

impl HangerDrag {
    /// Takes a hanger of the picked run into the hand; none where the study lags behind.
    pub(crate) fn new(editor: &Editor, place: usize) -> Option<Self> {
        let id = editor.selection.run()?;
        let study = editor.results.run(id)?;
        let is_current = editor
            .committed()
            .scheme()
            .run(id)
            .is_some_and(|run| Arc::ptr_eq(run, &study.run));
        (is_current && place < study.hanging.hangers.len()).then(|| Self {
            study: Arc::clone(study),
            place,
            all: editor.hang_points.shared(),
            to: None,
        })
    }

    /// The run's axis.
    pub(crate) fn axis(&self) -> RunAxis {
        self.study.geometry.axis()
    }

    /// The hang point that it has been dragged to.
    pub(crate) fn to(&self) -> Option<&Candidate> {
        self.to.as_ref()
    }

    /// Which hanger of which run, in words.
    pub(crate) fn name(&self) -> String {
        format!("hanger {} of {}", self.place + 1, self.study.run.id)
    }

    /// The hand went somewhere else: what is shown then.
    pub(crate) fn follow(&mut self, aim: &Aim) -> Vec<Intent> {
        let mut taken = stations(&self.study);
        taken.remove(self.place);
        self.to = aimed(&self.all, &taken, &self.axis(), aim).cloned();
        match self.moved_run() {
            Some(run) => vec![Intent::Preview {
                name: format!("Move {}", self.name()),
                edit: Edit::Put(Object::Run(Arc::new(run))),
            }],
            None => vec![Intent::DropPreview],
        }
    }

    /// The run with the hanger where it was dragged to; none where that is where it was.
    fn moved_run(&self) -> Option<crate::site::Run> {
        let to = self.to.as_ref()?;
        let was = &self.study.hanging.hangers[self.place].at;
        if to == was {
            return None;
        }
        moved(&self.study, self.place, to)
    }

    /// The hand let go.
    pub(crate) fn release(self) -> Vec<Intent> {
        if self.moved_run().is_none() {
            return vec![Intent::DropPreview];
        }
        let run = self.study.run.id.clone();
        let place = self.new_place();
        vec![
            Intent::CommitPreview,
            Intent::PickHanger(Some((run, place))),
        ]
    }

    /// Which hanger of the run it is where it has been dragged to.
    fn new_place(&self) -> usize {
        self.to.as_ref().map_or(self.place, |to| {
            place_of(&self.study, to.station_m, Some(self.place))
        })
    }

    /// What it snaps to.
    pub(crate) fn said(&self, editor: &Editor) -> Option<String> {
        Some(said(editor.site().units, self.to.as_ref()?))
    }

    /// Which limits it would break there, as far as that has been worked out.
    pub(crate) fn warning(&self, editor: &Editor) -> Option<String> {
        let study = editor.results.study()?;
        let run = study.run(&self.study.run.id)?;
        let scheme = editor.site().scheme();
        let shown = scheme.run(&run.run.id)?;
        if !Arc::ptr_eq(shown, &run.run) {
            return None;
        }
        let place = self.new_place();
        let mut wrong = broken(editor.site().units, &run.hanging.breaches, place);
        let hanger = run.hanging.hangers.get(place)?;
        if hanger.load.slack {
            wrong.push("carries nothing".to_owned());
        }
        if let Some(part) = part(study, hanger).filter(|part| is_too_much(*part))
            && !wrong.iter().any(|it| it.starts_with("load"))
        {
            wrong.push(format!("{} of what may hang there", percent(part)));
        }
        (!wrong.is_empty()).then(|| wrong.join("; "))
    }
}
