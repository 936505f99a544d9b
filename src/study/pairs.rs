//! Runs that come near each other.

use super::ANOTHER_RUN;
use super::reuse::Reuse;
use super::run::{RunStudy, depth_in_body};
use crate::clearance::{CheckedRun, Measured, Obstacle, Required, check_obstacle};
use crate::geometry::Bounds;
use crate::site::policy::PolicyItem;
use crate::site::{Policy, RunId};
use std::sync::Arc;

/// Two runs nearer to each other than policy wants, or nearly so.
#[derive(Debug, Clone, PartialEq)]
pub struct RunPair {
    /// The run that comes first in the scheme.
    pub first: RunId,
    /// The other.
    pub second: RunId,
    /// How near the second is to the first.
    pub measured: Measured,
    /// How deep one reaches into the other, m: not negative; 0 where they only come near.
    pub inside_body_m: f64,
}

/// How far beyond the required distance pairs are still measured, m.
const MARGIN_M: f64 = 0.5;

/// All pairs of runs that come near each other, in the order of the scheme.
pub(super) fn near_pairs(
    runs: &[Arc<RunStudy>],
    policy: &Policy,
    reuse: &Reuse<'_>,
) -> Vec<Arc<RunPair>> {
    let apart_m = policy.value(PolicyItem::RunToRun);
    let mut boxes: Vec<(usize, Bounds)> = runs
        .iter()
        .map(|run| {
            let bodies = &run.clearance.bodies;
            let corners = bodies
                .bodies
                .iter()
                .flat_map(|body| bodies.frame.corners(&body.local));
            corners.fold(Bounds::EMPTY, Bounds::with)
        })
        .enumerate()
        .collect();
    // Sorted by their western face, each run meets only those that begin before it ends.
    boxes.sort_by(|a, b| a.1.low.x.total_cmp(&b.1.low.x).then(a.0.cmp(&b.0)));
    let mut close: Vec<(usize, usize)> = Vec::new();
    for (place, (one, box_of_one)) in boxes.iter().enumerate() {
        let reach = box_of_one.grown(apart_m + MARGIN_M);
        for (other, box_of_other) in &boxes[place + 1..] {
            if box_of_other.low.x > reach.high.x {
                break;
            }
            if reach.meets(box_of_other) {
                close.push((*one.min(other), *one.max(other)));
            }
        }
    }
    close.sort_unstable();
    close
        .into_iter()
        .filter_map(|(one, other)| {
            let (first, second) = (&runs[one], &runs[other]);
            reuse
                .pair(first, second)
                .unwrap_or_else(|| measure(first, second, apart_m))
        })
        .collect()
}

fn measure(first: &RunStudy, second: &RunStudy, apart_m: f64) -> Option<Arc<RunPair>> {
    let checked = CheckedRun {
        bodies: first.clearance.bodies.clone(),
        required: vec![None, None, Some(Required::all_round(apart_m))],
    };
    let other = Obstacle::from_run(&second.clearance.bodies, ANOTHER_RUN);
    let measured = check_obstacle(&checked, 0, &other, MARGIN_M)?;
    let inside_body_m = if measured.is_breach() {
        depth_in_body(&first.clearance.bodies, &other)
    } else {
        0.0
    };
    Some(Arc::new(RunPair {
        first: first.run.id.clone(),
        second: second.run.id.clone(),
        measured,
        inside_body_m,
    }))
}
