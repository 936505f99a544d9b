//! How deep an envelope sits in an obstacle of several convex pieces.

use super::bodies::{Part, RunBodies};
use super::corridor::Seen;
use super::obstacles::Obstacle;
use super::required::Required;
use super::way_out::{Scratch, least_moves_of};
use crate::geometry::parting::{Hull, parting_axes};
use crate::geometry::{Bounds, DVec3, Frame, tolerance};

/// The body of a run that sits deepest in an obstacle, and how deep, m.
///
/// The depth of one envelope is the length of the shortest move, in any direction,
/// after which no piece of the obstacle is inside it. That is not the deepest of the
/// pieces: the shortest way out of one may lead into the next, and how an outline
/// was cut into pieces must not matter.
pub(super) fn deepest(
    run: &RunBodies,
    required: &Required,
    obstacle: &Obstacle,
) -> Option<(f64, Part)> {
    let depths = run.bodies.iter().map(|body| {
        let envelope = required.envelope(&body.local);
        (depth_m(&run.frame, &envelope, obstacle), body.part)
    });
    depths.reduce(|deepest, other| {
        if deepest.0 + tolerance::DISTANCE < other.0 {
            other
        } else {
            deepest
        }
    })
}

fn depth_m(frame: &Frame, envelope: &Bounds, obstacle: &Obstacle) -> f64 {
    let mut scratch = Scratch::default();
    let moves = least_moves_of(frame, std::iter::once(*envelope), obstacle, &mut scratch);
    let bound_m = moves.into_iter().fold(f64::INFINITY, f64::min);
    let mut pieces: Vec<Blocked> = Vec::new();
    for piece in &obstacle.pieces {
        let seen = Seen::new(piece, frame, &mut scratch.vertices);
        if envelope.grown(bound_m).meets(&seen.bounds) {
            pieces.push(Blocked::new(envelope, &seen));
        }
    }
    shortest_way_out(&pieces, bound_m)
}

/// The moves of an envelope that leave one convex piece inside it: a convex solid in
/// the space of moves, `normal . move < most` for every side.
struct Blocked {
    sides: Vec<Side>,
}

/// One side: beyond it the piece is clear.
#[derive(Clone, Copy)]
struct Side {
    normal: DVec3,
    most_m: f64,
}

impl Blocked {
    fn new(envelope: &Bounds, seen: &Seen<'_>) -> Self {
        let hull = seen.hull();
        let sides = parting_axes(envelope, &hull)
            .flat_map(|axis| {
                let (low, high) = envelope.extent(axis);
                let (piece_low, piece_high) = hull.extent(axis);
                [
                    Side {
                        normal: axis,
                        most_m: piece_high - low,
                    },
                    Side {
                        normal: -axis,
                        most_m: high - piece_low,
                    },
                ]
            })
            .collect();
        Self { sides }
    }

    /// How far a move is from leaving the piece, m; zero or less where it is clear.
    fn depth_at(&self, moved: DVec3) -> f64 {
        self.sides
            .iter()
            .map(|side| side.most_m - side.normal.dot(moved))
            .fold(f64::INFINITY, f64::min)
    }
}

/// Looks at so many moves at most. Some dozens are usual; an envelope deep among many
/// pieces could take exponentially many. The shortest way out that was found then
/// stands: a move that does clear the obstacle, though a shorter one may exist.
const MOST_STEPS: usize = 5_000;

/// The length of the shortest move that no piece blocks, known to be at most `bound_m`.
///
/// Branch and bound: a move that is blocked by a piece must get beyond one of the
/// piece's sides. Each of them is tried, nearest first; the shortest move beyond all
/// sides chosen so far bounds what can still be found from there.
fn shortest_way_out(pieces: &[Blocked], bound_m: f64) -> f64 {
    let mut search = Search {
        pieces,
        chosen: Vec::new(),
        best_m: bound_m,
        n_steps: 0,
    };
    search.from(DVec3::ZERO);
    search.best_m
}

struct Search<'a> {
    pieces: &'a [Blocked],
    chosen: Vec<Side>,
    best_m: f64,
    n_steps: usize,
}

impl Search<'_> {
    /// `moved` is the shortest move beyond all chosen sides.
    fn from(&mut self, moved: DVec3) {
        self.n_steps += 1;
        let deepest = self
            .pieces
            .iter()
            .map(|piece| (piece.depth_at(moved), piece))
            .filter(|(depth_m, _)| tolerance::DISTANCE < *depth_m)
            .reduce(|deepest, other| if deepest.0 < other.0 { other } else { deepest });
        let Some((_, piece)) = deepest else {
            self.best_m = self.best_m.min(moved.length());
            return;
        };
        let mut onward: Vec<(f64, Side, DVec3)> = piece
            .sides
            .iter()
            .filter_map(|&side| {
                let next = self.shortest_beyond(side)?;
                Some((next.length(), side, next))
            })
            .collect();
        onward.sort_by(|one, other| one.0.total_cmp(&other.0));
        for (length_m, side, next) in onward {
            if self.best_m - tolerance::DISTANCE <= length_m || MOST_STEPS <= self.n_steps {
                break;
            }
            self.chosen.push(side);
            self.from(next);
            self.chosen.pop();
        }
    }

    /// The shortest move beyond all chosen sides and one more, which the last move was
    /// not beyond; `None` where there is none.
    ///
    /// The shortest move lies on the new side, and on at most two of the others with
    /// it: the shortest on every such set of planes is tried.
    fn shortest_beyond(&self, side: Side) -> Option<DVec3> {
        let mut shortest: Option<DVec3> = None;
        let mut offer = |moved: Option<DVec3>| {
            let Some(moved) = moved else {
                return;
            };
            let is_beyond =
                |side: &Side| side.most_m - tolerance::DISTANCE <= side.normal.dot(moved);
            let is_shorter =
                shortest.is_none_or(|known: DVec3| moved.length_squared() < known.length_squared());
            if is_shorter && self.chosen.iter().all(is_beyond) {
                shortest = Some(moved);
            }
        };
        offer(Some(side.normal * side.most_m));
        for (k, one) in self.chosen.iter().enumerate() {
            offer(shortest_on_two(side, *one));
            for other in &self.chosen[..k] {
                offer(on_three(side, *one, *other));
            }
        }
        shortest
    }
}

/// The shortest vector to the line in which two planes meet.
fn shortest_on_two(one: Side, other: Side) -> Option<DVec3> {
    let cos = one.normal.dot(other.normal);
    let square = 1.0 - cos * cos;
    (tolerance::PARALLEL < square).then(|| {
        let a = (one.most_m - cos * other.most_m) / square;
        let b = (other.most_m - cos * one.most_m) / square;
        one.normal * a + other.normal * b
    })
}

/// The vector to the point in which three planes meet.
fn on_three(one: Side, other: Side, third: Side) -> Option<DVec3> {
    let (p, q, r) = (
        other.normal.cross(third.normal),
        third.normal.cross(one.normal),
        one.normal.cross(other.normal),
    );
    let volume = one.normal.dot(p);
    (tolerance::PARALLEL < volume.abs())
        .then(|| (p * one.most_m + q * other.most_m + r * third.most_m) / volume)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Moves that are blocked, between two corners. The moves blocked by pieces that
    /// touch overlap, by as much as the envelope is large.
    fn block(low: [f64; 3], high: [f64; 3]) -> Blocked {
        let sides = (0..3)
            .flat_map(|axis| {
                [
                    Side {
                        normal: DVec3::AXES[axis],
                        most_m: high[axis],
                    },
                    Side {
                        normal: -DVec3::AXES[axis],
                        most_m: -low[axis],
                    },
                ]
            })
            .collect();
        Blocked { sides }
    }

    fn check(pieces: &[Blocked], expected: f64) {
        let found = shortest_way_out(pieces, 100.0);
        assert!((found - expected).abs() < 1e-9, "{found}");
    }

    #[test]
    fn the_way_out_of_one_piece_is_through_its_nearest_side() {
        check(&[block([-1.0, -2.0, -3.0], [4.0, 5.0, 6.0])], 1.0);
        check(&[], 0.0);
    }

    #[test]
    fn the_next_piece_is_in_the_way() {
        // Out to the left lies another piece: through both 3, or down 2.
        let pieces = [
            block([-1.0, -2.0, -3.0], [4.0, 5.0, 6.0]),
            block([-3.0, -9.0, -9.0], [-0.9, 9.0, 9.0]),
        ];
        check(&pieces, 2.0);
    }

    #[test]
    fn the_way_out_may_lead_round_a_corner() {
        // A wall of three sides round the origin, open towards (3, 4, 0) only.
        let pieces = [
            block([-9.0, -9.0, -9.0], [3.0, 9.0, 9.0]),
            block([2.9, -9.0, -9.0], [9.0, 4.0, 9.0]),
        ];
        check(&pieces, 5.0);
    }

    #[test]
    fn how_a_solid_is_cut_makes_no_difference() {
        let whole = [block([-3.0, -4.0, -5.0], [6.0, 7.0, 8.0])];
        let cut = [
            block([-3.0, -4.0, -5.0], [0.5, 7.0, 8.0]),
            block([0.4, -4.0, -5.0], [6.0, 1.0, 8.0]),
            block([0.4, 0.9, -5.0], [6.0, 7.0, 8.0]),
        ];
        check(&whole, 3.0);
        check(&cut, 3.0);
    }
}
