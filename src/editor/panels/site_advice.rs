//! What small shifts of all runs together would save.

use crate::editor::Editor;
use crate::editor::intent::Intent;
use crate::editor::theme::STEP;
use crate::editor::widgets::{
    Entry, Shown, hint_ui, main_button_ui, plain_button_ui, row_ui, section_ui,
};
use crate::findings::Phrase;
use crate::hanging::{Kind, Status};
use crate::units::{Length, Quantity};
use eframe::egui::Ui;

/// The saving, where there may be one.
pub(super) fn site_advice_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    if !is_wanted(editor) {
        return;
    }
    section_ui(ui, "Save cross channels", "");
    let units = editor.site().units;
    let advice = &editor.site_advice;
    let shown = advice.at_most.show(units);
    let taken = row_ui(ui, "Shift at most", |ui| {
        Entry::new("Shift each run at most", Shown::One(&shown))
            .suffix(match Length::unit_label(units) {
                "m" => "m",
                _ => "",
            })
            .show(ui, |text| {
                let length = Length::parse(text, units).map_err(|error| error.to_string())?;
                let is_sane = (0.0..=5.0).contains(&length.as_metres());
                is_sane
                    .then_some(length)
                    .ok_or_else(|| "up to 5 m can be sought".to_owned())
            })
    });
    if let Some(at_most) = taken {
        intents.push(Intent::SeekSiteShift(at_most));
    }
    if advice.is_seeking() {
        hint_ui(ui, "Looking for places that need fewer channels");
        return;
    }
    let Some(found) = advice.of(editor.committed_arc()) else {
        let look = plain_button_ui(ui, "Look for shifts");
        let does = "Try small shifts of every run, each proven on the whole site";
        if look.on_hover_text(does).clicked() {
            intents.push(Intent::SeekSiteShift(advice.at_most));
        }
        return;
    };
    let text: String = found
        .words
        .iter()
        .map(|it: &Phrase| it.shown_in(units))
        .collect();
    hint_ui(ui, &text);
    ui.add_space(STEP);
    if !found.moved.is_empty() {
        let count = found.moved.len();
        let label = match count {
            1 => "Shift 1 run".to_owned(),
            _ => format!("Shift {count} runs"),
        };
        if main_button_ui(ui, &label).clicked() {
            intents.push(Intent::TakeSiteShift);
        }
    }
}

/// Whether any run hangs from a channel or off a panel point, or can't be hung.
fn is_wanted(editor: &Editor) -> bool {
    editor.study().is_some_and(|study| {
        study.runs.iter().any(|run| {
            let hangers = &run.hanging.hangers;
            run.hanging.status == Status::Impossible
                || hangers
                    .iter()
                    .any(|it| matches!(it.at.kind, Kind::Channel | Kind::OffPanel))
        })
    })
}
