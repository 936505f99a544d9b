//! The form of a run in plan, from its bodies.

use crate::clearance::{Body, Part};
use crate::geometry::{Bounds, DVec2, DVec3, math};
use crate::study::RunStudy;

/// Pieces of the arc of a return bend.
const N_BEND: u32 = 8;

/// The form of a run in plan.
pub(super) struct RunShape<'a> {
    run: &'a RunStudy,
    /// Length of the tube, or of one leg, m.
    pub leg_m: f64,
    /// The burner's box, (s, l, u).
    pub burner: Bounds,
    /// The box of tube and reflector.
    pub tube: Bounds,
    exhaust: Bounds,
    bend: Option<Bounds>,
    /// Where the axes of burner leg and exhaust leg are, left of the run's axis, m.
    pub tube_l: [f64; 2],
}

impl<'a> RunShape<'a> {
    /// The form of a studied run.
    pub(super) fn new(run: &'a RunStudy) -> Self {
        let of = |part: Part| -> Option<&Body> {
            run.clearance
                .bodies
                .bodies
                .iter()
                .find(|body| body.part == part)
        };
        let leg_m = run.geometry.tube_length_m;
        let nothing = Bounds {
            low: DVec3::ZERO,
            high: DVec3::ZERO,
        };
        let local = |part| of(part).map_or(nothing, |body| body.local);
        let (burner, exhaust) = (local(Part::Burner), local(Part::Exhaust));
        let middle = |bounds: &Bounds| f64::midpoint(bounds.low.y, bounds.high.y);
        Self {
            run,
            leg_m,
            tube: local(Part::Tube),
            bend: of(Part::Bend).map(|body| body.local),
            tube_l: [middle(&burner), middle(&exhaust)],
            burner,
            exhaust,
        }
    }

    /// The plan point at a station and a distance left of the axis.
    pub(super) fn plan(&self, station_m: f64, left_m: f64) -> DVec2 {
        let frame = &self.run.clearance.bodies.frame;
        frame
            .site_from_local(DVec3::new(station_m, left_m, 0.0))
            .truncate()
    }

    /// The corners of a box in plan, in order round it.
    pub(super) fn corners(&self, bounds: &Bounds) -> [DVec2; 4] {
        [
            (bounds.low.x, bounds.low.y),
            (bounds.high.x, bounds.low.y),
            (bounds.high.x, bounds.high.y),
            (bounds.low.x, bounds.high.y),
        ]
        .map(|(s, l)| self.plan(s, l))
    }

    /// Both legs of a hairpin, left of the axis.
    pub(super) fn legs(&self) -> [Option<f64>; 2] {
        self.tube_l.map(|l| self.bend.map(|_| l))
    }

    /// The tube's axis from the burner to the exhaust, round the bend of a hairpin.
    pub(super) fn tube_line(&self) -> Vec<DVec2> {
        let [out_l, back_l] = self.tube_l;
        let Some(bend) = self.bend else {
            return vec![
                self.plan(0.0, out_l),
                self.plan(self.exhaust.high.x, back_l),
            ];
        };
        let depth_m = bend.high.x - self.leg_m;
        let mut line = vec![self.plan(0.0, out_l)];
        // Half an ellipse from leg to leg.
        for step in 0..=N_BEND {
            let turn = std::f64::consts::PI * f64::from(step) / f64::from(N_BEND);
            let station_m = self.leg_m + depth_m * math::sin(turn);
            let part = (1.0 - math::cos(turn)) / 2.0;
            line.push(self.plan(station_m, out_l + (back_l - out_l) * part));
        }
        line.push(self.plan(self.exhaust.low.x, back_l));
        line
    }

    /// The tip of the exhaust and the direction in which it points.
    pub(super) fn exhaust_tip(&self) -> (DVec2, DVec2) {
        let (station_m, sign) = match self.bend {
            Some(_) => (self.exhaust.low.x, -1.0),
            None => (self.exhaust.high.x, 1.0),
        };
        let tip = self.plan(station_m, self.tube_l[1]);
        let before = self.plan(station_m - sign, self.tube_l[1]);
        (tip, (tip - before).normalize_or_zero())
    }
}
