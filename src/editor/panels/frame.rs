//! The ground that panels stand on: fill, hairline, margins, scrolling.

use crate::editor::theme::{STEP, Theme};
use eframe::egui;
use egui::{Frame, Margin, ScrollArea, Stroke, Ui};

/// Which edge of a panel the hairline is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Edge {
    Left,
    Right,
    Bottom,
}

/// Margin at the sides of a panel, points.
pub(super) const MARGIN: f32 = 3.0 * STEP;

/// Fills the panel and rules its edge against the plan.
pub(super) fn ground(ui: &Ui, edge: Edge) {
    let palette = &Theme::of(ui).palette;
    let rect = ui.max_rect();
    let line = Stroke::new(1.0, palette.rule);
    ui.painter().rect_filled(rect, 0.0, palette.ground);
    match edge {
        Edge::Left => ui.painter().vline(rect.left() + 0.5, rect.y_range(), line),
        Edge::Right => ui.painter().vline(rect.right() - 0.5, rect.y_range(), line),
        Edge::Bottom => ui
            .painter()
            .hline(rect.x_range(), rect.bottom() - 0.5, line),
    };
}

/// A panel whose contents are scrolled where they do not fit.
pub(super) fn scrolled_ui(ui: &mut Ui, name: &str, edge: Edge, contents: impl FnOnce(&mut Ui)) {
    ground(ui, edge);
    ScrollArea::vertical()
        .id_salt(name)
        .auto_shrink(false)
        .show(ui, |ui| {
            Frame::new()
                .inner_margin(Margin {
                    left: 12,
                    right: 8,
                    top: 12,
                    bottom: 16,
                })
                .show(ui, |ui| {
                    ui.set_width(ui.available_width());
                    contents(ui);
                });
        });
}
