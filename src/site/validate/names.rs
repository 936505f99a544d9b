//! Ids: given, short, unique.
//!
//! An id names one thing, whatever its kind: who says `R3` over the phone must not be
//! asked whether the run or the rack is meant. Grid lines, section lines and schemes have
//! lettering of their own, and the runs of two schemes may share their ids, being alternatives.

use super::Path;
use crate::problem::{Check, Problems};
use crate::site::object::ObjectId;
use crate::site::{Scheme, Site};
use std::collections::BTreeMap;
use std::fmt::Display;

/// Longest id, in bytes: it is printed beside its object.
const ID_BYTES: usize = 40;

/// An id that can be read, said and printed.
pub(super) fn check_text(field: impl Display, id: &str, check: &mut Check<'_>) {
    let is_clean = id.trim() == id && !id.chars().any(char::is_control);
    if id.is_empty() {
        check.refuse(field, "an empty id", "a short name such as R3");
    } else if id.len() > ID_BYTES {
        let found = format_args!("{} bytes", id.len());
        let accepted = format_args!("an id of at most {ID_BYTES} bytes");
        check.refuse(field, found, accepted);
    } else if !is_clean {
        let accepted = "an id without blanks at its ends and without control characters";
        check.refuse(field, format_args!("{id:?}"), accepted);
    }
}

/// The ids of the whole site.
pub(super) fn check_unique(site: &Site, problems: &mut Problems) {
    let mut grid = BTreeMap::new();
    let mut sections = BTreeMap::new();
    let mut objects = BTreeMap::new();
    for (path, object) in site.objects_with_paths() {
        let id = object.id();
        let taken = match id {
            ObjectId::GridLine(_) => &mut grid,
            ObjectId::SectionLine(_) => &mut sections,
            _ => &mut objects,
        };
        let text = id.as_str().to_owned();
        if let Some(first) = taken.get(&text) {
            refuse_namesake(&text, path, first, problems);
        } else {
            taken.insert(text, path);
        }
    }
    let mut schemes = BTreeMap::new();
    for (i, scheme) in site.schemes.iter().enumerate() {
        let path = Path::List("schemes", i);
        if let Some(first) = schemes.insert(scheme.id.as_str(), path) {
            refuse_namesake(scheme.id.as_str(), path, first, problems);
        }
        let mut runs: BTreeMap<&str, Path> = BTreeMap::new();
        for (j, run) in scheme.runs.iter().enumerate() {
            let (text, path) = (run.id.as_str(), Path::Run(i, j));
            if let Some(first) = objects.get(text).or_else(|| runs.get(text)) {
                refuse_namesake(text, path, first, problems);
            } else {
                runs.insert(text, path);
            }
        }
    }
}

/// The id of one object that an edit has put.
pub(super) fn check_alone(site: &Site, id: &ObjectId, path: Path, problems: &mut Problems) {
    if matches!(id, ObjectId::GridLine(_) | ObjectId::SectionLine(_)) {
        return;
    }
    let text = id.as_str();
    let namesake = namesakes(text)
        .into_iter()
        .filter(|other| other != id)
        // Runs of every scheme count, or the clash would come up when another is shown.
        .find_map(|other| {
            site.schemes
                .iter()
                .find_map(|scheme| super::locate(site, &scheme.id, &other))
        });
    if let Some((first, _)) = namesake {
        refuse_namesake(text, path, first, problems);
    }
}

/// The ids of one scheme's runs that an edit has put.
pub(super) fn check_runs_unique(site: &Site, scheme: &Scheme, i: usize, problems: &mut Problems) {
    let mut seen = BTreeMap::new();
    for (j, run) in scheme.runs.iter().enumerate() {
        let path = Path::Run(i, j);
        if let Some(first) = seen.insert(run.id.as_str(), path) {
            refuse_namesake(run.id.as_str(), path, first, problems);
        } else {
            check_alone(site, &ObjectId::Run(run.id.clone()), path, problems);
        }
    }
}

/// Every kind of object that may not share a text.
fn namesakes(text: &str) -> [ObjectId; 6] {
    [
        ObjectId::Bay(text.into()),
        ObjectId::Opening(text.into()),
        ObjectId::Framing(text.into()),
        ObjectId::Obstruction(text.into()),
        ObjectId::WorkSpot(text.into()),
        ObjectId::Run(text.into()),
    ]
}

fn refuse_namesake(text: &str, path: Path, first: impl Display, problems: &mut Problems) {
    let found = format_args!("{text}, which is the id of {first} too");
    Check::of(problems, path, text).refuse("id", found, "an id that nothing else has");
}
