//! The first hanger is not where the maker wants it.

use crate::findings::limits::{breaches, hangers, length_finding, on_tube};
use crate::findings::{Context, Explanation, Finding, Rule, Severity};
use crate::hanging::Limit;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "first-hanger-outside-window",
    title: "The first hanger is too near the burner or too far from it",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The distance of the first hanger from the burner flange against the maker's window.",
        why: "The burner hangs out beyond the first hanger: the farther it does, the more that hanger carries and the nearer the second comes to going slack.",
        remedy: "Shift the run along its axis so that a member comes over the window, or add a cross channel there.",
        source: "The hanging rule of the heater's family.",
        limits: "Hangers that the program chose never break it.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (run, of_run) in breaches(context, &[Limit::FirstHanger]) {
        for breach in of_run {
            let what = format!("{}.1 is ", run.run.id);
            let finding = length_finding(context, run, breach, what, " from the burner flange");
            let place = hangers(run, breach)
                .first()
                .map(|first| on_tube(run, first.at.station_m));
            findings.extend(place.map(|place| finding.at(place)));
        }
    }
}
