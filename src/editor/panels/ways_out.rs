//! What cures a breach of the picked run: each way shown on the plan, in the run profile,
//! the section and in 3-D while the pointer or the focus is on it, and done by one click.

use super::advice::{in_units, offered_ui};
use crate::editor::Editor;
use crate::editor::intent::Intent;
use crate::editor::theme::STEP;
use crate::editor::way_advice::Breach;
use crate::editor::widgets::{Tone, heading_ui, hint_ui, link_ui, message_ui, rule_ui};
use crate::findings::rule;
use crate::remedies::clearance::{Blocking, WaysOut};
use crate::site::RunId;
use crate::site::policy::PolicyItem;
use crate::units::{Length, Quantity};
use eframe::egui;
use egui::{Align, Id, Ui};

/// Under which name the breach is kept whose ways out were brought into view.
const IN_VIEW: &str = "ways out in view";

/// The breaches of a run that a change of it may cure; the ways out of the one that is
/// asked about.
pub(super) fn ways_out_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>, id: &RunId) {
    let wanted = editor.way_advice.wanted().filter(|it| it.run == *id);
    // While one is previewed the study is of the preview, where the breach is cured: the
    // list stays as it was, or the button would go from under the pointer.
    let is_frozen = editor.way_advice.shown.is_some() || editor.advice.shown.is_some();
    let breaches: Vec<Breach> = if is_frozen {
        wanted.into_iter().cloned().collect()
    } else {
        let findings = editor.results.findings().iter();
        findings
            .filter_map(|it| Breach::of(it, Some(id)))
            .filter(|it| it.run == *id)
            .collect()
    };
    if breaches.is_empty() {
        return;
    }
    rule_ui(ui);
    let state = match breaches.len() {
        1 => "1 breach".to_owned(),
        count => format!("{count} breaches"),
    };
    let colour = Tone::Breach.colour(ui);
    heading_ui(
        ui,
        "Clearances",
        if is_frozen { "" } else { &state },
        Some(colour),
    );
    for (place, breach) in breaches.iter().enumerate() {
        ui.push_id(("breach", place), |ui| {
            breach_ui(ui, editor, intents, breach, wanted == Some(breach));
        });
    }
}

fn breach_ui(
    ui: &mut Ui,
    editor: &Editor,
    intents: &mut Vec<Intent>,
    breach: &Breach,
    is_wanted: bool,
) {
    let title = breach.title();
    if is_wanted {
        bring_into_view(ui, breach);
    }
    message_ui(ui, Tone::Breach, &title);
    if !is_wanted {
        let link = link_ui(ui, "Ways out");
        let name = format!("Ways out of {title}");
        link.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &name));
        if link.clicked() {
            intents.push(Intent::SeekWaysOut(Some(breach.clone())));
        }
        return;
    }
    match editor.way_advice.found() {
        Some(found) => found_ui(ui, editor, intents, found),
        None => hint_ui(ui, "Looking for ways out"),
    }
    ui.add_space(STEP);
}

/// Once for each breach that is asked about: the panel may be scrolled elsewhere.
fn bring_into_view(ui: &Ui, breach: &Breach) {
    let id = Id::unique(IN_VIEW);
    let name = format!("{breach:?}");
    if ui.data(|data| data.get_temp::<String>(id)).as_ref() != Some(&name) {
        ui.scroll_to_cursor(Some(Align::TOP));
        ui.data_mut(|data| data.insert_temp(id, name));
    }
}

fn found_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>, found: &WaysOut) {
    let units = editor.site().units;
    let mut over = None;
    for (which, offer) in found.offers.iter().enumerate() {
        let text = format!(
            "{}{}",
            in_units(&offer.text, units),
            offer.change.words(units)
        );
        let is_shown = editor.way_advice.shown == Some(which);
        ui.push_id(("way out", which), |ui| {
            let (is_over, is_taken) = offered_ui(ui, &text, is_shown);
            if is_over {
                over = Some(which);
            }
            if is_taken {
                intents.push(Intent::TakeWayOut(which));
            }
        });
    }
    if over != editor.way_advice.shown {
        intents.push(Intent::ShowWayOut(over));
    }
    if found.offers.is_empty() {
        let reach = editor.committed().policy.value(PolicyItem::RemedyReach);
        let reach = Length::metres(reach).show_with_unit(units);
        hint_ui(
            ui,
            &format!("No way out within {reach} by changing this run alone."),
        );
    }
    for line in closed(found) {
        hint_ui(ui, &line);
    }
}

/// What would have to give, and which ways cure nothing.
fn closed(found: &WaysOut) -> Vec<String> {
    let mut lines = Vec::new();
    let mut blocked: Vec<(String, Vec<&str>)> = Vec::new();
    for (way, blocking) in &found.closed {
        let Some(words) = blocking.as_ref().map(Blocking::in_the_way) else {
            continue;
        };
        match blocked.iter_mut().find(|(by, _)| *by == words) {
            Some((_, ways)) => ways.push(way.label()),
            None => blocked.push((words, vec![way.label()])),
        }
    }
    for (by, ways) in blocked {
        lines.push(format!("In the way of {}: {by}.", ways.join(", ")));
    }
    let useless: Vec<&str> = found
        .closed
        .iter()
        .filter(|(_, blocking)| blocking.is_none())
        .map(|(way, _)| way.label())
        .collect();
    if !useless.is_empty() {
        lines.push(format!("No cure: {}.", useless.join(", ")));
    }
    lines
}

impl Breach {
    /// The rule's title and what else it is about.
    fn title(&self) -> String {
        let title = rule(self.rule()).map_or(self.rule(), |rule| rule.title);
        let others = self.others();
        if others.is_empty() {
            title.to_owned()
        } else {
            format!("{title}: {}", others.join(", "))
        }
    }
}
