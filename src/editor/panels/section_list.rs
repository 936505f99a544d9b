//! The section lines of the site: to pick one, turn it round, take it away. Its name and
//! how far it looks are fields of the picked one.

use super::list::{Item, list_ui};
use crate::editor::Editor;
use crate::editor::command::Command;
use crate::editor::figures::length;
use crate::editor::intent::Intent;
use crate::editor::theme::STEP;
use crate::editor::view::Aspect;
use crate::editor::widgets::{hint_ui, section_ui, small_button_ui};
use crate::geometry::math;
use crate::site::{Edit, Object, ObjectId, SectionLine, Side};
use crate::units::Length;
use eframe::egui::{Ui, vec2};
use std::sync::Arc;

/// The list, and what can be done with the picked line.
pub(super) fn section_list_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.site();
    let lines = &site.sections;
    section_ui(ui, "Sections", &lines.len().to_string());
    if lines.is_empty() {
        hint_ui(
            ui,
            "No section line yet. Each one that is drawn on the plan, at the stage Runs, becomes a sheet.",
        );
        return;
    }
    list_ui(ui, editor, intents, lines.len(), |k| {
        let line = &lines[k];
        Item {
            id: ObjectId::SectionLine(line.id.clone()),
            name: format!("looks {}", toward(line)),
            figures: length(site.units, Length::metres(line.from.distance(line.to))),
        }
    });
    ui.add_space(STEP);
    let picked = match editor.selection.single() {
        Some(ObjectId::SectionLine(id)) => lines.iter().find(|line| line.id == *id),
        _ => None,
    };
    ui.add_enabled_ui(picked.is_some(), |ui| {
        // The panel is too narrow for all three in a row.
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing = vec2(STEP, STEP);
            if small_button_ui(ui, "Show section").clicked() {
                intents.push(Intent::Command(Command::Look(Aspect::Section)));
            }
            let flip = small_button_ui(ui, "Look the other way").clicked();
            if flip && let Some(line) = picked {
                intents.push(Intent::CarryOut {
                    name: format!("Turn section {} round", line.label()),
                    edit: Edit::Put(Object::SectionLine(Arc::new(flipped(line)))),
                });
            }
            if small_button_ui(ui, "Remove").clicked() {
                intents.push(Intent::Command(Command::Delete));
            }
        });
    });
}

fn flipped(line: &SectionLine) -> SectionLine {
    SectionLine {
        looks: match line.looks {
            Side::Left => Side::Right,
            Side::Right => Side::Left,
        },
        ..line.clone()
    }
}

/// Which way one looks, as a point of the compass.
fn toward(line: &SectionLine) -> &'static str {
    const WAYS: [&str; 8] = [
        "north",
        "north-east",
        "east",
        "south-east",
        "south",
        "south-west",
        "west",
        "north-west",
    ];
    let into = line.looking();
    let bearing = math::atan2(into.x, into.y).to_degrees().rem_euclid(360.0);
    let mut best = (f64::INFINITY, WAYS[0]);
    for (way, at) in WAYS
        .iter()
        .zip([0.0, 45.0, 90.0, 135.0, 180.0, 225.0, 270.0, 315.0])
    {
        let off = (bearing - at + 180.0_f64).rem_euclid(360.0) - 180.0;
        if off.abs() < best.0 {
            best = (off.abs(), way);
        }
    }
    best.1
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::DVec2;

    fn line(to: (f64, f64), looks: Side) -> SectionLine {
        SectionLine {
            id: "A".into(),
            from: DVec2::ZERO,
            to: to.into(),
            looks,
            depth: Length::metres(3.0),
            notes: String::new(),
        }
    }

    #[test]
    fn a_line_says_which_way_it_looks_and_turned_round_the_other() {
        let check = |to, looks, one, other| {
            assert_eq!(toward(&line(to, looks)), one);
            assert_eq!(toward(&flipped(&line(to, looks))), other);
        };
        check((4.0, 0.0), Side::Left, "north", "south");
        check((0.0, 4.0), Side::Left, "west", "east");
        check((3.0, 3.1), Side::Right, "south-east", "north-west");
        check((4.0, -0.3), Side::Left, "north", "south");
    }
}
