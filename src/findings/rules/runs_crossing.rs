//! Two runs are in one place.

use crate::findings::say::{up, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity, Subject};
use crate::geometry::tolerance;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "runs-crossing",
    title: "Two runs are in one place",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The boxes round each run's burner, tube with reflector, bend and exhaust fitting against those of every other run.",
        why: "Two runs can't be in one place.",
        remedy: "Move one of them along, across or up.",
        source: "Geometry of the runs' families as placed.",
        limits: "A tilted reflector is measured as the box round it.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for pair in &context.study.pairs {
        let depth_m = pair.inside_body_m;
        if depth_m <= tolerance::LIMIT {
            continue;
        }
        let text = vec![
            words(format!("{} and {} overlap by ", pair.first, pair.second)),
            up(depth_m),
            words("."),
        ];
        let subjects = vec![
            Subject::Run(pair.first.clone()),
            Subject::Run(pair.second.clone()),
        ];
        let source = "as placed: two runs can't be in one place".to_owned();
        let finding = context
            .finding(subjects, source, text)
            .at(pair.measured.place)
            .at_most(Dimension::Length, depth_m, 0.0);
        findings.push(finding);
    }
}
