//! What is asked before anything else: copies that a crash left behind, and the safety
//! words.

use super::{Leave, answers_ui, question_ui};
use crate::editor::Editor;
use crate::editor::dialog::Answer;
use crate::editor::intent::Intent;
use crate::editor::theme::STEP;
use crate::editor::widgets::{Tone, card_ui, hint_ui, lines_ui, main_button_ui, plain_button_ui};
use crate::findings::CAUTIONS;
use crate::store::recovery::Left;
use eframe::egui;
use egui::{Context, Label, RichText};
use std::time::SystemTime;

/// What is said here beside the words that every report carries.
const ABOUT_FAMILIES: &str = "The heater families that come with the program are invented examples. Enter the figures of the certified manual of the heater that will be bought; until then every sheet says “not for construction”.";

/// The safety words.
pub(super) fn cautions_ui(ctx: &Context, intents: &mut Vec<Intent>) {
    let title = "Rafterglow helps licensed people; it does not replace them";
    question_ui(ctx, title, 130.0 * STEP, Leave::ByAnswer, |ui| {
        ui.spacing_mut().item_spacing.y = 2.0 * STEP;
        for caution in CAUTIONS.iter().chain([&ABOUT_FAMILIES]) {
            ui.horizontal_top(|ui| {
                ui.label("·");
                ui.add(Label::new(*caution).wrap());
            });
        }
        answers_ui(ui, |ui| {
            if main_button_ui(ui, "I have read this").clicked() {
                intents.push(Intent::Answer(Answer::CautionsRead));
            }
        });
    });
}

/// What becomes of the copies that a crash left behind.
pub(super) fn recovery_ui(ctx: &Context, editor: &Editor, intents: &mut Vec<Intent>) {
    let title = "There is work that was not saved";
    question_ui(ctx, title, 130.0 * STEP, Leave::ByAnswer, |ui| {
        lines_ui(
            ui,
            "The program or the machine stopped before this was saved. A copy was kept.",
        );
        ui.add_space(2.0 * STEP);
        for (index, left) in editor.files.left.iter().enumerate() {
            ui.push_id(index, |ui| copy_ui(ui, intents, index, left));
            ui.add_space(STEP);
        }
        answers_ui(ui, |ui| {
            if plain_button_ui(ui, "Ask again next time").clicked() {
                intents.push(Intent::Answer(Answer::LeaveCopies));
            }
        });
    });
}

fn copy_ui(ui: &mut egui::Ui, intents: &mut Vec<Intent>, index: usize, left: &Left) {
    let (tone, title) = match &left.site {
        Ok(site) if site.name.is_empty() => (Tone::Note, "A site without a name"),
        Ok(site) => (Tone::Note, site.name.as_str()),
        Err(_) => (Tone::Breach, "A copy that can't be read"),
    };
    card_ui(ui, tone, title, |ui| {
        let file = left.original.as_ref().map_or_else(
            || "never saved".to_owned(),
            |path| path.display().to_string(),
        );
        hint_ui(ui, &format!("{file} · {}", age(left.written)));
        if let Err(trouble) = &left.site {
            lines_ui(ui, &trouble.to_string());
        }
        ui.add_space(STEP);
        ui.horizontal(|ui| {
            if left.site.is_ok() && main_button_ui(ui, "Restore").clicked() {
                intents.push(Intent::Answer(Answer::Restore(index)));
            }
            if plain_button_ui(ui, "Throw away").clicked() {
                intents.push(Intent::Answer(Answer::ThrowAway(index)));
            }
            if left.site.is_err() {
                ui.label(RichText::new("It stays where it is unless you throw it away.").weak());
            }
        });
    });
}

/// How long ago, in words.
fn age(written: Option<SystemTime>) -> String {
    let elapsed = written.and_then(|written| written.elapsed().ok());
    let Some(seconds) = elapsed.map(|elapsed| elapsed.as_secs()) else {
        return "time unknown".to_owned();
    };
    let counted = |count: u64, unit: &str| match count {
        1 => format!("1 {unit} ago"),
        _ => format!("{count} {unit}s ago"),
    };
    match seconds {
        0..60 => "just now".to_owned(),
        60..3_600 => counted(seconds / 60, "minute"),
        3_600..86_400 => counted(seconds / 3_600, "hour"),
        _ => counted(seconds / 86_400, "day"),
    }
}
