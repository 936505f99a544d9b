//! The panels round the plan. Each reads the editor and pushes intents.

mod dialogs;
mod inspector;
mod stage_panel;
mod stage_rail;
mod status_line;
mod top_bar;

pub(super) use dialogs::dialogs_ui;
pub(super) use inspector::inspector_ui;
pub(super) use stage_panel::stage_panel_ui;
pub(super) use stage_rail::stage_rail_ui;
pub(super) use status_line::status_line_ui;
pub(super) use top_bar::top_bar_ui;
