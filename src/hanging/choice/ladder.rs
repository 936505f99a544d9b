//! The candidates as rungs from burner to exhaust, and what must follow each.

use std::ops::Range;

use crate::geometry::tolerance;
use crate::hanging::candidate::NANOMETRES;
use crate::hanging::run::{HangingRule, Window};

/// A candidate as the choice sees it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rung {
    /// Its station, nm: exact, so that equal gaps compare equal.
    pub station_nm: i64,
    /// Its cost in whole thousandths.
    pub cost: u32,
}

impl Rung {
    /// A rung at a station rounded to [`tolerance::STATION`].
    #[must_use]
    pub fn new(station_m: f64, cost: u32) -> Self {
        Self {
            station_nm: nanometres(station_m),
            cost,
        }
    }
}

/// The least of what completes a set beyond some hanger: each figure on its own is
/// a lower bound for every completion of that least cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Rest {
    pub(super) cost: u64,
    /// Least greatest gap among the completions of that cost, nm.
    pub(super) gap_nm: i64,
    /// Least number of hangers among the completions of that cost.
    pub(super) number: u32,
}

impl Rest {
    /// No set can be completed from here.
    const DEAD_END: Self = Self {
        cost: u64::MAX,
        gap_nm: i64::MAX,
        number: u32::MAX,
    };
    /// The tube ends near enough: nothing need follow.
    const DONE: Self = Self {
        cost: 0,
        gap_nm: 0,
        number: 0,
    };

    pub(super) fn is_dead_end(&self) -> bool {
        self.cost == u64::MAX
    }

    /// The lesser cost; at equal cost the lesser of each figure.
    fn or(self, other: Self) -> Self {
        match self.cost.cmp(&other.cost) {
            std::cmp::Ordering::Less => self,
            std::cmp::Ordering::Greater => other,
            std::cmp::Ordering::Equal => Self {
                cost: self.cost,
                gap_nm: self.gap_nm.min(other.gap_nm),
                number: self.number.min(other.number),
            },
        }
    }
}

/// The rule's limits in whole nanometres, tolerance included.
#[derive(Debug, Clone, Copy)]
pub(super) struct Limits {
    first: Reach,
    second: Reach,
    further: Reach,
    /// Stations from here on leave no more than the greatest overhang.
    last_from_nm: i64,
}

impl Limits {
    pub(super) fn new(rule: &HangingRule, tube_length_m: f64) -> Self {
        Self {
            first: Reach::of(rule.first),
            second: Reach::after(rule.second),
            further: Reach::after(rule.spacing),
            last_from_nm: nanometres(tube_length_m)
                .saturating_sub(nanometres(rule.greatest_overhang_m + tolerance::LIMIT)),
        }
    }

    /// The same for a rule whose windows at the tube's two ends are wider by `ends_m` on
    /// either side, and all others by `gaps_m`; none where that would let a hanger be at,
    /// or before, the one before it.
    pub(super) fn freer(
        rule: &HangingRule,
        tube_length_m: f64,
        ends_m: f64,
        gaps_m: f64,
    ) -> Option<Self> {
        let wider = |window: Window, by_m: f64| Window {
            least_m: window.least_m - by_m,
            greatest_m: window.greatest_m + by_m,
        };
        let least_m = rule.second.least_m.min(rule.spacing.least_m);
        let in_order = gaps_m <= 0.0 || least_m - gaps_m > tolerance::LIMIT;
        in_order.then(|| Self {
            first: Reach::of(wider(rule.first, ends_m)),
            second: Reach::after(wider(rule.second, gaps_m)),
            further: Reach::after(wider(rule.spacing, gaps_m)),
            last_from_nm: nanometres(tube_length_m).saturating_sub(nanometres(
                rule.greatest_overhang_m + ends_m + tolerance::LIMIT,
            )),
        })
    }

    /// The fewest hangers that reach from the first window to where the tube may end.
    pub(super) fn fewest(&self) -> u64 {
        let after_first = self.last_from_nm.saturating_sub(self.first.greatest);
        let after_second = after_first.saturating_sub(self.second.greatest);
        if after_first <= 0 {
            return 1;
        }
        let length = u64::try_from(after_second).unwrap_or(0);
        let gap = u64::try_from(self.further.greatest).unwrap_or(0).max(1);
        2 + length.div_ceil(gap)
    }

    /// The first station where any hanger may be.
    pub(super) fn first_from_nm(&self) -> i64 {
        self.first.least
    }

    /// The farthest station where the first hanger may be.
    pub(super) fn first_upto_nm(&self) -> i64 {
        self.first.greatest
    }

    /// The first station where the last hanger may be.
    pub(super) fn last_from_nm(&self) -> i64 {
        self.last_from_nm
    }

    /// The greatest that any two hangers which follow each other may be apart.
    pub(super) fn greatest_gap_nm(&self) -> i64 {
        self.second.greatest.max(self.further.greatest)
    }

    /// Whether the tube beyond a rung is short enough.
    pub(super) fn may_end(&self, rung: Rung) -> bool {
        rung.station_nm >= self.last_from_nm
    }

    /// The rungs where the first hanger may be.
    pub(super) fn firsts(&self, rungs: &[Rung]) -> Range<usize> {
        self.first.range(rungs)
    }

    /// Where the second hanger may be after a first one.
    pub(super) fn second_after(&self, first: Rung) -> Reach {
        self.second.from(first.station_nm)
    }

    /// Where a further hanger may be after the one before it.
    pub(super) fn further_after(&self, before: Rung) -> Reach {
        self.further.from(before.station_nm)
    }
}

/// A window of whole nanometres, both ends included.
#[derive(Debug, Clone, Copy)]
pub(super) struct Reach {
    pub(super) least: i64,
    pub(super) greatest: i64,
}

impl Reach {
    /// A window with the tolerance that all limits have.
    fn of(window: Window) -> Self {
        Self {
            least: nanometres(window.least_m - tolerance::LIMIT),
            greatest: nanometres(window.greatest_m + tolerance::LIMIT),
        }
    }

    /// The same, for something that must come after something else.
    fn after(window: Window) -> Self {
        let reach = Self::of(window);
        Self {
            least: reach.least.max(1),
            ..reach
        }
    }

    fn from(self, station_nm: i64) -> Self {
        Self {
            least: station_nm + self.least,
            greatest: station_nm + self.greatest,
        }
    }

    /// The rungs within it.
    pub(super) fn range(self, rungs: &[Rung]) -> Range<usize> {
        let start = rungs.partition_point(|rung| rung.station_nm < self.least);
        let end = rungs.partition_point(|rung| rung.station_nm <= self.greatest);
        start..end.max(start)
    }
}

/// Whole nanometres; far beyond any tube for infinite limits.
fn nanometres(length_m: f64) -> i64 {
    /// A thousand kilometres: sums of a few stay far inside the integer's range.
    const FAR: f64 = 1e15;
    #[expect(
        clippy::cast_possible_truncation,
        reason = "rounded and held within a range that the integer covers"
    )]
    let whole = (length_m * NANOMETRES).round().clamp(-FAR, FAR) as i64;
    whole
}

/// Candidates of a run in order, and what must follow each.
#[derive(Debug, Clone)]
pub(super) struct Ladder {
    pub(super) rungs: Vec<Rung>,
    limits: Limits,
    /// What must follow each rung, were it a second or further hanger.
    pub(super) rest: Vec<Rest>,
    /// Its cost and that of the rest.
    pub(super) through: Vec<u64>,
    /// The rungs that may follow each rung, were it a second or further hanger.
    next: Vec<Range<usize>>,
}

impl Ladder {
    /// Links the rungs of one run.
    pub(super) fn new(limits: Limits, rungs: Vec<Rung>) -> Self {
        let mut ladder = Self {
            limits,
            rest: vec![Rest::DEAD_END; rungs.len()],
            through: vec![Rest::DEAD_END.cost; rungs.len()],
            next: Vec::with_capacity(rungs.len()),
            rungs,
        };
        ladder.link();
        ladder.look_ahead();
        ladder
    }

    /// Finds what may follow each rung, with two fingers that only advance.
    fn link(&mut self) {
        let (mut start, mut end) = (0, 0);
        let rungs = &self.rungs;
        for &rung in rungs {
            let reach = self.limits.further_after(rung);
            while start < rungs.len() && rungs[start].station_nm < reach.least {
                start += 1;
            }
            while end < rungs.len() && rungs[end].station_nm <= reach.greatest {
                end += 1;
            }
            self.next.push(start..end.max(start));
        }
    }

    /// Fills `rest` from the far end. Two queues slide with the window: one keeps
    /// what can be the least in (cost, gap), the other in (cost, number). An entry
    /// that is no better than a nearer one can never be the least again.
    fn look_ahead(&mut self) {
        let mut by_gap = Queue::with_capacity(self.rungs.len());
        let mut by_number = Queue::with_capacity(self.rungs.len());
        let mut entered = self.rungs.len();
        for index in (0..self.rungs.len()).rev() {
            let window = self.next[index].clone();
            while entered > window.start {
                entered -= 1;
                let rest = self.rest[entered];
                if !rest.is_dead_end() {
                    let cost = self.through[entered];
                    by_gap.enter(entered, cost, rest.gap_nm);
                    by_number.enter(entered, cost, i64::from(rest.number));
                }
            }
            by_gap.leave(window.end);
            by_number.leave(window.end);
            let mut rest = self.end_of(index);
            if let (Some(cost), Some(number)) = (by_gap.least_cost(), by_number.least_second()) {
                let from_nm = self.rungs[index].station_nm;
                rest = rest.or(Rest {
                    cost,
                    gap_nm: by_gap.least_gap(from_nm, &self.rungs),
                    number: 1 + u32::try_from(number).unwrap_or(u32::MAX - 1),
                });
            }
            self.rest[index] = rest;
            if !rest.is_dead_end() {
                self.through[index] = rest.cost + u64::from(self.rungs[index].cost);
            }
        }
    }

    /// Done, where a set may end with this rung.
    fn end_of(&self, index: usize) -> Rest {
        if self.may_end(index) {
            Rest::DONE
        } else {
            Rest::DEAD_END
        }
    }

    /// Whether the tube beyond a rung is short enough.
    pub(super) fn may_end(&self, index: usize) -> bool {
        self.limits.may_end(self.rungs[index])
    }

    /// The rungs where the first hanger may be.
    pub(super) fn firsts(&self) -> Range<usize> {
        self.limits.firsts(&self.rungs)
    }

    /// The rungs that may follow the given one, the `nth` of its set.
    pub(super) fn followers(&self, index: usize, nth: usize) -> Range<usize> {
        if nth == 1 {
            self.limits
                .second_after(self.rungs[index])
                .range(&self.rungs)
        } else {
            self.next[index].clone()
        }
    }

    /// What must follow a rung that is the first hanger.
    pub(super) fn rest_of_first(&self, index: usize) -> Rest {
        let from_nm = self.rungs[index].station_nm;
        self.followers(index, 1)
            .filter(|&second| !self.rest[second].is_dead_end())
            .fold(self.end_of(index), |least, second| {
                let (rung, rest) = (self.rungs[second], self.rest[second]);
                least.or(Rest {
                    cost: self.through[second],
                    gap_nm: rest.gap_nm.max(rung.station_nm - from_nm),
                    number: rest.number + 1,
                })
            })
    }
}

/// A sliding window's candidates for the least (cost, second figure): from front
/// (far) to back (near) the pairs strictly grow.
struct Queue {
    entries: Vec<Entry>,
    front: usize,
}

#[derive(Clone, Copy)]
struct Entry {
    index: usize,
    cost: u64,
    second: i64,
}

impl Queue {
    fn with_capacity(capacity: usize) -> Self {
        Self {
            entries: Vec::with_capacity(capacity),
            front: 0,
        }
    }

    /// A nearer entry: whatever isn't better than it is forgotten.
    fn enter(&mut self, index: usize, cost: u64, second: i64) {
        while let Some(last) = self.entries[self.front..].last()
            && (last.cost, last.second) >= (cost, second)
        {
            self.entries.pop();
        }
        self.entries.push(Entry {
            index,
            cost,
            second,
        });
    }

    /// Forgets the entries from `end` on.
    fn leave(&mut self, end: usize) {
        while self
            .entries
            .get(self.front)
            .is_some_and(|entry| entry.index >= end)
        {
            self.front += 1;
        }
    }

    fn least_cost(&self) -> Option<u64> {
        self.entries.get(self.front).map(|entry| entry.cost)
    }

    fn least_second(&self) -> Option<i64> {
        self.entries.get(self.front).map(|entry| entry.second)
    }

    /// The least greatest gap from a station on, among the entries of least cost.
    /// Towards the near end the gap shrinks while what follows it grows: the least
    /// is where the two cross.
    fn least_gap(&self, from_nm: i64, rungs: &[Rung]) -> i64 {
        let Some(cost) = self.least_cost() else {
            return i64::MAX;
        };
        let live = &self.entries[self.front..];
        let gap = |entry: &Entry| rungs[entry.index].station_nm - from_nm;
        let crossing =
            live.partition_point(|entry| entry.cost == cost && gap(entry) > entry.second);
        let before = crossing.checked_sub(1).map(|at| gap(&live[at]));
        let after = live
            .get(crossing)
            .filter(|entry| entry.cost == cost)
            .map(|entry| entry.second);
        before.into_iter().chain(after).min().unwrap_or(i64::MAX)
    }
}
