//! What cures each geometric breach, for `check --remedies`.

use super::check::Studied;
use crate::findings::Phrase;
use crate::remedies::Base;
use crate::remedies::clearance::{Blocking, Measure, Offer, WaysOut, ways_out};
use crate::units::UnitSystem;
use serde::Serialize;
use std::fmt::Write;

/// The ways out of one breach, by run.
#[derive(Debug, Serialize)]
pub(super) struct WaysOutReport {
    run: String,
    offers: Vec<OfferReport>,
    closed: Vec<ClosedReport>,
}

#[derive(Debug, Serialize)]
struct OfferReport {
    way: &'static str,
    text: String,
    /// Of a move: the least that cures, and what is offered with room for building, m.
    least_m: Option<f64>,
    offered_m: Option<f64>,
    hangers: [usize; 2],
    cross_channels: [usize; 2],
    off_panel: [usize; 2],
    cost: [Option<f64>; 2],
    input_net_w: [f64; 2],
    /// Other runs that hang otherwise then.
    rehung: Vec<String>,
}

#[derive(Debug, Serialize)]
struct ClosedReport {
    way: &'static str,
    /// What stands in the way where the breach itself would be cured.
    blocked_by: Option<String>,
}

/// For each finding, in their order, what cures it; nothing for those that are no
/// geometric breach.
pub(super) fn all(studied: &Studied) -> Vec<Vec<WaysOut>> {
    let base = Base {
        study: &studied.study,
        findings: &studied.findings,
    };
    studied
        .findings
        .iter()
        .map(|finding| ways_out(&base, finding))
        .collect()
}

impl WaysOutReport {
    pub(super) fn new(found: &WaysOut) -> Self {
        Self {
            run: found.run.to_string(),
            offers: found.offers.iter().map(offer_report).collect(),
            closed: found
                .closed
                .iter()
                .map(|(way, blocking)| ClosedReport {
                    way: way.label(),
                    blocked_by: blocking.as_ref().map(Blocking::words),
                })
                .collect(),
        }
    }
}

fn offer_report(offer: &Offer) -> OfferReport {
    let metres = |measure: &Measure| match measure {
        Measure::Moved(_, by_m) => Some(*by_m),
        _ => None,
    };
    let pair = |(before, after): (usize, usize)| [before, after];
    let change = &offer.change;
    OfferReport {
        way: offer.way.label(),
        text: text_in(&offer.text, UnitSystem::Metric),
        least_m: metres(&offer.least),
        offered_m: metres(&offer.offered),
        hangers: pair(change.n_hangers),
        cross_channels: pair(change.n_channels),
        off_panel: pair(change.n_off_panel),
        cost: [change.cost.0, change.cost.1].map(|cost| cost.map(super::json::in_hangers)),
        input_net_w: [change.input_net.0.as_watts(), change.input_net.1.as_watts()],
        rehung: change.rehung.iter().map(ToString::to_string).collect(),
    }
}

fn text_in(text: &[Phrase], units: UnitSystem) -> String {
    text.iter().map(|phrase| phrase.shown_in(units)).collect()
}

/// The lines of the report under a finding.
pub(super) fn lines(out: &mut String, found: &[WaysOut], units: UnitSystem) -> std::fmt::Result {
    for of_run in found {
        for offer in &of_run.offers {
            writeln!(
                out,
                "      way out: {}{}",
                text_in(&offer.text, units),
                offer.change.words(units)
            )?;
        }
        if of_run.offers.is_empty() {
            let mut blocking: Vec<String> = of_run
                .closed
                .iter()
                .filter_map(|(_, blocking)| blocking.as_ref().map(Blocking::words))
                .collect();
            blocking.sort_unstable();
            blocking.dedup();
            let by = if blocking.is_empty() {
                "no change of the run alone cures it".to_owned()
            } else {
                format!("in the way: {}", blocking.join(", "))
            };
            writeln!(
                out,
                "      no way out for {} within the limits; {by}",
                of_run.run
            )?;
        }
    }
    Ok(())
}
