//! Runs hang from members of which nobody has said what they may carry.

use crate::findings::loads::{Carried, carried, place_words};
use crate::findings::say::{count, load, words, worst};
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::hanging::{Capacity, LoadPlace, PlaceLoad};
use crate::site::MemberId;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "hang-point-load-unknown",
    title: "Unknown: engineer",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Whether the allowed load is known of every place from which something hangs. One finding a framing, with its hangers.",
        why: "A joist or purlin may have nothing to spare. Without the engineer's figure nobody can say how much of it is used.",
        remedy: "Ask the building's engineer with the hanging schedule in hand, and enter the allowed load of the framing.",
        source: "The building's engineer.",
        limits: "Nothing is assumed in place of the figure: no percentage is stated, and unknown places are not avoided.",
    },
    check,
};

/// A place of which the allowed load is not known, with its member and who hangs there.
type Unknown<'a> = (MemberId, &'a LoadPlace, &'a PlaceLoad, Vec<Carried<'a>>);

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let unknown: Vec<Unknown<'_>> = context
        .study
        .loads
        .iter()
        .map(|(place, sum)| (place, sum, carried(context.study, place, sum)))
        .filter(|(_, sum, parts)| {
            sum.allowed == Some(Capacity::Unknown)
                || parts.iter().any(|part| part.allowed == Capacity::Unknown)
        })
        .map(|(place, sum, parts)| (MemberId::new(&place.member), place, sum, parts))
        .collect();
    for framing in &context.site.framings {
        let places = || {
            let all = unknown.iter();
            all.filter(|(member, ..)| member.is_of(&framing.id))
        };
        let Some((_, place, sum, parts)) = worst(places(), |(_, _, sum, _)| sum.sum_n) else {
            continue;
        };
        let mut hangers: Vec<Subject> = places()
            .flat_map(|(.., parts)| parts.iter().map(Carried::subject))
            .collect();
        hangers.sort();
        hangers.dedup();
        let kind = framing.kind.label();
        let text = vec![
            words(format!(
                "What {} ({kind}) may carry is unknown: engineer. {} on it; the most on one place is ",
                framing.id,
                count(hangers.len(), "hanger")
            )),
            load(sum.sum_n),
            words(format!(", on {}.", place_words(place))),
        ];
        let subjects = std::iter::once(Subject::Framing(framing.id.clone()))
            .chain(hangers)
            .collect();
        let finding = context.finding(subjects, "unknown: engineer".to_owned(), text);
        findings.extend(parts.first().map(|part| finding.at(part.hanger.at.attach)));
    }
}
