//! The Steel stage: framings as drawn and as built.

use super::ask::{draft_form_ui, value_form_ui};
use super::fields::framing_fields_ui;
use super::list::{Item, list_ui};
use super::shell::change_drafts;
use crate::catalogue::SuspensionKind;
use crate::editor::Editor;
use crate::editor::figures::brief_with_unit;
use crate::editor::icons::Icon;
use crate::editor::intent::Intent;
use crate::editor::theme::{STEP, Theme};
use crate::editor::tools::ToolKind;
use crate::editor::widgets::{AtFirst, empty_ui, fold_ui, plain_button_ui, section_ui};
use crate::site::{Allowance, Edit, Framing, Object, ObjectId};
use eframe::egui::Ui;
use std::sync::Arc;

/// The Steel stage.
pub(super) fn steel_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.site();
    if editor.tool == ToolKind::Framing {
        section_ui(ui, "The next framing", "");
        next_ui(ui, editor, intents);
        return;
    }
    if site.framings.is_empty() {
        let way = if site.bays.is_empty() {
            "Members lie under a bay's roof: make a bay first, in Shell."
        } else {
            "Take “Lay framing” and drag inside the bay, the way the members run. Spacing, depth and loads are typed before or after."
        };
        empty_ui(ui, Icon::Steel, "No members yet", way);
    } else {
        list_of_framings_ui(ui, editor, intents);
        suspensions_ui(ui, editor, intents);
        super::as_built::as_built_ui(ui, editor, intents);
    }
    let state = editor.drafts.framing.kind.label();
    fold_ui(ui, "The next framing", state, AtFirst::Folded, |ui| {
        next_ui(ui, editor, intents);
    });
}

fn list_of_framings_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.site();
    let count = site.framings.len().to_string();
    fold_ui(ui, "Framings", &count, AtFirst::Unfolded, |ui| {
        let all = &site.framings;
        list_ui(ui, editor, intents, all.len(), |k| {
            let framing = &all[k];
            Item {
                id: ObjectId::Framing(framing.id.clone()),
                name: framing.kind.label().to_owned(),
                figures: format!(
                    "{} · {}",
                    framing.bay,
                    brief_with_unit(site.units, framing.spacing)
                ),
            }
        });
        let unknown = site
            .framings
            .iter()
            .filter(|framing| framing.allowed_at_point == Allowance::Unknown)
            .count();
        if unknown > 0 {
            let colour = Theme::of(ui).palette.soft_ink;
            ui.add_space(STEP);
            ui.colored_label(
                colour,
                format!("Allowed load unknown in {unknown}: ask the building's engineer."),
            );
        }
    });
}

/// What runs hang by, where a run doesn't say otherwise.
fn suspensions_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.committed();
    let scheme = site.scheme();
    let differ = scheme.runs.iter().filter(|run| run.suspension.is_some());
    let state = match differ.count() {
        0 => String::new(),
        1 => "1 run has its own".to_owned(),
        count => format!("{count} runs have their own"),
    };
    section_ui(ui, "Hanging", &state);
    value_form_ui(
        ui,
        editor,
        intents,
        &site.conditions,
        Edit::Conditions,
        |ui, form| {
            form.choice(
                ui,
                "Suspensions",
                &SuspensionKind::ALL.map(|kind| (kind, kind.label().to_owned())),
                |it| it.suspension,
                |it, kind| it.suspension = kind,
            );
        },
    );
}

fn next_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.site();
    let bay = site.bays.first().map(|bay| bay.id.clone());
    let placed = |framing: Framing| {
        bay.clone().map(|bay| {
            Object::Framing(Arc::new(Framing {
                id: "draft".into(),
                bay,
                ..framing
            }))
        })
    };
    let changed = draft_form_ui(
        ui,
        editor,
        &editor.drafts.framing,
        "framing",
        placed,
        |ui, form| {
            framing_fields_ui(ui, form, site);
        },
    );
    if let Some(framing) = changed {
        let kind = framing.kind;
        let is_other_kind = kind != editor.drafts.framing.kind;
        change_drafts(editor, intents, |drafts| {
            if is_other_kind {
                drafts.take_framing_kind(kind);
            } else {
                drafts.framing = framing;
            }
        });
    }
    ui.add_space(STEP);
    if editor.tool != ToolKind::Framing && plain_button_ui(ui, "Lay it").clicked() {
        intents.push(Intent::Command(crate::editor::Command::Take(
            ToolKind::Framing,
        )));
    }
}
