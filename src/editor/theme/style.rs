//! The toolkit's own widgets, made to look like the rest.

use super::{ROW, STEP, TextSize, Theme};
use eframe::egui;
use egui::epaint::Shadow;
use egui::style::{ScrollStyle, Selection, WidgetVisuals, Widgets};
use egui::{Color32, CornerRadius, Margin, Stroke, Style, TextStyle, Visuals, vec2};

/// Corners of everything that has corners, points.
const CORNER: CornerRadius = CornerRadius::same(3);

/// The whole style of a theme.
pub(super) fn style(theme: &Theme) -> Style {
    let mut style = Style {
        visuals: visuals(theme),
        animation_time: 0.0, // Nothing moves that the user did not move.
        ..Style::default()
    };
    style.text_styles = [
        (TextStyle::Small, TextSize::Small),
        (TextStyle::Body, TextSize::Body),
        (TextStyle::Button, TextSize::Body),
        (TextStyle::Monospace, TextSize::Body),
        (TextStyle::Heading, TextSize::Heading),
    ]
    .into_iter()
    .map(|(role, size)| {
        let font = match role {
            TextStyle::Heading => size.bold(),
            _ => size.font(),
        };
        (role, font)
    })
    .collect();

    let spacing = &mut style.spacing;
    spacing.item_spacing = vec2(2.0 * STEP, STEP);
    spacing.button_padding = vec2(2.5 * STEP, STEP);
    spacing.interact_size = vec2(ROW, ROW);
    spacing.window_margin = Margin::same(20);
    spacing.menu_margin = Margin::same(4);
    spacing.combo_width = 24.0 * STEP;
    spacing.combo_height = 80.0 * STEP;
    spacing.text_edit_width = 40.0 * STEP;
    spacing.icon_width = 4.0 * STEP;
    spacing.icon_width_inner = 2.0 * STEP;
    spacing.icon_spacing = 2.0 * STEP;
    spacing.tooltip_width = 80.0 * STEP;
    spacing.scroll = ScrollStyle {
        bar_width: 2.0 * STEP,
        // It floats over the margin: nothing moves aside when it comes.
        floating_allocated_width: 0.0,
        ..ScrollStyle::thin()
    };
    style.interaction.tooltip_delay = 0.4;
    style.interaction.selectable_labels = false;
    style
}

fn visuals(theme: &Theme) -> Visuals {
    let palette = &theme.palette;
    let is_dark = theme == Theme::dark();
    let mut visuals = if is_dark {
        Visuals::dark()
    } else {
        Visuals::light()
    };
    visuals.widgets = widgets(theme);
    visuals.selection = Selection {
        bg_fill: palette.selected_text,
        stroke: Stroke::new(1.0, palette.ink),
    };
    visuals.weak_text_color = Some(palette.faint_ink);
    visuals.hyperlink_color = palette.focus;
    visuals.faint_bg_color = palette.band;
    visuals.extreme_bg_color = palette.paper;
    visuals.text_edit_bg_color = Some(palette.paper);
    visuals.code_bg_color = palette.band;
    visuals.warn_fg_color = palette.caution;
    visuals.error_fg_color = palette.breach;
    visuals.window_fill = palette.ground;
    visuals.panel_fill = palette.ground;
    visuals.window_stroke = Stroke::new(1.0, palette.edge);
    visuals.window_corner_radius = CornerRadius::same(6);
    visuals.menu_corner_radius = CornerRadius::same(4);
    visuals.window_shadow = shadow(palette.shadow, 24);
    visuals.popup_shadow = shadow(palette.shadow, 12);
    visuals.text_cursor.stroke = Stroke::new(1.5, palette.ink);
    visuals.text_cursor.blink = false;
    visuals.disabled_alpha = 0.55;
    visuals
}

fn shadow(color: Color32, blur: u8) -> Shadow {
    Shadow {
        offset: [0, 4],
        blur,
        spread: 0,
        color,
    }
}

fn widgets(theme: &Theme) -> Widgets {
    let palette = &theme.palette;
    let state = |fill: Color32, edge: Color32, ink: Color32| WidgetVisuals {
        bg_fill: fill,
        weak_bg_fill: fill,
        bg_stroke: Stroke::new(1.0, edge),
        corner_radius: CORNER,
        fg_stroke: Stroke::new(1.0, ink),
        expansion: 0.0,
    };
    Widgets {
        noninteractive: state(palette.ground, palette.rule, palette.ink),
        inactive: state(palette.paper, palette.edge, palette.ink),
        hovered: state(palette.band, palette.field_edge, palette.ink),
        // Pressed, or focused from the keyboard: the focus must be seen.
        active: WidgetVisuals {
            bg_stroke: Stroke::new(2.0, palette.focus),
            ..state(palette.band, palette.focus, palette.ink)
        },
        open: state(palette.band, palette.field_edge, palette.ink),
    }
}
