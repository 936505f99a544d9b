//! A heater is near a place where paint is sprayed.

use crate::findings::distance::{Says, nearer_than_wanted};
use crate::findings::nearby::is_in_heater;
use crate::findings::{Context, Explanation, Finding, Rule, Severity};
use crate::site::policy::PolicyItem;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "paint-sprayed-near-heater",
    title: "Paint is sprayed near a heater",
    severity: Severity::Breach,
    can_be_accepted: false,
    explain: Explanation {
        checks: "Hazard zones in which paint or solvent is sprayed against 6.1 m (20 ft) all round each heater.",
        why: "Mist and vapour drift out of the booth; a burner and a hot tube light them.",
        remedy: "Move the heater or the spraying. It can't be accepted, and the distance can only be widened.",
        source: "Trade practice, 20 ft; site policy spray_distance. NFPA 33 as adopted may ask for more.",
        limits: "Only zones that are drawn and marked so. The distance is kept in the six directions of the run, corners included, which is never less than the straight distance. A heater within the zone has its own rule.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        for near in &run.clearance.neighbours.spraying {
            if is_in_heater(near) {
                continue;
            }
            let says = Says {
                what: "",
                then: ", where paint is sprayed; ",
                end: " is the least.",
            };
            let item = PolicyItem::SprayDistance;
            findings.extend(nearer_than_wanted(context, run, near, item, &says));
        }
    }
}
