//! Buttons: one main one to a panel, plain ones, those that are only an icon, tools.

use crate::editor::icons::Icon;
use crate::editor::theme::{ROW, STEP, TextSize, Theme, faded};
use eframe::egui;
use egui::text::{LayoutJob, TextFormat, TextWrapping};
use egui::{
    Align2, Button, CornerRadius, CursorIcon, Label, Rect, Response, RichText, Role, Sense, Stroke,
    StrokeKind, Ui, Vec2, WidgetInfo, pos2, vec2,
};

/// What a panel is for: ink on paper reversed. At most one in sight to a panel.
pub fn main_button_ui(ui: &mut Ui, label: &str) -> Response {
    let palette = &Theme::of(ui).palette;
    ui.scope(|ui| {
        let widgets = &mut ui.visuals_mut().widgets;
        for (state, fill) in [
            (&mut widgets.inactive, palette.solid),
            (&mut widgets.hovered, palette.solid_hover),
            (&mut widgets.active, palette.solid_hover),
        ] {
            state.weak_bg_fill = fill;
            state.fg_stroke.color = palette.on_solid;
        }
        widgets.inactive.bg_stroke = Stroke::new(1.0, palette.solid);
        widgets.hovered.bg_stroke = Stroke::new(1.0, palette.solid_hover);
        ui.add(Button::new(label).min_size(vec2(0.0, ROW)))
    })
    .inner
}

/// Anything else that can be done.
pub fn plain_button_ui(ui: &mut Ui, label: &str) -> Response {
    ui.add(Button::new(label).min_size(vec2(0.0, ROW)))
}

/// A small button, for what is offered again and again in a list.
pub fn small_button_ui(ui: &mut Ui, label: &str) -> Response {
    ui.scope(|ui| {
        ui.spacing_mut().button_padding = vec2(2.0 * STEP, 1.0);
        ui.spacing_mut().interact_size.y = 5.0 * STEP;
        let label = RichText::new(label).font(TextSize::Small.font());
        ui.add(Button::new(label).min_size(vec2(0.0, 5.0 * STEP)))
    })
    .inner
}

/// A plain button as wide as the panel.
pub fn wide_button_ui(ui: &mut Ui, label: &str) -> Response {
    ui.add(Button::new(label).min_size(vec2(ui.available_width(), ROW)))
}

/// A button that is an icon; its name is read out and shown on hovering.
pub fn icon_button_ui(ui: &mut Ui, icon: Icon, name: &str) -> Response {
    let (rect, response) = ui.allocate_exact_size(Vec2::splat(ROW), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Button, ui.is_enabled(), name));
    if ui.is_rect_visible(rect) {
        backdrop(ui, rect, &response, false);
        let palette = &Theme::of(ui).palette;
        icon.paint(
            ui.painter(),
            rect.shrink(1.5 * STEP),
            strength(ui, palette.soft_ink),
        );
    }
    response.on_hover_text(name)
}

/// A button without a ground until the pointer is on it, of a fixed width so that its
/// neighbours stay where they are when its words change.
pub fn quiet_button_ui(ui: &mut Ui, icon: Option<Icon>, label: &str, width: f32) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(width, ROW), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Button, ui.is_enabled(), label));
    if ui.is_rect_visible(rect) {
        backdrop(ui, rect, &response, false);
        let palette = &Theme::of(ui).palette;
        let ink = strength(ui, palette.ink);
        let mut left = rect.left() + 1.5 * STEP;
        if let Some(icon) = icon {
            let place = Rect::from_center_size(
                pos2(left + 2.0 * STEP, rect.center().y),
                Vec2::splat(4.0 * STEP),
            );
            icon.paint(ui.painter(), place, ink);
            left += 5.5 * STEP;
        }
        let mut words = LayoutJob::single_section(
            label.to_owned(),
            TextFormat::simple(TextSize::Body.font(), ink),
        );
        words.wrap = TextWrapping::truncate_at_width(rect.right() - STEP - left);
        let galley = ui.painter().layout_job(words);
        let top = rect.center().y - galley.size().y / 2.0;
        ui.painter().galley(pos2(left, top), galley, ink);
    }
    response
}

/// Words that lead somewhere.
pub fn link_ui(ui: &mut Ui, label: &str) -> Response {
    let palette = &Theme::of(ui).palette;
    ui.add(
        Label::new(
            RichText::new(label)
                .font(TextSize::Small.font())
                .color(palette.focus)
                .underline(),
        )
        .sense(Sense::click()),
    )
    .on_hover_cursor(CursorIcon::PointingHand)
}

/// A tool of a stage: icon, name, and its key; what it does is shown on hovering. It
/// stays down while in use.
pub fn tool_row_ui(
    ui: &mut Ui,
    icon: Icon,
    name: &str,
    does: &str,
    key: &str,
    is_chosen: Chosen,
) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), ROW), Sense::click());
    let is_chosen = is_chosen == Chosen::Yes;
    response.widget_info(|| WidgetInfo::selected(Role::Button, ui.is_enabled(), is_chosen, name));
    if ui.is_rect_visible(rect) {
        backdrop(ui, rect, &response, is_chosen);
        let palette = &Theme::of(ui).palette;
        let ink = strength(ui, palette.ink);
        let place = Rect::from_center_size(
            pos2(rect.left() + 4.0 * STEP, rect.center().y),
            Vec2::splat(4.5 * STEP),
        );
        icon.paint(ui.painter(), place, ink);
        let font = if is_chosen {
            TextSize::Body.bold()
        } else {
            TextSize::Body.font()
        };
        ui.painter()
            .with_clip_rect(rect.shrink2(vec2(STEP, 0.0)))
            .text(
                pos2(rect.left() + 8.0 * STEP, rect.center().y),
                Align2::LEFT_CENTER,
                name,
                font,
                ink,
            );
        if !key.is_empty() {
            key_cap(ui, rect, key);
        }
    }
    response.on_hover_text(does)
}

/// Whether a tool or a segment is the one in use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Chosen {
    /// It is.
    Yes,
    /// Another one is, or none.
    No,
}

impl From<bool> for Chosen {
    fn from(is_chosen: bool) -> Self {
        if is_chosen { Self::Yes } else { Self::No }
    }
}

/// The key that does the same, at the right end of a row.
fn key_cap(ui: &Ui, row: Rect, key: &str) {
    let palette = &Theme::of(ui).palette;
    let galley = ui.painter().layout_no_wrap(
        key.to_owned(),
        TextSize::Small.font(),
        strength(ui, palette.faint_ink),
    );
    let cap = Rect::from_center_size(
        pos2(
            row.right() - 2.0 * STEP - galley.size().x / 2.0 - STEP,
            row.center().y,
        ),
        galley.size() + vec2(2.0 * STEP, STEP),
    );
    ui.painter().rect(
        cap,
        CornerRadius::same(3),
        palette.ground,
        Stroke::new(1.0, palette.edge),
        StrokeKind::Inside,
    );
    ui.painter().galley(
        cap.center() - galley.size() / 2.0,
        galley,
        palette.faint_ink,
    );
}

/// The ground of a control that has one only while it is chosen, hovered or focused.
pub(super) fn backdrop(ui: &Ui, rect: Rect, response: &Response, is_chosen: bool) {
    let palette = &Theme::of(ui).palette;
    let corner = CornerRadius::same(3);
    if is_chosen {
        ui.painter().rect(
            rect,
            corner,
            palette.paper,
            Stroke::new(1.0, palette.field_edge),
            StrokeKind::Inside,
        );
    } else if response.hovered() {
        ui.painter().rect_filled(rect, corner, palette.band);
    }
    if response.has_focus() {
        ui.painter().rect_stroke(
            rect,
            corner,
            Stroke::new(2.0, palette.focus),
            StrokeKind::Inside,
        );
    }
}

/// A colour as strong as the control is able.
pub(super) fn strength(ui: &Ui, colour: egui::Color32) -> egui::Color32 {
    if ui.is_enabled() {
        colour
    } else {
        faded(colour, ui.visuals().disabled_alpha())
    }
}

/// A box to tick. Hands back the new state when it was clicked.
pub fn tick_ui(ui: &mut Ui, label: &str, is_ticked: bool) -> Option<bool> {
    let mut ticked = is_ticked;
    ui.checkbox(&mut ticked, label).changed().then_some(ticked)
}
