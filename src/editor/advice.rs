//! What is suggested for the picked run: sought away from the window, which never waits
//! for it, and kept until something newer is known.

use super::away::{Answer, Away};
use super::results::Results;
use crate::findings::Finding;
use crate::remedies::Base;
use crate::remedies::hanging::{
    SiteSuggestion, Suggestion, Suggestions, site_suggestion, suggestions,
};
use crate::site::{Hanging, RunId, Site};
use crate::study::Study;
use crate::units::Length;
use eframe::egui::Context;
use std::sync::Arc;

/// What is asked: of which study, about which run.
#[derive(Debug, Clone)]
struct Question {
    study: Arc<Study>,
    findings: Arc<Vec<Finding>>,
    run: RunId,
}

impl Question {
    fn answer(&self) -> Suggestions {
        let base = Base {
            study: &self.study,
            findings: &self.findings,
        };
        suggestions(&base, &self.run)
    }

    fn is_of(&self, site: &Arc<Site>, run: &RunId) -> bool {
        Arc::ptr_eq(&self.study.site, site) && self.run == *run
    }
}

/// The suggestions for the picked run.
#[derive(Debug, Default)]
pub(crate) struct Advice {
    /// Whether the answer is there before the frame is: for tests, which have no clock.
    is_inline: bool,
    asked: Option<Question>,
    pending: Option<Away<Suggestions>>,
    found: Option<Arc<Suggestions>>,
    /// The suggestion that is previewed.
    pub(crate) shown: Option<usize>,
}

impl Advice {
    /// Advice that is there at once.
    pub(super) fn inline() -> Self {
        Self {
            is_inline: true,
            ..Self::default()
        }
    }

    /// What is suggested for a run, as far as it is known.
    pub(crate) fn of(&self, run: &RunId) -> Option<&Arc<Suggestions>> {
        self.found.as_ref().filter(|found| found.run == *run)
    }

    /// One of the suggestions for a run.
    pub(crate) fn suggestion(&self, run: &RunId, which: usize) -> Option<&Suggestion> {
        self.of(run)?.list.get(which)
    }

    /// Takes in what was found, and asks about the picked run if it was not asked about.
    /// While a suggestion is previewed nothing newer is wanted: it would replace the list
    /// that the hand is on.
    pub(super) fn follow(&mut self, results: &Results, run: Option<&RunId>, ctx: &Context) {
        self.take_in();
        if self.shown.is_some() || self.pending.is_some() || !results.are_current() {
            return;
        }
        let (Some(study), Some(run)) = (results.study(), run) else {
            self.asked = None;
            self.found = None;
            return;
        };
        let known = self.asked.as_ref();
        if known.is_some_and(|known| known.is_of(&study.site, run)) {
            return;
        }
        let question = Question {
            study: Arc::clone(study),
            findings: Arc::clone(results.findings()),
            run: run.clone(),
        };
        self.asked = Some(question.clone());
        // Most runs need no advice, which is known at once.
        let is_quick = study
            .run(run)
            .is_none_or(|run| run.run.hanging != Hanging::Solved);
        if self.is_inline || is_quick {
            self.found = Some(Arc::new(question.answer()));
            return;
        }
        self.pending = Away::begin("suggestions", ctx, move || question.answer());
    }

    fn take_in(&mut self) {
        let Some(pending) = &self.pending else {
            return;
        };
        match pending.answer() {
            Answer::There(found) => {
                // What comes while one is previewed would pull the list from the hand.
                if self.shown.is_none() {
                    self.found = Some(Arc::new(found));
                }
                self.pending = None;
            }
            Answer::Never => self.pending = None,
            Answer::NotYet => {}
        }
    }
}

/// What shifting all runs a little would save: sought when it is asked for.
#[derive(Debug)]
pub(crate) struct SiteAdvice {
    is_inline: bool,
    /// How far each run may go.
    pub(crate) at_most: Length,
    pending: Option<(Arc<Site>, Away<SiteSuggestion>)>,
    found: Option<(Arc<Site>, SiteSuggestion)>,
}

impl Default for SiteAdvice {
    fn default() -> Self {
        Self {
            is_inline: false,
            at_most: Length::millimetres(300.0),
            pending: None,
            found: None,
        }
    }
}

impl SiteAdvice {
    /// Advice that is there at once.
    pub(super) fn inline() -> Self {
        Self {
            is_inline: true,
            ..Self::default()
        }
    }

    /// Whether it is being sought.
    pub(crate) const fn is_seeking(&self) -> bool {
        self.pending.is_some()
    }

    /// What was found for a site.
    pub(crate) fn of(&self, site: &Arc<Site>) -> Option<&SiteSuggestion> {
        let (of, found) = self.found.as_ref()?;
        Arc::ptr_eq(of, site).then_some(found)
    }

    /// Seeks away from the window; what is being sought already is waited for.
    pub(super) fn seek(&mut self, results: &Results, at_most: Length, ctx: &Context) {
        self.at_most = at_most;
        let Some(study) = results.study().filter(|_| self.pending.is_none()) else {
            return;
        };
        let (study, findings) = (Arc::clone(study), Arc::clone(results.findings()));
        let site = Arc::clone(&study.site);
        let sought = move || {
            let base = Base {
                study: &study,
                findings: &findings,
            };
            site_suggestion(&base, at_most.as_metres())
        };
        if self.is_inline {
            self.found = Some((site, sought()));
            return;
        }
        self.pending = Away::begin("site suggestion", ctx, sought).map(|away| (site, away));
    }

    /// Takes in what was found.
    pub(super) fn take_in(&mut self) {
        let Some((site, pending)) = self.pending.take() else {
            return;
        };
        match pending.answer() {
            Answer::There(found) => self.found = Some((site, found)),
            Answer::NotYet => self.pending = Some((site, pending)),
            Answer::Never => {}
        }
    }
}
