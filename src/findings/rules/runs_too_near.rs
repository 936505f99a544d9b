//! Two runs are nearer to each other than service and growth allow.

use crate::findings::say::{down, up, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity, Subject};
use crate::geometry::tolerance;
use crate::site::policy::PolicyItem;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "runs-too-near",
    title: "Two runs are close to each other",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The distance between every two runs against the site's own.",
        why: "Hot tubes grow, burners must be opened, and one run's exhaust must not warm another's air inlet.",
        remedy: "Move one of them, or accept it where both can be serviced.",
        source: "Site policy run_to_run; trade practice unless overridden. The heater's manual may ask for more.",
        limits: "Runs that overlap have their own rule.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for pair in &context.study.pairs {
        if pair.inside_body_m > tolerance::LIMIT || !pair.measured.is_breach() {
            continue;
        }
        let Some(reach) = pair.measured.governing_reach() else {
            continue;
        };
        let text = vec![
            words(format!("{} and {} are ", pair.first, pair.second)),
            down(reach.available_m.max(0.0)),
            words(" apart; "),
            up(reach.required_m),
            words(" is wanted for service and growth."),
        ];
        let subjects = vec![
            Subject::Run(pair.first.clone()),
            Subject::Run(pair.second.clone()),
        ];
        let finding = context
            .finding(subjects, context.policy_source(PolicyItem::RunToRun), text)
            .at(pair.measured.place)
            .at_least(Dimension::Length, reach.available_m, reach.required_m);
        findings.push(finding);
    }
}
