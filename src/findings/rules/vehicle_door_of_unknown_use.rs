//! Vehicles may come through a door of a bay whose use does not say so.

use crate::findings::heights::runs_over;
use crate::findings::limits::on_tube;
use crate::findings::nearby::{opening_name, tallest_vehicle_door};
use crate::findings::say::{down, list, up, words, worst};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity, Subject};
use crate::geometry::tolerance;
use crate::site::policy::PolicyItem;
use crate::site::{Bay, BayUse, RunId};
use crate::study::RunStudy;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "vehicle-door-of-unknown-use",
    title: "Vehicles may come through a door under low heaters",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Runs over a warehouse, a workshop or a hangar's shop against the head of the bay's tallest vehicle door and 0.305 m (1 ft) more. One finding for each bay, with its runs.",
        why: "Where vehicles pass below, the lowest part must be a foot above the tallest vehicle door. Whether they drive on below the heaters, the drawing does not say.",
        remedy: "Raise the runs; or accept it where lorries stop at the door; or enter the bay's use as a garage, which makes it a must.",
        source: "IMC 304.6 as adopted; site policy vehicle_door_margin.",
        limits: "Vehicle doors are those that begin within 0.3 m of the floor and are at least 1.8 m wide; dock doors are none.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let item = PolicyItem::VehicleDoorMargin;
    let mut bays: Vec<(&Bay, Vec<&RunStudy>)> = Vec::new();
    let is_meant = |used_as: BayUse| !used_as.is_driven_in() && used_as != BayUse::Hangar;
    for (run, bay) in runs_over(context, is_meant) {
        match bays.iter_mut().find(|(known, _)| known.id == bay.id) {
            Some((_, runs)) => runs.push(run),
            None => bays.push((bay, vec![run])),
        }
    }
    for (bay, mut runs) in bays {
        let Some(door) = tallest_vehicle_door(context, bay) else {
            continue;
        };
        let required_m = (door.sill + door.height).as_metres() + context.site.policy.value(item);
        let lowest_m = |run: &RunStudy| run.clearance.stacking.lowest_part_m;
        runs.retain(|run| lowest_m(run) < required_m - tolerance::LIMIT);
        let Some(lowest) = worst(runs.iter().copied(), |run| -lowest_m(run)) else {
            continue;
        };
        let ids: Vec<&RunId> = runs.iter().map(|run| &run.run.id).collect();
        let text = vec![
            words(format!(
                "Whatever fits through {} may pass below {}, whose lowest part is ",
                opening_name(context, &door.id),
                list(&ids)
            )),
            down(lowest_m(lowest)),
            words(" above the floor; where vehicles pass, "),
            up(required_m),
            words(" is the least."),
        ];
        let runs = ids.iter().map(|id| Subject::Run((*id).clone()));
        let besides = [
            Subject::Bay(bay.id.clone()),
            Subject::Opening(door.id.clone()),
        ];
        let subjects = runs.chain(besides).collect();
        let finding = context
            .finding(subjects, context.policy_source(item), text)
            .at(on_tube(lowest, lowest.geometry.tube_length_m / 2.0))
            .at_least(Dimension::Length, lowest_m(lowest), required_m);
        findings.push(finding);
    }
}
