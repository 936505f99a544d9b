//! The panel of the open stage: its tools and its form.

use crate::editor::Editor;
use crate::editor::command::Command;
use crate::editor::intent::Intent;
use crate::editor::tools::ToolKind;
use eframe::egui::Ui;

/// The panel of the open stage.
pub(in crate::editor) fn stage_panel_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    ui.heading(editor.stage.label());
    for tool in std::iter::once(&ToolKind::Pick).chain(editor.stage.tools()) {
        if ui
            .selectable_label(editor.tool == *tool, tool.label())
            .clicked()
        {
            intents.push(Intent::Command(Command::Take(*tool)));
        }
    }
}
