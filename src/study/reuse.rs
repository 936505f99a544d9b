//! What of an earlier study still holds.
//!
//! A part is taken over only where everything that it was computed from is the very
//! same (pointer-equal, or equal in value for the policy), so that taking it over and
//! computing it again give the same bits.

use super::pairs::RunPair;
use super::run::RunStudy;
use super::together::RunGroup;
use super::{Spans, Study, Surroundings};
use crate::catalogue::{Catalogue, Family};
use crate::hanging::Hanging;
use crate::site::{Run, RunId, Site};
use crate::structure::Structure;
use std::collections::HashMap;
use std::sync::Arc;

/// What of an earlier study still holds for a site.
pub(super) struct Reuse<'a> {
    before: Option<&'a Study>,
    same_structure: bool,
    same_surroundings: bool,
    same_policy: bool,
    same_units: bool,
    same_suspension: bool,
    runs: HashMap<&'a RunId, &'a Arc<RunStudy>>,
    /// Looked up, never iterated: the order of a hash map is nobody's business.
    pairs: HashMap<(&'a RunId, &'a RunId), &'a Arc<RunPair>>,
}

fn same<T>(one: &[Arc<T>], other: &[Arc<T>]) -> bool {
    one.len() == other.len() && one.iter().zip(other).all(|(a, b)| Arc::ptr_eq(a, b))
}

impl<'a> Reuse<'a> {
    pub(super) fn new(before: Option<&'a Study>, site: &Site, catalogue: &Arc<Catalogue>) -> Self {
        // Another catalogue can change any run; families are compared one by one below,
        // so only their identity matters.
        let before = before.filter(|study| {
            Arc::ptr_eq(&study.catalogue, catalogue) || *study.catalogue == **catalogue
        });
        let Some(study) = before else {
            return Self {
                before: None,
                same_structure: false,
                same_surroundings: false,
                same_policy: false,
                same_units: false,
                same_suspension: false,
                runs: HashMap::new(),
                pairs: HashMap::new(),
            };
        };
        let known = &study.site;
        let same_structure = same(&known.grid, &site.grid)
            && same(&known.bays, &site.bays)
            && same(&known.framings, &site.framings);
        Self {
            before,
            same_structure,
            same_surroundings: same_structure
                && same(&known.obstructions, &site.obstructions)
                && same(&known.openings, &site.openings),
            same_policy: known.policy == site.policy,
            same_units: known.units == site.units,
            same_suspension: known.conditions.suspension == site.conditions.suspension,
            runs: study.runs.iter().map(|run| (&run.run.id, run)).collect(),
            pairs: study
                .pairs
                .iter()
                .map(|pair| ((&pair.first, &pair.second), pair))
                .collect(),
        }
    }

    pub(super) fn structure(&self) -> Option<Arc<Structure>> {
        self.before
            .filter(|_| self.same_structure)
            .map(|study| Arc::clone(&study.structure))
    }

    pub(super) fn spans(&self) -> Option<Arc<Spans>> {
        self.before
            .filter(|_| self.same_structure)
            .map(|study| Arc::clone(&study.spans))
    }

    pub(super) fn surroundings(&self) -> Option<Arc<Surroundings>> {
        self.before
            .filter(|_| self.same_surroundings)
            .map(|study| Arc::clone(&study.surroundings))
    }

    /// The whole study of a run that hangs as it did.
    pub(super) fn run(
        &self,
        run: &Arc<Run>,
        family: &Arc<Family>,
        hanging: &Arc<Hanging>,
    ) -> Option<Arc<RunStudy>> {
        let holds =
            self.same_surroundings && self.same_policy && self.same_units && self.same_suspension;
        let as_before = |known: &&Arc<RunStudy>| {
            Arc::ptr_eq(&known.hanging, hanging) || known.hanging == *hanging
        };
        self.known(run, family)
            .filter(|_| holds)
            .filter(as_before)
            .map(Arc::clone)
    }

    /// How a run hangs by itself, where only other runs and what it must keep clear of have
    /// changed.
    pub(super) fn alone(&self, run: &Arc<Run>, family: &Arc<Family>) -> Option<Arc<Hanging>> {
        let holds = self.same_structure && self.same_policy;
        self.known(run, family)
            .filter(|_| holds)
            .map(|known| Arc::clone(&known.alone))
    }

    /// Runs that were hung together, where the same decides it. How a run hangs by itself
    /// is the very same only where its steel and the policy are.
    pub(super) fn group(&self, inputs: &[Arc<Hanging>]) -> Option<Arc<RunGroup>> {
        let mut groups = self.before?.groups.iter();
        groups.find(|group| group.was_decided_by(inputs)).cloned()
    }

    fn known(&self, run: &Arc<Run>, family: &Arc<Family>) -> Option<&'a Arc<RunStudy>> {
        let known = *self.runs.get(&run.id)?;
        (Arc::ptr_eq(&known.run, run) && Arc::ptr_eq(&known.family, family)).then_some(known)
    }

    /// How near two runs are. The outer option says whether it is known, the inner one
    /// whether they are near at all.
    #[expect(clippy::option_option, reason = "known to be far apart is not unknown")]
    pub(super) fn pair(
        &self,
        first: &Arc<RunStudy>,
        second: &Arc<RunStudy>,
    ) -> Option<Option<Arc<RunPair>>> {
        let holds = |study: &Arc<RunStudy>| {
            self.runs
                .get(&study.run.id)
                .is_some_and(|known| Arc::ptr_eq(known, study))
        };
        (self.same_policy && holds(first) && holds(second)).then(|| {
            self.pairs
                .get(&(&first.run.id, &second.run.id))
                .map(|pair| Arc::clone(pair))
        })
    }
}
