//! Fields of a work spot.

use crate::editor::widgets::Form;
use crate::site::WorkSpot;
use eframe::egui::Ui;

/// The fields of work spots.
pub(in crate::editor::panels) fn work_spot_fields_ui(ui: &mut Ui, form: &mut Form<'_, WorkSpot>) {
    form.text(
        ui,
        "Name",
        "who works here",
        |it| it.name.clone(),
        |it, name| it.name = name,
    );
    form.quantity(
        ui,
        "Height",
        |it| it.height,
        |it, height| it.height = height,
    );
    let system = form.system();
    form.entry(
        ui,
        "Activity",
        form.common(|it| it.activity_met)
            .map(|met| show(met, system)),
        "met",
        "",
        |text| parse(text, "met", system),
        |it, met| it.activity_met = met,
    );
    form.entry(
        ui,
        "Clothing",
        form.common(|it| it.clothing_clo)
            .map(|clo| show(clo, system)),
        "clo",
        "",
        |text| parse(text, "clo", system),
        |it, clo| it.clothing_clo = clo,
    );
}

use crate::units::{Quantity, UnitSystem};

fn show(figure: f64, system: UnitSystem) -> String {
    figure.show(system)
}

fn parse(text: &str, unit: &str, system: UnitSystem) -> Result<f64, String> {
    let text = text.trim();
    f64::parse(text.strip_suffix(unit).unwrap_or(text), system).map_err(|error| error.to_string())
}
