//! Questions about turning and repeating what is picked.

use super::{Leave, answers_ui, entered, question_ui, trouble_ui, typed_ui};
use crate::editor::Editor;
use crate::editor::dialog::{Answer, Dialog};
use crate::editor::intent::Intent;
use crate::editor::theme::STEP;
use crate::editor::widgets::{hint_ui, main_button_ui, plain_button_ui, row_ui};
use crate::units::{Angle, Length, Quantity, UnitSystem};
use eframe::egui::{Context, Ui};

const WIDTH: f32 = 80.0 * STEP;

/// Most copies at once: a typing slip must not fill the plan.
const MOST_COPIES: usize = 500;

/// By what angle to turn.
pub(super) fn turn_ui(ctx: &Context, editor: &Editor, intents: &mut Vec<Intent>, angle: &str) {
    let mut typed = angle.to_owned();
    let system = editor.site().units;
    let title = format!("Turn {}", editor.picked_name());
    let read = Angle::parse(&typed, system).map_err(|error| error.to_string());
    let mut is_done = false;
    let left = question_ui(ctx, &title, WIDTH, Leave::Freely, |ui| {
        let field = row_ui(ui, "By degrees", |ui| {
            typed_ui(ui, "By degrees", &mut typed, "clockwise")
        });
        is_done |= entered(ui, &field);
        hint_ui(
            ui,
            "Clockwise, seen from above; negative turns the other way.",
        );
        trouble_ui(ui, read.as_ref().err().map(String::as_str));
        is_done |= answer_ui(ui, intents, "Turn", read.is_ok());
    });
    match read {
        Ok(angle) if is_done => {
            intents.push(Intent::Answer(Answer::TurnBy(angle.as_degrees())));
        }
        _ if left => intents.push(Intent::Ask(None)),
        _ if typed != angle => intents.push(Intent::Ask(Some(Dialog::TurnBy { angle: typed }))),
        _ => {}
    }
}

/// How often, how far and which way to repeat.
pub(super) fn repeat_ui(
    ctx: &Context,
    editor: &Editor,
    intents: &mut Vec<Intent>,
    dialog: &Dialog,
) {
    let Dialog::Repeat {
        count,
        spacing,
        bearing,
    } = dialog
    else {
        return;
    };
    let mut typed = [count.clone(), spacing.clone(), bearing.clone()];
    let read = repetition(&typed, editor.site().units);
    let title = format!("Repeat {} in a row", editor.picked_name());
    let mut is_done = false;
    let left = question_ui(ctx, &title, WIDTH, Leave::Freely, |ui| {
        let names = ["Copies", "Spacing", "Bearing"];
        let hints = ["how many", "from one to the next", "degrees from north"];
        for ((text, name), hint) in typed.iter_mut().zip(names).zip(hints) {
            let field = row_ui(ui, name, |ui| typed_ui(ui, name, text, hint));
            is_done |= entered(ui, &field);
        }
        hint_ui(ui, "Bearing: 0 is plan north, 90 is east.");
        trouble_ui(ui, read.as_ref().err().map(String::as_str));
        is_done |= answer_ui(ui, intents, "Repeat", read.is_ok());
    });
    match read {
        Ok(answer) if is_done => intents.push(Intent::Answer(answer)),
        _ if left => intents.push(Intent::Ask(None)),
        _ => {
            let [count, spacing, bearing] = typed;
            let changed = Dialog::Repeat {
                count,
                spacing,
                bearing,
            };
            if changed != *dialog {
                intents.push(Intent::Ask(Some(changed)));
            }
        }
    }
}

/// The main answer and a way out; whether the main one was given.
fn answer_ui(ui: &mut Ui, intents: &mut Vec<Intent>, main: &str, is_possible: bool) -> bool {
    let mut is_given = false;
    answers_ui(ui, |ui| {
        ui.add_enabled_ui(is_possible, |ui| {
            is_given = main_button_ui(ui, main).clicked();
        });
        if plain_button_ui(ui, "Cancel").clicked() {
            intents.push(Intent::Ask(None));
        }
    });
    is_given
}

fn repetition(typed: &[String; 3], system: UnitSystem) -> Result<Answer, String> {
    let [count, spacing, bearing] = typed;
    let count = match count.trim().parse::<usize>() {
        Ok(count) if (1..=MOST_COPIES).contains(&count) => count,
        _ => {
            return Err(format!(
                "copies: enter a whole number from 1 to {MOST_COPIES}"
            ));
        }
    };
    let spacing = Length::parse(spacing, system).map_err(|error| error.to_string())?;
    let bearing = Angle::parse(bearing, system).map_err(|error| error.to_string())?;
    Ok(Answer::Repeat {
        count,
        spacing_m: spacing.as_metres(),
        bearing_degrees: bearing.as_degrees(),
    })
}
