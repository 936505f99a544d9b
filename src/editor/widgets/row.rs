//! Rows of a form: a label at the left, a control at the right, on one grid.

use crate::editor::theme::{ROW, STEP, TextSize, Theme};
use eframe::egui;
use egui::{Align, Label, Layout, RichText, Ui, vec2};

/// Width of the labels' column in every form.
pub const LABEL_WIDTH: f32 = 23.0 * STEP;

/// One row: a label and whatever enters or shows the value.
pub fn row_ui<R>(ui: &mut Ui, label: &str, control: impl FnOnce(&mut Ui) -> R) -> R {
    let colour = Theme::of(ui).palette.soft_ink;
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = STEP;
        ui.allocate_ui_with_layout(
            vec2(LABEL_WIDTH, ROW),
            Layout::left_to_right(Align::Center),
            |ui| {
                ui.set_min_size(vec2(LABEL_WIDTH, ROW));
                ui.add(Label::new(RichText::new(label).color(colour)).truncate());
            },
        );
        ui.vertical(|ui| {
            ui.set_width(ui.available_width());
            control(ui)
        })
        .inner
    })
    .inner
}

/// One row that only says something: as high as its text, because nobody clicks it.
pub fn said_row_ui(ui: &mut Ui, label: &str, said: &str) {
    let colour = Theme::of(ui).palette.soft_ink;
    let size = vec2(ui.available_width(), 4.0 * STEP);
    ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Center), |ui| {
        ui.spacing_mut().item_spacing.x = STEP;
        let size = vec2(LABEL_WIDTH, 4.0 * STEP);
        ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Center), |ui| {
            ui.set_min_size(size);
            ui.add(Label::new(RichText::new(label).color(colour)).truncate());
        });
        ui.add(Label::new(said).truncate());
    });
}

/// A few lines of text, wrapped, soft and small.
pub fn lines_ui(ui: &mut Ui, text: &str) {
    let colour = Theme::of(ui).palette.soft_ink;
    ui.add(
        Label::new(
            RichText::new(text)
                .font(TextSize::Small.font())
                .color(colour),
        )
        .wrap(),
    );
}
