//! Everything that a run must keep clear of, as solids: obstructions, members, walls,
//! roof decks, doors.

use super::volumes::{footprint_outlines, obstruction_solids};
use crate::clearance::{Class, Obstacle, Obstacles};
use crate::geometry::pieces::convex_hull;
use crate::geometry::{Bounds, ConvexSolid, DVec2, Polygon, tolerance};
use crate::site::obstruction::ObstructionKind;
use crate::site::{
    Bay, BayId, Combustibility, Construction, Hazard, MemberId, Obstruction, ObstructionId,
    Opening, OpeningId, RunId, Site, SprinklerRating,
};
use crate::structure::{DoorPart, Part, PartOf, Structure, door_space};
use std::sync::Arc;

/// Class of what burns, or may.
pub(super) const BURNS: Class = Class(0);
/// Class of what does not burn.
pub(super) const DOES_NOT_BURN: Class = Class(1);

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
    /// A door, where it rests open or on its way.
    Door(OpeningId, DoorPart),
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
    fn of_part(part: &Part) -> Self {
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

    fn of_obstruction(obstruction: &Obstruction, bays: &[Arc<Bay>]) -> Self {
        Self {
            thing: Thing::Obstruction(obstruction.id.clone()),
            kind: Some(obstruction.kind),
            burns: obstruction.burns,
            solids: obstruction_solids(obstruction, bays),
        }
    }

    /// Where a door rests open, and what it passes.
    fn of_opening<'a>(opening: &'a Opening, bays: &[Arc<Bay>]) -> impl Iterator<Item = Self> + 'a {
        let bay = bays.iter().find(|bay| bay.id == opening.bay);
        let leaves = bay.map_or_else(Vec::new, |bay| door_space(bay, opening));
        let parts = [DoorPart::Open, DoorPart::Travel].map(|part| Self {
            thing: Thing::Door(opening.id.clone(), part),
            kind: None,
            burns: opening.door.burns,
            solids: leaves
                .iter()
                .flat_map(|leaf| match part {
                    DoorPart::Open => leaf.open.clone(),
                    DoorPart::Travel => leaf.travel.clone(),
                })
                .collect(),
        });
        parts.into_iter().filter(|part| !part.solids.is_empty())
    }
}

/// Sprinkler heads, anywhere within outlines in plan.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Heads {
    pub(super) id: ObstructionId,
    pub(super) outlines: Vec<Polygon>,
    pub(super) deflector_m: f64,
    pub(super) rating: Option<SprinklerRating>,
}

/// A raised floor: people walk and goods stand on it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct RaisedFloor {
    pub(super) id: ObstructionId,
    pub(super) outlines: Vec<Polygon>,
    pub(super) surface_m: f64,
}

/// What runs must keep clear of, with its index.
pub struct Surroundings {
    /// The things, in the order of the index: members, walls, decks, obstructions, doors.
    pub things: Vec<Surrounding>,
    pub(super) obstacles: Obstacles,
    /// Positions of the cranes among the things.
    pub(super) cranes: Vec<usize>,
    /// Positions of the zones in which paint is sprayed.
    pub(super) spraying: Vec<usize>,
    /// Positions of the walls and decks whose insulation has a facing.
    pub(super) faced: Vec<usize>,
    pub(super) heads: Vec<Heads>,
    pub(super) floors: Vec<RaisedFloor>,
}

impl std::fmt::Debug for Surroundings {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Surroundings")
            .field("things", &self.things.len())
            .finish()
    }
}

impl PartialEq for Surroundings {
    /// The index follows from the things.
    fn eq(&self, other: &Self) -> bool {
        self.things == other.things
            && self.heads == other.heads
            && self.floors == other.floors
            && self.spraying == other.spraying
            && self.faced == other.faced
    }
}

impl Surroundings {
    /// Whether a thing, by its position, is where a crane moves.
    pub(super) fn is_crane(&self, position: usize) -> bool {
        self.cranes.contains(&position)
    }

    pub(super) fn new(site: &Site, structure: &Structure) -> Self {
        let parts = structure.parts.iter().map(Surrounding::of_part);
        let obstructions = site
            .obstructions
            .iter()
            .map(|known| Surrounding::of_obstruction(known, &site.bays));
        let doors = site
            .openings
            .iter()
            .flat_map(|opening| Surrounding::of_opening(opening, &site.bays));
        let things: Vec<Surrounding> = parts.chain(obstructions).chain(doors).collect();
        let obstacles = things
            .iter()
            .map(|thing| Obstacle {
                pieces: thing.solids.clone(),
                class: if thing.burns.counts_as_combustible() {
                    BURNS
                } else {
                    DOES_NOT_BURN
                },
            })
            .collect();
        let positions = |is_meant: &dyn Fn(&Surrounding) -> bool| -> Vec<usize> {
            (0..things.len())
                .filter(|k| is_meant(&things[*k]))
                .collect()
        };
        let sprayed = sprayed_zones(site);
        let is_faced = |id: &BayId, of: fn(&Bay) -> &Construction| {
            let bay = site.bays.iter().find(|bay| bay.id == *id);
            bay.is_some_and(|bay| of(bay).facing.is_some())
        };
        Self {
            cranes: positions(&|it| it.kind == Some(ObstructionKind::CraneTravel)),
            spraying: positions(
                &|it| matches!(&it.thing, Thing::Obstruction(id) if sprayed.contains(&id)),
            ),
            faced: positions(&|it| match &it.thing {
                Thing::Wall(id, _) => is_faced(id, |bay| &bay.wall),
                Thing::Deck(id) => is_faced(id, |bay| &bay.deck),
                _ => false,
            }),
            obstacles: Obstacles::new(obstacles),
            heads: heads(site),
            floors: raised_floors(site),
            things,
        }
    }

    /// The solids that a plumb line through a point in plan meets, each with its thing, in
    /// the order of the things; one that is only touched counts.
    pub fn upright(&self, at: DVec2) -> impl Iterator<Item = (&Surrounding, &ConvexSolid)> {
        let line = Bounds {
            low: at.extend(-ConvexSolid::FARTHEST_M),
            high: at.extend(ConvexSolid::FARTHEST_M),
        };
        let near = self.obstacles.near(&line.grown(tolerance::SAME_POINT));
        near.into_iter().filter_map(move |(k, piece)| {
            let thing = self.things.get(k)?;
            let solid = thing.solids.get(piece)?;
            let corners = solid.vertices().iter().map(|v| v.truncate());
            let outline = Polygon::new(convex_hull(&corners.collect::<Vec<_>>()));
            outline.contains(at).then_some((thing, solid))
        })
    }
}

fn sprayed_zones(site: &Site) -> Vec<&ObstructionId> {
    let zones = site.obstructions.iter().filter(|it| {
        it.kind == ObstructionKind::HazardZone && it.particulars.hazard == Hazard::Spraying
    });
    zones.map(|it| &it.id).collect()
}

fn raised_floors(site: &Site) -> Vec<RaisedFloor> {
    let floors = site.obstructions.iter();
    floors
        .filter(|it| it.kind == ObstructionKind::Mezzanine)
        .map(|it| RaisedFloor {
            id: it.id.clone(),
            outlines: footprint_outlines(&it.footprint),
            surface_m: it.highest().as_metres(),
        })
        .collect()
}

fn heads(site: &Site) -> Vec<Heads> {
    let sprinklers = site
        .obstructions
        .iter()
        .filter(|it| it.kind == ObstructionKind::Sprinkler);
    sprinklers
        .map(|it| Heads {
            id: it.id.clone(),
            outlines: footprint_outlines(&it.footprint),
            deflector_m: it.particulars.deflector.unwrap_or(it.bottom).as_metres(),
            rating: it.particulars.rating,
        })
        .collect()
}
