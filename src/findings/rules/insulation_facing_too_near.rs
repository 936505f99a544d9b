//! The facing of an insulation is close above a heater.

use crate::findings::distance::{Says, nearer_than_wanted};
use crate::findings::{Context, Explanation, Finding, Rule, Severity};
use crate::site::policy::PolicyItem;
use crate::study::Clearance;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "insulation-facing-too-near",
    title: "The facing of an insulation is close to a heater",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Roof decks and walls whose insulation has a facing, above and beside each heater, against 0.3 m.",
        why: "Facings and their tapes come loose, shrink and char from the heat that collects over a reflector, even where they are rated not to burn.",
        remedy: "Lower the run, or accept it where the facing's maker agrees.",
        source: "Trade practice; site policy insulation_facing_distance.",
        limits: "Only facings that are entered. Where the heater's maker asks for more, the rule on what burns applies.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        for near in &run.clearance.neighbours.faced {
            let is_told =
                |known: &Clearance| known.thing == near.thing && known.measured.is_breach();
            if run.clearance.near.iter().any(is_told) {
                continue;
            }
            let says = Says {
                what: "the faced insulation of ",
                then: "; ",
                end: " is wanted there.",
            };
            let item = PolicyItem::FacingDistance;
            findings.extend(nearer_than_wanted(context, run, near, item, &says));
        }
    }
}
