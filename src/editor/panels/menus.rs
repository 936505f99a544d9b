//! The menus: every command, by its group, with its key.

use crate::editor::command::{Command, Group};
use crate::editor::dialog::Answer;
use crate::editor::intent::Intent;
use crate::editor::theme::{ROW, STEP};
use crate::editor::widgets::{hint_ui, rule_ui};
use crate::editor::{Editor, Layer};
use crate::store::samples::SAMPLES;
use eframe::egui;
use egui::containers::menu::MenuButton;
use egui::{Button, ScrollArea, TextWrapMode, Ui, vec2};
use std::path::Path;

/// Groups that have a menu; tools and stages stand in their panels.
const MENUS: [Group; 4] = [Group::File, Group::Edit, Group::Arrange, Group::View];

/// The menus, side by side.
pub(super) fn menus_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        ui.spacing_mut().button_padding = vec2(2.0 * STEP, STEP);
        for group in MENUS {
            let button = Button::new(group.label())
                .frame_when_inactive(false)
                .min_size(vec2(0.0, ROW));
            MenuButton::from_button(button).ui(ui, |ui| menu_ui(ui, editor, intents, group));
        }
    });
}

fn menu_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>, group: Group) {
    ui.set_width(74.0 * STEP);
    ui.spacing_mut().button_padding = vec2(2.0 * STEP, STEP);
    ui.spacing_mut().item_spacing.y = 0.0;
    ScrollArea::vertical()
        .max_height(ui.ctx().content_rect().height() - 24.0 * STEP)
        .show(ui, |ui| {
            for command in Command::all() {
                if command.group() == group && !is_left_to_keys(command) {
                    item_ui(ui, editor, intents, command);
                }
            }
            if group == Group::File {
                other_sites_ui(ui, editor, intents);
            }
        });
}

/// Sites that can be opened at once: those worked on lately, and the samples.
fn other_sites_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let mut chosen = None;
    let recent = &editor.files.recent;
    if !recent.is_empty() {
        rule_ui(ui);
        hint_ui(ui, "Worked on lately");
    }
    for path in recent {
        if site_ui(ui, &stem(path), &folder(path)) {
            chosen = Some(Answer::OpenPath(path.clone()));
        }
    }
    rule_ui(ui);
    hint_ui(ui, "Samples");
    for sample in &SAMPLES {
        if site_ui(ui, sample.name, sample.about) {
            chosen = Some(Answer::OpenSample(sample.name));
        }
    }
    if let Some(answer) = chosen {
        intents.push(Intent::Answer(answer));
        ui.close();
    }
}

/// A site that can be opened; whether it was chosen.
pub(super) fn site_ui(ui: &mut Ui, name: &str, about: &str) -> bool {
    let row = Button::new(name)
        .frame_when_inactive(false)
        .wrap_mode(TextWrapMode::Truncate)
        .min_size(vec2(ui.available_width(), ROW));
    ui.add(row).on_hover_text(about).clicked()
}

/// The name of a file without its ending.
pub(super) fn stem(path: &Path) -> String {
    path.file_stem().map_or_else(
        || path.display().to_string(),
        |name| name.to_string_lossy().into_owned(),
    )
}

/// The folder of a file.
pub(super) fn folder(path: &Path) -> String {
    path.parent()
        .map_or_else(String::new, |folder| folder.display().to_string())
}

/// Commands that a hand only ever gives by key: eight ways of nudging would hide the rest.
fn is_left_to_keys(command: Command) -> bool {
    matches!(command, Command::Nudge(_) | Command::NudgeFinely(_))
}

fn item_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>, command: Command) {
    let mut button = Button::new(command.label())
        .min_size(vec2(ui.available_width(), ROW))
        .selected(is_on(command, editor));
    if let Some(key) = command.key() {
        button = button.shortcut_text(ui.format_shortcut(&key));
    }
    let response = ui
        .add_enabled(command.is_possible(editor), button)
        .on_hover_text(command.explanation());
    if response.clicked() {
        intents.push(Intent::Command(command));
        ui.close();
    }
}

/// Whether a command that switches something has it switched on.
fn is_on(command: Command, editor: &Editor) -> bool {
    match command {
        Command::ToggleLayer(layer) => Layer::ALL.contains(&layer) && editor.view.shows(layer),
        Command::ToggleSnapping => editor.view.snapping,
        Command::ToggleProfile => editor.view.profile,
        _ => false,
    }
}

/// What a command does, with its key.
pub(super) fn with_key(ui: &Ui, command: Command) -> String {
    let explanation = command.explanation();
    match command.key() {
        Some(key) => format!("{explanation} ({})", ui.format_shortcut(&key)),
        None => explanation,
    }
}

/// The key of a command, or nothing.
pub(super) fn key_of(ui: &Ui, command: Command) -> String {
    command
        .key()
        .map_or_else(String::new, |key| ui.format_shortcut(&key))
}
