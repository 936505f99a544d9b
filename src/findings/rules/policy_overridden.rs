//! A number of the site's policy is not its default.

use crate::findings::say::words;
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::site::policy::PolicyFacts;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "policy-overridden",
    title: "Numbers of the site's own",
    severity: Severity::Note,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Every number of the site's policy that differs from its default, with the reason that was written for it, in one note.",
        why: "A reviewer who does not know that a figure was changed reads the plan against the wrong one.",
        remedy: "Nothing, where the reason holds. Else take the default back.",
        source: "Site policy.",
        limits: "Whether the reason holds is for the reviewer.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let bays = context.site.bays.iter();
    let subjects: Vec<Subject> = bays.map(|bay| Subject::Bay(bay.id.clone())).collect();
    let numbers: Vec<String> = context
        .site
        .policy
        .overrides()
        .map(|(item, given)| {
            let facts = item.facts();
            format!(
                "{}: {} instead of {} ({})",
                facts.label,
                figure(given.value, facts),
                figure(facts.default, facts),
                given.reason.trim().trim_end_matches('.')
            )
        })
        .collect();
    if subjects.is_empty() || numbers.is_empty() {
        return;
    }
    let text = format!("Of the site's own, {}.", numbers.join("; "));
    let source = "site policy".to_owned();
    findings.push(context.finding(subjects, source, vec![words(text)]));
}

/// A figure as it is stored, so that it can be compared with its source to the digit.
fn figure(value: f64, facts: &PolicyFacts) -> String {
    format!("{value} {}", facts.unit).trim_end().to_owned()
}
