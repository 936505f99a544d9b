//! Letters grid lines: both ends, then on by spacing.

use super::sketch::{Act, Form, Ghost, Sketch, Stand, constrained};
use crate::editor::intent::Intent;
use crate::editor::make;
use crate::geometry::DVec2;

pub(super) fn act(sketch: &mut Sketch, act: Act, stand: &Stand<'_>) -> Vec<Intent> {
    let line = match act {
        Act::Press(at) if sketch.points.is_empty() => {
            sketch.pressed = Some(at);
            None
        }
        Act::Press(_) | Act::Move(_) | Act::Finish => None,
        Act::Release(at) => sketch
            .pressed
            .take()
            .map(|from| (from, constrained(from, at, &stand.typed))),
        Act::Click(at) => match (sketch.points.pop(), beside(sketch, at, stand)) {
            (Some(from), _) => Some((from, constrained(from, at, &stand.typed))),
            (None, Some(line)) => Some(line),
            (None, None) => {
                sketch.points.push(at);
                None
            }
        },
    };
    let Some((from, to)) = line.filter(|(from, to)| 1e-2 < (*to - *from).length()) else {
        return Vec::new();
    };
    sketch.last = Some((from, to));
    let made = make::grid_line(stand.editor.committed(), from, to);
    vec![Intent::Make(made)]
}

/// The line beside the last one, at the typed spacing, on the side of the pointer.
fn beside(sketch: &Sketch, at: DVec2, stand: &Stand<'_>) -> Option<(DVec2, DVec2)> {
    let (from, to) = sketch.last?;
    let spacing_m = stand.typed.first_m?;
    let left = (to - from).normalize_or(DVec2::X).perp();
    let side = if (at - from).dot(left) < 0.0 {
        -1.0
    } else {
        1.0
    };
    let by = left * (side * spacing_m);
    Some((from + by, to + by))
}

pub(super) fn ghost(sketch: &Sketch, at: DVec2, stand: &Stand<'_>) -> Ghost {
    let site = stand.editor.committed();
    let Some(from) = sketch.from() else {
        if let Some((a, b)) = beside(sketch, at, stand) {
            let name = make::grid_name(site, a, b, &[]);
            let mut ghost = Ghost::hint(format!("Enter places grid line {name} beside the last"));
            ghost.lines.push((vec![a, b], Form::Open));
            return ghost;
        }
        return Ghost::hint(if sketch.last.is_some() {
            "Click an end of the next line, or type its distance from the last"
        } else {
            "Click the end of the line where its letter stands"
        });
    };
    let to = constrained(from, at, &stand.typed);
    let name = make::grid_name(site, from, to, &[]);
    let mut ghost = Ghost::hint(format!("Click the other end of grid line {name}"));
    ghost.measure(stand, from, to);
    ghost.lines.push((vec![from, to], Form::Open));
    ghost
}
