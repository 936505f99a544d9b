//! Forms: one or many objects of a kind, edited together.
//!
//! A form is written once for a kind of object and serves the next one to be drawn, the
//! picked one, and many picked at once: a field shows what they have in common, or
//! "several", and what is entered goes to all of them as one step.

use super::choice::{choice_ui, segments_ui};
use super::field::{Entry, Shown};
use super::message_ui;
use super::row::row_ui;
use crate::editor::figures::brief;
use crate::editor::theme::STEP;
use crate::editor::widgets::Tone;
use crate::units::{Quantity, UnitSystem};
use eframe::egui::Ui;

/// What judges changed objects before they are taken: a sentence where they can't be.
pub(crate) type Judge<'a, T> = &'a dyn Fn(&[T]) -> Result<(), String>;

/// A form on its subjects.
pub(crate) struct Form<'a, T> {
    subjects: Vec<&'a T>,
    system: UnitSystem,
    judge: Judge<'a, T>,
    /// What a reader of the screen hears behind each label: two forms of a kind may be in
    /// sight at once.
    whose: String,
    taken: Option<Taken<T>>,
    trouble: Option<String>,
}

/// What the user changed.
#[derive(Debug, PartialEq)]
pub(crate) struct Taken<T> {
    /// Which field, as its label says it, in small letters.
    pub(crate) what: String,
    /// All subjects, changed.
    pub(crate) changed: Vec<T>,
}

impl<'a, T: Clone> Form<'a, T> {
    /// A form on subjects, which must not be empty, in the units shown.
    pub(crate) fn new(subjects: Vec<&'a T>, system: UnitSystem, judge: Judge<'a, T>) -> Self {
        Self {
            subjects,
            system,
            judge,
            whose: String::new(),
            taken: None,
            trouble: None,
        }
    }

    /// The form on the next object of a kind.
    pub(crate) fn on_the_next(mut self, kind: &str) -> Self {
        self.whose = format!(" of the next {kind}");
        self
    }

    /// The name of a field for a reader of the screen.
    fn said(&self, label: &str) -> String {
        format!("{label}{}", self.whose)
    }

    /// The units shown.
    pub(crate) const fn system(&self) -> UnitSystem {
        self.system
    }

    /// What the user changed in this frame, at most one field.
    pub(crate) fn taken(self) -> Option<Taken<T>> {
        self.taken
    }

    /// The value that all subjects have, if they have one.
    pub(crate) fn common<V: PartialEq>(&self, read: impl Fn(&T) -> V) -> Option<V> {
        let mut values = self.subjects.iter().map(|subject| read(subject));
        let first = values.next()?;
        values.all(|value| value == first).then_some(first)
    }

    /// A row for a quantity.
    pub(crate) fn quantity<Q: Quantity>(
        &mut self,
        ui: &mut Ui,
        label: &str,
        read: impl Fn(&T) -> Q,
        write: impl Fn(&mut T, Q),
    ) {
        let system = self.system;
        let shown = self.common(read).map(|value| Figure::of(value, system));
        self.entry(
            ui,
            label,
            shown,
            Q::unit_label(system),
            "",
            |text| Q::parse(text, system).map_err(|error| error.to_string()),
            write,
        );
    }

    /// One row for two quantities of a kind, such as both coordinates of a place, each with
    /// a word of its own in front.
    pub(crate) fn pair<Q: Quantity>(
        &mut self,
        ui: &mut Ui,
        label: &str,
        names: [&str; 2],
        marks: [&str; 2],
        read: impl Fn(&T, usize) -> Q,
        write: impl Fn(&mut T, usize, Q),
    ) {
        let system = self.system;
        if system == UnitSystem::FeetInches {
            // Two figures with feet, inches and fractions don't fit beside each other.
            for (which, name) in names.into_iter().enumerate() {
                let read = |it: &T| read(it, which);
                self.quantity(ui, name, read, |it, value| write(it, which, value));
            }
            return;
        }
        let suffix = unit_behind(Q::unit_label(system));
        row_ui(ui, label, |ui| {
            ui.horizontal_top(|ui| {
                ui.spacing_mut().item_spacing.x = STEP;
                let width = (ui.available_width() - STEP) / 2.0;
                for (which, name) in names.into_iter().enumerate() {
                    let shown = self
                        .common(|it| read(it, which))
                        .map(|value| Figure::of(value, system));
                    let shown = shown.as_ref().map_or(Shown::Several, Figure::shown);
                    ui.vertical(|ui| {
                        ui.set_width(width);
                        let said = self.said(name);
                        let taken = Entry::new(&said, shown)
                            .mark(marks[which])
                            .suffix(suffix)
                            .show(ui, |text| {
                                let value =
                                    Q::parse(text, system).map_err(|error| error.to_string())?;
                                self.changed(label, |it| write(it, which, value))
                            });
                        self.taken = self.taken.take().or(taken);
                    });
                }
            });
        });
    }

    /// A row for a quantity that may be left out; `hint` says what it means to do so.
    pub(crate) fn optional<Q: Quantity>(
        &mut self,
        ui: &mut Ui,
        label: &str,
        hint: &str,
        read: impl Fn(&T) -> Option<Q>,
        write: impl Fn(&mut T, Option<Q>),
    ) {
        let system = self.system;
        let shown = self
            .common(read)
            .map(|value| value.map_or_else(Figure::default, |value| Figure::of(value, system)));
        self.entry(
            ui,
            label,
            shown,
            Q::unit_label(system),
            hint,
            |text| {
                if text.trim().is_empty() {
                    return Ok(None);
                }
                Q::parse(text, system)
                    .map(Some)
                    .map_err(|error| error.to_string())
            },
            write,
        );
    }

    /// A row for words.
    pub(crate) fn text(
        &mut self,
        ui: &mut Ui,
        label: &str,
        hint: &str,
        read: impl Fn(&T) -> String,
        write: impl Fn(&mut T, String),
    ) {
        let shown = self.common(read);
        self.entry(
            ui,
            label,
            shown,
            "",
            hint,
            |text| Ok(text.trim().to_owned()),
            write,
        );
    }

    /// A row for a value that is read and shown in a way of its own. `shown` is none
    /// where the subjects differ.
    #[expect(clippy::too_many_arguments, reason = "what there is to say of a field")]
    pub(crate) fn entry<V: Clone>(
        &mut self,
        ui: &mut Ui,
        label: &str,
        shown: Option<impl Into<Figure>>,
        suffix: &'static str,
        hint: &str,
        parse: impl Fn(&str) -> Result<V, String>,
        write: impl Fn(&mut T, V),
    ) {
        let suffix = unit_behind(suffix);
        let shown: Option<Figure> = shown.map(Into::into);
        row_ui(ui, label, |ui| {
            let shown = shown.as_ref().map_or(Shown::Several, Figure::shown);
            let said = self.said(label);
            let taken = Entry::new(&said, shown)
                .suffix(suffix)
                .hint(hint)
                .show(ui, |text| {
                    let value = parse(text)?;
                    self.changed(label, |subject| write(subject, value.clone()))
                });
            self.taken = self.taken.take().or(taken);
        });
    }

    /// A field of several lines for what the user notes, as wide as the form.
    pub(crate) fn notes(
        &mut self,
        ui: &mut Ui,
        read: impl Fn(&T) -> String,
        write: impl Fn(&mut T, String),
    ) {
        let shown = self.common(read);
        let said = self.said("Notes");
        let taken = Entry::new(&said, shown.as_deref().map_or(Shown::Several, Shown::One))
            .hint("Notes")
            .lines(2)
            .show(ui, |text| {
                self.changed("Notes", |subject| write(subject, text.trim().to_owned()))
            });
        self.taken = self.taken.take().or(taken);
    }

    /// A row for one of several, in a list that drops down.
    pub(crate) fn choice<V: PartialEq + Clone>(
        &mut self,
        ui: &mut Ui,
        label: &str,
        options: &[(V, String)],
        read: impl Fn(&T) -> V,
        write: impl Fn(&mut T, V),
    ) {
        self.pick(ui, label, options, read, write, choice_ui);
    }

    /// A row for one of a few, all in sight.
    pub(crate) fn segments<V: PartialEq + Clone>(
        &mut self,
        ui: &mut Ui,
        label: &str,
        options: &[(V, &str)],
        read: impl Fn(&T) -> V,
        write: impl Fn(&mut T, V),
    ) {
        let options: Vec<(V, String)> = options
            .iter()
            .map(|(value, name)| (value.clone(), (*name).to_owned()))
            .collect();
        self.pick(ui, label, &options, read, write, segments_ui);
    }

    fn pick<V: PartialEq + Clone>(
        &mut self,
        ui: &mut Ui,
        label: &str,
        options: &[(V, String)],
        read: impl Fn(&T) -> V,
        write: impl Fn(&mut T, V),
        control: impl Fn(&mut Ui, &str, Option<usize>, &[String]) -> Option<usize>,
    ) {
        let common = self.common(read);
        let chosen =
            common.and_then(|common| options.iter().position(|(value, _)| *value == common));
        let names: Vec<String> = options.iter().map(|(_, name)| name.clone()).collect();
        row_ui(ui, label, |ui| {
            if let Some(index) = control(ui, &self.said(label), chosen, &names) {
                self.put(label, |subject| write(subject, options[index].0.clone()));
            }
        });
    }

    /// Changes all subjects at once, as a button does. What is refused is told by
    /// [`Self::trouble_ui`].
    pub(crate) fn put(&mut self, what: &str, change: impl Fn(&mut T)) {
        match self.changed(what, change) {
            Ok(taken) => self.taken = self.taken.take().or(Some(taken)),
            Err(reason) => self.trouble = Some(reason),
        }
    }

    /// Why the last choice was refused, until something else is chosen.
    pub(crate) fn trouble_ui(&mut self, ui: &mut Ui) {
        let id = ui.scope_id().with("form trouble");
        if self.taken.is_some() {
            ui.data_mut(|data| {
                data.remove_temp::<String>(id);
            });
        }
        if let Some(trouble) = self.trouble.take() {
            ui.data_mut(|data| {
                data.insert_temp(id, trouble);
            });
        }
        if let Some(trouble) = ui.data(|data| data.get_temp::<String>(id)) {
            message_ui(ui, Tone::Breach, &trouble);
        }
    }

    fn changed(&self, what: &str, change: impl Fn(&mut T)) -> Result<Taken<T>, String> {
        let changed: Vec<T> = self
            .subjects
            .iter()
            .map(|subject| {
                let mut subject = (*subject).clone();
                change(&mut subject);
                subject
            })
            .collect();
        (self.judge)(&changed)?;
        Ok(Taken {
            what: lower_first(what),
            changed,
        })
    }
}

/// A label as it stands within a sentence; abbreviations keep their capitals.
fn lower_first(label: &str) -> String {
    let mut chars = label.chars();
    match (chars.next(), label.chars().nth(1)) {
        (Some(first), Some(second)) if second.is_lowercase() || second == ' ' => {
            first.to_lowercase().chain(chars).collect()
        }
        _ => label.to_owned(),
    }
}

/// The unit that stands behind a figure: feet and inches stand in it.
fn unit_behind(label: &'static str) -> &'static str {
    if label == "ft in" { "" } else { label }
}

/// What stands in a field: a text, and a brief form of it where it is long.
#[derive(Debug, Default)]
pub(crate) struct Figure {
    exact: String,
    brief: Option<String>,
}

impl Figure {
    /// A quantity in the units shown.
    pub(crate) fn of<Q: Quantity>(value: Q, system: UnitSystem) -> Self {
        let exact = value.show(system);
        let brief = brief(system, value);
        Self {
            brief: (brief != exact).then_some(brief),
            exact,
        }
    }

    /// As a field takes it.
    pub(crate) fn shown(&self) -> Shown<'_> {
        match &self.brief {
            Some(brief) => Shown::Brief {
                exact: &self.exact,
                brief,
            },
            None => Shown::One(&self.exact),
        }
    }
}

impl From<String> for Figure {
    fn from(exact: String) -> Self {
        Self { exact, brief: None }
    }
}
