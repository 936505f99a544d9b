//! The least cost of a set, and of a set through each rung.

use super::ladder::{Limits, Rung};

/// Beyond any sum of costs: no set can be completed.
pub(super) const DEAD_END: u64 = u64::MAX;

/// The least cost of a set, and, ascending, the rungs of the sets that cost no more;
/// none if there is no set.
pub(super) fn cheapest(limits: &Limits, rungs: &[Rung]) -> Option<(u64, Vec<usize>)> {
    let after = after(limits, rungs);
    let cost = |rung: usize| u64::from(rungs[rung].cost);
    let with_first: Vec<(usize, u64)> = limits
        .firsts(rungs)
        .map(|first| (first, rest_of_first(limits, rungs, &after, first)))
        .map(|(first, rest)| (first, rest.saturating_add(cost(first))))
        .collect();
    let least = with_first.iter().map(|&(_, total)| total).min()?;
    if least == DEAD_END {
        return None;
    }
    // Along the sets of least cost what follows a rung costs just what is left.
    let mut names: Vec<usize> = Vec::new();
    let mut is_followed = vec![false; rungs.len()];
    let mut open = Vec::new();
    for (first, _) in with_first.into_iter().filter(|&(_, total)| total == least) {
        names.push(first);
        let rest = least - cost(first);
        for second in limits.second_after(rungs[first]).range(rungs) {
            if after[second] == rest && !std::mem::replace(&mut is_followed[second], true) {
                open.push(second);
            }
        }
    }
    while let Some(rung) = open.pop() {
        names.push(rung);
        let rest = after[rung] - cost(rung);
        for next in limits.further_after(rungs[rung]).range(rungs) {
            if after[next] == rest && !std::mem::replace(&mut is_followed[next], true) {
                open.push(next);
            }
        }
    }
    names.sort_unstable();
    names.dedup();
    Some((least, names))
}

/// The least cost of a set; `DEAD_END` if there is none.
pub(super) fn least(limits: &Limits, rungs: &[Rung]) -> u64 {
    let firsts = limits.firsts(rungs);
    if firsts.is_empty() {
        return DEAD_END;
    }
    let after = after(limits, rungs);
    firsts
        .map(|first| {
            rest_of_first(limits, rungs, &after, first).saturating_add(u64::from(rungs[first].cost))
        })
        .min()
        .unwrap_or(DEAD_END)
}

/// For each rung the least cost of all sets that it is in; `DEAD_END` if it is in none.
pub(super) fn least_with(limits: &Limits, rungs: &[Rung]) -> Vec<u64> {
    let after = after(limits, rungs);
    let before = before(limits, rungs);
    let mut least: Vec<u64> = before
        .iter()
        .zip(&after)
        .map(|(&before, &after)| before.saturating_add(after))
        .collect();
    for first in limits.firsts(rungs) {
        let rest = rest_of_first(limits, rungs, &after, first);
        least[first] = least[first].min(rest.saturating_add(u64::from(rungs[first].cost)));
    }
    least
}

/// The least that completes a set after its first hanger.
fn rest_of_first(limits: &Limits, rungs: &[Rung], after: &[u64], first: usize) -> u64 {
    if limits.may_end(rungs[first]) {
        return 0;
    }
    let seconds = limits.second_after(rungs[first]).range(rungs);
    after[seconds].iter().copied().min().unwrap_or(DEAD_END)
}

/// For each rung, were it a second or further hanger, its cost and the least that
/// completes a set. The window of what may follow slides towards the burner: of two
/// rungs in it the nearer one stays longer, so a farther one that isn't cheaper can be
/// forgotten, and the least is always at the front of what is left.
fn after(limits: &Limits, rungs: &[Rung]) -> Vec<u64> {
    let mut after = vec![DEAD_END; rungs.len()];
    let mut window = Sliding::with_capacity(rungs.len());
    let mut entered = rungs.len();
    for (index, &rung) in rungs.iter().enumerate().rev() {
        let reach = limits.further_after(rung);
        while entered > index + 1 && rungs[entered - 1].station_nm >= reach.least {
            entered -= 1;
            window.enter(rungs[entered].station_nm, after[entered]);
        }
        window.leave(|station_nm| station_nm > reach.greatest);
        let rest = if limits.may_end(rung) {
            0
        } else {
            window.least()
        };
        after[index] = rest.saturating_add(u64::from(rung.cost));
    }
    after
}

/// For each rung, were it a second or further hanger, the least cost of what comes
/// before it: the same from the other end.
fn before(limits: &Limits, rungs: &[Rung]) -> Vec<u64> {
    let mut before = vec![DEAD_END; rungs.len()];
    for first in limits.firsts(rungs) {
        let cost = u64::from(rungs[first].cost);
        for second in limits.second_after(rungs[first]).range(rungs) {
            before[second] = before[second].min(cost);
        }
    }
    let mut window = Sliding::with_capacity(rungs.len());
    let mut entered = 0;
    for index in 0..rungs.len() {
        let station_nm = rungs[index].station_nm;
        while entered < index && limits.further_after(rungs[entered]).least <= station_nm {
            let cost = before[entered].saturating_add(u64::from(rungs[entered].cost));
            window.enter(limits.further_after(rungs[entered]).greatest, cost);
            entered += 1;
        }
        window.leave(|greatest_nm| greatest_nm < station_nm);
        before[index] = before[index].min(window.least());
    }
    before
}

/// The least cost within a sliding window.
struct Sliding {
    /// Where each stands that may yet be the least, and its cost; costs grow from the
    /// front (which leaves first) to the back.
    entries: Vec<(i64, u64)>,
    front: usize,
}

impl Sliding {
    fn with_capacity(capacity: usize) -> Self {
        Self {
            entries: Vec::with_capacity(capacity),
            front: 0,
        }
    }

    fn enter(&mut self, at_nm: i64, cost: u64) {
        if cost == DEAD_END {
            return;
        }
        while self.entries.len() > self.front
            && self.entries.last().is_some_and(|&(_, last)| last >= cost)
        {
            self.entries.pop();
        }
        self.entries.push((at_nm, cost));
    }

    fn leave(&mut self, left: impl Fn(i64) -> bool) {
        while self
            .entries
            .get(self.front)
            .is_some_and(|&(at_nm, _)| left(at_nm))
        {
            self.front += 1;
        }
    }

    fn least(&self) -> u64 {
        self.entries
            .get(self.front)
            .map_or(DEAD_END, |&(_, cost)| cost)
    }
}
