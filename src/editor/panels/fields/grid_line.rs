//! Fields of a grid line.

use crate::editor::widgets::Form;
use crate::geometry::DVec2;
use crate::site::GridLine;
use crate::units::Length;
use eframe::egui::Ui;

/// One end of a line.
type End = (
    &'static str,
    fn(&mut GridLine) -> &mut DVec2,
    fn(&GridLine) -> DVec2,
);

/// The fields of grid lines: both ends, eastward and northward of the origin.
pub(in crate::editor::panels) fn grid_line_fields_ui(ui: &mut Ui, form: &mut Form<'_, GridLine>) {
    let ends: [End; 2] = [
        ("Bubble", |line| &mut line.from, |line| line.from),
        ("End", |line| &mut line.to, |line| line.to),
    ];
    for (label, write, read) in ends {
        form.quantity(
            ui,
            &format!("{label}, east"),
            |line| Length::metres(read(line).x),
            |line, east| write(line).x = east.as_metres(),
        );
        form.quantity(
            ui,
            &format!("{label}, north"),
            |line| Length::metres(read(line).y),
            |line, north| write(line).y = north.as_metres(),
        );
    }
}
