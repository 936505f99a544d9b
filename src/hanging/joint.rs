//! Runs that share places of members, hung together.
//!
//! Definition. Wanted is one set of hangers for each run whose hangers are chosen, each
//! obeying its own rule, such that all loads are allowed, the sums over all runs at every
//! place included. Of those the least: sum of costs, then run after run in the scheme's
//! order, each by its own order of preference (cost, greatest gap, number, stations,
//! member ids). Kept hangers take up their part of what is allowed and never change; where
//! they alone take more than is allowed, other runs put nothing there. Where no such sets
//! exist, runs are left out: run after run in the scheme's order is taken if it can be
//! hung beside those that were taken before, and the least sets of those that were taken
//! are the answer.
//!
//! Parts of the answer:
//! - a run's best set as if it were alone is a lower bound of what it comes to. Where no
//!   shared place is overloaded by these sets, they are the answer;
//! - runs that overload a place together form a group, which is solved by itself; groups
//!   whose answers overload a place are made one and solved again ([`settle`], with the
//!   proof that this is the answer for all runs);
//! - a group is solved by a best-first search that lowers what one run may put on one
//!   place at a time (`search`, `split`).

mod fallback;
mod groups;
mod member;
mod places;
mod search;
mod split;

pub use groups::{Group, Settled, settle};

use super::case::Case;
use super::loads::LoadPlace;
use super::outcome::Hanging;
use fallback::{Taken, taken};
use member::Member;
use places::Places;
use search::{Kept, Search};

/// The most sets whose loads are tried to hang one group, and the most steps of its
/// search: ten times what one run may take. Two or three runs need some thousands at most,
/// twelve in each other's way at every beam some ten thousands; more would keep a drag
/// waiting for longer than about a second.
pub const MOST_SETS_TOGETHER: usize = 10 * super::search::MOST_SETS;
const MOST_STEPS: usize = 5_000;

/// One run of a group, or one with kept hangers beside it.
#[derive(Debug, Clone, Copy)]
pub enum Beside<'a> {
    /// Its hangers are to be chosen.
    Chosen {
        /// What decides how it hangs, without room taken by others.
        case: &'a Case<'a>,
        /// How it hangs as if no other were there; with hangers.
        alone: &'a Hanging,
    },
    /// Its hangers stay.
    Kept(&'a Hanging),
}

/// How the runs of a group hang together.
#[derive(Debug, Clone, PartialEq)]
pub struct Together {
    /// How each of the runs hangs, in the order in which they were given; none for those
    /// with kept hangers.
    pub hangings: Vec<Option<Hanging>>,
    /// Places where the runs got in each other's way, in order.
    pub contested: Vec<LoadPlace>,
    /// Sum of the costs of those that hang, thousandths.
    pub cost: u64,
    /// They can't hang for less together, thousandths: the cost where that is proven.
    pub least_cost: u64,
    /// The answer is proven to be the one that is defined.
    pub proven: bool,
    /// Sets whose loads were tried, those of each run alone not counted.
    pub sets_tried: usize,
}

/// Hangs runs together, given in the scheme's order.
#[must_use]
pub fn hang_together(runs: &[Beside<'_>]) -> Together {
    let mut places = Places::default();
    let mut kept = Vec::new();
    let mut members = Vec::new();
    for (order, run) in runs.iter().enumerate() {
        match *run {
            Beside::Kept(hanging) => kept.push(Kept {
                order,
                loads: places.loads(hanging.hangers.iter().map(|hanger| &hanger.load)),
            }),
            Beside::Chosen { case, alone } => {
                members.push(Member::new(order, case, alone, &mut places));
            }
        }
    }
    let mut search = Search::new(members, kept, places);
    let Taken {
        choice,
        least_cost,
        proven,
    } = taken(&mut search);
    let cost = search.cost(&choice);
    let mut hangings = vec![None; runs.len()];
    for which in 0..search.members.len() {
        let others = search.others(which, &choice);
        let member = &mut search.members[which];
        let state = choice.iter().find(|&&(taken, _)| taken == which);
        hangings[member.order] = Some(match state {
            Some(&(_, state)) => member.hanging(state, proven),
            None => member.left_out(&others, &search.places, proven),
        });
    }
    Together {
        hangings,
        contested: search.contested(),
        cost,
        least_cost,
        proven,
        sets_tried: search.tried,
    }
}
