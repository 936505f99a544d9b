//! The status line.

use crate::editor::Editor;
use crate::editor::intent::Intent;
use eframe::egui::Ui;

/// The status line.
pub(in crate::editor) fn status_line_ui(ui: &mut Ui, editor: &Editor, _intents: &mut Vec<Intent>) {
    if let Some(message) = &editor.message {
        ui.label(&message.text);
    }
}
