//! Fields of a run.

use super::place_fields_ui;
use crate::catalogue::{Catalogue, Family, FamilyShape, HeaterSize, SuspensionKind};
use crate::editor::figures::brief_with_unit;
use crate::editor::widgets::{Form, Tone, hint_ui, message_ui};
use crate::site::{Exhaust, GridLine, Run, RunShape, Shields, Side};
use crate::units::{Angle, UnitSystem};
use eframe::egui::Ui;
use std::sync::Arc;

const SHIELDS: [(Shields, &str); 4] = [
    (Shields::None, "none"),
    (Shields::Left, "left"),
    (Shields::Right, "right"),
    (Shields::Both, "both"),
];

const EXHAUSTS: [(Exhaust, &str); 2] = [
    (Exhaust::Vented, "outside"),
    (Exhaust::Unvented, "into the hall"),
];

/// The fields of runs that hold wherever they hang.
pub(in crate::editor::panels) fn run_fields_ui(
    ui: &mut Ui,
    form: &mut Form<'_, Run>,
    catalogue: &Catalogue,
) {
    heater_fields_ui(ui, form, catalogue);
    form.quantity(
        ui,
        "Tube height",
        |run| run.tube_height,
        |run, height| run.tube_height = height,
    );
    let heights = form.common(|run| {
        let known = catalogue.size(&run.family, &run.size);
        known.map(|(family, size)| family.mounting_of(size))
    });
    if let Some(heights) = heights.flatten() {
        let system = form.system();
        hint_ui(
            ui,
            &format!(
                "Lowest part {} to {} above the floor",
                brief_with_unit(system, heights.least),
                brief_with_unit(system, heights.greatest)
            ),
        );
    }
    form.quantity(ui, "Tilt", |run| run.tilt, |run, tilt| run.tilt = tilt);
    if let Some(aim) = form.common(aim).flatten() {
        hint_ui(ui, &aim);
    }
    form.segments(
        ui,
        "Side shields",
        &SHIELDS,
        |run| run.shields,
        |run, shields| run.shields = shields,
    );
    form.segments(
        ui,
        "Exhaust goes",
        &EXHAUSTS,
        |run| run.exhaust,
        |run, exhaust| run.exhaust = exhaust,
    );
    form.text(
        ui,
        "Zone",
        "no zone",
        |run| run.zone.clone(),
        |run, zone| run.zone = zone,
    );
}

/// Where runs are and which way they point: fields of those that are placed.
pub(in crate::editor::panels) fn run_place_ui(
    ui: &mut Ui,
    form: &mut Form<'_, Run>,
    grid: &[Arc<GridLine>],
    first: &Run,
) {
    place_fields_ui(
        ui,
        form,
        grid,
        first.burner,
        |run| run.burner,
        |run, to| run.burner = to,
    );
    form.quantity(
        ui,
        "Bearing",
        |run| run.bearing,
        |run, bearing| run.bearing = bearing,
    );
}

/// Which hanger stays put while the tube grows.
pub(in crate::editor::panels) fn fixed_hanger_ui(ui: &mut Ui, form: &mut Form<'_, Run>) {
    form.optional(
        ui,
        "Fixed hanger",
        "hanger 1",
        |run| {
            run.fixed_hanger
                .and_then(|number| u32::try_from(number).ok())
        },
        |run, number: Option<u32>| {
            run.fixed_hanger = number.and_then(|number| usize::try_from(number).ok());
        },
    );
}

/// What the suspensions are made of: of the site's kind, or of one of their own.
pub(in crate::editor::panels) fn suspension_ui(
    ui: &mut Ui,
    form: &mut Form<'_, Run>,
    of_site: SuspensionKind,
) {
    let own = SuspensionKind::ALL.map(|kind| (Some(kind), kind.label().to_owned()));
    let mut options = vec![(None, format!("as the site: {of_site}"))];
    options.extend(own);
    form.choice(
        ui,
        "Suspension",
        &options,
        |run| run.suspension,
        |run, kind| run.suspension = kind,
    );
}

/// Says that figures are not certified, where they are not.
pub(in crate::editor::panels) fn uncertified_ui(
    ui: &mut Ui,
    form: &Form<'_, Run>,
    catalogue: &Catalogue,
) {
    let is_uncertified = |run: &Run| {
        catalogue
            .family(&run.family)
            .is_some_and(|family| !family.source.certified)
    };
    if form.common(is_uncertified) != Some(false) {
        message_ui(
            ui,
            Tone::Caution,
            "Uncertified example figures. Enter those of the certified manual before anything is built.",
        );
    }
}

fn heater_fields_ui(ui: &mut Ui, form: &mut Form<'_, Run>, catalogue: &Catalogue) {
    let families: Vec<(String, String)> = catalogue
        .families()
        .iter()
        .map(|family| (family.id.clone(), family.name.clone()))
        .collect();
    form.choice(
        ui,
        "Family",
        &families,
        |run| run.family.clone(),
        |run, id| {
            if let Some(family) = catalogue.family(&id) {
                take_family(run, family);
            }
        },
    );
    let Some(family) = common_family(form, catalogue) else {
        return;
    };
    let system = form.system();
    let sizes: Vec<(String, String)> = family
        .sizes
        .iter()
        .map(|size| (size.id.clone(), size_label(size, system)))
        .collect();
    form.choice(
        ui,
        "Size",
        &sizes,
        |run| run.size.clone(),
        |run, size| run.size = size,
    );
    if let FamilyShape::Hairpin { .. } = family.shape {
        form.segments(
            ui,
            "Return leg",
            &[(Some(Side::Left), "left"), (Some(Side::Right), "right")],
            |run| return_leg(run.shape),
            |run, side| {
                if let Some(return_leg) = side {
                    run.shape = RunShape::Hairpin { return_leg };
                }
            },
        );
    }
}

fn common_family<'c>(form: &Form<'_, Run>, catalogue: &'c Catalogue) -> Option<&'c Arc<Family>> {
    catalogue.family(&form.common(|run| run.family.clone())?)
}

/// A run of another family: that of the same name or the first, and the family's shape.
fn take_family(run: &mut Run, family: &Family) {
    run.family.clone_from(&family.id);
    if !family.sizes.iter().any(|size| size.id == run.size) {
        run.size = family
            .sizes
            .first()
            .map_or_else(String::new, |size| size.id.clone());
    }
    run.shape = match (family.shape, run.shape) {
        (FamilyShape::Straight, _) => RunShape::Straight,
        (FamilyShape::Hairpin { .. }, RunShape::Straight) => RunShape::Hairpin {
            return_leg: Side::Left,
        },
        (FamilyShape::Hairpin { .. }, known) => known,
    };
}

fn return_leg(shape: RunShape) -> Option<Side> {
    match shape {
        RunShape::Straight => None,
        RunShape::Hairpin { return_leg } => Some(return_leg),
    }
}

/// A size as people tell sizes apart: by input and tube.
pub(in crate::editor::panels) fn size_label(size: &HeaterSize, system: UnitSystem) -> String {
    format!(
        "{} · {}",
        brief_with_unit(system, size.input_net),
        brief_with_unit(system, size.tube_length)
    )
}

/// Which way a tilted reflector faces, as seen in the hall.
fn aim(run: &Run) -> Option<String> {
    const POINTS: [&str; 8] = [
        "north",
        "north-east",
        "east",
        "south-east",
        "south",
        "south-west",
        "west",
        "north-west",
    ];
    let tilt = run.tilt.as_degrees();
    if tilt.abs() < 0.05 {
        return None;
    }
    let (side, turn) = if tilt > 0.0 {
        ("left", -90.0)
    } else {
        ("right", 90.0)
    };
    let facing = (run.bearing + Angle::degrees(turn)).as_degrees();
    let eighth = (facing / 45.0).round().rem_euclid(8.0);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between 0 and 8"
    )]
    let point = POINTS.get(eighth as usize).copied().unwrap_or(POINTS[0]);
    Some(format!("Aims {side}, which is {point}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::DVec2;
    use crate::site::Hanging;
    use crate::units::Length;

    fn check(bearing: f64, tilt: f64, expected: Option<&str>) {
        let run = Run {
            id: "R1".into(),
            family: String::new(),
            size: String::new(),
            burner: DVec2::ZERO,
            tube_height: Length::metres(5.0),
            bearing: Angle::degrees(bearing),
            shape: RunShape::Straight,
            tilt: Angle::degrees(tilt),
            shields: Shields::None,
            hanging: Hanging::Solved,
            fixed_hanger: None,
            suspension: None,
            exhaust: Default::default(),
            zone: String::new(),
            notes: String::new(),
        };
        assert_eq!(aim(&run).as_deref(), expected);
    }

    #[test]
    fn a_tilted_reflector_says_where_it_faces() {
        check(90.0, 0.0, None);
        check(90.0, 15.0, Some("Aims left, which is north"));
        check(90.0, -15.0, Some("Aims right, which is south"));
        check(0.0, 15.0, Some("Aims left, which is west"));
        check(359.0, -15.0, Some("Aims right, which is east"));
        check(45.0, 15.0, Some("Aims left, which is north-west"));
    }
}
