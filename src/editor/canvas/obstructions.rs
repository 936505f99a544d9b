//! Obstructions, quiet: hatched where they stand on the floor, open where they hang
//! above or only pass, so that a run over them can be read.

use super::labels::{Label, Labels, Weight};
use super::pen::{DASHED, LONG_DASH_DOUBLE_DOT, Pen};
use crate::editor::extent::{Extent, outlines};
use crate::editor::figures::length;
use crate::editor::stage::Stage;
use crate::editor::theme::{TextSize, faded};
use crate::site::{Footprint, Obstruction, ObstructionKind, Site};
use eframe::egui::{Align2, Stroke, TextureId, Vec2};

/// How a kind of obstruction is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Look {
    /// Stands on the floor: hatched, full outline.
    Standing,
    /// Hangs above: no hatch, full outline.
    Above,
    /// Moves through, or may be there: no hatch, broken outline.
    Passing,
    /// Where no heater may be: hatched, broken outline.
    Forbidden,
}

fn look(obstruction: &Obstruction) -> Look {
    match obstruction.kind {
        ObstructionKind::CraneTravel | ObstructionKind::DoorTravel | ObstructionKind::Aircraft => {
            Look::Passing
        }
        ObstructionKind::Skylight => Look::Above,
        ObstructionKind::HazardZone => Look::Forbidden,
        // What a person can walk under is above.
        _ if 2.0 <= obstruction.bottom.as_metres() => Look::Above,
        _ => Look::Standing,
    }
}

/// The solids.
pub(super) fn solids(pen: &mut Pen<'_>, site: &Site, stage: Stage, hatch: TextureId) {
    let forward = stage == Stage::Obstructions;
    let width = if forward { 1.4 } else { 1.0 };
    // What stands comes first, what hangs lies over it.
    let (above, below): (Vec<_>, Vec<_>) = site
        .obstructions
        .iter()
        .partition(|it| look(it) == Look::Above);
    for obstruction in below.into_iter().chain(above) {
        let look = look(obstruction);
        let stroke = Stroke::new(width, pen.roles.obstruction);
        let fill = match look {
            Look::Standing | Look::Above => pen.roles.obstruction_fill,
            Look::Passing | Look::Forbidden => faded(pen.roles.obstruction_fill, 0.5),
        };
        for (outline, holes) in areas(obstruction) {
            pen.fill(&outline, &holes, fill);
            if matches!(look, Look::Standing | Look::Forbidden) {
                pen.hatch(&outline, &holes, hatch, pen.roles.obstruction_hatch);
            }
            for ring in std::iter::once(&outline).chain(&holes) {
                match look {
                    Look::Standing | Look::Above => pen.closed(ring, stroke),
                    Look::Passing => pen.closed_dashed(ring, stroke, LONG_DASH_DOUBLE_DOT),
                    Look::Forbidden => pen.closed_dashed(ring, stroke, DASHED),
                }
            }
        }
    }
}

/// The areas of an obstruction with their holes.
fn areas(
    obstruction: &Obstruction,
) -> Vec<(
    Vec<crate::geometry::DVec2>,
    Vec<Vec<crate::geometry::DVec2>>,
)> {
    match &obstruction.footprint {
        Footprint::Area { outline, holes } => vec![(outline.clone(), holes.clone())],
        Footprint::Line { .. } => outlines(obstruction)
            .into_iter()
            .map(|ring| (ring, Vec::new()))
            .collect(),
    }
}

/// Their names and heights.
pub(super) fn names(pen: &Pen<'_>, labels: &mut Labels, site: &Site, stage: Stage) {
    for obstruction in &site.obstructions {
        let extent = Extent::of(outlines(obstruction).into_iter().flatten());
        if extent.is_empty() || !pen.sees(&[extent.least, extent.greatest]) {
            continue;
        }
        let size = pen.camera.screen_vector(extent.size());
        // Pipes and trays overhead are many and alike: their names wait for their stage,
        // or until they are near.
        let thickness = size.x.abs().min(size.y.abs());
        let is_thin = look(obstruction) == Look::Above && thickness < 9.0;
        if is_thin && stage != Stage::Obstructions {
            continue;
        }
        // A name that dwarfs its object says more about the name.
        if size.x.abs().max(size.y.abs()) < 36.0 {
            continue;
        }
        let named = if obstruction.name.is_empty() {
            obstruction.kind.label()
        } else {
            &obstruction.name
        };
        let text = match look(obstruction) {
            _ if obstruction.kind == ObstructionKind::Skylight => named.to_owned(),
            // What a person can't walk under is told by its top.
            Look::Standing | Look::Passing if obstruction.bottom.as_metres() < 2.0 => {
                format!("{named} {}", length(site.units, obstruction.highest()))
            }
            Look::Standing | Look::Above | Look::Passing => {
                format!(
                    "{named}, underside {}",
                    length(site.units, obstruction.lowest())
                )
            }
            Look::Forbidden => named.to_owned(),
        };
        let middle = pen.at(extent.middle());
        let half = size.y.abs() / 2.0;
        labels.want(Label {
            text,
            font: TextSize::Small.font(),
            colour: pen.roles.obstruction_text,
            ground: Some(pen.roles.obstruction_fill),
            weight: Weight::Thing,
            places: vec![
                (middle, Align2::CENTER_CENTER),
                (middle - Vec2::new(0.0, half + 2.0), Align2::CENTER_BOTTOM),
                (middle + Vec2::new(0.0, half + 2.0), Align2::CENTER_TOP),
                (
                    middle - Vec2::new(size.x.abs() / 4.0, 0.0),
                    Align2::CENTER_CENTER,
                ),
                (
                    middle + Vec2::new(size.x.abs() / 4.0, 0.0),
                    Align2::CENTER_CENTER,
                ),
            ],
        });
    }
}
