//! The best sets of a group, by lowering what runs may put on places, one at a time.
//!
//! A node gives each run caps: the most that it may put on some places. Its sets are the
//! runs' best under their caps, each by itself, so that in the order of the definition no
//! answer within the caps comes before them: neither the sum of costs nor any run's own
//! rank can be less. Nodes leave the queue in that order. The first whose sets overload no
//! place is therefore the answer. Any other is split at an overloaded place into cases of
//! which every answer within its caps is in one (`split`), and which exclude its sets. As
//! a run has finitely many sets, this ends.

use std::cmp::Reverse;
use std::collections::{BTreeSet, BinaryHeap};
use std::sync::Arc;

use super::member::{Caps, Key, Member};
use super::places::{Others, PlaceLoads, Places};
use super::split::{Part, split, sum_n};
use super::{MOST_SETS_TOGETHER, MOST_STEPS};
use crate::hanging::loads::LoadPlace;
use crate::hanging::search::MOST_SETS;

/// Overloaded places of which the best to split at is chosen: those with most excess.
/// More cost more sets than they save.
const LOOKED_AT: usize = 4;

/// The kept hangers of one run.
#[derive(Debug)]
pub(super) struct Kept {
    /// Its place in the scheme's order.
    pub(super) order: usize,
    /// What they put on places.
    pub(super) loads: PlaceLoads,
}

/// Everything known about a group.
pub(super) struct Search<'a> {
    pub(super) members: Vec<Member<'a>>,
    kept: Vec<Kept>,
    pub(super) places: Places,
    /// Sets tried so far.
    pub(super) tried: usize,
    steps: usize,
    contested: BTreeSet<usize>,
}

/// A chosen member and its state.
pub(super) type Chosen = (usize, usize);

/// What a search came to.
pub(super) enum Outcome {
    /// The answer.
    Best(Vec<Chosen>),
    /// There is none.
    Nothing,
    /// It stopped early: no answer costs less than this. The sets overload nothing, if
    /// there are any.
    Open(u64, Option<Vec<Chosen>>),
}

/// Sets of the members, and the lower bound that they are.
#[derive(Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Node {
    least_cost: u64,
    keys: Vec<Arc<Key>>,
    states: Vec<usize>,
}

/// A place that a node's sets overload.
struct Overload {
    place: usize,
    excess: f64,
    parts: Vec<Part>,
}

impl<'a> Search<'a> {
    pub(super) fn new(members: Vec<Member<'a>>, kept: Vec<Kept>, places: Places) -> Self {
        Self {
            members,
            kept,
            places,
            tried: 0,
            steps: 0,
            contested: BTreeSet::new(),
        }
    }

    /// Places at which the search was split, in order.
    pub(super) fn contested(&self) -> Vec<LoadPlace> {
        let mut places: Vec<LoadPlace> = self
            .contested
            .iter()
            .map(|&place| self.places.place(place).clone())
            .collect();
        places.sort();
        places
    }

    /// The best sets of some of the members, ascending, the others left out.
    pub(super) fn best(&mut self, members: &[usize]) -> Outcome {
        let first = self.node(members, vec![0; members.len()]);
        let mut met = BTreeSet::from([first.states.clone()]);
        let mut open = BinaryHeap::from([Reverse(first)]);
        // The least node that can't be split, because no set was found for some run.
        let mut stuck: Option<Node> = None;
        let chosen = |node: &Node| -> Vec<Chosen> {
            members
                .iter()
                .copied()
                .zip(node.states.iter().copied())
                .collect()
        };
        while let Some(Reverse(node)) = open.pop() {
            let least_cost = match &stuck {
                Some(stuck) => stuck.least_cost.min(node.least_cost),
                None => node.least_cost,
            };
            let overloads = self.overloads(&chosen(&node));
            if overloads.is_empty() {
                let is_proven = |(member, state): &Chosen| self.members[*member].is_proven(*state);
                let sets = chosen(&node);
                let comes_first = stuck.as_ref().is_none_or(|stuck| node < *stuck);
                return if comes_first && sets.iter().all(is_proven) {
                    Outcome::Best(sets)
                } else {
                    Outcome::Open(least_cost, Some(sets))
                };
            }
            let Some(cases) = self.cases(members, &node, overloads) else {
                return Outcome::Open(least_cost, None);
            };
            for case in cases {
                let hangs = members
                    .iter()
                    .zip(&case.states)
                    .all(|(&member, &state)| self.members[member].hangs(state));
                if !hangs {
                    stuck = Some(match stuck.take() {
                        Some(known) if known <= case => known,
                        _ => case,
                    });
                } else if met.insert(case.states.clone()) {
                    open.push(Reverse(case));
                }
            }
        }
        stuck.map_or(Outcome::Nothing, |stuck| {
            Outcome::Open(stuck.least_cost, None)
        })
    }

    fn node(&self, members: &[usize], states: Vec<usize>) -> Node {
        let of = || members.iter().zip(&states);
        Node {
            least_cost: of()
                .map(|(&member, &state)| self.members[member].least_cost(state))
                .sum(),
            keys: of()
                .map(|(&member, &state)| Arc::clone(self.members[member].key(state)))
                .collect(),
            states,
        }
    }

    /// Every place that sets and kept hangers overload, greatest excess first. Where kept
    /// hangers alone do, the sets are not to blame as long as they put nothing there.
    fn overloads(&self, chosen: &[Chosen]) -> Vec<Overload> {
        let mut loads: Vec<(usize, usize, Part)> = Vec::new();
        for kept in &self.kept {
            for &(place, load_n) in &kept.loads {
                let yields = None;
                loads.push((place, kept.order, Part { load_n, yields }));
            }
        }
        for (which, &(member, state)) in chosen.iter().enumerate() {
            let member = &self.members[member];
            for &(place, load_n) in member.loads(state) {
                let yields = Some(which);
                loads.push((place, member.order, Part { load_n, yields }));
            }
        }
        loads.sort_unstable_by_key(|&(place, order, _)| (place, order));
        let mut found: Vec<Overload> = loads
            .chunk_by(|a, b| a.0 == b.0)
            .filter_map(|at_place| {
                let place = at_place[0].0;
                let limit_n = self.places.limit_n(place);
                let sum = sum_n(at_place.iter().map(|(.., part)| part.load_n));
                let to_blame = at_place.iter().any(|(.., part)| part.yields.is_some());
                (to_blame && sum > limit_n).then(|| Overload {
                    place,
                    excess: (sum - limit_n) / sum,
                    parts: at_place.iter().map(|&(.., part)| part).collect(),
                })
            })
            .collect();
        found.sort_by(|a, b| b.excess.total_cmp(&a.excess));
        found
    }

    /// A node's cases at the overloaded place where the least of them is greatest; none
    /// if too many sets were tried.
    fn cases(
        &mut self,
        members: &[usize],
        node: &Node,
        overloads: Vec<Overload>,
    ) -> Option<Vec<Node>> {
        self.steps += 1;
        let mut best: Option<(usize, Vec<Node>)> = None;
        for overload in overloads.into_iter().take(LOOKED_AT) {
            let limit_n = self.places.limit_n(overload.place);
            let mut cases = Vec::new();
            for (which, most_n) in split(&overload.parts, limit_n) {
                if self.tried > MOST_SETS_TOGETHER || self.steps > MOST_STEPS {
                    return None;
                }
                let member = members[which];
                let caps = with_cap(
                    self.members[member].caps(node.states[which]),
                    overload.place,
                    most_n,
                );
                let state = self.under(member, caps, MOST_SETS);
                let known = &self.members[member];
                if !known.hangs(state) && known.is_proven(state) {
                    continue;
                }
                let mut states = node.states.clone();
                states[which] = state;
                cases.push(self.node(members, states));
            }
            cases.sort();
            let is_better =
                best.as_ref()
                    .is_none_or(|(_, known)| match (known.first(), cases.first()) {
                        (Some(known), Some(case)) => known < case,
                        (known, _) => known.is_some(),
                    });
            let is_done = cases.is_empty();
            if is_better {
                best = Some((overload.place, cases));
            }
            if is_done {
                break;
            }
        }
        let (place, cases) = best?;
        self.contested.insert(place);
        Some(cases)
    }

    /// A member's state under some caps, after so many sets at most.
    pub(super) fn under(&mut self, member: usize, caps: Caps, most: usize) -> usize {
        let (state, tried) = self.members[member].under(caps, most, &mut self.places);
        self.tried += tried;
        state
    }

    /// What chosen sets cost together, thousandths.
    pub(super) fn cost(&self, chosen: &[Chosen]) -> u64 {
        let cost = |&(member, state): &Chosen| self.members[member].cost(state);
        chosen.iter().map(cost).sum()
    }

    /// What kept hangers and the chosen sets of all members but one put on places.
    pub(super) fn others(&self, member: usize, chosen: &[Chosen]) -> Others {
        let mut loads: Vec<(usize, &[(usize, f64)])> = self
            .kept
            .iter()
            .map(|kept| (kept.order, kept.loads.as_slice()))
            .collect();
        loads.extend(
            chosen
                .iter()
                .filter(|(other, _)| *other != member)
                .map(|&(other, state)| {
                    (self.members[other].order, self.members[other].loads(state))
                }),
        );
        loads.sort_unstable_by_key(|&(order, _)| order);
        let mut others = Others::default();
        for (order, loads) in loads {
            others.add(order, loads);
        }
        others
    }
}

/// Caps with one more, or a lower one.
fn with_cap(caps: &[(usize, f64)], place: usize, most_n: f64) -> Caps {
    let mut caps = caps.to_vec();
    match caps.binary_search_by_key(&place, |&(place, _)| place) {
        Ok(at) => caps[at].1 = most_n,
        Err(at) => caps.insert(at, (place, most_n)),
    }
    caps
}
