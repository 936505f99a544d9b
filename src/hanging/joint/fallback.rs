//! What is answered where the search alone has no answer: no such sets exist, or too many
//! sets would have to be tried.

use super::search::{Chosen, Outcome, Search};

/// The most orders in which runs are hung one after the other for an answer that needn't
/// be the best: all of up to four runs.
const MOST_ORDERS: usize = 24;

/// Runs hung one after the other at most, all orders together: each is a search of its own.
const MOST_TURNS: usize = 240;

/// The sets tried for a run when it is hung beside others for an answer that needn't be
/// the best.
const SETS_IN_TURN: usize = 500;

/// The runs that hang, and how.
pub(super) struct Taken {
    /// The members that hang, with their states.
    pub(super) choice: Vec<Chosen>,
    /// They can't hang for less, thousandths.
    pub(super) least_cost: u64,
    pub(super) proven: bool,
}

/// Hangs all members, or those that can be.
pub(super) fn taken(search: &mut Search<'_>) -> Taken {
    let all: Vec<usize> = (0..search.members.len()).collect();
    match answer(search, &all) {
        Answer::Found(taken) => taken,
        Answer::Impossible | Answer::Unknown => one_after_the_other(search),
    }
}

/// Takes each member that can be hung beside those that were taken before.
fn one_after_the_other(search: &mut Search<'_>) -> Taken {
    let mut taken = Taken {
        choice: Vec::new(),
        least_cost: 0,
        proven: true,
    };
    let mut all_known = true;
    for member in 0..search.members.len() {
        let members: Vec<usize> = taken
            .choice
            .iter()
            .map(|&(taken, _)| taken)
            .chain([member])
            .collect();
        match answer(search, &members) {
            Answer::Found(more) => taken = more,
            Answer::Impossible => {}
            Answer::Unknown => all_known = false,
        }
    }
    taken.proven &= all_known;
    taken
}

enum Answer {
    Found(Taken),
    /// Proven.
    Impossible,
    /// Nothing was found.
    Unknown,
}

/// Hangs these members, ascending.
fn answer(search: &mut Search<'_>, members: &[usize]) -> Answer {
    match search.best(members) {
        Outcome::Best(choice) => Answer::Found(Taken {
            least_cost: search.cost(&choice),
            choice,
            proven: true,
        }),
        Outcome::Nothing => Answer::Impossible,
        Outcome::Open(least_cost, found) => match found.or_else(|| in_turns(search, members)) {
            Some(choice) => Answer::Found(Taken {
                choice,
                least_cost,
                proven: false,
            }),
            None => Answer::Unknown,
        },
    }
}

/// The cheapest that comes of hanging members one after the other, in several orders, each
/// beside those before it, and then of each again beside all others.
fn in_turns(search: &mut Search<'_>, members: &[usize]) -> Option<Vec<Chosen>> {
    let mut best: Option<(u64, Vec<Chosen>)> = None;
    for order in orders(members) {
        let mut choice = Vec::new();
        let hangs = order.into_iter().all(|member| {
            let state = beside(search, member, &choice);
            choice.push((member, state));
            search.members[member].hangs(state)
        });
        if !hangs {
            continue;
        }
        for which in 0..choice.len() {
            let (member, before) = choice[which];
            let state = beside(search, member, &choice);
            let known = &search.members[member];
            if known.hangs(state) && known.cost(state) < known.cost(before) {
                choice[which].1 = state;
            }
        }
        let cost = search.cost(&choice);
        if best.as_ref().is_none_or(|&(least, _)| cost < least) {
            choice.sort_unstable();
            best = Some((cost, choice));
        }
    }
    best.map(|(_, choice)| choice)
}

/// A member's state in the room that kept hangers and the chosen leave.
fn beside(search: &mut Search<'_>, member: usize, choice: &[Chosen]) -> usize {
    let order = search.members[member].order;
    let caps = search.others(member, choice).caps(order, &search.places);
    search.under(member, caps, SETS_IN_TURN)
}

/// All orders of a few members; of many, those that go round from each of some of them,
/// forward and backward.
fn orders(members: &[usize]) -> Vec<Vec<usize>> {
    let n = members.len();
    let most = MOST_ORDERS.min(MOST_TURNS / n.max(1)).max(2);
    if n <= 4 {
        return permutations(members);
    }
    let rounds = (most / 2).min(n);
    (0..rounds)
        .flat_map(|round| {
            let mut forward = members.to_vec();
            forward.rotate_left(round * n / rounds);
            let backward = forward.iter().rev().copied().collect();
            [forward, backward]
        })
        .collect()
}

fn permutations(members: &[usize]) -> Vec<Vec<usize>> {
    if members.is_empty() {
        return vec![Vec::new()];
    }
    (0..members.len())
        .flat_map(|first| {
            let mut rest = members.to_vec();
            let first = rest.remove(first);
            permutations(&rest).into_iter().map(move |mut order| {
                order.insert(0, first);
                order
            })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn few_are_tried_in_all_orders_and_many_in_some() {
        assert_eq!(orders(&[0, 1, 2]).len(), 6);
        assert_eq!(orders(&[0, 1, 2, 3]).len(), MOST_ORDERS);
        for n in [5, 7, 30, 400] {
            let members: Vec<usize> = (0..n).collect();
            let tried = orders(&members);
            assert!(tried.contains(&members) && tried.len() <= MOST_ORDERS);
            assert!(tried.len() * n <= MOST_TURNS.max(2 * n));
            for mut order in tried {
                order.sort_unstable();
                assert_eq!(order, members);
            }
        }
    }
}
