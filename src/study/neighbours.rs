//! What codes and service ask of a run's neighbourhood besides its maker's distances:
//! cranes, sprinkler heads, room round the burner, the bays that it hangs over.

use super::run::{Clearance, depth_in_body};
use super::surroundings::{Heads, RaisedFloor, Surroundings};
use crate::clearance::heads::NEAR_ZONE_M;
use crate::clearance::{
    CheckedRun, HeadPlace, HeadZone, Measured, Part, Required, RunBodies, Stacking, check_obstacle,
    check_run,
};
use crate::geometry::polygon::ring_edges;
use crate::geometry::{DVec2, Polygon};
use crate::site::policy::PolicyItem;
use crate::site::{BayId, ObstructionId, Policy, SprinklerRating};
use crate::units::Length;

/// What is round a run besides what its maker's distances are about.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Neighbours {
    /// The bays that any part of it hangs over, in the order of the site.
    pub over: Vec<BayId>,
    /// Cranes nearer than policy wants.
    pub cranes: Vec<Clearance>,
    /// Cranes nearer than the law allows.
    pub cranes_unlawful: Vec<Clearance>,
    /// Zones in which paint is sprayed, nearer than policy wants.
    pub spraying: Vec<Clearance>,
    /// Faced insulation above, beside or beyond it, nearer than policy wants.
    pub faced: Vec<Clearance>,
    /// Raised floors below its keep-clear envelope.
    pub floors: Vec<FloorBelow>,
    /// What is in the room that service needs round the burner.
    pub in_service_room: Vec<Clearance>,
    /// Sprinkler heads whose place asks for more than an ordinary rating, or that are
    /// within 7 ft to the side.
    pub heads: Vec<NearHeads>,
}

/// A raised floor below a run.
#[derive(Debug, Clone, PartialEq)]
pub struct FloorBelow {
    /// The obstruction that it is.
    pub id: ObstructionId,
    /// Its surface above the finished floor, m.
    pub surface_m: f64,
    /// Whether it is below the heater itself, not only below its envelope.
    pub is_below_heater: bool,
    /// The stacking height above it, rounded down; nothing where none may stand there.
    pub posted: Length,
}

/// Sprinkler heads near a run.
#[derive(Debug, Clone, PartialEq)]
pub struct NearHeads {
    /// The obstruction that they are.
    pub id: ObstructionId,
    /// Their rating, where it is known.
    pub rating: Option<SprinklerRating>,
    /// Where they are.
    pub place: HeadPlace,
    /// Their deflectors above the floor, m.
    pub deflector_m: f64,
}

impl NearHeads {
    /// The rating that their place asks for.
    #[must_use]
    pub fn needed(&self) -> SprinklerRating {
        match self.place.zone() {
            HeadZone::Ordinary => SprinklerRating::Ordinary,
            HeadZone::Intermediate => SprinklerRating::Intermediate,
            HeadZone::High => SprinklerRating::High,
        }
    }
}

/// What a run is measured with: its bodies, how far its far end moves when hot, m, its
/// tilt in degrees and its outline in plan.
pub(super) struct Placed<'a> {
    pub(super) bodies: &'a RunBodies,
    pub(super) growth_m: f64,
    /// What the law asks for between it and a crane, hot.
    pub(super) to_cranes: &'a Required,
    /// What policy asks for between it and where paint is sprayed, hot.
    pub(super) to_spraying: &'a Required,
    pub(super) tilt_degrees: f64,
    pub(super) hull: &'a [DVec2],
    pub(super) stacking: &'a Stacking,
    /// The posted stacking height is a multiple of this.
    pub(super) posted_step: Length,
}

pub(super) fn neighbours(
    run: &Placed<'_>,
    surroundings: &Surroundings,
    bays: &[(BayId, Polygon)],
    policy: &Policy,
) -> Neighbours {
    let value = |item| policy.value(item);
    let all_round = |item| Required::all_round(policy.value(item)).with_hot_movement(run.growth_m);
    let wanted = all_round(PolicyItem::CraneDistance);
    Neighbours {
        over: over(run.hull, bays),
        cranes: within(run, surroundings, &surroundings.cranes, wanted),
        cranes_unlawful: within(run, surroundings, &surroundings.cranes, *run.to_cranes),
        spraying: within(run, surroundings, &surroundings.spraying, *run.to_spraying),
        faced: within(
            run,
            surroundings,
            &surroundings.faced,
            Required {
                below_m: 0.0,
                ..all_round(PolicyItem::FacingDistance)
            },
        ),
        floors: floors(run, &surroundings.floors),
        in_service_room: in_service_room(run, surroundings, value(PolicyItem::ServiceRoom)),
        heads: heads(run, &surroundings.heads),
    }
}

/// What the law asks for between a heater and a crane, cold.
pub(super) fn lawful_from_cranes(policy: &Policy) -> Required {
    let above_m = policy.value(PolicyItem::CraneLeastAbove);
    Required {
        above_m,
        below_m: above_m,
        ..Required::all_round(policy.value(PolicyItem::CraneLeastBeside))
    }
}

/// The bays whose floor a plan outline covers any of. Touching is not covering.
fn over(hull: &[DVec2], bays: &[(BayId, Polygon)]) -> Vec<BayId> {
    bays.iter()
        .filter(|(_, floor)| covers(hull, floor))
        .map(|(id, _)| id.clone())
        .collect()
}

/// Whether a convex outline covers any of a floor: an edge of one runs within the other.
fn covers(hull: &[DVec2], floor: &Polygon) -> bool {
    let outline = Polygon::new(hull.to_vec());
    ring_edges(hull).any(|(a, b)| !floor.clip_segment(a, b).is_empty())
        || floor
            .edges()
            .any(|(a, b)| !outline.clip_segment(a, b).is_empty())
}

/// The raised floors below a run, with the stacking height above each.
fn floors(run: &Placed<'_>, all: &[RaisedFloor]) -> Vec<FloorBelow> {
    let is_over = |hull: &[DVec2], floor: &RaisedFloor| {
        let mut outlines = floor.outlines.iter();
        outlines.any(|outline| covers(hull, outline))
    };
    all.iter()
        .filter(|floor| floor.surface_m < run.stacking.lowest_part_m)
        .filter(|floor| is_over(&run.stacking.footprint, floor))
        .map(|floor| FloorBelow {
            id: floor.id.clone(),
            surface_m: floor.surface_m,
            is_below_heater: is_over(run.hull, floor),
            posted: run.stacking.posted_above(floor.surface_m, run.posted_step),
        })
        .collect()
}

/// Those of some things that are within distances of the heater, hot.
fn within(
    run: &Placed<'_>,
    surroundings: &Surroundings,
    of: &[usize],
    required: Required,
) -> Vec<Clearance> {
    let checked = CheckedRun {
        bodies: run.bodies.clone(),
        required: vec![Some(required); 2],
    };
    let obstacles = surroundings.obstacles.all();
    of.iter()
        .filter_map(|&k| check_obstacle(&checked, k, &obstacles[k], 0.0))
        .filter(Measured::is_breach)
        .map(|measured| clearance(run, surroundings, measured))
        .collect()
}

fn in_service_room(run: &Placed<'_>, surroundings: &Surroundings, room_m: f64) -> Vec<Clearance> {
    let burner = RunBodies {
        frame: run.bodies.frame,
        bodies: run
            .bodies
            .bodies
            .iter()
            .filter(|body| body.part == Part::Burner)
            .copied()
            .collect(),
    };
    // Steel passes above any burner, and the tube is on its other end.
    let room = Required {
        above_m: 0.0,
        far_end_m: 0.0,
        ..Required::all_round(room_m)
    };
    let checked = CheckedRun {
        bodies: burner,
        required: vec![Some(room); 2],
    };
    check_run(&checked, &surroundings.obstacles, 0.0)
        .into_iter()
        .filter(Measured::is_breach)
        .map(|measured| clearance(run, surroundings, measured))
        .collect()
}

fn clearance(run: &Placed<'_>, surroundings: &Surroundings, measured: Measured) -> Clearance {
    let thing = &surroundings.things[measured.obstacle];
    let obstacle = &surroundings.obstacles.all()[measured.obstacle];
    Clearance {
        thing: thing.thing.clone(),
        kind: thing.kind,
        burns: thing.burns,
        inside_body_m: depth_in_body(run.bodies, obstacle),
        measured,
    }
}

fn heads(run: &Placed<'_>, all: &[Heads]) -> Vec<NearHeads> {
    all.iter()
        .filter_map(|heads| {
            let place =
                run.bodies
                    .head_place(&heads.outlines, heads.deflector_m, run.tilt_degrees)?;
            let is_near = place.aside_m <= NEAR_ZONE_M || place.zone() > HeadZone::Ordinary;
            is_near.then(|| NearHeads {
                id: heads.id.clone(),
                rating: heads.rating,
                place,
                deflector_m: heads.deflector_m,
            })
        })
        .collect()
}
