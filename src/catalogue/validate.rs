//! The door of the catalogue: a family's figures are checked here, once; those of the
//! hardware beside it.

use super::Catalogue;
use super::family::{
    Family, FamilyShape, Figures, HangerEyes, HangingFigures, HeaterSize, KeepClearBand,
    MountingHeights, Reflector, ShieldSet,
};
pub use super::validate_hardware::check_hardware;
use super::validate_hardware::check_table;
use crate::geometry::tolerance::SAME_POINT;
use crate::problem::{Bounds, Check, Problems};
use crate::units::Length;
use std::collections::BTreeSet;

/// Most families of one file.
const MOST_FAMILIES: usize = 500;
/// Most sizes, points of a profile, keep-clear bands and suspension entries.
pub(super) const MOST_ENTRIES: usize = 500;
/// Longest name, in bytes.
pub(super) const NAME_BYTES: usize = 400;
/// Longest id, in bytes.
pub(super) const ID_BYTES: usize = 40;

/// Sizes of parts: a tenth of a millimetre to a bus.
const PART: Bounds = Bounds::metres(0.0001, 20.0);
/// Distances that may be nothing.
const DISTANCE: Bounds = Bounds::metres(0.0, 20.0);
/// Lengths of tube.
const TUBE: Bounds = Bounds::metres(0.5, 100.0);
/// Two eyes of a hanger: farther apart than a finger, no wider than the widest heater.
const EYES_APART: Bounds = Bounds::metres(0.02, 2.0);
/// Masses of parts.
const MASS: Bounds = Bounds::new(0.0, 1_000.0, "kg");
/// Masses per length.
const LINEAR: Bounds = Bounds::new(0.0, 100.0, "kg/m");
/// Fractions that may not be nothing.
const FRACTION: Bounds = Bounds::plain(0.01, 1.0);
/// Gas pressures at the inlet.
const PRESSURE: Bounds = Bounds::new(0.0, 100_000.0, "Pa");

impl Catalogue {
    /// Whether all families can be used.
    ///
    /// # Errors
    /// Every problem that was met, the first twenty of them in words.
    pub fn validate(&self) -> Result<(), Problems> {
        let mut problems = Problems::default();
        for (i, family) in self.families().iter().enumerate() {
            check_family(family, i, &mut problems);
        }
        check_table(&self.hardware, &mut problems);
        problems.into_result()
    }
}

/// Whether the families of one file can be used: each by itself, and their ids unique.
///
/// # Errors
/// Every problem that was met, the first twenty of them in words.
pub fn check_families(families: &[Family]) -> Result<(), Problems> {
    let mut problems = Problems::default();
    Check::new(&mut problems, "").count("families", families.len(), 1, MOST_FAMILIES);
    let mut seen = BTreeSet::new();
    for (i, family) in families.iter().enumerate() {
        if !seen.insert(&family.id) {
            let mut check = Check::of(&mut problems, format_args!("families[{i}]"), &family.id);
            let found = format_args!("{:?} again", family.id);
            check.refuse("id", found, "an id that no other family of the file has");
        }
        check_family(family, i, &mut problems);
    }
    problems.into_result()
}

fn check_family(family: &Family, i: usize, problems: &mut Problems) {
    let mut check = Check::of(problems, format_args!("families[{i}]"), &family.id);
    let check = &mut check;
    check.given("id", &family.id, ID_BYTES);
    check.given("name", &family.name, NAME_BYTES);
    check.given("source.document", &family.source.document, NAME_BYTES);
    check.text("source.revision", &family.source.revision, NAME_BYTES);
    check.text("source.date", &family.source.date, NAME_BYTES);
    check_tube(family, check);
    check_sizes(&family.sizes, check);
    check_reflector(&family.reflector, check);
    check_ends(family, check);
    check_hanging(&family.hanging, family.joint_spacing, check);
    check.count("keep_clear", family.keep_clear.len(), 1, MOST_ENTRIES);
    check_keep_clear("", &family.keep_clear, check);
    check_mounting("mounting", family.mounting, check);
    check_figures(&family.figures, check);
}

fn check_tube(family: &Family, check: &mut Check<'_>) {
    let diameter = family.tube_diameter.as_metres();
    check.number("tube_diameter", diameter, Bounds::metres(0.01, 1.0));
    // A wall of more than the radius leaves no tube.
    let wall = Bounds::metres(0.0001, diameter.clamp(0.0002, 1.0) / 2.0);
    check.number("tube_wall", family.tube_wall.as_metres(), wall);
    check.number("joint_spacing", family.joint_spacing.as_metres(), TUBE);
    let mass = family.tube_mass.as_kilograms_per_metre();
    check.number("tube_mass", mass, Bounds::new(0.01, 100.0, "kg/m"));
    if let FamilyShape::Hairpin {
        leg_spacing,
        bend_length,
        bend_mass,
    } = family.shape
    {
        let legs = Bounds::metres(diameter.clamp(0.0, 1.0), 5.0);
        check.number("shape.leg_spacing", leg_spacing.as_metres(), legs);
        check.number("shape.bend_length", bend_length.as_metres(), DISTANCE);
        check.number("shape.bend_mass", bend_mass.as_kilograms(), MASS);
    }
}

fn check_sizes(sizes: &[HeaterSize], check: &mut Check<'_>) {
    check.count("sizes", sizes.len(), 1, MOST_ENTRIES);
    let mut seen = BTreeSet::new();
    for (i, size) in sizes.iter().enumerate() {
        let id = format_args!("sizes[{i}].id");
        check.given(id, &size.id, ID_BYTES);
        if !seen.insert(&size.id) {
            let found = format_args!("{:?} again", size.id);
            check.refuse(id, found, "an id that no other size of the family has");
        }
        let input = Bounds::new(500.0, 1e6, "W");
        let field = format_args!("sizes[{i}].input_net");
        check.number(field, size.input_net.as_watts(), input);
        let field = format_args!("sizes[{i}].tube_length");
        check.number(field, size.tube_length.as_metres(), TUBE);
        let field = format_args!("sizes[{i}].burner_mass");
        check.number(field, size.burner_mass.as_kilograms(), MASS);
        let of_size = format!("sizes[{i}].");
        let n_bands = size.keep_clear.len();
        check.count(
            format_args!("{of_size}keep_clear"),
            n_bands,
            0,
            MOST_ENTRIES,
        );
        check_keep_clear(&of_size, &size.keep_clear, check);
        if let Some(mounting) = size.mounting {
            check_mounting(&format!("{of_size}mounting"), mounting, check);
        }
    }
}

fn check_reflector(reflector: &Reflector, check: &mut Check<'_>) {
    let profile = &reflector.profile;
    check.count("reflector.profile", profile.len(), 2, MOST_ENTRIES);
    let bounds = Bounds::metres(-5.0, 5.0);
    for (i, point) in profile.iter().enumerate() {
        let field = format_args!("reflector.profile[{i}]");
        check.number(format_args!("{field}.x"), point.x, bounds);
        check.number(format_args!("{field}.y"), point.y, bounds);
        if 0 < i && profile[i - 1].distance(*point) <= SAME_POINT {
            let accepted = "a point apart from the one before it";
            check.refuse(field, "the same place again", accepted);
        }
    }
    let mass = reflector.mass.as_kilograms_per_metre();
    check.number("reflector.mass", mass, LINEAR);
    let reflectance = Bounds::plain(0.0, 1.0);
    check.number("reflector.reflectance", reflector.reflectance, reflectance);
}

fn check_ends(family: &Family, check: &mut Check<'_>) {
    let hardware = family.hardware_mass.as_kilograms_per_metre();
    check.number("hardware_mass", hardware, LINEAR);
    let burner = &family.burner;
    let exhaust = &family.exhaust;
    let lengths = [
        ("burner.length", burner.length, PART),
        ("burner.width", burner.width, PART),
        ("burner.above_axis", burner.above_axis, DISTANCE),
        ("burner.below_axis", burner.below_axis, DISTANCE),
        (
            "burner.centre_behind_flange",
            burner.centre_behind_flange,
            DISTANCE,
        ),
        ("exhaust.length", exhaust.length, DISTANCE),
        ("exhaust.diameter", exhaust.diameter, DISTANCE),
    ];
    for (field, length, bounds) in lengths {
        check.number(field, length.as_metres(), bounds);
    }
    check.number("exhaust.mass", exhaust.mass.as_kilograms(), MASS);
}

fn check_hanging(hanging: &HangingFigures, joint_spacing: Length, check: &mut Check<'_>) {
    let windows = [
        ("first", hanging.first_least, hanging.first_greatest),
        ("second", hanging.second_least, hanging.second_greatest),
        ("spacing", hanging.spacing_least, hanging.spacing_greatest),
    ];
    for (name, least, greatest) in windows {
        let field = format_args!("hanging.{name}");
        check_window(field, least, greatest, check);
    }
    // The solver steps from hanger to hanger: steps of nothing would never arrive.
    let step = Bounds::metres(0.05, 20.0);
    check.number(
        "hanging.second_least",
        hanging.second_least.as_metres(),
        step,
    );
    check.number(
        "hanging.spacing_least",
        hanging.spacing_least.as_metres(),
        step,
    );
    let overhang = hanging.overhang_greatest.as_metres();
    check.number("hanging.overhang_greatest", overhang, DISTANCE);
    // At half the spacing there would be no place left between two joints.
    let half = joint_spacing.as_metres().clamp(0.0, 100.0) / 2.0;
    let keep_off = hanging.joint_keep_off.as_metres();
    check.number(
        "hanging.joint_keep_off",
        keep_off,
        Bounds::metres(0.0, half),
    );
    check.number("hanging.slope", hanging.slope, Bounds::plain(-0.1, 0.1));
    let eye = Bounds::metres(-2.0, 2.0);
    check.number("hanging.eye_rise", hanging.eye_rise.as_metres(), eye);
    let angle = Bounds::degrees(0.1, 45.0);
    let (swing, lean) = (hanging.swing_greatest, hanging.lean_greatest);
    check.number("hanging.swing_greatest", swing.as_degrees(), angle);
    check.number("hanging.lean_greatest", lean.as_degrees(), angle);
    if let HangerEyes::Two { apart } = hanging.eyes {
        check.number("hanging.eyes.apart", apart.as_metres(), EYES_APART);
    }
    let entries = &hanging.least_suspension;
    check.count("hanging.least_suspension", entries.len(), 1, MOST_ENTRIES);
    let mut before = 0.0;
    for (i, entry) in entries.iter().enumerate() {
        let up_to = entry.tube_up_to.as_metres();
        let field = format_args!("hanging.least_suspension[{i}].tube_up_to");
        check.number(field, up_to, Bounds::metres(0.0, 1_000.0));
        if up_to <= before {
            let accepted = format_args!("more than the one before it, {before} m");
            check.refuse(field, format_args!("{up_to} m"), accepted);
        }
        before = up_to;
        let field = format_args!("hanging.least_suspension[{i}].suspension");
        check.number(field, entry.suspension.as_metres(), DISTANCE);
    }
}

fn check_window(
    name: impl std::fmt::Display,
    least: Length,
    greatest: Length,
    check: &mut Check<'_>,
) {
    check.number(format_args!("{name}_least"), least.as_metres(), DISTANCE);
    check.number(
        format_args!("{name}_greatest"),
        greatest.as_metres(),
        DISTANCE,
    );
    if greatest < least {
        let accepted = format_args!("no less than the least, {} m", least.as_metres());
        let found = format_args!("{} m", greatest.as_metres());
        check.refuse(format_args!("{name}_greatest"), found, accepted);
    }
}

fn check_mounting(name: &str, heights: MountingHeights, check: &mut Check<'_>) {
    let MountingHeights { least, greatest } = heights;
    let bounds = Bounds::metres(0.0, 200.0);
    check.number(format_args!("{name}.least"), least.as_metres(), bounds);
    check.number(
        format_args!("{name}.greatest"),
        greatest.as_metres(),
        bounds,
    );
    if greatest < least {
        let accepted = format_args!("no less than the least, {} m", least.as_metres());
        let found = format_args!("{} m", greatest.as_metres());
        check.refuse(format_args!("{name}.greatest"), found, accepted);
    }
}

/// The bands of each set of shields follow on each other: where two overlapped, two
/// figures would hold at once; where there was a gap, none would. `of` says whose table it
/// is: the family's, or `sizes[2].`.
fn check_keep_clear(of: &str, bands: &[KeepClearBand], check: &mut Check<'_>) {
    let tilt = Bounds::degrees(0.0, 90.0);
    for (i, band) in bands.iter().enumerate() {
        let (from, to) = (band.tilt_from.as_degrees(), band.tilt_to.as_degrees());
        check.number(format_args!("{of}keep_clear[{i}].tilt_from"), from, tilt);
        check.number(format_args!("{of}keep_clear[{i}].tilt_to"), to, tilt);
        if to < from {
            let accepted = format_args!("no less than tilt_from, {from} degrees");
            let found = format_args!("{to} degrees");
            check.refuse(format_args!("{of}keep_clear[{i}].tilt_to"), found, accepted);
        }
        let figures = &band.distances;
        let distances = [
            ("above", figures.above),
            ("below", figures.below),
            ("front", figures.front),
            ("rear", figures.rear),
            ("burner_end", figures.burner_end),
            ("exhaust_end", figures.exhaust_end),
        ];
        for (name, distance) in distances {
            let field = format_args!("{of}keep_clear[{i}].distances.{name}");
            check.number(field, distance.as_metres(), DISTANCE);
        }
    }
    for shields in [
        ShieldSet::None,
        ShieldSet::Front,
        ShieldSet::Rear,
        ShieldSet::Both,
    ] {
        let of_set = bands.iter().enumerate();
        let mut of_set: Vec<(usize, &KeepClearBand)> =
            of_set.filter(|(_, band)| band.shields == shields).collect();
        let start = |band: &KeepClearBand| band.tilt_from.as_degrees();
        of_set.sort_by(|(_, a), (_, b)| start(a).total_cmp(&start(b)));
        for pair in of_set.windows(2) {
            let (end, (i, next)) = (pair[0].1.tilt_to.as_degrees(), pair[1]);
            if start(next) != end {
                let what = if start(next) < end {
                    "an overlap"
                } else {
                    "a gap"
                };
                let found = format_args!("{} degrees, {what}", start(next));
                let accepted =
                    format_args!("{end} degrees, where the band before it with {shields:?} ends");
                check.refuse(
                    format_args!("{of}keep_clear[{i}].tilt_from"),
                    found,
                    accepted,
                );
            }
        }
    }
}

fn check_figures(figures: &Figures, check: &mut Check<'_>) {
    let at = |field: &'static str| format!("figures.{field}");
    check.number(at("tube_emissivity"), figures.tube_emissivity, FRACTION);
    let efficiency = figures.thermal_efficiency;
    check.number(at("thermal_efficiency"), efficiency, FRACTION);
    check.number(at("radiant_factor"), figures.radiant_factor, FRACTION);
    if efficiency < figures.radiant_factor {
        let accepted = format_args!("no more than the thermal efficiency, {efficiency}");
        check.refuse(at("radiant_factor"), figures.radiant_factor, accepted);
    }
    check.number(at("air_ratio"), figures.air_ratio, Bounds::plain(1.0, 5.0));
    let (least, greatest) = (figures.inlet_least, figures.inlet_greatest);
    check.number(at("inlet_least"), least.as_pascals(), PRESSURE);
    check.number(at("inlet_greatest"), greatest.as_pascals(), PRESSURE);
    if greatest < least {
        let accepted = format_args!("no less than the least, {} Pa", least.as_pascals());
        let found = format_args!("{} Pa", greatest.as_pascals());
        check.refuse(at("inlet_greatest"), found, accepted);
    }
    let diameter = figures.exhaust_diameter.as_metres();
    check.number(at("exhaust_diameter"), diameter, Bounds::metres(0.01, 2.0));
    check.number(
        at("current_a"),
        figures.current_a,
        Bounds::new(0.0, 1_000.0, "A"),
    );
    check.number(
        at("voltage_v"),
        figures.voltage_v,
        Bounds::new(1.0, 1_000.0, "V"),
    );
    let derating = figures.derating_per_300_m;
    check.number(at("derating_per_300_m"), derating, Bounds::plain(0.0, 1.0));
}
