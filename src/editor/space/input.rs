//! From the mouse and the keys to where one stands.

use super::object_of;
use crate::editor::Editor;
use crate::editor::intent::Intent;
use crate::geometry::DVec2;
use crate::study::Study;
use crate::views::space::{Camera, thing_at};
use eframe::egui::{EventFilter, Key, Modifiers, PointerButton, Rect, Response, Ui, Vec2};
use std::collections::BTreeSet;

/// Degrees that one point of a drag walks round.
const PER_POINT: f64 = 0.35;
/// Degrees that one press of an arrow walks round.
const PER_PRESS: f64 = 5.0;
/// Points that one press of an arrow with Shift moves the picture.
const MOVE: f64 = 40.0;

/// Drags walk round; with Shift, or the middle or second button, they move; the wheel
/// goes nearer and farther. The arrows do the same.
pub(super) fn read(
    ui: &Ui,
    response: &Response,
    camera: &mut Camera,
    size: DVec2,
    editor: &Editor,
) {
    let by = wide(response.drag_delta());
    let shift = ui.input(|input| input.modifiers.shift);
    let moves = response.dragged_by(PointerButton::Middle)
        || response.dragged_by(PointerButton::Secondary)
        || (shift && response.dragged_by(PointerButton::Primary));
    if moves {
        *camera = camera.panned(by, size);
    } else if response.dragged_by(PointerButton::Primary) {
        *camera = camera.orbited(by.x * PER_POINT, by.y * PER_POINT);
    }
    if response.hovered() {
        let (scroll, pinch) = ui.input(|input| (input.smooth_scroll_delta(), input.zoom_delta()));
        if scroll.y != 0.0 {
            let turn = (f64::from(scroll.y) / 700.0).clamp(-0.5, 0.5);
            *camera = camera.nearer((1.0 + turn) / (1.0 - turn));
        }
        if pinch != 1.0 {
            *camera = camera.nearer(f64::from(pinch));
        }
    }
    if response.clicked() || response.drag_started() {
        response.request_focus();
    }
    if response.has_focus() {
        let filter = EventFilter {
            horizontal_arrows: true,
            vertical_arrows: true,
            ..EventFilter::default()
        };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
    }
    let nobody = ui.memory(|memory| memory.focused()).is_none();
    let has_keys = response.has_focus() || (nobody && !editor.view.beside);
    if has_keys && editor.dialog.is_none() {
        arrows(ui, camera, size);
    }
}

fn arrows(ui: &Ui, camera: &mut Camera, size: DVec2) {
    let ways = [
        (Key::ArrowLeft, DVec2::new(-1.0, 0.0)),
        (Key::ArrowRight, DVec2::new(1.0, 0.0)),
        (Key::ArrowUp, DVec2::new(0.0, 1.0)),
        (Key::ArrowDown, DVec2::new(0.0, -1.0)),
    ];
    for (key, way) in ways {
        if ui.input_mut(|input| input.consume_key(Modifiers::SHIFT, key)) {
            let by = DVec2::new(-way.x, way.y) * MOVE;
            *camera = camera.panned(by, size);
        } else if ui.input_mut(|input| input.consume_key(Modifiers::NONE, key)) {
            // To the right one walks to the right: against the clock as seen from above.
            *camera = camera.orbited(-way.x * PER_PRESS, way.y * PER_PRESS);
        }
    }
}

/// A click picks the heater or the obstruction under the pointer.
pub(super) fn pick(
    response: &Response,
    camera: &Camera,
    rect: Rect,
    study: &Study,
    intents: &mut Vec<Intent>,
) {
    if !response.clicked_by(PointerButton::Primary) {
        return;
    }
    let Some(at) = response.interact_pointer_pos() else {
        return;
    };
    let (eye, way) = camera.ray(wide(at - rect.min), super::points(rect));
    let met = thing_at(study, eye, way).as_ref().and_then(object_of);
    intents.push(Intent::Pick(met.into_iter().collect::<BTreeSet<_>>()));
}

fn wide(v: Vec2) -> DVec2 {
    DVec2::new(f64::from(v.x), f64::from(v.y))
}
