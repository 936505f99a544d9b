//! A heater hangs too low over aircraft.

use crate::findings::heights::{runs_over, too_low};
use crate::findings::nearby::{obstruction_name, obstructions_in};
use crate::findings::say::worst;
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::site::policy::PolicyItem;
use crate::site::{BayUse, Obstruction, ObstructionKind};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "hangar-heater-too-low",
    title: "A heater is too low over aircraft",
    severity: Severity::Breach,
    can_be_accepted: false,
    explain: Explanation {
        checks: "The lowest part of every run over a hangar against the wings and engine enclosures of the highest aircraft drawn in it and 3.05 m (10 ft) more.",
        why: "Fuel is stored in wings; what leaks or is vented must not find a flame near it.",
        remedy: "Raise the run. It can't be accepted, and the height can only be raised.",
        source: "NFPA 409 and IBC 412 as adopted; site policy hangar_height.",
        limits: "The highest aircraft that may ever be housed must be drawn. Holds for storage and service areas; classified air round aircraft is drawn as hazard zones.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let item = PolicyItem::HangarHeight;
    for (run, bay) in runs_over(context, |used_as| used_as == BayUse::Hangar) {
        let aircraft = obstructions_in(context, bay, ObstructionKind::Aircraft);
        let Some(highest) = worst(aircraft, |it| wings_m(it)) else {
            continue;
        };
        let required_m = wings_m(highest) + context.site.policy.value(item);
        let why = format!(
            "The wings and engines of {} count.",
            obstruction_name(context, &highest.id)
        );
        let besides = [
            Subject::Bay(bay.id.clone()),
            Subject::Obstruction(highest.id.clone()),
        ];
        let source = context.policy_source(item);
        findings.extend(too_low(context, run, besides, required_m, &why, source));
    }
}

/// Top of the wings and engine enclosures, m.
fn wings_m(aircraft: &Obstruction) -> f64 {
    let highest = aircraft.highest();
    aircraft.particulars.wing_top.unwrap_or(highest).as_metres()
}
