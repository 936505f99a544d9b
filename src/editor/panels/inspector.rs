//! The inspector: the fields of what is picked, and the findings.

use crate::editor::Editor;
use crate::editor::intent::Intent;
use eframe::egui::Ui;

/// The inspector.
pub(in crate::editor) fn inspector_ui(ui: &mut Ui, editor: &Editor, _intents: &mut Vec<Intent>) {
    for id in &editor.selection.ids {
        ui.label(id.to_string());
    }
}
