//! The growing tube swings suspensions farther than the maker allows.

use crate::findings::limits::angle_findings;
use crate::findings::say::{down, up, words};
use crate::findings::{Context, Explanation, Finding, Phrase, Rule, Severity};
use crate::hanging::{Hanger, Limit};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "swing-too-great",
    title: "A suspension swings too far when the tube is hot",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The lean of each suspension along the run with the tube hot: its movement from the fixed hanger, and any offset that it has cold, over its length. One finding a run, about its greatest swing.",
        why: "A suspension that swings far lifts the tube out of its level, pulls sideways at the steel and can jam.",
        remedy: "Lower the run so that its suspensions are longer, or fix a hanger nearer the middle of the tube.",
        source: "The hanging rule of the heater's family; the tube's growth from its length and mean rise (12 millionths per kelvin, mean rise 240 to 300 K; trade practice).",
        limits: "The tube's mean rise is a default by length. The choice of hangers does not judge swing, so hangers that the program chose can break it.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    angle_findings(
        context,
        Limit::Swing,
        ("swings", "along the run when hot"),
        needed,
        findings,
    );
}

/// How long the suspension is, and how long its movement alone would have it.
fn needed(hanger: &Hanger) -> Vec<Phrase> {
    let least = &hanger.least_suspension;
    if !least.growth_governs() {
        return Vec::new();
    }
    vec![
        words(" It is "),
        down(hanger.at.suspension_m),
        words(" long; its movement asks for "),
        up(least.by_growth_m),
        words("."),
    ]
}
