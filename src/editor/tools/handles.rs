//! Handles of a single picked object: ends, corners, jambs, and a knob to turn it.

use crate::editor::Editor;
use crate::editor::extent::{Extent, RunPlan, extent, jambs, wall};
use crate::geometry::DVec2;
use crate::geometry::math::atan2;
use crate::site::place::turned;
use crate::site::{Bay, Footprint, GridLine, Object, Obstruction, Opening, Run, SectionLine, Site};
use crate::units::{Angle, Length};
use std::sync::Arc;

/// What a handle does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Grip {
    /// Moves a corner of an outline, or a point of a line.
    Corner(usize),
    /// The first end, jamb or burner.
    First,
    /// The second end, jamb or the exhaust.
    Second,
    /// Turns the whole object.
    Turn,
}

/// A handle and where it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Handle {
    pub(crate) grip: Grip,
    pub(crate) at: DVec2,
}

impl Grip {
    /// What dragging it does, for the status line.
    pub(crate) const fn hint(self, object: &Object) -> &'static str {
        match (self, object) {
            (Self::Turn, _) => "Drag to turn",
            (Self::Corner(_), _) => "Drag to move this corner",
            (Self::First, Object::Run(_)) => "Drag the burner about the exhaust",
            (Self::Second, Object::Run(_)) => "Drag the exhaust about the burner",
            (_, Object::Opening(_)) => "Drag to move this jamb",
            (Self::First | Self::Second, _) => "Drag to move this end",
        }
    }

    /// The name of the step.
    pub(crate) fn step_name(self, object: &Object) -> String {
        let id = object.id();
        match (self, object) {
            (Self::Turn, _) | (_, Object::Run(_)) => format!("Turn {id}"),
            (Self::Corner(_), _) => format!("Move a corner of {id}"),
            (_, Object::Opening(_)) => format!("Move a jamb of {id}"),
            (Self::First | Self::Second, _) => format!("Move an end of {id}"),
        }
    }
}

/// The handles of an object. `knob_m` is how far beyond an object its knob stands.
pub(crate) fn handles(editor: &Editor, object: &Object, knob_m: f64) -> Vec<Handle> {
    let site = editor.site();
    let corners = |points: &[DVec2]| -> Vec<Handle> {
        points
            .iter()
            .enumerate()
            .map(|(place, at)| Handle {
                grip: Grip::Corner(place),
                at: *at,
            })
            .collect()
    };
    let ends = |first: DVec2, second: DVec2| {
        let at = [(Grip::First, first), (Grip::Second, second)];
        at.map(|(grip, at)| Handle { grip, at }).to_vec()
    };
    let mut all = match object {
        Object::GridLine(line) => ends(line.from, line.to),
        Object::SectionLine(line) => ends(line.from, line.to),
        Object::Bay(bay) => corners(&bay.outline),
        Object::Obstruction(it) => match &it.footprint {
            Footprint::Area { outline, .. } => corners(outline),
            Footprint::Line { points, .. } => corners(points),
        },
        Object::Run(run) => {
            let plan = RunPlan::of(run, &editor.catalogue);
            ends(
                plan.at(-plan.burner_length_m, 0.0),
                plan.at(plan.length_m + plan.end_length_m, 0.0),
            )
        }
        Object::Opening(opening) => bay_of(site, opening)
            .and_then(|bay| jambs(opening, bay))
            .map_or_else(Vec::new, |(a, b)| ends(a, b)),
        Object::Framing(_) | Object::WorkSpot(_) => Vec::new(),
    };
    if matches!(object, Object::Obstruction(_) | Object::Bay(_)) {
        let extent = extent(site, &editor.catalogue, object);
        all.push(Handle {
            grip: Grip::Turn,
            at: DVec2::new(extent.middle().x, extent.greatest.y + knob_m),
        });
    }
    all
}

fn bay_of<'a>(site: &'a Site, opening: &Opening) -> Option<&'a Arc<Bay>> {
    site.bays.iter().find(|bay| bay.id == opening.bay)
}

/// The object with a handle dragged to a point.
pub(crate) fn dragged(editor: &Editor, object: &Object, grip: Grip, to: DVec2) -> Option<Object> {
    let site = editor.committed();
    Some(match (object, grip) {
        (_, Grip::Turn) => {
            let about = Extent::middle(&extent(site, &editor.catalogue, object));
            turned(object, about, round_turn(bearing(to - about)?))
        }
        (Object::Run(run), Grip::First) => {
            let plan = RunPlan::of(run, &editor.catalogue);
            let fixed = plan.end();
            let heading = fixed - to;
            let turned = with_bearing(run, round_bearing(bearing(heading)?));
            let plan = RunPlan::of(&turned, &editor.catalogue);
            Object::Run(Arc::new(Run {
                burner: turned.burner + fixed - plan.end(),
                ..turned
            }))
        }
        (Object::Run(run), _) => {
            let toward = bearing(to - run.burner)?;
            Object::Run(Arc::new(with_bearing(run, round_bearing(toward))))
        }
        (Object::GridLine(line), grip) => {
            let (from, to) = match grip {
                Grip::First => (to, line.to),
                _ => (line.from, to),
            };
            Object::GridLine(Arc::new(GridLine {
                from,
                to,
                ..GridLine::clone(line)
            }))
        }
        (Object::SectionLine(line), grip) => {
            let (from, to) = match grip {
                Grip::First => (to, line.to),
                _ => (line.from, to),
            };
            Object::SectionLine(Arc::new(SectionLine {
                from,
                to,
                ..SectionLine::clone(line)
            }))
        }
        (Object::Bay(bay), Grip::Corner(place)) => {
            let mut moved = Bay::clone(bay);
            move_corner(&mut moved.outline, place, to)?;
            Object::Bay(Arc::new(moved))
        }
        (Object::Obstruction(it), Grip::Corner(place)) => {
            let mut moved = Obstruction::clone(it);
            match &mut moved.footprint {
                Footprint::Area { outline, holes } if holes.is_empty() => {
                    move_corner(outline, place, to)?;
                }
                Footprint::Area { outline, .. } => *outline.get_mut(place)? = to,
                Footprint::Line { points, .. } => *points.get_mut(place)? = to,
            }
            Object::Obstruction(Arc::new(moved))
        }
        (Object::Opening(opening), grip) => {
            let bay = bay_of(site, opening)?;
            Object::Opening(Arc::new(widened(opening, bay, grip, to)?))
        }
        _ => return None,
    })
}

/// Moves one corner. The corner of a rectangle takes its two neighbours along, so that
/// it stays a rectangle.
fn move_corner(ring: &mut [DVec2], place: usize, to: DVec2) -> Option<()> {
    let from = *ring.get(place)?;
    let n_corners = ring.len();
    if is_rectangle(ring) {
        let (before, after) = ((place + n_corners - 1) % n_corners, (place + 1) % n_corners);
        let (u, v) = (
            (ring[before] - from).try_normalize()?,
            (ring[after] - from).try_normalize()?,
        );
        let by = to - from;
        ring[before] += v * by.dot(v);
        ring[after] += u * by.dot(u);
    }
    ring[place] = to;
    Some(())
}

fn is_rectangle(ring: &[DVec2]) -> bool {
    /// How far from square an angle may be, as a cosine: what rounding leaves.
    const SQUARE: f64 = 1e-6;
    ring.len() == 4
        && (0..4).all(|place| {
            let side = |from: usize, to: usize| (ring[to % 4] - ring[from % 4]).normalize_or_zero();
            side(place, place + 1).dot(side(place + 1, place + 2)).abs() < SQUARE
        })
}

fn widened(opening: &Opening, bay: &Bay, grip: Grip, to: DVec2) -> Option<Opening> {
    /// Least width that a jamb can be dragged to, m.
    const LEAST: f64 = 0.1;
    let (a, b) = wall(bay, opening.edge)?;
    let along = (b - a).try_normalize()?;
    let room = (b - a).length();
    let place = (to - a).dot(along).clamp(0.0, room);
    let (from, until) = (
        opening.from_corner.as_metres(),
        (opening.from_corner + opening.width).as_metres(),
    );
    let (from, until) = match grip {
        Grip::First => (place.min(until - LEAST), until),
        _ => (from, place.max(from + LEAST)),
    };
    Some(Opening {
        from_corner: Length::metres(from),
        width: Length::metres(until - from),
        ..opening.clone()
    })
}

fn with_bearing(run: &Run, bearing: Angle) -> Run {
    Run {
        bearing,
        ..run.clone()
    }
}

/// The bearing of a plan vector, degrees.
fn bearing(toward: DVec2) -> Option<f64> {
    let toward = toward.try_normalize()?;
    Some(atan2(toward.x, toward.y).to_degrees())
}

/// A bearing as a hand means it: whole degrees, quarters preferred.
fn round_bearing(degrees: f64) -> Angle {
    let quarter = (degrees / 90.0).round() * 90.0;
    let meant = if (degrees - quarter).abs() < 2.5 {
        quarter
    } else {
        degrees.round()
    };
    Angle::degrees(meant.rem_euclid(360.0))
}

fn round_turn(degrees: f64) -> Angle {
    round_bearing(degrees)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::make::rectangle;

    #[test]
    fn a_rectangle_stays_one_when_a_corner_moves_and_other_outlines_just_move_it() {
        let mut ring = rectangle(DVec2::ZERO, DVec2::new(10.0, 6.0));
        move_corner(&mut ring, 2, DVec2::new(12.0, 5.0));
        assert_eq!(ring, rectangle(DVec2::ZERO, DVec2::new(12.0, 5.0)));
        ring[2] = DVec2::new(13.0, 9.0);
        let others = [ring[0], ring[1], ring[3]];
        move_corner(&mut ring, 2, DVec2::new(14.0, 9.0));
        assert_eq!([ring[0], ring[1], ring[3]], others);
    }

    #[test]
    fn bearings_near_a_quarter_are_that_quarter() {
        assert_eq!(round_bearing(91.9), Angle::degrees(90.0));
        assert_eq!(round_bearing(-93.2), Angle::degrees(267.0));
    }
}
