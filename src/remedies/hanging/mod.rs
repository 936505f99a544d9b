//! Small shifts that let a run be hung, or hung for less.
//!
//! The engine finds places, nearest or cheapest first, for the run on its own; each place
//! that is offered was proven by a full study of the edited site: the run hangs there as
//! said, the other runs hang no worse, and nothing is broken anew.

mod site;
mod words;

pub use site::{Moved, SiteSuggestion, Tally, site_suggestion};

use super::{Base, Tried};
use crate::findings::{Finding, Phrase};
use crate::geometry::DVec2;
use crate::hanging::{Aim, Area, Case, FoundPlace, Order, Outcome, STEP_M, Seek, Shift, Turn};
use crate::site::bay::along;
use crate::site::edit::Edit;
use crate::site::policy::PolicyItem;
use crate::site::{Hanging, Object, Policy, Run, RunId, Shields};
use crate::study::{RunStudy, Study};
use crate::units::Angle;
use std::sync::Arc;

/// The places nearest to each other that are proven before the search spreads out.
const TRIED_CLOSE: usize = 3;
/// The most places proven for one suggestion: each costs a study and its findings.
const MOST_PROVEN: usize = 10;
/// Once spread out, places are proven that are so far from those that failed, m: what a
/// rack or a wall forbids, it forbids a hand's breadth farther on too.
const SPREAD_M: f64 = 0.1;

/// Trims are tried in steps of this, degrees, up to [`MOST_TRIM_STEPS`] of them.
const TRIM_STEP_DEG: f64 = 0.5;
/// Up to 5 degrees either way: beyond that a run no longer looks parallel to the building.
const MOST_TRIM_STEPS: u8 = 10;
/// A quarter turn either way.
const QUARTERS_DEG: [f64; 2] = [90.0, -90.0];

/// What a suggestion is good for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// The nearest place where the run can be hung at all.
    MakesPossible,
    /// The nearest place where its hangers cost less.
    NearestCheaper,
    /// The place within the limits where they cost least.
    Cheapest,
}

/// How a run is moved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunShift {
    /// Along the run as it was, towards its exhaust (hairpin: its bend), m.
    pub along_m: f64,
    /// Across the run as it was, to its left seen along the bearing, m.
    pub across_m: f64,
    /// Turned clockwise about the middle of its tube, degrees.
    pub clockwise_deg: f64,
}

/// An edit that would help, proven.
#[derive(Debug, Clone, PartialEq)]
pub struct Suggestion {
    /// The run that it moves.
    pub run: RunId,
    /// What it is good for.
    pub purpose: Purpose,
    /// The edit.
    pub edit: Edit,
    /// The move that it makes.
    pub shift: RunShift,
    /// How the run hangs now.
    pub before: Outcome,
    /// How it would hang.
    pub after: Outcome,
    /// The suggestion as a sentence.
    pub words: Vec<Phrase>,
}

/// What can be suggested for a run.
#[derive(Debug, Clone, PartialEq)]
pub struct Suggestions {
    /// The run.
    pub run: RunId,
    /// From the nearest to the cheapest; none if nothing was found or needed.
    pub list: Vec<Suggestion>,
    /// Why there is none; empty if there is one.
    pub none: Vec<Phrase>,
    /// How many places the search answers for.
    pub n_places: usize,
}

/// What came of a search.
enum Sought {
    Proven(Box<Suggestion>),
    /// None within the limits. The search was complete or not; what the first place that
    /// hanging allows would break, if there was one.
    Nothing {
        is_complete: bool,
        broken: Option<Box<Finding>>,
    },
}

/// Shifts of one run that let it be hung, or hung without cross channels or off-panel
/// hangers, or with fewer of them. Of a run whose hangers are kept there is none.
#[must_use]
pub fn suggestions(base: &Base<'_>, id: &RunId) -> Suggestions {
    let mut found = Suggestions {
        run: id.clone(),
        list: Vec::new(),
        none: Vec::new(),
        n_places: 0,
    };
    let Some(run) = base.study.run(id) else {
        found.none = words::no_such_run();
        return found;
    };
    let before = Outcome::of_hanging(&run.hanging);
    if run.run.hanging != Hanging::Solved {
        found.none = words::kept();
        return found;
    }
    if before.cost.is_some() && before.n_channels + before.n_off_panel == 0 {
        found.none = words::not_needed(&run.run.id);
        return found;
    }
    let area = area_within(&base.study.site.policy, trims(&run.run));
    found.n_places = count(&area);
    let mut below = before.cost.unwrap_or(u64::MAX);
    let mut failed = None;
    let purposes = [
        (Purpose::MakesPossible, Order::Nearest),
        (Purpose::NearestCheaper, Order::Nearest),
        (Purpose::Cheapest, Order::Cheapest),
    ];
    let first = usize::from(before.cost.is_some());
    for &(purpose, order) in &purposes[first..] {
        let aim = Aim { below, order };
        match sought(base, run, &run.run, &area, aim, purpose) {
            Sought::Proven(suggestion) => {
                below = suggestion.after.cost.unwrap_or(below);
                found.list.push(*suggestion);
            }
            nothing @ Sought::Nothing { .. } => {
                failed = Some(nothing);
                break;
            }
        }
    }
    if found.list.is_empty() {
        let purpose = purposes[first].0;
        found.n_places += quarter_turns(base, run, (purpose, below), &mut found.list);
    }
    if let Some(Sought::Nothing {
        is_complete,
        broken,
    }) = failed.filter(|_| found.list.is_empty())
    {
        found.none = words::nothing(base.study, run, &area, is_complete, broken.as_deref());
    }
    found
}

/// The nearest place where the run helps when it lies square to what it is; gives how
/// many places were in question.
fn quarter_turns(
    base: &Base<'_>,
    run: &RunStudy,
    (purpose, below): (Purpose, u64),
    list: &mut Vec<Suggestion>,
) -> usize {
    if !may_be_turned(&run.run) {
        return 0;
    }
    let area = area_within(&base.study.site.policy, Vec::new());
    let order = Order::Nearest;
    let mut n_places = 0;
    for by_deg in QUARTERS_DEG {
        let turned = turned_run(run, by_deg);
        n_places += count(&area);
        let aim = Aim { below, order };
        if let Sought::Proven(suggestion) = sought(base, run, &turned, &area, aim, purpose) {
            list.push(*suggestion);
            break;
        }
    }
    n_places
}

/// Whether a run may be turned by a quarter: one that is aimed to a side of the compass
/// can't keep that side.
fn may_be_turned(run: &Run) -> bool {
    run.tilt == Angle::ZERO && matches!(run.shields, Shields::None | Shields::Both)
}

/// The run turned about the middle of its tube.
fn turned_run(run: &RunStudy, by_deg: f64) -> Run {
    let bearing = run.run.bearing + Angle::degrees(by_deg);
    let half_m = run.geometry.axis().plan_length(run.geometry.tube_length_m) / 2.0;
    Run {
        burner: run.run.burner + run.geometry.heading * half_m - along(bearing) * half_m,
        bearing,
        ..run.run.as_ref().clone()
    }
}

/// The area that a policy allows, with turns.
fn area_within(policy: &Policy, turns: Vec<Turn>) -> Area {
    Area {
        along: steps(policy.value(PolicyItem::ShiftAlong)),
        across: steps(policy.value(PolicyItem::ShiftAcross)),
        turns,
    }
}

/// Whole steps within a length.
pub(super) fn steps(limit_m: f64) -> i32 {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "limits are metres; `as` saturates for others"
    )]
    let whole = (limit_m / STEP_M + crate::geometry::tolerance::LIMIT).floor() as i32;
    whole.max(0)
}

fn trims(run: &Run) -> Vec<Turn> {
    (1..=MOST_TRIM_STEPS)
        .flat_map(|n| [f64::from(n), -f64::from(n)])
        .map(|n| {
            let clockwise_deg = n * TRIM_STEP_DEG;
            Turn {
                clockwise_deg,
                heading: along(run.bearing + Angle::degrees(clockwise_deg)),
            }
        })
        .collect()
}

fn count(area: &Area) -> usize {
    let both_ways = |steps: i32| 2 * usize::try_from(steps).unwrap_or(0) + 1;
    both_ways(area.along) * both_ways(area.across) + area.turns.len()
}

/// How far any point of a run moves in an area, m, at the most.
fn reach_m(area: &Area, run: &RunStudy) -> f64 {
    let (along_m, across_m) = (
        f64::from(area.along) * STEP_M,
        f64::from(area.across) * STEP_M,
    );
    let half_m = run.geometry.tube_length_m / 2.0;
    let turned_m = area
        .turns
        .iter()
        .map(|turn| (turn.heading - run.geometry.heading).length() * half_m)
        .fold(0.0, f64::max);
    DVec2::new(along_m, across_m).length().max(turned_m)
}

/// The first place round `from` (the run as it is, or turned) that is proven to help.
fn sought(
    base: &Base<'_>,
    run: &RunStudy,
    from: &Run,
    area: &Area,
    aim: Aim,
    purpose: Purpose,
) -> Sought {
    base.study
        .with_case(run, from, reach_m(area, run), |case: &Case<'_>| {
            let mut seek = Seek::new(*case, area, aim);
            let mut failed: Vec<Shift> = Vec::new();
            let mut broken = None;
            while let Some(place) = seek.next_place() {
                let is_spread = failed.len() < TRIED_CLOSE
                    || failed.iter().all(|other| is_far(place.shift, *other));
                if !is_spread {
                    continue;
                }
                let moved = run_at(from, area, case, place.shift);
                match proven(base, run, moved, &place, purpose) {
                    Ok(suggestion) => return Sought::Proven(Box::new(suggestion)),
                    Err(fault) => broken = broken.or(fault),
                }
                failed.push(place.shift);
                if failed.len() == MOST_PROVEN {
                    break;
                }
            }
            Sought::Nothing {
                is_complete: seek.has_looked_everywhere(),
                broken,
            }
        })
}

fn is_far(one: Shift, other: Shift) -> bool {
    let apart_m = DVec2::new(
        one.along_m() - other.along_m(),
        one.across_m() - other.across_m(),
    )
    .length();
    one.turn != other.turn || apart_m >= SPREAD_M
}

/// The document's run at a place.
pub(super) fn run_at(from: &Run, area: &Area, case: &Case<'_>, shift: Shift) -> Run {
    let bearing = area.turn(shift.turn).map_or(from.bearing, |turn| {
        from.bearing + Angle::degrees(turn.clockwise_deg)
    });
    Run {
        burner: area.run_at(case.run, shift).flange.truncate(),
        bearing,
        ..from.clone()
    }
}

/// The suggestion, if a full study bears it out; else what it would break, if anything.
fn proven(
    base: &Base<'_>,
    run: &RunStudy,
    moved: Run,
    place: &FoundPlace,
    purpose: Purpose,
) -> Result<Suggestion, Option<Box<Finding>>> {
    let before = Outcome::of_hanging(&run.hanging);
    let shift = shift_between(run, &moved, place.shift);
    let edit = Edit::Put(Object::Run(Arc::new(moved)));
    let tried = borne_out(base, &edit)?;
    let after = tried
        .study
        .run(&run.run.id)
        .map(|run| Outcome::of_hanging(&run.hanging))
        .filter(|after| is_better(&before, after))
        .ok_or(None)?;
    Ok(Suggestion {
        run: run.run.id.clone(),
        purpose,
        words: words::suggestion(run, &shift, &before, &after),
        edit,
        shift,
        before,
        after,
    })
}

/// The site after an edit that moves runs, if all runs together hang better and nothing
/// is broken anew; else what is broken, if anything.
pub(super) fn borne_out(base: &Base<'_>, edit: &Edit) -> Result<Tried, Option<Box<Finding>>> {
    let study = base.studied(edit).ok_or(None)?;
    if !is_lighter(base.study, &study) {
        return Err(None);
    }
    let tried = Tried::judged(study);
    let broken = base.new_breaches(&tried).next().cloned();
    broken.map_or(Ok(tried), |broken| Err(Some(Box::new(broken))))
}

/// Whether more runs are hung, or as many for less.
fn is_lighter(before: &Study, after: &Study) -> bool {
    let cost = |study: &Study| -> u64 {
        let costs = study.runs.iter().filter_map(|run| run.hanging.cost);
        costs.sum()
    };
    let (n_before, n_after) = (before.totals.n_hung, after.totals.n_hung);
    n_after > n_before || (n_after == n_before && cost(after) < cost(before))
}

fn is_better(before: &Outcome, after: &Outcome) -> bool {
    after
        .cost
        .is_some_and(|after| before.cost.is_none_or(|before| after < before))
}

/// The move that a place makes, as of the run in the document.
fn shift_between(run: &RunStudy, moved: &Run, shift: Shift) -> RunShift {
    let turned_deg = (moved.bearing - run.run.bearing).as_degrees();
    // A quarter turn's own axes are those of the turned run.
    let quarters = QUARTERS_DEG
        .into_iter()
        .find(|quarter| (turned_deg - quarter).abs() < TRIM_STEP_DEG);
    let (along_m, across_m) = (shift.along_m(), shift.across_m());
    let (along_m, across_m) = match quarters {
        None => (along_m, across_m),
        // Turned clockwise, ahead is to the right of what it was.
        Some(quarter) if quarter > 0.0 => (across_m, -along_m),
        Some(_) => (-across_m, along_m),
    };
    RunShift {
        along_m,
        across_m,
        clockwise_deg: turned_deg,
    }
}
