//! The part of the Sheets stage that writes the plan set.

use super::frame::MARGIN;
use crate::editor::Editor;
use crate::editor::chooser::Purpose;
use crate::editor::intent::Intent;
use crate::editor::set_writer::Order;
use crate::editor::theme::STEP;
use crate::editor::widgets::{
    Entry, Shown, hint_ui, main_button_ui, plain_button_ui, row_ui, section_ui, text_ui, tick_ui,
};
use crate::sheets::files::Format;
use crate::sheets::metadata::IssueDate;
use eframe::egui::Ui;

/// Folder, date, formats, and the button.
pub(super) fn write_set_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let writer = &editor.set_writer;
    let mut order = writer.order.clone();
    section_ui(ui, "Plan set", "");
    row_ui(ui, "Into folder", |ui| {
        if let Some(folder) = text_ui(ui, "Into folder", Shown::One(&writer.order.folder), "path") {
            order.folder = folder;
        }
    });
    if plain_button_ui(ui, "Choose a folder…").clicked() {
        intents.push(Intent::Browse(Purpose::SheetFolder));
    }
    row_ui(ui, "Date of issue", |ui| {
        let taken = Entry::new("Date of issue", Shown::One(&writer.order.date))
            .hint("not dated")
            .show(ui, |text| {
                let text = text.trim();
                if !text.is_empty() {
                    text.parse::<IssueDate>()
                        .map_err(|error| error.to_string())?;
                }
                Ok(text.to_owned())
            });
        if let Some(date) = taken {
            order.date = date;
        }
    });
    ui.horizontal_wrapped(|ui| {
        for format in Format::ALL {
            let is_ticked = order.formats.contains(&format);
            match tick_ui(ui, format.label(), is_ticked) {
                Some(true) => {
                    order.formats.insert(format);
                }
                Some(false) => {
                    order.formats.remove(&format);
                }
                None => {}
            }
        }
    });
    take(order, &writer.order, intents);
    ui.add_space(STEP * 2.0);
    ui.add_enabled_ui(!writer.is_at_work(), |ui| {
        let label = if writer.is_at_work() {
            "Being written…"
        } else {
            "Write the plan set"
        };
        if main_button_ui(ui, label).clicked() {
            intents.push(Intent::WriteSet);
        }
    });
    hint_ui(ui, "All files of the set are written, or none.");
    ui.add_space(MARGIN);
}

fn take(order: Order, known: &Order, intents: &mut Vec<Intent>) {
    if order != *known {
        intents.push(Intent::OrderSet(order));
    }
}
