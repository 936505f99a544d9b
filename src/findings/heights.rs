//! Code heights over a bay's floor, as rules speak of them.

use super::limits::on_tube;
use super::say::{length_against, words};
use super::{Bound, Context, Dimension, Finding, Subject};
use crate::geometry::tolerance;
use crate::site::{Bay, BayUse};
use crate::study::RunStudy;

/// Each run with each bay of some uses that any part of it hangs over.
pub(super) fn runs_over<'a>(
    context: &Context<'a>,
    is_meant: impl Fn(BayUse) -> bool,
) -> Vec<(&'a RunStudy, &'a Bay)> {
    let bays: Vec<&Bay> = context
        .site
        .bays
        .iter()
        .map(AsRef::as_ref)
        .filter(|bay| is_meant(bay.used_as))
        .collect();
    let runs = context.study.runs.iter().map(AsRef::as_ref);
    runs.flat_map(|run| {
        let over = bays
            .iter()
            .filter(|bay| run.clearance.neighbours.over.contains(&bay.id));
        over.map(move |bay| (run, *bay)).collect::<Vec<_>>()
    })
    .collect()
}

/// A finding where the lowest part of a run is lower than a height over the floor, which
/// `why` explains in a sentence.
pub(super) fn too_low(
    context: &Context<'_>,
    run: &RunStudy,
    besides: impl IntoIterator<Item = Subject>,
    required_m: f64,
    why: &str,
    source: String,
) -> Option<Finding> {
    let lowest_m = run.clearance.stacking.lowest_part_m;
    if required_m - tolerance::LIMIT <= lowest_m {
        return None;
    }
    let mut text = vec![words(format!("The lowest part of {} is ", run.run.id))];
    text.extend(length_against(
        Bound::Least,
        lowest_m,
        " above the floor",
        required_m,
    ));
    text.push(words(format!(" {why}")));
    let subjects = std::iter::once(Subject::Run(run.run.id.clone()))
        .chain(besides)
        .collect();
    let finding = context
        .finding(subjects, source, text)
        .at(on_tube(run, run.geometry.tube_length_m / 2.0))
        .at_least(Dimension::Length, lowest_m, required_m);
    Some(finding)
}
