//! The Runs stage: the next run, and all that are placed.

use super::ask::draft_form_ui;
use super::fields::{run_fields_ui, size_label, uncertified_ui};
use super::list::{Item, list_ui};
use super::shell::change_drafts;
use super::site_advice::site_advice_ui;
use crate::editor::Editor;
use crate::editor::command::Command;
use crate::editor::icons::Icon;
use crate::editor::intent::Intent;
use crate::editor::theme::STEP;
use crate::editor::widgets::{AtFirst, Chosen, fold_ui, section_ui, tool_row_ui};
use crate::site::{Object, ObjectId, Run};
use eframe::egui::Ui;
use std::sync::Arc;

/// What can be done with picked runs, beside moving them.
const ACTS: [(Icon, Command); 4] = [
    (Icon::Repeat, Command::Repeat),
    (Icon::TurnEnd, Command::EndForEnd),
    (Icon::Rotate, Command::TurnQuarter),
    (Icon::Lock, Command::LockHangers),
];

/// The Runs stage.
pub(super) fn runs_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    ui.add_enabled_ui(editor.selection.run().is_some(), |ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        for (icon, command) in ACTS {
            let label = command.label();
            let response = tool_row_ui(
                ui,
                icon,
                label.trim_end_matches('…'),
                &command.explanation(),
                &super::menus::key_of(ui, command),
                Chosen::No,
            );
            if response.clicked() {
                intents.push(Intent::Command(command));
            }
        }
    });
    section_ui(ui, "The next run", "");
    next_ui(ui, editor, intents);
    ui.add_space(STEP);
    placed_ui(ui, editor, intents);
    site_advice_ui(ui, editor, intents);
}

fn next_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let placed = |run: Run| {
        Some(Object::Run(Arc::new(Run {
            id: "draft".into(),
            ..run
        })))
    };
    let catalogue = &editor.catalogue;
    let changed = draft_form_ui(ui, editor, &editor.drafts.run, "run", placed, |ui, form| {
        run_fields_ui(ui, form, catalogue);
        uncertified_ui(ui, form, catalogue);
    });
    if let Some(run) = changed {
        change_drafts(editor, intents, |drafts| drafts.run = run);
    }
}

fn placed_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.site();
    let scheme = site.scheme();
    if scheme.runs.is_empty() {
        return;
    }
    let count = scheme.runs.len().to_string();
    fold_ui(ui, "Placed", &count, AtFirst::Unfolded, |ui| {
        let all = &scheme.runs;
        list_ui(ui, editor, intents, all.len(), |k| {
            let run = &all[k];
            Item {
                id: ObjectId::Run(run.id.clone()),
                name: run.zone.clone(),
                figures: editor.catalogue.size(&run.family, &run.size).map_or_else(
                    || run.size.clone(),
                    |(_, size)| size_label(size, site.units),
                ),
            }
        });
    });
}
