//! The places that are tried.

use crate::geometry::DVec2;
use crate::geometry::math::sin_cos_degrees;
use crate::hanging::run::RunGeometry;

/// Places are this far apart, m.
pub const STEP_M: f64 = 0.01;

/// Steps to a metre: dividing by it gives the decimal figure that people type.
const STEPS_PER_METRE: f64 = 100.0;

/// A place beside that of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shift {
    /// Steps along the run as it was, towards its exhaust.
    pub along: i32,
    /// Steps across it, to its left.
    pub across: i32,
    /// Which of the area's turns, from 1; 0 for none.
    pub turn: usize,
}

impl Shift {
    /// Along the run as it was, towards its exhaust, m.
    #[must_use]
    pub fn along_m(self) -> f64 {
        f64::from(self.along) / STEPS_PER_METRE
    }

    /// Across the run as it was, to its left, m.
    #[must_use]
    pub fn across_m(self) -> f64 {
        f64::from(self.across) / STEPS_PER_METRE
    }
}

/// A turn about the middle of the tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turn {
    /// How far, clockwise, degrees.
    pub clockwise_deg: f64,
    /// Unit vector in plan along the turned run.
    pub heading: DVec2,
}

/// Where a run may go.
#[derive(Debug, Clone, PartialEq)]
pub struct Area {
    /// The farthest along, either way, in steps.
    pub along: i32,
    /// The farthest across, either way, in steps.
    pub across: i32,
    /// The turns that are tried too, each about the middle alone.
    pub turns: Vec<Turn>,
}

/// How far a place is from where the run is: what is nearer is preferred.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Distance {
    pub(super) is_turned: bool,
    /// Square of the farthest that any point of the tube moves, in steps.
    pub(super) size: f64,
    /// Along alone, across alone, or both.
    pub(super) ways: u8,
}

impl Area {
    /// The run at a place. Its burner keeps its height.
    #[must_use]
    pub fn run_at(&self, run: &RunGeometry, shift: Shift) -> RunGeometry {
        let left = DVec2::new(-run.heading.y, run.heading.x);
        let by = run.heading * shift.along_m() + left * shift.across_m();
        let mut moved = run.clone();
        let mut flange = run.flange.truncate() + by;
        if let Some(turn) = self.turn(shift.turn) {
            let half_m = run.axis().plan_length(run.tube_length_m) / 2.0;
            moved.heading = turn.heading;
            flange = flange + run.heading * half_m - turn.heading * half_m;
        }
        moved.flange = flange.extend(run.flange.z);
        moved
    }

    /// The turn by its number; none for 0, a run as it lies.
    #[must_use]
    pub fn turn(&self, number: usize) -> Option<&Turn> {
        self.turns.get(number.checked_sub(1)?)
    }

    /// How far a place is from where the run is; for the places of a rectangle at the
    /// least, `along` and `across` being the least of each.
    pub(super) fn distance(&self, run: &RunGeometry, shift: Shift, one: Extent) -> Distance {
        let (along, across) = (f64::from(shift.along), f64::from(shift.across));
        let square = along * along + across * across;
        let turning = self.turn(shift.turn).map_or(0.0, |turn| {
            // In the frame of the run as it was, and whichever way, so that a turned or a
            // mirrored site gives the same bits.
            let (sine, cosine) = sin_cos_degrees(turn.clockwise_deg.abs());
            let half_m = run.axis().plan_length(run.tube_length_m) / 2.0;
            let end = DVec2::new(cosine - 1.0, -sine) * half_m * STEPS_PER_METRE;
            end.length_squared()
        });
        let ways = match (shift.along, shift.across, one) {
            (_, _, Extent::Rectangle) | (_, 0, Extent::Place) => 0,
            (0, _, Extent::Place) => 1,
            _ => 2,
        };
        Distance {
            is_turned: shift.turn > 0,
            size: square + turning,
            ways,
        }
    }
}

/// What a distance is asked of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Extent {
    /// One place.
    Place,
    /// All places at least so far away.
    Rectangle,
}
