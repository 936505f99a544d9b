//! The strip over the plan: from where the site is looked at, and what can be done there.

use super::frame::{Edge, MARGIN, ground, within};
use super::menus;
use crate::editor::Editor;
use crate::editor::command::Command;
use crate::editor::intent::Intent;
use crate::editor::theme::{ROW, STEP, TextSize, Theme};
use crate::editor::view::Aspect;
use crate::editor::widgets::{plain_button_ui, segments_ui};
use crate::site::ObjectId;
use crate::units::Length;
use eframe::egui::{Align, Label, Layout, Rect, RichText, Ui, UiBuilder, vec2};
use std::collections::BTreeSet;

/// Width of the switch, points.
const SWITCH: f32 = 58.0 * STEP;
/// Width of the choice of section lines, points.
const CHOICE: f32 = 36.0 * STEP;

/// The strip.
pub(in crate::editor) fn aspects_ui(
    ui: &mut Ui,
    rect: Rect,
    editor: &Editor,
    intents: &mut Vec<Intent>,
) {
    ui.scope_builder(UiBuilder::new().max_rect(rect), |ui| {
        ground(ui, Edge::Bottom);
        let builder = UiBuilder::new()
            .max_rect(rect.shrink2(vec2(MARGIN, (rect.height() - ROW) / 2.0)))
            .layout(Layout::left_to_right(Align::Center));
        within(ui, builder, |ui| {
            switch_ui(ui, editor, intents);
            if editor.view.aspect == Aspect::Plan {
                return;
            }
            // The buttons first: what is said gets the room that they leave.
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                buttons_ui(ui, editor, intents);
                ui.add_space(STEP);
                ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                    if editor.view.aspect == Aspect::Section {
                        lines_ui(ui, editor, intents);
                    } else {
                        said_ui(ui, &standing(editor));
                    }
                });
            });
        });
    });
}

fn switch_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let labels = Aspect::ALL.map(Aspect::label);
    let chosen = Aspect::ALL
        .iter()
        .position(|aspect| *aspect == editor.view.aspect);
    ui.allocate_ui(vec2(SWITCH, ROW), |ui| {
        ui.set_width(SWITCH);
        if let Some(index) = segments_ui(ui, "Look at", chosen, &labels) {
            intents.push(Intent::Command(Command::Look(Aspect::ALL[index])));
        }
    });
}

/// Which section line is shown.
fn lines_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.site();
    let Some(shown) = editor.section.line(site, &editor.catalogue) else {
        return;
    };
    ui.add_space(STEP);
    if site.sections.is_empty() {
        said_ui(ui, "across a bay; draw a section line to choose");
        return;
    }
    if editor.section.is_passing() {
        said_ui(ui, "through what was shown; pick a section line to leave");
        if plain_button_ui(ui, "Keep as a section line").clicked() {
            let made = crate::editor::make::section_line(
                editor.committed(),
                shown.from,
                shown.to,
                shown.looks,
                shown.depth,
            );
            intents.push(Intent::Make(made));
        }
        return;
    }
    let labels: Vec<String> = site.sections.iter().map(|line| line.label()).collect();
    let chosen = site.sections.iter().position(|line| line.id == shown.id);
    ui.allocate_ui(vec2(CHOICE, ROW), |ui| {
        ui.set_width(CHOICE);
        if let Some(index) = crate::editor::widgets::choice_ui(ui, "Section line", chosen, &labels)
            && let Some(line) = site.sections.get(index)
        {
            let id = ObjectId::SectionLine(line.id.clone());
            intents.push(Intent::Pick(BTreeSet::from([id])));
        }
    });
    let units = site.units;
    let length = |m: f64| crate::editor::figures::length(units, Length::metres(m));
    said_ui(
        ui,
        &format!(
            "{} long, {} deep",
            length(shown.from.distance(shown.to)),
            length(shown.depth.as_metres())
        ),
    );
}

fn standing(editor: &Editor) -> String {
    editor.space.camera().map_or_else(String::new, |camera| {
        format!(
            "from {:.0}°, {:.0}° down; drag to walk round",
            camera.from_degrees, camera.tilt_degrees
        )
    })
}

fn said_ui(ui: &mut Ui, text: &str) {
    ui.add_space(STEP);
    let said = RichText::new(text)
        .font(TextSize::Small.font())
        .color(Theme::of(ui).palette.soft_ink);
    ui.add(Label::new(said).truncate());
}

fn buttons_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let beside = if editor.view.beside {
        "Without the plan"
    } else {
        "Beside the plan"
    };
    for (label, command) in [
        ("Save as a picture…", Command::SavePicture),
        (beside, Command::ToggleBeside),
    ] {
        let response = plain_button_ui(ui, label);
        if response
            .on_hover_text(menus::with_key(ui, command))
            .clicked()
        {
            intents.push(Intent::Command(command));
        }
    }
}
