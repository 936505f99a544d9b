//! Fields of an obstruction.

use super::BURNS;
use crate::editor::widgets::Form;
use crate::site::{Footprint, Obstruction, ObstructionKind};
use crate::units::Length;
use eframe::egui::Ui;

/// The fields of obstructions.
pub(in crate::editor::panels) fn obstruction_fields_ui(
    ui: &mut Ui,
    form: &mut Form<'_, Obstruction>,
) {
    let kinds: Vec<(ObstructionKind, String)> = ObstructionKind::ALL
        .iter()
        .map(|kind| (*kind, kind.label().to_owned()))
        .collect();
    form.choice(ui, "Kind", &kinds, |it| it.kind, take_kind);
    form.text(
        ui,
        "Name",
        "",
        |it| it.name.clone(),
        |it, name| it.name = name,
    );
    form.quantity(
        ui,
        "Bottom",
        |it| it.bottom,
        |it, bottom| it.bottom = bottom,
    );
    let top = match form.common(|it| it.kind) {
        Some(ObstructionKind::Racking) => "Top of load",
        _ => "Top",
    };
    form.quantity(ui, top, |it| it.top, |it, top| it.top = top);
    if form.common(|it| it.kind) == Some(ObstructionKind::Racking) {
        form.optional(
            ui,
            "Top of uprights",
            "as the load",
            |it| it.upright_top,
            |it, top| it.upright_top = top,
        );
    }
    if form.common(|it| width_of(it).is_some()) == Some(true) {
        form.quantity(
            ui,
            "Width",
            |it| width_of(it).unwrap_or(Length::ZERO),
            set_width,
        );
    }
    form.segments(
        ui,
        "Burns",
        &BURNS,
        |it| it.burns,
        |it, burns| it.burns = burns,
    );
    form.optional(
        ui,
        "Hottest allowed",
        "no limit",
        |it| it.temperature_limit,
        |it, limit| it.temperature_limit = limit,
    );
}

/// Another kind. Heights and nature follow where they still are what is usual for the
/// old one; what the user has set stays.
fn take_kind(it: &mut Obstruction, kind: ObstructionKind) {
    let (bottom, top, burns) = it.kind.usual();
    let (new_bottom, new_top, new_burns) = kind.usual();
    if it.bottom == bottom && it.top == top {
        (it.bottom, it.top) = (new_bottom, new_top);
    }
    if it.burns == burns {
        it.burns = new_burns;
    }
    if kind != ObstructionKind::Racking {
        it.upright_top = None;
    }
    it.kind = kind;
}

fn width_of(it: &Obstruction) -> Option<Length> {
    match &it.footprint {
        Footprint::Line { width, .. } => Some(*width),
        Footprint::Area { .. } => None,
    }
}

fn set_width(it: &mut Obstruction, new_width: Length) {
    if let Footprint::Line { width, .. } = &mut it.footprint {
        *width = new_width;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::drafts::obstruction as of_kind;

    #[test]
    fn another_kind_brings_its_usual_heights_but_never_overrides_the_users() {
        let mut untouched = of_kind(ObstructionKind::Racking);
        take_kind(&mut untouched, ObstructionKind::Duct);
        assert_eq!(untouched, of_kind(ObstructionKind::Duct));

        let mut typed = of_kind(ObstructionKind::Racking);
        typed.top = Length::metres(6.2);
        take_kind(&mut typed, ObstructionKind::StoredGoods);
        assert_eq!(typed.top, Length::metres(6.2));
    }
}
