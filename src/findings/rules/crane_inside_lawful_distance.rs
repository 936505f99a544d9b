//! A crane passes nearer to a heater than the law allows.

use crate::clearance::Direction;
use crate::findings::distance::{Says, nearer_than_wanted};
use crate::findings::nearby::is_in_heater;
use crate::findings::{Context, Explanation, Finding, Rule, Severity};
use crate::site::policy::PolicyItem;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "crane-inside-lawful-distance",
    title: "A crane passes nearer to a heater than the law allows",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The space that each crane moves through against 75 mm (3 in) above and below every heater and 50 mm (2 in) beside it, hot.",
        why: "A crane bends, sways and wears: nearer than this it strikes what is beside its way.",
        remedy: "Move the heater, or stop the crane before it.",
        source: "29 CFR 1910.179(b)(6); site policy crane_least_above and crane_least_beside, which can only be widened.",
        limits: "What reaches into the heater itself has its own rule.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        for near in &run.clearance.neighbours.cranes_unlawful {
            if is_in_heater(near) {
                continue;
            }
            let item = match near.measured.governing {
                Some(Direction::Above | Direction::Below) => PolicyItem::CraneLeastAbove,
                _ => PolicyItem::CraneLeastBeside,
            };
            let says = Says {
                what: "",
                then: "; at least ",
                end: " is the law.",
            };
            findings.extend(nearer_than_wanted(context, run, near, item, &says));
        }
    }
}
