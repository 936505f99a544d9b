//! The panel of the open stage: its tools, its form, its objects.

use super::frame::{Edge, scrolled_ui};
use super::{obstructions, runs, sheets, shell, steel};
use crate::editor::command::Command;
use crate::editor::icons::Icon;
use crate::editor::intent::Intent;
use crate::editor::theme::STEP;
use crate::editor::tools::ToolKind;
use crate::editor::widgets::{hint_ui, panel_title_ui, tool_row_ui};
use crate::editor::{Editor, Stage};
use eframe::egui::{Ui, vec2};

/// The panel of the open stage.
pub(in crate::editor) fn stage_panel_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let stage = editor.stage;
    scrolled_ui(ui, stage.label(), Edge::Right, |ui| {
        panel_title_ui(ui, stage.label(), &count(editor, stage));
        ui.add_space(STEP);
        if stage != Stage::Sheets {
            tools_ui(ui, editor, intents);
        }
        match stage {
            Stage::Shell => shell::shell_ui(ui, editor, intents),
            Stage::Steel => steel::steel_ui(ui, editor, intents),
            Stage::Obstructions => obstructions::obstructions_ui(ui, editor, intents),
            Stage::Runs => runs::runs_ui(ui, editor, intents),
            Stage::Sheets => sheets::sheets_ui(ui, editor, intents),
        }
    });
}

/// How many objects of the stage there are.
fn count(editor: &Editor, stage: Stage) -> String {
    let site = editor.site();
    let counted = |count: usize, one: &str| match count {
        1 => format!("1 {one}"),
        _ => format!("{count} {one}s"),
    };
    match stage {
        Stage::Shell => counted(site.bays.len(), "bay"),
        Stage::Steel => counted(site.framings.len(), "framing"),
        Stage::Obstructions => counted(site.obstructions.len(), "object"),
        Stage::Runs => format!("{} placed", site.scheme().runs.len()),
        Stage::Sheets => String::new(),
    }
}

/// The tools: picking, and those that the stage brings.
fn tools_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        for tool in std::iter::once(&ToolKind::Pick).chain(editor.stage.tools()) {
            let command = Command::Take(*tool);
            let response = tool_row_ui(
                ui,
                icon_of(*tool),
                tool.label(),
                tool.explanation(),
                &super::menus::key_of(ui, command),
                (editor.tool == *tool).into(),
            );
            if response.clicked() {
                intents.push(Intent::Command(command));
            }
        }
    });
    // Always as high as two lines, so that taking another tool moves nothing.
    ui.add_space(STEP);
    let size = vec2(ui.available_width(), 8.0 * STEP);
    ui.allocate_ui(size, |ui| {
        ui.set_min_size(size);
        hint_ui(ui, editor.tool.explanation());
    });
}

const fn icon_of(tool: ToolKind) -> Icon {
    match tool {
        ToolKind::Pick => Icon::Select,
        ToolKind::Bay => Icon::DrawBay,
        ToolKind::GridLine => Icon::GridLine,
        ToolKind::Opening => Icon::Opening,
        ToolKind::Framing => Icon::Framing,
        ToolKind::Obstruction => Icon::Box,
        ToolKind::WorkSpot => Icon::WorkSpot,
        ToolKind::Run => Icon::PlaceRun,
        ToolKind::SectionLine => Icon::SectionLine,
    }
}
