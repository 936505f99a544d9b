//! One run against what is in its way: distances available and required.

use super::bodies::{Body, Part, RunBodies};
use super::corridor::Seen;
use super::depth::deepest;
use super::direction::Direction;
use super::obstacles::{Obstacle, Obstacles};
use super::pair::{Pair, Span, measure_pair};
use super::required::Required;
use super::way_out::{Scratch, least_moves};
use crate::geometry::{Bounds, ConvexSolid, DVec3, Frame, tolerance};

/// A run with the distances that it asks for.
#[derive(Debug, Clone, PartialEq)]
pub struct CheckedRun {
    /// The run.
    pub bodies: RunBodies,
    /// Required distances by class of obstacle; `None` for a class that this run is
    /// not measured against.
    pub required: Vec<Option<Required>>,
}

/// The distance available towards an obstacle in one direction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// The direction.
    pub direction: Direction,
    /// From the body's outermost part to the nearest point of the obstacle between the
    /// other five faces of the envelope, m. Less than zero where that point lies
    /// behind the body's face.
    pub available_m: f64,
    /// What is required in this direction, m.
    pub required_m: f64,
    /// The body that comes nearest.
    pub part: Part,
    /// That nearest point of the obstacle, in site space.
    pub place: DVec3,
}

impl Reach {
    /// How much is missing, m; less than zero where there is room to spare.
    #[must_use]
    pub fn missing_m(&self) -> f64 {
        self.required_m - self.available_m
    }
}

/// A run and an obstacle, measured.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// Position of the obstacle in the list.
    pub obstacle: usize,
    /// Signed distance of the obstacle from the envelope, m; the least over all bodies.
    /// Where the obstacle is inside, less than zero: the length of the shortest move,
    /// in any direction, that takes all of it out of the body's envelope.
    pub separation_m: f64,
    /// The body whose envelope that is.
    pub part: Part,
    /// Where: the obstacle's point in the governing direction, or its nearest one where
    /// it lies in none of the six, in site space.
    pub place: DVec3,
    /// Distances by [`Direction::ALL`]; `None` where the obstacle lies nowhere in that
    /// direction, between the other five faces of the envelope.
    pub reaches: [Option<Reach>; 6],
    /// The direction that counts: where the obstacle is inside, the one that the
    /// shortest move along an axis away from it clears; otherwise the one with the
    /// least room to spare. `None` where it lies in none of the six.
    pub governing: Option<Direction>,
    /// Where it is inside: the least move that clears it, against each of
    /// [`Direction::ALL`], m. Zeros where it isn't.
    pub moves_m: [f64; 6],
}

impl Measured {
    /// The distance in the governing direction.
    #[must_use]
    pub fn governing_reach(&self) -> Option<&Reach> {
        self.reaches[self.governing?.index()].as_ref()
    }

    /// Whether the obstacle is inside the envelope by more than [`tolerance::LIMIT`].
    #[must_use]
    pub fn is_breach(&self) -> bool {
        self.governing_reach()
            .is_some_and(|reach| reach.missing_m() > tolerance::LIMIT)
    }
}

impl CheckedRun {
    /// The box in (s, l, u) round all envelopes, whatever the class.
    fn reach(&self) -> Option<Bounds> {
        let bounds = self
            .required
            .iter()
            .flatten()
            .flat_map(|required| self.bodies.envelope(required))
            .reduce(Bounds::union);
        bounds.filter(|b| b.low.is_finite() && b.high.is_finite())
    }
}

/// Everything that comes within `margin_m` of a run's envelope, in the order of the obstacles.
#[must_use]
pub fn check_run(run: &CheckedRun, obstacles: &Obstacles, margin_m: f64) -> Vec<Measured> {
    let Some(reach) = run.reach() else {
        return Vec::new();
    };
    let reach = reach.grown(margin_m);
    let found = obstacles.near(&site_bounds(&run.bodies.frame, &reach));
    let mut work = Work::default();
    found
        .chunk_by(|one, other| one.0 == other.0)
        .filter_map(|pieces| {
            let k = pieces[0].0;
            let obstacle = &obstacles.all()[k];
            let near = pieces.iter().map(|&(_, piece)| &obstacle.pieces[piece]);
            work.measure(run, (k, obstacle), near, &reach, margin_m)
        })
        .collect()
}

/// One obstacle against a run, without an index; `None` where it stays farther than
/// `margin_m` from the envelope. `position` is what the measure names it by.
#[must_use]
pub fn check_obstacle(
    run: &CheckedRun,
    position: usize,
    obstacle: &Obstacle,
    margin_m: f64,
) -> Option<Measured> {
    let reach = run.reach()?.grown(margin_m);
    Work::default().measure(
        run,
        (position, obstacle),
        obstacle.pieces.iter(),
        &reach,
        margin_m,
    )
}

/// The box along the site's axes round one along a frame's.
fn site_bounds(frame: &Frame, local: &Bounds) -> Bounds {
    let centre = frame.site_from_local(local.centre());
    let half = local.half_size();
    let reach = frame.along.abs() * half.x + frame.left.abs() * half.y + frame.up.abs() * half.z;
    Bounds {
        low: centre - reach,
        high: centre + reach,
    }
}

/// A box along the frame's axes round one along the site's.
pub(super) fn local_bounds(frame: &Frame, site: &Bounds) -> Bounds {
    let centre = frame.local_from_site(site.centre());
    let half = site.half_size();
    let reach = DVec3::new(
        frame.along.abs().dot(half),
        frame.left.abs().dot(half),
        frame.up.abs().dot(half),
    );
    Bounds {
        low: centre - reach,
        high: centre + reach,
    }
}

/// Measures one obstacle after the other in the same memory.
#[derive(Default)]
struct Work {
    scratch: Scratch,
}

impl Work {
    fn measure<'a>(
        &mut self,
        run: &CheckedRun,
        (position, obstacle): (usize, &'a Obstacle),
        pieces: impl Iterator<Item = &'a ConvexSolid>,
        reach: &Bounds,
        margin_m: f64,
    ) -> Option<Measured> {
        let required = run.required.get(obstacle.class.0)?.as_ref()?;
        let frame = &run.bodies.frame;
        let mut found = Found::default();
        for piece in pieces {
            if !local_bounds(frame, piece.bounds()).meets(reach) {
                continue;
            }
            let seen = Seen::new(piece, frame, &mut self.scratch.vertices);
            for body in &run.bodies.bodies {
                let envelope = required.envelope(&body.local);
                // What the boxes are apart, the piece is at least.
                if margin_m < envelope.gap_m(&seen.bounds) - tolerance::DISTANCE {
                    continue;
                }
                let pair = measure_pair(&seen, &envelope, margin_m, &mut self.scratch.candidates);
                if let Some(pair) = pair {
                    found.add(body, &pair);
                }
            }
        }
        found.conclude(
            &run.bodies,
            required,
            (position, obstacle),
            &mut self.scratch,
        )
    }
}

/// What has been found of one obstacle so far, over all bodies and pieces.
#[derive(Default)]
struct Found {
    apart: Option<Nearest>,
    towards: FoundTowards,
    is_inside: bool,
}

/// The nearest so far in each direction.
#[derive(Default)]
pub(super) struct FoundTowards([Option<Nearest>; 6]);

impl FoundTowards {
    pub(super) fn add(&mut self, body: &Body, towards: &[Option<(f64, Span)>; 6]) {
        for direction in Direction::ALL {
            if let Some((at_m, span)) = towards[direction.index()] {
                let from_m = direction.face_of(&body.local);
                let nearest = Nearest {
                    distance_m: (at_m - from_m) * direction.sign(),
                    part: body.part,
                    span,
                };
                Nearest::merge(&mut self.0[direction.index()], nearest);
            }
        }
    }

    pub(super) fn reaches(&self, run: &RunBodies, required: &Required) -> [Option<Reach>; 6] {
        Direction::ALL.map(|direction| {
            let nearest = self.0[direction.index()]?;
            Some(Reach {
                direction,
                available_m: nearest.distance_m,
                required_m: required.towards(direction),
                part: nearest.part,
                place: run.frame.site_from_local(nearest.span.centre()),
            })
        })
    }
}

/// The nearest distance so far, by which body, and round what lies there.
#[derive(Clone, Copy)]
struct Nearest {
    distance_m: f64,
    part: Part,
    span: Span,
}

impl Nearest {
    /// Keeps the nearer of two. What is equally near is all of it nearest, so that the
    /// order of bodies and pieces makes no difference to the place.
    fn merge(slot: &mut Option<Self>, found: Self) {
        match slot {
            Some(known) if known.distance_m + tolerance::DISTANCE < found.distance_m => {}
            Some(known) if found.distance_m + tolerance::DISTANCE < known.distance_m => {
                *known = found;
            }
            Some(known) => {
                known.span = known.span.union(found.span);
                known.part = known.part.min(found.part);
            }
            None => *slot = Some(found),
        }
    }
}

impl Found {
    fn add(&mut self, body: &Body, pair: &Pair) {
        self.is_inside |= pair.is_inside;
        let nearest = Nearest {
            distance_m: pair.separation_m,
            part: body.part,
            span: pair.nearest,
        };
        Nearest::merge(&mut self.apart, nearest);
        self.towards.add(body, &pair.towards);
    }

    fn conclude(
        self,
        run: &RunBodies,
        required: &Required,
        (position, obstacle): (usize, &Obstacle),
        scratch: &mut Scratch,
    ) -> Option<Measured> {
        let apart = self.apart?;
        let reaches = self.towards.reaches(run, required);
        let (mut separation_m, mut part) = (apart.distance_m, apart.part);
        let mut moves_m = [0.0; 6];
        if self.is_inside {
            moves_m = least_moves(run, required, obstacle, scratch);
            // Of one convex piece, the depth is known already.
            if obstacle.pieces.len() > 1
                && let Some((depth_m, deepest_part)) = deepest(run, required, obstacle)
            {
                (separation_m, part) = (-depth_m, deepest_part);
            }
        }
        let governing = governing(&reaches, self.is_inside.then_some(&moves_m));
        let place = governing
            .and_then(|direction| reaches[direction.index()])
            .map_or(run.frame.site_from_local(apart.span.centre()), |r| r.place);
        Some(Measured {
            obstacle: position,
            separation_m,
            part,
            place,
            reaches,
            governing,
            moves_m,
        })
    }
}

/// Chooses the governing direction; see [`Measured::governing`].
fn governing(reaches: &[Option<Reach>; 6], moves_m: Option<&[f64; 6]>) -> Option<Direction> {
    let mut least: Option<(f64, Direction)> = None;
    for reach in reaches.iter().flatten() {
        let rank_m = moves_m.map_or(-reach.missing_m(), |moves| moves[reach.direction.index()]);
        if least.is_none_or(|(least_m, _)| rank_m < least_m - tolerance::DISTANCE) {
            least = Some((rank_m, reach.direction));
        }
    }
    least.map(|(_, direction)| direction)
}
