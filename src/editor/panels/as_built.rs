//! The as-built table: where the building differs from the drawing, member by member.

use super::ask::objects_form_ui;
use crate::editor::Editor;
use crate::editor::icons::Icon;
use crate::editor::intent::Intent;
use crate::editor::theme::{ROW, STEP};
use crate::editor::widgets::{
    AtFirst, Column, Entry, Figure, Form, Shown, Table, TableRow, choice_ui, fold_ui, hint_ui,
    icon_button_ui, row_ui,
};
use crate::site::{Framing, FramingId, MemberAdjustment, Object};
use crate::units::{Length, Quantity, SmallLength, UnitSystem};
use eframe::egui::Ui;
use std::sync::Arc;

const COLUMNS: [Column; 5] = [
    Column::words("Member", 14.0),
    Column::words("Moved", 19.0),
    Column::words("Raised", 19.0),
    Column::words("Gone", 9.0),
    Column::words("", 8.0),
];

const FEET_COLUMNS: [Column; 5] = [
    Column::words("Member", 12.0),
    Column::words("Moved", 22.0),
    Column::words("Raised", 22.0),
    Column::words("Gone", 8.0),
    Column::words("", 7.0),
];

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
            let wrap = Object::Framing;
            let subjects = [Arc::clone(&framing)];
            objects_form_ui(ui, editor, intents, &subjects, wrap, |ui, form| {
                table_ui(ui, form, &framing);
            });
        });
        let unit = match site.units {
            UnitSystem::Metric => "In millimetres. ",
            UnitSystem::FeetInches => "",
        };
        hint_ui(
            ui,
            &format!(
                "{unit}Moved: to the right, seen along the member. Raised: upward. Negative is left and down."
            ),
        );
    });
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

fn table_ui(ui: &mut Ui, form: &mut Form<'_, Framing>, framing: &Framing) {
    let columns = match form.system() {
        UnitSystem::Metric => &COLUMNS,
        UnitSystem::FeetInches => &FEET_COLUMNS,
    };
    let table = Table::new(columns, ROW + STEP);
    if !framing.as_built.is_empty() {
        table.head_ui(ui);
    }
    for (k, adjustment) in framing.as_built.iter().enumerate() {
        ui.push_id(adjustment.member, |ui| {
            table.row_ui(ui, |ui, row| adjustment_ui(ui, row, form, framing, k));
        });
    }
    new_member_ui(ui, form, framing);
}

fn adjustment_ui(
    ui: &mut Ui,
    row: &mut TableRow<'_>,
    form: &mut Form<'_, Framing>,
    framing: &Framing,
    k: usize,
) {
    let Some(adjustment) = framing.as_built.get(k) else {
        return;
    };
    let member = format!("{}-{:02}", framing.id, adjustment.member);
    let ink = crate::editor::theme::Theme::of(ui).palette.ink;
    row.text_ui(ui, &member, ink);
    type Read = fn(&MemberAdjustment) -> Length;
    type Write = fn(&mut MemberAdjustment, Length);
    let figures: [(&str, Read, Write); 2] = [
        ("moved", |it| it.moved, |it, to| it.moved = to),
        ("raised", |it| it.raised, |it, to| it.raised = to),
    ];
    let system = form.system();
    for (what, read, write) in figures {
        let name = format!("{member} {what}");
        let refusal = row.cell_ui(ui, |ui| {
            let shown = Figure::of(SmallLength(read(adjustment)), system);
            let entry = Entry::new(&name, shown.shown()).reason_elsewhere();
            let tried = entry.show(ui, |text| {
                let SmallLength(to) =
                    SmallLength::parse(text, system).map_err(|error| error.to_string())?;
                form.tried(&name, |it| {
                    if let Some(known) = it.as_built.get_mut(k) {
                        write(known, to);
                    }
                })
            });
            form.take(tried);
            entry.refusal(ui)
        });
        row.refused(refusal);
    }
    row.cell_ui(ui, |ui| {
        let mut missing = adjustment.missing;
        let response = ui
            .checkbox(&mut missing, "")
            .accessible_name(format!("{member} is not there"));
        if response.changed() {
            form.put(&member, |it| {
                if let Some(known) = it.as_built.get_mut(k) {
                    known.missing = missing;
                }
            });
        }
    });
    row.cell_ui(ui, |ui| {
        if icon_button_ui(ui, Icon::Close, &format!("{member} is as drawn")).clicked() {
            form.put(&member, |it| {
                it.as_built.remove(k);
            });
        }
    });
}

/// A row in which the number of one more member is typed.
fn new_member_ui(ui: &mut Ui, form: &mut Form<'_, Framing>, framing: &Framing) {
    row_ui(ui, "Add member", |ui| {
        let taken = Entry::new("Add member", Shown::One(""))
            .hint("its number")
            .show(ui, |text| {
                let member = number(text, framing)?;
                form.tried("as built", |it| {
                    it.as_built.push(MemberAdjustment::as_drawn(member));
                    it.as_built.sort_by_key(|known| known.member);
                })
            });
        form.take(taken);
    });
}

/// `20`, `J-20` and `J-20/AB` all mean member 20.
fn number(text: &str, framing: &Framing) -> Result<usize, String> {
    let typed = text.trim();
    let tail = typed
        .strip_prefix(framing.id.as_str())
        .and_then(|tail| tail.strip_prefix('-'))
        .unwrap_or(typed);
    let digits = tail.split('/').next().unwrap_or(tail);
    match digits.parse() {
        Ok(0) | Err(_) => Err(format!(
            "“{typed}” is no member; enter its number, such as 20 for {}-20",
            framing.id
        )),
        Ok(member) if framing.as_built.iter().any(|it| it.member == member) => Err(format!(
            "{}-{member:02} is in the table already",
            framing.id
        )),
        Ok(member) => Ok(member),
    }
}
