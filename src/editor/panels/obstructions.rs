//! The Obstructions stage: what is in the way, and where people work.

use super::ask::draft_form_ui;
use super::fields::{obstruction_fields_ui, work_spot_fields_ui};
use super::list::{Item, list_ui};
use super::shell::change_drafts;
use crate::editor::Editor;
use crate::editor::drafts::DrawnAs;
use crate::editor::figures::{brief, brief_with_unit};
use crate::editor::icons::Icon;
use crate::editor::intent::Intent;
use crate::editor::make;
use crate::editor::tools::ToolKind;
use crate::editor::widgets::{AtFirst, empty_ui, fold_ui, hint_ui, section_ui, segments_ui};
use crate::geometry::DVec2;
use crate::site::{Footprint, Object, ObjectId, Obstruction, WorkSpot};
use eframe::egui::Ui;
use std::sync::Arc;

/// The Obstructions stage.
pub(super) fn obstructions_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.site();
    match editor.tool {
        ToolKind::Obstruction => {
            section_ui(ui, "The next obstruction", "");
            next_ui(ui, editor, intents);
        }
        ToolKind::WorkSpot => {
            section_ui(ui, "The next work spot", "");
            next_spot_ui(ui, editor, intents);
        }
        _ if site.obstructions.is_empty() && site.work_spots.is_empty() => empty_ui(
            ui,
            Icon::Obstructions,
            "Nothing in the way yet",
            "Take “Draw an obstruction” for racks, doors, ducts, lamps, vehicles: whatever is in the way, may burn, or casts a heat shadow.",
        ),
        _ => {}
    }
    obstruction_list_ui(ui, editor, intents);
    spot_list_ui(ui, editor, intents);
}

fn next_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let drafts = &editor.drafts;
    let ways = DrawnAs::ALL.map(DrawnAs::label);
    let way = DrawnAs::ALL.iter().position(|it| *it == drafts.drawn_as);
    let chosen = segments_ui(ui, "Drawn as", way, &ways.map(str::to_lowercase));
    if let Some(drawn_as) = chosen.and_then(|index| DrawnAs::ALL.get(index)) {
        change_drafts(editor, intents, |drafts| drafts.drawn_as = *drawn_as);
    }
    if drafts.drawn_as == DrawnAs::Hole {
        hint_ui(
            ui,
            "Inside an obstruction, corner after corner, or drag from corner to corner. Nothing is in the way there.",
        );
        return;
    }
    let placed = |obstruction: Obstruction| {
        let footprint = match obstruction.footprint {
            Footprint::Area { .. } => Footprint::Area {
                outline: make::rectangle(DVec2::ZERO, DVec2::new(1.0, 1.0)),
                holes: Vec::new(),
            },
            Footprint::Line { width, .. } => Footprint::Line {
                points: vec![DVec2::ZERO, DVec2::X],
                width,
            },
        };
        Some(Object::Obstruction(Arc::new(Obstruction {
            id: "draft".into(),
            footprint,
            ..obstruction
        })))
    };
    let next = drafts.next_obstruction();
    let changed = draft_form_ui(ui, editor, &next, "obstruction", placed, |ui, form| {
        obstruction_fields_ui(ui, form);
    });
    if let Some(obstruction) = changed {
        change_drafts(editor, intents, |drafts| {
            drafts.take_obstruction(obstruction)
        });
    }
}

fn next_spot_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let placed = |spot: WorkSpot| {
        Some(Object::WorkSpot(Arc::new(WorkSpot {
            id: "draft".into(),
            ..spot
        })))
    };
    let changed = draft_form_ui(
        ui,
        editor,
        &editor.drafts.work_spot,
        "work spot",
        placed,
        |ui, form| {
            work_spot_fields_ui(ui, form);
        },
    );
    if let Some(spot) = changed {
        change_drafts(editor, intents, |drafts| drafts.work_spot = spot);
    }
}

fn obstruction_list_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.site();
    if site.obstructions.is_empty() {
        return;
    }
    let count = site.obstructions.len().to_string();
    fold_ui(ui, "In the way", &count, AtFirst::Unfolded, |ui| {
        let all = &site.obstructions;
        list_ui(ui, editor, intents, all.len(), |k| {
            let it = &all[k];
            Item {
                id: ObjectId::Obstruction(it.id.clone()),
                name: if it.name.is_empty() {
                    it.kind.label().to_owned()
                } else {
                    it.name.clone()
                },
                figures: format!(
                    "{} to {}",
                    brief(site.units, it.lowest()),
                    brief_with_unit(site.units, it.highest())
                ),
            }
        });
    });
}

fn spot_list_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.site();
    if site.work_spots.is_empty() {
        return;
    }
    let count = site.work_spots.len().to_string();
    fold_ui(ui, "Work spots", &count, AtFirst::Unfolded, |ui| {
        let all = &site.work_spots;
        list_ui(ui, editor, intents, all.len(), |k| {
            let it = &all[k];
            Item {
                id: ObjectId::WorkSpot(it.id.clone()),
                name: it.name.clone(),
                figures: brief_with_unit(site.units, it.height),
            }
        });
    });
}
