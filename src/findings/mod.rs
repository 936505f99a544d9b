//! What the study has to say: findings, each from one rule.
//!
//! A rule reads site, catalogue and study, and never computes what an engine should.

mod cautions;
mod changes;
mod distance;
mod finding;
mod heights;
mod limits;
mod loads;
mod nearby;
mod registry;
mod rules;
mod say;
mod together;

pub use cautions::CAUTIONS;
pub use changes::{Changes, SurveyReport, changes, survey_report};
pub use finding::{Bound, Dimension, Finding, Phrase, Severity, Subject};
pub use registry::{Explanation, RULES, Rule, rule};
pub use say::cost_words;
pub use together::{bound_words, together_words};

use crate::catalogue::Catalogue;
use crate::site::Site;
use crate::study::Study;

/// All findings of a study, worst first, then by rule, then by subject: the same
/// study gives the same list.
#[must_use]
pub fn judge(site: &Site, catalogue: &Catalogue, study: &Study) -> Vec<Finding> {
    let mut findings = Vec::new();
    for rule in RULES {
        (rule.check)(
            &Context {
                site,
                catalogue,
                study,
                rule,
            },
            &mut findings,
        );
    }
    for finding in &mut findings {
        finding.accepted = acceptance(site, finding);
    }
    findings.sort_by(|a, b| {
        (a.severity, a.rule)
            .cmp(&(b.severity, b.rule))
            .then_with(|| a.subjects.cmp(&b.subjects))
            .then_with(|| place_key(a).cmp(&place_key(b)))
    });
    findings
}

/// What a rule reads.
#[derive(Debug, Clone, Copy)]
pub struct Context<'a> {
    /// What the user entered.
    pub site: &'a Site,
    /// The families at hand.
    pub catalogue: &'a Catalogue,
    /// What was computed.
    pub study: &'a Study,
    /// The rule itself.
    pub rule: &'static Rule,
}

/// The written reason for which a finding was accepted, where its rule lets it be.
fn acceptance(site: &Site, finding: &Finding) -> Option<String> {
    rule(finding.rule).filter(|rule| rule.can_be_accepted)?;
    let subjects: Vec<String> = finding.subjects.iter().map(ToString::to_string).collect();
    site.acceptances
        .iter()
        .find(|known| known.rule == finding.rule && known.subjects == subjects)
        .map(|known| known.reason.clone())
}

/// Places in whole micrometres, so that ordering needs no comparison of floats.
#[expect(
    clippy::cast_possible_truncation,
    reason = "`as` saturates, and order beyond 2^63 micrometres matters to nobody"
)]
fn place_key(finding: &Finding) -> Option<[i64; 3]> {
    finding
        .place
        .map(|p| [(p.x * 1e6) as i64, (p.y * 1e6) as i64, (p.z * 1e6) as i64])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rule_names_are_unique_sorted_and_speak_as_names() {
        let names: Vec<&str> = RULES.iter().map(|rule| rule.name).collect();
        let mut sorted = names.clone();
        sorted.sort_unstable();
        sorted.dedup();
        assert_eq!(names, sorted);
        for name in names {
            assert!(
                name.chars().all(|c| c.is_ascii_lowercase() || c == '-'),
                "{name}"
            );
        }
    }

    #[test]
    fn every_rule_explains_itself() {
        for rule in RULES {
            let explain = &rule.explain;
            for text in [
                rule.title,
                explain.checks,
                explain.why,
                explain.remedy,
                explain.source,
                explain.limits,
            ] {
                assert!(text.len() > 3, "{} leaves a text empty", rule.name);
            }
        }
    }
}
