//! What is picked.

use crate::site::ObjectId;
use crate::site::{RunId, Site};
use std::collections::BTreeSet;

/// What is picked and what the pointer is over. Ids only: undo and removal can't
/// leave it on an object that is gone, because it is repaired before every frame.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Selection {
    /// What is picked, in the order of the ids.
    pub ids: BTreeSet<ObjectId>,
    /// What the pointer is over.
    pub hovered: Option<ObjectId>,
    /// One hanger of the picked run: its place in the answer, from 0.
    pub hanger: Option<(RunId, usize)>,
}

impl Selection {
    /// Whether an object is picked.
    pub fn has(&self, id: &ObjectId) -> bool {
        self.ids.contains(id)
    }

    /// The picked object, if it is the only one.
    pub fn single(&self) -> Option<&ObjectId> {
        match self.ids.len() {
            1 => self.ids.first(),
            _ => None,
        }
    }

    /// The first picked run: the one that the profile shows.
    pub fn run(&self) -> Option<&RunId> {
        self.ids.iter().find_map(|id| match id {
            ObjectId::Run(id) => Some(id),
            _ => None,
        })
    }

    /// The picked hanger of the only picked run.
    pub fn hanger(&self) -> Option<(&RunId, usize)> {
        self.hanger.as_ref().map(|(run, place)| (run, *place))
    }

    /// Picks these and nothing else.
    pub(crate) fn pick(&mut self, ids: BTreeSet<ObjectId>) {
        self.ids = ids;
        self.hanger = None;
    }

    /// Lets go of a hanger that isn't one of the only picked run's any more.
    pub(crate) fn repair_hanger(&mut self, n_hangers: impl Fn(&RunId) -> Option<usize>) {
        let is_there = |(run, place): &(RunId, usize)| {
            self.single() == Some(&ObjectId::Run(run.clone()))
                && n_hangers(run).is_some_and(|count| *place < count)
        };
        if !self.hanger.as_ref().is_some_and(is_there) {
            self.hanger = None;
        }
    }

    /// Picks an object that isn't picked, and lets go of one that is.
    pub(crate) fn toggle(&mut self, id: ObjectId) {
        if !self.ids.remove(&id) {
            self.ids.insert(id);
        }
    }

    /// Lets go of what the site no longer has.
    pub(crate) fn repair(&mut self, site: &Site) {
        self.ids.retain(|id| site.object(id).is_some());
        let gone = |id: &ObjectId| site.object(id).is_none();
        if self.hovered.as_ref().is_some_and(gone) {
            self.hovered = None;
        }
    }
}
