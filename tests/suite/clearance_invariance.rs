//! Moving, turning and mirroring a whole scene changes no measure.

use crate::clearance_support::{Drawn, Placed, between, n_cases, random_obstacle, random_run};
use rafterglow::clearance::{
    CheckedRun, Class, Direction, Form, Measured, Obstacle, Obstacles, Required, RunBodies,
    Shields, Side, StackingGround, check_obstacle, check_run,
};
use rafterglow::geometry::math::sin_cos_degrees;
use rafterglow::geometry::{DVec2, DVec3, Elevation, Polygon};
use rafterglow::units::Length;

const MARGIN_M: f64 = 1.0;
const SAME_M: f64 = 1e-6;

/// Mirrored left for right or not, then turned counter-clockwise, then shifted.
#[derive(Debug, Clone, Copy)]
struct Motion {
    is_mirrored: bool,
    turn_degrees: f64,
    shift: DVec3,
}

impl Motion {
    fn direction(&self, v: DVec2) -> DVec2 {
        let v = if self.is_mirrored {
            DVec2::new(-v.x, v.y)
        } else {
            v
        };
        let (sin, cos) = sin_cos_degrees(self.turn_degrees);
        DVec2::new(cos * v.x - sin * v.y, sin * v.x + cos * v.y)
    }

    fn point(&self, p: DVec3) -> DVec3 {
        self.direction(p.truncate()).extend(p.z) + self.shift
    }

    fn elevation(&self, plane: Elevation) -> Elevation {
        let gradient = self.direction(plane.gradient);
        Elevation {
            base_m: plane.base_m - gradient.dot(self.shift.truncate()) + self.shift.z,
            gradient,
        }
    }

    fn run(&self, run: &Placed) -> Placed {
        let mut moved = run.clone();
        moved.origin = self.point(run.origin);
        if self.is_mirrored {
            moved.bearing_degrees = -run.bearing_degrees;
            moved.figures.tilt_degrees = -run.figures.tilt_degrees;
            for p in &mut moved.figures.reflector {
                p.x = -p.x;
            }
            if let Form::Hairpin { return_leg, .. } = &mut moved.figures.form {
                *return_leg = match return_leg {
                    Side::Left => Side::Right,
                    Side::Right => Side::Left,
                };
            }
            moved.shields = match run.shields {
                Shields::Left => Shields::Right,
                Shields::Right => Shields::Left,
                same => same,
            };
        }
        moved.bearing_degrees -= self.turn_degrees;
        moved
    }

    fn drawn(&self, drawn: &Drawn) -> Drawn {
        let ring = |ring: &Vec<DVec2>| {
            ring.iter()
                .map(|&p| self.direction(p) + self.shift.truncate())
                .collect()
        };
        Drawn {
            polygon: Polygon {
                outline: ring(&drawn.polygon.outline),
                holes: drawn.polygon.holes.iter().map(ring).collect(),
            },
            bottom: self.elevation(drawn.bottom),
            top: self.elevation(drawn.top),
        }
    }

    fn named(&self, direction: Direction) -> Direction {
        match direction {
            Direction::Left | Direction::Right if self.is_mirrored => direction.opposite(),
            same => same,
        }
    }

    fn check(&self, before: &Measured, after: &Measured) {
        let same = |a: f64, b: f64| (a - b).abs() < SAME_M;
        assert_eq!(before.obstacle, after.obstacle);
        assert!(
            same(before.separation_m, after.separation_m),
            "{self:?}\n{before:?}\n{after:?}"
        );
        assert_eq!(before.is_breach(), after.is_breach());
        assert_eq!(
            before.governing.map(|direction| self.named(direction)),
            after.governing,
            "{self:?}\n{before:?}\n{after:?}"
        );
        assert!(
            self.point(before.place).abs_diff_eq(after.place, SAME_M),
            "{self:?}\n{before:?}\n{after:?}"
        );
        for direction in Direction::ALL {
            let other = self.named(direction);
            let moves = (
                before.moves_m[direction.index()],
                after.moves_m[other.index()],
            );
            assert!(same(moves.0, moves.1), "{self:?}\n{before:?}\n{after:?}");
            let reaches = (
                before.reaches[direction.index()],
                after.reaches[other.index()],
            );
            match reaches {
                (Some(one), Some(two)) => assert!(
                    same(one.available_m, two.available_m)
                        && same(one.required_m, two.required_m)
                        && one.part == two.part
                        && self.point(one.place).abs_diff_eq(two.place, SAME_M),
                    "{self:?}\n{one:?}\n{two:?}"
                ),
                (None, None) => {}
                _ => panic!("{self:?}\n{before:?}\n{after:?}"),
            }
        }
    }
}

fn random_motion(random: &mut fastrand::Rng) -> Motion {
    let shift = [0.0, 1_000.0, -7_000.0][random.usize(0..3)];
    Motion {
        is_mirrored: random.bool(),
        turn_degrees: [0.0, 90.0, between(random, 0.0, 360.0)][random.usize(0..3)],
        shift: DVec3::new(shift, between(random, -1e3, 1e3), between(random, 0.0, 9.0)),
    }
}

fn indexed(drawn: &[Drawn]) -> Obstacles {
    Obstacles::new(drawn.iter().map(Drawn::obstacle).collect())
}

#[test]
fn moving_turning_and_mirroring_a_scene_changes_no_measure() {
    let mut random = fastrand::Rng::with_seed(31);
    let mut n_measured = 0;
    for _ in 0..n_cases(300) {
        let run = random_run(&mut random);
        let drawn: Vec<Drawn> = (0..6).map(|_| random_obstacle(&mut random, &run)).collect();
        let motion = random_motion(&mut random);
        let moved: Vec<Drawn> = drawn.iter().map(|d| motion.drawn(d)).collect();
        let before = check_run(&run.checked(), &indexed(&drawn), MARGIN_M);
        let after = check_run(&motion.run(&run).checked(), &indexed(&moved), MARGIN_M);
        assert_eq!(before.len(), after.len());
        n_measured += before.len();
        for (one, two) in before.iter().zip(&after) {
            motion.check(one, two);
        }
    }
    assert!(n_cases(300) < n_measured);
}

/// How deep two runs reach into each other, and where; none where they don't.
fn crossing(one: &RunBodies, other: &RunBodies) -> Option<(f64, DVec3)> {
    let touching = CheckedRun {
        bodies: one.clone(),
        required: vec![Some(Required::all_round(0.0))],
    };
    check_obstacle(&touching, 0, &Obstacle::from_run(other, Class(0)), 0.0)
        .filter(Measured::is_breach)
        .map(|measured| (-measured.separation_m, measured.place))
}

#[test]
fn runs_to_each_other_and_stacking_heights_move_along() {
    let mut random = fastrand::Rng::with_seed(32);
    let mut n_crossing = 0;
    for _ in 0..n_cases(1_000) {
        let (one, mut two) = (random_run(&mut random), random_run(&mut random));
        two.origin = one.origin + DVec3::new(between(&mut random, -5.0, 5.0), 1.0, 0.1);
        let motion = random_motion(&mut random);
        let moved = (motion.run(&one).checked(), motion.run(&two).checked());
        let (one, two) = (one.checked(), two.checked());
        let before = crossing(&one.bodies, &two.bodies);
        let after = crossing(&moved.0.bodies, &moved.1.bodies);
        match (before, after) {
            (Some(before), Some(after)) => {
                n_crossing += 1;
                assert!((before.0 - after.0).abs() < SAME_M);
                assert!(motion.point(before.1).abs_diff_eq(after.1, SAME_M));
            }
            (None, None) => {}
            _ => panic!("{before:?} {after:?}"),
        }
        let ground = |surface_m: f64| StackingGround {
            surface_m,
            level_error_m: 0.01,
            step: Length::metres(0.1),
        };
        let height = |bodies: &RunBodies, surface_m: f64| {
            let required = one.required[0].expect("the tilt is in the table");
            bodies.stacking(&required, &ground(surface_m)).height_m
        };
        let heights = (
            height(&one.bodies, 0.3),
            height(&moved.0.bodies, 0.3 + motion.shift.z),
        );
        assert!((heights.0 - heights.1).abs() < SAME_M);
    }
    assert!(n_cases(1_000) / 10 < n_crossing, "{n_crossing}");
}

/// The index leaves nothing out and adds nothing.
#[test]
fn asking_the_index_is_asking_every_obstacle() {
    let mut random = fastrand::Rng::with_seed(33);
    for _ in 0..n_cases(100) {
        let runs: Vec<Placed> = (0..5).map(|_| random_run(&mut random)).collect();
        let drawn: Vec<Drawn> = runs
            .iter()
            .flat_map(|run| {
                (0..8)
                    .map(|_| random_obstacle(&mut random, run))
                    .collect::<Vec<_>>()
            })
            .collect();
        let obstacles = indexed(&drawn);
        for run in &runs {
            let checked = run.checked();
            let each: Vec<Measured> = obstacles
                .all()
                .iter()
                .enumerate()
                .filter_map(|(k, obstacle)| check_obstacle(&checked, k, obstacle, MARGIN_M))
                .collect();
            assert_eq!(check_run(&checked, &obstacles, MARGIN_M), each);
        }
    }
}
