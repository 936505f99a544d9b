//! The room on all sides of the picked run, and of the run whose finding the pointer is
//! on: dimension lines in the plan's directions, short words for above and below.

use super::dimension::{beside, dimension, keep_off_line};
use super::labels::{Label, Labels, Weight};
use super::pen::Pen;
use crate::clearance::Direction;
use crate::editor::Editor;
use crate::editor::rooms::{names, run_of};
use crate::editor::theme::TextSize;
use crate::site::ObjectId;
use crate::study::{Room, RunStudy, direction_word, worst_rooms};
use crate::views::section::words;
use eframe::egui::{Align2, Color32, Pos2, Rect, Shape, Stroke, Vec2};

/// Shorter than this on the screen a measure only says that it is there, points.
const SHORTEST: f32 = 1.0;
/// Half the size of the mark of a breach, points.
const MARK: f32 = 5.0;

/// The measures.
pub(super) fn measures(pen: &mut Pen<'_>, labels: &mut Labels, editor: &Editor) {
    let picked = match editor.selection.single() {
        Some(ObjectId::Run(id)) => editor.results.run(id),
        _ => None,
    };
    if let Some(run) = picked {
        let worst = worst_rooms(editor.rooms.of(&run.run.id));
        for room in worst.into_iter().flatten() {
            measure(pen, labels, editor, run, room);
        }
    }
    let pointed = editor
        .pointed
        .and_then(|place| editor.results.findings().get(place));
    if let Some(finding) = pointed
        && let Some(run) = run_of(finding).and_then(|id| editor.results.run(id))
        && picked.is_none_or(|it| it.run.id != run.run.id)
    {
        let about: Vec<Room> = editor
            .rooms
            .of(&run.run.id)
            .iter()
            .filter(|room| names(finding, &room.thing))
            .cloned()
            .collect();
        for room in worst_rooms(&about).into_iter().flatten() {
            measure(pen, labels, editor, run, room);
        }
    }
}

fn measure(pen: &mut Pen<'_>, labels: &mut Labels, editor: &Editor, run: &RunStudy, room: &Room) {
    match room.direction {
        Direction::Above | Direction::Below => upright(pen, labels, editor, run, room),
        _ => level(pen, labels, editor, run, room),
    }
}

fn colour_of(pen: &Pen<'_>, room: &Room) -> Color32 {
    if room.is_breach() {
        pen.roles.breach
    } else if room.is_tight() {
        pen.roles.dimension
    } else {
        pen.roles.dimension_quiet
    }
}

/// From the body's face to as far as the thing is; where its nearest point lies aside, a
/// thin line leads there.
fn level(pen: &mut Pen<'_>, labels: &mut Labels, editor: &Editor, run: &RunStudy, room: &Room) {
    let ends = [room.from.truncate(), room.to.truncate()];
    let Some((from, to)) = pen.visible_piece(ends[0], ends[1]) else {
        return;
    };
    let colour = colour_of(pen, room);
    let stroke = Stroke::new(if room.is_breach() { 1.8 } else { 1.0 }, colour);
    let [a, b] = ends.map(|end| pen.at(end));
    let contact = pen.at(room.contact.truncate());
    let mut shapes = Vec::new();
    if SHORTEST < (b - a).length() {
        dimension(&mut shapes, [a, b], stroke);
    }
    if 3.0 < (contact - b).length() {
        shapes.push(Shape::line_segment([b, contact], Stroke::new(0.7, colour)));
    }
    shapes.push(Shape::circle_filled(contact, 2.2, colour));
    for shape in shapes {
        pen.add(shape);
    }
    let seen = [pen.at(from), pen.at(to)];
    keep_off_line(labels, seen);
    let middle = seen[0] + (seen[1] - seen[0]) * 0.5;
    if room.is_breach() {
        mark(pen, labels, middle, colour);
    }
    want(labels, pen, room, said(editor, run, room), beside(seen));
}

/// A ring at the body: with a dot what is above, with a cross what is below (the head and
/// the tail of an arrow), with the figures beside it.
fn upright(pen: &mut Pen<'_>, labels: &mut Labels, editor: &Editor, run: &RunStudy, room: &Room) {
    const RADIUS: f32 = 4.5;
    let place = room.from.truncate();
    if !pen.sees(&[place]) {
        return;
    }
    let foot = pen.at(place);
    let colour = colour_of(pen, room);
    let size = Vec2::splat(2.0 * RADIUS + 3.0);
    // What is above and below may touch at the same place, and a finding be marked there.
    let (burner, end) = run.axis_ends();
    let middle = pen.at(((burner + end) * 0.5).truncate());
    // Toward the run's middle, so that it stays on the run.
    let heading = pen
        .camera
        .screen_vector(run.clearance.bodies.frame.along.truncate());
    let inward = if (middle - foot).dot(heading) < 0.0 {
        -heading
    } else {
        heading
    };
    let step = inward.normalized() * (2.0 * RADIUS + 5.0);
    let at = [0.0, 1.0, 2.0, 3.0, 4.0, -1.0, -2.0]
        .into_iter()
        .map(|n| foot + step * n)
        .find(|at| labels.is_free(Rect::from_center_size(*at, size)))
        .unwrap_or(foot);
    if 1.0 < (at - foot).length() {
        pen.add(Shape::line_segment([foot, at], Stroke::new(0.8, colour)));
        pen.add(Shape::circle_filled(foot, 1.8, colour));
    }
    labels.keep_off(Rect::from_center_size(at, size));
    let stroke = Stroke::new(1.2, colour);
    pen.add(Shape::circle_filled(at, RADIUS, pen.roles.ground));
    pen.add(Shape::circle_stroke(at, RADIUS, stroke));
    if room.direction == Direction::Above {
        pen.add(Shape::circle_filled(at, 1.6, colour));
    } else {
        let arm = RADIUS * 0.7;
        for arm in [Vec2::new(arm, arm), Vec2::new(arm, -arm)] {
            pen.add(Shape::line_segment([at - arm, at + arm], stroke));
        }
    }
    let up = Vec2::new(0.0, 1.0);
    let mut places = Vec::new();
    for off in [13.0_f32, 28.0, 44.0, 60.0] {
        for (aside, align) in [
            (0.0, Align2::CENTER_CENTER),
            (8.0, Align2::LEFT_CENTER),
            (-8.0, Align2::RIGHT_CENTER),
        ] {
            places.push((at + Vec2::new(aside, 0.0) - up * off, align));
            places.push((at + Vec2::new(aside, 0.0) + up * off, align));
        }
    }
    places.push((at + Vec2::new(9.0, 0.0), Align2::LEFT_CENTER));
    places.push((at - Vec2::new(9.0, 0.0), Align2::RIGHT_CENTER));
    want(labels, pen, room, said(editor, run, room), places);
}

/// A small triangle: a breach is told by its shape too.
fn mark(pen: &mut Pen<'_>, labels: &mut Labels, at: Pos2, colour: Color32) {
    labels.keep_off(Rect::from_center_size(at, Vec2::splat(2.0 * MARK)));
    let corners = [(0.0, -1.0), (1.0, 0.8), (-1.0, 0.8)];
    let points = corners.map(|(x, y)| at + Vec2::new(x, y) * MARK).to_vec();
    pen.add(Shape::convex_polygon(
        points,
        colour,
        Stroke::new(1.0, pen.roles.ground),
    ));
}

/// Which way, how much there is, how much is needed, to what; how deep where it is inside.
/// Where there is plenty only how much, and to what.
fn said(editor: &Editor, run: &RunStudy, room: &Room) -> String {
    let units = editor.site().units;
    let way = direction_word(run, room.direction);
    if !room.is_tight() {
        let thing = words::thing(editor.site(), &room.thing);
        return format!("{way} {} to {thing}", words::available(units, room));
    }
    let told = words::room_to(editor.site(), room);
    match words::inside(units, room) {
        Some(inside) => format!("{way}, {told}\n{inside}"),
        None => format!("{way} {told}"),
    }
}

fn want(
    labels: &mut Labels,
    pen: &Pen<'_>,
    room: &Room,
    text: String,
    places: Vec<(Pos2, Align2)>,
) {
    let (font, weight) = if room.is_breach() {
        (TextSize::Small.bold(), Weight::Breach)
    } else {
        (TextSize::Small.font(), Weight::Hanger)
    };
    labels.want(Label {
        text,
        font,
        colour: colour_of(pen, room),
        ground: Some(pen.roles.label_ground),
        weight,
        places,
    });
}
