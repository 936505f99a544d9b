//! The facing of an insulation is close above a heater.

use crate::findings::nearby::{name, towards};
use crate::findings::say::{down, up, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity, Subject};
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
    let item = PolicyItem::FacingDistance;
    for run in &context.study.runs {
        for near in &run.clearance.neighbours.faced {
            let is_told =
                |known: &Clearance| known.thing == near.thing && known.measured.is_breach();
            if run.clearance.near.iter().any(is_told) {
                continue;
            }
            let Some(reach) = near.measured.governing_reach() else {
                continue;
            };
            let text = vec![
                words(format!("{} has ", run.run.id)),
                down(reach.available_m.max(0.0)),
                words(format!(
                    " {} up to the faced insulation of {}; ",
                    towards(run, reach),
                    name(context, &near.thing)
                )),
                up(reach.required_m),
                words(" is wanted there."),
            ];
            let subjects = vec![Subject::Run(run.run.id.clone()), Subject::from(&near.thing)];
            let finding = context
                .finding(subjects, context.policy_source(item), text)
                .at(reach.place)
                .at_least(Dimension::Length, reach.available_m, reach.required_m);
            findings.push(finding);
        }
    }
}
