//! Nobody has said whether something near a heater burns.

use crate::findings::nearby::name;
use crate::findings::say::{list, words};
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::site::Combustibility;
use crate::study::{Clearance, RunStudy, Thing};
use std::collections::BTreeMap;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "surface-nature-unknown",
    title: "Verify on site whether something burns",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Everything within half a metre of a keep-clear envelope, or inside it, of which it is not known whether it burns. One finding for each thing, with the runs near it.",
        why: "Wood decks, faced insulation and plastic skylights look harmless on a drawing. What is not known is taken to burn, which may move a heater for nothing.",
        remedy: "Look at it on site and state whether it burns.",
        source: "Site: the surface's class as entered.",
        limits: "Only things that are drawn are known.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let mut things: BTreeMap<&Thing, Vec<(&RunStudy, &Clearance)>> = BTreeMap::new();
    for run in &context.study.runs {
        for near in &run.clearance.near {
            if near.burns == Combustibility::Unknown {
                things.entry(&near.thing).or_default().push((run, near));
            }
        }
    }
    for (thing, runs) in things {
        let ids: Vec<_> = runs.iter().map(|(run, _)| &run.run.id).collect();
        let text = format!(
            "The nature of {} is not known, so it is taken to burn. Verify on site. Near {}.",
            name(context, thing),
            list(&ids)
        );
        let subjects = ids
            .iter()
            .map(|id| Subject::Run((*id).clone()))
            .chain([Subject::from(thing)])
            .collect();
        let source = "verify on site".to_owned();
        let finding = context.finding(subjects, source, vec![words(text)]);
        findings.extend(
            runs.first()
                .map(|(_, near)| finding.at(near.measured.place)),
        );
    }
}
