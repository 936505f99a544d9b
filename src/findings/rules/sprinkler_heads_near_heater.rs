//! The sprinkler heads that must stay of a higher rating because of heaters.

use crate::findings::nearby::obstruction_name;
use crate::findings::say::{capital, list, words, worst};
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::site::{ObstructionId, RunId, SprinklerRating};
use crate::study::{NearHeads, RunStudy};
use std::collections::BTreeMap;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "sprinkler-heads-near-heater",
    title: "Sprinkler heads to tell the sprinkler contractor of",
    severity: Severity::Note,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Sprinklers in a zone of a heater that asks for more than ordinary temperature heads, and whose rating as entered is high enough. One note for each, with the runs near it.",
        why: "Whoever changes a head there later puts in an ordinary one, unless it is written down.",
        remedy: "Hand the list to the sprinkler contractor.",
        source: "NFPA 13 (2019), table 9.4.2.5(a).",
        limits: "Heads of which the rating is unknown or too low have rules of their own. Only heads that are drawn are known.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let mut sprinklers: BTreeMap<&ObstructionId, Vec<(&RunStudy, &NearHeads)>> = BTreeMap::new();
    for run in &context.study.runs {
        for heads in &run.clearance.neighbours.heads {
            let is_enough = heads.rating.is_some_and(|rating| heads.needed() <= rating);
            if is_enough && heads.needed() != SprinklerRating::Ordinary {
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
            "{} needs {} temperature heads near {}: tell the sprinkler contractor.",
            capital(&obstruction_name(context, id)),
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
