//! The plan: where everything is drawn, picked and moved.

use super::Editor;
use super::camera::Camera;
use super::intent::Intent;
use super::theme::Theme;
use super::tools::ToolKind;
use eframe::egui::{PointerButton, Response, Role, Sense, Ui, UiBuilder, WidgetInfo};

/// The plan's own state.
#[derive(Debug, Default)]
pub(crate) struct Canvas {
    /// The view.
    pub(crate) camera: Camera,
    /// Whether the keys go to the plan.
    pub(crate) has_focus: bool,
}

impl Canvas {
    /// Whether a dimension is being typed.
    pub(crate) fn is_typing(&self) -> bool {
        false
    }

    /// Whether the arrows move the pointer of a tool.
    pub(crate) fn takes_arrows(&self, tool: ToolKind) -> bool {
        self.has_focus && tool != ToolKind::Pick
    }

    /// Drops what is half drawn; whether there was anything.
    pub(crate) fn drop_drawing(&mut self) -> bool {
        false
    }
}

/// The plan.
pub(crate) fn canvas_ui(
    ui: &mut Ui,
    canvas: &mut Canvas,
    _editor: &Editor,
    _intents: &mut Vec<Intent>,
) {
    let rect = ui.available_rect_before_wrap();
    canvas.camera.set_rect(rect);
    let roles = &Theme::of(ui).canvas;
    ui.scope_builder(
        UiBuilder::new()
            .id_salt("plan")
            .max_rect(rect)
            .sense(Sense::click_and_drag()),
        |ui| {
            ui.set_min_size(rect.size());
            ui.painter().rect_filled(rect, 0.0, roles.ground);
            let response = ui.response();
            navigate(ui, &response, &mut canvas.camera);
            canvas.has_focus = response.has_focus();
            response.widget_info(|| WidgetInfo::labeled(Role::ListBox, true, "Plan"));
        },
    );
}

/// Pans with the middle button, zooms with the wheel, to the pointer.
fn navigate(ui: &Ui, response: &Response, camera: &mut Camera) {
    if response.dragged_by(PointerButton::Middle) {
        camera.pan(response.drag_delta());
    }
    if let Some(at) = response.hover_pos() {
        let (scroll, pinch) = ui.input(|input| (input.smooth_scroll_delta(), input.zoom_delta()));
        // As much out as in: a notch up and a notch down cancel exactly.
        let turn = (f64::from(scroll.y) / 700.0).clamp(-0.5, 0.5);
        let factor = f64::from(pinch) * (1.0 + turn) / (1.0 - turn);
        camera.zoom(factor, at);
    }
}
