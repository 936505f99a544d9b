//! The menu of what is picked, at the pointer.

use super::Canvas;
use crate::editor::Editor;
use crate::editor::command::Command;
use crate::editor::hangers::said;
use crate::editor::intent::Intent;
use crate::editor::tools::hanger::free_point_at;
use eframe::egui::{Button, Response, Ui};

/// What can be done with what is picked, in the order of how often it is.
const COMMANDS: [Command; 8] = [
    Command::Duplicate,
    Command::Repeat,
    Command::EndForEnd,
    Command::TurnQuarter,
    Command::TurnBy,
    Command::LockHangers,
    Command::FitSelection,
    Command::Delete,
];

/// Opens on a click with the second button.
pub(super) fn menu_ui(
    response: &Response,
    canvas: &Canvas,
    editor: &Editor,
    intents: &mut Vec<Intent>,
) {
    response.context_menu(|ui| {
        let free = canvas
            .menu_at
            .and_then(|at| free_point_at(editor, &canvas.camera, at));
        if let Some(at) = free {
            let said = said(editor.site().units, &at);
            if ui
                .add(Button::new(format!("Add a hanger: {said}")))
                .clicked()
            {
                intents.push(Intent::AddHanger(Box::new(at)));
                ui.close();
            }
        }
        for command in COMMANDS {
            if command.is_possible(editor) {
                entry_ui(ui, command, intents);
            }
        }
        if editor.selection.ids.is_empty() {
            entry_ui(ui, Command::SelectAll, intents);
            entry_ui(ui, Command::Fit, intents);
        }
    });
}

fn entry_ui(ui: &mut Ui, command: Command, intents: &mut Vec<Intent>) {
    let keys = command
        .key()
        .map_or_else(String::new, |key| ui.ctx().format_shortcut(&key));
    let button = Button::new(command.label()).shortcut_text(keys);
    if ui.add(button).clicked() {
        intents.push(Intent::Command(command));
        ui.close();
    }
}
