//! The ground that panels stand on: fill, hairline, margins, scrolling.

use crate::editor::theme::{STEP, Theme};
use eframe::egui;
use egui::{Align, Frame, Layout, Margin, Rect, ScrollArea, Stroke, Ui, UiBuilder};

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

/// Contents in a rectangle of their own: whatever they need, the panel stays as wide as
/// it is.
pub(super) fn within(ui: &mut Ui, builder: UiBuilder, contents: impl FnOnce(&mut Ui)) {
    let mut inner = ui.new_child(builder);
    let rect = inner.max_rect();
    inner.shrink_clip_rect(rect);
    contents(&mut inner);
}

/// Such a rectangle, filled from the top.
pub(super) fn downward(rect: Rect) -> UiBuilder {
    UiBuilder::new()
        .max_rect(rect)
        .layout(Layout::top_down(Align::Min))
}

/// A panel whose contents are scrolled where they do not fit.
pub(super) fn scrolled_ui(ui: &mut Ui, name: &str, edge: Edge, contents: impl FnOnce(&mut Ui)) {
    ground(ui, edge);
    let rect = ui.max_rect();
    within(ui, downward(rect), |ui| {
        ScrollArea::vertical()
            .id_salt(name)
            .auto_shrink(false)
            .show(ui, |ui| {
                Frame::new()
                    .inner_margin(Margin {
                        left: 12,
                        right: 12,
                        top: 12,
                        bottom: 16,
                    })
                    .show(ui, |ui| {
                        ui.set_width(ui.available_width());
                        contents(ui);
                    });
            });
    });
    ui.set_min_size(rect.size());
}
