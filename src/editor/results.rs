//! What has been worked out, and whether it is of the site that is shown.

use super::worker::{Answer, Request, Worker};
use crate::catalogue::Catalogue;
use crate::findings::{Finding, Severity, Subject, SurveyReport};
use crate::geometry::DVec2;
use crate::site::{ObjectId, RunId, Site};
use crate::study::{RunStudy, Study};
use eframe::egui::Context;
use std::collections::BTreeSet;
use std::sync::Arc;
use std::time::Duration;

/// How long a frame waits for a study that is under way. Most are done by then, and what
/// hangs from a dragged run moves with it instead of a frame behind.
const WAIT: Duration = Duration::from_millis(7);

/// The newest study and its findings.
#[derive(Debug, Default)]
pub(crate) struct Results {
    worker: Option<Worker>,
    asked: Option<Request>,
    answered: u64,
    study: Option<Arc<Study>>,
    findings: Arc<Vec<Finding>>,
    survey: Option<Arc<SurveyReport>>,
}

impl Results {
    /// Results that are there at once: for tests.
    pub(super) fn inline() -> Self {
        Self {
            worker: Some(Worker::inline()),
            ..Self::default()
        }
    }

    /// The newest study.
    pub(crate) fn study(&self) -> Option<&Arc<Study>> {
        self.study.as_ref()
    }

    /// The findings of the newest study, worst first.
    pub(crate) fn findings(&self) -> &Arc<Vec<Finding>> {
        &self.findings
    }

    /// What the survey changes, if any member is not as drawn.
    pub(crate) fn survey(&self) -> Option<&Arc<SurveyReport>> {
        self.survey.as_ref()
    }

    /// Whether the study is of the site that was last asked about.
    pub(crate) fn are_current(&self) -> bool {
        self.asked
            .as_ref()
            .is_some_and(|asked| asked.generation == self.answered)
    }

    /// The study of one run, if it was studied.
    pub(crate) fn run(&self, id: &RunId) -> Option<&Arc<RunStudy>> {
        self.study.as_ref()?.run(id)
    }

    /// Takes an answer in, if one has come.
    pub(super) fn take_in(&mut self) {
        if self.are_current() {
            return;
        }
        if let Some(worker) = &self.worker
            && let Some(answer) = worker.newest(WAIT)
        {
            self.accept(answer);
        }
    }

    /// Asks about a site, unless it is the one that was asked about last.
    pub(super) fn follow(&mut self, site: &Arc<Site>, catalogue: &Arc<Catalogue>, ctx: &Context) {
        let same = |asked: &Request| {
            Arc::ptr_eq(&asked.site, site) && Arc::ptr_eq(&asked.catalogue, catalogue)
        };
        if self.asked.as_ref().is_some_and(same) {
            return;
        }
        let request = Request {
            generation: self.asked.as_ref().map_or(1, |asked| asked.generation + 1),
            site: Arc::clone(site),
            catalogue: Arc::clone(catalogue),
        };
        self.asked = Some(request.clone());
        let worker = self
            .worker
            .get_or_insert_with(|| Worker::thread(ctx.clone()));
        if let Some(answer) = worker.ask(request) {
            self.accept(answer);
        }
        // What was asked for is shown in the next frame.
        ctx.request_repaint();
    }

    fn accept(&mut self, answer: Answer) {
        self.answered = answer.generation;
        self.study = Some(answer.study);
        self.findings = answer.findings;
        self.survey = answer.survey;
    }

    /// The objects that a finding is about, as far as they are objects of the site.
    pub(crate) fn objects_of(&self, finding: &Finding) -> BTreeSet<ObjectId> {
        finding
            .subjects
            .iter()
            .filter_map(|subject| match subject {
                Subject::Run(id) | Subject::Hanger(id, _) => Some(ObjectId::Run(id.clone())),
                Subject::Member(id) => {
                    let structure = &self.study.as_ref()?.structure;
                    let member = structure.member(id.as_str())?;
                    Some(ObjectId::Framing(member.framing.clone()))
                }
                Subject::Obstruction(id) => Some(ObjectId::Obstruction(id.clone())),
                Subject::Wall(id, _) | Subject::Deck(id) | Subject::Bay(id) => {
                    Some(ObjectId::Bay(id.clone()))
                }
                Subject::Opening(id) => Some(ObjectId::Opening(id.clone())),
                Subject::Framing(id) => Some(ObjectId::Framing(id.clone())),
                Subject::Family(_) => None,
            })
            .collect()
    }

    /// Where a finding is in plan.
    pub(crate) fn place_of(finding: &Finding) -> Option<DVec2> {
        finding.place.map(|place| place.truncate())
    }

    /// How many findings of a severity nobody accepted.
    pub(super) fn count(&self, severity: Severity) -> usize {
        self.findings
            .iter()
            .filter(|finding| finding.severity == severity && finding.accepted.is_none())
            .count()
    }
}
