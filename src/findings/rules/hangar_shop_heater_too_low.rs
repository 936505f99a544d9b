//! A heater hangs too low over the floor of a hangar's shop or office.

use crate::findings::heights::{runs_over, too_low};
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::site::BayUse;
use crate::site::policy::PolicyItem;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "hangar-shop-heater-too-low",
    title: "A heater is too low over the floor of a hangar's shop or office",
    severity: Severity::Breach,
    can_be_accepted: false,
    explain: Explanation {
        checks: "The lowest part of every run that hangs over a hangar's shop or office against 2.44 m (8 ft) above the floor.",
        why: "Fuel vapour from the hangar lies low.",
        remedy: "Raise the run. It can't be accepted, and the height can only be raised.",
        source: "NFPA 409 and IBC 412 as adopted; site policy hangar_shop_height.",
        limits: "Only bays whose use is entered as a hangar's shop or office.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let item = PolicyItem::HangarShopHeight;
    for (run, bay) in runs_over(context, |used_as| used_as == BayUse::HangarShop) {
        let why = format!("{} is a {}.", bay.id, bay.used_as.label());
        let besides = [Subject::Bay(bay.id.clone())];
        let required_m = context.site.policy.value(item);
        let source = context.policy_source(item);
        findings.extend(too_low(context, run, besides, required_m, &why, source));
    }
}
