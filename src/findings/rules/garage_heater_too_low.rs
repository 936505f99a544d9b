//! A heater hangs too low over the floor of a garage.

use crate::findings::heights::{runs_over, too_low};
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::site::BayUse;
use crate::site::policy::PolicyItem;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "garage-heater-too-low",
    title: "A heater is too low over a garage floor",
    severity: Severity::Breach,
    can_be_accepted: false,
    explain: Explanation {
        checks: "The lowest part of every run that hangs over a public or repair garage, or any part of which does, against 2.44 m (8 ft) above the floor.",
        why: "Petrol vapour lies low; lower burners light it, and vehicles and what they carry strike them.",
        remedy: "Raise the run. It can't be accepted, and the height can only be raised.",
        source: "IMC 304.6 and NFPA 30A as adopted; site policy garage_height.",
        limits: "Only bays whose use is entered as a garage. Private garages, and floors below grade, have rules of their own: you must check.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let item = PolicyItem::GarageHeight;
    for (run, bay) in runs_over(context, BayUse::is_garage) {
        let why = format!("{} is a {}.", bay.id, bay.used_as.label());
        let besides = [Subject::Bay(bay.id.clone())];
        let required_m = context.site.policy.value(item);
        let source = context.policy_source(item);
        findings.extend(too_low(context, run, besides, required_m, &why, source));
    }
}
