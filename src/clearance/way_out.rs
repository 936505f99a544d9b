//! The least moves that take a run's envelope clear of an obstacle.

use super::bodies::RunBodies;
use super::corridor::Seen;
use super::direction::Direction;
use super::obstacles::Obstacle;
use super::required::Required;
use crate::geometry::{Bounds, Frame, tolerance};

/// How far the run must move straight away from each of [`Direction::ALL`] until the
/// obstacle, all pieces of it, is no longer inside any of its envelopes, m.
///
/// While an envelope moves along an axis, it meets exactly what lies in its corridor
/// along that axis: each convex piece blocks one stretch of the move. The answer is
/// the end of the last stretch in an unbroken row of them from where the run is.
pub(super) fn least_moves(run: &RunBodies, required: &Required, obstacle: &Obstacle) -> [f64; 6] {
    least_moves_of(&run.frame, run.envelope(required), obstacle)
}

/// The same for some envelopes along the axes of a frame.
pub(super) fn least_moves_of(
    frame: &Frame,
    envelopes: impl Iterator<Item = Bounds> + Clone,
    obstacle: &Obstacle,
) -> [f64; 6] {
    let mut blocked: [Vec<(f64, f64)>; 3] = Default::default();
    let (mut vertices, mut candidates) = (Vec::new(), Vec::new());
    for piece in &obstacle.pieces {
        let seen = Seen::new(piece, frame, &mut vertices);
        for envelope in envelopes.clone() {
            for (axis, blocked) in blocked.iter_mut().enumerate() {
                if let Some(range) = seen.range_in_corridor(axis, &envelope, &mut candidates) {
                    blocked.push((
                        range.low_m - envelope.high[axis],
                        range.high_m - envelope.low[axis],
                    ));
                }
            }
        }
    }
    Direction::ALL.map(|direction| {
        let stretches = &blocked[direction.axis()];
        // Away from a direction along the axis is a move against the axis.
        if direction.sign() < 0.0 {
            first_free(stretches.iter().copied())
        } else {
            first_free(stretches.iter().map(|&(from, to)| (-to, -from)))
        }
    })
}

/// The least move, zero or more, that no stretch blocks; the ends of a stretch are free.
fn first_free(stretches: impl Iterator<Item = (f64, f64)>) -> f64 {
    let mut stretches: Vec<(f64, f64)> = stretches.collect();
    stretches.sort_by(|one, other| one.0.total_cmp(&other.0));
    stretches.iter().fold(0.0, |at, &(from, to)| {
        if from < at - tolerance::DISTANCE && at < to {
            to
        } else {
            at
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(stretches: &[(f64, f64)], expected: f64) {
        assert_eq!(first_free(stretches.iter().copied()), expected);
    }

    #[test]
    fn the_first_free_move_is_beyond_an_unbroken_row() {
        check(&[], 0.0);
        check(&[(-1.0, 2.0)], 2.0);
        check(&[(1.0, 2.0)], 0.0);
        check(&[(1.5, 4.0), (-1.0, 2.0)], 4.0);
        check(&[(-1.0, 2.0), (3.0, 4.0)], 2.0);
        check(&[(-3.0, 0.0)], 0.0);
    }

    #[test]
    fn a_gap_that_fits_exactly_is_free() {
        check(&[(-1.0, 2.0), (2.0, 4.0)], 2.0);
    }
}
