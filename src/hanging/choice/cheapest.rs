//! The least cost of a set, and the rungs that are in a set of that cost.

use super::ladder::{Limits, Rung};

/// Beyond any sum of costs: no set can be completed.
const DEAD_END: u64 = u64::MAX;

/// The least cost, and, ascending, the rungs of the sets that cost no more; none if
/// there is no set.
pub(super) fn cheapest(limits: &Limits, rungs: &[Rung]) -> Option<(u64, Vec<usize>)> {
    let through = through(limits, rungs);
    let cost = |rung: usize| u64::from(rungs[rung].cost);
    let rest_of_first = |first: usize| {
        if limits.may_end(rungs[first]) {
            return 0;
        }
        let seconds = limits.second_after(rungs[first]).range(rungs);
        through[seconds].iter().copied().min().unwrap_or(DEAD_END)
    };
    let firsts: Vec<(usize, u64)> = limits
        .firsts(rungs)
        .map(|first| (first, rest_of_first(first)))
        .filter(|&(_, rest)| rest != DEAD_END)
        .collect();
    let least = firsts
        .iter()
        .map(|&(first, rest)| cost(first) + rest)
        .min()?;
    let mut member = vec![false; rungs.len()];
    let mut followed = vec![false; rungs.len()];
    let mut open = Vec::new();
    for &(first, rest) in &firsts {
        if cost(first) + rest == least {
            member[first] = true;
            for second in limits.second_after(rungs[first]).range(rungs) {
                if through[second] == rest && !std::mem::replace(&mut followed[second], true) {
                    open.push(second);
                }
            }
        }
    }
    while let Some(rung) = open.pop() {
        member[rung] = true;
        let rest = through[rung] - cost(rung);
        for next in limits.further_after(rungs[rung]).range(rungs) {
            if through[next] == rest && !std::mem::replace(&mut followed[next], true) {
                open.push(next);
            }
        }
    }
    let names = (0..rungs.len()).filter(|&rung| member[rung]).collect();
    Some((least, names))
}

/// For each rung, were it a second or further hanger, its cost and the least that
/// completes a set. The window of what may follow slides towards the burner: of two
/// rungs in it the nearer one stays longer, so a farther one that isn't cheaper can be
/// forgotten, and the least is always at the front of what is left.
fn through(limits: &Limits, rungs: &[Rung]) -> Vec<u64> {
    let mut through = vec![DEAD_END; rungs.len()];
    let mut queue: Vec<usize> = Vec::with_capacity(rungs.len());
    let mut front = 0;
    let mut entered = rungs.len();
    for (index, rung) in rungs.iter().enumerate().rev() {
        let window = limits.further_after(*rung);
        while entered > index + 1 && rungs[entered - 1].station_nm >= window.least {
            entered -= 1;
            let cost = through[entered];
            if cost != DEAD_END {
                while queue.len() > front && through[queue[queue.len() - 1]] >= cost {
                    queue.pop();
                }
                queue.push(entered);
            }
        }
        while front < queue.len() && rungs[queue[front]].station_nm > window.greatest {
            front += 1;
        }
        let rest = if limits.may_end(*rung) {
            0
        } else {
            queue.get(front).map_or(DEAD_END, |&next| through[next])
        };
        if rest != DEAD_END {
            through[index] = u64::from(rung.cost) + rest;
        }
    }
    through
}
