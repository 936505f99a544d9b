//! Fields of an obstruction.

use super::{BURNS, pitch};
use crate::editor::figures::brief_with_unit;
use crate::editor::widgets::{Form, hint_ui};
use crate::site::obstruction::VEHICLE_HEIGHTS;
use crate::site::{Footprint, Hazard, Obstruction, ObstructionKind, SprinklerRating, TopSlope};
use crate::units::{Angle, Length};
use eframe::egui::Ui;

const RATINGS: [(Option<SprinklerRating>, &str); 4] = [
    (None, "unknown"),
    (Some(SprinklerRating::Ordinary), "ordinary, to 77 °C"),
    (
        Some(SprinklerRating::Intermediate),
        "intermediate, to 107 °C",
    ),
    (Some(SprinklerRating::High), "high, to 149 °C"),
];

const HAZARDS: [(Hazard, &str); 2] = [
    (Hazard::Bounded, "as drawn"),
    (Hazard::Spraying, "paint is sprayed"),
];

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
    let kind = form.common(|it| it.kind);
    if kind == Some(ObstructionKind::Skylight) {
        hint_ui(ui, "It lies in the roof over it");
    } else {
        height_fields_ui(ui, form, kind);
    }
    if form.common(|it| width_of(it).is_some()) == Some(true) {
        let label = match kind {
            Some(ObstructionKind::CraneTravel) => "Bridge span",
            _ => "Width",
        };
        form.quantity(
            ui,
            label,
            |it| width_of(it).unwrap_or(Length::ZERO),
            set_width,
        );
    }
    kind_fields_ui(ui, form, kind);
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

fn height_fields_ui(ui: &mut Ui, form: &mut Form<'_, Obstruction>, kind: Option<ObstructionKind>) {
    use ObstructionKind as Kind;
    if matches!(kind, Some(Kind::ParkedVehicle | Kind::LiftedVehicle)) {
        vehicle_ui(ui, form);
    }
    let bottom = match kind {
        Some(Kind::CraneTravel) => "Under bridge",
        _ => "Bottom",
    };
    form.quantity(ui, bottom, |it| it.bottom, |it, bottom| it.bottom = bottom);
    let top = match kind {
        Some(Kind::Racking) => "Top of load",
        Some(Kind::LiftedVehicle) => "Vehicle height",
        Some(Kind::Boat) => "Top of hull",
        Some(Kind::Stairs) => "Top step",
        Some(Kind::CraneTravel) => "Top of crane",
        _ => "Top",
    };
    form.quantity(ui, top, |it| it.top, |it, top| it.top = top);
    let is_line = form.common(|it| width_of(it).is_some());
    match (kind, is_line) {
        (Some(Kind::Stairs | Kind::CraneTravel), _) | (_, None) => {}
        (_, Some(true)) => form.optional(
            ui,
            "Bottom at end",
            "level",
            |it| it.particulars.bottom_at_end,
            |it, end| it.particulars.bottom_at_end = end,
        ),
        (_, Some(false)) => slope_ui(ui, form),
    }
}

/// How the top of an area slopes.
fn slope_ui(ui: &mut Ui, form: &mut Form<'_, Obstruction>) {
    let system = form.system();
    let shown = form
        .common(|it| it.particulars.top_slope.map_or(0.0, |slope| slope.pitch))
        .map(|steep| pitch::show(steep, system));
    form.entry(
        ui,
        "Top slopes",
        shown,
        "",
        "level",
        |text| {
            if text.trim().is_empty() {
                return Ok(0.0);
            }
            pitch::parse(text, system)
        },
        |it, steep| {
            let toward = it.particulars.top_slope.map(|slope| slope.rises_toward);
            it.particulars.top_slope = (steep != 0.0).then(|| TopSlope {
                rises_toward: toward.unwrap_or(Angle::ZERO),
                pitch: steep,
            });
        },
    );
    if form.common(|it| it.particulars.top_slope.is_some()) == Some(true) {
        form.quantity(
            ui,
            "Rises toward",
            |it| {
                let slope = it.particulars.top_slope;
                slope.map_or(Angle::ZERO, |slope| slope.rises_toward)
            },
            |it, toward| {
                if let Some(slope) = &mut it.particulars.top_slope {
                    slope.rises_toward = toward;
                }
            },
        );
    }
}

/// A vehicle by its kind, which sets its height.
fn vehicle_ui(ui: &mut Ui, form: &mut Form<'_, Obstruction>) {
    let mut vehicles: Vec<(Option<Length>, String)> = VEHICLE_HEIGHTS
        .iter()
        .map(|it| (Some(it.top), it.label.to_owned()))
        .collect();
    vehicles.push((None, "by its height".to_owned()));
    form.choice(
        ui,
        "Vehicle",
        &vehicles,
        |it| {
            let mut known = VEHICLE_HEIGHTS.iter();
            known.find(|known| known.top == it.top).map(|it| it.top)
        },
        |it, top| it.top = top.unwrap_or(it.top),
    );
}

/// What only one kind has.
fn kind_fields_ui(ui: &mut Ui, form: &mut Form<'_, Obstruction>, kind: Option<ObstructionKind>) {
    match kind {
        Some(ObstructionKind::Racking) => form.optional(
            ui,
            "Top of uprights",
            "as the load",
            |it| it.upright_top,
            |it, top| it.upright_top = top,
        ),
        Some(ObstructionKind::LiftedVehicle) => {
            form.optional(
                ui,
                "Lifted by",
                "as drawn",
                |it| it.particulars.lift,
                |it, lift| it.particulars.lift = lift,
            );
            if let Some(highest) = form.common(Obstruction::highest) {
                let raised = brief_with_unit(form.system(), highest);
                hint_ui(ui, &format!("Raised, its top is at {raised}"));
            }
        }
        Some(ObstructionKind::CraneTravel) => form.optional(
            ui,
            "Hook to ends",
            "no hook",
            |it| it.particulars.hook_approach,
            |it, approach| it.particulars.hook_approach = approach,
        ),
        Some(ObstructionKind::Sprinkler) => {
            let ratings = RATINGS.map(|(rating, label)| (rating, label.to_owned()));
            form.choice(
                ui,
                "Rating",
                &ratings,
                |it| it.particulars.rating,
                |it, rating| it.particulars.rating = rating,
            );
            form.optional(
                ui,
                "Deflector",
                "at its bottom",
                |it| it.particulars.deflector,
                |it, deflector| it.particulars.deflector = deflector,
            );
        }
        Some(ObstructionKind::Aircraft) => form.optional(
            ui,
            "Top of wings",
            "as its top",
            |it| it.particulars.wing_top,
            |it, top| it.particulars.wing_top = top,
        ),
        Some(ObstructionKind::HazardZone) => form.segments(
            ui,
            "Zone",
            &HAZARDS,
            |it| it.particulars.hazard,
            |it, hazard| it.particulars.hazard = hazard,
        ),
        _ => {}
    }
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
    let (_, limit) = it.kind.usual_particulars();
    let (mut particulars, new_limit) = kind.usual_particulars();
    if it.temperature_limit == limit {
        it.temperature_limit = new_limit;
    }
    // Slopes are of no kind; the rest is of one only.
    particulars.bottom_at_end = it.particulars.bottom_at_end;
    particulars.top_slope = it.particulars.top_slope;
    it.particulars = particulars;
    if let Some(width) = kind.usual_width()
        && width_of(it) == it.kind.usual_width()
    {
        set_width(it, width);
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
    fn another_kind_brings_what_is_usual_for_it_but_never_overrides_the_users() {
        for from in ObstructionKind::ALL {
            for to in ObstructionKind::ALL {
                let mut untouched = of_kind(from);
                take_kind(&mut untouched, to);
                assert_eq!(untouched, of_kind(to), "from {from:?}");
            }
        }
        let mut typed = of_kind(ObstructionKind::Racking);
        typed.top = Length::metres(6.2);
        take_kind(&mut typed, ObstructionKind::StoredGoods);
        assert_eq!(typed.top, Length::metres(6.2));
    }
}
