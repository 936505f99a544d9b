//! A vehicle that fits through a door may strike a heater behind it.

use crate::findings::heights::{runs_over, too_low};
use crate::findings::nearby::{opening_name, tallest_vehicle_door};
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::site::policy::PolicyItem;
use crate::site::{BayUse, Opening};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "vehicle-door-head-above-heater",
    title: "A vehicle that fits through the door may strike a heater",
    severity: Severity::Breach,
    can_be_accepted: false,
    explain: Explanation {
        checks: "The lowest part of every run over a garage or a wash bay against the head of the bay's tallest vehicle door and 0.305 m (1 ft) more.",
        why: "Whatever drives in under the head of the door then drives about below the heaters.",
        remedy: "Raise the run, or lower the head of the door. It can't be accepted, and the margin can only be widened.",
        source: "IMC 304.6 as adopted; site policy vehicle_door_margin.",
        limits: "Vehicle doors are those that begin within 0.3 m of the floor and are at least 1.8 m wide; dock doors are none. Bays of other uses have a rule of their own. Drawn vehicles also stay out of the keep-clear envelope.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let item = PolicyItem::VehicleDoorMargin;
    for (run, bay) in runs_over(context, BayUse::is_driven_in) {
        let Some(door) = tallest_vehicle_door(context, bay) else {
            continue;
        };
        let required_m = head_m(door) + context.site.policy.value(item);
        let why = format!(
            "Whatever fits through {} may pass below.",
            opening_name(context, &door.id)
        );
        let besides = [
            Subject::Bay(bay.id.clone()),
            Subject::Opening(door.id.clone()),
        ];
        let source = context.policy_source(item);
        findings.extend(too_low(context, run, besides, required_m, &why, source));
    }
}

fn head_m(door: &Opening) -> f64 {
    (door.sill + door.height).as_metres()
}
