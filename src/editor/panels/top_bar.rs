//! The top bar: menus, the site's name, steps, scheme, units, light and dark.

use super::frame::{Edge, MARGIN, ground, within};
use super::{menus, schemes};
use crate::editor::Editor;
use crate::editor::command::Command;
use crate::editor::icons::Icon;
use crate::editor::intent::Intent;
use crate::editor::theme::{ROW, STEP, TextSize, Theme, ThemeChoice};
use crate::editor::widgets::{icon_button_ui, quiet_button_ui, segments_ui};
use crate::units::UnitSystem;
use eframe::egui;
use egui::{Align, Label, Layout, RichText, Ui, UiBuilder, vec2};

/// From this width on there is room for the names of steps, points.
const WIDE: f32 = 300.0 * STEP;

/// Room for the name of the last step, so that nothing moves when it changes.
const UNDO_WIDTH: f32 = 46.0 * STEP;
const REDO_WIDTH: f32 = 38.0 * STEP;
const NAME_WIDTH: f32 = 48.0 * STEP;

/// The top bar.
pub(in crate::editor) fn top_bar_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    ground(ui, Edge::Bottom);
    let rect = ui.max_rect().shrink2(vec2(MARGIN, 0.0));
    let builder = UiBuilder::new()
        .max_rect(rect)
        .layout(Layout::left_to_right(Align::Center));
    within(ui, builder, |ui| {
        menus::menus_ui(ui, editor, intents);
        ui.add_space(2.0 * STEP);
        name_ui(ui, editor);
        // In a narrow window the arrows alone must do; their names are read on hovering.
        let [undo, redo] = if rect.width() < WIDE {
            [ROW, ROW]
        } else {
            [UNDO_WIDTH, REDO_WIDTH]
        };
        step_ui(ui, editor, intents, Command::Undo, undo);
        step_ui(ui, editor, intents, Command::Redo, redo);
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if icon_button_ui(ui, Icon::Light, &Command::ToggleTheme.label()).clicked() {
                // Of the two, the one that is not in force; whatever the desktop says.
                let other = if Theme::of(ui) == Theme::dark() {
                    ThemeChoice::Light
                } else {
                    ThemeChoice::Dark
                };
                intents.push(Intent::Theme(other));
            }
            units_ui(ui, editor, intents);
            schemes::scheme_ui(ui, editor, intents);
        });
    });
}

fn name_ui(ui: &mut Ui, editor: &Editor) {
    let palette = &Theme::of(ui).palette;
    let site = editor.site();
    let name = if site.name.is_empty() {
        "New site"
    } else {
        &site.name
    };
    ui.allocate_ui_with_layout(
        vec2(NAME_WIDTH, ROW),
        Layout::left_to_right(Align::Center),
        |ui| {
            ui.set_min_size(vec2(NAME_WIDTH, ROW));
            let edited = !editor.document.is_saved();
            // The mark comes first in the reckoning: a long name gives way to it.
            let room = if edited { 11.0 * STEP } else { 0.0 };
            ui.scope(|ui| {
                ui.set_max_width(NAME_WIDTH - room);
                let name = RichText::new(name).font(TextSize::Body.bold());
                ui.add(Label::new(name).truncate());
            });
            if edited {
                ui.label(
                    RichText::new("edited")
                        .font(TextSize::Small.font())
                        .color(palette.faint_ink),
                );
            }
        },
    );
}

fn step_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>, command: Command, width: f32) {
    let (icon, name) = match command {
        Command::Undo => (Icon::Undo, editor.document.undo_name()),
        _ => (Icon::Redo, editor.document.redo_name()),
    };
    let label = name.map_or_else(
        || command.label(),
        |name| format!("{} “{name}”", command.label()),
    );
    ui.add_enabled_ui(name.is_some(), |ui| {
        let response = quiet_button_ui(ui, Some(icon), &label, width);
        if response
            .on_hover_text(menus::with_key(ui, command))
            .clicked()
        {
            intents.push(Intent::Command(command));
        }
    });
}

fn units_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let chosen = UnitSystem::ALL
        .iter()
        .position(|system| *system == editor.site().units);
    let size = vec2(22.0 * STEP, ROW);
    ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Center), |ui| {
        ui.set_max_size(size);
        if segments_ui(ui, "Units", chosen, &["m", "ft-in"]).is_some() {
            intents.push(Intent::Command(Command::ToggleUnits));
        }
    });
}
