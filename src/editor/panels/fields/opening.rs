//! Fields of an opening, and of how its door moves.

use super::BURNS;
use crate::editor::widgets::{Form, section_ui};
use crate::site::{Door, DoorMotion, DoorSide, Leaves, Opening, OpeningKind};
use crate::units::Length;
use eframe::egui::Ui;

const LEAVES: [(Leaves, &str); 3] = [
    (Leaves::Near, "near jamb"),
    (Leaves::Far, "far jamb"),
    (Leaves::Both, "both"),
];

const SIDES: [(DoorSide, &str); 2] = [(DoorSide::Inside, "inside"), (DoorSide::Outside, "outside")];

/// The fields of openings.
pub(in crate::editor::panels) fn opening_fields_ui(ui: &mut Ui, form: &mut Form<'_, Opening>) {
    let kinds = OpeningKind::ALL.map(|kind| (kind, kind.label().to_owned()));
    form.choice(ui, "Kind", &kinds, |it| it.kind, take_kind);
    form.quantity(ui, "Width", |it| it.width, |it, width| it.width = width);
    form.quantity(
        ui,
        "Height",
        |it| it.height,
        |it, height| it.height = height,
    );
    form.quantity(ui, "Sill", |it| it.sill, |it, sill| it.sill = sill);
    if let Some(motion) = form.common(|it| it.kind.motion()).flatten() {
        section_ui(ui, "Door", "");
        door_fields_ui(ui, form, motion);
    }
}

/// Another kind: what its door moves by is then usual for the new one.
fn take_kind(it: &mut Opening, kind: OpeningKind) {
    if it.kind.motion() != kind.motion() {
        it.door = Door {
            burns: it.door.burns,
            ..Door::default()
        };
    }
    it.kind = kind;
}

fn door_fields_ui(ui: &mut Ui, form: &mut Form<'_, Opening>, motion: DoorMotion) {
    match motion {
        DoorMotion::Track => track_fields_ui(ui, form),
        DoorMotion::Drum => form.optional(
            ui,
            "Drum size",
            "usual",
            |it| it.door.drum,
            |it, drum| it.door.drum = drum,
        ),
        DoorMotion::Hinges => leaf_fields_ui(ui, form, "Hinged at", "Swings"),
        DoorMotion::Slide => leaf_fields_ui(ui, form, "Slides past", "Slides"),
    }
    form.segments(
        ui,
        "Leaf burns",
        &BURNS,
        |it| it.door.burns,
        |it, burns| it.door.burns = burns,
    );
}

fn track_fields_ui(ui: &mut Ui, form: &mut Form<'_, Opening>) {
    let label = match form.common(|it| it.kind) {
        Some(OpeningKind::HighLiftDoor) => "Lift above head",
        _ => "Track above head",
    };
    form.optional(
        ui,
        label,
        "usual",
        |it| it.door.track_height,
        |it, height: Option<Length>| it.door.track_height = height,
    );
    form.optional(
        ui,
        "Track radius",
        "usual",
        |it| it.door.track_radius,
        |it, radius| it.door.track_radius = radius,
    );
}

fn leaf_fields_ui(ui: &mut Ui, form: &mut Form<'_, Opening>, at: &str, moves: &str) {
    form.segments(ui, at, &LEAVES, Opening::leaves, |it, leaves| {
        it.door.leaves = Some(leaves);
    });
    form.segments(
        ui,
        moves,
        &SIDES,
        |it| it.door.side,
        |it, side| it.door.side = side,
    );
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::site::Combustibility;

    #[test]
    fn another_way_of_moving_starts_from_its_usual_figures() {
        let mut door = Opening {
            id: "D1".into(),
            bay: "B1".into(),
            edge: 0,
            from_corner: Length::ZERO,
            width: Length::metres(4.0),
            sill: Length::ZERO,
            height: Length::metres(4.0),
            kind: OpeningKind::SectionalDoor,
            door: Door {
                track_height: Some(Length::metres(0.6)),
                burns: Combustibility::NonCombustible,
                ..Door::default()
            },
            notes: String::new(),
        };
        take_kind(&mut door, OpeningKind::DockDoor);
        assert_eq!(door.door.track_height, Some(Length::metres(0.6)));
        take_kind(&mut door, OpeningKind::RollUpDoor);
        assert_eq!(door.door.track_height, None);
        assert_eq!(door.door.burns, Combustibility::NonCombustible);
    }
}
