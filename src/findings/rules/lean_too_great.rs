//! Suspensions lean across the run more than the maker allows.

use crate::findings::limits::angle_findings;
use crate::findings::{Context, Explanation, Finding, Rule, Severity};
use crate::hanging::Limit;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "lean-too-great",
    title: "A suspension leans too far to the side",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The lean of each suspension across the run, cold, against the maker's greatest. One finding a run, about its greatest lean.",
        why: "A leaning suspension pulls the tube sideways, twists the reflector and pulls harder at the steel.",
        remedy: "Shift the run across its axis, hang it from another hang point, or add a cross channel over the tube.",
        source: "The hanging rule of the heater's family.",
        limits: "Hangers that the program chose never break it. Of two suspensions, the line from the hang point to between their eyes is judged.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    angle_findings(
        context,
        Limit::Lean,
        ("leans", "across the run"),
        |_| Vec::new(),
        findings,
    );
}
