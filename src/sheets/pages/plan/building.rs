//! Walls and their openings.

use crate::geometry::DVec2;
use crate::geometry::polygon::signed_area;
use crate::sheets::layer::Layer;
use crate::sheets::lettering::Lettering;
use crate::sheets::mark::{Area, Mark, Polyline};
use crate::sheets::pen::{Ink, LineKind, Pen, PenWidth};
use crate::sheets::text::Anchor;
use crate::site::{Bay, Opening, OpeningKind};
use crate::structure::{DoorPart, WALL_M, door_space};

use super::{Drawing, reading_turn};
use crate::sheets::pages::labels::{Label, Spot, Wording};

/// The pen of what moves.
pub(in crate::sheets::pages) const DOOR: Pen = Pen::of(PenWidth::W018, LineKind::LongDashDoubleDot);

/// Draws the walls of every bay, cut open where its doors and windows are.
pub(super) fn draw(drawing: &mut Drawing<'_>) {
    for bay in &drawing.input.site.bays {
        for wall in walls(bay) {
            draw_wall(drawing, bay, &wall);
        }
    }
}

/// One edge of a bay's outline or of a hole.
struct Wall {
    /// Its number among the bay's edges, the outline's first.
    edge: usize,
    /// Inside face.
    from: DVec2,
    to: DVec2,
    /// Outside face, mitred with the neighbours.
    outer_from: DVec2,
    outer_to: DVec2,
    /// Unit vector to the outside.
    outward: DVec2,
}

fn walls(bay: &Bay) -> Vec<Wall> {
    let mut walls = Vec::new();
    let rings = std::iter::once(&bay.outline).chain(&bay.holes);
    for (ring_index, ring) in rings.enumerate() {
        let first_edge = walls.len();
        // To the right of a counter-clockwise outline is outside; a hole is the other way round.
        let side = if (0.0 < signed_area(ring)) == (ring_index == 0) {
            -1.0
        } else {
            1.0
        };
        let n = ring.len();
        let outward = |edge: usize| {
            (ring[(edge + 1) % n] - ring[edge % n])
                .normalize_or_zero()
                .perp()
                * side
        };
        for edge in 0..n {
            let (from, to) = (ring[edge], ring[(edge + 1) % n]);
            let own = outward(edge);
            walls.push(Wall {
                edge: first_edge + edge,
                from,
                to,
                outer_from: from + mitre(outward(edge + n - 1), own),
                outer_to: to + mitre(own, outward(edge + 1)),
                outward: own,
            });
        }
    }
    walls
}

/// From an inside corner to the outside corner of two walls with these outward vectors.
/// At a corner so sharp that it would reach far out, square to the second wall.
fn mitre(one: DVec2, other: DVec2) -> DVec2 {
    const SHARPEST: f64 = 0.2;
    let opening = 1.0 + one.dot(other);
    if opening < SHARPEST {
        other * WALL_M
    } else {
        (one + other) / opening * WALL_M
    }
}

fn draw_wall(drawing: &mut Drawing<'_>, bay: &Bay, wall: &Wall) {
    let bay_id = bay.id.as_str();
    if bay.open_edges.contains(&wall.edge) {
        let pen = Pen::of(PenWidth::W018, LineKind::LongDashDot);
        let ends = [drawing.at(wall.from), drawing.at(wall.to)];
        drawing.draw(Mark::new(Layer::Wall, Polyline::open(pen, ends)).of("bay", bay_id));
        return;
    }
    let length_m = wall.from.distance(wall.to);
    let along = (wall.to - wall.from).normalize_or_zero();
    let mut openings: Vec<&Opening> = openings_of(drawing, bay, wall.edge);
    openings.sort_by(|a, b| {
        a.from_corner
            .as_metres()
            .total_cmp(&b.from_corner.as_metres())
    });
    let mut reached_m = 0.0;
    let mut inner_from = wall.from;
    let mut outer_from = wall.outer_from;
    for opening in openings {
        let from_m = opening.from_corner.as_metres().clamp(reached_m, length_m);
        let to_m = (opening.from_corner + opening.width)
            .as_metres()
            .clamp(from_m, length_m);
        let jamb = |at_m: f64| {
            let inner = wall.from + along * at_m;
            (inner, inner + wall.outward * WALL_M)
        };
        let (inner_to, outer_to) = jamb(from_m);
        if reached_m < from_m {
            piece(
                drawing,
                bay_id,
                [inner_from, inner_to, outer_to, outer_from],
            );
        }
        let (inner, outer) = jamb(to_m);
        draw_opening(drawing, opening, [inner_to, inner, outer, outer_to]);
        draw_door(drawing, bay, opening);
        reached_m = to_m;
        (inner_from, outer_from) = (inner, outer);
    }
    if reached_m < length_m {
        piece(
            drawing,
            bay_id,
            [inner_from, wall.to, wall.outer_to, outer_from],
        );
    }
}

fn openings_of<'a>(drawing: &Drawing<'a>, bay: &Bay, edge: usize) -> Vec<&'a Opening> {
    let all = drawing.input.site.openings.iter().map(AsRef::as_ref);
    all.filter(|opening| opening.bay == bay.id && opening.edge == edge)
        .collect()
}

/// A stretch of wall: what the plan cuts is filled, so that the building stands out.
fn piece(drawing: &mut Drawing<'_>, bay: &str, corners: [DVec2; 4]) {
    let corners = corners.map(|corner| drawing.at(corner));
    let fill = Mark::new(Layer::Wall, Area::new(corners)).ink(Ink::Grey);
    drawing.taken.block(&fill.shape);
    drawing.draw(fill.of("bay", bay));
    let outline = Mark::new(Layer::Wall, Polyline::closed(Pen::MEDIUM, corners));
    drawing.taken.block(&outline.shape);
    drawing.draw(outline.of("bay", bay));
}

fn draw_opening(drawing: &mut Drawing<'_>, opening: &Opening, corners: [DVec2; 4]) {
    let [a, b, c, d] = corners.map(|corner| drawing.at(corner));
    let mut lines = vec![[a, b], [d, c]];
    if opening.kind == OpeningKind::Window {
        lines.push([a.midpoint(d), b.midpoint(c)]);
    }
    for ends in lines {
        let mark = Mark::new(Layer::Opening, Polyline::open(Pen::FINE, ends));
        drawing.draw_avoided(mark.of("opening", opening.id.as_str()));
    }
}

/// Where the leaves of a door move and rest open, as outlines of what moves.
fn draw_door(drawing: &mut Drawing<'_>, bay: &Bay, opening: &Opening) {
    for leaf in door_space(bay, opening) {
        for part in [DoorPart::Travel, DoorPart::Open] {
            let ring = leaf.plan(part);
            if ring.is_empty() {
                continue;
            }
            let corners = ring.iter().map(|&corner| drawing.at(corner));
            let outline = Polyline::closed(DOOR, corners.collect::<Vec<_>>());
            let mark = Mark::new(Layer::Opening, outline).of("opening", opening.id.as_str());
            drawing.draw_avoided(mark);
        }
    }
}

/// Names doors and windows outside their wall, where there is room.
pub(super) fn name(drawing: &mut Drawing<'_>) {
    let lettering = Lettering::condensed(2.5);
    for bay in &drawing.input.site.bays {
        for wall in walls(bay) {
            let along = (wall.to - wall.from).normalize_or_zero();
            for opening in openings_of(drawing, bay, wall.edge) {
                let middle = opening.from_corner.as_metres() + opening.width.as_metres() / 2.0;
                let at = drawing.at(wall.from + along * middle);
                let out = drawing.direction(wall.outward);
                let figures = drawing.figures;
                let size = format!(
                    "{} {} × {}",
                    opening.id,
                    figures.place(opening.width.as_metres()),
                    figures.place(opening.height.as_metres())
                );
                let spot = |distance_mm: f64| Spot {
                    at: at + out * distance_mm,
                    turn_degrees: reading_turn(drawing.direction(along)),
                    anchor: Anchor::CENTRE,
                };
                let wall_mm = drawing.mm(WALL_M);
                let spots = vec![spot(wall_mm + 2.2), spot(-2.6)];
                let label = Label {
                    tries: vec![
                        (Wording::line(size, lettering), spots.clone()),
                        (Wording::line(opening.id.as_str(), lettering), spots),
                    ],
                    leader: None,
                    layer: Layer::Opening,
                    ink: Ink::DarkGrey,
                };
                drawing.label(&label, "opening", opening.id.as_str());
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn corners_are_mitred_outside() {
        let corner = mitre(-DVec2::Y, DVec2::X);
        assert!(corner.distance(DVec2::new(WALL_M, -WALL_M)) < 1e-12);
        assert!(mitre(DVec2::X, DVec2::X).distance(DVec2::X * WALL_M) < 1e-12);
        assert!(mitre(DVec2::X, -DVec2::X).length() <= WALL_M + 1e-12);
    }
}
