//! The least straight move that cures a breach.
//!
//! From where the run is, the exact depth to which a thing reaches into its envelope says
//! how far the next place is that this thing leaves free: everything before it is
//! certainly blocked, so the search jumps there; so it does by the depth to which the
//! heater itself overlaps with a solid or another run. Only where no thing is in the way and
//! something else is wrong (the steel, a mounting height, the edge of the building), it
//! goes on in small steps.

use super::inside::until_inside;
use super::offer::{Measure, Offer};
use super::way::{Move, Way};
use super::{Blocking, Case, Cure, Missing};
use crate::clearance::Required;
use crate::findings::Subject;
use crate::geometry::{DVec3, tolerance};
use crate::hanging::Status;
use crate::site::RunId;
use crate::site::policy::PolicyItem;
use crate::study::{Clearance, RunPair, RunStudy, Study, Thing};
use crate::units::{Length, UnitSystem};
use std::sync::Arc;

/// How far apart the places are that are tried where nothing says how far to go, m.
/// Sites are built to a centimetre at best.
const STEP_M: f64 = 0.005;

/// The least jump, m: where a heater slides out of another along a slant, each depth is
/// a part of the one before it, and the jumps would go on for ever.
const LEAST_JUMP_M: f64 = 0.001;

/// Added to a move that is offered so that a crew can build it, m.
const BUILDING_TOLERANCE_M: f64 = 0.050;

impl Case<'_> {
    /// The least move of a way, the shorter of its two.
    pub(super) fn least_move(&self, way: Way, blocking: &mut Option<Blocking>) -> Option<Offer> {
        let limit_m = self.base.study.site.policy.value(PolicyItem::RemedyReach);
        let mut best: Option<(Move, Cure)> = None;
        for step in Move::both(way)? {
            let within_m = best.as_ref().map_or(limit_m, |(_, known)| known.least);
            let found = self.first_free(step, within_m, blocking);
            // Equally long, the first of the two is the one.
            let is_less = |cure: &Cure| best.is_none() || cure.least < within_m;
            if let Some(cure) = found.filter(is_less) {
                best = Some((step, cure));
            }
        }
        let (step, least) = best?;
        Some(self.with_tolerance(way, step, least, limit_m))
    }

    /// The nearest place, at most `limit_m` away, that is a cure.
    fn first_free(
        &self,
        step: Move,
        limit_m: f64,
        blocking: &mut Option<Blocking>,
    ) -> Option<Cure> {
        let mut at_m = self.nearest_m(step, limit_m)?;
        let mut is_nudged = false;
        while at_m <= limit_m + tolerance::LIMIT {
            let run = step.moved(&self.run.run, at_m);
            let study = self.studied(&run)?;
            let moved = study.run(&run.id)?;
            let exact_m = self.inside_for(step, &study, moved, blocking);
            let least_m = self
                .overlap(&study, moved)
                .max(self.of_rule(step, &study, moved));
            if exact_m.max(least_m) > tolerance::LIMIT {
                at_m += exact_m.max(least_m).max(LEAST_JUMP_M);
                is_nudged = false;
                continue;
            }
            // Depths are told less the limit that passes; where the room just suffices
            // and no more, only the very place will do.
            if !is_nudged && self.is_at_cause(moved) {
                at_m += tolerance::LIMIT;
                is_nudged = true;
                continue;
            }
            is_nudged = false;
            if self.still_hangs(moved)
                && let Some(tried) = self.proven(study, blocking)
            {
                return Some(Cure {
                    run,
                    least: at_m,
                    tried,
                });
            }
            at_m += STEP_M;
        }
        None
    }

    /// The nearest place in a direction that may be a cure, m: where the breach is one of
    /// height, how far the run must go up or down. None in a direction that never helps.
    fn nearest_m(&self, step: Move, limit_m: f64) -> Option<f64> {
        let is_level = !matches!(step, Move::Up | Move::Down);
        match Missing::of(self.fault.rule)? {
            Missing::Place
            | Missing::CraneDistance
            | Missing::SprayDistance
            | Missing::HeadZone => Some(0.0),
            Missing::Tilt => None,
            Missing::Building => is_level.then_some(0.0),
            Missing::Height if is_level => None,
            Missing::AnotherBay if !is_level => None,
            Missing::HeightInBay | Missing::AnotherBay if is_level => {
                self.leaves_bay(step, limit_m).then_some(0.0)
            }
            Missing::Height | Missing::HeightInBay | Missing::AnotherBay => {
                let (measured, required) = self.fault.measured.zip(self.fault.required)?;
                let missing_m = if step == Move::Up {
                    required - measured
                } else {
                    measured - required
                };
                (missing_m > 0.0).then_some(missing_m)
            }
        }
    }

    /// Whether the run is no longer over the bay that the breach names once it has gone
    /// as far as it may: only then the way there is worth looking at. A bay so narrow
    /// that the run has crossed it and is over another part of it by then is not looked
    /// behind.
    fn leaves_bay(&self, step: Move, limit_m: f64) -> bool {
        let farthest = step.moved(&self.run.run, limit_m);
        let study = self.studied(&farthest);
        let moved = study.as_ref().and_then(|study| study.run(&farthest.id));
        moved.is_some_and(|moved| !self.is_over_cause(moved))
    }

    fn is_over_cause(&self, moved: &RunStudy) -> bool {
        let neighbours = &moved.clearance.neighbours;
        let bays = neighbours.over.iter();
        let floors = neighbours.floors.iter().filter(|it| it.is_below_heater);
        bays.map(|bay| Subject::Bay(bay.clone()))
            .chain(floors.map(|floor| Subject::Obstruction(floor.id.clone())))
            .any(|below| self.fault.subjects.contains(&below))
    }

    /// How far the run must go on by the rule that is broken, m, where it isn't a thing
    /// inside the envelope; 0 where nothing says so.
    fn of_rule(&self, step: Move, study: &Study, moved: &RunStudy) -> f64 {
        let direction = step.direction(&self.run.run);
        let neighbours = &moved.clearance.neighbours;
        match Missing::of(self.fault.rule) {
            Some(Missing::CraneDistance) => {
                let required = &moved.clearance.to_cranes;
                self.clear_of_all(
                    &neighbours.cranes_unlawful,
                    required,
                    (study, moved),
                    direction,
                )
            }
            Some(Missing::SprayDistance) => {
                let required = &moved.clearance.to_spraying;
                self.clear_of_all(&neighbours.spraying, required, (study, moved), direction)
            }
            Some(Missing::HeadZone) => neighbours
                .heads
                .iter()
                .filter(|heads| {
                    heads.rating.is_some_and(|rating| rating < heads.needed())
                        && self
                            .fault
                            .subjects
                            .contains(&Subject::Obstruction(heads.id.clone()))
                })
                .map(|heads| match step {
                    Move::Up | Move::Down => heads.place.upright_room_m(),
                    _ => heads.place.level_room_m(moved.run.tilt.as_degrees()),
                })
                .fold(0.0, f64::max),
            Some(Missing::Building) => {
                let reach_m = study.site.policy.value(PolicyItem::RemedyReach);
                until_inside(moved, &study.site, direction, reach_m)
            }
            // Over the bay nothing helps; where it ends is found in small steps.
            Some(Missing::HeightInBay | Missing::AnotherBay)
                if !matches!(step, Move::Up | Move::Down) && self.is_over_cause(moved) =>
            {
                STEP_M
            }
            _ => 0.0,
        }
    }

    /// How far the run must go on until nothing that burns, and that it must get or stay
    /// clear of, is inside its envelope, m; 0 where nothing is. Notes what stands where
    /// the breach itself would be cured.
    fn inside_for(
        &self,
        step: Move,
        study: &Study,
        moved: &RunStudy,
        blocking: &mut Option<Blocking>,
    ) -> f64 {
        let inside = moved
            .clearance
            .near
            .iter()
            .filter(|near| near.burns.counts_as_combustible() && near.measured.is_breach());
        let direction = step.direction(&self.run.run);
        let (mut cause_m, mut other_m) = (0.0_f64, 0.0_f64);
        let mut first_other = None;
        for near in inside {
            let move_m = study.least_move(moved, near, direction);
            if self.is_cause(&near.thing) {
                cause_m = cause_m.max(move_m);
            } else if !self.was_inside(near) {
                other_m = other_m.max(move_m);
                first_other.get_or_insert(&near.thing);
            }
        }
        // Where the cause is left behind, the other still is inside.
        if let (Some(thing), true) = (first_other, cause_m < other_m) {
            blocking.get_or_insert_with(|| Blocking {
                rule: "combustible-inside-keep-clear",
                subjects: vec![Subject::from(thing)],
            });
        }
        cause_m.max(other_m)
    }

    /// How far the run must go on until all that it must get clear of is as far as is
    /// required, m.
    fn clear_of_all(
        &self,
        all: &[Clearance],
        required: &Required,
        (study, moved): (&Study, &RunStudy),
        direction: DVec3,
    ) -> f64 {
        all.iter()
            .filter(|near| self.is_cause(&near.thing))
            .map(|near| study.least_move_from(moved, near, required, direction))
            .fold(0.0, f64::max)
    }

    /// Whether what it must get clear of still counts as nearer than is required.
    fn is_at_cause(&self, moved: &RunStudy) -> bool {
        let neighbours = &moved.clearance.neighbours;
        let by_rule: &[Clearance] = match Missing::of(self.fault.rule) {
            Some(Missing::CraneDistance) => &neighbours.cranes_unlawful,
            Some(Missing::SprayDistance) => &neighbours.spraying,
            _ => &[],
        };
        let mut near = moved.clearance.near.iter();
        near.any(|near| {
            near.burns.counts_as_combustible()
                && near.measured.is_breach()
                && self.is_cause(&near.thing)
        }) || by_rule.iter().any(|near| self.is_cause(&near.thing))
    }

    /// How deep the heater overlaps with what it must get or stay clear of, m: however it
    /// moves, it must move so far at least.
    fn overlap(&self, study: &Study, moved: &RunStudy) -> f64 {
        let solids = moved.clearance.near.iter().filter(|near| {
            let was_met = |known: &&Clearance| known.thing == near.thing;
            self.is_cause(&near.thing)
                || !self
                    .run
                    .clearance
                    .near
                    .iter()
                    .find(was_met)
                    .is_some_and(|known| known.inside_body_m > tolerance::LIMIT)
        });
        let id = &moved.run.id;
        let depth = |pairs: &[Arc<RunPair>], other: &RunId| {
            pairs
                .iter()
                .find(|pair| pair_with(pair, id) == Some(other))
                .map_or(0.0, |pair| pair.inside_body_m)
        };
        let runs = study.pairs.iter().filter(|pair| {
            pair_with(pair, id).is_some_and(|other| {
                self.is_cause(&Thing::Run(other.clone()))
                    || depth(&self.base.study.pairs, other) <= tolerance::LIMIT
            })
        });
        solids
            .map(|near| near.inside_body_m)
            .chain(runs.map(|pair| pair.inside_body_m))
            .fold(0.0, f64::max)
    }

    /// Whether the breach is about a thing.
    fn is_cause(&self, thing: &Thing) -> bool {
        self.fault.subjects.contains(&Subject::from(thing))
    }

    /// Whether a thing is inside the envelope of the run as it is: a fault of its own,
    /// that needn't be cured.
    fn was_inside(&self, near: &Clearance) -> bool {
        self.run
            .clearance
            .near
            .iter()
            .any(|known| known.thing == near.thing && known.measured.is_breach())
    }

    /// Whether the run hangs, or hung as little before.
    fn still_hangs(&self, moved: &RunStudy) -> bool {
        let impossible = |run: &RunStudy| run.hanging.status == Status::Impossible;
        impossible(self.run) || !impossible(moved)
    }

    /// The move with room for what a crew can't build to the millimetre, in round
    /// figures, proven like the least one; the least itself where there is no such room.
    fn with_tolerance(&self, way: Way, step: Move, least: Cure, limit_m: f64) -> Offer {
        let exact = Measure::Moved(step, least.least);
        let increment = increment(&self.base.study.site.units);
        let rounded = |m: f64| Length::metres(m).rounded_up_to(increment).as_metres();
        let wanted = [
            rounded(least.least + BUILDING_TOLERANCE_M),
            rounded(least.least),
        ];
        for by_m in wanted {
            if by_m > limit_m + tolerance::LIMIT {
                continue;
            }
            let run = step.moved(&self.run.run, by_m);
            let study: Option<Study> = self.studied(&run);
            if let Some(tried) = study.and_then(|study| self.proven(study, &mut None)) {
                let cure = Cure {
                    run,
                    least: least.least,
                    tried,
                };
                return Offer::new(self, way, exact, Measure::Moved(step, by_m), &cure);
            }
        }
        Offer::new(self, way, exact.clone(), exact, &least)
    }
}

/// The other run of a pair that one is in.
fn pair_with<'a>(pair: &'a RunPair, id: &RunId) -> Option<&'a RunId> {
    if pair.first == *id {
        Some(&pair.second)
    } else {
        (pair.second == *id).then_some(&pair.first)
    }
}

/// What moves are rounded up to: 10 mm, or half an inch.
fn increment(units: &UnitSystem) -> Length {
    match units {
        UnitSystem::Metric => Length::metres(0.01),
        UnitSystem::FeetInches => Length::inches(0.5),
    }
}
