//! Choosing one of several.

use super::button::strength;
use crate::editor::icons::Icon;
use crate::editor::theme::{ROW, STEP, Theme};
use eframe::egui;
use egui::{
    Align2, Button, Color32, ComboBox, CornerRadius, FontSelection, Rect, Role, Sense, Stroke,
    StrokeKind, TextStyle, Ui, WidgetInfo, vec2,
};

/// A list that drops down. `chosen` is none where several objects differ. Hands back
/// the index of a newly chosen option.
pub fn choice_ui(
    ui: &mut Ui,
    name: &str,
    chosen: Option<usize>,
    options: &[impl AsRef<str>],
) -> Option<usize> {
    let shown = chosen
        .and_then(|index| options.get(index))
        .map_or("several", AsRef::as_ref);
    let mut taken = None;
    let width = ui.available_width();
    let inner = ui
        .scope(|ui| {
            let edge = Theme::of(ui).palette.field_edge;
            ui.visuals_mut().widgets.inactive.bg_stroke = Stroke::new(1.0, edge);
            ui.spacing_mut().button_padding.x = 2.0 * STEP;
            ComboBox::from_id_salt(name)
                .width(width)
                .truncate()
                .selected_text(shown)
                .icon(|ui, rect, visuals, _| {
                    Icon::Down.paint(ui.painter(), rect, visuals.fg_stroke.color);
                })
                .show_ui(ui, |ui| {
                    ui.set_min_width(width);
                    for (index, option) in options.iter().enumerate() {
                        let is_chosen = chosen == Some(index);
                        let row = Button::selectable(is_chosen, option.as_ref())
                            .min_size(vec2(ui.available_width(), ROW));
                        if ui.add(row).clicked() && !is_chosen {
                            taken = Some(index);
                        }
                    }
                })
        })
        .inner;
    inner.response.accessible_name(name);
    taken
}

/// A switch that shows all its positions. Hands back the index of a newly chosen one.
pub fn segments_ui(
    ui: &mut Ui,
    name: &str,
    chosen: Option<usize>,
    options: &[impl AsRef<str>],
) -> Option<usize> {
    if options.is_empty() {
        return None;
    }
    let palette = &Theme::of(ui).palette;
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), ROW), Sense::hover());
    let corner = CornerRadius::same(3);
    ui.painter().rect(
        rect,
        corner,
        palette.paper,
        Stroke::new(1.0, palette.field_edge),
        StrokeKind::Inside,
    );
    let font = FontSelection::Style(TextStyle::Body).resolve(ui.style());
    let widths = segment_widths(ui, rect.width(), &font, options);
    let mut taken = None;
    let mut left = rect.left();
    for (index, (option, width)) in options.iter().zip(widths).enumerate() {
        let cell = Rect::from_min_size(egui::pos2(left, rect.top()), vec2(width, rect.height()));
        left += width;
        let is_chosen = chosen == Some(index);
        let said = format!("{name}: {}", option.as_ref());
        let id = ui.scope_id().with(("segment", name, index));
        let response = ui.interact(cell, id, Sense::click());
        response.widget_info(|| {
            WidgetInfo::selected(Role::RadioButton, ui.is_enabled(), is_chosen, &said)
        });
        if response.clicked() && !is_chosen {
            taken = Some(index);
        }
        let ink = if is_chosen {
            ui.painter().rect_filled(cell, corner, palette.solid);
            palette.on_solid
        } else if response.hovered() {
            ui.painter()
                .rect_filled(cell.shrink(1.0), corner, palette.band);
            palette.ink
        } else {
            palette.ink
        };
        if index > 0 && !is_chosen && chosen != Some(index - 1) {
            ui.painter().vline(
                cell.left(),
                cell.y_range().shrink(2.0 * STEP),
                Stroke::new(1.0, palette.rule),
            );
        }
        if response.has_focus() {
            ui.painter().rect_stroke(
                cell,
                corner,
                Stroke::new(2.0, palette.focus),
                StrokeKind::Inside,
            );
        }
        ui.painter().with_clip_rect(cell.shrink(1.0)).text(
            cell.center(),
            Align2::CENTER_CENTER,
            option.as_ref(),
            font.clone(),
            strength(ui, ink),
        );
    }
    taken
}

/// Each position is as wide as its word, and all have the same room around it.
fn segment_widths(
    ui: &Ui,
    width: f32,
    font: &egui::FontId,
    options: &[impl AsRef<str>],
) -> Vec<f32> {
    let words: Vec<f32> = options
        .iter()
        .map(|option| {
            let word = option.as_ref().to_owned();
            let galley = ui
                .painter()
                .layout_no_wrap(word, font.clone(), Color32::PLACEHOLDER);
            galley.size().x
        })
        .collect();
    #[expect(clippy::cast_precision_loss, reason = "a handful of options")]
    let room = (width - words.iter().sum::<f32>()) / options.len() as f32;
    words.into_iter().map(|word| word + room).collect()
}
