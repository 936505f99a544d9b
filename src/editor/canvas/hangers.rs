//! Hangers: where each is and how it gets its hold, with its length and load where there
//! is room.

use super::labels::{Label, Labels, Weight};
use super::pen::Pen;
use crate::editor::Editor;
use crate::editor::figures;
use crate::editor::hangers::{is_too_much, part, percent};
use crate::editor::icons::Icon;
use crate::editor::theme::{TextSize, faded};
use crate::editor::view::Layer;
use crate::geometry::DVec2;
use crate::hanging::{Hanger, Kind};
use crate::study::RunStudy;
use crate::units::{Force, Length};
use eframe::egui::{Align2, Color32, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2};

/// From this distance between hangers they are drawn at all, points.
const MARKS_FROM: f32 = 7.0;
/// From this distance their suspension lengths have room.
const LENGTHS_FROM: f32 = 34.0;
/// From this distance their loads have room too.
const LOADS_FROM: f32 = 64.0;

/// The hangers of a run. Those of a study that lags behind are drawn faintly.
pub(super) fn hangers(
    pen: &mut Pen<'_>,
    labels: &mut Labels,
    editor: &Editor,
    study: &RunStudy,
    is_current: bool,
) {
    let hangers = &study.hanging.hangers;
    let apart = pen.camera.screen_length(spacing_m(study));
    if apart < MARKS_FROM {
        return;
    }
    let radius = (apart / 9.0).clamp(2.2, 4.2);
    let axis = study.geometry.axis();
    let picked = editor.selection.hanger();
    let is_kept = matches!(study.run.hanging, crate::site::Hanging::Locked(_));
    for (place, hanger) in hangers.iter().enumerate() {
        let at = axis.point(hanger.at.station_m).truncate();
        if !pen.sees(&[at]) {
            continue;
        }
        channel(pen, editor, hanger, is_current);
        let excess = excess(editor, hanger).filter(|_| is_current);
        mark(pen, hanger, at, radius, is_current, excess);
        if is_kept && LENGTHS_FROM <= apart {
            labels.keep_off(padlock(pen, at, radius, tone(pen, is_current)));
        }
        if picked == Some((&study.run.id, place)) {
            let stroke = Stroke::new(2.0, pen.roles.selection);
            pen.disc(at, radius + 4.5, Color32::TRANSPARENT, stroke);
        }
        let rect = Rect::from_center_size(pen.at(at), Vec2::splat(2.0 * radius));
        labels.keep_off(rect);
        if is_current && editor.view.shows(Layer::Labels) && LENGTHS_FROM <= apart {
            figure(pen, labels, editor, study, hanger, at, apart, excess);
        }
    }
}

/// How far a run's hangers are apart on the whole, m; endless where there is one.
pub(in crate::editor) fn spacing_m(study: &RunStudy) -> f64 {
    match study.hanging.hangers.as_slice() {
        [first, .., last] => {
            #[expect(clippy::cast_precision_loss, reason = "a run has a handful of hangers")]
            let n_gaps = (study.hanging.hangers.len() - 1) as f64;
            (last.at.station_m - first.at.station_m) / n_gaps
        }
        _ => f64::INFINITY,
    }
}

/// A cross channel, from member to member.
fn channel(pen: &mut Pen<'_>, editor: &Editor, hanger: &Hanger, is_current: bool) {
    let (Some(second), Some(structure)) = (&hanger.at.second, editor.structure()) else {
        return;
    };
    let end = |hold: &crate::hanging::Hold| {
        let member = structure.member(&hold.member)?;
        Some(member.plan_at(hold.position_m))
    };
    if let (Some(a), Some(b)) = (end(&hanger.at.first), end(second)) {
        let colour = tone(pen, is_current);
        pen.line(a, b, Stroke::new(2.4, colour));
        for point in [a, b] {
            pen.disc(point, 2.2, colour, Stroke::NONE);
        }
    }
}

/// The part of what is allowed that a hanger carries, where that is too much.
fn excess(editor: &Editor, hanger: &Hanger) -> Option<f64> {
    part(editor.results.study()?, hanger).filter(|part| is_too_much(*part))
}

/// A kept hanger is locked: a small padlock at its shoulder.
fn padlock(pen: &mut Pen<'_>, at: DVec2, radius: f32, colour: Color32) -> Rect {
    let corner = pen.at(at) + Vec2::new(radius + 2.0, -radius - 10.0);
    let square = Rect::from_min_size(corner, Vec2::splat(10.0));
    for shape in Icon::Lock.shapes(square, colour) {
        pen.add(shape);
    }
    square
}

fn tone(pen: &Pen<'_>, is_current: bool) -> Color32 {
    faded(pen.roles.hanger, if is_current { 1.0 } else { 0.45 })
}

/// Circle: on a panel point, a beam or a purlin. Square: off a panel point. Triangle: on
/// a cross channel. A slack one is crossed out.
///
/// One that carries more than it may is solid, in a frame of its own.
fn mark(
    pen: &mut Pen<'_>,
    hanger: &Hanger,
    at: DVec2,
    radius: f32,
    is_current: bool,
    excess: Option<f64>,
) {
    let mut stroke = Stroke::new(1.4, tone(pen, is_current));
    let mut fill = pen.roles.hanger_fill;
    if excess.is_some() {
        stroke.color = pen.roles.breach;
        fill = pen.roles.breach;
        let rect = Rect::from_center_size(pen.at(at), Vec2::splat(2.0 * radius + 8.0));
        pen.add(Shape::rect_stroke(rect, 0.0, stroke, StrokeKind::Middle));
    }
    let centre = pen.at(at);
    let offset = |x: f32, y: f32| centre + Vec2::new(x, y) * radius;
    match hanger.at.kind {
        Kind::Panel | Kind::Line => pen.disc(at, radius, fill, stroke),
        Kind::OffPanel => {
            let points: Vec<Pos2> = [(-0.95, -0.95), (0.95, -0.95), (0.95, 0.95), (-0.95, 0.95)]
                .map(|(x, y)| offset(x, y))
                .to_vec();
            pen.add(Shape::convex_polygon(points, fill, stroke));
        }
        Kind::Channel => {
            let points: Vec<Pos2> = [(0.0, -1.5), (1.35, 0.95), (-1.35, 0.95)]
                .map(|(x, y)| offset(x, y))
                .to_vec();
            pen.add(Shape::convex_polygon(points, fill, stroke));
        }
    }
    if hanger.load.slack {
        let ends = [offset(-1.6, 1.6), offset(1.6, -1.6)];
        pen.add(Shape::line_segment(
            ends,
            Stroke::new(1.4, pen.roles.breach),
        ));
    }
    // A suspension that leans begins beside the run.
    let attach = hanger.at.attach.truncate();
    if radius < pen.camera.screen_length((attach - at).length()) {
        pen.line(at, attach, Stroke::new(1.0, tone(pen, is_current)));
    }
}

/// Suspension length, and the load where there is room for it.
#[expect(clippy::too_many_arguments, reason = "one hanger, where and how large")]
fn figure(
    pen: &Pen<'_>,
    labels: &mut Labels,
    editor: &Editor,
    study: &RunStudy,
    hanger: &Hanger,
    at: DVec2,
    apart: f32,
    excess: Option<f64>,
) {
    let units = editor.site().units;
    let length = figures::length(units, Length::metres(hanger.at.suspension_m));
    let text = if let Some(excess) = excess {
        let load = figures::force(units, Force::newtons(hanger.load.load_n));
        format!("{length}\n{load}\n{} of allowed", percent(excess))
    } else if LOADS_FROM <= apart {
        let load = figures::force(units, Force::newtons(hanger.load.load_n));
        format!("{length}\n{load}")
    } else {
        figures::bare_length(units, Length::metres(hanger.at.suspension_m))
    };
    let heading = study.geometry.heading;
    let across = pen.camera.screen_vector(heading.perp()).normalized();
    let below = if across.y < 0.0 { -across } else { across };
    let reflector = study.family.reflector.profile.iter();
    let half = reflector.fold(0.0, |far: f64, point| far.max(point.x.abs()));
    let off = below * (pen.camera.screen_length(half).max(5.0) + 4.0);
    let centre = pen.at(at);
    let is_upright = below.x.abs() > below.y.abs();
    let (near, far) = if is_upright {
        let near = if below.x < 0.0 {
            Align2::RIGHT_CENTER
        } else {
            Align2::LEFT_CENTER
        };
        let far = if below.x < 0.0 {
            Align2::LEFT_CENTER
        } else {
            Align2::RIGHT_CENTER
        };
        (near, far)
    } else {
        (Align2::CENTER_TOP, Align2::CENTER_BOTTOM)
    };
    labels.want(Label {
        text,
        font: TextSize::Small.font(),
        colour: if excess.is_some() {
            pen.roles.breach
        } else {
            pen.roles.hanger_text
        },
        ground: Some(faded(pen.roles.label_ground, 0.75)),
        weight: Weight::Hanger,
        places: vec![(centre + off, near), (centre - off, far)],
    });
}
