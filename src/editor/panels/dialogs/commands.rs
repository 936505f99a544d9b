//! Finding a command by a word of its name.

use super::{Leave, entered, question_ui, typed_ui};
use crate::editor::Editor;
use crate::editor::command::Command;
use crate::editor::dialog::Dialog;
use crate::editor::intent::Intent;
use crate::editor::theme::{ROW, STEP};
use eframe::egui;
use egui::{Button, Context, Key, ScrollArea, vec2};

/// Which command.
pub(super) fn find_ui(ctx: &Context, editor: &Editor, intents: &mut Vec<Intent>, sought: &str) {
    let mut typed = sought.to_owned();
    let mut chosen = None;
    let mut found = found(&typed);
    // What can be done now comes first; the order is kept otherwise.
    found.sort_by_key(|command| !command.is_possible(editor));
    let left = question_ui(ctx, "Find a command", 110.0 * STEP, Leave::Freely, |ui| {
        let field = typed_ui(ui, "Part of its name", &mut typed, "a word of its name");
        if entered(ui, &field) {
            chosen = found
                .iter()
                .copied()
                .find(|command| command.is_possible(editor));
        }
        if field.has_focus() && ui.input(|input| input.key_pressed(Key::ArrowDown)) {
            ui.memory_mut(|memory| memory.move_focus(egui::FocusDirection::Next));
        }
        ui.add_space(STEP);
        ScrollArea::vertical()
            .max_height(10.0 * ROW)
            .min_scrolled_height(10.0 * ROW)
            .auto_shrink(false)
            .show(ui, |ui| {
                ui.spacing_mut().item_spacing.y = 0.0;
                for command in &found {
                    let mut row = Button::selectable(false, command.label())
                        .min_size(vec2(ui.available_width(), ROW));
                    if let Some(key) = command.key() {
                        row = row.shortcut_text(ui.format_shortcut(&key));
                    }
                    let response = ui
                        .add_enabled(command.is_possible(editor), row)
                        .on_hover_text(command.explanation());
                    if response.clicked() {
                        chosen = Some(*command);
                    }
                }
            });
    });
    if let Some(command) = chosen {
        intents.push(Intent::Ask(None));
        intents.push(Intent::Command(command));
    } else if left {
        intents.push(Intent::Ask(None));
    } else if typed != sought {
        intents.push(Intent::Ask(Some(Dialog::FindCommand { sought: typed })));
    }
}

/// Commands in whose name every typed word begins a word, names that begin with the
/// first one before others.
fn found(sought: &str) -> Vec<Command> {
    let sought = sought.to_lowercase();
    let words: Vec<&str> = sought.split_whitespace().collect();
    let fits = |command: &Command| {
        let label = command.label().to_lowercase();
        let names: Vec<&str> = label.split(|c: char| !c.is_alphanumeric()).collect();
        words
            .iter()
            .all(|word| names.iter().any(|name| name.starts_with(word)))
    };
    let mut found: Vec<Command> = Command::all()
        .into_iter()
        .filter(|command| *command != Command::FindCommand && fits(command))
        .collect();
    if let Some(first) = words.first() {
        found.sort_by_key(|command| !command.label().to_lowercase().starts_with(first));
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_found_by_how_they_begin() {
        assert!(found("dup").contains(&Command::Duplicate));
        assert!(found("END for").contains(&Command::EndForEnd));
        assert_eq!(found("save").first(), Some(&Command::Save));
        assert!(found("zzz").is_empty());
        assert_eq!(found("").len(), Command::all().len() - 1);
    }
}
