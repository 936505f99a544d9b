//! The questions that the window puts.

mod arranging;
mod commands;
mod files;
mod first;
mod policy;

use super::frame::MARGIN;
use crate::editor::Editor;
use crate::editor::dialog::Dialog;
use crate::editor::intent::Intent;
use crate::editor::theme::{ROW, STEP, TextSize, Theme};
use crate::editor::widgets::{Tone, message_ui, select_all};
use eframe::egui;
use egui::{
    Align, Context, Frame, Id, Key, Layout, Margin, Modal, Response, RichText, Stroke, TextEdit,
    Ui, vec2,
};

/// The question that waits, if one does.
pub(in crate::editor) fn dialogs_ui(ctx: &Context, editor: &Editor, intents: &mut Vec<Intent>) {
    let Some(dialog) = &editor.dialog else {
        return;
    };
    match dialog {
        Dialog::Open { path, trouble } => {
            files::open_ui(ctx, editor, intents, path, trouble.as_deref());
        }
        Dialog::SaveAs { .. } => files::save_ui(ctx, editor, intents, dialog),
        Dialog::SavePicture { path, trouble } => {
            files::picture_ui(ctx, editor, intents, path, trouble.as_deref());
        }
        Dialog::Unsaved { then } => files::unsaved_ui(ctx, editor, intents, then),
        Dialog::Recovery => first::recovery_ui(ctx, editor, intents),
        Dialog::Cautions => first::cautions_ui(ctx, intents),
        Dialog::TurnBy { angle } => arranging::turn_ui(ctx, editor, intents, angle),
        Dialog::Repeat { .. } => arranging::repeat_ui(ctx, editor, intents, dialog),
        Dialog::FindCommand { sought } => commands::find_ui(ctx, editor, intents, sought),
        Dialog::Policy => policy::policy_ui(ctx, editor, intents),
    }
}

/// Whether a question may be waved away.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Leave {
    /// By Escape or a click beside it.
    Freely,
    /// Only by one of its answers.
    ByAnswer,
}

/// A question in the middle of the window; whether the user waved it away.
fn question_ui(
    ctx: &Context,
    title: &str,
    width: f32,
    leave: Leave,
    contents: impl FnOnce(&mut Ui),
) -> bool {
    let palette = &Theme::of(ctx).palette;
    let room = ctx.content_rect();
    let frame = Frame::new()
        .fill(palette.ground)
        .stroke(Stroke::new(1.0, palette.edge))
        .corner_radius(6.0)
        .shadow(ctx.global_style().visuals.window_shadow)
        .inner_margin(Margin::same(20));
    let modal = Modal::new(Id::unique("question"))
        .frame(frame)
        .show(ctx, |ui| {
            ui.set_width(width.min(room.width() - 16.0 * STEP));
            ui.label(
                RichText::new(title)
                    .font(TextSize::Heading.bold())
                    .color(palette.ink),
            );
            ui.add_space(2.0 * STEP);
            contents(ui);
        });
    leave == Leave::Freely && modal.should_close()
}

/// The answers, at the right, the main one outermost.
fn answers_ui(ui: &mut Ui, answers: impl FnOnce(&mut Ui)) {
    ui.add_space(MARGIN);
    ui.allocate_ui_with_layout(
        vec2(ui.available_width(), ROW),
        Layout::right_to_left(Align::Center),
        answers,
    );
}

/// A field of a question: what is typed is kept in the question until it is answered.
/// The first field has the focus when the question comes up.
fn typed_ui(ui: &mut Ui, name: &str, text: &mut String, hint: &str) -> Response {
    let palette = &Theme::of(ui).palette;
    let id = ui.scope_id().with(("typed", name));
    let is_focused = ui.memory(|memory| memory.has_focus(id));
    let (weight, edge, x, y) = if is_focused {
        (2.0, palette.focus, 7, 3)
    } else {
        (1.0, palette.field_edge, 8, 4)
    };
    let frame = Frame::new()
        .fill(palette.paper)
        .stroke(Stroke::new(weight, edge))
        .corner_radius(3.0)
        .inner_margin(Margin::symmetric(x, y));
    let edit = TextEdit::singleline(text)
        .id(id)
        .frame(frame)
        .desired_width(ui.available_width())
        .min_size(vec2(0.0, ROW))
        .align(egui::Align2::LEFT_CENTER)
        .hint_text(RichText::new(hint).color(palette.faint_ink));
    let response = ui.add(edit).accessible_name(name);
    if ui.memory(|memory| memory.focused().is_none()) && !response.lost_focus() {
        response.request_focus();
        select_all(ui, id, text.chars().count());
    } else if response.gained_focus() {
        select_all(ui, id, text.chars().count());
    }
    response
}

/// Whether Enter was pressed in a field.
fn entered(ui: &Ui, field: &Response) -> bool {
    field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter))
}

/// What was wrong, if anything was.
fn trouble_ui(ui: &mut Ui, trouble: Option<&str>) {
    if let Some(trouble) = trouble {
        ui.add_space(STEP);
        message_ui(ui, Tone::Breach, trouble);
    }
}
