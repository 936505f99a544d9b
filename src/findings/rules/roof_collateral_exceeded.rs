//! What hangs in a bay, spread over it, is more than its roof may carry in addition.

use crate::findings::say::{allowed_area_load, area_load, load, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity, Subject};
use crate::geometry::tolerance;
use crate::study::loads_table;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "roof-collateral-exceeded",
    title: "A roof carries more than its collateral allowance",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The weight of everything that hangs from the members of a bay, divided by the bay's plan area, against the roof's collateral allowance, where one was entered.",
        why: "A roof is designed for a certain weight of pipes, lamps and heaters beside snow. Many runs together can use it up although each hang point is strong enough.",
        remedy: "Hang less from this roof, or have the engineer confirm a greater allowance.",
        source: "The bay's collateral allowance, as entered from the building's engineer; usual are 144 to 240 Pa (3 to 5 psf).",
        limits: "Only what hangs from the runs is counted: not gas pipe, lamps, sprinklers, nor what hangs there already. The average says nothing of a single member or hang point. Without an entered figure nothing is checked.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    if context.site.bays.iter().all(|bay| bay.collateral.is_none()) {
        return;
    }
    for bay in loads_table(context.study).bays {
        let Some(collateral) = bay.collateral else {
            continue;
        };
        let (spread_pa, allowed_pa) = (bay.spread().as_pascals(), collateral.as_pascals());
        if spread_pa <= allowed_pa * (1.0 + tolerance::LIMIT) {
            continue;
        }
        let text = vec![
            words(format!("From the roof of {} hang ", bay.bay)),
            load(bay.load_n),
            words(", spread over it "),
            area_load(spread_pa),
            words(", where "),
            allowed_area_load(allowed_pa),
            words(" is allowed."),
        ];
        let source = format!("collateral allowance of bay {}, as entered", bay.bay);
        let finding = context
            .finding(vec![Subject::Bay(bay.bay)], source, text)
            .at_most(Dimension::AreaLoad, spread_pa, allowed_pa);
        findings.push(finding);
    }
}
