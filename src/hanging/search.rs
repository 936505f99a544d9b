//! The first set, in the order of preference, whose loads are allowed.

use super::candidate::Candidate;
use super::case::Case;
use super::choice::{Ladder, RankedSets, Rung};
use super::loads::Judge;
use super::steel::Capacity;

/// The most sets whose loads are tried before the answer is called unproven.
pub const MOST_SETS: usize = 10_000;

/// The sets tried for each least strength when the order of preference has run too
/// long: this search is for an answer, not for the best one.
const SETS_PER_STRENGTH: usize = 50;

/// How a search judges.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) enum Search {
    /// Loads must be allowed.
    #[default]
    Loaded,
    /// Any loads pass: to see whether they are what blocks.
    Unloaded,
}

/// What a search came to.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Found {
    /// The chosen candidates, if a set was found.
    pub(super) chosen: Option<Vec<usize>>,
    /// Sets tried.
    pub(super) tried: usize,
    /// The answer is proven: nothing better, or nothing at all.
    pub(super) complete: bool,
    /// The set of highest preference, whatever its loads.
    pub(super) preferred: Option<Vec<usize>>,
}

/// Tries the sets of a run's usable candidates in the order of preference.
pub(super) fn search(case: &Case<'_>, candidates: &[Candidate], how: Search) -> Found {
    let usable: Vec<usize> = (0..candidates.len())
        .filter(|&which| candidates[which].refused.is_none())
        .collect();
    let load = case.weight.beam_load(case.run.tube_length_m);
    let mut trial = Trial {
        candidates,
        judge: Judge::new(*case, &load),
        how,
    };
    let mut found = trial.first_allowed(case, &usable, MOST_SETS);
    if !found.complete {
        found.chosen = trial.any_allowed(case, &usable);
    }
    found
}

struct Trial<'a> {
    candidates: &'a [Candidate],
    judge: Judge<'a>,
    how: Search,
}

impl Trial<'_> {
    fn first_allowed(&mut self, case: &Case<'_>, usable: &[usize], most: usize) -> Found {
        let rungs = usable
            .iter()
            .map(|&which| {
                Rung::new(
                    self.candidates[which].station_m,
                    self.candidates[which].cost,
                )
            })
            .collect();
        let ladder = Ladder::new(case.rule, case.run.tube_length_m, rungs);
        let mut sets = RankedSets::new(&ladder);
        let named = |rungs: &[usize]| rungs.iter().map(|&rung| usable[rung]).collect();
        let mut found = Found {
            chosen: None,
            tried: 0,
            complete: true,
            preferred: None,
        };
        while let Some(set) = sets.next_set() {
            if found.tried == most {
                found.complete = false;
                break;
            }
            found.tried += 1;
            if found.preferred.is_none() {
                found.preferred = Some(named(set.rungs));
            }
            let hangers = set.rungs.iter().map(|&rung| &self.candidates[usable[rung]]);
            if self.how == Search::Unloaded || self.judge.allows(hangers) {
                found.chosen = Some(named(set.rungs));
                break;
            }
        }
        found
    }

    /// Some allowed set, the strongest places first: by falling strength, the best
    /// few sets of the candidates that are at least so strong.
    fn any_allowed(&mut self, case: &Case<'_>, usable: &[usize]) -> Option<Vec<usize>> {
        let strength = |which: usize| {
            self.candidates[which]
                .holds()
                .map(
                    |hold| match case.spans[hold.span].allowed_single(hold.place) {
                        Capacity::Known(allowed_n) => allowed_n / hold.share,
                        Capacity::Unknown => f64::INFINITY,
                    },
                )
                .fold(f64::INFINITY, f64::min)
        };
        let strengths: Vec<f64> = usable.iter().map(|&which| strength(which)).collect();
        let mut steps = strengths.clone();
        steps.sort_by(|a, b| b.total_cmp(a));
        steps.dedup();
        let mut cheapest: Option<(u64, Vec<usize>)> = None;
        for least in steps {
            let strong: Vec<usize> = usable
                .iter()
                .zip(&strengths)
                .filter(|&(_, &strength)| strength >= least)
                .map(|(&which, _)| which)
                .collect();
            if let Some(set) = self.first_allowed(case, &strong, SETS_PER_STRENGTH).chosen {
                let cost = set
                    .iter()
                    .map(|&which| u64::from(self.candidates[which].cost))
                    .sum();
                if cheapest.as_ref().is_none_or(|&(least, _)| cost < least) {
                    cheapest = Some((cost, set));
                }
            }
        }
        cheapest.map(|(_, set)| set)
    }
}
