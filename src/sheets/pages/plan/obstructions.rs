//! Obstructions: light hatches, names and heights.

use crate::geometry::polygon::Polygon;
use crate::geometry::{DVec2, polygon};
use crate::sheets::layer::Layer;
use crate::sheets::lettering::Lettering;
use crate::sheets::mark::{Circle, Finish, Mark};
use crate::sheets::paper::{PaperPoint, directions};
use crate::sheets::pen::{Ink, Pen};
use crate::sheets::text::Anchor;
use crate::site::{Footprint, Obstruction, ObstructionKind};
use crate::study::footprint_outlines;

use super::{Drawing, reading_turn, style};
use crate::sheets::pages::labels::{Label, Spot, Wording};
use crate::sheets::pages::wording::{is_assumed, obstruction_height, obstruction_name};

/// What is smaller than this on paper gets a ring round it, or it would be lost, mm.
const SMALL_MM: f64 = 1.4;
/// Names are shortened to this, mm.
const NAME_MM: f64 = 42.0;

/// Draws every obstruction.
pub(super) fn draw(drawing: &mut Drawing<'_>) {
    for obstruction in &drawing.input.site.obstructions {
        let id = obstruction.id.as_str();
        for polygon in footprint_outlines(&obstruction.footprint) {
            let ring = |ring: &[DVec2]| -> Vec<PaperPoint> {
                ring.iter().map(|&corner| drawing.at(corner)).collect()
            };
            let outline = ring(&polygon.outline);
            let holes: Vec<Vec<PaperPoint>> = polygon.holes.iter().map(|it| ring(it)).collect();
            let marks = style::marks(obstruction.kind, &outline, &holes);
            let small = small_ring(&outline);
            for mark in marks {
                let mark = mark.of("obstruction", id);
                if mark.layer == Layer::Obstruction {
                    drawing.draw_avoided(mark);
                } else {
                    drawing.draw(mark);
                }
            }
            if let Some(ring) = small {
                let mark = Mark::new(Layer::Obstruction, ring).of("obstruction", id);
                drawing.draw_avoided(mark);
            }
        }
    }
}

fn small_ring(outline: &[PaperPoint]) -> Option<Circle> {
    let (low, high) = polygon::bounds(outline)?;
    ((high - low).max_element() < SMALL_MM).then(|| Circle {
        centre: low.midpoint(high),
        radius_mm: SMALL_MM / 2.0,
        finish: Finish::Drawn(Pen::HAIR),
    })
}

/// Names obstructions, the largest first: inside where the name fits, else beside, else
/// at a leader. What comes by the hundred and is small is told by the legend.
pub(super) fn name(drawing: &mut Drawing<'_>) {
    let mut by_size: Vec<(f64, &Obstruction, Polygon)> = Vec::new();
    for obstruction in &drawing.input.site.obstructions {
        let outlines = footprint_outlines(&obstruction.footprint);
        let largest = outlines
            .into_iter()
            .max_by(|a, b| a.area().total_cmp(&b.area()));
        if let Some(largest) = largest {
            by_size.push((largest.area(), obstruction.as_ref(), largest));
        }
    }
    by_size.sort_by(|a, b| b.0.total_cmp(&a.0));
    for (_, obstruction, polygon) in by_size {
        let label = label(drawing, obstruction, &polygon);
        let named = drawing.label(&label, "obstruction", obstruction.id.as_str());
        if !named && !is_told_by_legend(obstruction.kind) {
            drawing.left_out = true;
        }
    }
}

const fn is_told_by_legend(kind: ObstructionKind) -> bool {
    matches!(
        kind,
        ObstructionKind::Lamp | ObstructionKind::Sprinkler | ObstructionKind::Column
    )
}

fn label(drawing: &Drawing<'_>, obstruction: &Obstruction, polygon: &Polygon) -> Label {
    let lettering = Lettering::condensed(2.5);
    let name = lettering.shortened(obstruction_name(obstruction), NAME_MM);
    let mut height = obstruction_height(obstruction, drawing.figures);
    if is_assumed(obstruction) {
        height += " v";
    }
    let both = Wording::line(format!("{name}, {height}"), lettering);
    let below_each_other = Wording {
        lines: vec![name, height.clone()],
        lettering,
    };
    let height = Wording::line(height, lettering);
    // Beside a small thing its own name is worth the room, that of its kind is not: the
    // legend tells it.
    let is_named = !obstruction.name.trim().is_empty();
    let beside = if is_named {
        vec![both.clone(), height.clone()]
    } else {
        vec![height.clone()]
    };
    let mut tries = Vec::new();
    let tip = match &obstruction.footprint {
        Footprint::Area { .. } => {
            let outline: Vec<PaperPoint> = polygon
                .outline
                .iter()
                .map(|&corner| drawing.at(corner))
                .collect();
            let area = NamedArea::new(outline);
            let inside = |wording: Wording| (wording.clone(), area.inside(&wording));
            tries.extend([both.clone(), below_each_other].map(inside));
            if is_named {
                tries.push((both.clone(), area.beside(&both)));
            }
            tries.push(inside(height.clone()));
            tries.push((height.clone(), area.beside(&height)));
            area.tip()
        }
        Footprint::Line { points, width } => {
            let points: Vec<PaperPoint> = points.iter().map(|&point| drawing.at(point)).collect();
            let width_mm = drawing.mm(width.as_metres());
            for wording in [both, height] {
                let spots = line_spots(&points, width_mm, wording.width_mm());
                tries.push((wording, spots));
            }
            points
                .first()
                .zip(points.get(1))
                .map(|(from, to)| from.midpoint(*to))
        }
    };
    if is_told_by_legend(obstruction.kind) && !is_named {
        tries.clear();
    }
    let leader = tip.filter(|_| !is_told_by_legend(obstruction.kind));
    Label {
        tries,
        leader: leader.map(|tip| (tip, beside)),
        layer: Layer::Obstruction,
        ink: Ink::Black,
    }
}

/// An area on paper that is to be named.
struct NamedArea {
    on_paper: Polygon,
    low: PaperPoint,
    high: PaperPoint,
    turn_degrees: f64,
}

impl NamedArea {
    fn new(outline: Vec<PaperPoint>) -> Self {
        let (low, high) = polygon::bounds(&outline).unwrap_or_default();
        Self {
            turn_degrees: reading_turn(longest_edge(&outline)),
            on_paper: Polygon::new(outline),
            low,
            high,
        }
    }

    /// Where a wording fits wholly, in the middle first and along the longest side.
    fn inside(&self, wording: &Wording) -> Vec<Spot> {
        /// Parts of the area's width and height, the middle first.
        const PARTS: [f64; 7] = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8];
        let parts = PARTS
            .into_iter()
            .flat_map(|y| PARTS.map(|x| DVec2::new(x, y)));
        let places = parts.map(|part| self.low + self.size() * part);
        let spots = places.flat_map(|at| [spot(at, self.turn_degrees), spot(at, 0.0)]);
        let half = DVec2::new(wording.width_mm(), wording.height_mm()) / 2.0;
        let fits = |spot: &Spot| {
            let (along, up) = directions(spot.turn_degrees);
            [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)]
                .into_iter()
                .all(|(x, y)| {
                    self.on_paper
                        .contains(spot.at + along * (half.x * x) + up * (half.y * y))
                })
        };
        spots.filter(fits).collect()
    }

    /// Above it and below it, at its right and at its left.
    fn beside(&self, wording: &Wording) -> Vec<Spot> {
        /// Room between the area and its name, mm.
        const GAP_MM: f64 = 1.0;
        let away = self.size() / 2.0
            + DVec2::new(wording.width_mm(), wording.height_mm()) / 2.0
            + DVec2::splat(GAP_MM);
        let middle = self.low.midpoint(self.high);
        let sides = [-DVec2::Y, DVec2::Y, DVec2::X, -DVec2::X];
        sides
            .into_iter()
            .map(|side| spot(middle + side * away, 0.0))
            .collect()
    }

    fn size(&self) -> DVec2 {
        self.high - self.low
    }

    /// Where a leader may point: its middle, if that is in it.
    fn tip(&self) -> Option<PaperPoint> {
        let middle = self.low.midpoint(self.high);
        self.on_paper.contains(middle).then_some(middle)
    }
}

const fn spot(at: PaperPoint, turn_degrees: f64) -> Spot {
    Spot {
        at,
        turn_degrees,
        anchor: Anchor::CENTRE,
    }
}

/// On a line, as in a break of it, along its longest piece first; beside it where the
/// text is nearly as long as the piece or there is no room on it.
fn line_spots(points: &[PaperPoint], width_mm: f64, text_mm: f64) -> Vec<Spot> {
    /// A piece is broken by its name only if it is so many times as long.
    const LONGER: f64 = 1.4;
    const ALONG: [f64; 7] = [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9];
    let mut pieces: Vec<[PaperPoint; 2]> =
        points.windows(2).map(|pair| [pair[0], pair[1]]).collect();
    pieces.sort_by(|a, b| {
        b[0].distance_squared(b[1])
            .total_cmp(&a[0].distance_squared(a[1]))
    });
    let mut spots = Vec::new();
    for beside_mm in [0.0, width_mm / 2.0 + 2.2, -width_mm / 2.0 - 2.2] {
        for [from, to] in &pieces {
            let run = *to - *from;
            if beside_mm == 0.0 && run.length() < LONGER * text_mm {
                continue;
            }
            let beside = run.normalize_or_zero().perp() * beside_mm;
            let turn_degrees = reading_turn(run);
            spots.extend(ALONG.map(|part| spot(from.lerp(*to, part) + beside, turn_degrees)));
        }
    }
    spots
}

fn longest_edge(outline: &[PaperPoint]) -> DVec2 {
    let edges = polygon::ring_edges(outline).map(|(a, b)| b - a);
    edges
        .max_by(|a, b| a.length_squared().total_cmp(&b.length_squared()))
        .unwrap_or(DVec2::X)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheets::mark::Standing;

    #[test]
    fn hatches_and_outlines_are_ground() {
        let square = [(0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (0.0, 10.0)].map(DVec2::from);
        for kind in ObstructionKind::ALL {
            let marks = style::marks(kind, &square, &[]);
            assert!(marks.iter().all(|mark| mark.standing == Standing::Ground));
            assert!(
                marks.iter().any(|mark| mark.layer == Layer::Obstruction),
                "{kind:?}"
            );
        }
        assert!(small_ring(&square).is_none());
    }
}
