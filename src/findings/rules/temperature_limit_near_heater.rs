//! Something that must not get hot is near a heater.

use crate::findings::nearby::{name, towards};
use crate::findings::say::{down, words};
use crate::findings::{Context, Explanation, Finding, Phrase, Rule, Severity, Subject};
use crate::site::{ObstructionId, ObstructionKind};
use crate::study::Thing;
use crate::units::{Quantity, Temperature};
use std::collections::BTreeMap;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "temperature-limit-near-heater",
    title: "Something that must not get hot is near a heater",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Lamps and cable trays, and everything else with a temperature limit of its own, that is in a heater's keep-clear envelope or within half a metre of it.",
        why: "The maker's distances keep wood from charring, 50 K above the room. Lamps fail and cable jackets soften long before.",
        remedy: "Move it or the heater, shield it as its maker allows, or accept it where its maker agrees.",
        source: "The thing's own temperature limit as entered; its maker.",
        limits: "How hot it gets is not computed: the figure is told so that somebody asks. Other things than lamps and cable trays are looked at only where a limit is entered.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let limits: BTreeMap<&ObstructionId, Temperature> = context
        .site
        .obstructions
        .iter()
        .filter_map(|it| Some((&it.id, it.temperature_limit?)))
        .collect();
    for run in &context.study.runs {
        for near in &run.clearance.near {
            let limit = match &near.thing {
                Thing::Obstruction(id) => limits.get(id).copied(),
                _ => None,
            };
            // Where its maker's distance is broken already, that is the news.
            let is_told = near.burns.counts_as_combustible() && near.measured.is_breach();
            let is_sensitive = matches!(
                near.kind,
                Some(ObstructionKind::Lamp | ObstructionKind::CableTray)
            );
            if is_told || (limit.is_none() && !is_sensitive) {
                continue;
            }
            let mut text: Vec<Phrase> = Vec::new();
            let thing = name(context, &near.thing);
            match near.measured.governing_reach() {
                Some(reach) => text.extend([
                    words(format!("{} has ", run.run.id)),
                    down(reach.available_m.max(0.0)),
                    words(format!(" {} up to {thing}", towards(run, reach))),
                ]),
                None => text.push(words(format!("{thing} is near {}", run.run.id))),
            }
            text.push(words(match limit {
                Some(limit) => format!(
                    ", which may get no hotter than {}: ask its maker.",
                    limit.show_with_unit(context.site.units)
                ),
                None => ", and nobody has entered how hot that may get: ask its maker.".to_owned(),
            }));
            let subjects = vec![Subject::Run(run.run.id.clone()), Subject::from(&near.thing)];
            let source = "temperature limit as entered; its maker".to_owned();
            let finding = context.finding(subjects, source, text);
            findings.push(finding.at(near.measured.place));
        }
    }
}
