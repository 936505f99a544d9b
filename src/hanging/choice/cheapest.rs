//! The least cost of a set through each rung.

use super::ladder::{Limits, Rung};

/// Beyond any sum of costs: no set can be completed.
pub(super) const DEAD_END: u64 = u64::MAX;

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
        let rest = if limits.may_end(rungs[first]) {
            0
        } else {
            let seconds = limits.second_after(rungs[first]).range(rungs);
            after[seconds].iter().copied().min().unwrap_or(DEAD_END)
        };
        least[first] = least[first].min(u64::from(rungs[first].cost).saturating_add(rest));
    }
    least
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
