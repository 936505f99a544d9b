//! What cures a breach of the picked run: each way shown on the plan, in the run profile,
//! the section and in 3-D while the pointer or the focus is on it, and done by one click.

use super::advice::{in_units, offered_ui};
use crate::editor::Editor;
use crate::editor::intent::Intent;
use crate::editor::theme::STEP;
use crate::editor::way_advice::{Breach, Listed};
use crate::editor::widgets::{Tone, heading_ui, hint_ui, link_ui, message_ui, rule_ui};
use crate::findings::{Bound, Dimension, Finding, Phrase, rule};
use crate::remedies::clearance::{Blocking, WaysOut};
use crate::site::RunId;
use crate::site::policy::PolicyItem;
use crate::units::{Angle, Length, Quantity, UnitSystem};
use eframe::egui;
use egui::{Align, Id, Rect, Ui, Vec2};

/// Under which name the breach is kept whose ways out were brought into view.
const IN_VIEW: &str = "ways out in view";

/// The breaches of a run that a change of it may cure; the ways out of the one that is
/// asked about.
pub(super) fn ways_out_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>, id: &RunId) {
    let wanted = editor.way_advice.wanted().filter(|it| it.run == *id);
    let listed = editor.way_advice.listed(id);
    if listed.is_empty() {
        return;
    }
    rule_ui(ui);
    let state = match listed.len() {
        1 => "1 breach".to_owned(),
        count => format!("{count} breaches"),
    };
    let colour = Tone::Breach.colour(ui);
    heading_ui(ui, "Clearances", &state, Some(colour));
    for (place, listed) in listed.iter().enumerate() {
        ui.push_id(("breach", place), |ui| {
            let is_wanted = wanted == Some(&listed.breach);
            breach_ui(ui, editor, intents, listed, is_wanted);
        });
    }
}

fn breach_ui(
    ui: &mut Ui,
    editor: &Editor,
    intents: &mut Vec<Intent>,
    listed: &Listed,
    is_wanted: bool,
) {
    let breach = &listed.breach;
    let title = breach.title();
    if is_wanted {
        bring_into_view(ui, breach);
    }
    let spacing = std::mem::replace(&mut ui.spacing_mut().item_spacing.y, 2.0);
    message_ui(ui, Tone::Breach, &title);
    ui.spacing_mut().item_spacing.y = spacing;
    ui.scope(|ui| {
        // Lines of text, not controls, say how far apart these are.
        ui.spacing_mut().interact_size.y = 4.0 * STEP;
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 2.0 * STEP;
            // Under the words of the title, beside its shape.
            ui.add_space(4.0 * STEP);
            if let Some(figures) = figures(&listed.finding, editor.site().units) {
                hint_ui(ui, &figures);
            }
            if !is_wanted {
                let link = link_ui(ui, "Ways out");
                let name = format!("Ways out of {title}");
                link.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &name));
                if link.clicked() {
                    intents.push(Intent::SeekWaysOut(Some(breach.clone())));
                }
            }
        });
    });
    if is_wanted {
        match editor.way_advice.found() {
            Some(found) => found_ui(ui, editor, intents, found),
            None => hint_ui(ui, "Looking for ways out…"),
        }
    }
    ui.add_space(STEP);
}

/// What was measured and what is required, each rounded so that a breach never reads as a
/// pass: `0.19 m, at least 0.30 m`.
fn figures(finding: &Finding, units: UnitSystem) -> Option<String> {
    let (measured, required) = finding.measured.zip(finding.required)?;
    let (measured, required, bound) = match finding.dimension {
        Dimension::Length => {
            let (measured, required) = (Length::metres(measured), Length::metres(required));
            match finding.bound {
                Bound::Least => (
                    Phrase::LengthDown(measured),
                    Phrase::LengthUp(required),
                    "at least",
                ),
                Bound::Greatest => (
                    Phrase::LengthUp(measured),
                    Phrase::LengthDown(required),
                    "at most",
                ),
            }
        }
        Dimension::Angle => {
            let (measured, required) = (Angle::degrees(measured), Angle::degrees(required));
            match finding.bound {
                Bound::Least => (Phrase::Angle(measured), Phrase::Angle(required), "at least"),
                Bound::Greatest => (
                    Phrase::AngleUp(measured),
                    Phrase::Angle(required),
                    "at most",
                ),
            }
        }
        Dimension::Force | Dimension::AreaLoad | Dimension::Number => return None,
    };
    let (measured, shown) = (measured.shown_in(units), required.shown_in(units));
    let is_of_nothing = finding.required == Some(0.0) && finding.bound == Bound::Greatest;
    Some(if is_of_nothing {
        format!("{measured} too much")
    } else {
        format!("{measured}, {bound} {shown}")
    })
}

/// Once for each breach that is asked about: the panel may be scrolled elsewhere.
fn bring_into_view(ui: &Ui, breach: &Breach) {
    let id = Id::unique(IN_VIEW);
    let name = format!("{breach:?}");
    if ui.data(|data| data.get_temp::<String>(id)).as_ref() != Some(&name) {
        let mut target = Rect::from_min_size(ui.cursor().min, Vec2::ZERO);
        // The heading of the part, if it is just above.
        target.min.y -= 8.0 * STEP;
        ui.scroll_to_rect(target, Some(Align::TOP));
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
