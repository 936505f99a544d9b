//! Picks what is cut, and drags heaters across and up.

use super::place;
use crate::editor::Editor;
use crate::editor::camera::SideCamera;
use crate::editor::intent::Intent;
use crate::geometry::{DVec2, Polygon};
use crate::site::{Edit, Object, ObjectId, Run};
use crate::study::Thing;
use crate::units::{Length, UnitSystem};
use crate::views::Section;
use eframe::egui::{CursorIcon, PointerButton, Response, Ui, Vec2};
use std::collections::BTreeSet;
use std::sync::Arc;

/// A drag of a heater.
#[derive(Debug, Clone)]
pub(super) struct Drag {
    /// The run when it began.
    run: Arc<Run>,
    /// How far the pointer has gone.
    moved: Vec2,
    /// Unit vector in plan along the section.
    along: DVec2,
}

/// Follows clicks and drags; returns the drag while it goes on.
pub(super) fn follow(
    ui: &Ui,
    response: &Response,
    drag: Option<Drag>,
    editor: &Editor,
    (section, camera): (&Section, &SideCamera),
    intents: &mut Vec<Intent>,
) -> Option<Drag> {
    let under = response.hover_pos().map(|at| place(camera, at));
    if response.clicked_by(PointerButton::Primary) {
        let met = under.and_then(|at| object_at(section, at, reach(camera)));
        intents.push(Intent::Pick(met.into_iter().collect::<BTreeSet<_>>()));
    }
    let run_under = under.and_then(|at| run_at(section, at, reach(camera)));
    if run_under.is_some() {
        ui.ctx().set_cursor_icon(CursorIcon::Grab);
    }
    let mut drag = if response.drag_started_by(PointerButton::Primary) {
        let begun = ui.input(|input| input.pointer.press_origin())?;
        let id = run_at(section, place(camera, begun), reach(camera))?;
        let run = editor.committed().scheme().run(&id).cloned()?;
        intents.push(Intent::Pick(BTreeSet::from([ObjectId::Run(id)])));
        Drag {
            run,
            moved: Vec2::ZERO,
            along: section.plane.along,
        }
    } else {
        drag?
    };
    if response.drag_stopped() {
        intents.push(Intent::CommitPreview);
        return None;
    }
    drag.moved += response.drag_delta();
    let by = camera.side_vector(drag.moved);
    let step = step(editor.site().units);
    let whole = |m: f64| (m / step).round() * step;
    let run = &drag.run;
    let moved = Run {
        burner: run.burner + drag.along * whole(by.x),
        tube_height: Length::metres(whole(run.tube_height.as_metres() + by.y).max(step)),
        ..Run::clone(run)
    };
    intents.push(Intent::Preview {
        name: format!("Move {}", run.id),
        edit: Edit::Put(Object::Run(Arc::new(moved))),
    });
    ui.ctx().set_cursor_icon(CursorIcon::Grabbing);
    Some(drag)
}

/// How near to a thing counts as on it, m.
fn reach(camera: &SideCamera) -> f64 {
    6.0 / camera.scale()
}

fn is_on(area: &[DVec2], at: DVec2, reach_m: f64) -> bool {
    let area = Polygon::new(area.to_vec());
    area.contains(at) || area.distance_to_boundary(at) <= reach_m
}

/// The heater that is cut under a point.
fn run_at(section: &Section, at: DVec2, reach_m: f64) -> Option<crate::site::RunId> {
    section
        .runs
        .iter()
        .find(|run| run.boxes.iter().any(|area| is_on(area, at, reach_m)))
        .map(|run| run.run.clone())
}

/// What is under a point: heaters first, then what is cut, then what is seen.
fn object_at(section: &Section, at: DVec2, reach_m: f64) -> Option<ObjectId> {
    let of_thing = |thing: &Thing| match thing {
        Thing::Obstruction(id) => Some(ObjectId::Obstruction(id.clone())),
        Thing::Run(id) => Some(ObjectId::Run(id.clone())),
        Thing::Door(id, _) => Some(ObjectId::Opening(id.clone())),
        _ => None,
    };
    let cut = section.cut.iter().map(|it| (&it.thing, &it.areas));
    let seen = section.seen.iter().rev().map(|it| (&it.thing, &it.areas));
    run_at(section, at, reach_m).map(ObjectId::Run).or_else(|| {
        cut.chain(seen)
            .filter(|(_, areas)| areas.iter().any(|area| is_on(area, at, 0.0)))
            .find_map(|(thing, _)| of_thing(thing))
    })
}

/// Steps of a drag: 10 mm, or half an inch.
fn step(units: UnitSystem) -> f64 {
    match units {
        UnitSystem::Metric => 0.01,
        UnitSystem::FeetInches => 0.0127,
    }
}
