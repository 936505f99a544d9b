//! Draws a bay: corner after corner, or from corner to corner.

use super::sketch::{Act, Form, Ghost, Sketch, Stand, constrained, far_corner};
use crate::editor::intent::Intent;
use crate::editor::make::{self, rectangle};
use crate::geometry::DVec2;

/// Nearer than this to the first corner, a click closes the outline, points.
pub(super) const CLOSE: f32 = 10.0;

pub(super) fn act(sketch: &mut Sketch, act: Act, stand: &Stand<'_>) -> Vec<Intent> {
    outline(sketch, act, stand).map_or_else(Vec::new, |outline| {
        let editor = stand.editor;
        let made = make::bay(editor.committed(), &editor.drafts, outline);
        vec![Intent::Make(made)]
    })
}

/// The outline that an act completes.
pub(super) fn outline(sketch: &mut Sketch, act: Act, stand: &Stand<'_>) -> Option<Vec<DVec2>> {
    match act {
        Act::Press(at) if sketch.points.is_empty() => {
            sketch.pressed = Some(at);
            None
        }
        Act::Press(_) | Act::Move(_) => None,
        Act::Release(at) => {
            let from = sketch.pressed.take()?;
            Some(rectangle(from, far_corner(from, at, &stand.typed)))
        }
        Act::Click(at) => corner(sketch, at, stand),
        Act::Finish => {
            let points = std::mem::take(&mut sketch.points);
            (3 <= points.len()).then_some(points)
        }
    }
}

fn corner(sketch: &mut Sketch, at: DVec2, stand: &Stand<'_>) -> Option<Vec<DVec2>> {
    let Some(&from) = sketch.points.last() else {
        sketch.points.push(at);
        return None;
    };
    if stand.typed.second_m.is_some() && sketch.points.len() == 1 {
        sketch.points.clear();
        return Some(rectangle(from, far_corner(from, at, &stand.typed)));
    }
    let first = sketch.points[0];
    let near = stand.camera.screen_vector(at - first).length() <= CLOSE;
    if near && 3 <= sketch.points.len() {
        return Some(std::mem::take(&mut sketch.points));
    }
    let to = constrained(from, at, &stand.typed);
    if 1e-3 < (to - from).length() {
        sketch.points.push(to);
    }
    None
}

pub(super) fn ghost(sketch: &Sketch, at: DVec2, stand: &Stand<'_>, what: &str) -> Ghost {
    if let Some(from) = sketch.pressed {
        return rectangle_ghost(from, at, stand, what);
    }
    let Some(&from) = sketch.points.last() else {
        return Ghost::hint(format!(
            "Click the first corner of the {what}, or drag across it"
        ));
    };
    if stand.typed.second_m.is_some() && sketch.points.len() == 1 {
        return rectangle_ghost(from, at, stand, what);
    }
    let to = constrained(from, at, &stand.typed);
    let closes = 3 <= sketch.points.len()
        && stand.camera.screen_vector(at - sketch.points[0]).length() <= CLOSE;
    let mut ghost = Ghost::hint(match (sketch.points.len(), closes) {
        (_, true) => format!("Click to close the {what}"),
        (1, _) => "Click the next corner, type a length, or width x depth".to_owned(),
        (2, _) => "Click the next corner, or type a length".to_owned(),
        _ => format!("Click the next corner; Enter closes the {what}"),
    });
    let mut points = sketch.points.clone();
    if !closes {
        points.push(to);
    }
    ghost.measure(stand, from, if closes { sketch.points[0] } else { to });
    let form = if 3 <= points.len() {
        Form::Closed
    } else {
        Form::Open
    };
    ghost.lines.push((points, form));
    ghost
}

fn rectangle_ghost(from: DVec2, at: DVec2, stand: &Stand<'_>, what: &str) -> Ghost {
    let ring = rectangle(from, far_corner(from, at, &stand.typed));
    let mut ghost = Ghost::hint(format!("Let go to make the {what}, or type width x depth"));
    ghost.measure(stand, ring[0], ring[1]);
    ghost.measure(stand, ring[1], ring[2]);
    ghost.lines.push((ring, Form::Closed));
    ghost
}
