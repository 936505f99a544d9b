//! The second hanger is not where the maker wants it.

use crate::findings::limits::{breaches, hangers, length_finding, on_tube};
use crate::findings::{Context, Explanation, Finding, Rule, Severity};
use crate::hanging::Limit;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "second-hanger-outside-window",
    title: "The second hanger is too near the first or too far from it",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The distance along the tube from the first hanger to the second against the maker's window.",
        why: "The first two hangers balance the burner. Too near each other, the second is lifted off its load; too far apart, the hottest and heaviest tube sags.",
        remedy: "Shift the run along its axis, hang it from another member, or add a cross channel.",
        source: "The hanging rule of the heater's family.",
        limits: "Hangers that the program chose never break it.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (run, of_run) in breaches(context, &[Limit::SecondHanger]) {
        for breach in of_run {
            let id = &run.run.id;
            let what = format!("{id}.2 is ");
            let between = format!(" from {id}.1 along the tube");
            let finding = length_finding(context, run, breach, what, &between);
            let place = hangers(run, breach)
                .last()
                .map(|second| on_tube(run, second.at.station_m));
            findings.extend(place.map(|place| finding.at(place)));
        }
    }
}
