//! Draws an obstruction: a rectangle, a polygon, or a line with a width.

use super::bay;
use super::sketch::{Act, Form, Ghost, Sketch, Stand, constrained, far_corner};
use crate::editor::drafts::DrawnAs;
use crate::editor::intent::Intent;
use crate::editor::make::{self, rectangle};
use crate::geometry::{DVec2, Polygon};
use crate::site::{Edit, Footprint, Object, Obstruction, Site};
use std::sync::Arc;

pub(super) fn act(sketch: &mut Sketch, act: Act, stand: &Stand<'_>) -> Vec<Intent> {
    let editor = stand.editor;
    let footprint = match editor.drafts.drawn_as {
        DrawnAs::Rectangle => corner_to_corner(sketch, act, stand).map(area),
        DrawnAs::Polygon => bay::outline(sketch, act, stand).map(area),
        DrawnAs::Line => centre_line(sketch, act, stand).map(|points| Footprint::Line {
            points,
            width: editor.drafts.line_width,
        }),
        DrawnAs::Hole => {
            let ring = bay::outline(sketch, act, stand);
            return ring.map_or_else(Vec::new, |ring| vec![hole(editor.committed(), ring)]);
        }
    };
    footprint.map_or_else(Vec::new, |footprint| {
        let made = make::obstruction(editor.committed(), &editor.drafts, footprint);
        vec![Intent::Make(made)]
    })
}

/// Cuts a hole into the smallest area that holds all of an outline.
fn hole(site: &Site, ring: Vec<DVec2>) -> Intent {
    let holders = site
        .obstructions
        .iter()
        .filter_map(|it| match &it.footprint {
            Footprint::Area { outline, holes } => {
                let solid = Polygon {
                    outline: outline.clone(),
                    holes: holes.clone(),
                };
                let holds = ring.iter().all(|corner| solid.contains(*corner));
                holds.then(|| (solid.area().abs(), it))
            }
            Footprint::Line { .. } => None,
        });
    let Some((_, holder)) = holders.min_by(|a, b| a.0.total_cmp(&b.0)) else {
        return Intent::Tell(
            "A hole lies inside an obstruction that is drawn as an area: nothing was cut"
                .to_owned(),
        );
    };
    let mut cut = Obstruction::clone(holder);
    if let Footprint::Area { holes, .. } = &mut cut.footprint {
        holes.push(ring);
    }
    Intent::CarryOut {
        name: format!("Cut a hole in {}", cut.id),
        edit: Edit::Put(Object::Obstruction(Arc::new(cut))),
    }
}

fn area(outline: Vec<DVec2>) -> Footprint {
    Footprint::Area {
        outline,
        holes: Vec::new(),
    }
}

fn corner_to_corner(sketch: &mut Sketch, act: Act, stand: &Stand<'_>) -> Option<Vec<DVec2>> {
    match act {
        Act::Press(at) => {
            sketch.pressed = Some(at);
            sketch.points.clear();
            None
        }
        Act::Release(at) => {
            let from = sketch.pressed.take()?;
            Some(rectangle(from, far_corner(from, at, &stand.typed)))
        }
        Act::Click(at) => match sketch.points.pop() {
            Some(from) => Some(rectangle(from, far_corner(from, at, &stand.typed))),
            None => {
                sketch.points.push(at);
                None
            }
        },
        Act::Move(_) | Act::Finish => None,
    }
}

fn centre_line(sketch: &mut Sketch, act: Act, stand: &Stand<'_>) -> Option<Vec<DVec2>> {
    match act {
        Act::Press(at) if sketch.points.is_empty() => {
            sketch.pressed = Some(at);
            None
        }
        Act::Press(_) | Act::Move(_) => None,
        Act::Release(at) => {
            let from = sketch.pressed.take()?;
            Some(vec![from, constrained(from, at, &stand.typed)])
        }
        Act::Click(at) => {
            let to = match sketch.points.last() {
                Some(from) => constrained(*from, at, &stand.typed),
                None => at,
            };
            if sketch
                .points
                .last()
                .is_none_or(|from| 1e-3 < (to - *from).length())
            {
                sketch.points.push(to);
            }
            None
        }
        Act::Finish => {
            let points = std::mem::take(&mut sketch.points);
            (2 <= points.len()).then_some(points)
        }
    }
}

pub(super) fn ghost(sketch: &Sketch, at: DVec2, stand: &Stand<'_>) -> Ghost {
    let drafts = &stand.editor.drafts;
    let what = drafts.obstruction.kind.label();
    match drafts.drawn_as {
        DrawnAs::Polygon => bay::ghost(sketch, at, stand, what),
        DrawnAs::Hole => bay::ghost(sketch, at, stand, "hole"),
        DrawnAs::Rectangle => rectangle_ghost(sketch, at, stand, what),
        DrawnAs::Line => line_ghost(sketch, at, stand, what),
    }
}

fn rectangle_ghost(sketch: &Sketch, at: DVec2, stand: &Stand<'_>, what: &str) -> Ghost {
    let Some(from) = sketch.from() else {
        return Ghost::hint(format!(
            "Drag the {what} from corner to corner, or click both"
        ));
    };
    let ring = rectangle(from, far_corner(from, at, &stand.typed));
    let mut ghost = Ghost::hint("Click the opposite corner, or type width x depth");
    ghost.measure(stand, ring[0], ring[1]);
    ghost.measure(stand, ring[1], ring[2]);
    ghost.lines.push((ring, Form::Closed));
    ghost
}

fn line_ghost(sketch: &Sketch, at: DVec2, stand: &Stand<'_>, what: &str) -> Ghost {
    let Some(from) = sketch.from() else {
        return Ghost::hint(format!("Click along the middle of the {what}"));
    };
    let to = constrained(from, at, &stand.typed);
    let mut ghost = Ghost::hint("Click the next point, type a length; Enter ends it");
    ghost.measure(stand, from, to);
    let mut points = sketch.points.clone();
    if sketch.pressed.is_some() {
        points = vec![from];
    }
    points.push(to);
    let width = drafts_width(stand);
    for piece in points.windows(2) {
        let across = (piece[1] - piece[0]).normalize_or_zero().perp() * (width / 2.0);
        let ring = vec![
            piece[0] + across,
            piece[0] - across,
            piece[1] - across,
            piece[1] + across,
        ];
        ghost.lines.push((ring, Form::Closed));
    }
    ghost
}

fn drafts_width(stand: &Stand<'_>) -> f64 {
    stand.editor.drafts.line_width.as_metres()
}
