//! A change of the document as a value, applied in one function that can refuse.

pub use super::object::{Object, ObjectId};

use super::object::Identified;
use super::validate::{Touched, check_touched};
use super::{
    Acceptance, Conditions, Policy, Scheme, SchemeId, SheetSettings, Site, normal, remove, rename,
};
use crate::problem::{Problem, Problems};
use crate::units::UnitSystem;
use std::sync::Arc;

/// A change of the document.
#[derive(Debug, Clone, PartialEq)]
pub enum Edit {
    /// Adds an object, or replaces the one with its id. Runs go to the shown scheme.
    Put(Object),
    /// Removes an object with what cannot stand without it: a bay with its openings and
    /// framings, a grid line from the framings that bear on it, locked hangers with the
    /// framing that they hang from (their runs are solved again), and acceptances of
    /// findings about it.
    Remove(ObjectId),
    /// Gives an object another id; what refers to it follows.
    Rename {
        /// Which object; a run of the shown scheme.
        from: ObjectId,
        /// Its new id.
        to: String,
    },
    /// Names the site.
    Name(String),
    /// Says where it is.
    Place(String),
    /// Sets the site's notes.
    Notes(String),
    /// Sets the units shown.
    Units(UnitSystem),
    /// Sets the design conditions.
    Conditions(Conditions),
    /// Sets the numbers that differ from the defaults.
    Policy(Policy),
    /// Sets what the sheets say.
    Sheets(SheetSettings),
    /// Adds a scheme, or replaces the one with its id.
    PutScheme(Arc<Scheme>),
    /// Removes a scheme, though not the last one. Where it was shown, the first is.
    RemoveScheme(SchemeId),
    /// Shows a scheme.
    ShowScheme(SchemeId),
    /// Accepts a finding, or replaces the reason for which it was.
    Accept(Acceptance),
    /// Takes an acceptance back.
    TakeBackAcceptance {
        /// The rule's name.
        rule: String,
        /// The ids that the finding is about, in any order.
        subjects: Vec<String>,
    },
    /// All of these in order, or none of them; checked when all are done.
    All(Vec<Self>),
}

impl Edit {
    /// The site with the change made. Objects that do not change stay pointer-equal, and
    /// so does one that is put as it already was.
    ///
    /// Checks only what the edit touches: a checked site stays one.
    ///
    /// # Errors
    /// What the edit was refused for.
    pub fn apply(&self, site: &Site) -> Result<Site, Problems> {
        let mut next = site.clone();
        let mut touched = Touched::default();
        self.change(&mut next, &mut touched)?;
        check_touched(&next, &touched)?;
        Ok(next)
    }

    fn change(&self, site: &mut Site, touched: &mut Touched) -> Result<(), Problems> {
        match self {
            Self::Put(object) => {
                touched
                    .objects
                    .push((site.shown_scheme.clone(), object.id()));
                put_object(site, normal::object(object));
            }
            Self::Remove(id) => {
                known(site, id)?;
                remove::remove(site, id);
            }
            Self::Rename { from, to } => rename(site, touched, from, to)?,
            Self::Name(name) => site.name.clone_from(name),
            Self::Place(place) => site.place.clone_from(place),
            Self::Notes(notes) => site.notes.clone_from(notes),
            Self::Units(units) => site.units = *units,
            Self::Conditions(conditions) => site.conditions = conditions.clone(),
            Self::Policy(policy) => site.policy = policy.clone(),
            Self::Sheets(sheets) => site.sheets = sheets.clone(),
            Self::PutScheme(scheme) => {
                touched.schemes.push(scheme.id.clone());
                put(&mut site.schemes, &normal::scheme(scheme));
            }
            Self::RemoveScheme(id) => remove_scheme(site, id)?,
            Self::ShowScheme(id) => {
                known_scheme(site, id)?;
                site.shown_scheme = id.clone();
            }
            Self::Accept(acceptance) => accept(site, acceptance),
            Self::TakeBackAcceptance { rule, subjects } => take_back(site, rule, subjects)?,
            Self::All(edits) => {
                for edit in edits {
                    edit.change(site, touched)?;
                }
            }
        }
        Ok(())
    }
}

fn put_object(site: &mut Site, object: Object) {
    match object {
        Object::GridLine(it) => put(&mut site.grid, &it),
        Object::Bay(it) => put(&mut site.bays, &it),
        Object::Opening(it) => put(&mut site.openings, &it),
        Object::Framing(it) => put(&mut site.framings, &it),
        Object::Obstruction(it) => put(&mut site.obstructions, &it),
        Object::WorkSpot(it) => put(&mut site.work_spots, &it),
        Object::SectionLine(it) => put(&mut site.sections, &it),
        Object::Run(it) => {
            let shown = site.shown_scheme.clone();
            if let Some(scheme) = site.schemes.iter_mut().find(|known| known.id == shown) {
                put(&mut Arc::make_mut(scheme).runs, &it);
            }
        }
    }
}

/// Adds an object, or replaces the one with its id, unless that is equal.
fn put<T: Identified + PartialEq>(list: &mut Vec<Arc<T>>, object: &Arc<T>) {
    match list.iter_mut().find(|known| known.id() == object.id()) {
        Some(known) if **known == **object => {}
        Some(known) => *known = Arc::clone(object),
        None => list.push(Arc::clone(object)),
    }
}

fn rename(
    site: &mut Site,
    touched: &mut Touched,
    from: &ObjectId,
    to: &str,
) -> Result<(), Problems> {
    known(site, from)?;
    let id = from.renamed(to);
    if id == *from {
        return Ok(());
    }
    if site.object(&id).is_some() {
        return Err(refused("id", to, "an id that nothing else has"));
    }
    rename::rename(site, from, to);
    touched.objects.push((site.shown_scheme.clone(), id));
    Ok(())
}

fn remove_scheme(site: &mut Site, id: &SchemeId) -> Result<(), Problems> {
    known_scheme(site, id)?;
    site.schemes.retain(|known| known.id != *id);
    let Some(first) = site.schemes.first() else {
        return Err(refused(
            "schemes",
            id.as_str(),
            "a site keeps one scheme at least",
        ));
    };
    if site.shown_scheme == *id {
        site.shown_scheme = first.id.clone();
    }
    Ok(())
}

fn accept(site: &mut Site, acceptance: &Acceptance) {
    let same = |known: &&mut Acceptance| {
        known.rule == acceptance.rule && same_subjects(&known.subjects, &acceptance.subjects)
    };
    match site.acceptances.iter_mut().find(same) {
        Some(known) => known.clone_from(acceptance),
        None => site.acceptances.push(acceptance.clone()),
    }
}

fn take_back(site: &mut Site, rule: &str, subjects: &[String]) -> Result<(), Problems> {
    let is_it = |known: &Acceptance| known.rule == rule && same_subjects(&known.subjects, subjects);
    if !site.acceptances.iter().any(is_it) {
        let found = format!("{rule} of {}", subjects.join(", "));
        return Err(refused("acceptances", &found, "a finding that is accepted"));
    }
    site.acceptances.retain(|known| !is_it(known));
    Ok(())
}

fn same_subjects(one: &[String], other: &[String]) -> bool {
    let sorted = |subjects: &[String]| {
        let mut subjects = subjects.to_vec();
        subjects.sort_unstable();
        subjects
    };
    sorted(one) == sorted(other)
}

fn known(site: &Site, id: &ObjectId) -> Result<(), Problems> {
    if site.object(id).is_some() {
        return Ok(());
    }
    let accepted = format!("the id of a {} of this site", id.kind_label());
    Err(refused("id", id.as_str(), &accepted))
}

fn known_scheme(site: &Site, id: &SchemeId) -> Result<(), Problems> {
    if site.schemes.iter().any(|known| known.id == *id) {
        return Ok(());
    }
    Err(refused(
        "schemes",
        id.as_str(),
        "the id of a scheme of this site",
    ))
}

fn refused(path: &str, found: &str, accepted: &str) -> Problems {
    Problems::one(Problem {
        path: path.to_owned(),
        subject: None,
        found: found.to_owned(),
        accepted: accepted.to_owned(),
    })
}
