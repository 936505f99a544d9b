//! The first set, in the order of preference, whose loads are allowed.

use super::candidate::{Candidate, Gathering, Spot};
use super::choice::{Choice, Rung};
use super::loads::Judge;
use super::steel::Capacity;

/// The most sets whose loads are tried before the answer is called unproven.
pub const MOST_SETS: usize = 10_000;

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
    /// The set of highest preference, whatever its loads.
    pub(super) preferred: Option<Vec<Candidate>>,
}

/// Tries the sets of a run's usable candidates in the order of preference, `most` of
/// them at most; beyond that, a few of the strongest.
pub(super) fn search(all: &Gathering<'_>, most: usize) -> Found {
    let case = all.case;
    let usable: Vec<&Spot> = all
        .spots
        .iter()
        .filter(|spot| spot.refused.is_none())
        .collect();
    let load = case.weight.beam_load(case.run.tube_length_m);
    let mut trial = Trial {
        all,
        judge: Judge::new(*case, &load),
    };
    let mut found = trial.first_allowed(&usable, most);
    if !found.complete {
        found.chosen = trial.any_allowed(&usable);
    }
    found
}

struct Trial<'a> {
    all: &'a Gathering<'a>,
    judge: Judge<'a>,
}

impl Trial<'_> {
    fn first_allowed(&mut self, usable: &[&Spot], most: usize) -> Found {
        let case = self.all.case;
        let rungs: Vec<Rung> = usable
            .iter()
            .map(|spot| Rung::new(spot.station_m, self.all.cost(spot.kind)))
            .collect();
        let mut choice = Choice::new(case.rule, case.run.tube_length_m, rungs);
        let mut found = Found {
            chosen: None,
            tried: 0,
            complete: true,
            preferred: None,
        };
        let mut hangers = Vec::new();
        while let Some(set) = choice.next_set() {
            if found.tried == most {
                found.complete = false;
                break;
            }
            found.tried += 1;
            hangers.clear();
            hangers.extend(
                set.rungs
                    .iter()
                    .map(|&rung| self.all.candidate(usable[rung])),
            );
            if self.judge.allows(&hangers) {
                found.chosen = Some(hangers);
                break;
            }
            if found.preferred.is_none() {
                found.preferred = Some(hangers.clone());
            }
        }
        found
    }

    /// Some allowed set, the strongest places first: by falling strength, the best
    /// few sets of the candidates that are at least so strong.
    fn any_allowed(&mut self, usable: &[&Spot]) -> Option<Vec<Candidate>> {
        let strengths: Vec<f64> = usable.iter().map(|spot| self.strength(spot)).collect();
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

    /// The load that a hanger may bring where nothing else hangs, N.
    fn strength(&self, spot: &Spot) -> f64 {
        let spans = self.all.case.spans;
        self.all
            .candidate(spot)
            .holds()
            .map(|hold| match spans[hold.span].allowed_alone(hold.place) {
                Capacity::Known(allowed_n) => allowed_n / hold.share,
                Capacity::Unknown => f64::INFINITY,
            })
            .fold(f64::INFINITY, f64::min)
    }
}
