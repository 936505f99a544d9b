//! Draws section lines: both ends, then the side that is looked at and how far.

use super::sketch::{Act, Form, Ghost, Sketch, Stand, constrained};
use crate::editor::figures::length;
use crate::editor::intent::Intent;
use crate::editor::make;
use crate::geometry::DVec2;
use crate::site::Side;
use crate::units::Length;

/// Nearer to the line than this a click says which side, not how far, m.
const LEAST_DEPTH_M: f64 = 0.5;

pub(super) fn act(sketch: &mut Sketch, act: Act, stand: &Stand<'_>) -> Vec<Intent> {
    match act {
        Act::Press(at) if sketch.points.is_empty() => sketch.pressed = Some(at),
        Act::Press(_) | Act::Move(_) => {}
        Act::Release(at) => {
            if let Some(from) = sketch.pressed.take() {
                sketch.points = vec![from];
                add_end(sketch, at, stand);
            } else if let [from, to] = sketch.points[..] {
                return place(sketch, from, to, at, stand);
            }
        }
        Act::Click(at) => match sketch.points[..] {
            [from, to] => return place(sketch, from, to, at, stand),
            [_] => add_end(sketch, at, stand),
            _ => sketch.points = vec![at],
        },
        // Without a word of the side: to the left, as far as the last one.
        Act::Finish => {
            if let [from, to] = sketch.points[..] {
                return place(sketch, from, to, from, stand);
            }
        }
    }
    Vec::new()
}

fn add_end(sketch: &mut Sketch, at: DVec2, stand: &Stand<'_>) {
    if let Some(&from) = sketch.points.first() {
        let to = constrained(from, at, &stand.typed);
        if 0.1 <= (to - from).length() {
            sketch.points.push(to);
        }
    }
}

/// The side on which a point lies, and how far it is looked: to the point, or as far as
/// was typed.
fn looked(from: DVec2, to: DVec2, at: DVec2, stand: &Stand<'_>) -> (Side, Length) {
    let offset_m = (to - from).normalize_or(DVec2::X).perp_dot(at - from);
    let side = if offset_m < 0.0 {
        Side::Right
    } else {
        Side::Left
    };
    let depth = match stand.typed.first_m {
        Some(typed_m) => Length::metres(typed_m),
        None if offset_m.abs() < LEAST_DEPTH_M => stand.editor.drafts.section_depth,
        None => Length::metres(offset_m.abs()),
    };
    (side, depth)
}

fn place(sketch: &mut Sketch, from: DVec2, to: DVec2, at: DVec2, stand: &Stand<'_>) -> Vec<Intent> {
    let (side, depth) = looked(from, to, at, stand);
    sketch.points.clear();
    let mut drafts = stand.editor.drafts.clone();
    drafts.section_depth = depth;
    let made = make::section_line(stand.editor.committed(), from, to, side, depth);
    vec![Intent::Drafts(Box::new(drafts)), Intent::Make(made)]
}

pub(super) fn ghost(sketch: &Sketch, at: DVec2, stand: &Stand<'_>) -> Ghost {
    if let [from, to] = sketch.points[..] {
        let (side, depth) = looked(from, to, at, stand);
        let left = (to - from).normalize_or(DVec2::X).perp();
        let by = match side {
            Side::Left => left,
            Side::Right => -left,
        } * depth.as_metres();
        let said = length(stand.editor.site().units, depth);
        let mut ghost = Ghost::hint(format!(
            "Click how far behind the cut is shown ({said}), or type it"
        ));
        ghost.lines.push((vec![from, to], Form::Open));
        ghost
            .lines
            .push((vec![from, to, to + by, from + by], Form::Closed));
        let middle = (from + to) / 2.0;
        ghost.measure(stand, middle, middle + by);
        return ghost;
    }
    let Some(from) = sketch.from() else {
        return Ghost::hint("Click one end of the section line");
    };
    let to = constrained(from, at, &stand.typed);
    let mut ghost = Ghost::hint("Click its other end");
    ghost.measure(stand, from, to);
    ghost.lines.push((vec![from, to], Form::Open));
    ghost
}
