//! Grid lines and their bubbles.

use super::labels::{Label, Labels, Weight};
use super::pen::{LONG_DASH_DOT, Pen};
use crate::editor::stage::Stage;
use crate::editor::theme::TextSize;
use crate::geometry::DVec2;
use crate::site::{GridLine, Site};
use eframe::egui::{Align2, Pos2, Rect, Shape, Stroke, Vec2};

/// Radius of a bubble, points.
pub(super) const BUBBLE: f32 = 11.0;

/// Nearest that a bubble comes to the edge of the canvas, points.
const INSET: f32 = 6.0;

/// The lines themselves.
pub(super) fn lines(pen: &mut Pen<'_>, site: &Site, stage: Stage) {
    let width = if stage == Stage::Shell { 1.2 } else { 1.0 };
    let stroke = Stroke::new(width, pen.roles.grid);
    for line in &site.grid {
        pen.dashed(line.from, line.to, stroke, LONG_DASH_DOT);
    }
}

/// Where a line's bubble stands: at its first end, or, where that is out of view, where
/// the line enters it, so that every place on the canvas can be named.
pub(super) fn bubble(pen: &Pen<'_>, line: &GridLine) -> Option<Pos2> {
    let direction = pen.camera.screen_vector(line.direction()).normalized();
    let room = pen.camera.rect().shrink(BUBBLE + INSET);
    let at_end = pen.at(line.from) - direction * BUBBLE;
    if room.contains(at_end) {
        return Some(at_end);
    }
    let (entered, left) = crossing(room, pen.at(line.from), pen.at(line.to))?;
    // Out of view at its first end: as near to it as the canvas goes.
    (entered != left).then_some(entered)
}

/// The piece of a screen segment inside a rectangle.
fn crossing(room: Rect, a: Pos2, b: Pos2) -> Option<(Pos2, Pos2)> {
    let site = |p: Pos2| DVec2::new(f64::from(p.x), f64::from(p.y));
    let (from, to) = super::pen::clip(site(a), site(b), site(room.min), site(room.max))?;
    let screen = |p: DVec2| {
        Pos2::new(
            crate::editor::camera::narrow(p.x),
            crate::editor::camera::narrow(p.y),
        )
    };
    Some((screen(from), screen(to)))
}

/// The bubbles, those that would lie on another left out.
pub(super) fn bubbles(pen: &mut Pen<'_>, labels: &mut Labels, site: &Site) {
    // The outermost lines of a family first: when there is no room for all, they stay.
    let n_lines = site.grid.len();
    let outermost = |place: usize| place.min(n_lines - 1 - place);
    let mut order: Vec<usize> = (0..n_lines).collect();
    order.sort_by_key(|place| (outermost(*place), *place));
    for place in order {
        let line = &site.grid[place];
        let Some(centre) = bubble(pen, line) else {
            continue;
        };
        let rect = Rect::from_center_size(centre, Vec2::splat(2.0 * BUBBLE));
        if !labels.is_free(rect) {
            continue;
        }
        let wide = line.id.as_str().chars().count() > 2;
        let half = if wide {
            Vec2::new(1.6 * BUBBLE, BUBBLE)
        } else {
            Vec2::splat(BUBBLE)
        };
        let frame = Rect::from_center_size(centre, half * 2.0);
        pen.add(Shape::rect_filled(frame, BUBBLE, pen.roles.ground));
        pen.add(Shape::rect_stroke(
            frame,
            BUBBLE,
            Stroke::new(1.0, pen.roles.grid_text),
            eframe::egui::StrokeKind::Inside,
        ));
        labels.want(Label {
            text: line.id.to_string(),
            font: TextSize::Small.font(),
            colour: pen.roles.grid_text,
            ground: None,
            weight: Weight::Grid,
            places: vec![(centre, Align2::CENTER_CENTER)],
        });
    }
}
