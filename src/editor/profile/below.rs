//! Obstructions that the run passes over, under or beside, cut to the width of its
//! envelope.

use crate::geometry::DVec2;
use crate::geometry::pieces::cut_by_line;
use crate::site::{ObstructionId, ObstructionKind, Site};
use crate::study::{RunStudy, footprint_outlines};

/// A solid from the side.
#[derive(Debug, Clone)]
pub(super) struct Solid {
    pub(super) id: ObstructionId,
    pub(super) kind: ObstructionKind,
    pub(super) name: String,
    /// From and to which station, m.
    pub(super) stations: (f64, f64),
    pub(super) bottom_m: f64,
    pub(super) top_m: f64,
}

/// The obstructions that reach into the strip under and over the run's envelope.
pub(super) fn solids(
    site: &Site,
    study: &RunStudy,
    flange: DVec2,
    heading: DVec2,
    (from, to): (f64, f64),
) -> Vec<Solid> {
    let left = heading.perp();
    let boxes = &study.clearance.envelope;
    let half_left = boxes.iter().map(|it| it.high.y).fold(0.3, f64::max);
    let half_right = boxes.iter().map(|it| -it.low.y).fold(0.3, f64::max);
    let mut all = Vec::new();
    for obstruction in &site.obstructions {
        for area in footprint_outlines(&obstruction.footprint) {
            for piece in area.convex_pieces() {
                // To the strip's left and right edge.
                let within = cut_by_line(&piece, left, flange.dot(left) + half_left);
                let within = cut_by_line(&within, -left, half_right - flange.dot(left));
                let stations = within.iter().map(|p| (*p - flange).dot(heading));
                let (least, greatest) = stations.fold(
                    (f64::INFINITY, f64::NEG_INFINITY),
                    |(least, greatest), station| (least.min(station), greatest.max(station)),
                );
                let stations = (least.max(from), greatest.min(to));
                if stations.0 < stations.1 {
                    all.push(Solid {
                        id: obstruction.id.clone(),
                        kind: obstruction.kind,
                        name: obstruction.name.clone(),
                        stations,
                        bottom_m: obstruction.bottom.as_metres(),
                        top_m: obstruction.top.as_metres(),
                    });
                }
            }
        }
    }
    all
}
