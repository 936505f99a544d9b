//! The numbers that a user may override, each with its default, its source, and the
//! reason that is printed.

use super::{Leave, answers_ui, question_ui};
use crate::editor::Editor;
use crate::editor::intent::Intent;
use crate::editor::panels::ask::judged;
use crate::editor::theme::{ROW, STEP, TextSize, Theme};
use crate::editor::widgets::{Column, Entry, Shown, Table, TableRow, lines_ui, main_button_ui};
use crate::site::policy::{Override, PolicyFacts};
use crate::site::{Edit, PolicyItem};
use crate::units::{Quantity, UnitSystem};
use eframe::egui;
use egui::{Context, Label, RichText, ScrollArea, Ui};

const COLUMNS: [Column; 5] = [
    Column::words("Number", 30.0),
    Column::words("Value", 16.0),
    Column::words("Default", 12.0),
    Column::words("Reason", 24.0),
    Column::words("Source of the default", 30.0),
];

/// The reason of a number that was changed before anybody wrote one.
const NO_REASON: &str = "reason not stated";

/// The table.
pub(super) fn policy_ui(ctx: &Context, editor: &Editor, intents: &mut Vec<Intent>) {
    let room = ctx.content_rect();
    let left = question_ui(
        ctx,
        "Numbers and their sources",
        240.0 * STEP,
        Leave::Freely,
        |ui| {
            lines_ui(
                ui,
                "An empty value takes the default back. What differs from its default is printed with its reason.",
            );
            ui.add_space(STEP);
            let table = Table::new(&COLUMNS, ROW + 2.0 * STEP);
            table.head_ui(ui);
            ScrollArea::vertical()
                .max_height(room.height() - 70.0 * STEP)
                .show(ui, |ui| {
                    for item in PolicyItem::ALL {
                        ui.push_id(item, |ui| {
                            table.row_ui(ui, |ui, row| item_ui(ui, row, editor, intents, *item));
                        });
                    }
                });
            answers_ui(ui, |ui| {
                if main_button_ui(ui, "Done").clicked() {
                    intents.push(Intent::Ask(None));
                }
            });
        },
    );
    if left {
        intents.push(Intent::Ask(None));
    }
}

fn item_ui(
    ui: &mut Ui,
    row: &mut TableRow<'_>,
    editor: &Editor,
    intents: &mut Vec<Intent>,
    item: PolicyItem,
) {
    let facts = item.facts();
    let policy = &editor.site().policy;
    let given = policy.given(item);
    let palette = &Theme::of(ui).palette;
    row.cell_ui(ui, |ui| {
        ui.add_space(STEP);
        ui.add(Label::new(facts.label).wrap());
    });
    let changed = row.cell_ui(ui, |ui| value_ui(ui, editor, item));
    let figure = with_unit(facts.default, facts.unit);
    row.text_ui(ui, &figure, palette.soft_ink);
    let reason = row.cell_ui(ui, |ui| {
        let given = given?;
        let name = format!("Reason for: {}", facts.label);
        Entry::new(&name, Shown::One(&given.reason)).show(ui, |text| {
            if text.trim().is_empty() {
                return Err("a reason is printed: write one".to_owned());
            }
            Ok(Some(Override {
                value: given.value,
                reason: text.trim().to_owned(),
            }))
        })
    });
    row.cell_ui(ui, |ui| {
        ui.add_space(1.5 * STEP);
        let source = RichText::new(facts.source)
            .font(TextSize::Small.font())
            .color(palette.faint_ink);
        ui.add(Label::new(source).wrap());
    });
    if let Some(given) = changed.or(reason) {
        intents.push(Intent::CarryOut {
            name: format!("Set {}", facts.label),
            edit: Edit::Policy(policy.with(item, given)),
        });
    }
}

/// The value in force; what it becomes, where the user has typed another one.
fn value_ui(ui: &mut Ui, editor: &Editor, item: PolicyItem) -> Option<Option<Override>> {
    let facts = item.facts();
    let site = editor.site();
    let given = site.policy.given(item);
    let shown = figure(site.policy.value(item));
    Entry::new(facts.label, Shown::One(&shown))
        .suffix(facts.unit)
        .show(ui, |text| {
            if text.trim().is_empty() {
                return Ok(None);
            }
            let value = number(text, facts)?;
            let reason = given.map_or_else(|| NO_REASON.to_owned(), |given| given.reason.clone());
            let next = Some(Override { value, reason });
            let edit = Edit::Policy(site.policy.with(item, next.clone()));
            judged(editor.committed(), &edit).map(|()| next)
        })
}

fn number(text: &str, facts: &PolicyFacts) -> Result<f64, String> {
    let text = text.trim();
    let bare = text.strip_suffix(facts.unit).unwrap_or(text).trim();
    // Large and small figures are typed with an exponent.
    let value = bare
        .parse::<f64>()
        .ok()
        .or_else(|| f64::parse(bare, UnitSystem::Metric).ok())
        .filter(|value| facts.least <= *value && *value <= facts.greatest);
    value.ok_or_else(|| {
        format!(
            "enter {} to {}",
            figure(facts.least),
            with_unit(facts.greatest, facts.unit)
        )
    })
}

/// A figure as short as it can be said: with an exponent where it is large or small.
fn figure(value: f64) -> String {
    if value != 0.0 && !(1e-3..1e5).contains(&value.abs()) {
        format!("{value:e}")
    } else {
        value.show(UnitSystem::Metric)
    }
}

fn with_unit(value: f64, unit: &str) -> String {
    if unit.is_empty() {
        figure(value)
    } else {
        format!("{} {unit}", figure(value))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_default_is_read_back_as_it_is_shown() {
        for item in PolicyItem::ALL {
            let facts = item.facts();
            let read = number(&with_unit(facts.default, facts.unit), facts);
            assert_eq!(read, Ok(facts.default), "{}", facts.name);
        }
    }

    #[test]
    fn numbers_beyond_their_bounds_are_refused() {
        let facts = PolicyItem::ChannelSpan.facts();
        assert!(number("7", facts).is_err());
        assert!(number("long", facts).is_err());
        assert!(number("NaN", facts).is_err());
    }
}
