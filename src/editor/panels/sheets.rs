//! The Sheets stage: paper, title block, and writing the plan set.

use super::ask::value_form_ui;
use super::frame::MARGIN;
use super::section_list::section_list_ui;
use super::write_set::write_set_ui;
use crate::editor::Editor;
use crate::editor::dialog::Dialog;
use crate::editor::intent::Intent;
use crate::editor::theme::STEP;
use crate::editor::widgets::{Form, hint_ui, section_ui, wide_button_ui};
use crate::site::{Edit, Paper, SheetSettings};
use eframe::egui::Ui;

/// A field of the title block.
type TitleField = (
    &'static str,
    &'static str,
    fn(&SheetSettings) -> &String,
    fn(&mut SheetSettings) -> &mut String,
);

const TITLE_BLOCK: [TitleField; 6] = [
    ("Owner", "legal owner", |it| &it.owner, |it| &mut it.owner),
    (
        "Document no.",
        "number",
        |it| &it.document_number,
        |it| &mut it.document_number,
    ),
    (
        "Revision",
        "letter",
        |it| &it.revision,
        |it| &mut it.revision,
    ),
    ("Made by", "name", |it| &it.made_by, |it| &mut it.made_by),
    (
        "Approved by",
        "name",
        |it| &it.approved_by,
        |it| &mut it.approved_by,
    ),
    ("Status", "draft", |it| &it.status, |it| &mut it.status),
];

/// The Sheets stage.
pub(super) fn sheets_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.site();
    value_form_ui(
        ui,
        editor,
        intents,
        &site.sheets,
        Edit::Sheets,
        |ui, form| {
            section_ui(ui, "Plan", "");
            paper_ui(ui, form);
            section_ui(ui, "Title block", "");
            for (label, hint, read, write) in TITLE_BLOCK {
                form.text(
                    ui,
                    label,
                    hint,
                    |it| read(it).clone(),
                    |it, text| *write(it) = text,
                );
            }
        },
    );
    section_list_ui(ui, editor, intents);
    write_set_ui(ui, editor, intents);
    section_ui(ui, "Numbers", "");
    hint_ui(
        ui,
        "Costs, channel figures and practice distances, each with its default and source.",
    );
    ui.add_space(STEP);
    if wide_button_ui(ui, "Numbers and their sources…").clicked() {
        intents.push(Intent::Ask(Some(Dialog::Policy)));
    }
    ui.add_space(MARGIN);
}

fn paper_ui(ui: &mut Ui, form: &mut Form<'_, SheetSettings>) {
    let papers = Paper::ALL.map(|paper| (paper, paper.label().to_owned()));
    form.choice(
        ui,
        "Paper",
        &papers,
        |it| it.paper,
        |it, paper| it.paper = paper,
    );
    let shown = form
        .common(|it| it.scale)
        .map(|scale| scale.map_or_else(String::new, |scale| format!("1:{scale}")));
    form.entry(
        ui,
        "Scale",
        shown,
        "",
        "to fit the paper",
        scale,
        |it, scale| {
            it.scale = scale;
        },
    );
}

/// `1:100`, `100` and nothing, for a scale that is chosen to fit.
fn scale(text: &str) -> Result<Option<u32>, String> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let figure = text.strip_prefix("1:").unwrap_or(text).trim();
    match figure.parse() {
        Ok(scale) if scale >= 1 => Ok(Some(scale)),
        _ => Err(format!(
            "“{text}” is no scale; enter one such as 1:100, or nothing"
        )),
    }
}
