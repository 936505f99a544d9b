//! What the inspector says while nothing is picked: what the site amounts to.

use crate::editor::Editor;
use crate::editor::figures::brief_with_unit;
use crate::editor::theme::STEP;
use crate::editor::widgets::{hint_ui, panel_title_ui, said_row_ui};
use crate::units::{Length, Power};
use eframe::egui::Ui;

/// What the site amounts to.
pub(super) fn site_facts_ui(ui: &mut Ui, editor: &Editor) {
    let site = editor.site();
    let scheme = site.scheme();
    panel_title_ui(ui, "Site", &super::schemes::title(&scheme));
    ui.add_space(STEP);
    let sizes = || {
        scheme
            .runs
            .iter()
            .filter_map(|run| editor.catalogue.size(&run.family, &run.size))
    };
    let input: Power = sizes().map(|(_, size)| size.input_net).sum();
    let tube: Length = sizes().map(|(_, size)| size.tube_length).sum();
    let facts = [
        ("Runs", scheme.runs.len().to_string()),
        ("Installed input", brief_with_unit(site.units, input)),
        ("Tube", brief_with_unit(site.units, tube)),
        ("Framings", site.framings.len().to_string()),
        ("In the way", site.obstructions.len().to_string()),
    ];
    for (label, said) in facts {
        said_row_ui(ui, label, &said);
    }
    hint_ui(
        ui,
        "Click something on the plan or in a list to see and edit it.",
    );
}
