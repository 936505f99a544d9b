//! What is said of a shift.

use super::{RunShift, Tally};
use crate::catalogue::FamilyShape;
use crate::findings::{Finding, Phrase};
use crate::hanging::{Area, Outcome, STEP_M};
use crate::site::RunId;
use crate::study::{RunStudy, Study};
use crate::units::{Angle, Length};

fn words(text: impl Into<String>) -> Phrase {
    Phrase::words(text)
}

fn length(length_m: f64) -> Phrase {
    Phrase::LengthUp(Length::metres(length_m))
}

/// A suggestion as a sentence.
pub(super) fn suggestion(
    run: &RunStudy,
    shift: &RunShift,
    before: &Outcome,
    after: &Outcome,
) -> Vec<Phrase> {
    let mut text = moved(run, shift);
    let id = &run.run.id;
    text.push(words(match before.cost {
        None => format!(" {id} can be hung, {}.", hangers(after)),
        Some(_) => format!(
            " {id} hangs {} instead of {}.",
            hangers(after),
            hangers(before)
        ),
    }));
    text
}

/// "Shifted 0.10 m toward the exhaust and 0.05 m to its left,"
fn moved(run: &RunStudy, shift: &RunShift) -> Vec<Phrase> {
    let far_end = match run.family.shape {
        FamilyShape::Straight => "exhaust",
        FamilyShape::Hairpin { .. } => "bend",
    };
    let mut moves: Vec<Vec<Phrase>> = Vec::new();
    for (by_m, ahead, back) in [
        (
            shift.along_m,
            format!(" toward its {far_end}"),
            " toward its burner".to_owned(),
        ),
        (
            shift.across_m,
            " to its left".to_owned(),
            " to its right".to_owned(),
        ),
    ] {
        if by_m != 0.0 {
            let way = if by_m > 0.0 { ahead } else { back };
            moves.push(vec![length(by_m.abs()), words(way)]);
        }
    }
    let turned = shift.clockwise_deg != 0.0;
    let mut text = Vec::new();
    if turned {
        text.push(words("Turned "));
        text.push(Phrase::Angle(Angle::degrees(shift.clockwise_deg.abs())));
        text.push(words(if shift.clockwise_deg > 0.0 {
            " clockwise about its middle"
        } else {
            " counterclockwise about its middle"
        }));
    }
    for (nth, one) in moves.into_iter().enumerate() {
        text.push(words(match (nth, turned) {
            (0, false) => "Shifted ",
            (0, true) => " and shifted ",
            _ => " and ",
        }));
        text.extend(one);
    }
    text.push(words(","));
    text
}

/// "from 9 hangers, 2 of them on cross channels"
fn hangers(outcome: &Outcome) -> String {
    let mut parts = Vec::new();
    if outcome.n_channels > 0 {
        parts.push(format!("{} on cross channels", outcome.n_channels));
    }
    if outcome.n_off_panel > 0 {
        parts.push(format!("{} off panel points", outcome.n_off_panel));
    }
    if parts.is_empty() {
        return format!("from {} hangers, all at hang points", outcome.n_hangers);
    }
    format!(
        "from {} hangers, {}",
        outcome.n_hangers,
        parts.join(" and ")
    )
}

/// Nothing helps.
pub(super) fn nothing(
    study: &Study,
    run: &RunStudy,
    area: &Area,
    is_complete: bool,
    broken: Option<&Finding>,
) -> Vec<Phrase> {
    let mut text = vec![
        words(if is_complete || broken.is_some() {
            "No shift within "
        } else {
            "No shift was found within "
        }),
        length(f64::from(area.along) * STEP_M),
        words(" along or "),
        length(f64::from(area.across) * STEP_M),
        words(" across helps"),
    ];
    if let Some(broken) = broken {
        text.push(words(format!(
            " without a new breach; the nearest would break {}: ",
            broken.rule
        )));
        text.push(words(broken.text_in(study.site.units)));
        return text;
    }
    if !is_complete {
        text.push(words(
            ", but the search was ended before every place was looked at",
        ));
    }
    let helps: Vec<&str> = run
        .hanging
        .obstacle
        .iter()
        .flat_map(|obstacle| obstacle.helps.iter().map(|limit| limit.name()))
        .collect();
    text.push(words(if helps.is_empty() {
        ".".to_owned()
    } else {
        format!("; in its way: {}.", helps.join(", "))
    }));
    text
}

/// What the shift of a site comes to.
pub(super) fn site(
    (before, after): (&Tally, &Tally),
    n_moved: usize,
    at_most_m: f64,
    dropped: &[RunId],
) -> Vec<Phrase> {
    let mut text = vec![words(if n_moved == 0 {
        "No run hangs for less when shifted by at most ".to_owned()
    } else {
        format!("{n_moved} of the runs, each shifted by at most ")
    })];
    text.push(length(at_most_m));
    text.push(words(" along and across"));
    if n_moved > 0 {
        text.push(words(format!(
            ": {} instead of {}.",
            tally_words(after),
            tally_words(before)
        )));
    } else {
        text.push(words("."));
    }
    if !dropped.is_empty() {
        let names: Vec<String> = dropped.iter().map(ToString::to_string).collect();
        text.push(words(format!(
            " Better places were found for {}, but none without a new breach.",
            names.join(", ")
        )));
    }
    text
}

/// "2 cross channels, 5 hangers off panel points, cost 31.5"
fn tally_words(tally: &Tally) -> String {
    let many = |n: usize, one: &str, more: &str| {
        let word = if n == 1 { one } else { more };
        format!("{n} {word}")
    };
    format!(
        "{} hung, {} and {} off panel points, at a cost of {}.{:03}",
        many(tally.n_hung, "run", "runs"),
        many(tally.n_channels, "cross channel", "cross channels"),
        many(tally.n_off_panel, "hanger", "hangers"),
        tally.cost / 1000,
        tally.cost % 1000
    )
}

/// Nothing need help.
pub(super) fn not_needed(id: &RunId) -> Vec<Phrase> {
    vec![words(format!(
        "{id} hangs without cross channels and at hang points already."
    ))]
}

/// Its hangers are kept.
pub(super) fn kept() -> Vec<Phrase> {
    vec![words(
        "Its hangers are kept where they are, so that no shift is suggested.",
    )]
}

/// It isn't there.
pub(super) fn no_such_run() -> Vec<Phrase> {
    vec![words(
        "The scheme has no such run, or its family is unknown.",
    )]
}
