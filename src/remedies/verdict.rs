//! Whether an edit helps: the edited site is studied and judged in full, and what it
//! breaks anew counts against it.

use crate::findings::{Bound, Finding, Severity, Subject, judge};
use crate::geometry::tolerance;
use crate::site::Site;
use crate::site::edit::Edit;
use crate::study::{Study, restudy};
use std::sync::Arc;

/// A studied and judged site that edits are tried on.
#[derive(Debug, Clone, Copy)]
pub struct Base<'a> {
    /// Its study.
    pub study: &'a Study,
    /// All that the study has to say.
    pub findings: &'a [Finding],
}

/// A site after an edit, studied and judged in full.
#[derive(Debug, Clone)]
pub struct Tried {
    /// Its study.
    pub study: Study,
    /// All that the study has to say.
    pub findings: Vec<Finding>,
}

impl<'a> Base<'a> {
    /// The site after an edit; none where the edit is refused at the door.
    #[must_use]
    pub fn tried(&self, edit: &Edit) -> Option<Tried> {
        let study = self.studied(edit)?;
        Some(Tried::judged(study))
    }

    /// The study after an edit, not judged yet; none where the edit is refused.
    #[must_use]
    pub fn studied(&self, edit: &Edit) -> Option<Study> {
        let site: Arc<Site> = Arc::new(edit.apply(&self.study.site).ok()?);
        Some(restudy(self.study, &site, &self.study.catalogue))
    }

    /// The breaches of a tried site that are not among this one's, or are worse there.
    pub fn new_breaches<'b>(&'b self, tried: &'b Tried) -> impl Iterator<Item = &'b Finding> {
        let breach = |finding: &&Finding| finding.severity == Severity::Breach;
        let is_known = |found: &&Finding| {
            self.findings.iter().any(|known| {
                is_same_rule(known, found)
                    && others(found).all(|subject| known.subjects.contains(subject))
                    && !is_worse(found, known)
            })
        };
        let breaches = tried.findings.iter().filter(breach);
        breaches.filter(move |found| !is_known(found))
    }
}

impl Tried {
    /// Judges a study.
    #[must_use]
    pub fn judged(study: Study) -> Self {
        let findings = judge(&study.site, &study.catalogue, &study);
        Self { study, findings }
    }

    /// Whether a fault of the site before is gone.
    #[must_use]
    pub fn is_cured(&self, fault: &Finding) -> bool {
        let is_about_runs_alone = others(fault).next().is_none();
        !self.findings.iter().any(|found| {
            let shares = || others(fault).any(|subject| found.subjects.contains(subject));
            found.severity == fault.severity
                && is_same_rule(fault, found)
                && (is_about_runs_alone || shares())
        })
    }
}

/// Whether two findings are of one rule and about the same runs.
fn is_same_rule(one: &Finding, other: &Finding) -> bool {
    fn runs(finding: &Finding) -> impl Iterator<Item = &Subject> {
        finding.subjects.iter().filter(|subject| is_run(subject))
    }
    one.rule == other.rule && runs(one).eq(runs(other))
}

fn is_run(subject: &Subject) -> bool {
    matches!(subject, Subject::Run(_))
}

/// What a finding is about beside runs: members of a framing are named together, and a
/// move changes which of them.
fn others(finding: &Finding) -> impl Iterator<Item = &Subject> {
    finding.subjects.iter().filter(|subject| !is_run(subject))
}

/// Whether more is missing in one finding than in another.
fn is_worse(one: &Finding, other: &Finding) -> bool {
    let missing = |finding: &Finding| {
        let (measured, required) = finding.measured.zip(finding.required)?;
        Some(match finding.bound {
            Bound::Least => required - measured,
            Bound::Greatest => measured - required,
        })
    };
    match (missing(one), missing(other)) {
        (Some(one), Some(other)) => one > other + tolerance::LIMIT,
        _ => false,
    }
}
