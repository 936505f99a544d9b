//! Runs: the only saturated things on the plan, with their hangers and envelopes.

use super::labels::{Label, Labels, Weight};
use super::pen::{DASHED, Pen};
use crate::clearance::RunBodies;
use crate::editor::Editor;
use crate::editor::extent::RunPlan;
use crate::editor::theme::{TextSize, faded};
use crate::editor::view::Layer;
use crate::geometry::{Bounds, DVec2, DVec3};
use crate::site::{ObjectId, Run, RunShape, Side};
use crate::study::RunStudy;
use eframe::egui::{Align2, Rect, Shape, Stroke, Vec2};
use std::sync::Arc;

/// Least width of a tube on the screen, points.
const LEAST_TUBE: f32 = 2.6;
/// Least side of a burner on the screen, points.
const LEAST_BURNER: f32 = 6.0;

/// All runs of the shown scheme.
pub(super) fn runs(pen: &mut Pen<'_>, labels: &mut Labels, editor: &Editor) {
    let scheme = editor.site().scheme();
    let view = &editor.view;
    for run in &scheme.runs {
        let plan = RunPlan::of(run, &editor.catalogue);
        if !pen.sees(&plan.corners()) {
            continue;
        }
        let study = editor.results.run(&run.id);
        let id = ObjectId::Run(run.id.clone());
        let is_forward =
            editor.selection.has(&id) || editor.selection.hovered.as_ref() == Some(&id);
        if view.shows(Layer::Envelopes)
            && let Some(study) = study
            && (is_forward || is_breached(study))
        {
            envelope(pen, study, is_forward);
        }
        body(pen, run, &plan);
        if let Some(study) = study {
            super::hangers::hangers(pen, labels, editor, study, Arc::ptr_eq(&study.run, run));
        }
        if view.shows(Layer::Labels) {
            name(pen, labels, run, &plan);
        }
    }
}

/// Whether something is inside the run's keep-clear envelope, or nearer than it may be.
fn is_breached(study: &RunStudy) -> bool {
    let near = &study.clearance.near;
    near.iter().any(|it| it.measured.is_breach())
}

/// The heater itself.
fn body(pen: &mut Pen<'_>, run: &Run, plan: &RunPlan) {
    let reflector = pen.camera.screen_length(plan.half_width_m);
    if 5.0 <= reflector {
        let half = plan.half_width_m;
        let ring = [
            plan.at(0.0, -half),
            plan.at(plan.length_m, -half),
            plan.at(plan.length_m, half),
            plan.at(0.0, half),
        ];
        pen.fill(&ring, &[], faded(pen.roles.run, 0.12));
        pen.closed(&ring, Stroke::new(0.8, faded(pen.roles.run, 0.6)));
    }
    let tube = pen.camera.screen_length(plan.tube_m).max(LEAST_TUBE);
    let stroke = Stroke::new(tube, pen.roles.run);
    match run.shape {
        RunShape::Straight => {
            pen.line(plan.flange, plan.end(), stroke);
            burner(pen, plan, 0.0);
            arrow(pen, plan.end(), plan.heading);
        }
        RunShape::Hairpin { return_leg } => {
            let back = match return_leg {
                Side::Left => plan.half_spacing_m,
                Side::Right => -plan.half_spacing_m,
            };
            pen.open_line(&hairpin(plan, back), stroke);
            burner(pen, plan, -back);
            arrow(
                pen,
                plan.at(-plan.burner_length_m * 0.3, back),
                -plan.heading,
            );
        }
    }
}

/// Out along one leg, round the bend and back along the other.
fn hairpin(plan: &RunPlan, back: f64) -> Vec<DVec2> {
    /// Pieces of the half circle of the bend.
    const PIECES: u32 = 12;
    let mut points = vec![plan.at(0.0, -back)];
    for piece in 0..=PIECES {
        let angle = f64::from(piece) / f64::from(PIECES) * 180.0;
        let (sine, cosine) = crate::geometry::math::sin_cos_degrees(angle);
        let reach = plan.end_length_m.min(plan.half_spacing_m.max(0.05));
        points.push(plan.at(plan.length_m + reach * sine, -back * cosine));
    }
    points.push(plan.at(-plan.burner_length_m * 0.3, back));
    points
}

/// The burner's body: never smaller than can be seen.
fn burner(pen: &mut Pen<'_>, plan: &RunPlan, left_m: f64) {
    let least = pen.camera.site_length(LEAST_BURNER);
    let length = plan.burner_length_m.max(least);
    let half = plan.burner_width_m.max(least) / 2.0;
    let ring = [
        plan.at(-length, left_m - half),
        plan.at(0.0, left_m - half),
        plan.at(0.0, left_m + half),
        plan.at(-length, left_m + half),
    ];
    pen.fill(&ring, &[], pen.roles.burner);
}

/// An open arrow where the exhaust leaves.
fn arrow(pen: &mut Pen<'_>, at: DVec2, heading: DVec2) {
    let size = pen.camera.screen_length(0.35).clamp(6.0, 14.0);
    let along = pen.camera.screen_vector(heading).normalized() * size;
    let across = Vec2::new(-along.y, along.x) * 0.6;
    let tip = pen.at(at) + along;
    let points = vec![tip - along + across, tip, tip - along - across];
    pen.add(Shape::line(points, Stroke::new(1.8, pen.roles.run)));
}

/// The run's name beside its middle, clear of its hangers' figures.
fn name(pen: &Pen<'_>, labels: &mut Labels, run: &Run, plan: &RunPlan) {
    let length = pen.camera.screen_length(plan.length_m);
    if length < 14.0 {
        return;
    }
    let across = pen.camera.screen_vector(plan.left).normalized();
    // Above a run that lies across, left of one that stands upright.
    let across = if 0.0 < across.y || (across.y.abs() < 1e-3 && 0.0 < across.x) {
        -across
    } else {
        across
    };
    let off = pen.camera.screen_length(plan.half_width_m).max(4.0) + 9.0;
    let along = pen.camera.screen_vector(plan.heading).normalized() * (length * 0.25);
    let middle = pen.at(plan.at(plan.length_m / 2.0, 0.0));
    let places = [
        middle + across * off,
        middle - across * off,
        middle + across * off + along,
        middle + across * off - along,
        middle - across * off + along,
        middle - across * off - along,
    ];
    labels.want(Label {
        text: run.id.to_string(),
        font: TextSize::Body.bold(),
        colour: pen.roles.run_text,
        ground: Some(faded(pen.roles.label_ground, 0.75)),
        weight: Weight::Run,
        places: places.map(|at| (at, Align2::CENTER_CENTER)).to_vec(),
    });
    keep_off(pen, labels, plan, length);
}

/// Keeps labels off the tube, piece by piece: its bounding box would be far too much of a
/// run that lies aslant.
fn keep_off(pen: &Pen<'_>, labels: &mut Labels, plan: &RunPlan, length: f32) {
    /// Pieces of a long tube; those out of view are left out.
    const MOST: f32 = 60.0;
    let n_pieces = f64::from((length / 20.0).clamp(1.0, MOST).ceil());
    let step = plan.length_m / n_pieces;
    let mut from = 0.0;
    while from < plan.length_m {
        let ends = [plan.at(from, 0.0), plan.at(from + step, 0.0)];
        if pen.sees(&ends) {
            labels.keep_off(Rect::from_two_pos(pen.at(ends[0]), pen.at(ends[1])).expand(2.0));
        }
        from += step;
    }
}

/// The keep-clear envelope: the outline of all its boxes together, broken.
fn envelope(pen: &mut Pen<'_>, study: &RunStudy, is_forward: bool) {
    let ring = outline(&study.clearance.bodies, &study.clearance.envelope);
    if ring.is_empty() {
        return;
    }
    let colour = if is_forward {
        pen.roles.envelope
    } else {
        faded(pen.roles.envelope, 0.7)
    };
    if is_forward {
        pen.fill(&ring, &[], pen.roles.envelope_fill);
    }
    pen.closed_dashed(&ring, Stroke::new(1.2, colour), DASHED);
}

/// The outline of boxes that lie along one run, in plan.
fn outline(bodies: &RunBodies, boxes: &[Bounds]) -> Vec<DVec2> {
    stepped(boxes)
        .into_iter()
        .map(|(s, l)| {
            bodies
                .frame
                .site_from_local(DVec3::new(s, l, 0.0))
                .truncate()
        })
        .collect()
}

/// The outline of boxes along x: at each x as far up and as far down in y as any of them
/// reaches there.
pub(in crate::editor) fn stepped(boxes: &[Bounds]) -> Vec<(f64, f64)> {
    let mut stations: Vec<f64> = boxes.iter().flat_map(|it| [it.low.x, it.high.x]).collect();
    stations.sort_by(f64::total_cmp);
    stations.dedup();
    let (mut upper, mut lower) = (Vec::new(), Vec::new());
    for piece in stations.windows(2) {
        let [from, to] = *piece else { continue };
        let middle = (from + to) / 2.0;
        let covering = boxes
            .iter()
            .filter(|it| it.low.x <= middle && middle <= it.high.x);
        let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
        for it in covering {
            least = least.min(it.low.y);
            most = most.max(it.high.y);
        }
        if least <= most {
            upper.extend([(from, most), (to, most)]);
            lower.extend([(from, least), (to, least)]);
        }
    }
    lower.reverse();
    upper.extend(lower);
    upper.dedup();
    upper
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_outline_of_two_boxes_steps_where_the_wider_one_ends() {
        let bounds = |low: (f64, f64), high: (f64, f64)| Bounds {
            low: DVec3::new(low.0, low.1, 0.0),
            high: DVec3::new(high.0, high.1, 0.0),
        };
        let boxes = [
            bounds((0.0, -1.0), (4.0, 1.0)),
            bounds((3.0, -2.0), (5.0, 0.5)),
        ];
        assert_eq!(
            stepped(&boxes),
            [
                (0.0, 1.0),
                (3.0, 1.0),
                (4.0, 1.0),
                (4.0, 0.5),
                (5.0, 0.5),
                (5.0, -2.0),
                (4.0, -2.0),
                (3.0, -2.0),
                (3.0, -1.0),
                (0.0, -1.0),
            ]
        );
    }
}
