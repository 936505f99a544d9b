//! How a run hangs: the answer and everything that people ask about it.

use super::candidate::Candidate;
use super::case::Case;
use super::cases::{LoadCases, cases};
use super::growth::Growth;
use super::limit::LimitBreach;
use super::loads::{HangerLoad, Judge};
use super::locked::LostHanger;
use super::obstacle::{Obstacle, obstacle};
use super::search::{Found, MOST_SETS, any_allowed, best};
use super::suspension::{LeastSuspension, Suspension, suspensions};
use crate::geometry::math::atan;

/// What is known about a run's hangers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Status {
    /// The cheapest set that obeys the rule and whose loads are allowed, proven.
    Solved,
    /// Kept where they were put, and checked.
    Locked,
    /// No set obeys the rule and the loads, proven.
    Impossible,
    /// Too many sets would have to be tried: the best found, if any was.
    Unproven,
}

impl Status {
    /// What a search has shown.
    pub(super) fn of(found: &Found) -> Self {
        match (&found.chosen, found.complete) {
            (Some(_), true) => Self::Solved,
            (None, true) => Self::Impossible,
            (_, false) => Self::Unproven,
        }
    }
}

/// One hanger of the answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Hanger {
    /// Where it is and what it hangs from.
    pub at: Candidate,
    /// What it carries.
    pub load: HangerLoad,
    /// Its one or two suspensions; of two the left one first.
    pub suspensions: Vec<Suspension>,
    /// What it carries level, and what where the run isn't.
    pub cases: LoadCases,
    /// How far the hot tube moves here, m, positive towards the exhaust.
    pub movement_m: f64,
    /// Lean along the run, hot, rad, without sign: growth, and any offset that it
    /// has cold. Of two suspensions, that of the shorter.
    pub swing_rad: f64,
    /// What it pulls along the run when hot, N, positive towards the exhaust: the load
    /// times the tangent of the swing (CODES.md 4.6), on tube and steel alike.
    pub side_pull_n: f64,
    /// The least suspension that it needs.
    pub least_suspension: LeastSuspension,
}

impl Hanger {
    /// The greatest pull in one of its suspensions over all cases, N.
    #[must_use]
    pub fn greatest_pull_n(&self, suspension: &Suspension) -> f64 {
        self.cases.greatest_n() * suspension.pull_per_n
    }
}

/// How one run hangs.
#[derive(Debug, Clone, PartialEq)]
pub struct Hanging {
    /// What is known about it.
    pub status: Status,
    /// Its hangers from burner to exhaust; none if no set was found.
    pub hangers: Vec<Hanger>,
    /// Sum of the hangers' costs, thousandths; none without hangers.
    pub cost: Option<u64>,
    /// No set costs less, thousandths: the cost where that is proven, a lower bound where
    /// the search stopped early; none of an impossible or a kept run.
    pub least_cost: Option<u64>,
    /// Sets whose loads were tried.
    pub sets_tried: usize,
    /// Limits that the hangers don't keep. A solved run can break only the swing,
    /// which the choice doesn't judge.
    pub breaches: Vec<LimitBreach>,
    /// Kept hangers that have lost their hold.
    pub lost: Vec<LostHanger>,
    /// Why it can't be hung, if so.
    pub obstacle: Option<Obstacle>,
    /// How the tube grows.
    pub growth: Growth,
    /// What all leaning suspensions together pull along the run at the hanger that
    /// stays, hot, N, without sign.
    pub fixed_pull_n: f64,
}

/// Chooses the hangers of a run.
#[must_use]
pub fn hang(case: &Case<'_>) -> Hanging {
    let (all, mut found) = best(case, MOST_SETS, u64::MAX);
    if !found.complete {
        found.chosen = any_allowed(&all);
    }
    let status = Status::of(&found);
    let obstacle = found.chosen.is_none().then(|| obstacle(&all));
    let chosen = found.chosen.unwrap_or_default();
    let mut hanging = finish(case, status, chosen, found.tried, obstacle);
    hanging.least_cost = found.least_cost;
    hanging
}

/// Puts loads, movements and swings to the chosen candidates.
pub(super) fn finish(
    case: &Case<'_>,
    status: Status,
    chosen: Vec<Candidate>,
    sets_tried: usize,
    obstacle: Option<Obstacle>,
) -> Hanging {
    let tube_length_m = case.run.tube_length_m;
    let load = case.weight.beam_load(tube_length_m);
    let judge = Judge::new(*case, &load);
    let (loads, cases) = match judge.loads(&chosen) {
        Some(loads) => {
            let level_n: Vec<f64> = loads.iter().map(|load| load.load_n).collect();
            let cases = cases(&load, &chosen, &level_n, case.level_error_m);
            (loads, cases)
        }
        // It would tip: no load is meaningful, and the breach says so.
        None => {
            let without = chosen.iter().map(|at| judge.without_load(at)).collect();
            (without, vec![LoadCases::level(0.0); chosen.len()])
        }
    };
    let fixed_m = chosen
        .get(case.fixed_hanger.saturating_sub(1))
        .or(chosen.last())
        .map_or(0.0, |at| at.station_m);
    let growth = Growth::new(&case.run.rise, tube_length_m, fixed_m);
    let cost = (!chosen.is_empty()).then(|| chosen.iter().map(|at| u64::from(at.cost)).sum());
    let axis = case.run.axis();
    let hangers: Vec<Hanger> = chosen
        .into_iter()
        .zip(loads)
        .zip(cases)
        .map(|((at, load), cases)| {
            let movement_m = growth.movement_m(at.station_m);
            let leaning = (at.ahead_m - movement_m) / at.suspension_m;
            Hanger {
                suspensions: suspensions(&axis, &at, load.load_n),
                cases,
                movement_m,
                swing_rad: atan(leaning.abs()),
                side_pull_n: load.load_n * leaning,
                least_suspension: LeastSuspension::new(
                    case.rule.least_suspension_m,
                    movement_m,
                    case.rule.greatest_swing_rad,
                ),
                at,
                load,
            }
        })
        .collect();
    let fixed_pull_n = hangers
        .iter()
        .map(|hanger| hanger.side_pull_n)
        .sum::<f64>()
        .abs();
    let mut hanging = Hanging {
        status,
        hangers,
        cost,
        least_cost: None,
        sets_tried,
        breaches: Vec::new(),
        lost: Vec::new(),
        obstacle,
        growth,
        fixed_pull_n,
    };
    hanging.breaches = super::check::breaches(case, &hanging.hangers);
    if hanging.hangers.is_empty() && status != Status::Locked {
        hanging.breaches.clear();
    }
    hanging
}
