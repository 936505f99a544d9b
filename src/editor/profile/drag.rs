//! Raises and lowers the run, and slides it along its axis.

use super::scene::Scene;
use crate::editor::Editor;
use crate::editor::camera::SideCamera;
use crate::editor::intent::Intent;
use crate::site::{Edit, Object, Run};
use crate::units::{Length, UnitSystem};
use eframe::egui::{CursorIcon, Response, Ui, Vec2};
use std::sync::Arc;

/// A drag of the run.
#[derive(Debug, Clone)]
pub(super) struct Drag {
    /// The view when it began, which stays.
    pub(super) camera: SideCamera,
    /// The run when it began.
    run: Arc<Run>,
    /// How far the pointer has gone.
    moved: Vec2,
}

/// Follows a drag; returns it while it goes on.
pub(super) fn follow(
    ui: &Ui,
    response: &Response,
    drag: Option<Drag>,
    editor: &Editor,
    scene: &Scene,
    intents: &mut Vec<Intent>,
) -> Option<Drag> {
    if response.hovered() {
        ui.ctx().set_cursor_icon(CursorIcon::Grab);
    }
    let mut drag = if response.drag_started() {
        let id = editor.selection.run()?;
        let run = editor.committed().scheme().run(id).cloned()?;
        Drag {
            camera: scene.camera,
            run,
            moved: Vec2::ZERO,
        }
    } else {
        drag?
    };
    if response.drag_stopped() {
        intents.push(Intent::CommitPreview);
        return None;
    }
    if response.dragged() {
        drag.moved += response.drag_delta();
        let by = drag.camera.side_vector(drag.moved);
        let step = step(editor.site().units);
        let whole = |m: f64| (m / step).round() * step;
        // One thing at a time: a hand that lifts does not mean to slide as well.
        let (along_m, up_m) = if by.x.abs() < by.y.abs() {
            (0.0, by.y)
        } else {
            (by.x, 0.0)
        };
        let run = &drag.run;
        let moved = Run {
            burner: run.burner + scene.heading() * whole(along_m),
            tube_height: Length::metres(if up_m == 0.0 {
                run.tube_height.as_metres()
            } else {
                whole(run.tube_height.as_metres() + up_m)
            }),
            ..Run::clone(run)
        };
        let verb = if up_m == 0.0 { "Slide" } else { "Raise" };
        intents.push(Intent::Preview {
            name: format!("{verb} {}", run.id),
            edit: Edit::Put(Object::Run(Arc::new(moved))),
        });
        ui.ctx().set_cursor_icon(CursorIcon::Grabbing);
    }
    Some(drag)
}

/// Steps of a drag: 10 mm, or half an inch.
fn step(units: UnitSystem) -> f64 {
    match units {
        UnitSystem::Metric => 0.01,
        UnitSystem::FeetInches => 0.0127,
    }
}
