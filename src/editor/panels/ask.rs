//! From forms to steps: what a form changed, tried on the site before it is taken, so
//! that a value which the site refuses stays in its field with the reason.

use crate::editor::Editor;
use crate::editor::intent::Intent;
use crate::editor::widgets::Form;
use crate::problem::Problems;
use crate::site::Site;
use crate::site::{Edit, Object};
use eframe::egui::Ui;
use std::sync::Arc;

/// A form on objects of the site. What is entered becomes one step for all of them.
pub(super) fn objects_form_ui<T: Clone>(
    ui: &mut Ui,
    editor: &Editor,
    intents: &mut Vec<Intent>,
    subjects: &[Arc<T>],
    wrap: fn(Arc<T>) -> Object,
    fields: impl FnOnce(&mut Ui, &mut Form<'_, T>),
) {
    let Some(first) = subjects.first() else {
        return;
    };
    let site = editor.committed();
    let edit_of = |changed: &[T]| {
        let puts = changed
            .iter()
            .map(|object| Edit::Put(wrap(Arc::new(object.clone()))));
        Edit::All(puts.collect())
    };
    let judge = |changed: &[T]| judged(site, &edit_of(changed));
    let all = subjects.iter().map(AsRef::as_ref).collect();
    let mut form = Form::new(all, site.units, &judge);
    fields(ui, &mut form);
    form.trouble_ui(ui);
    if let Some(taken) = form.taken() {
        let id = wrap(Arc::clone(first)).id();
        let of = match subjects.len() {
            1 => id.to_string(),
            count => format!("{count} {}s", id.kind_label()),
        };
        intents.push(Intent::CarryOut {
            name: format!("Set {} of {of}", taken.what),
            edit: edit_of(&taken.changed),
        });
    }
}

/// A form on one value of the site that is no object: conditions, sheet settings.
pub(super) fn value_form_ui<T: Clone>(
    ui: &mut Ui,
    editor: &Editor,
    intents: &mut Vec<Intent>,
    subject: &T,
    wrap: impl Fn(T) -> Edit,
    fields: impl FnOnce(&mut Ui, &mut Form<'_, T>),
) {
    let site = editor.committed();
    let edit_of = |changed: &[T]| Edit::All(changed.iter().cloned().map(&wrap).collect());
    let judge = |changed: &[T]| judged(site, &edit_of(changed));
    let mut form = Form::new(vec![subject], site.units, &judge);
    fields(ui, &mut form);
    form.trouble_ui(ui);
    if let Some(taken) = form.taken() {
        intents.push(Intent::CarryOut {
            name: format!("Set {}", taken.what),
            edit: edit_of(&taken.changed),
        });
    }
}

/// A form on the next object of a kind to be drawn. `placed` makes an object of the draft, to see
/// whether the site would take it; none where it can't be tried yet.
pub(super) fn draft_form_ui<T: Clone>(
    ui: &mut Ui,
    editor: &Editor,
    subject: &T,
    kind: &str,
    placed: impl Fn(T) -> Option<Object>,
    fields: impl FnOnce(&mut Ui, &mut Form<'_, T>),
) -> Option<T> {
    let site = editor.committed();
    let judge = |changed: &[T]| {
        let puts = changed.iter().cloned().filter_map(&placed).map(Edit::Put);
        judged(site, &Edit::All(puts.collect()))
    };
    let mut form = Form::new(vec![subject], site.units, &judge).on_the_next(kind);
    fields(ui, &mut form);
    form.trouble_ui(ui);
    form.taken()
        .and_then(|taken| taken.changed.into_iter().next())
}

/// Whether the site takes an edit; a sentence where it doesn't.
pub(super) fn judged(site: &Site, edit: &Edit) -> Result<(), String> {
    edit.apply(site)
        .map(drop)
        .map_err(|refused| sentence(&refused))
}

/// The first thing that is wrong, as a sentence for the field that it was typed into.
pub(super) fn sentence(problems: &Problems) -> String {
    problems.kept().first().map_or_else(
        || "this can't be used".to_owned(),
        |problem| {
            format!(
                "{} can't be used; accepted: {}",
                problem.found, problem.accepted
            )
        },
    )
}
