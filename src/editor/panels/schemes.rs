//! The schemes of a site: shown, made, copied, named, removed.

use crate::editor::Editor;
use crate::editor::icons::Icon;
use crate::editor::intent::Intent;
use crate::editor::theme::{ROW, STEP, Theme};
use crate::editor::widgets::{Entry, Shown, hint_ui, rule_ui, text_ui};
use crate::site::id::next_free;
use crate::site::{Edit, Scheme, SchemeId, Site};
use eframe::egui;
use egui::{
    Atom, Button, Popup, PopupCloseBehavior, RichText, Stroke, TextWrapMode, Ui, Vec2, vec2,
};
use std::sync::Arc;

const WIDTH: f32 = 64.0 * STEP;

/// The shown scheme, and under it what can be done with schemes.
pub(super) fn scheme_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let shown = editor.site().scheme();
    let edge = Theme::of(ui).palette.field_edge;
    let label = title(&shown);
    let response = ui
        .scope(|ui| {
            ui.visuals_mut().widgets.inactive.bg_stroke = Stroke::new(1.0, edge);
            let ink = Theme::of(ui).palette.ink;
            ui.set_max_width(WIDTH);
            let arrow = Atom::paint(Vec2::splat(4.0 * STEP), move |ui, args| {
                Icon::Down.paint(ui.painter(), args.rect, ink);
            });
            let button = Button::new((label.as_str(), Atom::grow(), arrow))
                .wrap_mode(TextWrapMode::Truncate)
                .min_size(vec2(WIDTH, ROW));
            ui.add(button)
        })
        .inner
        .on_hover_text("Schemes: the same building, other runs");
    Popup::menu(&response)
        .width(WIDTH)
        .close_behavior(PopupCloseBehavior::CloseOnClickOutside)
        .show(|ui| {
            ui.set_width(WIDTH);
            ui.spacing_mut().button_padding = vec2(2.0 * STEP, STEP);
            list_ui(ui, editor, intents);
            rule_ui(ui);
            shown_ui(ui, editor, intents);
        });
}

fn list_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.site();
    for scheme in &site.schemes {
        let is_shown = scheme.id == site.shown_scheme;
        let runs = match scheme.runs.len() {
            1 => "1 run".to_owned(),
            count => format!("{count} runs"),
        };
        let row = Button::selectable(is_shown, title(scheme))
            .wrap_mode(TextWrapMode::Truncate)
            .right_text(RichText::new(runs).small().weak())
            .min_size(vec2(ui.available_width(), ROW));
        if ui.add(row).clicked() {
            if !is_shown {
                intents.push(Intent::CarryOut {
                    name: format!("Show {}", title(scheme)),
                    edit: Edit::ShowScheme(scheme.id.clone()),
                });
            }
            ui.close();
        }
    }
}

fn shown_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.site();
    let shown = site.scheme();
    hint_ui(ui, "Name of the one shown");
    let taken = text_ui(
        ui,
        "Name of this scheme",
        Shown::One(&shown.name),
        "what is special about it",
    );
    if let Some(name) = taken {
        intents.push(Intent::CarryOut {
            name: format!("Name scheme {}", shown.id),
            edit: Edit::PutScheme(Arc::new(Scheme {
                name,
                ..Scheme::clone(&shown)
            })),
        });
    }
    let notes = Entry::new("Notes on this scheme", Shown::One(&shown.notes))
        .hint("notes")
        .lines(2)
        .show(ui, |text| Ok(text.trim().to_owned()));
    if let Some(notes) = notes {
        intents.push(Intent::CarryOut {
            name: format!("Set notes of scheme {}", shown.id),
            edit: Edit::PutScheme(Arc::new(Scheme {
                notes,
                ..Scheme::clone(&shown)
            })),
        });
    }
    let mut done = |name: String, edit: Edit| intents.push(Intent::CarryOut { name, edit });
    let row = |ui: &mut Ui, label: &str| {
        let size = vec2(ui.available_width(), ROW);
        ui.add(Button::new(label).min_size(size)).clicked()
    };
    if row(ui, "New empty scheme") {
        done(
            "New scheme".to_owned(),
            added(site, String::new(), Vec::new()),
        );
        ui.close();
    }
    if row(ui, "Copy this scheme") {
        let name = copy_name(site, &shown);
        done(
            format!("Copy {}", title(&shown)),
            added(site, name, shown.runs.clone()),
        );
        ui.close();
    }
    ui.add_enabled_ui(site.schemes.len() > 1, |ui| {
        if row(ui, "Remove this scheme") {
            done(
                format!("Remove {}", title(&shown)),
                Edit::RemoveScheme(shown.id.clone()),
            );
            ui.close();
        }
    });
}

/// A scheme as a heading names it: `Scheme A · two rows`.
pub(super) fn title(scheme: &Scheme) -> String {
    if scheme.name.is_empty() {
        format!("Scheme {}", scheme.id)
    } else {
        format!("Scheme {} · {}", scheme.id, scheme.name)
    }
}

/// What a copy of a scheme is called: the same, and a number on from that.
fn copy_name(site: &Site, scheme: &Scheme) -> String {
    if scheme.name.is_empty() {
        return format!("from {}", scheme.id);
    }
    let is_number = |c: char| c.is_ascii_digit();
    let stem = scheme.name.trim_end_matches(is_number).trim_end();
    let stem = stem.strip_suffix(',').unwrap_or(stem);
    let taken = |name: &str| site.schemes.iter().any(|it| it.name == name);
    (2..)
        .map(|number| format!("{stem}, {number}"))
        .find(|name| !taken(name))
        .unwrap_or_default()
}

/// A new scheme, which is shown at once.
fn added(site: &Site, name: String, runs: Vec<Arc<crate::site::Run>>) -> Edit {
    let id = free_id(site);
    Edit::All(vec![
        Edit::PutScheme(Arc::new(Scheme {
            id: id.clone(),
            name,
            runs,
            notes: String::new(),
        })),
        Edit::ShowScheme(id),
    ])
}

/// The next free letter; a number once the alphabet is used up.
fn free_id(site: &Site) -> SchemeId {
    let taken = |id: &str| site.schemes.iter().any(|scheme| scheme.id.as_str() == id);
    ('A'..='Z')
        .map(String::from)
        .find(|letter| !taken(letter))
        .unwrap_or_else(|| next_free("", site.schemes.iter().map(|scheme| scheme.id.as_str())))
        .as_str()
        .into()
}
