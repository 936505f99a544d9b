//! The fields of what is picked: of one object, or of many of a kind at once.

use super::ask::{judged, objects_form_ui};
use super::fields::{
    bay_fields_ui, fixed_hanger_ui, framing_fields_ui, framing_place_ui, grid_line_fields_ui,
    obstruction_fields_ui, open_edges_ui, opening_fields_ui, opening_place_ui, place_fields_ui,
    run_fields_ui, run_place_ui, section_line_fields_ui, size_label, suspension_ui,
    work_spot_fields_ui,
};
use super::hanging::hanging_ui;
use super::rooms::rooms_ui;
use super::site_facts::site_facts_ui;
use super::ways_out::ways_out_ui;
use crate::editor::Editor;
use crate::editor::command::Command;
use crate::editor::intent::Intent;
use crate::editor::theme::STEP;
use crate::editor::view::Aspect;
use crate::editor::widgets::{
    Entry, Form, Shown, hint_ui, link_ui, panel_title_ui, row_ui, section_ui,
};
use crate::site::{
    Bay, Edit, Footprint, Framing, GridLine, Object, ObjectId, Obstruction, Opening, Run,
    SectionLine, WorkSpot,
};
use eframe::egui::Ui;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// What is picked, by kind.
#[derive(Default)]
struct Picked {
    grid: Vec<Arc<GridLine>>,
    bays: Vec<Arc<Bay>>,
    openings: Vec<Arc<Opening>>,
    framings: Vec<Arc<Framing>>,
    obstructions: Vec<Arc<Obstruction>>,
    work_spots: Vec<Arc<WorkSpot>>,
    sections: Vec<Arc<SectionLine>>,
    runs: Vec<Arc<Run>>,
}

/// The fields of what is picked; where nothing is, what the site amounts to.
pub(super) fn picked_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let ids = &editor.selection.ids;
    let kinds: BTreeMap<&str, BTreeSet<ObjectId>> =
        ids.iter().fold(BTreeMap::new(), |mut kinds, id| {
            kinds
                .entry(id.kind_label())
                .or_insert_with(BTreeSet::new)
                .insert(id.clone());
            kinds
        });
    match kinds.len() {
        0 => site_facts_ui(ui, editor),
        1 => {
            // Drafts of one selection are not those of another.
            ui.push_id(ids, |ui| one_kind_ui(ui, editor, intents));
        }
        _ => many_kinds_ui(ui, intents, &kinds),
    }
}

/// Objects of several kinds have no field in common: which of them is meant?
fn many_kinds_ui(
    ui: &mut Ui,
    intents: &mut Vec<Intent>,
    kinds: &BTreeMap<&str, BTreeSet<ObjectId>>,
) {
    let count: usize = kinds.values().map(BTreeSet::len).sum();
    panel_title_ui(ui, &format!("{count} objects"), "");
    hint_ui(
        ui,
        "They can be moved and turned together. To edit them, pick one kind:",
    );
    ui.add_space(STEP);
    for (kind, ids) in kinds {
        if link_ui(ui, &counted(ids.len(), kind)).clicked() {
            intents.push(Intent::Pick(ids.clone()));
        }
    }
}

fn counted(count: usize, kind: &str) -> String {
    match count {
        1 => format!("1 {kind}"),
        _ => format!("{count} {kind}s"),
    }
}

fn sorted(editor: &Editor) -> Picked {
    // The committed site, not the preview: what is typed must not fight what is dragged.
    let site = editor.committed();
    let mut picked = Picked::default();
    for object in editor.selection.ids.iter().filter_map(|id| site.object(id)) {
        match object {
            Object::GridLine(it) => picked.grid.push(it),
            Object::Bay(it) => picked.bays.push(it),
            Object::Opening(it) => picked.openings.push(it),
            Object::Framing(it) => picked.framings.push(it),
            Object::Obstruction(it) => picked.obstructions.push(it),
            Object::WorkSpot(it) => picked.work_spots.push(it),
            Object::SectionLine(it) => picked.sections.push(it),
            Object::Run(it) => picked.runs.push(it),
        }
    }
    picked
}

fn one_kind_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    heading_ui(ui, editor);
    let picked = sorted(editor);
    let site = editor.committed();
    grid_lines_ui(ui, editor, intents, &picked.grid);
    objects_form_ui(
        ui,
        editor,
        intents,
        &picked.bays,
        Object::Bay,
        |ui, form| {
            bay_fields_ui(ui, form);
            open_edges_ui(ui, form);
            notes_ui(ui, form, |it| &it.notes, |it| &mut it.notes);
        },
    );
    let wrap = Object::Opening;
    objects_form_ui(ui, editor, intents, &picked.openings, wrap, |ui, form| {
        opening_fields_ui(ui, form);
        section_ui(ui, "Place", "");
        opening_place_ui(ui, form);
        notes_ui(ui, form, |it| &it.notes, |it| &mut it.notes);
    });
    let wrap = Object::Framing;
    objects_form_ui(ui, editor, intents, &picked.framings, wrap, |ui, form| {
        framing_place_ui(ui, form, site);
        framing_fields_ui(ui, form, site);
        notes_ui(ui, form, |it| &it.notes, |it| &mut it.notes);
    });
    let wrap = Object::Obstruction;
    objects_form_ui(
        ui,
        editor,
        intents,
        &picked.obstructions,
        wrap,
        |ui, form| {
            obstruction_fields_ui(ui, form);
            notes_ui(ui, form, |it| &it.notes, |it| &mut it.notes);
        },
    );
    holes_ui(ui, intents, &picked.obstructions);
    work_spots_ui(ui, editor, intents, &picked.work_spots);
    sections_ui(ui, editor, intents, &picked.sections);
    runs_ui(ui, editor, intents, &picked.runs);
    id_ui(ui, editor, intents);
}

/// Holes of the only picked obstruction can be filled again.
fn holes_ui(ui: &mut Ui, intents: &mut Vec<Intent>, obstructions: &[Arc<Obstruction>]) {
    let [obstruction] = obstructions else {
        return;
    };
    let Footprint::Area { outline, holes } = &obstruction.footprint else {
        return;
    };
    if holes.is_empty() {
        return;
    }
    ui.add_space(STEP);
    let what = counted(holes.len(), "hole");
    if link_ui(ui, &format!("Fill {what}")).clicked() {
        let footprint = Footprint::Area {
            outline: outline.clone(),
            holes: Vec::new(),
        };
        intents.push(Intent::CarryOut {
            name: format!("Fill {what} of {}", obstruction.id),
            edit: Edit::Put(Object::Obstruction(Arc::new(Obstruction {
                footprint,
                ..Obstruction::clone(obstruction)
            }))),
        });
    }
}

fn grid_lines_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>, lines: &[Arc<GridLine>]) {
    objects_form_ui(ui, editor, intents, lines, Object::GridLine, |ui, form| {
        grid_line_fields_ui(ui, form);
        notes_ui(ui, form, |it| &it.notes, |it| &mut it.notes);
    });
}

fn work_spots_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>, spots: &[Arc<WorkSpot>]) {
    objects_form_ui(ui, editor, intents, spots, Object::WorkSpot, |ui, form| {
        if let Some(first) = spots.first() {
            let grid = &editor.committed().grid;
            place_fields_ui(ui, form, grid, first.at, |it| it.at, |it, to| it.at = to);
        }
        work_spot_fields_ui(ui, form);
        notes_ui(ui, form, |it| &it.notes, |it| &mut it.notes);
    });
}

fn sections_ui(
    ui: &mut Ui,
    editor: &Editor,
    intents: &mut Vec<Intent>,
    lines: &[Arc<SectionLine>],
) {
    let wrap = Object::SectionLine;
    objects_form_ui(ui, editor, intents, lines, wrap, |ui, form| {
        section_line_fields_ui(ui, form);
        notes_ui(ui, form, |it| &it.notes, |it| &mut it.notes);
    });
    if let [line] = lines {
        ui.add_space(STEP);
        if link_ui(ui, &format!("Show section {}", line.label())).clicked() {
            intents.push(Intent::Command(Command::Look(Aspect::Section)));
        }
    }
}

fn runs_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>, runs: &[Arc<Run>]) {
    objects_form_ui(ui, editor, intents, runs, Object::Run, |ui, form| {
        if let Some(first) = runs.first() {
            run_place_ui(ui, form, &editor.committed().grid, first);
        }
        run_fields_ui(ui, form, &editor.catalogue);
    });
    if let [run] = runs {
        ways_out_ui(ui, editor, intents, &run.id);
        hanging_ui(ui, editor, intents, &run.id);
        rooms_ui(ui, editor, &run.id);
    }
    ui.push_id("notes", |ui| {
        objects_form_ui(ui, editor, intents, runs, Object::Run, |ui, form| {
            suspension_ui(ui, form, editor.committed().conditions.suspension);
            fixed_hanger_ui(ui, form);
            notes_ui(ui, form, |it| &it.notes, |it| &mut it.notes);
        });
    });
}

/// What the user notes, under the fields.
fn notes_ui<T: Clone>(
    ui: &mut Ui,
    form: &mut Form<'_, T>,
    read: fn(&T) -> &String,
    write: fn(&mut T) -> &mut String,
) {
    ui.add_space(STEP);
    form.notes(ui, |it| read(it).clone(), |it, text| *write(it) = text);
}

/// What is picked, in words.
fn heading_ui(ui: &mut Ui, editor: &Editor) {
    let ids = &editor.selection.ids;
    let Some(first) = ids.first() else {
        return;
    };
    if ids.len() > 1 {
        panel_title_ui(
            ui,
            &counted(ids.len(), first.kind_label()),
            "edited together",
        );
        ui.add_space(STEP);
        return;
    }
    panel_title_ui(ui, first.as_str(), &described(editor, first));
    ui.add_space(STEP);
}

/// A field for another id of the only object picked.
fn id_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>) {
    let Some(first) = editor.selection.single() else {
        return;
    };
    let taken = row_ui(ui, "Id", |ui| {
        Entry::new("Id", Shown::One(first.as_str())).show(ui, |text| {
            let to = text.trim().to_owned();
            let edit = Edit::Rename {
                from: first.clone(),
                to: to.clone(),
            };
            judged(editor.committed(), &edit).map(|()| to)
        })
    });
    if let Some(to) = taken {
        let from = first.clone();
        intents.push(Intent::CarryOut {
            name: format!("Rename {from} to {to}"),
            edit: Edit::Rename {
                from: from.clone(),
                to: to.clone(),
            },
        });
        intents.push(Intent::Pick(BTreeSet::from([from.renamed(&to)])));
    }
}

/// What an object is, in a few words.
fn described(editor: &Editor, id: &ObjectId) -> String {
    let site = editor.site();
    match site.object(id) {
        Some(Object::Run(run)) => editor.catalogue.size(&run.family, &run.size).map_or_else(
            || run.family.clone(),
            |(family, size)| format!("{} {}", family.name, size_label(size, site.units)),
        ),
        Some(Object::Obstruction(it)) => it.kind.label().to_owned(),
        Some(Object::Opening(it)) => it.kind.label().to_owned(),
        Some(Object::Framing(it)) => it.kind.label().to_owned(),
        _ => id.kind_label().to_owned(),
    }
}
