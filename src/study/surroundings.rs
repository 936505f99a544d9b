//! Everything that a run must keep clear of, as solids: obstructions, members, walls,
//! roof decks.

use crate::geometry::segment::thick_line;
use crate::geometry::{ConvexSolid, DVec2, Elevation, Polygon};
use crate::site::obstruction::{Footprint, ObstructionKind};
use crate::site::{BayId, Combustibility, MemberId, Obstruction, ObstructionId, RunId};
use crate::structure::{Part, PartOf};

/// Something that a run may come near to.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Thing {
    /// An obstruction.
    Obstruction(ObstructionId),
    /// A member span.
    Member(MemberId),
    /// The wall along an edge of a bay's outline, counted from 0.
    Wall(BayId, usize),
    /// A bay's roof deck.
    Deck(BayId),
    /// Another run.
    Run(RunId),
}

/// One surrounding solid thing.
#[derive(Debug, Clone, PartialEq)]
pub struct Surrounding {
    /// What it is.
    pub thing: Thing,
    /// Its kind, of an obstruction.
    pub kind: Option<ObstructionKind>,
    /// Whether it burns.
    pub burns: Combustibility,
    /// Its solids.
    pub solids: Vec<ConvexSolid>,
}

impl Surrounding {
    /// A part of the building.
    pub(super) fn of_part(part: &Part) -> Self {
        let thing = match &part.of {
            PartOf::Member(id) => Thing::Member(id.clone()),
            PartOf::Wall(bay, edge) => Thing::Wall(bay.clone(), *edge),
            PartOf::Deck(bay) => Thing::Deck(bay.clone()),
        };
        Self {
            thing,
            kind: None,
            burns: part.burns,
            solids: part.solids.clone(),
        }
    }

    /// An obstruction.
    pub(super) fn of_obstruction(obstruction: &Obstruction) -> Self {
        Self {
            thing: Thing::Obstruction(obstruction.id.clone()),
            kind: Some(obstruction.kind),
            burns: obstruction.burns,
            solids: obstruction_solids(obstruction),
        }
    }
}

/// The outlines of an obstruction in plan: one area, or the pieces of a line with a width.
#[must_use]
pub fn footprint_outlines(footprint: &Footprint) -> Vec<Polygon> {
    match footprint {
        Footprint::Area { outline, holes } => {
            vec![Polygon {
                outline: outline.clone(),
                holes: holes.clone(),
            }]
        }
        Footprint::Line { points, width } => match thick_line(points, width.as_metres()) {
            Ok(outline) => vec![outline],
            // A line that doubles back has no simple outline: each piece stands for itself.
            Err(_) => points
                .windows(2)
                .map(|pair| piece_outline(pair[0], pair[1], width.as_metres()))
                .collect(),
        },
    }
}

fn piece_outline(a: DVec2, b: DVec2, width_m: f64) -> Polygon {
    let half = (b - a).normalize_or_zero().perp() * (width_m / 2.0);
    Polygon::new(vec![a - half, b - half, b + half, a + half])
}

fn obstruction_solids(obstruction: &Obstruction) -> Vec<ConvexSolid> {
    let bottom = Elevation::level(obstruction.bottom.as_metres());
    let top = Elevation::level(obstruction.top.as_metres());
    footprint_outlines(&obstruction.footprint)
        .iter()
        .flat_map(|outline| ConvexSolid::prisms(outline, bottom, top))
        .collect()
}
