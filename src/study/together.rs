//! Runs that share places of members, hung together.

use super::case::RunCase;
use super::reuse::Reuse;
use super::run::{BegunRun, Setting};
use crate::hanging::{
    Beside, Case, Hanging, LoadPlace, Settled, Status, Together, hang_together, settle,
};
use crate::site::RunId;
use std::collections::BTreeSet;
use std::sync::Arc;

/// Runs whose hangers had to be chosen together, because hung each by itself they would
/// overload a place.
#[derive(Debug, Clone, PartialEq)]
pub struct RunGroup {
    /// The runs, in the scheme's order.
    pub runs: Vec<RunId>,
    /// Those of them that can't be hung beside the others.
    pub left_out: Vec<RunId>,
    /// Runs whose kept hangers take up room at the contested places.
    pub kept: Vec<RunId>,
    /// Places where they got in each other's way, in order.
    pub contested: Vec<LoadPlace>,
    /// Sum of the costs of those that hang, thousandths.
    pub cost: u64,
    /// They can't hang for less together, thousandths: the cost where that is proven.
    pub least_cost: u64,
    /// The answer is proven to be the least.
    pub proven: bool,
    /// Sets whose loads were tried, those of each run by itself not counted.
    pub sets_tried: usize,
    /// All that decided it: how its runs hang by themselves, and kept hangers on members
    /// within their reach, in the scheme's order.
    inputs: Vec<Arc<Hanging>>,
    /// How its runs hang, in their order.
    hangings: Vec<Arc<Hanging>>,
}

impl RunGroup {
    /// Whether it was decided by the very same.
    pub(super) fn was_decided_by(&self, inputs: &[Arc<Hanging>]) -> bool {
        self.inputs.len() == inputs.len()
            && self
                .inputs
                .iter()
                .zip(inputs)
                .all(|(a, b)| Arc::ptr_eq(a, b))
    }
}

/// Hangs the runs so that no place is overloaded but by kept hangers.
pub(super) fn hang_all(
    setting: &Setting<'_>,
    reuse: &Reuse<'_>,
    runs: &[BegunRun<'_>],
) -> Settled<Arc<Hanging>, Arc<RunGroup>> {
    let alone: Vec<Arc<Hanging>> = runs.iter().map(|run| Arc::clone(&run.alone)).collect();
    settle(&alone, |chosen| {
        let cases: Vec<RunCase> = chosen.iter().map(|&run| runs[run].case(setting)).collect();
        let within_reach: BTreeSet<&str> = cases.iter().flat_map(RunCase::members).collect();
        let takes_room = |&run: &usize| {
            let hanging = &runs[run].alone;
            let holds = || hanging.hangers.iter().flat_map(|hanger| &hanger.load.holds);
            hanging.status == Status::Locked
                && holds().any(|hold| within_reach.contains(&*hold.place.member))
        };
        let asked: Vec<usize> = (0..runs.len())
            .filter(|run| chosen.contains(run) || takes_room(run))
            .collect();
        let inputs: Vec<Arc<Hanging>> = asked.iter().map(|&run| Arc::clone(&alone[run])).collect();
        let group = reuse
            .group(&inputs)
            .unwrap_or_else(|| Arc::new(solved(setting, runs, chosen, &cases, &asked, inputs)));
        (group.hangings.clone(), group)
    })
}

fn solved(
    setting: &Setting<'_>,
    runs: &[BegunRun<'_>],
    chosen: &[usize],
    cases: &[RunCase],
    asked: &[usize],
    inputs: Vec<Arc<Hanging>>,
) -> RunGroup {
    let cases: Vec<Case<'_>> = cases.iter().map(|case| case.case(setting)).collect();
    let beside: Vec<Beside<'_>> = asked
        .iter()
        .map(|&run| {
            let alone = &*runs[run].alone;
            match chosen.binary_search(&run) {
                Ok(which) => Beside::Chosen {
                    case: &cases[which],
                    alone,
                },
                Err(_) => Beside::Kept(alone),
            }
        })
        .collect();
    let Together {
        hangings,
        contested,
        cost,
        least_cost,
        proven,
        sets_tried,
    } = hang_together(&beside);
    let hangings: Vec<Arc<Hanging>> = chosen
        .iter()
        .zip(hangings.into_iter().flatten())
        .map(|(&run, hanging)| {
            // Who didn't have to give way is still the same.
            let alone = &runs[run].alone;
            if **alone == hanging {
                Arc::clone(alone)
            } else {
                Arc::new(hanging)
            }
        })
        .collect();
    let ids = |these: &mut dyn Iterator<Item = usize>| -> Vec<RunId> {
        these.map(|run| runs[run].run.id.clone()).collect()
    };
    let is_contested = |run: &usize| {
        let hangers = runs[*run].alone.hangers.iter();
        let mut holds = hangers.flat_map(|hanger| &hanger.load.holds);
        holds.any(|hold| {
            let mut places = contested.iter();
            places.any(|place| hold.place == *place || hold.span_place().as_ref() == Some(place))
        })
    };
    let kept = asked
        .iter()
        .filter(|run| chosen.binary_search(run).is_err());
    let left_out = chosen.iter().zip(&hangings);
    RunGroup {
        runs: ids(&mut chosen.iter().copied()),
        left_out: ids(&mut left_out
            .filter(|(_, hanging)| hanging.hangers.is_empty())
            .map(|(&run, _)| run)),
        kept: ids(&mut kept.copied().filter(is_contested)),
        contested,
        cost,
        least_cost,
        proven,
        sets_tried,
        inputs,
        hangings,
    }
}
