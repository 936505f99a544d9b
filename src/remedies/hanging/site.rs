//! Small shifts of many runs of a site that save cross channels.

use super::{borne_out, run_at, steps, words};
use crate::findings::Phrase;
use crate::hanging::{Aim, Area, Case, Order, Outcome, STEP_M, Seek};
use crate::remedies::Base;
use crate::site::edit::Edit;
use crate::site::{Hanging, Object, Run, RunId};
use crate::study::{RunStudy, Study};
use std::sync::Arc;

/// The most places proven for one run of a site.
const MOST_PROVEN: usize = 4;

/// How all runs of a scheme hang, in few figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tally {
    /// Runs that are hung.
    pub n_hung: usize,
    /// Their hangers.
    pub n_hangers: usize,
    /// Those on cross channels.
    pub n_channels: usize,
    /// Those off panel points.
    pub n_off_panel: usize,
    /// What all of them cost, thousandths.
    pub cost: u64,
}

impl Tally {
    /// That of a study.
    #[must_use]
    pub fn of(study: &Study) -> Self {
        let mut tally = Self::default();
        for run in &study.runs {
            let outcome = Outcome::of_hanging(&run.hanging);
            tally.n_hung += usize::from(outcome.cost.is_some());
            tally.n_hangers += outcome.n_hangers;
            tally.n_channels += outcome.n_channels;
            tally.n_off_panel += outcome.n_off_panel;
            tally.cost += outcome.cost.unwrap_or(0);
        }
        tally
    }
}

/// One run's part in the shift of a site.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moved {
    /// Along the run, towards its exhaust, m.
    pub along_m: f64,
    /// Across it, to its left, m.
    pub across_m: f64,
    /// How it hung.
    pub before: Outcome,
    /// How it hangs once all runs are shifted.
    pub after: Outcome,
}

/// Shifts of a site's runs that help together, proven.
#[derive(Debug, Clone, PartialEq)]
pub struct SiteSuggestion {
    /// Moves all of them; moves nothing where nothing helps.
    pub edit: Edit,
    /// The runs that move, in the order of the scheme.
    pub moved: Vec<(RunId, Moved)>,
    /// The runs for which a better place was found, but none without a new breach.
    pub dropped: Vec<RunId>,
    /// How all runs hang now.
    pub before: Tally,
    /// How they would.
    pub after: Tally,
    /// The suggestion as a sentence.
    pub words: Vec<Phrase>,
}

/// Shifts each run by `at_most_m` along and across at most, to where its hangers cost
/// least and, among such places, to the nearest. Runs go one after the other in the order
/// of the scheme, each on the site as the ones before it left it, and stay where they
/// are where every better place that was proven would break something anew. Runs with
/// kept hangers stay.
#[must_use]
pub fn site_suggestion(base: &Base<'_>, at_most_m: f64) -> SiteSuggestion {
    let area = Area {
        along: steps(at_most_m),
        across: steps(at_most_m),
        turns: Vec::new(),
    };
    let mut edits = Vec::new();
    let mut places = Vec::new();
    let mut dropped = Vec::new();
    let mut latest: Option<Study> = None;
    for run in &base.study.runs {
        let here = Base {
            study: latest.as_ref().unwrap_or(base.study),
            findings: base.findings,
        };
        let Some(now) = here.study.run(&run.run.id) else {
            continue;
        };
        match shifted(&here, now, &area) {
            Place::Proven(proven) => {
                edits.push(proven.edit);
                places.push((run.run.id.clone(), proven.along_m, proven.across_m));
                latest = Some(proven.study);
            }
            Place::Broken => dropped.push(run.run.id.clone()),
            Place::Best => {}
        }
    }
    let after = latest.as_ref().unwrap_or(base.study);
    let outcome =
        |study: &Study, id: &RunId| study.run(id).map(|run| Outcome::of_hanging(&run.hanging));
    let moved: Vec<(RunId, Moved)> = places
        .into_iter()
        .filter_map(|(id, along_m, across_m)| {
            let moved = Moved {
                along_m,
                across_m,
                before: outcome(base.study, &id)?,
                after: outcome(after, &id)?,
            };
            Some((id, moved))
        })
        .collect();
    let (before, after) = (Tally::of(base.study), Tally::of(after));
    SiteSuggestion {
        edit: Edit::All(edits),
        words: words::site(
            (&before, &after),
            moved.len(),
            f64::from(area.along) * STEP_M,
            &dropped,
        ),
        moved,
        dropped,
        before,
        after,
    }
}

/// Where a run ends up.
enum Place {
    /// Somewhere better.
    Proven(Box<Proven>),
    /// Where it is: better places would break something.
    Broken,
    /// Where it is: no place was found that is better.
    Best,
}

struct Proven {
    edit: Edit,
    along_m: f64,
    across_m: f64,
    study: Study,
}

fn shifted(base: &Base<'_>, run: &RunStudy, area: &Area) -> Place {
    let before = Outcome::of_hanging(&run.hanging);
    let is_best = before.cost.is_some() && before.n_channels + before.n_off_panel == 0;
    if is_best || run.run.hanging != Hanging::Solved {
        return Place::Best;
    }
    let reach_m = f64::from(area.along.max(area.across)) * STEP_M * std::f64::consts::SQRT_2;
    base.study
        .with_case(run, &run.run, reach_m, |case: &Case<'_>| {
            let aim = Aim {
                below: before.cost.unwrap_or(u64::MAX),
                order: Order::Cheapest,
            };
            let mut seek = Seek::new(*case, area, aim);
            let mut stays = Place::Best;
            for _ in 0..MOST_PROVEN {
                let Some(place) = seek.next_place() else {
                    break;
                };
                let moved: Run = run_at(&run.run, area, case, place.shift);
                let edit = Edit::Put(Object::Run(Arc::new(moved)));
                match borne_out(base, &edit) {
                    Ok(tried) => {
                        return Place::Proven(Box::new(Proven {
                            edit,
                            along_m: place.shift.along_m(),
                            across_m: place.shift.across_m(),
                            study: tried.study,
                        }));
                    }
                    Err(_) => stays = Place::Broken,
                }
            }
            stays
        })
}
