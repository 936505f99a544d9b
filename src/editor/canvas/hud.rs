//! What is said beside the pointer: what it caught on, and what is being typed.

use super::pen::{DASHED, Pen};
use super::snap::Snapped;
use crate::editor::theme::{TextSize, Theme};
use crate::editor::tools::entry::Entry;
use eframe::egui::{Align2, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Ui, Vec2};

/// The mark where the pointer caught, and the lines that show what it is in line with.
pub(super) fn catch(pen: &mut Pen<'_>, snapped: &Snapped) {
    let colour = pen.roles.snap;
    for (from, to) in &snapped.guides {
        pen.dashed(*from, *to, Stroke::new(1.0, colour), DASHED);
    }
    if snapped.why.is_some() {
        let at = pen.at(snapped.at);
        let half = 5.0;
        for arm in [Vec2::new(half, half), Vec2::new(half, -half)] {
            pen.add(Shape::line_segment(
                [at - arm, at + arm],
                Stroke::new(1.2, colour),
            ));
        }
    }
}

/// A cross where the keyboard's pointer is.
pub(super) fn cursor(pen: &mut Pen<'_>, at: Pos2) {
    let stroke = Stroke::new(1.2, pen.roles.draft);
    for arm in [Vec2::new(14.0, 0.0), Vec2::new(0.0, 14.0)] {
        pen.add(Shape::line_segment([at - arm, at - arm * 0.25], stroke));
        pen.add(Shape::line_segment([at + arm * 0.25, at + arm], stroke));
    }
}

/// The chips beside the pointer: what it caught on; below it what is typed, or why that
/// can't be used.
pub(super) fn chips(
    ui: &Ui,
    painter: &Painter,
    at: Pos2,
    caught: Option<&str>,
    entry: &Entry,
    trouble: Option<&str>,
) {
    let theme = Theme::of(ui);
    let mut corner = at + Vec2::new(14.0, 12.0);
    if let Some(caught) = caught {
        let rect = chip(
            painter,
            corner,
            caught,
            theme.canvas.snap,
            theme.canvas.ground,
        );
        corner.y = rect.bottom() + 4.0;
    }
    if !entry.is_empty() {
        let typed = format!("{}\u{2502}", entry.text());
        let rect = chip(
            painter,
            corner,
            &typed,
            theme.palette.ink,
            theme.palette.paper,
        );
        corner.y = rect.bottom() + 4.0;
    }
    if let Some(trouble) = trouble {
        chip(
            painter,
            corner,
            trouble,
            theme.palette.breach,
            theme.palette.breach_tint,
        );
    }
}

/// The chips beside something that is dragged elsewhere: what it snaps to, what is wrong.
pub(in crate::editor) fn said(
    ui: &Ui,
    painter: &Painter,
    at: Pos2,
    caught: Option<&str>,
    trouble: Option<&str>,
) {
    chips(ui, painter, at, caught, &Entry::default(), trouble);
}

fn chip(
    painter: &Painter,
    corner: Pos2,
    text: &str,
    colour: eframe::egui::Color32,
    ground: eframe::egui::Color32,
) -> Rect {
    let galley = painter.layout_no_wrap(text.to_owned(), TextSize::Small.font(), colour);
    let size = galley.size() + Vec2::new(10.0, 4.0);
    // At the edge of the canvas the chip turns to the other side of the pointer.
    let room = painter.clip_rect();
    let mut rect = Rect::from_min_size(corner, size);
    if room.right() < rect.right() {
        rect = Align2::RIGHT_TOP.anchor_size(corner - Vec2::new(28.0, 0.0), size);
    }
    if room.bottom() < rect.bottom() {
        rect = rect.translate(Vec2::new(0.0, -size.y - 24.0));
    }
    painter.rect(
        rect,
        3.0,
        ground,
        Stroke::new(1.0, colour),
        StrokeKind::Inside,
    );
    painter.galley(rect.min + Vec2::new(5.0, 2.0), galley, colour);
    rect
}
