//! The as-built table: where the members are by the tape, beside the drawing.

mod changed;
mod member_row;

use crate::editor::Editor;
use crate::editor::intent::Intent;
use crate::editor::theme::STEP;
use crate::editor::widgets::{AtFirst, Entry, Figure, choice_ui, fold_ui, hint_ui, row_ui};
use crate::site::as_built::compass;
use crate::site::bay::along;
use crate::site::id::natural_order;
use crate::site::{Framing, FramingId, GridId, GridLine, HeightAt, Site};
use crate::structure::DrawnFraming;
use crate::units::{Length, Quantity};
use eframe::egui::Ui;
use member_row::{Survey, head_ui, member_ui};
use std::sync::Arc;

/// From where the tape is laid.
#[derive(Debug, Clone, Default)]
struct Tape {
    /// The grid line that positions are measured from; without it the first that can be.
    from: Option<GridId>,
    /// The crossing grid line near which heights are measured; none for the low end.
    across: Option<GridId>,
    /// How far beyond that line.
    beyond: Length,
}

/// The table of one framing: the picked one, or the one chosen here.
pub(super) fn as_built_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.site();
    let changed: usize = site.framings.iter().map(|it| it.as_built.len()).sum();
    let state = match changed {
        0 => "as drawn".to_owned(),
        1 => "1 member".to_owned(),
        count => format!("{count} members"),
    };
    fold_ui(ui, "As built", &state, AtFirst::Unfolded, |ui| {
        let Some(framing) = chosen_ui(ui, editor) else {
            return;
        };
        ui.push_id(framing.id.as_str(), |ui| {
            table_ui(ui, editor, intents, &framing);
        });
    });
    if let Some(report) = editor.results.survey() {
        changed::changed_ui(ui, editor, intents, report);
    }
}

/// Which framing the table is of.
fn chosen_ui(ui: &mut Ui, editor: &Editor) -> Option<Arc<Framing>> {
    let site = editor.site();
    let picked = editor.selection.ids.iter().find_map(|id| {
        site.framings
            .iter()
            .position(|it| it.id.as_str() == id.as_str() && id.kind_label() == "framing")
    });
    let key = ui.scope_id().with("framing of the as-built table");
    let known: Option<FramingId> = ui.data(|data| data.get_temp(key));
    let known = known.and_then(|id| site.framings.iter().position(|it| it.id == id));
    let mut index = picked.or(known).unwrap_or(0);
    if site.framings.len() > 1 {
        let names: Vec<&str> = site.framings.iter().map(|it| it.id.as_str()).collect();
        row_ui(ui, "Framing", |ui| {
            if let Some(chosen) = choice_ui(ui, "Framing as built", Some(index), &names) {
                index = chosen;
            }
        });
    }
    let framing = site.framings.get(index)?;
    ui.data_mut(|data| data.insert_temp(key, framing.id.clone()));
    Some(Arc::clone(framing))
}

fn table_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>, framing: &Framing) {
    let site = editor.site();
    let Some(drawn) = DrawnFraming::new(site, framing) else {
        return;
    };
    let key = ui.scope_id().with("tape");
    let mut tape: Tape = ui.data(|data| data.get_temp(key)).unwrap_or_default();
    let from = from_ui(ui, site, framing, &mut tape);
    let place = place_ui(ui, site, framing, &mut tape);
    ui.data_mut(|data| data.insert_temp(key, tape));
    let survey = Survey {
        editor,
        framing,
        drawn: &drawn,
        from,
        place,
        n_members: drawn.n_members(),
    };
    ui.add_space(STEP);
    head_ui(ui, site.units);
    for number in 1..=survey.n_members {
        member_ui(ui, &survey, intents, number);
    }
    hint_ui(
        ui,
        "Enter takes a figure and goes to the next member, an empty field takes it back. \
         “by 30 mm” says what a member is off by where there is nothing to measure from.",
    );
}

/// Grid lines in the order of their lettering.
fn lines(site: &Site, fits: impl Fn(&GridLine) -> bool) -> Vec<Arc<GridLine>> {
    let mut lines: Vec<Arc<GridLine>> = site
        .grid
        .iter()
        .filter(|line| fits(line))
        .cloned()
        .collect();
    lines.sort_by(|a, b| natural_order(a.id.as_str(), b.id.as_str()));
    lines
}

/// The grid line that positions are measured from.
fn from_ui(ui: &mut Ui, site: &Site, framing: &Framing, tape: &mut Tape) -> Option<Arc<GridLine>> {
    let lines = lines(site, |line| framing.line_offset_m(line).is_some());
    if lines.is_empty() {
        hint_ui(
            ui,
            "No grid line runs along these members: lay one in Shell, and their places can be measured from it.",
        );
        return None;
    }
    let known = |id: &GridId| lines.iter().position(|line| line.id == *id);
    let mut index = tape.from.as_ref().and_then(known).unwrap_or(0);
    let right = framing.right();
    let side = compass(right);
    let names: Vec<String> = lines
        .iter()
        .map(|it| format!("{side} of grid line {}", it.id))
        .collect();
    row_ui(ui, "Positions", |ui| {
        if let Some(chosen) = choice_ui(ui, "Positions measured from", Some(index), &names) {
            index = chosen;
        }
    });
    let line = lines.get(index)?;
    tape.from = Some(line.id.clone());
    let other = compass(-right);
    hint_ui(ui, &format!("What lies {other} of it is negative."));
    Some(Arc::clone(line))
}

/// Where along the members their heights are measured.
fn place_ui(ui: &mut Ui, site: &Site, framing: &Framing, tape: &mut Tape) -> HeightAt {
    let heading = along(framing.bearing);
    let lines = lines(site, |line| line.crosses(heading));
    let known = |id: &GridId| lines.iter().position(|line| line.id == *id);
    let mut index = tape.across.as_ref().and_then(known).map_or(0, |k| k + 1);
    let mut names = vec!["at the low end".to_owned()];
    names.extend(
        lines
            .iter()
            .map(|line| format!("from grid line {}", line.id)),
    );
    row_ui(ui, "Heights", |ui| {
        if let Some(chosen) = choice_ui(ui, "Heights measured", Some(index), &names) {
            index = chosen;
        }
    });
    let Some(line) = index.checked_sub(1).and_then(|k| lines.get(k)) else {
        tape.across = None;
        return HeightAt::LowEnd;
    };
    tape.across = Some(line.id.clone());
    row_ui(ui, &format!("To the {}", compass(heading)), |ui| {
        let shown = Figure::of(tape.beyond, site.units);
        let entered = Entry::new("Heights measured so far from the line", shown.shown())
            .show(ui, |text| {
                Length::parse(text, site.units).map_err(|error| error.to_string())
            });
        if let Some(beyond) = entered {
            tape.beyond = beyond;
        }
    });
    HeightAt::FromLine {
        line: line.id.clone(),
        distance: tape.beyond,
    }
}
