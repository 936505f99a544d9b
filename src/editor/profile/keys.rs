//! The arrows while the run profile has the focus: they move the picked hanger.

use crate::editor::Editor;
use crate::editor::command::Command;
use crate::editor::hangers::{Stride, Toward};
use crate::editor::intent::Intent;
use crate::editor::theme::Theme;
use eframe::egui::{EventFilter, Key, Modifiers, Response, Stroke, StrokeKind, Ui};

pub(super) fn read(ui: &Ui, response: &Response, editor: &Editor, intents: &mut Vec<Intent>) {
    if !response.has_focus() || editor.dialog.is_some() {
        return;
    }
    let filter = EventFilter {
        horizontal_arrows: true,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
    let line = Stroke::new(2.0, Theme::of(ui).palette.focus);
    ui.painter()
        .rect_stroke(response.rect.shrink(1.0), 2.0, line, StrokeKind::Inside);
    for (key, toward, pick) in [
        (Key::ArrowLeft, Toward::Burner, Command::PreviousHanger),
        (Key::ArrowRight, Toward::Exhaust, Command::NextHanger),
    ] {
        for (modifiers, stride) in [
            (Modifiers::SHIFT, Stride::Any),
            (Modifiers::NONE, Stride::Direct),
        ] {
            if !ui.input_mut(|input| input.consume_key(modifiers, key)) {
                continue;
            }
            if editor.selection.hanger().is_none() {
                intents.push(Intent::Command(pick));
            } else if let Some(to) = editor.hanger_beyond(toward, stride) {
                intents.push(Intent::MoveHanger(Box::new(to)));
            }
        }
    }
}
