//! Lists of a stage's objects: picked by a click, gone to by a double click.

use crate::editor::Editor;
use crate::editor::intent::Intent;
use crate::editor::theme::{ROW, STEP, TextSize, Theme};
use crate::site::ObjectId;
use eframe::egui;
use egui::text::{LayoutJob, TextFormat, TextWrapping};
use egui::{
    CornerRadius, Rect, Response, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2,
};
use std::collections::BTreeSet;

/// An object in a list.
#[derive(Debug, Clone)]
pub(super) struct Item {
    /// Which.
    pub(super) id: ObjectId,
    /// What people call it, or what it is.
    pub(super) name: String,
    /// A figure or two, at the right.
    pub(super) figures: String,
}

/// The list. Of hundreds or thousands of rows only those in sight are made.
pub(super) fn list_ui(
    ui: &mut Ui,
    editor: &Editor,
    intents: &mut Vec<Intent>,
    count: usize,
    item: impl Fn(usize) -> Item,
) {
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        for k in 0..count {
            let size = vec2(ui.available_width(), ROW - STEP);
            let (rect, response) = ui.allocate_exact_size(size, Sense::click());
            if ui.is_rect_visible(rect) || response.has_focus() {
                item_ui(ui, editor, intents, &item(k), rect, &response);
            }
        }
    });
}

fn item_ui(
    ui: &Ui,
    editor: &Editor,
    intents: &mut Vec<Intent>,
    item: &Item,
    rect: Rect,
    response: &Response,
) {
    let is_picked = editor.selection.has(&item.id);
    let is_hovered = editor.selection.hovered.as_ref() == Some(&item.id);
    let said = format!("{} {}, {}", item.id, item.name, item.figures);
    response.widget_info(|| WidgetInfo::selected(Role::ListBoxOption, true, is_picked, &said));
    let palette = &Theme::of(ui).palette;
    let row = rect.expand2(vec2(STEP, 0.0));
    let corner = CornerRadius::same(3);
    if is_picked {
        ui.painter().rect_filled(row, corner, palette.selected_text);
    } else if is_hovered || response.hovered() {
        ui.painter().rect_filled(row, corner, palette.band);
    }
    if response.has_focus() {
        let line = Stroke::new(2.0, palette.focus);
        ui.painter()
            .rect_stroke(row, corner, line, StrokeKind::Inside);
    }
    // However long the figures, the id and the beginning of the name keep their room.
    let mut figures = LayoutJob::single_section(
        item.figures.clone(),
        TextFormat::simple(TextSize::Small.font(), palette.soft_ink),
    );
    figures.wrap = TextWrapping::truncate_at_width(rect.width() * 0.6);
    let figures = ui.painter().layout_job(figures);
    let mut words = LayoutJob::default();
    let id = TextFormat::simple(TextSize::Body.bold(), palette.ink);
    words.append(item.id.as_str(), 0.0, id);
    let name = TextFormat::simple(TextSize::Body.font(), palette.soft_ink);
    words.append(&item.name, 1.5 * STEP, name);
    words.wrap = TextWrapping::truncate_at_width(rect.width() - figures.size().x - 2.0 * STEP);
    let words = ui.painter().layout_job(words);
    let middle = rect.center().y;
    let top = middle - words.size().y / 2.0;
    ui.painter()
        .galley(pos2(rect.left(), top), words, palette.ink);
    let corner = pos2(
        rect.right() - figures.size().x,
        middle - figures.size().y / 2.0,
    );
    ui.painter().galley(corner, figures, palette.soft_ink);

    if response.hovered() && !is_hovered {
        intents.push(Intent::Hover(Some(item.id.clone())));
    }
    let only = || BTreeSet::from([item.id.clone()]);
    if response.double_clicked() {
        intents.push(Intent::GoTo {
            place: None,
            subjects: only(),
        });
    } else if response.clicked() {
        intents.push(
            if ui.input(|input| input.modifiers.command || input.modifiers.shift) {
                Intent::TogglePick(item.id.clone())
            } else {
                Intent::Pick(only())
            },
        );
    }
}
