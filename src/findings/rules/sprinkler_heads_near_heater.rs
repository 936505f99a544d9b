//! The sprinkler heads that must stay of a higher rating because of heaters.

use crate::findings::distance::by_sprinkler;
use crate::findings::say::capital;
use crate::findings::{Context, Explanation, Finding, Rule, Severity};
use crate::site::SprinklerRating;
use crate::study::NearHeads;

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
    let is_told = |heads: &NearHeads| {
        let is_enough = heads.rating.is_some_and(|rating| heads.needed() <= rating);
        is_enough && heads.needed() != SprinklerRating::Ordinary
    };
    by_sprinkler(context, findings, is_told, |name, needed, runs| {
        let name = capital(name);
        format!(
            "{name} needs {needed} temperature heads near {runs}: tell the sprinkler contractor."
        )
    });
}
