//! A crane passes nearer to a heater than practice wants.

use crate::findings::distance::{Says, nearer_than_wanted};
use crate::findings::{Context, Explanation, Finding, Rule, Severity};
use crate::site::policy::PolicyItem;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "crane-too-near",
    title: "A crane passes close to a heater",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The space that each crane moves through, bridge, trolley and hook, against 0.6 m (24 in) all round every heater, hot.",
        why: "A swinging load, a sling or a service platform reaches farther than the bridge; heaters close above a crane heat its grease, its cable and its cab.",
        remedy: "Move the heater out of the crane's way, best to the perimeter with its reflector tilted, or limit the crane's travel.",
        source: "Trade practice, 24 in; site policy crane_distance.",
        limits: "The crane is what is drawn: its runway, span, heights and the hook's approach. What is nearer than the law allows, or reaches into the heater, has its own rule. The load, cab and cable insulation also keep the maker's distances.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let neighbours = &run.clearance.neighbours;
        for near in &neighbours.cranes {
            let is_worse = |known: &crate::study::Clearance| known.thing == near.thing;
            if neighbours.cranes_unlawful.iter().any(is_worse) {
                continue;
            }
            // What its maker's or the site's own distances forbid is told of there.
            let told = run.clearance.near.iter().find(|known| is_worse(known));
            if told.is_some_and(|known| known.measured.is_breach()) {
                continue;
            }
            let says = Says {
                what: "",
                then: "; ",
                end: " is wanted between a crane and a heater.",
            };
            let item = PolicyItem::CraneDistance;
            findings.extend(nearer_than_wanted(context, run, near, item, &says));
        }
    }
}
