//! A crane passes nearer to a heater than practice wants.

use crate::clearance::Reach;
use crate::findings::nearby::{name, towards};
use crate::findings::say::{down, up, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity, Subject};
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
            let Some(reach) = near.measured.governing_reach() else {
                continue;
            };
            let Reach {
                available_m,
                required_m,
                ..
            } = *reach;
            let text = vec![
                words(format!("{} has ", run.run.id)),
                down(available_m.max(0.0)),
                words(format!(
                    " {} up to {}; ",
                    towards(run, reach),
                    name(context, &near.thing)
                )),
                up(required_m),
                words(" is wanted between a crane and a heater."),
            ];
            let subjects = vec![Subject::Run(run.run.id.clone()), Subject::from(&near.thing)];
            let source = context.policy_source(PolicyItem::CraneDistance);
            let finding = context
                .finding(subjects, source, text)
                .at(near.measured.place)
                .at_least(Dimension::Length, available_m, required_m);
            findings.push(finding);
        }
    }
}
