//! What a section says, in words: the same in the window and on the sheet.

use super::Height;
use crate::site::{Obstruction, Site};
use crate::structure::DoorPart;
use crate::study::{Room, Thing};
use crate::units::{Length, Precision, Quantity, Rounding, UnitSystem};

/// Centimetres, or quarters of an inch.
const PRECISION: Precision = Precision {
    decimals: 2,
    inch_parts: 4,
};

fn figure(units: UnitSystem, length: Length, rounding: Rounding) -> String {
    Length::with_unit(length.show_rounded(units, PRECISION, rounding), units)
}

/// A height or a length, to the nearest.
#[must_use]
pub fn length(units: UnitSystem, length_m: f64) -> String {
    figure(units, Length::metres(length_m), Rounding::Nearest)
}

/// The room that there is, rounded down.
#[must_use]
pub fn available(units: UnitSystem, room: &Room) -> String {
    figure(units, Length::metres(room.available_m), Rounding::Down)
}

/// The height under something, rounded down.
#[must_use]
pub fn room_under(units: UnitSystem, height_m: f64) -> String {
    figure(units, Length::metres(height_m), Rounding::Down)
}

/// The room that is required, rounded up.
#[must_use]
pub fn required(units: UnitSystem, room: &Room) -> String {
    figure(units, Length::metres(room.required_m), Rounding::Up)
}

/// How deep the thing is inside the heater, else inside its envelope, rounded up; none
/// where it is outside.
#[must_use]
pub fn inside(units: UnitSystem, room: &Room) -> Option<String> {
    let (depth_m, what) = if 0.0 < room.inside_body_m {
        (room.inside_body_m, "heater")
    } else {
        (room.depth_m, "envelope")
    };
    let depth = figure(units, Length::metres(depth_m), Rounding::Up);
    (0.0 < depth_m).then(|| format!("{depth} inside the {what}"))
}

/// The room that there is against what is required: `0.62 m, needs 0.50 m`. What there is
/// is rounded down, what is needed up.
#[must_use]
pub fn room(units: UnitSystem, room: &Room) -> String {
    let breach = if room.is_breach() { "breach: " } else { "" };
    let (available, required) = (available(units, room), required(units, room));
    format!("{breach}{available}, needs {required}")
}

/// The same with what it is measured to: `0.62 m to rack O3, needs 0.50 m`.
#[must_use]
pub fn room_to(site: &Site, it: &Room) -> String {
    let said = room(site.units, it);
    let to = format!(" to {}, needs", thing(site, &it.thing));
    said.replacen(", needs", &to, 1)
}

/// How high a run hangs: `R3, tube 5.50 m`.
#[must_use]
pub fn height(units: UnitSystem, height: &Height) -> String {
    format!(
        "{}, tube {}",
        height.run,
        figure(units, height.tube, Rounding::Nearest)
    )
}

/// Its lowest part: `5.37 m to the lowest part`, rounded down.
#[must_use]
pub fn lowest(units: UnitSystem, height: &Height) -> String {
    let lowest = Length::metres(height.lowest_m);
    format!("{} lowest part", figure(units, lowest, Rounding::Down))
}

/// What may be stacked below it: `stack no higher than 3.8 m`.
#[must_use]
pub fn stacking(units: UnitSystem, height: &Height) -> String {
    let posted = figure(units, height.stacking, Rounding::Down);
    format!("stack no higher than {posted}")
}

/// What a thing is called: an obstruction by its name or kind with its id, everything
/// else by what it is.
#[must_use]
pub fn thing(site: &Site, thing: &Thing) -> String {
    match thing {
        Thing::Obstruction(id) => site
            .obstructions
            .iter()
            .find(|it| it.id == *id)
            .map_or_else(|| id.to_string(), |it| obstruction(it)),
        Thing::Member(id) => id.as_str().split('/').next().unwrap_or("").to_owned(),
        Thing::Wall(..) => "wall".to_owned(),
        Thing::Deck(_) => "roof deck".to_owned(),
        Thing::Door(id, part) => {
            let known = site.openings.iter().find(|it| it.id == *id);
            let kind = known.map_or("door", |it| it.kind.label());
            match part {
                DoorPart::Open => format!("{kind} {id}, open"),
                DoorPart::Travel => format!("{kind} {id}"),
            }
        }
        Thing::Run(id) => id.to_string(),
    }
}

fn obstruction(it: &Obstruction) -> String {
    if it.name.trim().is_empty() {
        format!("{} {}", it.kind.label(), it.id)
    } else {
        format!("{} {}", it.name, it.id)
    }
}
