//! Parts of a panel that can be folded away.

use super::button::backdrop;
use super::heading::rule_ui;
use crate::editor::icons::Icon;
use crate::editor::theme::{STEP, TextSize, Theme};
use eframe::egui;
use egui::{Align2, Rect, Role, Sense, Ui, Vec2, WidgetInfo, pos2, vec2};

/// Whether a part is folded before the user has touched it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AtFirst {
    /// Its contents are in sight.
    Unfolded,
    /// Only its heading is.
    Folded,
}

/// A part under a hairline with a heading that folds it. `state` says in a word what is
/// inside, folded or not.
pub fn fold_ui(
    ui: &mut Ui,
    title: &str,
    state: &str,
    at_first: AtFirst,
    contents: impl FnOnce(&mut Ui),
) {
    rule_ui(ui);
    let id = ui.scope_id().with(("fold", title));
    let mut is_open = ui
        .data(|data| data.get_temp::<bool>(id))
        .unwrap_or(at_first == AtFirst::Unfolded);
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 5.0 * STEP), Sense::hover());
    let response = ui.interact(rect, id, Sense::click());
    if response.clicked() {
        is_open = !is_open;
        ui.data_mut(|data| {
            data.insert_temp(id, is_open);
        });
    }
    response.widget_info(|| WidgetInfo::labeled(Role::Button, ui.is_enabled(), title));
    ui.accesskit_node_builder(id, |node| node.set_expanded(is_open));
    let palette = &Theme::of(ui).palette;
    backdrop(ui, rect.expand2(vec2(STEP, 1.0)), &response, false);
    let icon = if is_open { Icon::Down } else { Icon::Right };
    let place = Rect::from_center_size(
        pos2(rect.left() + 1.5 * STEP, rect.center().y),
        Vec2::splat(3.0 * STEP),
    );
    icon.paint(ui.painter(), place, palette.soft_ink);
    ui.painter().text(
        pos2(rect.left() + 4.5 * STEP, rect.center().y),
        Align2::LEFT_CENTER,
        title,
        TextSize::Body.bold(),
        palette.ink,
    );
    ui.painter().text(
        rect.right_center(),
        Align2::RIGHT_CENTER,
        state,
        TextSize::Small.font(),
        palette.faint_ink,
    );
    if is_open {
        ui.push_id(title, |ui| contents(ui));
    }
}
