//! What shift would let a run be hung, or hung for less, for `check --remedies`.

use super::check::Studied;
use crate::findings::{Finding, Phrase, Subject};
use crate::hanging::Outcome;
use crate::remedies::Base;
use crate::remedies::hanging::{Purpose, Suggestion, Suggestions, suggestions};
use crate::units::UnitSystem;
use serde::Serialize;
use std::fmt::Write;

/// The findings that a shift may take away.
const ANSWERED: [&str; 2] = ["cross-channel-needed", "run-cannot-be-hung"];

/// The shifts that are suggested for one run.
#[derive(Debug, Serialize)]
pub(super) struct ShiftsReport {
    run: String,
    offers: Vec<ShiftReport>,
    /// Why there is none.
    none: Option<String>,
    places_searched: usize,
}

#[derive(Debug, Serialize)]
struct ShiftReport {
    purpose: &'static str,
    text: String,
    along_m: f64,
    across_m: f64,
    clockwise_deg: f64,
    hangers: [usize; 2],
    cross_channels: [usize; 2],
    off_panel: [usize; 2],
    cost: [Option<f64>; 2],
}

/// For each finding, in their order, the shifts that would help; nothing for those that
/// no shift answers.
pub(super) fn all(studied: &Studied) -> Vec<Option<Suggestions>> {
    let base = Base {
        study: &studied.study,
        findings: &studied.findings,
    };
    let answered = |finding: &Finding| match finding.subjects.first() {
        Some(Subject::Run(id)) if ANSWERED.contains(&finding.rule) => Some(suggestions(&base, id)),
        _ => None,
    };
    studied.findings.iter().map(answered).collect()
}

impl ShiftsReport {
    pub(super) fn new(found: &Suggestions) -> Self {
        Self {
            run: found.run.to_string(),
            offers: found.list.iter().map(shift_report).collect(),
            none: (!found.none.is_empty()).then(|| text_in(&found.none, UnitSystem::Metric)),
            places_searched: found.n_places,
        }
    }
}

fn shift_report(offer: &Suggestion) -> ShiftReport {
    let both = |figure: fn(&Outcome) -> usize| [figure(&offer.before), figure(&offer.after)];
    ShiftReport {
        purpose: match offer.purpose {
            Purpose::MakesPossible => "makes-possible",
            Purpose::NearestCheaper => "nearest-cheaper",
            Purpose::Cheapest => "cheapest",
        },
        text: text_in(&offer.words, UnitSystem::Metric),
        along_m: offer.shift.along_m,
        across_m: offer.shift.across_m,
        clockwise_deg: offer.shift.clockwise_deg,
        hangers: both(|outcome| outcome.n_hangers),
        cross_channels: both(|outcome| outcome.n_channels),
        off_panel: both(|outcome| outcome.n_off_panel),
        cost: [&offer.before, &offer.after].map(|it| it.cost.map(super::json::in_hangers)),
    }
}

pub(super) fn text_in(text: &[Phrase], units: UnitSystem) -> String {
    text.iter().map(|phrase| phrase.shown_in(units)).collect()
}

/// The lines of the report under a finding.
pub(super) fn lines(out: &mut String, found: &Suggestions, units: UnitSystem) -> std::fmt::Result {
    for offer in &found.list {
        writeln!(out, "      shift: {}", text_in(&offer.words, units))?;
    }
    if !found.none.is_empty() {
        writeln!(out, "      shift: {}", text_in(&found.none, units))?;
    }
    Ok(())
}
