//! Removing an object with all that cannot stand without it.

use super::{BayId, FramingId, GridId, Hanging, MemberId, ObjectId, Run, Scheme, Site};
use std::sync::Arc;

/// Removes an object, with what cannot stand without it.
pub(super) fn remove(site: &mut Site, id: &ObjectId) {
    match id {
        ObjectId::GridLine(line) => {
            settle(site, line);
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
        ObjectId::SectionLine(id) => site.sections.retain(|it| it.id != *id),
        ObjectId::Run(id) => {
            edit_shown_scheme(site, |scheme| scheme.runs.retain(|it| it.id != *id));
        }
    }
    forget_acceptances(site, id);
}

/// What was measured from a grid line stays where it was found.
fn settle(site: &mut Site, line: &GridId) {
    let grid = &site.grid;
    for framing in &mut site.framings {
        if framing.is_measured_from(line) {
            *framing = Arc::new(framing.settled(line, grid));
        }
    }
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
        ObjectId::GridLine(_) | ObjectId::SectionLine(_) => false,
        ObjectId::Framing(framing) => {
            subject == framing.as_str() || MemberId::from(subject.as_str()).is_of(framing)
        }
        other => subject == other.as_str(),
    };
    site.acceptances
        .retain(|it| !it.subjects.iter().any(about_it));
}

pub(super) fn edit_shown_scheme(site: &mut Site, edit: impl FnOnce(&mut Scheme)) {
    let shown = site.shown_scheme.clone();
    if let Some(scheme) = site.schemes.iter_mut().find(|it| it.id == shown) {
        edit(Arc::make_mut(scheme));
    }
}

/// Replaces the runs of all schemes for which there is a new one; the others, and
/// schemes without any, stay pointer-equal.
pub(super) fn edit_runs(site: &mut Site, edit: impl Fn(&Run) -> Option<Run>) {
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

pub(super) fn hangs_from(run: &Run, framing: &FramingId) -> bool {
    match &run.hanging {
        Hanging::Solved => false,
        Hanging::Locked(hangers) => hangers
            .iter()
            .flat_map(|hanger| &hanger.members)
            .any(|member| member.is_of(framing)),
    }
}
