//! Runs that tip as soon as one hanger is slack.

use crate::findings::limits::subjects;
use crate::findings::say::{list, words};
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::hanging::Hanger;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "run-tips-without-hanger",
    title: "The run tips if one hanger is slack",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Whether the run's weight stays between its outermost hangers when any single hanger is slack.",
        why: "With such a hanger low or off, the run tips until something else stops it: the burner comes down first.",
        remedy: "Bring the second hanger nearer the burner, or add a hanger, so that two always have the weight between them.",
        source: "Statics: a beam rests on two supports with its weight between them.",
        limits: "One hanger at a time. A run that tips with all of its hangers has its own rule.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let hangers = run.hanging.hangers.iter().enumerate();
        let needed: Vec<(usize, &Hanger)> = hangers
            .filter(|(_, hanger)| hanger.cases.tips_without)
            .collect();
        let Some((_, first)) = needed.first() else {
            continue;
        };
        let subjects = subjects(run, needed.iter().map(|(which, _)| *which));
        let names: Vec<&Subject> = subjects.iter().skip(1).collect();
        let any = if names.len() > 1 { "any of " } else { "" };
        let text = vec![words(format!(
            "{} tips if {any}{} is slack.",
            run.run.id,
            list(&names)
        ))];
        let finding = context
            .finding(
                subjects,
                "statics of the run without one hanger".to_owned(),
                text,
            )
            .at(first.at.attach);
        findings.push(finding);
    }
}
