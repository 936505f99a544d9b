//! Cuts openings into walls.

use super::sketch::{Act, Form, Ghost, Sketch, Stand};
use crate::editor::extent::wall;
use crate::editor::figures::length;
use crate::editor::intent::Intent;
use crate::editor::make;
use crate::geometry::DVec2;
use crate::geometry::segment::{distance_to_segment, nearest_on_segment};
use crate::site::Bay;
use crate::units::Length;
use std::sync::Arc;

/// How near the pointer must be to a wall, points.
const REACH: f32 = 40.0;

/// A stretch of a wall.
#[derive(Debug, Clone)]
struct Stretch {
    bay: Arc<Bay>,
    edge: usize,
    /// The wall's first corner and the unit vector along it.
    corner: DVec2,
    along: DVec2,
    from_m: f64,
    width_m: f64,
}

impl Stretch {
    fn ends(&self) -> (DVec2, DVec2) {
        let start = self.corner + self.along * self.from_m;
        (start, start + self.along * self.width_m)
    }
}

pub(super) fn act(sketch: &mut Sketch, act: Act, stand: &Stand<'_>) -> Vec<Intent> {
    let at = match act {
        Act::Press(at) => {
            sketch.pressed = Some(at);
            return Vec::new();
        }
        Act::Move(_) | Act::Finish => return Vec::new(),
        Act::Release(at) | Act::Click(at) => at,
    };
    let found = stretch(sketch, at, stand);
    sketch.pressed = None;
    found.map_or_else(Vec::new, |found| {
        let editor = stand.editor;
        let made = make::opening(
            editor.committed(),
            &editor.drafts,
            &found.bay,
            found.edge,
            found.from_m,
            found.width_m,
        );
        vec![Intent::Make(made)]
    })
}

/// Where the opening would be: about the pointer, or from where the button went down.
fn stretch(sketch: &Sketch, at: DVec2, stand: &Stand<'_>) -> Option<Stretch> {
    let reach = stand.camera.site_length(REACH);
    let begin = sketch.pressed.unwrap_or(at);
    let walls = stand.editor.committed().bays.iter().flat_map(|bay| {
        (0..bay.outline.len()).filter_map(move |edge| Some((bay, edge, wall(bay, edge)?)))
    });
    let (bay, edge, (a, b)) = walls
        .map(|found| (distance_to_segment(begin, found.2.0, found.2.1), found))
        .filter(|(off, _)| *off <= reach)
        .min_by(|one, other| one.0.total_cmp(&other.0))?
        .1;
    let room = (b - a).length();
    let along = (b - a).try_normalize()?;
    let place = |point: DVec2| (nearest_on_segment(point, a, b) - a).dot(along);
    let typed = stand.typed.first_m;
    let (from_m, width_m) = match sketch.pressed {
        Some(pressed) => {
            let (one, other) = (place(pressed), place(at));
            let width = typed.unwrap_or((other - one).abs());
            let from = if other < one { one - width } else { one };
            (from, width)
        }
        None => {
            let width = typed.unwrap_or(stand.editor.drafts.opening.width.as_metres());
            (place(at) - width / 2.0, width)
        }
    };
    let width_m = width_m.clamp(0.1, room);
    Some(Stretch {
        bay: Arc::clone(bay),
        edge,
        corner: a,
        along,
        from_m: from_m.clamp(0.0, room - width_m),
        width_m,
    })
}

pub(super) fn ghost(sketch: &Sketch, at: DVec2, stand: &Stand<'_>) -> Ghost {
    let Some(found) = stretch(sketch, at, stand) else {
        return Ghost::hint("Point at the wall that is to have the opening");
    };
    let (from, to) = found.ends();
    let units = stand.editor.site().units;
    let mut ghost = Ghost::hint(format!(
        "Click to cut an opening of {}; drag along the wall or type for another width",
        length(units, Length::metres(found.width_m))
    ));
    ghost.measure(stand, from, to);
    ghost.measure(stand, found.corner, from);
    ghost.lines.push((vec![from, to], Form::Open));
    ghost
}
