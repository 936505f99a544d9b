//! The Shell stage: the site, its bays, grid lines and openings.

use super::ask::{draft_form_ui, value_form_ui};
use super::fields::{bay_fields_ui, opening_fields_ui};
use super::list::{Item, list_ui};
use super::spacings::{Naming, lay, parse};
use crate::editor::Editor;
use crate::editor::drafts::Drafts;
use crate::editor::extent::Extent;
use crate::editor::figures::brief;
use crate::editor::intent::Intent;
use crate::editor::make;
use crate::editor::tools::ToolKind;
use crate::editor::widgets::{
    AtFirst, Entry, Figure, Shown, fold_ui, hint_ui, main_button_ui, row_ui, section_ui,
};
use crate::geometry::DVec2;
use crate::site::{Bay, Conditions, Edit, Gas, Object, ObjectId, SeismicCategory, WindExposure};
use crate::units::{Length, Quantity, UnitSystem};
use eframe::egui::Ui;
use std::sync::Arc;

/// The Shell stage.
pub(super) fn shell_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    match editor.tool {
        ToolKind::Bay => {
            section_ui(ui, "The next bay", "");
            next_bay_ui(ui, editor, intents);
        }
        ToolKind::Opening => {
            section_ui(ui, "The next opening", "");
            next_opening_ui(ui, editor, intents);
        }
        _ => {}
    }
    site_ui(ui, editor, intents);
    fold_ui(ui, "New bay by its size", "", AtFirst::Folded, |ui| {
        sized_bay_ui(ui, editor, intents);
    });
    bays_ui(ui, editor, intents);
    grid_ui(ui, editor, intents);
    openings_ui(ui, editor, intents);
    conditions_ui(ui, editor, intents);
}

fn site_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    fold_ui(ui, "Site", "", AtFirst::Unfolded, |ui| {
        let site = editor.site();
        type Make = fn(String) -> Edit;
        let texts: [(&str, &str, &String, Make); 2] = [
            ("Name", "New site", &site.name, Edit::Name),
            ("Place", "where it is", &site.place, Edit::Place),
        ];
        for (label, hint, text, make) in texts {
            value_form_ui(ui, editor, intents, text, make, |ui, form| {
                form.text(ui, label, hint, String::clone, |it, text| *it = text);
            });
        }
        value_form_ui(ui, editor, intents, &site.notes, Edit::Notes, |ui, form| {
            form.notes(ui, String::clone, |it, text| *it = text);
        });
    });
}

/// What is typed for a bay before it is there.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Size {
    east: Length,
    north: Length,
}

/// A bay typed by its size, beside those that are there.
pub(super) fn sized_bay_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let system = editor.site().units;
    let id = ui.scope_id().with("size of the next bay");
    let mut size = ui.data(|data| data.get_temp(id)).unwrap_or(match system {
        UnitSystem::Metric => Size {
            east: Length::metres(36.0),
            north: Length::metres(24.0),
        },
        UnitSystem::FeetInches => Size {
            east: Length::feet(120.0),
            north: Length::feet(80.0),
        },
    });
    let lengths: [(&str, &mut Length); 2] = [
        ("Width, east", &mut size.east),
        ("Depth, north", &mut size.north),
    ];
    for (label, length) in lengths {
        if let Some(typed) = length_row_ui(ui, label, *length, system) {
            *length = typed;
        }
    }
    let mut eave = editor.drafts.bay.eave;
    if let Some(typed) = length_row_ui(ui, "Eave height", eave, system) {
        eave = typed;
        change_drafts(editor, intents, |drafts| drafts.bay.eave = typed);
    }
    ui.data_mut(|data| {
        data.insert_temp(id, size);
    });
    ui.add_space(4.0);
    if main_button_ui(ui, "Add this bay").clicked() {
        let mut drafts = editor.drafts.clone();
        drafts.bay.eave = eave;
        let corner = free_corner(editor);
        let opposite = corner + DVec2::new(size.east.as_metres(), size.north.as_metres());
        let outline = make::rectangle(corner, opposite);
        let made = make::bay(editor.site(), &drafts, outline);
        intents.push(Intent::CarryOut {
            name: made.name,
            edit: made.edit,
        });
        intents.push(Intent::Pick(made.ids.into_iter().collect()));
        intents.push(Intent::Command(crate::editor::Command::Fit));
    }
}

/// South-east corner of what is there, for the next bay to stand beside it.
fn free_corner(editor: &Editor) -> DVec2 {
    let corners = editor
        .site()
        .bays
        .iter()
        .flat_map(|bay| bay.outline.clone());
    let extent = Extent::of(corners);
    if extent.is_empty() {
        DVec2::ZERO
    } else {
        DVec2::new(extent.greatest.x, extent.least.y)
    }
}

/// A row for a positive length that is no part of the site yet.
pub(super) fn length_row_ui(
    ui: &mut Ui,
    label: &str,
    value: Length,
    system: UnitSystem,
) -> Option<Length> {
    let shown = Figure::of(value, system);
    let suffix = match system {
        UnitSystem::Metric => Length::unit_label(system),
        UnitSystem::FeetInches => "",
    };
    row_ui(ui, label, |ui| {
        Entry::new(label, shown.shown())
            .suffix(suffix)
            .show(ui, |text| {
                let length = Length::parse(text, system).map_err(|error| error.to_string())?;
                if length.as_metres() > 0.0 {
                    Ok(length)
                } else {
                    Err("enter a length above 0".to_owned())
                }
            })
    })
}

/// The next objects will be as `change` has it.
pub(super) fn change_drafts(
    editor: &Editor,
    intents: &mut Vec<Intent>,
    change: impl FnOnce(&mut Drafts),
) {
    let mut drafts = editor.drafts.clone();
    change(&mut drafts);
    intents.push(Intent::Drafts(Box::new(drafts)));
}

fn next_bay_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    // Its outline is not drawn yet: its figures are tried on a small one.
    let placed = |bay: Bay| {
        Some(Object::Bay(Arc::new(Bay {
            id: "draft".into(),
            outline: make::rectangle(DVec2::ZERO, DVec2::new(10.0, 10.0)),
            ..bay
        })))
    };
    let changed = draft_form_ui(ui, editor, &editor.drafts.bay, "bay", placed, |ui, form| {
        bay_fields_ui(ui, form);
    });
    if let Some(bay) = changed {
        change_drafts(editor, intents, |drafts| drafts.bay = bay);
    }
}

fn next_opening_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    // Where it goes decides what it may be: it is tried when it is cut.
    let changed = draft_form_ui(
        ui,
        editor,
        &editor.drafts.opening,
        "opening",
        |_| None,
        opening_fields_ui,
    );
    if let Some(opening) = changed {
        change_drafts(editor, intents, |drafts| drafts.opening = opening);
    }
}

fn bays_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.site();
    if site.bays.is_empty() {
        return;
    }
    let count = site.bays.len().to_string();
    fold_ui(ui, "Bays", &count, AtFirst::Unfolded, |ui| {
        let all = &site.bays;
        list_ui(ui, editor, intents, all.len(), |k| {
            let bay = &all[k];
            Item {
                id: ObjectId::Bay(bay.id.clone()),
                name: bay.name.clone(),
                figures: size_of(bay, site.units),
            }
        });
    });
}

/// Size over all and eave, as people tell bays apart.
fn size_of(bay: &Bay, system: UnitSystem) -> String {
    let extent = Extent::of(bay.outline.iter().copied());
    let size = extent.greatest - extent.least;
    let show = |length_m: f64| brief(system, Length::metres(length_m));
    let unit = match system {
        UnitSystem::Metric => " m",
        UnitSystem::FeetInches => "",
    };
    format!("{} × {}{unit}", show(size.x), show(size.y))
}

fn grid_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.site();
    let system = site.units;
    let state = super::grid_summary(site);
    fold_ui(ui, "Grid lines", &state, AtFirst::Unfolded, |ui| {
        let ways = [("Numbered", Naming::Numbers), ("Lettered", Naming::Letters)];
        for (label, naming) in ways {
            let taken = row_ui(ui, label, |ui| {
                Entry::new(label, Shown::One(""))
                    .hint(match system {
                        UnitSystem::Metric => "6 x 12 m",
                        UnitSystem::FeetInches => "6 x 40'",
                    })
                    .show(ui, |text| {
                        let edit = lay(site, naming, &parse(text, system)?);
                        super::ask::judged(site, &edit).map(|()| edit)
                    })
            });
            if let Some(edit) = taken {
                intents.push(Intent::CarryOut {
                    name: "Lay grid lines".to_owned(),
                    edit,
                });
            }
        }
        hint_ui(
            ui,
            "Spacings from the south-west corner: numbered lines eastward, lettered ones northward. Such as 5; 4 x 6; 5.",
        );
    });
}

fn openings_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.site();
    if site.openings.is_empty() {
        return;
    }
    let count = site.openings.len().to_string();
    fold_ui(ui, "Openings", &count, AtFirst::Folded, |ui| {
        let all = &site.openings;
        list_ui(ui, editor, intents, all.len(), |k| {
            let opening = &all[k];
            Item {
                id: ObjectId::Opening(opening.id.clone()),
                name: opening.kind.label().to_owned(),
                figures: format!(
                    "{} × {}",
                    brief(site.units, opening.width),
                    brief(site.units, opening.height)
                ),
            }
        });
    });
}

fn conditions_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let site = editor.site();
    fold_ui(ui, "Design conditions", "", AtFirst::Folded, |ui| {
        value_form_ui(
            ui,
            editor,
            intents,
            &site.conditions,
            Edit::Conditions,
            |ui, form| {
                form.quantity(
                    ui,
                    "Outside",
                    |it: &Conditions| it.outside,
                    |it, to| {
                        it.outside = to;
                    },
                );
                form.quantity(
                    ui,
                    "Wanted inside",
                    |it| it.wanted_operative,
                    |it, to| {
                        it.wanted_operative = to;
                    },
                );
                form.quantity(ui, "Altitude", |it| it.altitude, |it, to| it.altitude = to);
                form.segments(
                    ui,
                    "Gas",
                    &[(Gas::Natural, "natural"), (Gas::Propane, "propane")],
                    |it| it.gas,
                    |it, gas| it.gas = gas,
                );
                form.quantity(
                    ui,
                    "Supply pressure",
                    |it| it.supply_pressure,
                    |it, to| it.supply_pressure = to,
                );
                form.choice(
                    ui,
                    "Seismic category",
                    &SeismicCategory::ALL.map(|it| (it, it.label().to_owned())),
                    |it| it.seismic,
                    |it, category| it.seismic = category,
                );
                form.segments(
                    ui,
                    "Wind in the hall",
                    &[
                        (WindExposure::Sheltered, "sheltered"),
                        (WindExposure::Open, "open"),
                    ],
                    |it| it.wind,
                    |it, wind| it.wind = wind,
                );
            },
        );
    });
}
