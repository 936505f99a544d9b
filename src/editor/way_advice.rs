//! The ways out of one breach of the picked run: sought when somebody asks for them, away
//! from the window, which never waits for them.

use super::away::{Answer, Away};
use super::results::Results;
use crate::findings::{Finding, Subject};
use crate::remedies::Base;
use crate::remedies::clearance::{Offer, WaysOut, is_geometric_breach, ways_out_of};
use crate::site::{RunId, Site};
use eframe::egui::Context;
use std::sync::Arc;

/// A breach as it is told from others while the site changes, and the run that is to
/// change.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Breach {
    /// The run.
    pub(crate) run: RunId,
    rule: &'static str,
    subjects: Vec<Subject>,
}

impl Breach {
    /// A breach that has ways out, and the run to change: the picked one if the breach is
    /// about it, or else the first that it is about. None where a change of a run is no
    /// cure, or where it was accepted.
    pub(crate) fn of(finding: &Finding, picked: Option<&RunId>) -> Option<Self> {
        if !is_geometric_breach(finding) || finding.accepted.is_some() {
            return None;
        }
        let mut runs = finding.subjects.iter().filter_map(|subject| match subject {
            Subject::Run(id) => Some(id),
            _ => None,
        });
        let first = runs.clone().next()?;
        let run = runs.find(|id| picked == Some(*id)).unwrap_or(first).clone();
        Some(Self {
            run,
            rule: finding.rule,
            subjects: finding.subjects.clone(),
        })
    }

    /// The rule that is broken.
    pub(crate) const fn rule(&self) -> &'static str {
        self.rule
    }

    /// What it is about beside the run that is to change.
    pub(crate) fn others(&self) -> Vec<String> {
        let of_run = Subject::Run(self.run.clone());
        let others = self.subjects.iter().filter(|it| **it != of_run);
        others.map(ToString::to_string).collect()
    }

    /// The finding that says so, if it is still among these.
    pub(crate) fn among<'a>(&self, findings: &'a [Finding]) -> Option<&'a Finding> {
        findings
            .iter()
            .find(|it| Self::of(it, Some(&self.run)).as_ref() == Some(self))
    }
}

/// A breach as it is listed: with its finding, for what was measured and what is required.
#[derive(Debug, Clone)]
pub(crate) struct Listed {
    /// The breach.
    pub(crate) breach: Breach,
    /// What the study says of it.
    pub(crate) finding: Finding,
}

/// What is known of the ways out of the breach that was asked about.
#[derive(Debug, Default)]
pub(crate) struct WayAdvice {
    /// Whether the answer is there before the frame is: for tests, which have no clock.
    is_inline: bool,
    /// The breaches of a run that a change of it may cure.
    listed: Option<(RunId, Vec<Listed>)>,
    wanted: Option<Breach>,
    pending: Option<(Arc<Site>, Breach, Away<Option<WaysOut>>)>,
    found: Option<(Arc<Site>, Breach, Option<Arc<WaysOut>>)>,
    /// The way out that is previewed.
    pub(crate) shown: Option<usize>,
}

impl WayAdvice {
    /// Advice that is there at once.
    pub(super) fn inline() -> Self {
        Self {
            is_inline: true,
            ..Self::default()
        }
    }

    /// Asks about a breach, or about none any more.
    pub(super) fn want(&mut self, breach: Option<Breach>) {
        if self.wanted != breach {
            self.wanted = breach;
            self.found = None;
        }
    }

    /// The breach that is asked about.
    pub(crate) const fn wanted(&self) -> Option<&Breach> {
        self.wanted.as_ref()
    }

    /// The breaches of a run that a change of it may cure, worst first.
    pub(crate) fn listed(&self, run: &RunId) -> &[Listed] {
        let of_run = self.listed.as_ref().filter(|(of, _)| of == run);
        of_run.map_or(&[], |(_, listed)| listed)
    }

    /// Lists the breaches of the picked run as it is: not of what is offered and previewed,
    /// where some are cured and their lines would go from under the pointer.
    pub(super) fn list(&mut self, findings: &[Finding], picked: Option<&RunId>) {
        self.listed = picked.map(|run| {
            let listed = findings.iter().filter_map(|finding| {
                let breach = Breach::of(finding, Some(run)).filter(|it| it.run == *run)?;
                let finding = finding.clone();
                Some(Listed { breach, finding })
            });
            (run.clone(), listed.collect())
        });
    }

    /// What was found for the breach that is asked about, as far as it is known.
    pub(crate) fn found(&self) -> Option<&Arc<WaysOut>> {
        let (_, breach, found) = self.found.as_ref()?;
        (self.wanted.as_ref() == Some(breach)).then_some(found.as_ref())?
    }

    /// One of the ways out.
    pub(crate) fn offer(&self, which: usize) -> Option<&Offer> {
        self.found()?.offers.get(which)
    }

    /// Keeps what is known that of the breach that is asked about, as long as its run is
    /// picked and the study of the committed site has it. A list that is previewed stays.
    pub(super) fn follow(&mut self, results: &Results, picked: Option<&RunId>, ctx: &Context) {
        if self.shown.is_some() || self.pending.is_some() || !results.are_current() {
            return;
        }
        let Some((study, wanted)) = results.study().zip(self.wanted.clone()) else {
            return;
        };
        let finding = wanted.among(results.findings());
        let Some(finding) = finding.filter(|_| picked == Some(&wanted.run)) else {
            self.want(None);
            return;
        };
        let known = self.found.as_ref();
        if known.is_some_and(|(site, of, _)| Arc::ptr_eq(site, &study.site) && *of == wanted) {
            return;
        }
        let (of_study, findings) = (Arc::clone(study), Arc::clone(results.findings()));
        let (fault, run) = (finding.clone(), wanted.run.clone());
        let sought = move || {
            let base = Base {
                study: &of_study,
                findings: &findings,
            };
            ways_out_of(&base, &fault, &run)
        };
        let site = Arc::clone(&study.site);
        if self.is_inline {
            self.found = Some((site, wanted, sought().map(Arc::new)));
            return;
        }
        let away = Away::begin("ways out", ctx, sought);
        self.pending = away.map(|away| (site, wanted, away));
    }

    /// Takes in what was found.
    pub(super) fn take_in(&mut self) {
        let Some((site, breach, pending)) = self.pending.take() else {
            return;
        };
        match pending.answer() {
            // What comes while one is previewed would pull the list from the hand.
            Answer::There(_) if self.shown.is_some() => {}
            Answer::There(found) => self.found = Some((site, breach, found.map(Arc::new))),
            Answer::NotYet => self.pending = Some((site, breach, pending)),
            Answer::Never => {}
        }
    }
}
