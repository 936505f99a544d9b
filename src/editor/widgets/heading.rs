//! Headings, rules between parts, and what stands where there is nothing yet.

use crate::editor::icons::Icon;
use crate::editor::theme::{STEP, TextSize, Theme};
use eframe::egui;
use egui::{Align, Color32, Label, Layout, RichText, Sense, Stroke, Ui, vec2};

/// The name of a panel, with a word on its state at the right.
pub fn panel_title_ui(ui: &mut Ui, title: &str, state: &str) {
    line_ui(
        ui,
        RichText::new(title).font(TextSize::Heading.bold()),
        state,
        None,
    );
}

/// The name of a part, under a hairline.
pub fn section_ui(ui: &mut Ui, title: &str, state: &str) {
    rule_ui(ui);
    heading_ui(ui, title, state, None);
}

/// The name of a part without a line, its state in a colour of its own where it has one.
pub fn heading_ui(ui: &mut Ui, title: &str, state: &str, colour: Option<Color32>) {
    line_ui(
        ui,
        RichText::new(title).font(TextSize::Body.bold()),
        state,
        colour,
    );
}

fn line_ui(ui: &mut Ui, title: RichText, state: &str, colour: Option<Color32>) {
    let palette = &Theme::of(ui).palette;
    ui.allocate_ui_with_layout(
        vec2(ui.available_width(), 5.0 * STEP),
        Layout::right_to_left(Align::Center),
        |ui| {
            ui.set_min_height(5.0 * STEP);
            if !state.is_empty() {
                let said = RichText::new(state)
                    .font(TextSize::Small.font())
                    .color(colour.unwrap_or(palette.faint_ink));
                ui.scope(|ui| {
                    // The title keeps a third of the line, however much there is to say.
                    ui.set_max_width(ui.available_width() * 0.67);
                    ui.add(Label::new(said).truncate());
                });
            }
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                ui.add(Label::new(title.color(palette.ink)).truncate());
            });
        },
    );
}

/// A hairline across the panel, with room above and below.
pub fn rule_ui(ui: &mut Ui) {
    let colour = Theme::of(ui).palette.rule;
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 4.0 * STEP), Sense::hover());
    ui.painter()
        .hline(rect.x_range(), rect.center().y, Stroke::new(1.0, colour));
}

/// One or two lines that help, in faint ink.
pub fn hint_ui(ui: &mut Ui, text: &str) {
    let colour = Theme::of(ui).palette.faint_ink;
    ui.add(
        Label::new(
            RichText::new(text)
                .font(TextSize::Small.font())
                .color(colour),
        )
        .wrap(),
    );
}

/// What stands where there is nothing yet: what would be there, and how to get it.
pub fn empty_ui(ui: &mut Ui, icon: Icon, title: &str, way: &str) {
    let palette = &Theme::of(ui).palette;
    ui.add_space(4.0 * STEP);
    ui.vertical_centered(|ui| {
        icon.show(ui, 8.0 * STEP, palette.edge);
        ui.label(RichText::new(title).color(palette.soft_ink));
        hint_ui(ui, way);
    });
    ui.add_space(4.0 * STEP);
}
