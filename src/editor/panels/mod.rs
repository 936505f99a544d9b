//! The panels round the plan. Each reads the editor and pushes intents.

mod advice;
mod as_built;
mod ask;
mod aspects;
mod dialogs;
mod fields;
mod findings;
mod frame;
mod hanging;
mod inspector;
mod list;
mod menus;
mod obstructions;
mod picked;
mod rooms;
mod runs;
mod schemes;
mod section_list;
mod sheets;
mod shell;
mod site_advice;
mod site_facts;
mod spacings;
mod stage_panel;
mod stage_rail;
mod status;
mod status_line;
mod steel;
mod top_bar;
mod ways_out;
mod welcome;
mod write_set;

pub(super) use aspects::aspects_ui;
pub(super) use dialogs::dialogs_ui;
pub(super) use inspector::inspector_ui;
pub(super) use stage_panel::stage_panel_ui;
pub(super) use stage_rail::stage_rail_ui;
pub(super) use status_line::status_line_ui;
pub(super) use top_bar::top_bar_ui;
pub(super) use welcome::welcome_ui;

use crate::site::Site;
use crate::site::grid::families;

/// The grid in a word: `1–7, A–D`.
fn grid_summary(site: &Site) -> String {
    let ranges: Vec<String> = families(&site.grid)
        .iter()
        .filter_map(|family| match (family.first(), family.last()) {
            (Some(only), Some(last)) if only.id == last.id => Some(only.id.to_string()),
            (Some(first), Some(last)) => Some(format!("{}–{}", first.id, last.id)),
            _ => None,
        })
        .collect();
    ranges.join(", ")
}
