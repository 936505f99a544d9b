//! What the run passes over, under or beside, cut to the width of its envelope:
//! obstructions, and doors open and on their way.

use crate::editor::Editor;
use crate::geometry::pieces::{convex_hull, cut_by_line};
use crate::geometry::{ConvexSolid, DVec2, DVec3};
use crate::site::{ObstructionKind, Site};
use crate::structure::DoorPart;
use crate::study::{RunStudy, Surrounding, Thing};

/// A thing from the side.
#[derive(Debug, Clone)]
pub(super) struct Solid {
    /// What it is called.
    pub(super) name: String,
    /// Whether it only passes, or may be there.
    pub(super) passes: bool,
    /// Its outlines: stations and elevations, convex, m.
    pub(super) outlines: Vec<Vec<DVec2>>,
    pub(super) top_m: f64,
}

/// The things that reach into the strip under and over the run's envelope.
pub(super) fn solids(
    editor: &Editor,
    study: &RunStudy,
    flange: DVec2,
    heading: DVec2,
    (from, to): (f64, f64),
) -> Vec<Solid> {
    let Some(known) = editor.results.study() else {
        return Vec::new();
    };
    let boxes = &study.clearance.envelope;
    let strip = Strip {
        flange,
        heading,
        half_left_m: boxes.iter().map(|it| it.high.y).fold(0.3, f64::max),
        half_right_m: boxes.iter().map(|it| -it.low.y).fold(0.3, f64::max),
        from_m: from,
        to_m: to,
    };
    let mut all = Vec::new();
    for thing in &known.surroundings.things {
        let outlines: Vec<Vec<DVec2>> = thing
            .solids
            .iter()
            .map(|solid| strip.side_view(solid))
            .filter(|outline| 3 <= outline.len())
            .collect();
        if outlines.is_empty() {
            continue;
        }
        // Last: looking a name up among thousands costs more than leaving out what is elsewhere.
        let Some((name, passes)) = called(editor.site(), thing) else {
            continue;
        };
        let heights = outlines.iter().flatten().map(|p| p.y);
        all.push(Solid {
            name,
            passes,
            top_m: heights.fold(f64::NEG_INFINITY, f64::max),
            outlines,
        });
    }
    all
}

/// What a thing is called, and whether it only passes; none of what the profile draws
/// by itself: members, walls, decks.
fn called(site: &Site, thing: &Surrounding) -> Option<(String, bool)> {
    match (&thing.thing, thing.kind) {
        (Thing::Obstruction(id), Some(kind)) => {
            let known = site.obstructions.iter().find(|it| it.id == *id)?;
            let named = if known.name.is_empty() {
                kind.label()
            } else {
                &known.name
            };
            let passes = matches!(
                kind,
                ObstructionKind::CraneTravel
                    | ObstructionKind::DoorTravel
                    | ObstructionKind::HazardZone
                    | ObstructionKind::Aircraft
            );
            Some((format!("{named} {id}"), passes))
        }
        (Thing::Door(id, part), _) => {
            let known = site.openings.iter().find(|it| it.id == *id)?;
            let place = match part {
                DoorPart::Open => ", open",
                DoorPart::Travel => "",
            };
            Some((format!("{} {id}{place}", known.kind.label()), true))
        }
        _ => None,
    }
}

/// The strip along a run that is looked at from its right side.
struct Strip {
    flange: DVec2,
    heading: DVec2,
    half_left_m: f64,
    half_right_m: f64,
    from_m: f64,
    to_m: f64,
}

impl Strip {
    /// A solid within the strip, seen from the side; empty where it is elsewhere.
    fn side_view(&self, solid: &ConvexSolid) -> Vec<DVec2> {
        let left = self.heading.perp();
        let aside = |p: &DVec3| (p.truncate() - self.flange).dot(left);
        let seen = |p: DVec3| DVec2::new((p.truncate() - self.flange).dot(self.heading), p.z);
        let bounds = solid.bounds();
        let (middle, half) = (bounds.centre().truncate(), bounds.half_size().truncate());
        let off = (middle - self.flange).dot(left);
        let reach = left.abs().dot(half);
        if off - reach > self.half_left_m || off + reach < -self.half_right_m {
            return Vec::new();
        }
        let within = |p: &DVec3| (-self.half_right_m..=self.half_left_m).contains(&aside(p));
        let vertices = solid.vertices();
        let mut points: Vec<DVec2> = vertices
            .iter()
            .filter(|p| within(p))
            .map(|p| seen(*p))
            .collect();
        for &(a, b) in solid.edges() {
            let (a, b) = (vertices[a], vertices[b]);
            let (from, to) = (aside(&a), aside(&b));
            for bound in [self.half_left_m, -self.half_right_m] {
                if (from < bound) != (to < bound) {
                    points.push(seen(a.lerp(b, (bound - from) / (to - from))));
                }
            }
        }
        let ring = cut_by_line(&convex_hull(&points), DVec2::X, self.to_m);
        cut_by_line(&ring, -DVec2::X, -self.from_m)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Elevation, Polygon};

    #[test]
    fn a_solid_is_cut_to_the_strip_and_keeps_its_slope() {
        let strip = Strip {
            flange: DVec2::ZERO,
            heading: DVec2::X,
            half_left_m: 1.0,
            half_right_m: 2.0,
            from_m: 0.0,
            to_m: 10.0,
        };
        let square = Polygon::rectangle(DVec2::new(4.0, -5.0), DVec2::new(14.0, 5.0));
        let top = Elevation::along(DVec2::ZERO, DVec2::Y, 5.0, 0.1);
        let solids = ConvexSolid::prisms(&square, Elevation::level(1.0), top);
        let ring = strip.side_view(&solids[0]);
        let (low, high) = crate::geometry::polygon::bounds(&ring).unwrap_or_default();
        // Cut at the left edge of the strip, where the top is at 5.1 m.
        assert!(low.abs_diff_eq(DVec2::new(4.0, 1.0), 1e-9), "{low}");
        assert!(high.abs_diff_eq(DVec2::new(10.0, 5.1), 1e-9), "{high}");
        let aside = solids[0].translated(DVec3::new(0.0, 7.0, 0.0));
        assert!(strip.side_view(&aside).is_empty());
    }
}
