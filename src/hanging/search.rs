//! The first set, in the order of preference, whose loads are allowed.

use std::cell::{Cell, OnceCell};

use super::beam::BeamLoad;
use super::candidate::{Candidate, Gathering, Spot};
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

/// What a search came to.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Found {
    /// The chosen candidates, if a set was found.
    pub(super) chosen: Option<Vec<Candidate>>,
    /// Sets tried.
    pub(super) tried: usize,
    /// The answer is proven: nothing better, or nothing at all.
    pub(super) complete: bool,
}

/// Tries the sets of a run's usable candidates in the order of preference, `most` of
/// them at most; beyond that, a few of the strongest. Sets whose first hanger is sure
/// to ask too much of its hold needn't be tried.
pub(super) fn search(all: &Gathering<'_>, most: usize) -> Found {
    let case = all.case;
    let usable = usable(all);
    let load = case.weight.beam_load(case.run.tube_length_m);
    let mut trial = Trial {
        all,
        load: &load,
        judge: Judge::new(*case, &load),
    };
    let mut found = trial.first_allowed(&usable, most);
    if !found.complete {
        found.chosen = trial.any_allowed(&usable);
    }
    found
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

impl Trial<'_> {
    fn first_allowed(&mut self, usable: &[&Spot], most: usize) -> Found {
        let case = self.all.case;
        let mut choice = choice(self.all, usable);
        let mut found = Found {
            chosen: None,
            tried: 0,
            complete: true,
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
