//! From the mouse and the keys to what the tools are told.

use super::Canvas;
use super::snap::Snapped;
use crate::editor::Editor;
use crate::editor::command::Command;
use crate::editor::intent::Intent;
use crate::editor::tools::hanger::hanger_at;
use crate::editor::tools::pick::{self, Adds, Gesture};
use crate::editor::tools::sketch::{Act, Ghost, Stand, Typed};
use crate::editor::tools::{ToolKind, act, ghost};
use crate::geometry::DVec2;
use crate::site::ObjectId;
use eframe::egui::{
    CursorIcon, Event, EventFilter, Key, Modifiers, MouseWheelSource, MouseWheelUnit,
    PointerButton, Response, Ui, Vec2,
};
use std::collections::BTreeSet;

/// Reads what the user did on the plan, tells the tool, and returns what the tool shows.
pub(super) fn read(
    ui: &Ui,
    response: &Response,
    canvas: &mut Canvas,
    editor: &Editor,
    intents: &mut Vec<Intent>,
) -> Ghost {
    navigate(ui, response, canvas);
    keep_focus(ui, response, canvas);
    let typed = type_numbers(ui, canvas, editor);
    let raw = pointer(ui, response, canvas, editor);
    let snapping = editor.view.snapping && !ui.input(|input| input.modifiers.alt);
    // The tools read the camera as it was when the frame began.
    let camera = canvas.camera;
    let stand = Stand {
        editor,
        camera: &camera,
        members: editor.members(),
        typed,
    };
    if editor.tool == ToolKind::Pick {
        picking(ui, response, canvas, &stand, raw, snapping, intents)
    } else {
        drawing(ui, response, canvas, &stand, raw, snapping, intents)
    }
}

/// Pans with the middle or the second button and with two fingers; zooms with the wheel,
/// to the pointer.
fn navigate(ui: &Ui, response: &Response, canvas: &mut Canvas) {
    let camera = &mut canvas.camera;
    if response.dragged_by(PointerButton::Middle) || response.dragged_by(PointerButton::Secondary) {
        camera.pan(response.drag_delta());
    }
    let Some(at) = response.hover_pos() else {
        return;
    };
    let (scroll, pinch, newest) = ui.input(|input| {
        let newest = input.events.iter().filter_map(is_pad).next_back();
        (input.smooth_scroll_delta(), input.zoom_delta(), newest)
    });
    // A scroll is smoothed over some frames; they are all of the kind that began it.
    canvas.by_pad = newest.unwrap_or(canvas.by_pad);
    if canvas.by_pad {
        camera.pan(scroll);
    } else if scroll != Vec2::ZERO {
        // As much out as in: a notch up and a notch down cancel exactly.
        let turn = (f64::from(scroll.y) / 700.0).clamp(-0.5, 0.5);
        camera.zoom((1.0 + turn) / (1.0 - turn), at);
    }
    if pinch != 1.0 {
        camera.zoom(f64::from(pinch), at);
    }
}

/// Whether a scroll is a stroke of two fingers, which pushes the plan, or a turn of a
/// wheel, which zooms it; none of any other event.
fn is_pad(event: &Event) -> Option<bool> {
    match event {
        Event::MouseWheel {
            unit,
            source,
            modifiers,
            ..
        } => Some(
            modifiers.is_none()
                && match source {
                    MouseWheelSource::Trackpad | MouseWheelSource::Momentum => true,
                    MouseWheelSource::Wheel => false,
                    MouseWheelSource::Unknown => *unit == MouseWheelUnit::Point,
                },
        ),
        _ => None,
    }
}

/// The plan has the keys when it was clicked, or when nothing else has them.
fn keep_focus(ui: &Ui, response: &Response, canvas: &mut Canvas) {
    // Space and Enter on a plan that has the focus are no clicks: the tools read them.
    if response.clicked_by(PointerButton::Primary) || response.drag_started() {
        response.request_focus();
    }
    let nobody = ui.memory(|memory| memory.focused()).is_none();
    canvas.has_focus = response.has_focus() || nobody;
    if response.has_focus() {
        let filter = EventFilter {
            horizontal_arrows: true,
            vertical_arrows: true,
            escape: true,
            tab: false,
        };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
    }
}

/// Numbers typed while something is drawn.
fn type_numbers(ui: &Ui, canvas: &mut Canvas, editor: &Editor) -> Typed {
    let listens = canvas.has_focus
        && editor.dialog.is_none()
        && editor.tool != ToolKind::Pick
        && editor.tool != ToolKind::WorkSpot
        && !ui.ctx().text_edit_focused();
    if !listens {
        canvas.entry.clear();
        canvas.trouble = None;
        return Typed::default();
    }
    let events = ui.input(|input| input.filtered_events(&EventFilter::default()));
    for event in events {
        match event {
            Event::Text(text) => canvas.entry.push(&text),
            Event::Key {
                key: Key::Backspace,
                pressed: true,
                ..
            } => canvas.entry.pop(),
            _ => {}
        }
    }
    match canvas.entry.read(editor.site().units) {
        Ok(typed) => {
            canvas.trouble = None;
            typed
        }
        Err(trouble) => {
            canvas.trouble = Some(trouble);
            Typed::default()
        }
    }
}

/// Where the pointer is: the mouse's, or the keyboard's once arrows have moved it.
fn pointer(ui: &Ui, response: &Response, canvas: &mut Canvas, editor: &Editor) -> Option<DVec2> {
    let mouse = response
        .interact_pointer_pos()
        .or(response.hover_pos())
        .map(|at| canvas.camera.site_from_screen(at));
    if ui.input(|input| input.pointer.delta()) != Vec2::ZERO {
        canvas.cursor = None;
    }
    if !canvas.has_focus || editor.dialog.is_some() || ui.ctx().text_edit_focused() {
        return mouse;
    }
    let by = arrows(ui);
    if by != DVec2::ZERO {
        if editor.tool == ToolKind::Pick {
            // Where nothing is picked there is nothing to nudge: the view moves instead.
            if editor.selection.ids.is_empty() {
                let step = Vec2::new(
                    crate::editor::camera::narrow(-by.x),
                    crate::editor::camera::narrow(by.y),
                );
                canvas.camera.pan(step * 40.0);
            }
            return mouse;
        }
        let shift = ui.input(|input| input.modifiers.shift);
        let step = editor.nudge_step() * if shift { 1.0 } else { 10.0 };
        let from = canvas.cursor.or(canvas.pointer.as_ref().map(|it| it.at));
        let (least, greatest) = canvas.camera.in_view();
        let to = from.unwrap_or((least + greatest) / 2.0) + by * step;
        canvas.cursor = Some(to);
        if to.cmplt(least).any() || to.cmpgt(greatest).any() {
            canvas.camera.go_to(to);
        }
    }
    canvas.cursor.or(mouse)
}

fn arrows(ui: &Ui) -> DVec2 {
    ui.input_mut(|input| {
        let mut by = DVec2::ZERO;
        for (key, way) in [
            (Key::ArrowLeft, DVec2::NEG_X),
            (Key::ArrowRight, DVec2::X),
            (Key::ArrowUp, DVec2::Y),
            (Key::ArrowDown, DVec2::NEG_Y),
        ] {
            for modifiers in [Modifiers::NONE, Modifiers::SHIFT] {
                by += way * input.count_and_consume_key(modifiers, key) as f64;
            }
        }
        by
    })
}

/// What the drawing tools are told.
fn drawing(
    ui: &Ui,
    response: &Response,
    canvas: &mut Canvas,
    stand: &Stand<'_>,
    raw: Option<DVec2>,
    snapping: bool,
    intents: &mut Vec<Intent>,
) -> Ghost {
    let kind = stand.editor.tool;
    let Some(raw) = raw else {
        canvas.pointer = None;
        return Ghost::hint(kind.explanation());
    };
    let nothing = BTreeSet::new();
    let caught = |canvas: &Canvas, at: DVec2| {
        if snapping && canvas.cursor.is_none() {
            let query = pick::query(stand, &nothing, canvas.sketch.from());
            canvas.index.snap(at, &query)
        } else {
            Snapped::free(at)
        }
    };
    let here = caught(canvas, raw);
    let at = here.at;
    let mut acts = Vec::new();
    if response.drag_started_by(PointerButton::Primary) {
        let origin = ui.input(|input| input.pointer.press_origin());
        let origin = origin.map_or(raw, |at| canvas.camera.site_from_screen(at));
        acts.push(Act::Press(caught(canvas, origin).at));
    }
    acts.push(Act::Move(at));
    if response.drag_stopped_by(PointerButton::Primary) {
        acts.push(Act::Release(at));
    }
    if response.double_clicked() && !canvas.sketch.points.is_empty() {
        acts.push(Act::Finish);
    } else if response.clicked_by(PointerButton::Primary) {
        acts.push(Act::Click(at));
    }
    acts.extend(by_keys(ui, canvas, stand, at));
    let before = canvas.sketch.clone();
    for done in acts {
        intents.extend(act(kind, &mut canvas.sketch, done, stand));
    }
    if canvas.sketch.points != before.points || canvas.sketch.last != before.last {
        canvas.entry.clear();
    }
    ui.ctx().set_cursor_icon(if response.hovered() {
        CursorIcon::Crosshair
    } else {
        CursorIcon::Default
    });
    let ghost = ghost(kind, &canvas.sketch, at, stand);
    canvas.pointer = Some(Snapped {
        why: ghost.settles.clone().or(here.why),
        ..here
    });
    ghost
}

/// Space is a click; Enter is one where a number was typed, and else completes.
fn by_keys(ui: &Ui, canvas: &Canvas, stand: &Stand<'_>, at: DVec2) -> Option<Act> {
    let editor = stand.editor;
    if !canvas.has_focus || editor.dialog.is_some() || ui.ctx().text_edit_focused() {
        return None;
    }
    let (space, enter) = ui.input_mut(|input| {
        (
            !canvas.is_typing() && input.consume_key(Modifiers::NONE, Key::Space),
            input.consume_key(Modifiers::NONE, Key::Enter),
        )
    });
    if space {
        Some(Act::Click(at))
    } else if enter && canvas.trouble.is_some() {
        None
    } else if enter && canvas.is_typing() {
        Some(if canvas.sketch.pressed.is_some() {
            Act::Release(at)
        } else {
            Act::Click(at)
        })
    } else {
        enter.then_some(Act::Finish)
    }
}

/// What picking is told.
fn picking(
    ui: &Ui,
    response: &Response,
    canvas: &mut Canvas,
    stand: &Stand<'_>,
    raw: Option<DVec2>,
    snapping: bool,
    intents: &mut Vec<Intent>,
) -> Ghost {
    let adds = if ui.input(|input| input.modifiers.shift) {
        Adds::Yes
    } else {
        Adds::No
    };
    let Some(raw) = raw else {
        canvas.pointer = None;
        hover(stand.editor, None, intents);
        return Ghost::default();
    };
    canvas.pointer = Some(Snapped::free(raw));
    if response.drag_started_by(PointerButton::Primary) {
        let origin = ui.input(|input| input.pointer.press_origin());
        let origin = origin.map_or(raw, |at| canvas.camera.site_from_screen(at));
        let (gesture, wanted) = pick::press(stand, origin, adds);
        canvas.gesture = Some(gesture);
        intents.extend(wanted);
    } else if response.dragged_by(PointerButton::Primary)
        && let Some(gesture) = canvas.gesture.as_mut()
    {
        let (caught, wanted) = pick::drag(gesture, stand, raw, &canvas.index, snapping);
        if let Some(caught) = caught {
            canvas.pointer = Some(caught);
        }
        intents.extend(wanted);
    }
    if response.drag_stopped_by(PointerButton::Primary)
        && let Some(gesture) = canvas.gesture.take()
    {
        intents.extend(pick::release(gesture, stand));
    } else if response.double_clicked() {
        intents.push(Intent::Command(Command::FitSelection));
    } else if response.clicked_by(PointerButton::Primary) {
        intents.extend(pick::click(stand, raw, adds));
    }
    if response.secondary_clicked() {
        canvas.menu_at = Some(raw);
        if let Some(hanger) = hanger_at(stand, raw) {
            intents.push(Intent::PickHanger(Some(hanger)));
        }
    }
    if response.secondary_clicked()
        && let Some(id) = pick::under(stand, raw)
        && !stand.editor.selection.has(&id)
    {
        // The menu is about what it was opened on.
        intents.push(Intent::Pick(BTreeSet::from([id])));
    }
    let under = pick::under(stand, raw).filter(|_| response.hovered());
    cursor_icon(ui, response, canvas, stand, raw, under.as_ref());
    if canvas.gesture.is_none() {
        hover(stand.editor, under, intents);
    }
    pick::ghost(canvas.gesture.as_ref(), stand, raw)
}

fn cursor_icon(
    ui: &Ui,
    response: &Response,
    canvas: &Canvas,
    stand: &Stand<'_>,
    at: DVec2,
    under: Option<&ObjectId>,
) {
    if !response.hovered() {
        return;
    }
    let icon = match (&canvas.gesture, under) {
        (Some(Gesture::Move { .. } | Gesture::Handle { .. } | Gesture::Hanger(_)), _) => {
            CursorIcon::Grabbing
        }
        (Some(Gesture::Box { .. }), _) => CursorIcon::Crosshair,
        (None, _) if pick::handle_at(stand, at).is_some() || hanger_at(stand, at).is_some() => {
            CursorIcon::Grab
        }
        (None, Some(id)) if stand.editor.selection.has(id) => CursorIcon::Grab,
        (None, Some(_)) => CursorIcon::PointingHand,
        (None, None) => CursorIcon::Default,
    };
    ui.ctx().set_cursor_icon(icon);
}

fn hover(editor: &Editor, over: Option<ObjectId>, intents: &mut Vec<Intent>) {
    if editor.selection.hovered != over {
        intents.push(Intent::Hover(over));
    }
}
