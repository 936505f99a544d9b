//! The fields of each kind of object, the same for the next one to be drawn, for a
//! picked one and for many picked at once.

mod bay;
mod framing;
mod grid_line;
mod obstruction;
mod opening;
mod pitch;
mod place;
mod run;
mod section_line;
mod work_spot;

pub(super) use bay::{bay_fields_ui, open_edges_ui};
pub(super) use framing::{framing_fields_ui, framing_place_ui};
pub(super) use grid_line::grid_line_fields_ui;
pub(super) use obstruction::obstruction_fields_ui;
pub(super) use opening::{opening_fields_ui, opening_place_ui};
pub(super) use place::place_fields_ui;
pub(super) use run::{
    fixed_hanger_ui, run_fields_ui, run_place_ui, size_label, suspension_ui, uncertified_ui,
};
pub(super) use section_line::section_line_fields_ui;
pub(super) use work_spot::work_spot_fields_ui;

use crate::site::Combustibility;

/// What stands in the field of a load that nobody has allowed.
const UNKNOWN: &str = "unknown: engineer";

/// The answers to "does it burn?", in words.
const BURNS: [(Combustibility, &str); 3] = [
    (Combustibility::Combustible, "yes"),
    (Combustibility::NonCombustible, "no"),
    (Combustibility::Unknown, "unknown"),
];

/// An object's id with its name, where it has one.
pub(super) fn titled(id: &str, name: &str) -> String {
    if name.is_empty() {
        id.to_owned()
    } else {
        format!("{id} · {name}")
    }
}
