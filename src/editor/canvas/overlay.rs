//! What is picked, what the pointer is over, handles, and what is being drawn.

use super::labels::{Label, Labels, Weight};
use super::pen::{DASHED, LONG_DASH_DOUBLE_DOT, Pen};
use crate::editor::Editor;
use crate::editor::extent::{Extent, RunPlan, jambs, outlines};
use crate::editor::theme::{TextSize, faded};
use crate::editor::tools::handles::{Grip, handles};
use crate::editor::tools::pick::{Gesture, KNOB};
use crate::editor::tools::sketch::{Form, Ghost};
use crate::geometry::DVec2;
use crate::site::{Edit, Object, ObjectId};
use crate::structure::Member;
use eframe::egui::{Align2, Color32, Rect, Shape, Stroke, StrokeKind, Vec2};
use std::sync::Arc;

/// Side of a handle, points.
const HANDLE: f32 = 7.0;

/// The outline of an object that stands out from the drawing.
fn rings(editor: &Editor, members: &[Arc<Member>], object: &Object) -> Vec<(Vec<DVec2>, bool)> {
    match object {
        Object::GridLine(line) => vec![(vec![line.from, line.to], false)],
        Object::SectionLine(line) => vec![(vec![line.from, line.to], false)],
        Object::Bay(bay) => std::iter::once(&bay.outline)
            .chain(&bay.holes)
            .map(|ring| (ring.clone(), true))
            .collect(),
        Object::Obstruction(it) => outlines(it).into_iter().map(|ring| (ring, true)).collect(),
        Object::Run(run) => vec![(RunPlan::of(run, &editor.catalogue).corners().to_vec(), true)],
        Object::Opening(opening) => editor
            .site()
            .bays
            .iter()
            .find(|bay| bay.id == opening.bay)
            .and_then(|bay| jambs(opening, bay))
            .map_or_else(Vec::new, |(a, b)| vec![(vec![a, b], false)]),
        Object::Framing(framing) => members
            .iter()
            .filter(|member| member.framing == framing.id)
            .map(|member| (vec![member.start, member.end()], false))
            .collect(),
        Object::WorkSpot(_) => Vec::new(),
    }
}

/// What is picked and what the pointer is over.
pub(super) fn picked(pen: &mut Pen<'_>, editor: &Editor, members: &[Arc<Member>]) {
    let selection = &editor.selection;
    let hovered = selection
        .hovered
        .iter()
        .filter(|id| !selection.has(id))
        .map(|id| (id, pen.roles.hover, 1.2, 2.0));
    let colour = pen.roles.selection;
    let picked = selection.ids.iter().map(|id| (id, colour, 1.8, 3.0));
    let all: Vec<(&ObjectId, Color32, f32, f32)> = hovered.chain(picked).collect();
    for (id, colour, width, margin) in all {
        let Some(object) = editor.site().object(id) else {
            continue;
        };
        outline(
            pen,
            editor,
            members,
            &object,
            Stroke::new(width, colour),
            margin,
        );
    }
}

fn outline(
    pen: &mut Pen<'_>,
    editor: &Editor,
    members: &[Arc<Member>],
    object: &Object,
    stroke: Stroke,
    margin: f32,
) {
    if let Object::WorkSpot(spot) = object {
        pen.disc(spot.at, 10.0 + margin, Color32::TRANSPARENT, stroke);
        return;
    }
    let fills = matches!(object, Object::Run(_) | Object::Obstruction(_));
    for (ring, closed) in rings(editor, members, object) {
        if closed {
            let grown = grown(&ring, pen.camera.site_length(margin));
            if fills {
                pen.fill(&ring, &[], pen.roles.selection_fill);
            }
            pen.closed(&grown, stroke);
        } else if let [a, b] = ring[..] {
            pen.line(a, b, stroke);
        }
    }
}

/// A ring moved outward by about a margin: each corner away from the middle along both
/// axes. Good enough for an outline of a few points.
fn grown(ring: &[DVec2], margin_m: f64) -> Vec<DVec2> {
    let n_corners = ring.len();
    let turn = crate::geometry::polygon::signed_area(ring).signum();
    (0..n_corners)
        .map(|place| {
            let before = ring[(place + n_corners - 1) % n_corners];
            let here = ring[place];
            let after = ring[(place + 1) % n_corners];
            let out = |a: DVec2, b: DVec2| (b - a).normalize_or_zero().perp() * -turn;
            here + (out(before, here) + out(here, after)) * margin_m
        })
        .collect()
}

/// While a suggestion is shown: where its run was.
pub(super) fn before_suggestion(pen: &mut Pen<'_>, labels: &mut Labels, editor: &Editor) {
    let Some(study) = editor.is_offer_shown().then(|| editor.hung_run()).flatten() else {
        return;
    };
    let scheme = editor.committed().scheme();
    let Some(was) = scheme.run(&study.run.id) else {
        return;
    };
    let plan = RunPlan::of(was, &editor.catalogue);
    let stroke = Stroke::new(1.4, pen.roles.draft);
    pen.closed_dashed(&plan.corners(), stroke, LONG_DASH_DOUBLE_DOT);
    let at = pen.at(plan.at(plan.length_m, -plan.half_width_m));
    let off = Vec2::new(0.0, 12.0);
    labels.want(Label {
        text: format!("{} as it is", was.id),
        font: TextSize::Small.font(),
        colour: pen.roles.draft,
        ground: Some(pen.roles.label_ground),
        weight: Weight::Drawn,
        places: vec![
            (at + off, Align2::RIGHT_CENTER),
            (at - off, Align2::RIGHT_CENTER),
            (at + off * 2.0, Align2::RIGHT_CENTER),
        ],
    });
}

/// While a run is dragged: where the nearest suggestion would have it, and what for.
pub(super) fn suggested(pen: &mut Pen<'_>, labels: &mut Labels, editor: &Editor) {
    let Some(study) = editor.hung_run() else {
        return;
    };
    let Some(first) = editor.advice.suggestion(&study.run.id, 0) else {
        return;
    };
    let Edit::Put(Object::Run(run)) = &first.edit else {
        return;
    };
    let plan = RunPlan::of(run, &editor.catalogue);
    let stroke = Stroke::new(1.4, pen.roles.draft);
    pen.closed_dashed(&plan.corners(), stroke, DASHED);
    let (before, after) = (&first.before, &first.after);
    let fewer = before.n_channels.saturating_sub(after.n_channels);
    let text = match (before.cost, fewer) {
        (None, _) => "here it can be hung".to_owned(),
        (_, 1) => "here 1 cross channel fewer".to_owned(),
        (_, 2..) => format!("here {fewer} cross channels fewer"),
        (_, _) => "here it hangs for less".to_owned(),
    };
    let at = pen.at(plan.end());
    labels.want(Label {
        text,
        font: TextSize::Small.font(),
        colour: pen.roles.draft,
        ground: Some(pen.roles.label_ground),
        weight: Weight::Drawn,
        places: [24.0, -24.0, 36.0, -36.0]
            .map(|y| (at + Vec2::new(0.0, y), Align2::RIGHT_CENTER))
            .to_vec(),
    });
}

/// The handles of the only picked object.
pub(super) fn grips(pen: &mut Pen<'_>, editor: &Editor) {
    let Some(object) = editor
        .selection
        .single()
        .and_then(|id| editor.site().object(id))
    else {
        return;
    };
    let stroke = Stroke::new(1.5, pen.roles.selection);
    for handle in handles(editor, &object, pen.camera.site_length(KNOB)) {
        if !pen.sees(&[handle.at]) {
            continue;
        }
        let at = pen.at(handle.at);
        if handle.grip == Grip::Turn {
            pen.add(Shape::circle_filled(
                at,
                HANDLE / 2.0 + 1.0,
                pen.roles.ground,
            ));
            pen.add(Shape::circle_stroke(at, HANDLE / 2.0 + 1.0, stroke));
            let stem = at + Vec2::new(0.0, HANDLE / 2.0 + 1.0);
            let foot = at + Vec2::new(0.0, KNOB - 3.0);
            pen.add(Shape::line_segment([stem, foot], stroke));
        } else {
            let rect = Rect::from_center_size(at, Vec2::splat(HANDLE));
            pen.add(Shape::rect_filled(rect, 1.0, pen.roles.ground));
            pen.add(Shape::rect_stroke(rect, 1.0, stroke, StrokeKind::Middle));
        }
    }
}

/// What is being drawn, with its lengths.
pub(super) fn ghost(pen: &mut Pen<'_>, labels: &mut Labels, ghost: &Ghost) {
    let stroke = Stroke::new(1.6, pen.roles.draft);
    for (points, form) in &ghost.lines {
        match form {
            Form::Open => pen.open_line(points, stroke),
            Form::Closed => {
                pen.fill(points, &[], pen.roles.selection_fill);
                pen.closed(points, stroke);
            }
            Form::Light => {
                let light = Stroke::new(1.0, faded(pen.roles.draft, 0.6));
                if let [a, b] = points[..] {
                    pen.line(a, b, light);
                }
            }
        }
        if *form != Form::Light {
            for point in points {
                pen.disc(*point, 2.5, pen.roles.draft, Stroke::NONE);
            }
        }
    }
    for measure in &ghost.measures {
        let (a, b) = (pen.at(measure.a), pen.at(measure.b));
        let middle = a + (b - a) / 2.0;
        let across = Vec2::new(-(b - a).y, (b - a).x).normalized() * 12.0;
        labels.want(Label {
            text: measure.text.clone(),
            font: TextSize::Body.bold(),
            colour: pen.roles.dimension,
            ground: Some(pen.roles.label_ground),
            weight: Weight::Drawn,
            places: [across, -across, across * 2.5, -across * 2.5]
                .map(|off| (middle + off, Align2::CENTER_CENTER))
                .to_vec(),
        });
    }
}

/// The box that picks.
pub(super) fn pick_box(pen: &mut Pen<'_>, gesture: Option<&Gesture>) {
    if let Some(Gesture::Box { from, to, .. }) = gesture {
        let extent = Extent::of([*from, *to]);
        let ring = crate::editor::make::rectangle(extent.least, extent.greatest);
        pen.fill(&ring, &[], pen.roles.selection_fill);
        pen.closed_dashed(&ring, Stroke::new(1.0, pen.roles.selection), DASHED);
    }
}
