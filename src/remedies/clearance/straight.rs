//! The least straight move that cures a breach.
//!
//! From where the run is, the exact depth to which a thing reaches into its envelope says
//! how far the next place is that this thing leaves free: everything before it is
//! certainly blocked, so the search jumps there. Only where no thing is in the way and
//! something else is wrong (the steel, a mounting height, the edge of the building), it
//! goes on in small steps.

use super::offer::{Measure, Offer};
use super::way::{Move, Way};
use super::{Case, Cure};
use crate::findings::Subject;
use crate::geometry::tolerance;
use crate::hanging::Status;
use crate::site::policy::PolicyItem;
use crate::study::{Clearance, RunStudy, Study, Thing};
use crate::units::{Length, UnitSystem};

/// How far apart the places are that are tried where nothing says how far to go, m.
/// Sites are built to a centimetre at best.
const STEP_M: f64 = 0.005;

/// Added to a move that is offered so that a crew can build it, m.
const BUILDING_TOLERANCE_M: f64 = 0.050;

impl Case<'_> {
    /// The least move of a way, the shorter of its two.
    pub(super) fn least_move(
        &self,
        way: Way,
        blocking: &mut Option<&'static str>,
    ) -> Option<Offer> {
        let limit_m = self.base.study.site.policy.value(PolicyItem::RemedyReach);
        let mut best: Option<(Move, Cure)> = None;
        for step in Move::both(way)? {
            let within_m = best.as_ref().map_or(limit_m, |(_, known)| known.least);
            let found = self.first_free(step, 0.0, within_m, blocking);
            // Equally long, the first of the two is the one.
            let is_less = |cure: &Cure| best.is_none() || cure.least < within_m;
            if let Some(cure) = found.filter(is_less) {
                best = Some((step, cure));
            }
        }
        let (step, least) = best?;
        Some(self.with_tolerance(way, step, least, limit_m))
    }

    /// The nearest place from `from_m` on, at most `limit_m` away, that is a cure.
    fn first_free(
        &self,
        step: Move,
        from_m: f64,
        limit_m: f64,
        blocking: &mut Option<&'static str>,
    ) -> Option<Cure> {
        let mut at_m = from_m;
        while at_m <= limit_m + tolerance::LIMIT {
            let run = step.moved(&self.run.run, at_m);
            let study = self.studied(&run)?;
            let moved = study.run(&run.id)?;
            let jump_m = self.blocked_for(step, moved);
            if jump_m > tolerance::LIMIT {
                at_m += jump_m;
                continue;
            }
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

    /// How far the run must go on until nothing that burns, and that it must get or stay
    /// clear of, is inside its envelope, m; 0 where nothing is.
    fn blocked_for(&self, step: Move, moved: &RunStudy) -> f64 {
        moved
            .clearance
            .near
            .iter()
            .filter(|near| near.burns.counts_as_combustible() && near.measured.is_breach())
            .filter(|near| self.is_cause(&near.thing) || !self.was_inside(near))
            .map(|near| near.measured.moves_m[step.away_from().index()])
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

/// What moves are rounded up to: 10 mm, or half an inch.
fn increment(units: &UnitSystem) -> Length {
    match units {
        UnitSystem::Metric => Length::metres(0.01),
        UnitSystem::FeetInches => Length::inches(0.5),
    }
}
