//! Fields of a bay: heights, roof, constructions.

use super::{BURNS, UNKNOWN, pitch};
use crate::editor::widgets::{Form, section_ui};
use crate::geometry::DVec2;
use crate::site::{Bay, BayUse, Combustibility, Construction, Roof};
use crate::units::{Angle, Length, ThermalTransmittance};
use eframe::egui::Ui;

/// The forms of a roof, without their figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum RoofForm {
    Flat,
    SingleSlope,
    Gable,
}

const ROOFS: [(RoofForm, &str); 3] = [
    (RoofForm::Flat, "flat"),
    (RoofForm::SingleSlope, "slope"),
    (RoofForm::Gable, "gable"),
];

/// The facing of an insulation on the inside of a wall or a deck, in words.
const FACINGS: [(Option<Combustibility>, &str); 4] = [
    (None, "none, bare inside"),
    (Some(Combustibility::Combustible), "burns"),
    (Some(Combustibility::NonCombustible), "rated not to burn"),
    (Some(Combustibility::Unknown), "unknown"),
];

/// A pitch that drains, for a roof that was flat.
const NEW_PITCH: f64 = 0.04;

/// The fields of bays.
pub(in crate::editor::panels) fn bay_fields_ui(ui: &mut Ui, form: &mut Form<'_, Bay>) {
    form.text(
        ui,
        "Name",
        "",
        |bay| bay.name.clone(),
        |bay, name| bay.name = name,
    );
    let uses = BayUse::ALL.map(|used_as| (used_as, used_as.label().to_owned()));
    form.choice(
        ui,
        "Used as",
        &uses,
        |bay| bay.used_as,
        |bay, used_as| bay.used_as = used_as,
    );
    form.quantity(
        ui,
        "Eave height",
        |bay| bay.eave,
        |bay, eave| bay.eave = eave,
    );
    roof_fields_ui(ui, form);
    section_ui(ui, "Walls", "");
    construction_fields_ui(ui, form, "wall", |bay| &bay.wall, |bay| &mut bay.wall);
    section_ui(ui, "Roof deck", "");
    construction_fields_ui(ui, form, "deck", |bay| &bay.deck, |bay| &mut bay.deck);
    form.optional(
        ui,
        "Roof may carry",
        UNKNOWN,
        |bay| bay.collateral,
        |bay, collateral| bay.collateral = collateral,
    );
}

fn roof_fields_ui(ui: &mut Ui, form: &mut Form<'_, Bay>) {
    form.segments(
        ui,
        "Roof",
        &ROOFS,
        |bay| form_of(&bay.roof),
        |bay, form| {
            bay.roof = reformed(bay, form);
        },
    );
    let common = form.common(|bay| form_of(&bay.roof));
    if !matches!(common, Some(RoofForm::SingleSlope | RoofForm::Gable)) {
        return;
    }
    let system = form.system();
    let shown = form
        .common(|bay| pitch_of(&bay.roof))
        .map(|it| pitch::show(it, system));
    form.entry(
        ui,
        "Pitch",
        shown,
        "",
        "",
        |text| pitch::parse(text, system),
        |bay, steep| set_pitch(&mut bay.roof, steep),
    );
    let label = match common {
        Some(RoofForm::Gable) => "Ridge bearing",
        _ => "Rises toward",
    };
    form.quantity(
        ui,
        label,
        |bay| bearing_of(&bay.roof),
        |bay, bearing| set_bearing(&mut bay.roof, bearing),
    );
    if common == Some(RoofForm::Gable) {
        ridge_ui(ui, form);
    }
}

/// Where a ridge runs, for roofs that have one.
fn ridge_ui(ui: &mut Ui, form: &mut Form<'_, Bay>) {
    let ridge = |bay: &Bay| match bay.roof {
        Roof::Gable { ridge_through, .. } => ridge_through,
        Roof::Flat | Roof::SingleSlope { .. } => DVec2::ZERO,
    };
    form.pair(
        ui,
        "Ridge through",
        ["Ridge, east", "Ridge, north"],
        ["E", "N"],
        |bay, axis| Length::metres(ridge(bay)[axis]),
        |bay, axis, to: Length| {
            if let Roof::Gable { ridge_through, .. } = &mut bay.roof {
                ridge_through[axis] = to.as_metres();
            }
        },
    );
}

/// The walls that are not there, by their numbers, for bays that are placed.
pub(in crate::editor::panels) fn open_edges_ui(ui: &mut Ui, form: &mut Form<'_, Bay>) {
    let shown = form.common(|bay| {
        let numbers: Vec<String> = bay
            .open_edges
            .iter()
            .map(|edge| (edge + 1).to_string())
            .collect();
        numbers.join(", ")
    });
    form.entry(
        ui,
        "Without wall",
        shown,
        "",
        "all walls stand",
        edges,
        |bay, edges| bay.open_edges = edges,
    );
}

/// Numbers of walls, counted from 1 at the first corner: `2, 4`.
fn edges(text: &str) -> Result<Vec<usize>, String> {
    text.split([',', ';', ' '])
        .map(str::trim)
        .filter(|number| !number.is_empty())
        .map(|number| match number.parse::<usize>() {
            Ok(number) if number >= 1 => Ok(number - 1),
            _ => Err(format!(
                "“{number}” is no wall; enter their numbers such as 2, 4, counted from 1 at the first corner"
            )),
        })
        .collect()
}

fn construction_fields_ui(
    ui: &mut Ui,
    form: &mut Form<'_, Bay>,
    part: &str,
    read: fn(&Bay) -> &Construction,
    write: fn(&mut Bay) -> &mut Construction,
) {
    // Two constructions stand in one form: their fields tell each other apart by name.
    ui.push_id(part, |ui| {
        form.text(
            ui,
            "Construction",
            "what it is made of",
            |bay| read(bay).name.clone(),
            |bay, name| write(bay).name = name,
        );
        form.quantity(
            ui,
            "U-value",
            |bay| read(bay).u_value,
            |bay, u_value: ThermalTransmittance| write(bay).u_value = u_value,
        );
        form.segments(
            ui,
            "Burns",
            &BURNS,
            |bay| read(bay).burns,
            |bay, burns: Combustibility| write(bay).burns = burns,
        );
        form.choice(
            ui,
            "Facing",
            &FACINGS.map(|(facing, label)| (facing, label.to_owned())),
            |bay| read(bay).facing,
            |bay, facing| write(bay).facing = facing,
        );
    });
}

fn form_of(roof: &Roof) -> RoofForm {
    match roof {
        Roof::Flat => RoofForm::Flat,
        Roof::SingleSlope { .. } => RoofForm::SingleSlope,
        Roof::Gable { .. } => RoofForm::Gable,
    }
}

fn pitch_of(roof: &Roof) -> f64 {
    match roof {
        Roof::Flat => 0.0,
        Roof::SingleSlope { pitch, .. } | Roof::Gable { pitch, .. } => *pitch,
    }
}

fn set_pitch(roof: &mut Roof, steep: f64) {
    match roof {
        Roof::Flat => {}
        Roof::SingleSlope { pitch, .. } | Roof::Gable { pitch, .. } => *pitch = steep,
    }
}

fn bearing_of(roof: &Roof) -> Angle {
    match roof {
        Roof::Flat => Angle::ZERO,
        Roof::SingleSlope { rises_toward, .. } => *rises_toward,
        Roof::Gable { ridge_bearing, .. } => *ridge_bearing,
    }
}

fn set_bearing(roof: &mut Roof, bearing: Angle) {
    match roof {
        Roof::Flat => {}
        Roof::SingleSlope { rises_toward, .. } => *rises_toward = bearing,
        Roof::Gable { ridge_bearing, .. } => *ridge_bearing = bearing,
    }
}

/// The bay's roof in another form. A new ridge runs along the bay, through its middle;
/// a new slope rises across it.
fn reformed(bay: &Bay, form: RoofForm) -> Roof {
    let (least, greatest) = bay.outline.iter().fold(
        (DVec2::INFINITY, DVec2::NEG_INFINITY),
        |(least, greatest), corner| (least.min(*corner), greatest.max(*corner)),
    );
    let size = greatest - least;
    let is_long_eastward = size.x >= size.y;
    let pitch = match pitch_of(&bay.roof) {
        steep if steep > 0.0 => steep,
        _ => NEW_PITCH,
    };
    match form {
        RoofForm::Flat => Roof::Flat,
        RoofForm::SingleSlope => Roof::SingleSlope {
            rises_toward: Angle::degrees(if is_long_eastward { 0.0 } else { 90.0 }),
            pitch,
        },
        RoofForm::Gable => Roof::Gable {
            ridge_through: if bay.outline.is_empty() {
                DVec2::ZERO
            } else {
                (least + greatest) / 2.0
            },
            ridge_bearing: Angle::degrees(if is_long_eastward { 90.0 } else { 0.0 }),
            pitch,
        },
    }
}
