//! What would let the picked run be hung, or hung for less: each shown on the plan and in
//! the profile while the pointer or the focus is on it, and done by one click.

use crate::editor::Editor;
use crate::editor::intent::Intent;
use crate::editor::theme::{STEP, TextSize, Theme};
use crate::editor::widgets::{hint_ui, small_button_ui};
use crate::findings::Phrase;
use crate::site::RunId;
use crate::units::UnitSystem;
use eframe::egui;
use egui::{CornerRadius, Frame, Label, Margin, RichText, Role, Stroke, Ui, WidgetInfo};

/// The suggestions for a run.
pub(super) fn advice_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>, id: &RunId) {
    let Some(found) = editor.advice.of(id) else {
        return;
    };
    let units = editor.site().units;
    let mut over = None;
    for (which, suggestion) in found.list.iter().enumerate() {
        let text = in_units(&suggestion.words, units);
        let is_shown = editor.advice.shown == Some(which);
        ui.push_id(("suggestion", which), |ui| {
            let (is_over, is_wanted) = offered_ui(ui, &text, is_shown);
            if is_over {
                over = Some(which);
            }
            if is_wanted {
                intents.push(Intent::TakeSuggestion(id.clone(), which));
            }
        });
    }
    if over != editor.advice.shown {
        intents.push(Intent::ShowSuggestion(
            over.map(|which| (id.clone(), which)),
        ));
    }
    if found.list.is_empty() && needs_advice(editor, id) && !found.none.is_empty() {
        hint_ui(ui, &in_units(&found.none, units));
    }
}

/// Whether anybody would want a suggestion: why there is none matters only then.
fn needs_advice(editor: &Editor, id: &RunId) -> bool {
    use crate::hanging::{Kind, Status};
    editor.results.run(id).is_some_and(|run| {
        let hangers = &run.hanging.hangers;
        run.hanging.status == Status::Impossible
            || hangers.iter().any(|it| it.at.kind == Kind::Channel)
    })
}

pub(super) fn in_units(words: &[Phrase], units: UnitSystem) -> String {
    words.iter().map(|phrase| phrase.shown_in(units)).collect()
}

/// One thing that is offered; whether the pointer or the focus is on it, and whether it is wanted.
pub(super) fn offered_ui(ui: &mut Ui, text: &str, is_shown: bool) -> (bool, bool) {
    let palette = &Theme::of(ui).palette;
    let fill = if is_shown {
        palette.band
    } else {
        palette.paper
    };
    let inner = Frame::new()
        .fill(fill)
        .stroke(Stroke::new(1.0, palette.edge))
        .corner_radius(CornerRadius::same(3))
        .inner_margin(Margin::symmetric(8, 6))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = STEP;
            let words = RichText::new(text)
                .font(TextSize::Small.font())
                .color(palette.ink);
            ui.add(Label::new(words).wrap());
            let apply = small_button_ui(ui, "Apply");
            let name = format!("Apply: {text}");
            apply.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
            apply
        });
    let is_over = ui.rect_contains_pointer(inner.response.rect) || inner.inner.has_focus();
    (is_over, inner.inner.clicked())
}
