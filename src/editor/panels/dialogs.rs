//! The questions that the window puts.

use crate::editor::Editor;
use crate::editor::intent::Intent;
use eframe::egui::{Context, Id, Modal};

/// The question that waits, if one does.
pub(in crate::editor) fn dialogs_ui(ctx: &Context, editor: &Editor, intents: &mut Vec<Intent>) {
    if editor.dialog.is_none() {
        return;
    }
    let modal = Modal::new(Id::unique("question")).show(ctx, |ui| ui.button("Cancel").clicked());
    if modal.inner || modal.should_close() {
        intents.push(Intent::Ask(None));
    }
}
