//! The stage rail: the order of the job.

use crate::editor::command::Command;
use crate::editor::intent::Intent;
use crate::editor::{Editor, Stage};
use eframe::egui::Ui;

/// The stage rail.
pub(in crate::editor) fn stage_rail_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    for stage in Stage::ALL {
        if ui
            .selectable_label(editor.stage == stage, stage.label())
            .clicked()
        {
            intents.push(Intent::Command(Command::Enter(stage)));
        }
    }
}
