//! The inspector: the fields of what is picked, and what the study has to say.

use super::frame::{Edge, scrolled_ui};
use super::picked;
use crate::editor::Editor;
use crate::editor::intent::Intent;
use eframe::egui::Ui;

/// The inspector.
pub(in crate::editor) fn inspector_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    scrolled_ui(ui, "inspector", Edge::Left, |ui| {
        picked::picked_ui(ui, editor, intents);
    });
}
