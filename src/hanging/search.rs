//! The first set, in the order of preference, whose loads are allowed.

use std::cell::{Cell, OnceCell};

use super::beam::BeamLoad;
use super::candidate::{Candidate, Gathering, Spot};
use super::case::Case;
use super::choice::{Beginning, Choice, MOST_ASKED, Rung};
use super::first_pull::FirstPull;
use super::loads::Judge;
use super::steel::Capacity;
use crate::geometry::tolerance;

/// The most sets whose loads are tried before the answer is called unproven.
pub const MOST_SETS: usize = 10_000;

/// Beginnings that may be left at once for each set that may be tried, before the answer
/// is called unproven: most stand for many sets.
const REFUSED_PER_SET: usize = 5;

/// The sets tried to see whether a run could hang without some limit: a search that
/// is done for each limit, for a yes.
pub(super) const SETS_FOR_A_YES: usize = 500;

/// The least strengths, spread over those that there are, and the sets tried for
/// each, when the order of preference has run too long: this search is for an answer,
/// not for the best one.
const STRENGTHS: usize = 8;
const SETS_PER_STRENGTH: usize = 50;

/// The sets tried while only such channels are looked for as a cheap set could have,
/// before all are.
const SETS_WITH_FEW_CHANNELS: usize = 50;

/// How many budgets of such sets are tried.
const FEW_CHANNELS_TRIES: usize = 3;

/// How many beginnings can be left at once while the loads of one set are worked out.
const WORK_OF_A_SET: usize = 8;

/// What a search came to.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Found {
    /// The chosen candidates, if a set was found.
    pub(super) chosen: Option<Vec<Candidate>>,
    /// Sets tried.
    pub(super) tried: usize,
    /// Beginnings of sets left at once, and sets tried, each of which takes as long as
    /// [`WORK_OF_A_SET`] of those.
    pub(super) work: usize,
    /// The answer is proven: nothing better, or nothing at all.
    pub(super) complete: bool,
    /// No allowed set costs less, thousandths; none where there is no allowed set.
    pub(super) least_cost: Option<u64>,
}

/// The same as [`search`] among all candidates of a run, and the candidates that it
/// needed. Channels, by far the most of them, are gathered only where a set with one
/// could be the answer: a set that costs no more than some budget, and all sets that are
/// preferred to it, have channels only where [`super::choice::ChannelBounds`] allow sets of that budget.
/// So the first allowed set, if it keeps the budget, is the answer.
///
/// Where no set was proven after `most`, there is none, or some that [`any_allowed`] may
/// find. Sets that cost `below` or more are none; [`u64::MAX`] is more than any.
pub(super) fn best<'a>(case: &'a Case<'a>, most: usize, below: u64) -> (Gathering<'a>, Found) {
    let direct = Gathering::direct_alone(case);
    if most < SETS_WITH_FEW_CHANNELS {
        let all = direct.with_channels();
        let found = first_allowed(&all, most, below);
        return (all, found);
    }
    let channel = case.costs.channel;
    let straight = choice(&direct, &usable(&direct));
    let bounds = straight.channel_bounds(channel, case.run.tube_length_m);
    if below < u64::MAX && straight.least_cost().min(bounds.least) >= below {
        return (direct, Found::NONE);
    }
    if straight.least_cost() < bounds.least
        && let Some(found) = first_below(&direct, bounds.least.min(below))
    {
        return (direct, found);
    }
    let mut budget = bounds.least;
    for _ in 0..FEW_CHANNELS_TRIES {
        let some = direct.with_channels_where(&|station_m| bounds.allows(station_m, budget));
        if let Some(found) = first_below(&some, budget.saturating_add(1).min(below)) {
            return (some, found);
        }
        let Some(next) = bounds.next_above(budget) else {
            break;
        };
        budget = next;
    }
    let all = direct.with_channels();
    let found = first_allowed(&all, most, below);
    (all, found)
}

/// The first allowed set that costs less than `below`, if it is found soon.
fn first_below(some: &Gathering<'_>, below: u64) -> Option<Found> {
    let usable = usable(some);
    let choice = choice(some, &usable);
    if choice.least_cost() >= below {
        return None;
    }
    let load = some.case.weight.beam_load(some.case.run.tube_length_m);
    let mut trial = Trial::new(some, &load);
    let found = trial.first_allowed_of(choice, &usable, SETS_WITH_FEW_CHANNELS, below);
    found.chosen.is_some().then_some(found)
}

impl Found {
    /// No set, proven without trying any.
    const NONE: Self = Self {
        chosen: None,
        tried: 0,
        work: 0,
        complete: true,
        least_cost: None,
    };
}

/// Tries the sets of a run's usable candidates in the order of preference, `most` of
/// them at most; beyond that, a few of the strongest. Sets whose first hanger is sure
/// to ask too much of its hold needn't be tried.
pub(super) fn search(all: &Gathering<'_>, most: usize) -> Found {
    let mut found = first_allowed(all, most, u64::MAX);
    if !found.complete {
        found.chosen = any_allowed(all);
    }
    found
}

fn first_allowed(all: &Gathering<'_>, most: usize, below: u64) -> Found {
    let usable = usable(all);
    let choice = choice(all, &usable);
    if below < u64::MAX && choice.least_cost() >= below {
        return Found::NONE;
    }
    let load = all.case.weight.beam_load(all.case.run.tube_length_m);
    Trial::new(all, &load).first_allowed_of(choice, &usable, most, below)
}

/// Some allowed set, where the order of preference has run too long.
pub(super) fn any_allowed(all: &Gathering<'_>) -> Option<Vec<Candidate>> {
    let load = all.case.weight.beam_load(all.case.run.tube_length_m);
    Trial::new(all, &load).any_allowed(&usable(all))
}

/// The set of highest preference, whatever its loads; none if no set obeys the rule.
pub(super) fn preferred(all: &Gathering<'_>) -> Option<Vec<Candidate>> {
    let usable = usable(all);
    let mut choice = choice(all, &usable);
    let set = choice.next_set()?;
    let hangers = set.rungs.iter().map(|&rung| all.candidate(usable[rung]));
    Some(hangers.collect())
}

fn usable<'a>(all: &'a Gathering<'_>) -> Vec<&'a Spot> {
    all.spots
        .iter()
        .filter(|spot| spot.refused.is_none())
        .collect()
}

fn choice(all: &Gathering<'_>, usable: &[&Spot]) -> Choice {
    let case = all.case;
    let rungs = usable
        .iter()
        .map(|spot| Rung::new(spot.station_m, all.cost(spot.kind)))
        .collect();
    Choice::new(case.rule, case.run.tube_length_m, rungs)
}

struct Trial<'a> {
    all: &'a Gathering<'a>,
    load: &'a BeamLoad,
    judge: Judge<'a>,
}

impl<'a> Trial<'a> {
    fn new(all: &'a Gathering<'a>, load: &'a BeamLoad) -> Self {
        Self {
            all,
            load,
            judge: Judge::new(*all.case, load),
        }
    }

    fn first_allowed(&mut self, usable: &[&Spot], most: usize) -> Found {
        let choice = choice(self.all, usable);
        self.first_allowed_of(choice, usable, most, u64::MAX)
    }

    /// The first allowed set that costs less than `below`, which is more than any sum.
    fn first_allowed_of(
        &mut self,
        mut choice: Choice,
        usable: &[&Spot],
        most: usize,
        below: u64,
    ) -> Found {
        let case = self.all.case;
        let mut found = Found {
            least_cost: Some(choice.least_cost()).filter(|&cost| cost < u64::MAX),
            ..Found::NONE
        };
        let first_pull = FirstPull::new(self.load, case.rule);
        let strengths: Vec<OnceCell<f64>> = vec![OnceCell::new(); usable.len()];
        let refused = Cell::new(0);
        let judge = |rungs: &[usize]| {
            let first = rungs[0];
            let strength_n = *strengths[first].get_or_init(|| strength(self.all, usable[first]));
            if strength_n == f64::INFINITY {
                return Beginning::Promising;
            }
            if refused.get() > REFUSED_PER_SET * most {
                return Beginning::Enough;
            }
            let mut stations_m = [0.0; MOST_ASKED];
            for (station_m, &rung) in stations_m.iter_mut().zip(rungs) {
                *station_m = usable[rung].station_m;
            }
            let least_n = first_pull.least_n(&stations_m[..rungs.len()]);
            if least_n <= strength_n * (1.0 + 2.0 * tolerance::LIMIT) {
                return Beginning::Promising;
            }
            refused.set(refused.get() + 1);
            Beginning::Lost
        };
        // Worked out once where more than one set is tried.
        let mut known: Vec<Option<Candidate>> = Vec::new();
        while let Some(set) = choice.next_set_where(&judge) {
            if set.cost >= below {
                break;
            }
            found.least_cost = Some(set.cost);
            if found.tried == most {
                found.complete = false;
                break;
            }
            found.tried += 1;
            if found.tried == 2 {
                known.resize(usable.len(), None);
            }
            let hangers: Vec<Candidate> = set
                .rungs
                .iter()
                .map(|&rung| match known.get_mut(rung) {
                    None => self.all.candidate(usable[rung]),
                    Some(known) => known
                        .get_or_insert_with(|| self.all.candidate(usable[rung]))
                        .clone(),
                })
                .collect();
            if self.judge.allows(&hangers) {
                found.chosen = Some(hangers);
                break;
            }
        }
        found.complete &= refused.get() <= REFUSED_PER_SET * most;
        found.work = WORK_OF_A_SET * found.tried + refused.get();
        if found.complete && found.chosen.is_none() {
            found.least_cost = None;
        }
        found
    }

    /// Some allowed set, the strongest places first: by falling strength, the best
    /// few sets of the candidates that are at least so strong.
    fn any_allowed(&mut self, usable: &[&Spot]) -> Option<Vec<Candidate>> {
        let strengths: Vec<f64> = usable.iter().map(|spot| strength(self.all, spot)).collect();
        let mut steps = strengths.clone();
        steps.sort_by(|a, b| b.total_cmp(a));
        steps.dedup();
        let every = steps.len().div_ceil(STRENGTHS).max(1);
        let mut cheapest: Option<(u64, Vec<Candidate>)> = None;
        for &least in steps.iter().step_by(every) {
            let strong: Vec<&Spot> = usable
                .iter()
                .zip(&strengths)
                .filter(|&(_, &strength)| strength >= least)
                .map(|(&spot, _)| spot)
                .collect();
            if let Some(set) = self.first_allowed(&strong, SETS_PER_STRENGTH).chosen {
                let cost = set.iter().map(|it| u64::from(it.cost)).sum();
                if cheapest.as_ref().is_none_or(|&(least, _)| cost < least) {
                    cheapest = Some((cost, set));
                }
            }
        }
        cheapest.map(|(_, set)| set)
    }
}

/// The load that a hanger may bring where nothing else of its run hangs, N; infinite
/// where that isn't known.
fn strength(all: &Gathering<'_>, spot: &Spot) -> f64 {
    let case = all.case;
    all.candidate(spot)
        .holds()
        .map(|hold| {
            let room_n = case.room_at(hold.span, hold.place);
            let allowed_n = match case.spans[hold.span].allowed_alone(hold.place) {
                Capacity::Known(allowed_n) => allowed_n.min(room_n),
                Capacity::Unknown => room_n,
            };
            allowed_n / hold.share
        })
        .fold(f64::INFINITY, f64::min)
}
