//! A hang point carries more than is allowed as soon as its run isn't level.

use crate::findings::limits::subjects;
use crate::findings::say::{allowed, load, up, words, worst};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity};
use crate::geometry::tolerance;
use crate::hanging::{Capacity, Hanger};
use crate::site::policy::PolicyItem;
use crate::study::RunStudy;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "hang-point-overloaded-unlevel",
    title: "A hang point carries more than is allowed when a hanger is low or slack",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "What each hanger carries when any single hanger of its run is low by what goes unnoticed, and when any single other one is slack, against what its hang point, its cross channel and the sum at its place may carry. One finding a run, about the worst.",
        why: "A tube is stiff. One hanger a few millimetres low sheds its load to its neighbours, and one that came off gives them all of it.",
        remedy: "Show the building's engineer the worst load, move the hanger to a stronger hang point, or hang the run so that no hanger carries so much.",
        source: "Statics: a continuous beam on supports that only pull; the allowed loads as entered from the building's engineer.",
        limits: "One hanger at a time; one that is set too short is not looked at. Where the level load is too much already, that is another finding. Unknown capacities are never judged.",
    },
    check,
};

/// A hanger's worst load and what its place allows.
struct Over {
    which: usize,
    load_n: f64,
    allowed_n: f64,
}

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let hangers = run.hanging.hangers.iter().enumerate();
        let over: Vec<Over> = hangers
            .filter_map(|(which, hanger)| over(context, which, hanger))
            .collect();
        let Some(most) = worst(&over, |over| over.load_n / over.allowed_n) else {
            continue;
        };
        findings.push(finding(context, run, &over, most));
    }
}

/// How far a hanger's place is beyond what it may carry in the worst case, if it bears
/// the level one.
fn over(context: &Context<'_>, which: usize, hanger: &Hanger) -> Option<Over> {
    let worst_n = hanger.cases.greatest_n();
    let mut found: Option<Over> = None;
    let mut consider = |level_n: f64, load_n: f64, capacity: Capacity| {
        let Capacity::Known(allowed_n) = capacity else {
            return;
        };
        let most_n = allowed_n * (1.0 + tolerance::LIMIT);
        let heavier = found
            .as_ref()
            .is_none_or(|known| known.load_n / known.allowed_n < load_n / allowed_n);
        if level_n <= most_n && most_n < load_n && heavier {
            found = Some(Over {
                which,
                load_n,
                allowed_n,
            });
        }
    };
    consider(hanger.load.load_n, worst_n, hanger.load.allowed);
    for (load, hold) in hanger.load.holds.iter().zip(hanger.at.holds()) {
        if let Some(place) = context.study.loads.get(&load.place)
            && let Some(capacity) = place.allowed
        {
            let others_n = place.sum_n - load.load_n;
            consider(place.sum_n, others_n + worst_n * hold.share, capacity);
        }
    }
    found
}

fn finding(context: &Context<'_>, run: &RunStudy, over: &[Over], most: &Over) -> Finding {
    let id = &run.run.id;
    let hangers = &run.hanging.hangers;
    let cases = hangers.get(most.which).map(|hanger| hanger.cases);
    let mut text = vec![
        words(format!(
            "The hang point of {id}.{} carries ",
            most.which + 1
        )),
        load(most.load_n),
        words(" where "),
        allowed(most.allowed_n),
        words(" is allowed, when "),
    ];
    let by = |which: usize| format!("{id}.{}", which + 1);
    let mut source = "statics of the run with one hanger slack; allowed load as entered".to_owned();
    match cases.map(|cases| (cases.worst().by, cases)) {
        Some((Some(other), cases)) if cases.level_error.load_n < cases.neighbour_slack.load_n => {
            text.push(words(format!("{} is slack", by(other))));
        }
        Some((Some(other), _)) => {
            text.push(words(format!("{} is low by ", by(other))));
            text.push(up(context.site.policy.value(PolicyItem::HangerLevelError)));
            source = context.policy_source(PolicyItem::HangerLevelError);
        }
        _ => text.push(words("the run isn't level")),
    }
    text.push(words(match over.len() {
        1 => ".".to_owned(),
        n => format!("; {n} hang points of the run are so."),
    }));
    let place = hangers.get(most.which).map(|hanger| hanger.at.attach);
    let finding = Finding {
        place,
        ..context.finding(
            subjects(run, over.iter().map(|over| over.which)),
            source,
            text,
        )
    };
    finding.at_most(Dimension::Force, most.load_n, most.allowed_n)
}
