//! Renaming an object: what refers to it follows.

use super::id::WALL;
use super::remove::{edit_runs, edit_shown_scheme};
use super::{
    Acceptance, Framing, FramingId, GridId, Hanging, MemberId, Object, ObjectId, Run, Site,
};
use std::sync::Arc;

/// Gives an object another id; what refers to it follows.
pub(super) fn rename(site: &mut Site, from: &ObjectId, to: &str) {
    if let Some(object) = site.object(from) {
        replace(site, from, &object.with_id(to));
    }
    match from {
        ObjectId::GridLine(line) => rename_line(site, line, to),
        ObjectId::Bay(bay) => {
            for opening in site.openings.iter_mut().filter(|it| it.bay == *bay) {
                Arc::make_mut(opening).bay = to.into();
            }
            for framing in site.framings.iter_mut().filter(|it| it.bay == *bay) {
                Arc::make_mut(framing).bay = to.into();
            }
        }
        ObjectId::Framing(framing) => edit_runs(site, |run| {
            with_members(run, &|member| with_framing(member, framing, to))
        }),
        ObjectId::Opening(_)
        | ObjectId::Obstruction(_)
        | ObjectId::WorkSpot(_)
        | ObjectId::SectionLine(_)
        | ObjectId::Run(_) => {}
    }
    rename_subjects(site, from, to);
}

/// A renamed grid line is renamed in what was measured from it, in the framings that
/// bear on it and in the names of their spans: `J-20/AB` becomes `J-20/AX`.
fn rename_line(site: &mut Site, line: &GridId, to: &str) {
    for framing in &mut site.framings {
        if framing.is_measured_from(line) {
            for adjustment in &mut Arc::make_mut(framing).as_built {
                adjustment.rename_line(line, to);
            }
        }
    }
    let bearing: Vec<Arc<Framing>> = site
        .framings
        .iter()
        .filter(|it| it.bears_on.contains(line))
        .cloned()
        .collect();
    if bearing.is_empty() {
        return;
    }
    let new_member = |member: &MemberId| {
        bearing
            .iter()
            .find_map(|framing| with_line(member, framing, line, to))
    };
    edit_runs(site, |run| with_members(run, &new_member));
    for acceptance in &mut site.acceptances {
        for subject in &mut acceptance.subjects {
            if let Some(renamed) = new_member(&MemberId::from(subject.as_str())) {
                renamed.as_str().clone_into(subject);
            }
        }
    }
    for framing in &mut site.framings {
        if framing.bears_on.contains(line) {
            for it in &mut Arc::make_mut(framing).bears_on {
                if it == line {
                    *it = to.into();
                }
            }
        }
    }
}

/// The id of a span at a renamed line; nothing where the span is not at that line.
fn with_line(member: &MemberId, framing: &Framing, line: &GridId, to: &str) -> Option<MemberId> {
    let (number, span) = member.number_in(&framing.id)?.split_once('/')?;
    let names = framing.bears_on.iter().map(GridId::as_str).chain([WALL]);
    let ends = names.flat_map(|it| [(line.as_str(), it), (it, line.as_str())]);
    let renamed = |name: &str| {
        if name == line.as_str() {
            to.to_owned()
        } else {
            name.to_owned()
        }
    };
    ends.into_iter().find_map(|(near, far)| {
        // Behind the lines stands the ordinal of the span, where it has one.
        let ordinal = span.strip_prefix(MemberId::span_between(near, far).as_str())?;
        let is_whole = ordinal.is_empty() || ordinal.starts_with('.');
        is_whole.then(|| {
            let span = MemberId::span_between(&renamed(near), &renamed(far));
            MemberId::new(format!("{}-{number}/{span}{ordinal}", framing.id))
        })
    })
}

/// Acceptances follow. Where another scheme still has a run of the old id, its
/// acceptances stay and the renamed run gets copies.
fn rename_subjects(site: &mut Site, from: &ObjectId, to: &str) {
    let new_name = |subject: &String| match from {
        ObjectId::GridLine(_) | ObjectId::SectionLine(_) => None,
        ObjectId::Framing(framing) => {
            let of_it = (subject == framing.as_str()).then(|| to.to_owned());
            let member = MemberId::from(subject.as_str());
            of_it.or_else(|| Some(with_framing(&member, framing, to)?.as_str().to_owned()))
        }
        other => (subject == other.as_str()).then(|| to.to_owned()),
    };
    let is_shared = match from {
        ObjectId::Run(run) => site.schemes.iter().any(|it| it.run(run).is_some()),
        _ => false,
    };
    let mut copies = Vec::new();
    for acceptance in &mut site.acceptances {
        if !acceptance.subjects.iter().any(|it| new_name(it).is_some()) {
            continue;
        }
        let renamed = Acceptance {
            subjects: acceptance
                .subjects
                .iter()
                .map(|it| new_name(it).unwrap_or_else(|| it.clone()))
                .collect(),
            ..acceptance.clone()
        };
        if is_shared {
            copies.push(renamed);
        } else {
            *acceptance = renamed;
        }
    }
    site.acceptances.extend(copies);
}

/// Puts an object in the place of the one with an id.
fn replace(site: &mut Site, from: &ObjectId, object: &Object) {
    macro_rules! in_list {
        ($list:expr, $id:expr, $object:expr) => {
            if let Some(known) = $list.iter_mut().find(|known| known.id == *$id) {
                *known = Arc::clone($object);
            }
        };
    }
    match (from, object) {
        (ObjectId::GridLine(id), Object::GridLine(it)) => in_list!(site.grid, id, it),
        (ObjectId::Bay(id), Object::Bay(it)) => in_list!(site.bays, id, it),
        (ObjectId::Opening(id), Object::Opening(it)) => in_list!(site.openings, id, it),
        (ObjectId::Framing(id), Object::Framing(it)) => in_list!(site.framings, id, it),
        (ObjectId::Obstruction(id), Object::Obstruction(it)) => {
            in_list!(site.obstructions, id, it);
        }
        (ObjectId::WorkSpot(id), Object::WorkSpot(it)) => in_list!(site.work_spots, id, it),
        (ObjectId::Run(id), Object::Run(it)) => {
            edit_shown_scheme(site, |scheme| in_list!(scheme.runs, id, it));
        }
        _ => {}
    }
}

/// A run whose locked hangers name renamed members; nothing where none was renamed.
fn with_members(run: &Run, renamed: &dyn Fn(&MemberId) -> Option<MemberId>) -> Option<Run> {
    let Hanging::Locked(hangers) = &run.hanging else {
        return None;
    };
    let mut hangers = hangers.clone();
    let mut is_changed = false;
    for member in hangers.iter_mut().flat_map(|it| &mut it.members) {
        if let Some(id) = renamed(member) {
            *member = id;
            is_changed = true;
        }
    }
    is_changed.then(|| Run {
        hanging: Hanging::Locked(hangers),
        ..run.clone()
    })
}

/// The id of a member of a renamed framing; nothing for a member of another.
fn with_framing(member: &MemberId, framing: &FramingId, to: &str) -> Option<MemberId> {
    let rest = member.number_in(framing)?;
    Some(MemberId::new(format!("{to}-{rest}")))
}
