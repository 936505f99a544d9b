//! The room that a run has in each of its directions, and to what: the one source of the
//! figures that the window, the sheets and the command line say.

use super::{ANOTHER_RUN, RunStudy, Study, Thing};
use crate::clearance::{
    CheckedRun, Direction, Measured, Obstacle, Part, Reach, Required, check_obstacle, may_reach,
    reaches, reaches_of_all,
};
use crate::geometry::{Bounds, DVec3, tolerance};
use crate::site::RunShape;
use crate::site::policy::PolicyItem;

/// The room from a run to a thing in one of its directions.
#[derive(Debug, Clone, PartialEq)]
pub struct Room {
    /// The direction.
    pub direction: Direction,
    /// To what.
    pub thing: Thing,
    /// Whether it burns, or may; of another run false.
    pub burns: bool,
    /// From the body's outermost part to the thing's nearest point, m; less than zero where
    /// that point lies behind the body's face.
    pub available_m: f64,
    /// What is required, m.
    pub required_m: f64,
    /// The body that comes nearest.
    pub part: Part,
    /// On that body's face, in site space.
    pub from: DVec3,
    /// Straight from there as far as the contact point lies, in site space.
    pub to: DVec3,
    /// The contact point: the thing's nearest point between the other five faces of the
    /// envelope, in site space.
    pub contact: DVec3,
    /// How deep the thing is inside the envelope, m: the shortest move, in any direction,
    /// that takes it out. 0 where it is outside.
    pub depth_m: f64,
    /// How deep it reaches into the heater itself, m; 0 where it doesn't.
    pub inside_body_m: f64,
}

impl Room {
    /// How much is missing, m; less than zero where there is room to spare.
    #[must_use]
    pub fn missing_m(&self) -> f64 {
        self.required_m - self.available_m
    }

    /// Whether it is worth saying although nothing is wrong: half a metre or less is to
    /// spare.
    #[must_use]
    pub fn is_tight(&self) -> bool {
        -super::run::MARGIN_M <= self.missing_m()
    }

    /// Whether less is there than is required.
    #[must_use]
    pub fn is_breach(&self) -> bool {
        tolerance::LIMIT < self.missing_m()
    }
}

/// The room from a run to everything that lies in one of its directions, however far; of
/// what is inside its envelope the governing direction alone: the others say only that
/// it is there. In the order of the study's things, other runs last.
///
/// Not part of the study, which measures only what is near: worked out for the runs that
/// somebody asks about.
#[must_use]
pub fn rooms(study: &Study, run: &RunStudy) -> Vec<Room> {
    let clearance = &run.clearance;
    let apart_m = study.site.policy.value(PolicyItem::RunToRun);
    let checked = CheckedRun {
        bodies: clearance.bodies.clone(),
        required: vec![
            Some(clearance.to_what_burns),
            Some(clearance.to_what_does_not_burn),
            Some(Required::all_round(apart_m)),
        ],
    };
    // To a crane the law asks for a distance too, whatever it is made of.
    let with_cranes = |required: Required| Some(required.or_more(clearance.to_cranes));
    let to_cranes = CheckedRun {
        bodies: clearance.bodies.clone(),
        required: vec![
            with_cranes(clearance.to_what_burns),
            with_cranes(clearance.to_what_does_not_burn),
        ],
    };
    let mut all = Vec::new();
    let mut near = clearance.near.iter().peekable();
    for (position, reaches) in reaches_of_all(&checked, &study.surroundings.obstacles) {
        while near.next_if(|it| it.measured.obstacle < position).is_some() {}
        let measured = near.next_if(|it| it.measured.obstacle == position);
        let thing = &study.surroundings.things[position];
        let obstacle = &study.surroundings.obstacles.all()[position];
        let is_crane = study.surroundings.is_crane(position);
        let by_law = is_crane
            .then(|| check_obstacle(&to_cranes, position, obstacle, 0.0))
            .flatten();
        let reaches = if is_crane {
            self::reaches(&to_cranes, obstacle)
        } else {
            reaches
        };
        let to = To {
            thing: &thing.thing,
            burns: thing.burns.counts_as_combustible(),
            measured: by_law.as_ref().or(measured.map(|it| &it.measured)),
            inside_body_m: measured.map_or(0.0, |it| it.inside_body_m),
        };
        all.extend(to.rooms(run, &reaches));
    }
    for other in &study.runs {
        if other.run.id == run.run.id {
            continue;
        }
        let bodies = &other.clearance.bodies;
        let corners = bodies
            .bodies
            .iter()
            .flat_map(|body| bodies.frame.corners(&body.local));
        let bounds = corners.fold(Bounds::EMPTY, Bounds::with);
        if !may_reach(&checked, ANOTHER_RUN, &bounds) {
            continue;
        }
        let obstacle = Obstacle::from_run(&other.clearance.bodies, ANOTHER_RUN);
        let reaches = reaches(&checked, &obstacle);
        if reaches.iter().all(Option::is_none) {
            continue;
        }
        let measured = check_obstacle(&checked, 0, &obstacle, 0.0);
        let pair = study.pairs.iter().find(|pair| {
            let both = [&pair.first, &pair.second];
            both.contains(&&run.run.id) && both.contains(&&other.run.id)
        });
        let to = To {
            thing: &Thing::Run(other.run.id.clone()),
            burns: false,
            measured: measured.as_ref(),
            inside_body_m: pair.map_or(0.0, |pair| pair.inside_body_m),
        };
        all.extend(to.rooms(run, &reaches));
    }
    all
}

/// Of each direction the room that leaves the least to spare, by [`Direction::ALL`];
/// equal ones by the order of the things.
#[must_use]
pub fn worst_rooms(all: &[Room]) -> [Option<&Room>; 6] {
    Direction::ALL.map(|direction| {
        let there = all.iter().filter(|room| room.direction == direction);
        there.max_by(|a, b| {
            let missing = a.missing_m().total_cmp(&b.missing_m());
            missing.then_with(|| b.thing.cmp(&a.thing))
        })
    })
}

/// A direction as the run's maker names it: front is the aimed side, the far end has the
/// exhaust or the bend.
#[must_use]
pub fn direction_word(run: &RunStudy, direction: Direction) -> &'static str {
    let aim = run.run.tilt.as_degrees();
    match direction {
        Direction::Left if 0.0 < aim => "front",
        Direction::Right if 0.0 < aim => "rear",
        Direction::Left if aim < 0.0 => "rear",
        Direction::Right if aim < 0.0 => "front",
        Direction::FarEnd => match run.run.shape {
            RunShape::Straight => "exhaust end",
            RunShape::Hairpin { .. } => "bend end",
        },
        _ => direction.label(),
    }
}

/// What is measured to.
struct To<'a> {
    thing: &'a Thing,
    burns: bool,
    /// As checked, where it is near.
    measured: Option<&'a Measured>,
    inside_body_m: f64,
}

impl To<'_> {
    fn rooms(&self, run: &RunStudy, reaches: &[Option<Reach>; 6]) -> Vec<Room> {
        let breach = self.measured.filter(|it| it.is_breach());
        let told = reaches.iter().flatten().filter(|reach| {
            breach.is_none_or(|measured| measured.governing == Some(reach.direction))
        });
        told.filter_map(|reach| self.room(run, reach, breach))
            .collect()
    }

    fn room(&self, run: &RunStudy, reach: &Reach, breach: Option<&Measured>) -> Option<Room> {
        let bodies = &run.clearance.bodies;
        let mut of_part = bodies.bodies.iter().filter(|body| body.part == reach.part);
        let body = of_part.next()?;
        let direction = reach.direction;
        let place = bodies.frame.local_from_site(reach.place);
        let mut on_face = place.clamp(body.local.low, body.local.high);
        on_face[direction.axis()] = direction.face_of(&body.local);
        let mut away = DVec3::ZERO;
        away[direction.axis()] = direction.sign() * reach.available_m;
        Some(Room {
            direction,
            thing: self.thing.clone(),
            burns: self.burns,
            available_m: reach.available_m,
            required_m: reach.required_m,
            part: reach.part,
            from: bodies.frame.site_from_local(on_face),
            to: bodies.frame.site_from_local(on_face + away),
            contact: reach.place,
            depth_m: breach.map_or(0.0, |it| (-it.separation_m).max(0.0)),
            inside_body_m: breach.map_or(0.0, |_| self.inside_body_m),
        })
    }
}
