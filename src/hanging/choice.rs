//! Sets of hangers that obey a hanging rule, cheapest first.
//!
//! The order is that of DESIGN.md section 14, *Choice*: cost in whole thousandths,
//! greatest gap, number, stations, member ids. Sets come one at a time, so that the
//! first whose loads are allowed is the answer, proven.
//!
//! A set is a path: each hanger leads to those within the next window. Three steps,
//! each on less than the one before:
//! - the least cost of what completes a set from each candidate, by dynamic programming
//!   from the far end with a sliding minimum, O(n) (`cheapest`);
//! - on the candidates of the cheapest sets alone, the least greatest gap and the
//!   least number too, O(n log n) (`Ladder`);
//! - a best-first search through their paths with these as bounds (`RankedSets`). A
//!   bound never exceeds what it bounds in the order above, so sets leave the search
//!   in exactly that order.
//!
//! Only when the loads refuse every cheapest set do dearer candidates join in, by and
//! by.

mod cheapest;
mod ladder;
mod ranked;
mod with_channel;

use cheapest::{DEAD_END, cheapest, least, least_with};
use ladder::{Ladder, Limits};
use ranked::RankedSets;
pub(super) use with_channel::ChannelBounds;

use super::run::HangingRule;

pub use ladder::Rung;
pub use ranked::Beginning;
pub(super) use ranked::MOST_ASKED;

/// A set of hangers, with the figures that it is ranked by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RankedSet<'a> {
    /// The chosen rungs, from burner to exhaust.
    pub rungs: &'a [usize],
    /// Sum of their costs, in thousandths.
    pub cost: u64,
    /// Greatest distance between two that follow each other, nm; 0 for one alone.
    pub greatest_gap_nm: i64,
}

/// The fewest hangers that a rule lets a tube have, wherever they may be.
pub(super) fn fewest_hangers(rule: &HangingRule, tube_length_m: f64) -> u64 {
    Limits::new(rule, tube_length_m).fewest()
}

/// A rule whose windows at the tube's two ends are wider by `ends_m`, and all others by
/// `gaps_m`; none where that would let hangers be out of order.
#[derive(Debug, Clone, Copy)]
pub(super) struct FreerRule {
    limits: Limits,
}

impl FreerRule {
    /// The freer rule.
    pub(super) fn new(
        rule: &HangingRule,
        tube_length_m: f64,
        ends_m: f64,
        gaps_m: f64,
    ) -> Option<Self> {
        let limits = Limits::freer(rule, tube_length_m, ends_m, gaps_m)?;
        Some(Self { limits })
    }

    /// The least cost of a set of rungs, which ascend by station; [`u64::MAX`] if there
    /// is none.
    pub(super) fn least_cost(&self, rungs: &[Rung]) -> u64 {
        least(&self.limits, rungs)
    }

    /// Lower bounds of the cost of sets of these rungs and a channel between two stations.
    pub(super) fn channel_bounds(
        &self,
        rungs: &[Rung],
        channel: u32,
        within_m: (f64, f64),
    ) -> ChannelBounds {
        ChannelBounds::new(&self.limits, rungs, channel, within_m)
    }
}

/// All sets of a run's candidates that obey its rule, in the order of preference.
#[derive(Debug)]
pub struct Choice {
    limits: Limits,
    rungs: Vec<Rung>,
    /// The least cost of any set.
    least: u64,
    /// The least cost of the sets that each rung is in; empty until it is needed.
    least_with: Vec<u64>,
    /// The search among the rungs of the sets that cost at most `budget`.
    sets: RankedSets,
    names: Vec<usize>,
    budget: u64,
    /// Sets that cost this or less were handed out already.
    done: Option<u64>,
    /// The set that was handed out last.
    set: Vec<usize>,
}

impl Choice {
    /// Starts the choice among rungs, which must ascend by station and stand in the
    /// order of their member ids at one station.
    #[must_use]
    pub fn new(rule: &HangingRule, tube_length_m: f64, rungs: Vec<Rung>) -> Self {
        let limits = Limits::new(rule, tube_length_m);
        let (least, names) = cheapest(&limits, &rungs).unwrap_or((DEAD_END, Vec::new()));
        let few = names.iter().map(|&name| rungs[name]).collect();
        Self {
            sets: RankedSets::new(Ladder::new(limits, few)),
            limits,
            rungs,
            least,
            least_with: Vec::new(),
            names,
            budget: least,
            done: None,
            set: Vec::new(),
        }
    }

    /// The least cost of any set; more than any sum where there is none.
    pub(super) fn least_cost(&self) -> u64 {
        self.least
    }

    /// Lower bounds of the cost of sets of these rungs and one hanger at least that is on
    /// a channel, at `channel` thousandths each.
    pub(super) fn channel_bounds(&self, channel: u32, tube_length_m: f64) -> ChannelBounds {
        ChannelBounds::new(&self.limits, &self.rungs, channel, (0.0, tube_length_m))
    }

    /// The next best set, if there is one.
    pub fn next_set(&mut self) -> Option<RankedSet<'_>> {
        self.next_set_where(&|_| Beginning::Promising)
    }

    /// The next best set, if there is one, passing over those that `judge` says have a
    /// lost beginning. It is asked for the first three rungs and up to a few more; once
    /// it has had enough, there is no next set.
    pub fn next_set_where(
        &mut self,
        judge: &dyn Fn(&[usize]) -> Beginning,
    ) -> Option<RankedSet<'_>> {
        loop {
            let names = &self.names;
            let named_judge = |rungs: &[usize]| {
                let mut named = [0; MOST_ASKED];
                for (name, &rung) in named.iter_mut().zip(rungs) {
                    *name = names[rung];
                }
                judge(&named[..rungs.len()])
            };
            let found = self.sets.next_set(&named_judge).map(|set| {
                self.set.clear();
                self.set.extend(set.rungs.iter().map(|&rung| names[rung]));
                (set.cost, set.greatest_gap_nm)
            });
            match found {
                Some((cost, greatest_gap_nm)) if cost <= self.budget => {
                    if self.done.is_none_or(|done| cost > done) {
                        return Some(RankedSet {
                            rungs: &self.set,
                            cost,
                            greatest_gap_nm,
                        });
                    }
                }
                _ if self.sets.has_had_enough() => return None,
                _ => self.raise_budget()?,
            }
        }
    }

    /// Takes in dearer rungs, and dearer sets of those that are in; none if all are.
    fn raise_budget(&mut self) -> Option<()> {
        if self.budget == DEAD_END {
            return None;
        }
        if self.least_with.is_empty() {
            self.least_with = least_with(&self.limits, &self.rungs);
        }
        let dearer = self.least_with.iter().copied();
        let next = dearer.filter(|&cost| cost > self.budget).min();
        self.done = Some(self.budget);
        // Twice what it was over the least, so that sets are passed over twice at most
        // on average.
        let next = next.unwrap_or(DEAD_END);
        self.budget = next.max(self.budget.saturating_add(self.budget - self.least));
        let usable = |&rung: &usize| self.least_with[rung] != DEAD_END;
        let usable = (0..self.rungs.len()).filter(usable);
        self.names.clear();
        self.names.extend(
            usable
                .clone()
                .filter(|&rung| self.least_with[rung] <= self.budget),
        );
        if usable.count() == self.names.len() {
            // All are in: sets of any cost come from here.
            self.budget = DEAD_END;
        }
        let few = self.names.iter().map(|&name| self.rungs[name]).collect();
        self.sets = RankedSets::new(Ladder::new(self.limits, few));
        Some(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hanging::run::Window;

    const TUBE_M: f64 = 6.0;

    fn rule() -> HangingRule {
        let window = |least_m, greatest_m| Window {
            least_m,
            greatest_m,
        };
        HangingRule {
            first: window(0.1, 0.8),
            second: window(0.8, 2.0),
            spacing: window(0.6, 2.4),
            greatest_overhang_m: 1.2,
            joints_m: Vec::new(),
            joint_keep_off_m: 0.0,
            least_suspension_m: 0.0,
            greatest_lean_rad: 0.1,
            greatest_swing_rad: 0.1,
        }
    }

    /// Few different stations and costs, so that ties of every kind come up.
    fn random_rungs(random: &mut fastrand::Rng) -> Vec<Rung> {
        let mut rungs: Vec<Rung> = (0..random.usize(5..22))
            .map(|_| {
                let station_m = f64::from(random.u8(0..31)) * 0.2;
                Rung::new(station_m, [0, 1_000, 1_000, 1_500][random.usize(0..4)])
            })
            .collect();
        rungs.sort_by_key(|rung| rung.station_nm);
        rungs
    }

    /// Every set, by the definition of the order.
    fn listed(rungs: &[Rung]) -> Vec<Vec<usize>> {
        let mut sets = Vec::new();
        let mut open: Vec<Vec<usize>> = (0..rungs.len()).map(|rung| vec![rung]).collect();
        let at = |rung: usize| rungs[rung].station_nm;
        while let Some(set) = open.pop() {
            let (first, last) = (set[0], set[set.len() - 1]);
            let gaps: Vec<i64> = set
                .windows(2)
                .map(|pair| at(pair[1]) - at(pair[0]))
                .collect();
            let within = |gap: i64, least: i64, greatest: i64| {
                least - 1_000 <= gap && gap <= greatest + 1_000 && gap > 0
            };
            let obeys = within(at(first), 100_000_000, 800_000_000)
                && gaps.iter().enumerate().all(|(nth, &gap)| match nth {
                    0 => within(gap, 800_000_000, 2_000_000_000),
                    _ => within(gap, 600_000_000, 2_400_000_000),
                });
            if obeys {
                open.extend((last + 1..rungs.len()).map(|next| {
                    let mut longer = set.clone();
                    longer.push(next);
                    longer
                }));
                if at(last) >= 4_800_000_000 - 1_000 {
                    sets.push(set);
                }
            }
        }
        sets.sort_by_key(|set| {
            let stations: Vec<i64> = set.iter().map(|&rung| at(rung)).collect();
            let gaps = stations.windows(2).map(|pair| pair[1] - pair[0]);
            (
                set.iter().map(|&rung| rungs[rung].cost).sum::<u32>(),
                gaps.max().unwrap_or(0),
                set.len(),
                stations,
                set.clone(),
            )
        });
        sets
    }

    #[test]
    fn sets_come_in_the_order_of_preference() {
        let mut random = fastrand::Rng::with_seed(31);
        let mut longest = 0;
        for _ in 0..150 {
            let rungs = random_rungs(&mut random);
            let expected = listed(&rungs);
            longest = longest.max(expected.len());
            let mut choice = Choice::new(&rule(), TUBE_M, rungs);
            for set in &expected {
                assert_eq!(
                    choice.next_set().map(|it| it.rungs.to_vec()),
                    Some(set.clone())
                );
            }
            assert_eq!(choice.next_set(), None);
        }
        assert!(longest > 300, "{longest} sets at most");
    }

    #[test]
    fn lost_beginnings_and_nothing_else_are_passed_over() {
        let mut random = fastrand::Rng::with_seed(32);
        for _ in 0..80 {
            let rungs = random_rungs(&mut random);
            let is_lost =
                |set: &[usize]| set.len() >= 3 && (set[0] + set[1] + set[2]).is_multiple_of(3);
            let expected: Vec<Vec<usize>> = listed(&rungs)
                .into_iter()
                .filter(|set| !is_lost(set))
                .collect();
            let mut choice = Choice::new(&rule(), TUBE_M, rungs);
            let judge = |rungs: &[usize]| {
                if is_lost(rungs) {
                    Beginning::Lost
                } else {
                    Beginning::Promising
                }
            };
            for set in &expected {
                let next = choice.next_set_where(&judge).map(|it| it.rungs.to_vec());
                assert_eq!(next.as_ref(), Some(set));
            }
            assert_eq!(choice.next_set_where(&judge), None);
            assert_eq!(choice.next_set_where(&|_| Beginning::Enough), None);
        }
    }
}
