//! The facing of an insulation is close above a heater.

use crate::clearance::Direction;
use crate::findings::nearby::{name, towards};
use crate::findings::say::{down, up, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity, Subject};
use crate::geometry::tolerance;
use crate::site::policy::PolicyItem;
use crate::site::{BayId, Construction};
use crate::study::Thing;

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
    let required_m = context.site.policy.value(item);
    for run in &context.study.runs {
        for near in &run.clearance.near {
            let is_faced = surface(context, &near.thing).is_some_and(|it| it.facing.is_some());
            if !is_faced || near.measured.is_breach() {
                continue;
            }
            let reaches = near.measured.reaches.iter().flatten();
            let nearest = reaches
                .filter(|reach| reach.direction != Direction::Below)
                .min_by(|one, other| one.available_m.total_cmp(&other.available_m));
            let Some(reach) = nearest else { continue };
            if required_m - tolerance::LIMIT <= reach.available_m {
                continue;
            }
            let text = vec![
                words(format!("{} has ", run.run.id)),
                down(reach.available_m.max(0.0)),
                words(format!(
                    " {} up to the faced insulation of {}; ",
                    towards(run, reach),
                    name(context, &near.thing)
                )),
                up(required_m),
                words(" is wanted there."),
            ];
            let subjects = vec![Subject::Run(run.run.id.clone()), Subject::from(&near.thing)];
            let finding = context
                .finding(subjects, context.policy_source(item), text)
                .at(reach.place)
                .at_least(Dimension::Length, reach.available_m, required_m);
            findings.push(finding);
        }
    }
}

/// What a wall or a deck is made of.
fn surface<'a>(context: &Context<'a>, thing: &Thing) -> Option<&'a Construction> {
    let bay = |id: &BayId| context.site.bays.iter().find(|bay| bay.id == *id);
    match thing {
        Thing::Wall(id, _) => bay(id).map(|bay| &bay.wall),
        Thing::Deck(id) => bay(id).map(|bay| &bay.deck),
        _ => None,
    }
}
