//! The least moves that take a run's envelope clear of an obstacle.

use super::bodies::RunBodies;
use super::corridor::Seen;
use super::direction::Direction;
use super::obstacles::Obstacle;
use super::required::Required;
use crate::geometry::parting::{Hull, parting_axes};
use crate::geometry::{Bounds, ConvexSolid, DVec3, Frame, tolerance};

/// How far the run must move straight away from each of [`Direction::ALL`] until the
/// obstacle, all pieces of it, is no longer inside any of its envelopes, m.
///
/// While an envelope moves along an axis, it meets exactly what lies in its corridor
/// along that axis: each convex piece blocks one stretch of the move. The answer is
/// the end of the last stretch in an unbroken row of them from where the run is.
pub(super) fn least_moves(
    run: &RunBodies,
    required: &Required,
    obstacle: &Obstacle,
    scratch: &mut Scratch,
) -> [f64; 6] {
    least_moves_of(&run.frame, run.envelope(required), obstacle, scratch)
}

/// Memory that is used for one obstacle after the other.
#[derive(Default)]
pub(super) struct Scratch {
    pub(super) vertices: Vec<DVec3>,
    pub(super) candidates: Vec<DVec3>,
    blocked: [Vec<(f64, f64)>; 3],
}

/// The same for some envelopes along the axes of a frame.
pub(super) fn least_moves_of(
    frame: &Frame,
    envelopes: impl Iterator<Item = Bounds> + Clone,
    obstacle: &Obstacle,
    scratch: &mut Scratch,
) -> [f64; 6] {
    let Scratch {
        vertices,
        candidates,
        blocked,
    } = scratch;
    blocked.iter_mut().for_each(Vec::clear);
    for piece in &obstacle.pieces {
        let seen = Seen::new(piece, frame, vertices);
        for envelope in envelopes.clone() {
            for (axis, blocked) in blocked.iter_mut().enumerate() {
                if let Some(range) = seen.range_in_corridor(axis, &envelope, candidates) {
                    blocked.push((
                        range.low_m - envelope.high[axis],
                        range.high_m - envelope.low[axis],
                    ));
                }
            }
        }
    }
    Direction::ALL.map(|direction| {
        let stretches = &mut blocked[direction.axis()];
        // Away from a direction along the axis is a move against the axis.
        let sign = -direction.sign();
        let ahead = |&(from, to): &(f64, f64)| if sign < 0.0 { (-to, -from) } else { (from, to) };
        stretches.sort_unstable_by(|one, other| ahead(one).0.total_cmp(&ahead(other).0));
        first_free(stretches.iter().map(ahead))
    })
}

/// How far the run must move in a direction (a unit vector in site space, which needn't
/// be an axis of its frame) until the obstacle, all pieces of it, is no longer inside any
/// of its envelopes, m; 0 where it isn't inside any.
///
/// An envelope and a convex piece overlap where their shadows overlap along every
/// direction that can part them. While one moves, each pair of shadows overlaps during
/// one stretch, so all of them do during what these stretches have in common.
#[must_use]
pub fn least_move(
    run: &RunBodies,
    required: &Required,
    obstacle: &Obstacle,
    direction: DVec3,
) -> f64 {
    let way = run.frame.local_direction(direction);
    let mut stretches = Vec::new();
    for piece in &obstacle.pieces {
        let seen = piece.seen_from(&run.frame);
        for envelope in run.envelope(required) {
            // What only touches, by up to the limit, is not inside.
            let inner = envelope.grown(-tolerance::LIMIT);
            stretches.extend(overlapping(&inner, &seen, way));
        }
    }
    stretches.sort_unstable_by(|one, other| one.0.total_cmp(&other.0));
    first_free(stretches.into_iter())
}

/// The moves of a box during which it overlaps a solid; none if it never does.
fn overlapping(one: &Bounds, other: &ConvexSolid, way: DVec3) -> Option<(f64, f64)> {
    let (mut from, mut to) = (f64::NEG_INFINITY, f64::INFINITY);
    for axis in parting_axes(one, other) {
        let (low_one, high_one) = one.extent(axis);
        let (low_other, high_other) = other.extent(axis);
        let (room_ahead, room_behind) = (high_other - low_one, low_other - high_one);
        let per_m = way.dot(axis);
        if per_m.abs() > tolerance::PARALLEL {
            let (a, b) = (room_behind / per_m, room_ahead / per_m);
            from = from.max(a.min(b));
            to = to.min(a.max(b));
        } else if room_ahead < 0.0 || 0.0 < room_behind {
            return None;
        }
    }
    (from < to).then_some((from, to))
}

/// The least move, zero or more, that no stretch blocks; the ends of a stretch are free.
/// The stretches come in the order of their beginnings.
fn first_free(stretches: impl Iterator<Item = (f64, f64)>) -> f64 {
    stretches.fold(0.0, |at, (from, to)| {
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
        check(&[(-1.0, 2.0), (1.5, 4.0)], 4.0);
        check(&[(-1.0, 2.0), (3.0, 4.0)], 2.0);
        check(&[(-3.0, 0.0)], 0.0);
    }

    /// Along its own axes a run's moves are those that the corridors give; along any other
    /// direction it just leaves the obstacle.
    #[test]
    fn a_move_in_any_direction_just_clears() {
        use crate::clearance::{Class, Form};
        let mut random = fastrand::Rng::with_seed(5);
        let mut between = |low: f64, high: f64| low + (high - low) * random.f64();
        let required = Required::all_round(0.5);
        let mut n_inside = 0;
        for _ in 0..200 {
            let run = RunBodies {
                frame: Frame::sloped(DVec3::new(0.0, 0.0, 5.0), between(0.0, 360.0), 0.1),
                bodies: crate::clearance::bodies(&figures(Form::Straight)),
            };
            let centre = DVec3::new(between(-2.0, 2.0), between(-2.0, 2.0), between(4.0, 6.0));
            let frame = Frame::sloped(centre, between(0.0, 360.0), 0.3);
            let half = DVec3::new(between(0.1, 2.0), between(0.1, 2.0), between(0.1, 1.0));
            let local = Bounds {
                low: -half,
                high: half,
            };
            let obstacle = Obstacle {
                pieces: ConvexSolid::turned_box(&frame, &local)
                    .into_iter()
                    .collect(),
                class: Class(0),
            };
            let along_axes = least_moves(&run, &required, &obstacle, &mut Scratch::default());
            for direction in Direction::ALL {
                let axis = [run.frame.along, run.frame.left, run.frame.up][direction.axis()];
                let away = axis * -direction.sign();
                let found = least_move(&run, &required, &obstacle, away);
                let known = along_axes[direction.index()];
                assert!(
                    (found - known).abs() < 1e-5,
                    "{direction:?}: {found}, {known}"
                );
            }
            let way = DVec3::new(between(-1.0, 1.0), between(-1.0, 1.0), between(-1.0, 1.0));
            let way = way.normalize();
            let found = least_move(&run, &required, &obstacle, way);
            n_inside += usize::from(found > 0.0);
            let moved = |by_m: f64| RunBodies {
                frame: run.frame.translated(way * by_m),
                bodies: run.bodies.clone(),
            };
            assert_eq!(
                least_move(&moved(found + 1e-6), &required, &obstacle, way),
                0.0
            );
            if found > 1e-4 {
                let left = least_move(&moved(found - 1e-4), &required, &obstacle, way);
                assert!((left - 1e-4).abs() < 1e-6, "{left}");
            }
        }
        assert!(n_inside > 60, "{n_inside}");
    }

    fn figures(form: crate::clearance::Form) -> crate::clearance::RunFigures {
        use crate::clearance::{BurnerBox, ExhaustBox};
        use crate::geometry::DVec2;
        crate::clearance::RunFigures {
            leg_length_m: 6.0,
            form,
            tube_diameter_m: 0.1,
            reflector: vec![DVec2::new(-0.3, 0.0), DVec2::new(0.3, 0.1)],
            tilt_degrees: 0.0,
            burner: BurnerBox {
                length_m: 0.5,
                width_m: 0.3,
                above_axis_m: 0.2,
                below_axis_m: 0.2,
            },
            exhaust: ExhaustBox {
                length_m: 0.2,
                diameter_m: 0.1,
            },
        }
    }

    #[test]
    fn a_gap_that_fits_exactly_is_free() {
        check(&[(-1.0, 2.0), (2.0, 4.0)], 2.0);
    }
}
