//! No set of hangers holds a run.

use crate::findings::limits::{limit_words, on_tube};
use crate::findings::loads::place_words;
use crate::findings::say::{allowed, down, list, load, makers_document, up, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Phrase, Rule, Severity, Subject};
use crate::geometry::tolerance;
use crate::hanging::{Limit, LimitBreach, LoadPlace, Obstacle, Status};
use crate::site::RunId;
use crate::study::RunGroup;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "run-cannot-be-hung",
    title: "A run can't be hung where it is",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Whether any set of the hang points within reach, cross channels included, keeps the maker's hanging rule and the allowed loads, what other runs put there included. Of runs that can't all be hung, those that come first in the scheme are.",
        why: "A run without a lawful set of hangers ends in improvised steel or a second trip up the lift.",
        remedy: "Shift the run along or across its axis, lower it where suspensions are too short, or add steel. The finding names each limit of which one alone stands in the way.",
        source: "The hanging rule of the heater's family and the framing's allowed loads.",
        limits: "Steel that is not drawn is not known. Of a run that has kept hangers, the kept ones are judged instead.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let hanging = &run.hanging;
        if !hanging.hangers.is_empty() || hanging.status == Status::Locked {
            continue;
        }
        let mut text = vec![words(match hanging.status {
            Status::Unproven => format!(
                "No set of hangers was found for {} among the {} tried.",
                run.run.id, hanging.sets_tried
            ),
            Status::Solved | Status::Locked | Status::Impossible => {
                match context.study.group(&run.run.id) {
                    Some(group) => format!(
                        "{} can't be hung beside {}.",
                        run.run.id,
                        list(&beside(group, &run.run.id))
                    ),
                    None => format!("{} can't be hung where it is.", run.run.id),
                }
            }
        })];
        let subjects = vec![Subject::Run(run.run.id.clone())];
        let source = makers_document(&run.family);
        let Some(obstacle) = &hanging.obstacle else {
            findings.push(
                context
                    .finding(subjects, source, text)
                    .at(on_tube(run, 0.0)),
            );
            continue;
        };
        let (from_m, to_m) = obstacle.longest_stretch_m;
        let is_bare = to_m - from_m > run.geometry.tube_length_m - tolerance::LIMIT;
        if is_bare {
            text.push(words(" No usable hang point is within reach."));
        } else {
            text.extend(stretch(obstacle));
        }
        text.extend(helps(obstacle, is_bare));
        let place = on_tube(run, f64::midpoint(from_m, to_m));
        let finding = context.finding(subjects, source, text).at(place);
        let (stretch_m, greatest_m) = (to_m - from_m, run.rule.spacing.greatest_m);
        findings.push(if stretch_m > greatest_m + tolerance::LIMIT {
            finding.at_most(Dimension::Length, stretch_m, greatest_m)
        } else {
            finding
        });
    }
}

/// The longest stretch of tube without a hang point.
fn stretch(obstacle: &Obstacle) -> Vec<Phrase> {
    let (from_m, to_m) = obstacle.longest_stretch_m;
    vec![
        words(" The longest stretch of tube without a usable hang point is "),
        up(to_m - from_m),
        words(", from "),
        down(from_m),
        words(" to "),
        up(to_m),
        words(" from the burner flange."),
    ]
}

/// What would let it hang.
fn helps(obstacle: &Obstacle, is_bare: bool) -> Vec<Phrase> {
    let mut text = Vec::new();
    let limits: Vec<&str> = obstacle
        .helps
        .iter()
        .map(|limit| limit_words(*limit))
        .collect();
    match limits.as_slice() {
        [] if obstacle.come_down_m.is_none() && !is_bare => {
            text.push(words(
                " No single limit was found that stands in the way alone.",
            ));
        }
        [] => {}
        [only] => text.push(words(format!(" One limit stands in the way: {only}."))),
        _ => text.push(words(format!(
            " Without any one of these it could hang: {}.",
            list(&limits)
        ))),
    }
    if let Some(come_down_m) = obstacle.come_down_m {
        text.extend([
            words(" It could hang if it came down by "),
            up(come_down_m),
            words("."),
        ]);
    }
    if let Some((breach, place)) = at_place(&obstacle.together) {
        text.extend([
            words(" Hung as it would be without them, together they would put "),
            load(breach.measured),
            words(format!(" on {} where ", place_words(place))),
            allowed(breach.required),
            words(" is allowed."),
        ]);
        return text;
    }
    if let Some((breach, place)) = at_place(&obstacle.overloads) {
        text.extend([
            words(" The cheapest set would put "),
            load(breach.measured),
            words(format!(" on {} where ", place_words(place))),
            allowed(breach.required),
            words(" is allowed."),
        ]);
    }
    text
}

/// The first breach that is about the load at a place.
fn at_place(breaches: &[LimitBreach]) -> Option<(&LimitBreach, &LoadPlace)> {
    let breach = breaches.iter().find(|breach| breach.limit == Limit::Load)?;
    Some((breach, breach.place.as_ref()?))
}

/// The runs beside which a run of a group can't be hung.
fn beside<'a>(group: &'a RunGroup, run: &RunId) -> Vec<&'a RunId> {
    let hung = group
        .runs
        .iter()
        .filter(|other| *other != run && !group.left_out.contains(other));
    hung.chain(&group.kept).collect()
}
