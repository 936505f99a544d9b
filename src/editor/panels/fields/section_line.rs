//! Fields of a section line.

use crate::editor::widgets::Form;
use crate::site::{SectionLine, Side};
use eframe::egui::Ui;

/// The fields of section lines: which way they look, and how far.
pub(in crate::editor::panels) fn section_line_fields_ui(
    ui: &mut Ui,
    form: &mut Form<'_, SectionLine>,
) {
    form.choice(
        ui,
        "Looks",
        &[
            (Side::Left, "left of the line".to_owned()),
            (Side::Right, "right of the line".to_owned()),
        ],
        |line| line.looks,
        |line, looks| line.looks = looks,
    );
    form.quantity(
        ui,
        "Depth",
        |line| line.depth,
        |line, depth| line.depth = depth,
    );
}
