//! Nobody has said what temperature the sprinkler heads near a heater are rated for.

use crate::findings::distance::by_sprinkler;
use crate::findings::{Context, Explanation, Finding, Rule, Severity};
use crate::site::SprinklerRating;
use crate::study::NearHeads;

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
    let is_told =
        |heads: &NearHeads| heads.rating.is_none() && heads.needed() != SprinklerRating::Ordinary;
    by_sprinkler(context, findings, is_told, |name, needed, runs| {
        format!(
            "The rating of {name} is not known: {needed} temperature heads are needed near {runs}. Verify on site."
        )
    });
}
