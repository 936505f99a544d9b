//! The top bar: the site's name, undo and redo, commands.

use crate::editor::Editor;
use crate::editor::command::Command;
use crate::editor::intent::Intent;
use eframe::egui::Ui;

/// The top bar.
pub(in crate::editor) fn top_bar_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    ui.horizontal_centered(|ui| {
        ui.strong(&editor.site().name);
        for command in [Command::Undo, Command::Redo, Command::FindCommand] {
            if ui.button(command.label()).clicked() {
                intents.push(Intent::Command(command));
            }
        }
    });
}
