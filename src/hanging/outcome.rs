//! How a run hangs: the answer and everything that people ask about it.

use super::candidate::{Candidate, Gathering};
use super::case::Case;
use super::channel::leg_factor;
use super::growth::Growth;
use super::limit::LimitBreach;
use super::loads::{HangerLoad, Judge};
use super::locked::LostHanger;
use super::obstacle::{Obstacle, obstacle};
use super::search::{MOST_SETS, search};
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

/// One hanger of the answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Hanger {
    /// Where it is and what it hangs from.
    pub at: Candidate,
    /// What it carries.
    pub load: HangerLoad,
    /// Pull in its suspension, N: the load, more by its lean.
    pub suspension_pull_n: f64,
    /// How far the hot tube moves here, m, positive towards the exhaust.
    pub movement_m: f64,
    /// Lean along the run, hot, rad, without sign: growth, and any offset that it
    /// has cold.
    pub swing_rad: f64,
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
}

/// Chooses the hangers of a run.
#[must_use]
pub fn hang(case: &Case<'_>) -> Hanging {
    let all = Gathering::done(case);
    let found = search(&all, MOST_SETS);
    let status = match (&found.chosen, found.complete) {
        (Some(_), true) => Status::Solved,
        (None, true) => Status::Impossible,
        (_, false) => Status::Unproven,
    };
    let obstacle = found.chosen.is_none().then(|| obstacle(&all));
    let chosen = found.chosen.unwrap_or_default();
    finish(case, status, chosen, found.tried, obstacle)
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
    let loads = judge.loads(&chosen).unwrap_or_else(|| {
        // It would tip: no load is meaningful, and the breach says so.
        chosen.iter().map(|at| judge.without_load(at)).collect()
    });
    let fixed_m = chosen
        .get(case.fixed_hanger.saturating_sub(1))
        .or(chosen.last())
        .map_or(0.0, |at| at.station_m);
    let growth = Growth::new(tube_length_m, fixed_m);
    let cost = (!chosen.is_empty()).then(|| chosen.iter().map(|at| u64::from(at.cost)).sum());
    let hangers: Vec<Hanger> = chosen
        .into_iter()
        .zip(loads)
        .map(|(at, load)| {
            let movement_m = growth.movement_m(at.station_m);
            Hanger {
                suspension_pull_n: load.load_n * leg_factor(1, at.lean_rad),
                movement_m,
                swing_rad: atan((movement_m - at.ahead_m).abs() / at.suspension_m),
                at,
                load,
            }
        })
        .collect();
    let mut hanging = Hanging {
        status,
        hangers,
        cost,
        sets_tried,
        breaches: Vec::new(),
        lost: Vec::new(),
        obstacle,
        growth,
    };
    hanging.breaches = super::check::breaches(case, &hanging.hangers);
    if hanging.hangers.is_empty() && status != Status::Locked {
        hanging.breaches.clear();
    }
    hanging
}
