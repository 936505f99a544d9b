//! The run profile: the picked run seen from the side, true to scale.

use super::Editor;
use super::intent::Intent;
use super::theme::Theme;
use eframe::egui::Ui;

/// The run profile.
pub(super) fn profile_ui(ui: &mut Ui, _editor: &Editor, _intents: &mut Vec<Intent>) {
    let rect = ui.available_rect_before_wrap();
    ui.painter()
        .rect_filled(rect, 0.0, Theme::of(ui).canvas.ground);
}
