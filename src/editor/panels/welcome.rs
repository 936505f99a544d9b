//! What an empty site offers: three ways in.

use super::menus::stem;
use super::shell::sized_bay_ui;
use crate::editor::Editor;
use crate::editor::command::Command;
use crate::editor::dialog::Answer;
use crate::editor::icons::Icon;
use crate::editor::intent::Intent;
use crate::editor::theme::{ROW, STEP, TextSize, Theme};
use crate::editor::tools::ToolKind;
use crate::editor::widgets::{hint_ui, wide_button_ui};
use crate::store::samples::SAMPLES;
use eframe::egui;
use egui::{
    Align, Button, CornerRadius, Frame, Layout, Margin, Rect, RichText, Stroke, TextWrapMode, Ui,
    UiBuilder, vec2,
};

const WIDTH: f32 = 140.0 * STEP;

/// The three ways in, in the middle of the plan, as long as there is nothing on it.
pub(in crate::editor) fn welcome_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    if !is_wanted(editor) {
        return;
    }
    let plan = ui.max_rect();
    let width = WIDTH.min(plan.width() - 8.0 * STEP);
    let place = Rect::from_center_size(plan.center(), vec2(width, plan.height().min(90.0 * STEP)));
    ui.scope_builder(UiBuilder::new().max_rect(place), |ui| {
        let palette = &Theme::of(ui).palette;
        ui.spacing_mut().item_spacing.y = 2.0 * STEP;
        ui.label(
            RichText::new("An empty site")
                .font(TextSize::Title.bold())
                .color(palette.ink),
        );
        ui.label(RichText::new("Three ways to begin:").color(palette.soft_ink));
        ui.add_space(STEP);
        ui.columns(3, |columns| {
            if let [size, draw, open] = columns {
                way_ui(size, Icon::Measure, "Type its size", |ui| {
                    sized_bay_ui(ui, editor, intents);
                });
                way_ui(draw, Icon::DrawBay, "Draw it", |ui| {
                    hint_ui(
                        ui,
                        "Click corner after corner on the plan, or drag from corner to corner. A number typed while drawing is the length of that wall.",
                    );
                    ui.add_space(STEP);
                    if wide_button_ui(ui, "Draw a bay").clicked() {
                        intents.push(Intent::Command(Command::Take(ToolKind::Bay)));
                    }
                });
                way_ui(open, Icon::Folder, "Open one", |ui| open_ui(ui, editor, intents));
            }
        });
    });
}

/// Only before anything is there and nothing is being drawn.
fn is_wanted(editor: &Editor) -> bool {
    let site = editor.site();
    site.object_ids().is_empty() && editor.tool == ToolKind::Pick
}

fn way_ui(ui: &mut Ui, icon: Icon, title: &str, contents: impl FnOnce(&mut Ui)) {
    let palette = &Theme::of(ui).palette;
    Frame::new()
        .fill(palette.ground)
        .stroke(Stroke::new(1.0, palette.edge))
        .corner_radius(CornerRadius::same(4))
        .inner_margin(Margin::same(12))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.set_min_height(46.0 * STEP);
            ui.spacing_mut().item_spacing.y = STEP;
            // Columns would stretch every line to their width.
            ui.with_layout(Layout::top_down(Align::Min), |ui| {
                icon.show(ui, 6.0 * STEP, palette.soft_ink);
                ui.label(
                    RichText::new(title)
                        .font(TextSize::Heading.bold())
                        .color(palette.ink),
                );
                contents(ui);
            });
        });
}

fn open_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    ui.spacing_mut().item_spacing.y = 0.0;
    for sample in &SAMPLES {
        let row = Button::new(format!("Sample: {}", sample.name))
            .frame_when_inactive(false)
            .min_size(vec2(ui.available_width(), ROW));
        if ui.add(row).on_hover_text(sample.about).clicked() {
            intents.push(Intent::Answer(Answer::OpenSample(sample.name)));
        }
    }
    for path in editor.files.recent.iter().take(2) {
        let row = Button::new(stem(path))
            .frame_when_inactive(false)
            .wrap_mode(TextWrapMode::Truncate)
            .min_size(vec2(ui.available_width(), ROW));
        if ui
            .add(row)
            .on_hover_text(path.display().to_string())
            .clicked()
        {
            intents.push(Intent::Answer(Answer::OpenPath(path.clone())));
        }
    }
    ui.add_space(STEP);
    if wide_button_ui(ui, "Open a file…").clicked() {
        intents.push(Intent::Command(Command::Open));
    }
}
