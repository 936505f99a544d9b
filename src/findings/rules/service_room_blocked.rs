//! Something stands in the room that service needs round a burner.

use crate::clearance::Reach;
use crate::findings::nearby::{name, together, towards};
use crate::findings::say::{down, up, words, worst};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity};
use crate::geometry::tolerance;
use crate::site::ObstructionKind;
use crate::site::policy::PolicyItem;
use crate::study::{Clearance, Thing};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "service-room-blocked",
    title: "Something is in the way of service at a burner",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "0.6 m of free room below, beside and behind each burner against walls, members and everything drawn that stays where it is.",
        why: "Somebody in a lift has to reach the burner, open it and take parts out, every year.",
        remedy: "Move the run or the thing, turn the run end for end, or accept it where the burner can still be opened.",
        source: "Trade practice, 0.6 to 1.0 m; site policy service_room. The heater's manual may ask for more.",
        limits: "What moves out of the way is no hindrance: vehicles, aircraft, boats, cranes, doors. Members of one framing are told of together, the worst first. What is too near to the heater in itself has its own rule.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let is_told = |near: &Clearance| {
            let mut near_run = run.clearance.near.iter();
            near_run.any(|known| known.thing == near.thing && known.measured.is_breach())
        };
        let in_room = run.clearance.neighbours.in_service_room.iter();
        let in_the_way = in_room.filter(|near| stays(near) && !is_told(near));
        for near in together(context, in_the_way) {
            let Some(reach) = missing(near.governing) else {
                continue;
            };
            let text = vec![
                words(format!("The burner of {} has ", run.run.id)),
                down(reach.available_m.max(0.0)),
                words(format!(
                    " {} up to {}; ",
                    towards(run, reach).replace("its burner", "it"),
                    name(context, &near.governing.thing)
                )),
                up(reach.required_m),
                words(" is wanted to open it."),
            ];
            let source = context.policy_source(PolicyItem::ServiceRoom);
            let finding = context
                .finding(near.subjects(run), source, text)
                .at(reach.place)
                .at_least(Dimension::Length, reach.available_m, reach.required_m);
            findings.push(finding);
        }
    }
}

/// Where the room is missing: of the directions that room is asked for in, the one that
/// the shortest move clears.
fn missing(near: &Clearance) -> Option<&Reach> {
    let measured = &near.measured;
    let asked = measured.reaches.iter().flatten();
    let missing =
        asked.filter(|reach| 0.0 < reach.required_m && tolerance::LIMIT < reach.missing_m());
    worst(missing, |reach| -measured.moves_m[reach.direction.index()])
}

/// Whether a thing is there when somebody comes for service.
fn stays(near: &Clearance) -> bool {
    use ObstructionKind as Kind;
    match (&near.thing, near.kind) {
        (Thing::Door(..), _) => false,
        (_, Some(kind)) => !matches!(
            kind,
            Kind::ParkedVehicle
                | Kind::LiftedVehicle
                | Kind::Aircraft
                | Kind::Boat
                | Kind::CraneTravel
                | Kind::DoorTravel
                | Kind::HazardZone
        ),
        (_, None) => true,
    }
}
