//! What a study says that another did not, and the other way round; and what of it the
//! survey brought about.

use super::{Finding, judge};
use crate::study::Study;
use crate::study::survey::{Survey, is_surveyed, study_as_drawn, survey_differences};

/// The findings that came and those that went.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Changes {
    /// Found now and not before.
    pub new: Vec<Finding>,
    /// Found before and not now.
    pub gone: Vec<Finding>,
}

/// The findings of one list without a counterpart in the other: the same rule about the
/// same subjects, as bad.
#[must_use]
pub fn changes(before: &[Finding], after: &[Finding]) -> Changes {
    let without = |list: &[Finding], other: &[Finding]| -> Vec<Finding> {
        list.iter()
            .filter(|found| !other.iter().any(|known| is_same(found, known)))
            .cloned()
            .collect()
    };
    Changes {
        new: without(after, before),
        gone: without(before, after),
    }
}

fn is_same(one: &Finding, other: &Finding) -> bool {
    one.rule == other.rule && one.severity == other.severity && one.subjects == other.subjects
}

/// What is different because members are not where they were drawn, with what fails and
/// what no longer fails.
#[derive(Debug, Clone, PartialEq)]
pub struct SurveyReport {
    /// Members and hangers.
    pub survey: Survey,
    /// Findings.
    pub findings: Changes,
}

/// What the survey of a studied and judged site changes, and the study of the site as
/// drawn, which helps with the next one; nothing where no member is adjusted. `before`
/// is that study of an earlier report.
#[must_use]
pub fn survey_report(
    built: &Study,
    findings: &[Finding],
    before: Option<&Study>,
) -> Option<(SurveyReport, Study)> {
    if !is_surveyed(&built.site) {
        return None;
    }
    let drawn = study_as_drawn(built, before);
    let as_drawn = judge(&drawn.site, &drawn.catalogue, &drawn);
    let report = SurveyReport {
        survey: survey_differences(&drawn, built),
        findings: changes(&as_drawn, findings),
    };
    Some((report, drawn))
}
