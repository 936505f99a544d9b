//! The status line: where the pointer is, what a click would do, what the site amounts
//! to, and whether the study is current.

use super::frame::{MARGIN, within};
use crate::editor::Editor;
use crate::editor::figures::{brief_with_unit, position};
use crate::editor::icons::Icon;
use crate::editor::intent::{Intent, MessageKind};
use crate::editor::theme::{STEP, TextSize, Theme};
use crate::editor::view::Aspect;
use crate::findings::Severity;
use crate::units::Power;
use eframe::egui;
use egui::{Align, Color32, Label, Layout, Rect, RichText, Sense, Ui, UiBuilder, Vec2, vec2};

/// Room for a position, so that nothing moves when it changes.
const POSITION_WIDTH: f32 = 48.0 * STEP;

/// Room for the state of the study.
const STATE_WIDTH: f32 = 22.0 * STEP;

/// The status line.
pub(in crate::editor) fn status_line_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let palette = &Theme::of(ui).palette;
    let whole = ui.max_rect();
    ui.painter().rect_filled(whole, 0.0, palette.bar);
    let builder = UiBuilder::new()
        .max_rect(whole.shrink2(vec2(MARGIN, 0.0)))
        .layout(Layout::right_to_left(Align::Center));
    within(ui, builder, |ui| {
        ui.spacing_mut().item_spacing.x = 5.0 * STEP;
        state_ui(ui, editor);
        severities_ui(ui, editor);
        amounts_ui(ui, editor);
        ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
            position_ui(ui, editor);
            said_ui(ui, editor, intents);
        });
    });
}

fn text(text: impl Into<String>, colour: Color32) -> RichText {
    RichText::new(text)
        .font(TextSize::Body.font())
        .color(colour)
}

/// Whether what is shown is of the site that is shown.
fn state_ui(ui: &mut Ui, editor: &Editor) {
    let palette = &Theme::of(ui).palette;
    let (said, colour) = if editor.results.are_current() {
        ("up to date", palette.bar_ok)
    } else {
        ("working out", palette.bar_caution)
    };
    slot_ui(
        ui,
        STATE_WIDTH,
        Layout::right_to_left(Align::Center),
        |ui| {
            ui.label(text(said, colour));
        },
    );
}

/// A place of a fixed width, whatever stands in it.
fn slot_ui(ui: &mut Ui, width: f32, layout: Layout, contents: impl FnOnce(&mut Ui)) {
    let size = vec2(width, ui.available_height());
    ui.allocate_ui_with_layout(size, layout, |ui| {
        ui.set_min_size(size);
        contents(ui);
    });
}

fn severities_ui(ui: &mut Ui, editor: &Editor) {
    let palette = &Theme::of(ui).palette;
    let counted = |count: usize, one: &str, many: &str| match count {
        1 => format!("1 {one}"),
        _ => format!("{count} {many}"),
    };
    let cautions = editor.count_findings(Severity::Caution);
    let breaches = editor.count_findings(Severity::Breach);
    let marks = [
        (
            cautions,
            "caution",
            "cautions",
            Icon::Caution,
            palette.bar_caution,
        ),
        (
            breaches,
            "breach",
            "breaches",
            Icon::Breach,
            palette.bar_breach,
        ),
    ];
    for (count, one, many, icon, colour) in marks {
        if count > 0 {
            ui.scope(|ui| {
                ui.spacing_mut().item_spacing.x = 1.5 * STEP;
                ui.label(text(counted(count, one, many), colour));
                mark_ui(ui, icon, colour);
            });
        }
    }
}

/// What the shown scheme amounts to.
fn amounts_ui(ui: &mut Ui, editor: &Editor) {
    let palette = &Theme::of(ui).palette;
    let Some(study) = editor.results.study() else {
        return;
    };
    let totals = &study.totals;
    let installed: Power = totals.input_net;
    let channels = match totals.n_channel {
        1 => "1 channel".to_owned(),
        count => format!("{count} channels"),
    };
    let hangers = match totals.n_hangers() {
        1 => "1 hanger".to_owned(),
        count => format!("{count} hangers"),
    };
    ui.label(text(format!("{hangers} · {channels}"), palette.bar_ink));
    let installed = brief_with_unit(editor.site().units, installed);
    ui.label(text(format!("installed {installed}"), palette.bar_ink));
}

/// Where the pointer is, from the nearest grid lines.
fn position_ui(ui: &mut Ui, editor: &Editor) {
    let palette = &Theme::of(ui).palette;
    let said = editor
        .canvas
        .pointer
        .as_ref()
        .map_or_else(String::new, |pointer| position(editor.site(), pointer.at));
    slot_ui(
        ui,
        POSITION_WIDTH,
        Layout::left_to_right(Align::Center),
        |ui| {
            ui.add(Label::new(text(said, palette.bar_ink)).truncate());
        },
    );
}

/// What was said last; else what the pointer has caught on and what a click would do.
fn said_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let palette = &Theme::of(ui).palette;
    let Some(message) = &editor.message else {
        let caught = editor.canvas.pointer.as_ref().and_then(|it| it.why.clone());
        if let Some(why) = caught {
            ui.add(Label::new(text(why, palette.bar_ok)).truncate());
        }
        let hint = if editor.canvas.hint.is_empty() {
            match editor.view.aspect {
                Aspect::Plan => editor.tool.explanation(),
                Aspect::Section => "Drag a heater across or up, or drag beside it to move the view",
                Aspect::Space => "Drag to walk round, Shift and drag to move, wheel to go nearer",
            }
        } else {
            &editor.canvas.hint
        };
        ui.add(Label::new(text(hint, palette.bar_soft)).truncate());
        return;
    };
    let is_trouble = message.kind == MessageKind::Trouble;
    let colour = if is_trouble {
        mark_ui(ui, Icon::Breach, palette.bar_breach);
        palette.bar_breach
    } else {
        palette.bar_ok
    };
    // One line has no room for several: the first is said, all are shown on hovering.
    let first = message.text.lines().next().unwrap_or_default();
    let label = Label::new(text(first, colour))
        .truncate()
        .sense(Sense::click());
    let response = ui.add(label).on_hover_text(&message.text);
    if response.clicked() {
        intents.push(Intent::Dismiss);
    }
}

fn mark_ui(ui: &mut Ui, icon: Icon, colour: Color32) {
    let (rect, _) = ui.allocate_exact_size(Vec2::splat(3.0 * STEP), Sense::hover());
    let place = Rect::from_center_size(rect.center(), Vec2::splat(2.5 * STEP));
    icon.paint(ui.painter(), place, colour);
}
