//! Something that does not burn is nearer to a heater than service and heat allow.

use crate::clearance::Direction;
use crate::findings::nearby::{is_hazard_zone, is_in_heater, nearby, towards};
use crate::findings::say::{down, up, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity};
use crate::site::policy::PolicyItem;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "non-combustible-too-near",
    title: "Something is close to a heater",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Everything that does not burn against the site's own distances above, below, beside and beyond the ends of each heater.",
        why: "The burner must be opened, the tube taken down and the hot reflector let breathe; steel close to it gets hot, and what is fixed to it too.",
        remedy: "Move the heater or the thing, or accept it where there is room to work and nothing near gets too hot.",
        source: "Site policy non_combustible_above, _below, _side and _end; trade practice unless overridden. The heater's manual may ask for more.",
        limits: "Members of one framing are told of together, the worst first. What reaches into the heater itself has its own rule.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let inside = nearby(context, run, |near| {
            !near.burns.counts_as_combustible()
                && near.measured.is_breach()
                && !is_in_heater(near)
                && !is_hazard_zone(near)
        });
        for near in inside {
            let Some(reach) = near.governing.measured.governing_reach() else {
                continue;
            };
            let text = vec![
                words(format!("{} has ", run.run.id)),
                down(reach.available_m.max(0.0)),
                words(format!(
                    " {} up to {}; ",
                    towards(run, reach),
                    near.name(context)
                )),
                up(reach.required_m),
                words(" is wanted there."),
            ];
            let source = context.policy_source(item(reach.direction));
            let finding = context
                .finding(near.subjects(run), source, text)
                .at(near.governing.measured.place)
                .at_least(Dimension::Length, reach.available_m, reach.required_m);
            findings.push(finding);
        }
    }
}

const fn item(direction: Direction) -> PolicyItem {
    match direction {
        Direction::Above => PolicyItem::NonCombustibleAbove,
        Direction::Below => PolicyItem::NonCombustibleBelow,
        Direction::Left | Direction::Right => PolicyItem::NonCombustibleSide,
        Direction::NearEnd | Direction::FarEnd => PolicyItem::NonCombustibleEnd,
    }
}
