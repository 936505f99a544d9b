//! Nobody has said what temperature the sprinkler heads near a heater are rated for.

use crate::findings::nearby::obstruction_name;
use crate::findings::say::{list, words, worst};
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::site::{ObstructionId, RunId, SprinklerRating};
use crate::study::{NearHeads, RunStudy};
use std::collections::BTreeMap;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "sprinkler-rating-unknown",
    title: "Verify the rating of sprinkler heads near a heater",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Sprinklers in a zone of a heater that asks for more than ordinary temperature heads, whose rating has not been entered. One finding for each, with the runs near it.",
        why: "Ordinary heads there may open from the heater's heat.",
        remedy: "Read the rating off the heads, or ask the sprinkler contractor, and enter it.",
        source: "NFPA 13 (2019), table 9.4.2.5(a).",
        limits: "Zones are those of the rule on ratings that are too low.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let mut sprinklers: BTreeMap<&ObstructionId, Vec<(&RunStudy, &NearHeads)>> = BTreeMap::new();
    for run in &context.study.runs {
        for heads in &run.clearance.neighbours.heads {
            if heads.rating.is_none() && heads.needed() != SprinklerRating::Ordinary {
                sprinklers.entry(&heads.id).or_default().push((run, heads));
            }
        }
    }
    for (id, runs) in sprinklers {
        let hottest = worst(runs.iter(), |(_, heads)| match heads.needed() {
            SprinklerRating::High => 2.0,
            SprinklerRating::Intermediate => 1.0,
            SprinklerRating::Ordinary => 0.0,
        });
        let Some((_, heads)) = hottest else { continue };
        let ids: Vec<&RunId> = runs.iter().map(|(run, _)| &run.run.id).collect();
        let text = format!(
            "The rating of {} is not known: {} temperature heads are needed near {}. Verify on site.",
            obstruction_name(context, id),
            heads.needed().label(),
            list(&ids)
        );
        let subjects = ids
            .iter()
            .map(|run| Subject::Run((*run).clone()))
            .chain([Subject::Obstruction(id.clone())])
            .collect();
        let source = "NFPA 13 (2019), table 9.4.2.5(a)".to_owned();
        let finding = context.finding(subjects, source, vec![words(text)]);
        findings.push(finding.at(heads.place.nearest.extend(heads.deflector_m)));
    }
}
