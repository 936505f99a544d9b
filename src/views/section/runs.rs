//! Heaters in a section: cut, seen behind, their envelopes and suspensions.

use super::things::{behind, is_near};
use super::{Seen, Stage};
use crate::clearance::Part;
use crate::geometry::cut::union_outline;
use crate::geometry::{ConvexSolid, DVec2, DVec3, UprightPlane};
use crate::site::RunId;
use crate::study::{RunStudy, Study, Thing};
use crate::views::heater::HeaterForm;

/// A heater that is cut.
#[derive(Debug, Clone, PartialEq)]
pub struct CutRun {
    /// Which.
    pub run: RunId,
    /// Tubes, burner, bend, exhaust fitting: convex areas, counter-clockwise.
    pub areas: Vec<(Part, Vec<DVec2>)>,
    /// The reflector, as lines.
    pub reflector: Vec<(DVec2, DVec2)>,
    /// Where the plane passes its axis, or, along the plane, the middle of what is cut.
    pub at: DVec2,
    /// The station there, m from the burner flange.
    pub station_m: f64,
    /// The boxes that clearances are measured from, as they are cut.
    pub boxes: Vec<Vec<DVec2>>,
}

/// A keep-clear envelope that is cut.
#[derive(Debug, Clone, PartialEq)]
pub struct CutEnvelope {
    /// Of which run.
    pub run: RunId,
    /// Convex areas, counter-clockwise; they overlap.
    pub areas: Vec<Vec<DVec2>>,
    /// Their common outline.
    pub outline: Vec<(DVec2, DVec2)>,
}

/// A suspension near the plane, seen square to it.
#[derive(Debug, Clone, PartialEq)]
pub struct HangerSeen {
    /// Of which run.
    pub run: RunId,
    /// Its number, from 1 at the burner.
    pub number: usize,
    /// Where it hangs from.
    pub attach: DVec2,
    /// Its eye on the heater.
    pub eye: DVec2,
    /// Its length in space, m.
    pub length_m: f64,
    /// How far behind the plane it is, m; less than zero in front of it.
    pub behind_m: f64,
}

/// The heaters that are cut; those that are seen behind join what is seen.
pub(super) fn runs(stage: &Stage, study: &Study, seen: &mut Vec<Seen>) -> Vec<CutRun> {
    let mut cut = Vec::new();
    for run in &study.runs {
        let solids = run.clearance.bodies.solids();
        let near = solids.iter().any(|(_, it)| is_near(stage, it.bounds()));
        if !near {
            continue;
        }
        let form = HeaterForm::of(run);
        cut.extend(cut_run(stage, run, &form));
        seen.extend(seen_run(stage, run, &form));
    }
    cut
}

fn cut_run(stage: &Stage, run: &RunStudy, form: &HeaterForm) -> Option<CutRun> {
    let cut = |solid: &ConvexSolid| stage.within(&solid.cut_by(&stage.plane));
    let tubes = form.tubes.iter().map(|tube| (Part::Tube, tube));
    let boxes = form.boxes.iter().map(|(part, solid)| (*part, solid));
    let areas: Vec<(Part, Vec<DVec2>)> = tubes
        .chain(boxes)
        .map(|(part, solid)| (part, cut(solid)))
        .filter(|(_, area)| 3 <= area.len())
        .collect();
    let around: Vec<Vec<DVec2>> = form
        .around_tube
        .iter()
        .chain(form.boxes.iter().map(|(_, solid)| solid))
        .map(cut)
        .filter(|area| 3 <= area.len())
        .collect();
    if around.is_empty() {
        return None;
    }
    let axis = run.geometry.axis();
    let station_m = station(stage, run);
    let reflector = form
        .reflector
        .iter()
        .filter_map(|strip| strip_cut(&stage.plane, strip))
        .filter(|(a, b)| {
            let inside = |p: &DVec2| 0.0 <= p.x && p.x <= stage.width_m;
            inside(a) && inside(b)
        })
        .collect();
    Some(CutRun {
        run: run.run.id.clone(),
        areas,
        reflector,
        at: stage.plane.seen(axis.point(station_m)),
        station_m,
        boxes: around,
    })
}

/// Where the plane passes a run's axis, as a station on its tube; the middle of the tube
/// where it runs along the plane.
fn station(stage: &Stage, run: &RunStudy) -> f64 {
    let length_m = run.geometry.tube_length_m;
    let axis = run.geometry.axis();
    let (from, to) = (axis.point(0.0), axis.point(length_m));
    let (a, b) = (stage.plane.behind_m(from), stage.plane.behind_m(to));
    if (a - b).abs() < 0.05 * length_m {
        return length_m / 2.0;
    }
    // Burner and exhaust reach beyond the tube.
    (length_m * a / (a - b)).clamp(-2.0, length_m + 2.0)
}

/// The line in which a flat strip is cut.
fn strip_cut(plane: &UprightPlane, strip: &[DVec3; 4]) -> Option<(DVec2, DVec2)> {
    let mut met: Vec<DVec2> = Vec::new();
    for k in 0..4 {
        let (a, b) = (strip[k], strip[(k + 1) % 4]);
        let (from, to) = (plane.behind_m(a), plane.behind_m(b));
        if (from < 0.0) != (to < 0.0) {
            met.push(plane.seen(a.lerp(b, from / (from - to))));
        }
    }
    match met[..] {
        [a, b] => Some((a, b)),
        _ => None,
    }
}

fn seen_run(stage: &Stage, run: &RunStudy, form: &HeaterForm) -> Option<Seen> {
    let solids: Vec<&ConvexSolid> = form
        .around_tube
        .iter()
        .chain(form.boxes.iter().map(|(_, solid)| solid))
        .collect();
    let areas: Vec<Vec<DVec2>> = solids
        .iter()
        .map(|solid| stage.within(&solid.seen_behind(&stage.plane, stage.depth_m)))
        .filter(|area| 3 <= area.len())
        .collect();
    (!areas.is_empty()).then(|| Seen {
        thing: Thing::Run(run.run.id.clone()),
        kind: None,
        outline: union_outline(&areas),
        areas,
        lines: Vec::new(),
        behind_m: behind(stage, &solids),
    })
}

/// The keep-clear envelopes that are cut.
pub(super) fn envelopes(stage: &Stage, study: &Study) -> Vec<CutEnvelope> {
    study
        .runs
        .iter()
        .filter_map(|run| {
            let frame = &run.clearance.bodies.frame;
            let areas: Vec<Vec<DVec2>> = run
                .clearance
                .envelope
                .iter()
                .filter_map(|local| ConvexSolid::turned_box(frame, local))
                .filter(|solid| is_near(stage, solid.bounds()))
                .map(|solid| stage.within(&solid.cut_by(&stage.plane)))
                .filter(|area| 3 <= area.len())
                .collect();
            (!areas.is_empty()).then(|| CutEnvelope {
                run: run.run.id.clone(),
                outline: union_outline(&areas),
                areas,
            })
        })
        .collect()
}

/// How far in front of the plane a suspension is still shown, m.
const IN_FRONT_M: f64 = 1.5;

/// Of each run near the plane the suspensions that are seen apart from each other, the
/// nearest of those that would lie on one another.
pub(super) fn hangers(stage: &Stage, study: &Study) -> Vec<HangerSeen> {
    let mut all = Vec::new();
    for run in &study.runs {
        let axis = run.geometry.axis();
        let mut seen: Vec<HangerSeen> = run
            .hanging
            .hangers
            .iter()
            .enumerate()
            .map(|(index, hanger)| {
                let eye = axis.eye(hanger.at.station_m);
                HangerSeen {
                    run: run.run.id.clone(),
                    number: index + 1,
                    attach: stage.plane.seen(hanger.at.attach),
                    eye: stage.plane.seen(eye),
                    length_m: hanger.at.suspension_m,
                    behind_m: stage.plane.behind_m(eye),
                }
            })
            .filter(|it| {
                -IN_FRONT_M <= it.behind_m
                    && it.behind_m <= stage.depth_m
                    && 0.0 <= it.eye.x
                    && it.eye.x <= stage.width_m
            })
            .collect();
        seen.sort_by(|a, b| a.behind_m.abs().total_cmp(&b.behind_m.abs()));
        let mut kept: Vec<HangerSeen> = Vec::new();
        for hanger in seen {
            if kept.iter().all(|it| 0.3 <= (it.eye.x - hanger.eye.x).abs()) {
                kept.push(hanger);
            }
        }
        all.extend(kept);
    }
    all
}
