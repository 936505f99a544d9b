//! The status line: where the pointer is, what a click would do, what the site amounts
//! to, and whether the study is current.

use super::frame::MARGIN;
use crate::editor::Editor;
use crate::editor::icons::Icon;
use crate::editor::intent::{Intent, MessageKind};
use crate::editor::theme::{STEP, TextSize, Theme};
use crate::site::Site;
use crate::units::{Power, Quantity};
use eframe::egui;
use egui::{Align, Color32, Label, Layout, Rect, RichText, Sense, Ui, UiBuilder, Vec2, vec2};

/// The status line.
pub(in crate::editor) fn status_line_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let palette = &Theme::of(ui).palette;
    let whole = ui.max_rect();
    ui.painter().rect_filled(whole, 0.0, palette.bar);
    let builder = UiBuilder::new()
        .max_rect(whole.shrink2(vec2(MARGIN, 0.0)))
        .layout(Layout::right_to_left(Align::Center));
    ui.scope_builder(builder, |ui| {
        ui.spacing_mut().item_spacing.x = 5.0 * STEP;
        amounts_ui(ui, editor.site(), editor);
        ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
            said_ui(ui, editor, intents);
        });
    });
}

/// What was said last, or what a click would do.
fn said_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let palette = &Theme::of(ui).palette;
    let (text, colour, is_trouble) = match &editor.message {
        Some(message) if message.kind == MessageKind::Trouble => {
            (message.text.clone(), palette.bar_breach, true)
        }
        Some(message) => (message.text.clone(), palette.bar_ok, false),
        None => (
            editor.tool.explanation().to_owned(),
            palette.bar_soft,
            false,
        ),
    };
    if is_trouble {
        mark(ui, Icon::Breach, colour);
    }
    let label = Label::new(RichText::new(text).color(colour))
        .truncate()
        .sense(Sense::click());
    if ui.add(label).clicked() && editor.message.is_some() {
        intents.push(Intent::Dismiss);
    }
}

fn mark(ui: &mut Ui, icon: Icon, colour: Color32) {
    let (rect, _) = ui.allocate_exact_size(Vec2::splat(3.0 * STEP), Sense::hover());
    let place = Rect::from_center_size(rect.center(), Vec2::splat(2.5 * STEP));
    icon.paint(ui.painter(), place, colour);
}

/// What the site amounts to, from the right.
fn amounts_ui(ui: &mut Ui, site: &Site, editor: &Editor) {
    let palette = &Theme::of(ui).palette;
    let scheme = site.scheme();
    let input: Power = scheme
        .runs
        .iter()
        .filter_map(|run| editor.catalogue.size(&run.family, &run.size))
        .map(|(_, size)| size.input_net)
        .sum();
    let text = |text: String, colour: Color32| {
        RichText::new(text)
            .font(TextSize::Body.font())
            .color(colour)
    };
    let runs = match scheme.runs.len() {
        1 => "1 run".to_owned(),
        count => format!("{count} runs"),
    };
    ui.label(text(runs, palette.bar_ink));
    let installed = format!("installed {}", input.show_with_unit(site.units));
    ui.label(text(installed, palette.bar_ink));
}
