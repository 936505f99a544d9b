//! What the study has to say: worst first, each with where it is and what is required,
//! and a way to accept it where it may be accepted.

use crate::editor::Editor;
use crate::editor::intent::Intent;
use crate::editor::theme::{STEP, TextSize, Theme};
use crate::editor::today::today;
use crate::editor::way_advice::Breach;
use crate::editor::widgets::{
    Entry, Shown, Tone, card_ui, heading_ui, hint_ui, lines_ui, link_ui, segments_ui,
    small_button_ui,
};
use crate::findings::{Finding, Severity, rule};
use crate::site::{Acceptance, Edit};
use eframe::egui;
use egui::{Id, Label, RichText, ScrollArea, Sense, Ui, vec2};

/// Under which name the height of the list is kept, for whoever shares out the panel.
pub(super) const FINDINGS_HEIGHT: &str = "height of the findings";

/// Room that a card takes before its height is known, points.
const GUESSED_HEIGHT: f32 = 22.0 * STEP;

/// The findings under their counts.
pub(super) fn findings_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let state = if editor.results.are_current() {
        counts(editor)
    } else {
        format!("{} · working out", counts(editor))
    };
    // The scroll bar has its own room beside the cards.
    let width = ui.available_width() - 2.0 * STEP;
    ui.scope(|ui| {
        ui.set_max_width(width);
        heading_ui(ui, "Findings", &state, None);
    });
    ui.add_space(STEP);
    let all = editor.results.findings();
    let shown = which_ui(ui, editor, all, width);
    let findings: Vec<(usize, &Finding)> = all
        .iter()
        .enumerate()
        .filter(|(_, finding)| shown == Which::All || concerns_picked(editor, finding))
        .collect();
    let output = ScrollArea::vertical()
        .id_salt("findings")
        .auto_shrink(false)
        .show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 2.0 * STEP;
            ui.set_max_width(width);
            if findings.is_empty() {
                hint_ui(ui, nothing(editor));
            }
            for (index, (place, finding)) in findings.into_iter().enumerate() {
                let top = ui.cursor().top();
                seen_ui(ui, editor, intents, index, finding);
                let card = ui.min_rect().with_min_y(top);
                if ui.rect_contains_pointer(card) {
                    intents.push(Intent::PointAt(place));
                }
            }
            ui.add_space(2.0 * STEP);
        });
    ui.data_mut(|data| {
        data.insert_temp(Id::unique(FINDINGS_HEIGHT), output.content_size.y);
    });
}

/// Which findings are listed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Which {
    /// All of them.
    All,
    /// Those about what is picked.
    OfPicked,
}

/// A switch between all findings and those about what is picked, where that makes a
/// difference. All are listed until somebody asks for less.
fn which_ui(ui: &mut Ui, editor: &Editor, all: &[Finding], width: f32) -> Which {
    let count = all
        .iter()
        .filter(|finding| concerns_picked(editor, finding))
        .count();
    if count == 0 || count == all.len() {
        return Which::All;
    }
    let id = ui.scope_id().with("only of what is picked");
    let only = ui.data(|data| data.get_temp(id)).unwrap_or(false);
    let options = [
        format!("all {}", all.len()),
        format!("{count} about {}", editor.picked_name()),
    ];
    ui.scope(|ui| {
        ui.set_max_width(width);
        if segments_ui(ui, "Findings", Some(usize::from(only)), &options).is_some() {
            ui.data_mut(|data| data.insert_temp(id, !only));
        }
    });
    ui.add_space(STEP);
    if only { Which::OfPicked } else { Which::All }
}

fn concerns_picked(editor: &Editor, finding: &Finding) -> bool {
    editor
        .results
        .objects_of(finding)
        .iter()
        .any(|id| editor.selection.has(id))
}

/// Why there is nothing to say.
fn nothing(editor: &Editor) -> &'static str {
    if editor.site().scheme().runs.is_empty() {
        "Findings come with the first run."
    } else if editor.results.are_current() {
        "Nothing to say."
    } else {
        "Working out."
    }
}

/// How many there are of each severity: `1 breach · 2 cautions · 14 notes`.
fn counts(editor: &Editor) -> String {
    let findings = editor.results.findings();
    let said: Vec<String> = [Severity::Breach, Severity::Caution, Severity::Note]
        .into_iter()
        .filter_map(|severity| {
            let all = findings.iter().filter(|it| it.severity == severity);
            let count = all.clone().count();
            let accepted = all.filter(|it| it.accepted.is_some()).count();
            let label = severity.label();
            let plural = match (count, label) {
                (1, _) => label.to_owned(),
                (_, "breach") => "breaches".to_owned(),
                _ => format!("{label}s"),
            };
            match (count, accepted) {
                (0, _) => None,
                (_, 0) => Some(format!("{count} {plural}")),
                _ => Some(format!("{count} {plural} ({accepted} accepted)")),
            }
        })
        .collect();
    said.join(" · ")
}

/// A card, if it is in sight; else only the room that it takes. Hundreds may be listed.
fn seen_ui(
    ui: &mut Ui,
    editor: &Editor,
    intents: &mut Vec<Intent>,
    index: usize,
    finding: &Finding,
) {
    let id = ui.scope_id().with(("finding", key(finding), index));
    let height = ui
        .data(|data| data.get_temp::<f32>(id))
        .unwrap_or(GUESSED_HEIGHT);
    let size = vec2(ui.available_width(), height);
    let expected = egui::Rect::from_min_size(ui.cursor().min, size);
    let is_near = ui.clip_rect().expand(height).intersects(expected);
    if !is_near {
        ui.allocate_exact_size(size, Sense::hover());
        return;
    }
    let top = ui.cursor().top();
    ui.push_id(id, |ui| finding_ui(ui, editor, intents, finding));
    let height = ui.min_rect().bottom() - top;
    ui.data_mut(|data| {
        data.insert_temp(id, height);
    });
}

/// What tells one finding from another while the site changes.
fn key(finding: &Finding) -> (&'static str, String) {
    (finding.rule, subjects(finding).join(", "))
}

fn subjects(finding: &Finding) -> Vec<String> {
    finding.subjects.iter().map(ToString::to_string).collect()
}

const fn tone(severity: Severity) -> Tone {
    match severity {
        Severity::Breach => Tone::Breach,
        Severity::Caution => Tone::Caution,
        Severity::Note => Tone::Note,
    }
}

fn finding_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>, finding: &Finding) {
    let rule = rule(finding.rule);
    let title = rule.map_or(finding.rule, |rule| rule.title);
    let accepting = ui.scope_id().with("accepting");
    card_ui(ui, tone(finding.severity), title, |ui| {
        ui.add(Label::new(finding.text_in(editor.site().units)).wrap());
        hint_ui(ui, &finding.source);
        if let Some(reason) = &finding.accepted {
            let colour = Theme::of(ui).palette.ok;
            let text = RichText::new(format!("Accepted: {reason}"))
                .font(TextSize::Small.font())
                .color(colour);
            ui.add(Label::new(text).wrap());
        }
        ui.add_space(STEP);
        ui.horizontal(|ui| {
            let place = finding.place;
            let subjects = editor.results.objects_of(finding);
            let is_somewhere = place.is_some() || !subjects.is_empty();
            ui.add_enabled_ui(is_somewhere, |ui| {
                if small_button_ui(ui, "Show").clicked() {
                    intents.push(Intent::GoTo { place, subjects });
                }
            });
            let may_be_accepted = rule.is_some_and(|rule| rule.can_be_accepted);
            if finding.accepted.is_some() {
                take_back_ui(ui, intents, finding);
            } else if may_be_accepted
                && finding.severity != Severity::Note
                && small_button_ui(ui, "Accept…").clicked()
            {
                toggle(ui, accepting);
            }
            if let Some(breach) = Breach::of(finding, editor.selection.run())
                && small_button_ui(ui, "Ways out")
                    .on_hover_text("Picks the run and looks for changes of it that cure this")
                    .clicked()
            {
                intents.push(Intent::SeekWaysOut(Some(breach)));
            }
            why_ui(ui, finding);
        });
        if is_open(ui, accepting) && finding.accepted.is_none() {
            accept_ui(ui, intents, finding, accepting);
        }
    });
}

fn take_back_ui(ui: &mut Ui, intents: &mut Vec<Intent>, finding: &Finding) {
    if small_button_ui(ui, "Take back").clicked() {
        intents.push(Intent::CarryOut {
            name: format!("Take back acceptance of {}", finding.rule),
            edit: Edit::TakeBackAcceptance {
                rule: finding.rule.to_owned(),
                subjects: subjects(finding),
            },
        });
    }
}

fn is_open(ui: &Ui, id: Id) -> bool {
    ui.data(|data| data.get_temp(id)).unwrap_or(false)
}

fn toggle(ui: &Ui, id: Id) {
    let next = !is_open(ui, id);
    ui.data_mut(|data| {
        data.insert_temp(id, next);
    });
}

/// Accepting asks for the reason, which is printed.
fn accept_ui(ui: &mut Ui, intents: &mut Vec<Intent>, finding: &Finding, accepting: Id) {
    ui.add_space(STEP);
    lines_ui(ui, "The reason is printed on the sheets:");
    let reason = Entry::new("Reason for accepting", Shown::One(""))
        .hint("why it is accepted, and by whom")
        .show(ui, |text| {
            let reason = text.trim();
            if reason.len() < 3 {
                return Err("write a reason: it is printed".to_owned());
            }
            Ok(reason.to_owned())
        });
    if let Some(reason) = reason {
        intents.push(Intent::CarryOut {
            name: format!("Accept {}", finding.rule),
            edit: Edit::Accept(Acceptance {
                rule: finding.rule.to_owned(),
                subjects: subjects(finding),
                reason,
                date: today(),
            }),
        });
        toggle(ui, accepting);
    }
}

/// What the rule looks at and why, on demand.
fn why_ui(ui: &mut Ui, finding: &Finding) {
    let Some(rule) = rule(finding.rule) else {
        return;
    };
    link_ui(ui, "Why?").on_hover_ui(|ui| {
        ui.set_max_width(90.0 * STEP);
        ui.label(RichText::new(rule.title).font(TextSize::Body.bold()));
        for text in [rule.explain.checks, rule.explain.why, rule.explain.remedy] {
            ui.add(Label::new(text).wrap());
        }
        hint_ui(ui, rule.explain.limits);
    });
}
