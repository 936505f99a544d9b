//! Fields of an opening.

use crate::editor::widgets::Form;
use crate::site::{Opening, OpeningKind};
use eframe::egui::Ui;

const KINDS: [(OpeningKind, &str); 7] = [
    (OpeningKind::SectionalDoor, "sectional door"),
    (OpeningKind::HighLiftDoor, "high-lift door"),
    (OpeningKind::RollUpDoor, "roll-up door"),
    (OpeningKind::SwingDoor, "swing door"),
    (OpeningKind::SlidingDoor, "sliding door"),
    (OpeningKind::DockDoor, "dock door"),
    (OpeningKind::Window, "window"),
];

/// What an opening is, in words.
pub(in crate::editor::panels) fn opening_label(kind: OpeningKind) -> &'static str {
    KINDS
        .iter()
        .find(|(known, _)| *known == kind)
        .map_or("opening", |(_, label)| label)
}

/// The fields of openings.
pub(in crate::editor::panels) fn opening_fields_ui(ui: &mut Ui, form: &mut Form<'_, Opening>) {
    let kinds = KINDS.map(|(kind, label)| (kind, label.to_owned()));
    form.choice(ui, "Kind", &kinds, |it| it.kind, |it, kind| it.kind = kind);
    form.quantity(ui, "Width", |it| it.width, |it, width| it.width = width);
    form.quantity(
        ui,
        "Height",
        |it| it.height,
        |it, height| it.height = height,
    );
    form.quantity(ui, "Sill", |it| it.sill, |it, sill| it.sill = sill);
}

/// Where an opening is in its wall: fields of those that are placed.
pub(in crate::editor::panels) fn opening_place_ui(ui: &mut Ui, form: &mut Form<'_, Opening>) {
    form.quantity(
        ui,
        "From corner",
        |it| it.from_corner,
        |it, from| it.from_corner = from,
    );
    form.entry(
        ui,
        "Wall",
        form.common(|it| (it.edge + 1).to_string()),
        "",
        "",
        |text| match text.trim().parse::<usize>() {
            Ok(number) if number >= 1 => Ok(number - 1),
            _ => Err(format!(
                "“{}” is no wall; enter its number, counted from 1 at the first corner",
                text.trim()
            )),
        },
        |it, edge| it.edge = edge,
    );
}
