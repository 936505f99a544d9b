//! A hanger grips the tube at or near a joint.

use crate::findings::limits::{breaches, hangers, length_finding, on_tube};
use crate::findings::{Context, Explanation, Finding, Rule, Severity};
use crate::hanging::Limit;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "hanger-on-tube-joint",
    title: "A hanger is on a tube joint",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The distance of each hanger from the nearest tube joint, which lie at multiples of the joint spacing inside each leg.",
        why: "A hanger on a joint grips the coupling instead of the tube: it can't be fitted, or it opens the joint as the tube grows.",
        remedy: "Shift the run along its axis, or hang it from another member.",
        source: "The hanging rule of the heater's family.",
        limits: "Hangers that the program chose never break it.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (run, of_run) in breaches(context, &[Limit::Joint]) {
        for breach in of_run {
            let Some(hanger) = hangers(run, breach).first().copied() else {
                continue;
            };
            let number = breach.hangers.first().map_or(1, |which| which + 1);
            let what = format!("{}.{number} is ", run.run.id);
            let finding = length_finding(context, run, breach, what, " from a tube joint");
            findings.push(finding.at(on_tube(run, hanger.at.station_m)));
        }
    }
}
