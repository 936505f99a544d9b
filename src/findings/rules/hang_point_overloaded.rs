//! A place on a member, or a cross channel, carries more than is allowed.

use crate::findings::loads::{Carried, carried, place_words};
use crate::findings::nearby::framing_of;
use crate::findings::say::{allowed, capital, list, load, words, worst};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity, Subject};
use crate::geometry::tolerance;
use crate::hanging::{Capacity, Place};
use crate::site::MemberId;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "hang-point-overloaded",
    title: "A hang point carries more than is allowed",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "What all runs together put on each panel point and on each chord panel between panel points, against what the building's engineer allows there; each attachment to a beam or purlin; bending and deflection of each cross channel.",
        why: "A chord loaded between its panel points bends, a purlin's lip tears, a channel sags out of level.",
        remedy: "Move a run so that other members carry it, move a hanger to a panel point, or have the engineer allow more.",
        source: "The framing's allowed loads as entered from the building's engineer; channel: 25 ksi and span/240 unless site policy says otherwise.",
        limits: "Only what hangs from the runs is counted, level: not gas pipe, cable or exhaust, nor what hangs there already. A hanger set too short can carry far more.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (place, sum) in &context.study.loads {
        let hangers = carried(context.study, place, sum);
        // What a span carries in all has a rule of its own.
        let limited = sum.allowed.filter(|_| place.place != Place::Line);
        if let Some(Capacity::Known(allowed_n)) = limited.filter(|_| !sum.passes()) {
            let what = format!("{} carries ", capital(&place_words(place)));
            findings.extend(over(
                context,
                (&what, &place.member),
                (sum.sum_n, allowed_n),
                &hangers,
            ));
            continue;
        }
        // Where no sum is limited, each attachment is.
        let overloaded: Vec<Carried<'_>> = hangers
            .into_iter()
            .filter(|part| !part.allowed.allows(part.load_n))
            .collect();
        let heaviest = worst(overloaded.iter().copied(), |part| part.load_n);
        if let Some((part, Capacity::Known(allowed_n))) = heaviest.map(|part| (part, part.allowed))
        {
            let what = format!("One attachment to {} carries ", place_words(place));
            findings.extend(over(
                context,
                (&what, &place.member),
                (part.load_n, allowed_n),
                &overloaded,
            ));
        }
    }
    channels(context, findings);
}

/// A finding about a place on a member.
fn over(
    context: &Context<'_>,
    (what, member): (&str, &str),
    (load_n, allowed_n): (f64, f64),
    hangers: &[Carried<'_>],
) -> Option<Finding> {
    let heaviest = worst(hangers.iter().copied(), |part| part.load_n)?;
    let member_id = MemberId::new(member);
    let names: Vec<Subject> = hangers.iter().map(Carried::subject).collect();
    let mut text = vec![words(what), load(load_n)];
    if allowed_n > 0.0 {
        text.extend([words(" where "), allowed(allowed_n), words(" is allowed")]);
    } else {
        text.push(words(" where nothing may be hung"));
    }
    text.push(words(format!(": {}.", list(&names))));
    let source = match framing_of(context, &member_id) {
        Some(framing) => format!("allowed load of framing {}, as entered", framing.id),
        None => "allowed load of the framing, as entered".to_owned(),
    };
    let subjects = std::iter::once(Subject::Member(member_id))
        .chain(names)
        .collect();
    Some(
        context
            .finding(subjects, source, text)
            .at(heaviest.hanger.at.attach)
            .at_most(Dimension::Force, load_n, allowed_n),
    )
}

/// Each cross channel that its load bends too much. Moment and deflection grow with
/// the load, so the load says it all.
fn channels(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        for (which, hanger) in run.hanging.hangers.iter().enumerate() {
            let Some(check) = hanger.load.channel.filter(|check| !check.passes()) else {
                continue;
            };
            let bending = check.allowed_moment_n_m / check.moment_n_m;
            let sagging = check.allowed_deflection_m / check.deflection_m;
            let load_n = hanger.load.load_n;
            let allowed_n = load_n * bending.min(sagging);
            let (fault, source) = if bending < sagging + tolerance::LIMIT {
                (
                    "its strength",
                    "strength of the site's channel, allowed stress times section modulus",
                )
            } else {
                (
                    "its stiffness",
                    "stiffness of the site's channel, span over deflection",
                )
            };
            let members: Vec<&str> = hanger.at.members().collect();
            let text = vec![
                words(format!(
                    "The channel of {}.{} on {} carries ",
                    run.run.id,
                    which + 1,
                    list(&members)
                )),
                load(load_n),
                words(" where "),
                allowed(allowed_n),
                words(format!(" is allowed by {fault}.")),
            ];
            let subjects = std::iter::once(Subject::Hanger(run.run.id.clone(), which + 1))
                .chain(
                    members
                        .into_iter()
                        .map(|id| Subject::Member(MemberId::new(id))),
                )
                .collect();
            let finding = context
                .finding(subjects, source.to_owned(), text)
                .at(hanger.at.attach)
                .at_most(Dimension::Force, load_n, allowed_n);
            findings.push(finding);
        }
    }
}
