//! The room in each direction of a run, however far away what bounds it lies.

use super::bodies::Body;
use super::corridor::Seen;
use super::measure::{CheckedRun, FoundTowards, Reach, local_bounds};
use super::obstacles::{Class, Obstacle, Obstacles};
use super::pair::towards;
use crate::geometry::{Bounds, DVec3};

/// The distances to an obstacle by [`super::Direction::ALL`], as
/// [`super::Measured::reaches`] has them, but without a margin beyond which nothing is
/// measured; `None` where it lies nowhere in that direction.
#[must_use]
pub fn reaches(run: &CheckedRun, obstacle: &Obstacle) -> [Option<Reach>; 6] {
    Work::default().reaches(run, obstacle)
}

/// The same of all obstacles that lie in any direction at all, in their order, each by
/// its position.
#[must_use]
pub fn reaches_of_all(run: &CheckedRun, obstacles: &Obstacles) -> Vec<(usize, [Option<Reach>; 6])> {
    let mut work = Work::default();
    let all = obstacles.all().iter().enumerate();
    all.map(|(position, obstacle)| (position, work.reaches(run, obstacle)))
        .filter(|(_, reaches)| reaches.iter().any(Option::is_some))
        .collect()
}

/// Whether anything in a box along the site's axes may lie in a direction of a run, of a
/// class of obstacle. Costs less than asking what does.
#[must_use]
pub fn may_reach(run: &CheckedRun, class: Class, bounds: &Bounds) -> bool {
    let required = run.required.get(class.0).and_then(Option::as_ref);
    let bounds = local_bounds(&run.bodies.frame, bounds);
    required.is_some_and(|required| {
        let mut envelopes = run.bodies.envelope(required);
        envelopes.any(|envelope| !is_aside(&bounds, &envelope))
    })
}

/// Memory that is used for one obstacle after the other.
#[derive(Default)]
struct Work {
    vertices: Vec<DVec3>,
    candidates: Vec<DVec3>,
}

impl Work {
    fn reaches(&mut self, run: &CheckedRun, obstacle: &Obstacle) -> [Option<Reach>; 6] {
        let required = run.required.get(obstacle.class.0).and_then(Option::as_ref);
        let Some(required) = required else {
            return [None; 6];
        };
        let frame = &run.bodies.frame;
        let mut found = FoundTowards::default();
        for piece in &obstacle.pieces {
            let bounds = local_bounds(frame, piece.bounds());
            let is_met = |body: &&Body| !is_aside(&bounds, &required.envelope(&body.local));
            if !run.bodies.bodies.iter().any(|body| is_met(&body)) {
                continue;
            }
            let seen = Seen::new(piece, frame, &mut self.vertices);
            for body in run.bodies.bodies.iter().filter(is_met) {
                let envelope = required.envelope(&body.local);
                found.add(body, &towards(&seen, &envelope, &mut self.candidates));
            }
        }
        found.reaches(&run.bodies, required)
    }
}

/// Whether a box lies in none of the corridors that an envelope sweeps along the axes.
fn is_aside(bounds: &Bounds, envelope: &Bounds) -> bool {
    let is_beside = |axis: usize| {
        bounds.high[axis] < envelope.low[axis] || envelope.high[axis] < bounds.low[axis]
    };
    1 < (0..3).filter(|axis| is_beside(*axis)).count()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::clearance::{Direction, Part, Required, RunBodies, check_obstacle};
    use crate::geometry::{ConvexSolid, Frame};

    fn solid(low: [f64; 3], high: [f64; 3]) -> ConvexSolid {
        let local = Bounds {
            low: DVec3::from(low),
            high: DVec3::from(high),
        };
        let frame = Frame::sloped(DVec3::new(3.0, -2.0, 5.0), 20.0, 0.0);
        ConvexSolid::turned_box(&frame, &local).expect("the box has a volume")
    }

    fn run() -> CheckedRun {
        let local = Bounds {
            low: DVec3::new(0.0, -0.3, -0.1),
            high: DVec3::new(10.0, 0.3, 0.2),
        };
        CheckedRun {
            bodies: RunBodies {
                frame: Frame::sloped(DVec3::new(3.0, -2.0, 5.0), 20.0, 0.0),
                bodies: vec![Body {
                    part: Part::Tube,
                    local,
                }],
            },
            required: vec![Some(Required::all_round(0.5)), None],
        }
    }

    fn obstacle(pieces: Vec<ConvexSolid>) -> Obstacle {
        Obstacle {
            pieces,
            class: Class(0),
        }
    }

    #[test]
    fn what_is_far_is_measured_where_it_faces_the_envelope() {
        let far = obstacle(vec![solid([4.0, 20.3, -3.0], [6.0, 21.0, 3.0])]);
        let found = reaches(&run(), &far);
        let to_the_left = found[Direction::Left.index()].expect("it lies to the left");
        assert!((to_the_left.available_m - 20.0).abs() < 1e-9);
        assert_eq!(found.iter().flatten().count(), 1);
        // Past the corner it lies in no direction.
        let aside = obstacle(vec![solid([11.0, 20.3, -3.0], [13.0, 21.0, 3.0])]);
        assert_eq!(reaches(&run(), &aside), [None; 6]);
        // What a run isn't measured against has no distance.
        let other = Obstacle {
            class: Class(1),
            ..far
        };
        assert_eq!(reaches(&run(), &other), [None; 6]);
    }

    #[test]
    fn what_is_near_has_the_distances_of_the_check() {
        // Inside the envelope, beside it, in two pieces of which one is far.
        let all = vec![
            obstacle(vec![solid([4.0, 0.5, -1.0], [6.0, 2.0, 0.1])]),
            obstacle(vec![solid([-3.0, -1.0, 0.9], [12.0, 1.0, 1.2])]),
            obstacle(vec![
                solid([9.0, -0.2, -0.9], [10.0, 0.2, -0.7]),
                solid([9.0, -0.2, -4.0], [10.0, 0.2, -3.0]),
            ]),
        ];
        for it in &all {
            let near = check_obstacle(&run(), 0, it, 0.5).expect("it is near");
            assert_eq!(near.reaches, reaches(&run(), it));
        }
        let named: Vec<usize> = reaches_of_all(&run(), &Obstacles::new(all))
            .into_iter()
            .map(|(position, _)| position)
            .collect();
        assert_eq!(named, [0, 1, 2]);
    }
}
