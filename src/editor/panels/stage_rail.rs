//! The stage rail: the order of the job, and how far each part of it is.

use super::frame::{Edge, ground};
use super::status::{StageStatus, stage_status};
use crate::editor::command::Command;
use crate::editor::icons::Icon;
use crate::editor::intent::Intent;
use crate::editor::theme::{STEP, TextSize, Theme};
use crate::editor::widgets::Tone;
use crate::editor::{Editor, Stage};
use eframe::egui;
use egui::{
    Align2, Color32, Rect, Role, ScrollArea, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo, pos2,
    vec2,
};

/// Height of one stage, points.
const HEIGHT: f32 = 18.0 * STEP;

/// The stage rail.
pub(in crate::editor) fn stage_rail_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    ground(ui, Edge::Right);
    ScrollArea::vertical().id_salt("stages").show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        ui.add_space(STEP);
        for stage in Stage::ALL {
            if stage_ui(ui, editor, stage) {
                intents.push(Intent::Command(Command::Enter(stage)));
            }
        }
    });
}

/// One stage; whether it was clicked.
fn stage_ui(ui: &mut Ui, editor: &Editor, stage: Stage) -> bool {
    let status = stage_status(editor, stage);
    let is_open = editor.stage == stage;
    let size = vec2(ui.available_width(), HEIGHT);
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    let said = format!("{}, {}", stage.label(), status.words());
    response.widget_info(|| WidgetInfo::selected(Role::Tab, true, is_open, &said));
    let palette = &Theme::of(ui).palette;
    let painter = ui.painter();
    // One point stays free for the hairline between rail and panel.
    let inner = rect.with_max_x(rect.right() - 1.0);
    if is_open {
        painter.rect_filled(inner, 0.0, palette.paper);
        painter.rect_filled(inner.with_max_x(inner.left() + 3.0), 0.0, palette.accent);
    } else if response.hovered() {
        painter.rect_filled(inner, 0.0, palette.band);
    }
    if response.has_focus() {
        let line = Stroke::new(2.0, palette.focus);
        painter.rect_stroke(inner, 0.0, line, StrokeKind::Inside);
    }
    let ink = if is_open {
        palette.ink
    } else {
        palette.soft_ink
    };
    let middle = rect.center().x;
    let icon = Rect::from_center_size(pos2(middle, rect.top() + 21.0), Vec2::splat(26.0));
    icon_of(stage).paint(painter, icon, ink);
    let font = if is_open {
        TextSize::Small.bold()
    } else {
        TextSize::Small.font()
    };
    painter.text(
        pos2(middle, rect.top() + 45.0),
        Align2::CENTER_CENTER,
        stage.label(),
        font,
        ink,
    );
    status_ui(ui, pos2(middle, rect.top() + 59.0), status);
    response
        .on_hover_text(super::menus::with_key(ui, Command::Enter(stage)))
        .clicked()
}

fn status_ui(ui: &Ui, middle: egui::Pos2, status: StageStatus) {
    let palette = &Theme::of(ui).palette;
    let (tone, colour): (Option<Tone>, Color32) = match status {
        StageStatus::Empty | StageStatus::InOrder => (None, palette.faint_ink),
        StageStatus::Open(_) => (Some(Tone::Caution), palette.caution),
        StageStatus::Breaches(_) => (Some(Tone::Breach), palette.breach),
    };
    let galley = ui
        .painter()
        .layout_no_wrap(status.short_words(), TextSize::Small.font(), colour);
    let mark = if tone.is_some() { 12.0 } else { 0.0 };
    let left = middle.x - (galley.size().x + mark) / 2.0;
    if let Some(tone) = tone {
        let place = Rect::from_center_size(pos2(left + 4.5, middle.y), Vec2::splat(9.0));
        tone.icon().paint(ui.painter(), place, colour);
    }
    let top = middle.y - galley.size().y / 2.0;
    ui.painter().galley(pos2(left + mark, top), galley, colour);
}

/// The icon of a stage.
pub(super) const fn icon_of(stage: Stage) -> Icon {
    match stage {
        Stage::Shell => Icon::Shell,
        Stage::Steel => Icon::Steel,
        Stage::Obstructions => Icon::Obstructions,
        Stage::Runs => Icon::Runs,
        Stage::Sheets => Icon::Sheets,
    }
}
