//! Picks, moves, and drags handles.

use super::ToolKind;
use super::handles::{Grip, dragged, handles};
use super::hanger::{self, hanger_at};
use super::settle::{limit_m, settled};
use super::sketch::{Ghost, Measure, Stand};
use crate::editor::arrange;
use crate::editor::canvas::hit::{object_at, objects_in};
use crate::editor::canvas::snap::{Query, SnapIndex, Snapped, keys};
use crate::editor::extent::{Extent, extent};
use crate::editor::figures;
use crate::editor::hangers::HangerDrag;
use crate::editor::intent::Intent;
use crate::geometry::DVec2;
use crate::site::{Edit, Hanging, Object, ObjectId, Run};
use std::collections::BTreeSet;

/// How near the pointer must be to an object, points.
const REACH: f32 = 6.0;
/// How near it must be to a handle, points.
const HANDLE_REACH: f32 = 9.0;
/// How far beyond an object its knob stands, points.
pub(crate) const KNOB: f32 = 24.0;

/// A drag that is going on.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Gesture {
    /// A box is drawn that picks what lies in it.
    Box {
        from: DVec2,
        to: DVec2,
        /// Whether what was picked stays picked.
        adds: Adds,
    },
    /// What is picked is moved.
    Move { grabbed: DVec2, by: DVec2 },
    /// A handle of the only picked object is dragged.
    Handle { object: Object, grip: Grip },
    /// One hanger of the picked run is dragged along its tube.
    Hanger(HangerDrag),
}

/// Whether a pick adds to what is picked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Adds {
    Yes,
    No,
}

/// The handle under a plan point.
pub(crate) fn handle_at(stand: &Stand<'_>, at: DVec2) -> Option<(Object, Grip)> {
    let editor = stand.editor;
    let id = editor.selection.single()?;
    let object = editor.committed().object(id)?;
    let reach = stand.camera.site_length(HANDLE_REACH);
    handles(editor, &object, stand.camera.site_length(KNOB))
        .into_iter()
        .map(|handle| ((handle.at - at).length(), handle.grip))
        .filter(|(off, _)| *off <= reach)
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, grip)| (object, grip))
}

/// The object under a plan point.
pub(crate) fn under(stand: &Stand<'_>, at: DVec2) -> Option<ObjectId> {
    object_at(
        stand.editor,
        stand.members,
        at,
        stand.camera.site_length(REACH),
    )
}

/// A click.
pub(crate) fn click(stand: &Stand<'_>, at: DVec2, adds: Adds) -> Vec<Intent> {
    if adds == Adds::No
        && let Some(hanger) = hanger_at(stand, at)
    {
        return vec![Intent::PickHanger(Some(hanger))];
    }
    match (under(stand, at), adds) {
        (Some(id), Adds::Yes) => vec![Intent::TogglePick(id)],
        (Some(id), Adds::No) => vec![Intent::Pick(BTreeSet::from([id]))],
        (None, Adds::Yes) => Vec::new(),
        (None, Adds::No) => vec![Intent::Pick(BTreeSet::new())],
    }
}

/// The button went down and the pointer began to drag.
pub(crate) fn press(stand: &Stand<'_>, at: DVec2, adds: Adds) -> (Gesture, Vec<Intent>) {
    if let Some((object, grip)) = handle_at(stand, at) {
        return (Gesture::Handle { object, grip }, Vec::new());
    }
    if let Some((run, place)) = hanger_at(stand, at)
        && let Some(drag) = HangerDrag::new(stand.editor, place)
    {
        let picked = Intent::PickHanger(Some((run, place)));
        return (Gesture::Hanger(drag), vec![picked]);
    }
    let moving = Gesture::Move {
        grabbed: at,
        by: DVec2::ZERO,
    };
    match under(stand, at) {
        Some(id) if stand.editor.selection.has(&id) => (moving, Vec::new()),
        Some(id) if adds == Adds::Yes => (moving, vec![Intent::TogglePick(id)]),
        Some(id) => (moving, vec![Intent::Pick(BTreeSet::from([id]))]),
        None => {
            let from = at;
            (Gesture::Box { from, to: at, adds }, Vec::new())
        }
    }
}

/// The pointer moved with the button down: the gesture follows, and what it caught on.
pub(crate) fn drag(
    gesture: &mut Gesture,
    stand: &Stand<'_>,
    at: DVec2,
    index: &SnapIndex,
    snapping: bool,
) -> (Option<Snapped>, Vec<Intent>) {
    let editor = stand.editor;
    let site = editor.committed();
    match gesture {
        Gesture::Box { to, .. } => {
            *to = at;
            (None, Vec::new())
        }
        Gesture::Move { grabbed, by } => {
            let ids = &editor.selection.ids;
            let free = at - *grabbed;
            let mut caught = snapping.then(|| caught(stand, index, ids, free)).flatten();
            if let Some((by, snapped)) = &mut caught
                && let Some((more, said)) = settles(stand, ids, *by)
            {
                *by += more;
                snapped.at += more;
                snapped.why = Some(said);
            }
            *by = caught.as_ref().map_or(free, |(by, _)| *by);
            let edit = arrange::shift(site, ids, *by);
            let name = format!("Move {}", editor.picked_name());
            (
                caught.map(|(_, snapped)| snapped),
                vec![Intent::Preview { name, edit }],
            )
        }
        Gesture::Hanger(drag) => {
            let intents = hanger::drag(drag, stand, at);
            let snapped = drag.to().map(|to| Snapped {
                at: drag.axis().point(to.station_m).truncate(),
                why: drag.said(editor),
                guides: Vec::new(),
            });
            (snapped, intents)
        }
        Gesture::Handle { object, grip } => {
            let moving = BTreeSet::from([object.id()]);
            let query = query(stand, &moving, None);
            let snapped = if snapping {
                index.snap(at, &query)
            } else {
                Snapped::free(at)
            };
            let intents = dragged(editor, object, *grip, snapped.at)
                .map(|to| Intent::Preview {
                    name: grip.step_name(object),
                    edit: Edit::Put(to),
                })
                .into_iter()
                .collect();
            (Some(snapped), intents)
        }
    }
}

/// The button went up.
pub(crate) fn release(gesture: Gesture, stand: &Stand<'_>) -> Vec<Intent> {
    match gesture {
        Gesture::Box { from, to, adds } => {
            let ids = objects_in(stand.editor, &Extent::of([from, to]));
            vec![match adds {
                Adds::Yes => Intent::PickAlso(ids),
                Adds::No => Intent::Pick(ids),
            }]
        }
        Gesture::Move { .. } | Gesture::Handle { .. } => vec![Intent::CommitPreview],
        Gesture::Hanger(drag) => drag.release(),
    }
}

pub(crate) fn query<'a>(
    stand: &'a Stand<'_>,
    moving: &'a BTreeSet<ObjectId>,
    from: Option<DVec2>,
) -> Query<'a> {
    // What hangs or carries goes by the members; what stands on the floor doesn't.
    let is_overhead = match stand.editor.tool {
        ToolKind::Run | ToolKind::Framing => true,
        ToolKind::Pick => moving.iter().any(|id| matches!(id, ObjectId::Run(_))),
        _ => false,
    };
    Query {
        camera: stand.camera,
        units: stand.editor.site().units,
        members: if is_overhead { stand.members } else { &[] },
        from,
        moving,
    }
}

/// The movement that brings one of the moved objects' own points onto something, nearest
/// to what the hand does; else one that leaves their first point at a round distance.
fn caught(
    stand: &Stand<'_>,
    index: &SnapIndex,
    ids: &BTreeSet<ObjectId>,
    free: DVec2,
) -> Option<(DVec2, Snapped)> {
    /// More points than this of what is moved are not tried: a hand moves few things.
    const MOST: usize = 24;
    let site = stand.editor.committed();
    let points: Vec<DVec2> = ids
        .iter()
        .filter_map(|id| site.object(id))
        .flat_map(|object| keys(stand.editor, &object))
        .take(MOST)
        .collect();
    let query = query(stand, ids, None);
    let found = points
        .iter()
        .filter_map(|point| {
            let snapped = index.catch(*point + free, &query)?;
            Some((snapped.at - *point, snapped))
        })
        .min_by(|(a, _), (b, _)| (*a - free).length().total_cmp(&(*b - free).length()));
    found.or_else(|| {
        let first = *points.first()?;
        let snapped = index.snap(first + free, &query);
        Some((snapped.at - first, snapped))
    })
}

/// How much farther a moved run goes so that its first hanger comes under a member.
fn settles(stand: &Stand<'_>, ids: &BTreeSet<ObjectId>, by: DVec2) -> Option<(DVec2, String)> {
    let editor = stand.editor;
    let (Some(ObjectId::Run(id)), 1) = (ids.first(), ids.len()) else {
        return None;
    };
    let scheme = editor.committed().scheme();
    let run = scheme.run(id)?;
    // Kept hangers stay where they are, wherever the run goes.
    if run.hanging != Hanging::Solved {
        return None;
    }
    let moved = Run {
        burner: run.burner + by,
        ..Run::clone(run)
    };
    let limit_m = limit_m(stand.camera);
    settled(stand.members, &editor.catalogue, &moved, limit_m)
}

/// What the tool shows and says.
pub(crate) fn ghost(gesture: Option<&Gesture>, stand: &Stand<'_>, at: DVec2) -> Ghost {
    let editor = stand.editor;
    match gesture {
        Some(Gesture::Move { by, .. }) => moving_ghost(stand, *by),
        Some(Gesture::Handle { object, grip }) => Ghost::hint(grip.hint(object)),
        Some(Gesture::Hanger(drag)) => hanger::ghost(drag),
        Some(Gesture::Box { .. }) => Ghost::hint("Let go to pick what lies in the box"),
        None => {
            if let Some((object, grip)) = handle_at(stand, at) {
                return Ghost::hint(grip.hint(&object));
            }
            if let Some((run, place)) = hanger_at(stand, at) {
                let hanger = format!("Drag hanger {} of {run} along its tube", place + 1);
                return Ghost::hint(hanger);
            }
            Ghost::hint(match under(stand, at) {
                Some(id) if editor.selection.has(&id) => "Drag to move".to_owned(),
                Some(id) => format!("Click to pick {} {id}", id.kind_label()),
                None => String::new(),
            })
        }
    }
}

/// How far it has moved, and where it is from the grid.
fn moving_ghost(stand: &Stand<'_>, by: DVec2) -> Ghost {
    let editor = stand.editor;
    let site = editor.site();
    let mut ghost = Ghost::hint("Let go to drop it here, Escape to leave it where it was");
    let middle = editor
        .selection
        .ids
        .iter()
        .filter_map(|id| editor.committed().object(id))
        .map(|object| extent(site, &editor.catalogue, &object))
        .fold(Extent::EMPTY, Extent::joined);
    if !middle.is_empty() && 1e-3 < by.length() {
        let units = site.units;
        let part = |m: f64| figures::length(units, crate::units::Length::metres(m.abs()));
        let east = if by.x < 0.0 { "west" } else { "east" };
        let north = if by.y < 0.0 { "south" } else { "north" };
        let said = [(by.x, east), (by.y, north)]
            .into_iter()
            .filter(|(m, _)| 5e-4 < m.abs())
            .map(|(m, way)| format!("{} {way}", part(m)))
            .collect::<Vec<_>>()
            .join(", ");
        ghost.measures.push(Measure {
            a: middle.middle(),
            b: middle.middle() + by,
            text: said,
        });
    }
    ghost
}
