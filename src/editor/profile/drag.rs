//! Raises and lowers the run, slides it along its axis, and drags single hangers along it.

use super::scene::Scene;
use crate::editor::Editor;
use crate::editor::camera::SideCamera;
use crate::editor::hangers::{Aim, HangerDrag};
use crate::editor::intent::Intent;
use crate::site::{Edit, Object, Run};
use crate::study::RunStudy;
use crate::units::{Length, UnitSystem};
use eframe::egui::{CursorIcon, Pos2, Response, Ui, Vec2};
use std::sync::Arc;

/// How near the pointer must be to a suspension, points.
const REACH: f32 = 7.0;
/// From how far a hang point draws a dragged hanger to itself, points.
const DRAWS: f32 = 12.0;

/// A drag that is going on.
#[derive(Debug, Clone)]
pub(super) struct Drag {
    /// The view when it began, which stays.
    pub(super) camera: SideCamera,
    what: What,
}

#[derive(Debug, Clone)]
enum What {
    /// The run, as it was when the drag began, and how far the pointer has gone.
    Run { run: Arc<Run>, moved: Vec2 },
    /// One of its hangers.
    Hanger(Box<HangerDrag>),
}

impl Drag {
    /// The hanger in the hand.
    pub(super) fn hanger(&self) -> Option<&HangerDrag> {
        match &self.what {
            What::Hanger(drag) => Some(drag),
            What::Run { .. } => None,
        }
    }
}

/// Follows a drag; returns it while it goes on.
pub(super) fn follow(
    ui: &Ui,
    response: &Response,
    drag: Option<Drag>,
    editor: &Editor,
    study: &RunStudy,
    scene: &Scene,
    intents: &mut Vec<Intent>,
) -> Option<Drag> {
    if response.hovered() {
        ui.ctx().set_cursor_icon(CursorIcon::Grab);
    }
    if response.clicked() {
        response.request_focus();
        let at = response.interact_pointer_pos();
        let place = at.and_then(|at| hanger_at(study, scene, at));
        let hanger = place.map(|place| (study.run.id.clone(), place));
        intents.push(Intent::PickHanger(hanger));
    }
    let mut drag = if response.drag_started() {
        response.request_focus();
        begin(ui, editor, study, scene, intents)?
    } else {
        drag?
    };
    if response.drag_stopped() {
        intents.extend(match drag.what {
            What::Run { .. } => vec![Intent::CommitPreview],
            What::Hanger(hanger) => hanger.release(),
        });
        return None;
    }
    if response.dragged() {
        ui.ctx().set_cursor_icon(CursorIcon::Grabbing);
        let camera = drag.camera;
        match &mut drag.what {
            What::Run { run, moved } => {
                *moved += response.drag_delta();
                intents.push(moved_run(editor, scene, &camera, run, *moved));
            }
            What::Hanger(hanger) => {
                let at = response.interact_pointer_pos()?;
                let station_m = hanger.axis().station_abreast(scene.plan_at(at));
                let aim = Aim {
                    station_m,
                    left_m: 0.0,
                    reach_m: camera.site_length(DRAWS),
                };
                intents.extend(hanger.follow(&aim));
            }
        }
    }
    Some(drag)
}

fn begin(
    ui: &Ui,
    editor: &Editor,
    study: &RunStudy,
    scene: &Scene,
    intents: &mut Vec<Intent>,
) -> Option<Drag> {
    let camera = scene.camera;
    let pressed = ui.input(|input| input.pointer.press_origin());
    if let Some(place) = pressed.and_then(|at| hanger_at(study, scene, at))
        && let Some(hanger) = HangerDrag::new(editor, place)
    {
        intents.push(Intent::PickHanger(Some((study.run.id.clone(), place))));
        let what = What::Hanger(Box::new(hanger));
        return Some(Drag { camera, what });
    }
    let run = editor.committed().scheme().run(&study.run.id).cloned()?;
    let what = What::Run {
        run,
        moved: Vec2::ZERO,
    };
    Some(Drag { camera, what })
}

/// The hanger whose suspension is at a place of the screen.
fn hanger_at(study: &RunStudy, scene: &Scene, at: Pos2) -> Option<usize> {
    let axis = study.geometry.axis();
    let hangers = study.hanging.hangers.iter().enumerate();
    hangers
        .filter_map(|(place, hanger)| {
            let foot = scene.at(axis.eye(hanger.at.station_m));
            let head = scene.at(hanger.at.attach);
            let along = head - foot;
            let part = ((at - foot).dot(along) / along.length_sq().max(1.0)).clamp(0.0, 1.0);
            let off = (at - foot - along * part).length();
            (off <= REACH).then_some((place, off))
        })
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(place, _)| place)
}

fn moved_run(
    editor: &Editor,
    scene: &Scene,
    camera: &SideCamera,
    run: &Run,
    moved: Vec2,
) -> Intent {
    let by = camera.side_vector(moved);
    let step = step(editor.site().units);
    let whole = |m: f64| (m / step).round() * step;
    // One thing at a time: a hand that lifts does not mean to slide as well.
    let (along_m, up_m) = if by.x.abs() < by.y.abs() {
        (0.0, by.y)
    } else {
        (by.x, 0.0)
    };
    let moved = Run {
        burner: run.burner + scene.heading() * whole(along_m),
        tube_height: Length::metres(if up_m == 0.0 {
            run.tube_height.as_metres()
        } else {
            whole(run.tube_height.as_metres() + up_m)
        }),
        ..run.clone()
    };
    let verb = if up_m == 0.0 { "Slide" } else { "Raise" };
    Intent::Preview {
        name: format!("{verb} {}", run.id),
        edit: Edit::Put(Object::Run(Arc::new(moved))),
    }
}

/// Steps of a drag: 10 mm, or half an inch.
fn step(units: UnitSystem) -> f64 {
    match units {
        UnitSystem::Metric => 0.01,
        UnitSystem::FeetInches => 0.0127,
    }
}
