//! The inspector: the fields of what is picked above, and what the study has to say
//! below, always in sight.

use super::findings::{FINDINGS_HEIGHT, findings_ui};
use super::frame::{Edge, MARGIN, downward, ground, within};
use super::picked::picked_ui;
use crate::editor::Editor;
use crate::editor::intent::Intent;
use crate::editor::theme::{STEP, Theme};
use eframe::egui;
use egui::{Frame, Id, Margin, Rect, ScrollArea, Stroke, Ui, vec2};

/// The part of the height that the fields may take before they scroll, where the
/// findings need the rest.
const FOR_FIELDS: f32 = 0.6;

/// The inspector.
pub(in crate::editor) fn inspector_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    ground(ui, Edge::Left);
    let whole = ui.max_rect();
    let id = ui.scope_id().with("height of the fields");
    let wanted = ui.data(|data| data.get_temp::<f32>(id)).unwrap_or(0.0);
    let said = ui
        .ctx()
        .data(|data| data.get_temp::<f32>(Id::unique(FINDINGS_HEIGHT)));
    let rest = whole.height() - said.unwrap_or(0.0) - 10.0 * STEP;
    let most = (whole.height() * FOR_FIELDS).max(rest).round();
    let height = wanted.min(most);
    let above = Rect::from_min_size(whole.min, vec2(whole.width(), height));
    let below = Rect::from_min_max(above.left_bottom(), whole.max);

    within(ui, downward(above), |ui| {
        let output = ScrollArea::vertical()
            .id_salt("fields")
            .auto_shrink(false)
            .show(ui, |ui| {
                Frame::new()
                    .inner_margin(Margin {
                        left: 12,
                        right: 12,
                        top: 12,
                        bottom: 12,
                    })
                    .show(ui, |ui| {
                        ui.set_width(ui.available_width());
                        picked_ui(ui, editor, intents);
                    });
            });
        let found = output.content_size.y.ceil();
        if (found - wanted).abs() > 0.5 {
            ui.data_mut(|data| {
                data.insert_temp(id, found);
            });
            ui.request_repaint();
        }
    });
    let line = Stroke::new(1.0, Theme::of(ui).palette.rule);
    ui.painter()
        .hline(below.x_range().shrink(MARGIN), below.top(), line);
    let inner = Rect::from_min_max(
        below.min + vec2(MARGIN, 2.0 * STEP),
        below.max - vec2(STEP, 0.0),
    );
    within(ui, downward(inner), |ui| findings_ui(ui, editor, intents));
    ui.set_min_size(whole.size());
}
