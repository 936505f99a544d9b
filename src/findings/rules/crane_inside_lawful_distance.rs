//! A crane passes nearer to a heater than the law allows.

use crate::clearance::{Direction, Reach};
use crate::findings::nearby::{is_in_heater, name, towards};
use crate::findings::say::{down, up, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity, Subject};
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
            let Some(reach) = near.measured.governing_reach() else {
                continue;
            };
            if is_in_heater(near) {
                continue;
            }
            let Reach {
                available_m,
                required_m,
                ..
            } = *reach;
            let item = match reach.direction {
                Direction::Above | Direction::Below => PolicyItem::CraneLeastAbove,
                _ => PolicyItem::CraneLeastBeside,
            };
            let text = vec![
                words(format!("{} has ", run.run.id)),
                down(available_m.max(0.0)),
                words(format!(
                    " {} up to {}; at least ",
                    towards(run, reach),
                    name(context, &near.thing)
                )),
                up(required_m),
                words(" is the law."),
            ];
            let subjects = vec![Subject::Run(run.run.id.clone()), Subject::from(&near.thing)];
            let finding = context
                .finding(subjects, context.policy_source(item), text)
                .at(near.measured.place)
                .at_least(Dimension::Length, available_m, required_m);
            findings.push(finding);
        }
    }
}
