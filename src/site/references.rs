//! What refers to what: removing and renaming an object with all that names it.

use super::{Acceptance, BayId, FramingId, Hanging, MemberId, Object, ObjectId, Run, Scheme, Site};
use std::sync::Arc;

/// Removes an object, with what cannot stand without it.
pub(super) fn remove(site: &mut Site, id: &ObjectId) {
    match id {
        ObjectId::GridLine(line) => {
            site.grid.retain(|it| it.id != *line);
            for framing in &mut site.framings {
                if framing.bears_on.contains(line) {
                    Arc::make_mut(framing).bears_on.retain(|it| it != line);
                }
            }
        }
        ObjectId::Bay(bay) => remove_bay(site, bay),
        ObjectId::Opening(id) => site.openings.retain(|it| it.id != *id),
        ObjectId::Framing(id) => {
            site.framings.retain(|it| it.id != *id);
            edit_runs(site, |run| {
                hangs_from(run, id).then(|| Run {
                    hanging: Hanging::Solved,
                    ..run.clone()
                })
            });
        }
        ObjectId::Obstruction(id) => site.obstructions.retain(|it| it.id != *id),
        ObjectId::WorkSpot(id) => site.work_spots.retain(|it| it.id != *id),
        ObjectId::Run(id) => {
            edit_shown_scheme(site, |scheme| scheme.runs.retain(|it| it.id != *id));
        }
    }
    forget_acceptances(site, id);
}

fn remove_bay(site: &mut Site, bay: &BayId) {
    site.bays.retain(|it| it.id != *bay);
    let openings = site.openings.iter().filter(|it| it.bay == *bay);
    let openings = openings.map(|it| ObjectId::Opening(it.id.clone()));
    let framings = site.framings.iter().filter(|it| it.bay == *bay);
    let framings = framings.map(|it| ObjectId::Framing(it.id.clone()));
    let with_it: Vec<ObjectId> = openings.chain(framings).collect();
    for id in &with_it {
        remove(site, id);
    }
}

/// Acceptances of findings about what is gone: left behind, they would cover whatever
/// next takes its id. A run's stay while another scheme has a run of that id.
fn forget_acceptances(site: &mut Site, id: &ObjectId) {
    if let ObjectId::Run(run) = id
        && site.schemes.iter().any(|it| it.run(run).is_some())
    {
        return;
    }
    let about_it = |subject: &String| match id {
        ObjectId::GridLine(_) => false,
        ObjectId::Framing(framing) => {
            subject == framing.as_str() || MemberId::from(subject.as_str()).is_of(framing)
        }
        other => subject == other.as_str(),
    };
    site.acceptances
        .retain(|it| !it.subjects.iter().any(about_it));
}

/// Gives an object another id; what refers to it follows.
pub(super) fn rename(site: &mut Site, from: &ObjectId, to: &str) {
    if let Some(object) = site.object(from) {
        replace(site, from, &object.with_id(to));
    }
    match from {
        ObjectId::GridLine(line) => {
            for framing in &mut site.framings {
                if framing.bears_on.contains(line) {
                    let framing = Arc::make_mut(framing);
                    for it in &mut framing.bears_on {
                        if it == line {
                            *it = to.into();
                        }
                    }
                }
            }
        }
        ObjectId::Bay(bay) => {
            for opening in site.openings.iter_mut().filter(|it| it.bay == *bay) {
                Arc::make_mut(opening).bay = to.into();
            }
            for framing in site.framings.iter_mut().filter(|it| it.bay == *bay) {
                Arc::make_mut(framing).bay = to.into();
            }
        }
        ObjectId::Framing(framing) => edit_runs(site, |run| {
            hangs_from(run, framing).then(|| with_framing(run, framing, to))
        }),
        ObjectId::Opening(_)
        | ObjectId::Obstruction(_)
        | ObjectId::WorkSpot(_)
        | ObjectId::Run(_) => {}
    }
    rename_subjects(site, from, to);
}

/// Acceptances follow. Where another scheme still has a run of the old id, its
/// acceptances stay and the renamed run gets copies.
fn rename_subjects(site: &mut Site, from: &ObjectId, to: &str) {
    let new_name = |subject: &String| match from {
        ObjectId::GridLine(_) => None,
        ObjectId::Framing(framing) => {
            let member = MemberId::from(subject.as_str());
            let of_it = subject == framing.as_str();
            let renamed = member.number_in(framing).map(|rest| format!("{to}-{rest}"));
            of_it.then(|| to.to_owned()).or(renamed)
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

fn edit_shown_scheme(site: &mut Site, edit: impl FnOnce(&mut Scheme)) {
    let shown = site.shown_scheme.clone();
    if let Some(scheme) = site.schemes.iter_mut().find(|it| it.id == shown) {
        edit(Arc::make_mut(scheme));
    }
}

/// Replaces the runs of all schemes for which there is a new one; the others, and
/// schemes without any, stay pointer-equal.
fn edit_runs(site: &mut Site, edit: impl Fn(&Run) -> Option<Run>) {
    for scheme in &mut site.schemes {
        let changes: Vec<(usize, Run)> = scheme
            .runs
            .iter()
            .enumerate()
            .filter_map(|(i, run)| Some((i, edit(run)?)))
            .collect();
        if changes.is_empty() {
            continue;
        }
        let scheme = Arc::make_mut(scheme);
        for (i, run) in changes {
            scheme.runs[i] = Arc::new(run);
        }
    }
}

fn hangs_from(run: &Run, framing: &FramingId) -> bool {
    match &run.hanging {
        Hanging::Solved => false,
        Hanging::Locked(hangers) => hangers
            .iter()
            .flat_map(|hanger| &hanger.members)
            .any(|member| member.is_of(framing)),
    }
}

/// A run whose locked hangers name the members of a renamed framing.
fn with_framing(run: &Run, framing: &FramingId, to: &str) -> Run {
    let mut next = run.clone();
    if let Hanging::Locked(hangers) = &mut next.hanging {
        for member in hangers.iter_mut().flat_map(|it| &mut it.members) {
            if let Some(rest) = member.number_in(framing) {
                *member = MemberId::new(format!("{to}-{rest}"));
            }
        }
    }
    next
}
