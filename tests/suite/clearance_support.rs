//! Random runs and obstacles for the clearance tests, described by plain figures so
//! that a whole scene can be moved, turned and mirrored before it is built.
#![allow(
    dead_code,
    clippy::allow_attributes,
    reason = "shared by tests and a bench, each of which uses a part"
)]

use fastrand::Rng;
use rafterglow::clearance::{
    Body, BurnerBox, CheckedRun, Class, ExhaustBox, Form, KeepClear, KeepClearRow, Obstacle,
    RowShields, RunBodies, RunFigures, Shields, Side, bodies, keep_clear,
};
use rafterglow::geometry::math::sin_cos_degrees;
use rafterglow::geometry::{ConvexSolid, DVec2, DVec3, Elevation, Frame, Polygon};

/// How many cases to try: a tenth in the ordinary run, all behind `RAFTERGLOW_FULL=1`.
pub(crate) fn n_cases(all: usize) -> usize {
    if std::env::var_os("RAFTERGLOW_FULL").is_some_and(|value| value == "1") {
        all
    } else {
        all.div_ceil(10)
    }
}

pub(crate) fn between(random: &mut Rng, low: f64, high: f64) -> f64 {
    low + (high - low) * random.f64()
}

/// A run as placed.
#[derive(Debug, Clone)]
pub(crate) struct Placed {
    pub(crate) origin: DVec3,
    pub(crate) bearing_degrees: f64,
    pub(crate) slope: f64,
    pub(crate) figures: RunFigures,
    pub(crate) shields: Shields,
}

/// An obstacle as drawn.
#[derive(Debug, Clone)]
pub(crate) struct Drawn {
    pub(crate) polygon: Polygon,
    pub(crate) bottom: Elevation,
    pub(crate) top: Elevation,
}

/// Tilt bands 0 to 20 and 20 to 45 degrees, each with no shield and one on either side.
pub(crate) fn table() -> Vec<KeepClearRow> {
    let mut rows = Vec::new();
    for (k, shields) in [RowShields::None, RowShields::Front, RowShields::Rear]
        .into_iter()
        .enumerate()
    {
        for (band, (from, to)) in [(0.0, 20.0), (20.0, 45.0)].into_iter().enumerate() {
            let wider = 0.3 * band as f64;
            rows.push(KeepClearRow {
                tilt_from_degrees: from,
                tilt_to_degrees: to,
                shields,
                distances: KeepClear {
                    above_m: 0.25,
                    below_m: 1.6 + 0.1 * k as f64,
                    front_m: if k == 1 { 0.8 } else { 1.1 } + wider,
                    rear_m: if k == 2 { 0.5 } else { 0.9 } - wider,
                    burner_end_m: 0.6,
                    exhaust_end_m: 0.75,
                },
            });
        }
    }
    rows
}

pub(crate) fn random_run(random: &mut Rng) -> Placed {
    let form = if random.u32(0..3) == 0 {
        Form::Hairpin {
            leg_spacing_m: between(random, 0.3, 0.6),
            bend_length_m: between(random, 0.2, 0.4),
            return_leg: if random.bool() {
                Side::Left
            } else {
                Side::Right
            },
        }
    } else {
        Form::Straight
    };
    let half = between(random, 0.2, 0.45);
    Placed {
        origin: DVec3::new(
            between(random, -20.0, 20.0),
            between(random, -20.0, 20.0),
            between(random, 3.5, 6.0),
        ),
        bearing_degrees: match random.u32(0..4) {
            0 => 90.0 * f64::from(random.u32(0..4)),
            _ => between(random, 0.0, 360.0),
        },
        slope: match random.u32(0..3) {
            0 => 0.0,
            1 => 0.004,
            _ => between(random, -0.2, 0.2),
        },
        figures: RunFigures {
            leg_length_m: between(random, 3.0, 18.0),
            tilt_degrees: if random.bool() {
                0.0
            } else {
                between(random, -45.0, 45.0)
            },
            ..figures(form, half)
        },
        shields: [Shields::None, Shields::Left, Shields::Right][random.usize(0..3)],
    }
}

/// An untilted run with legs of 6 m and a reflector that reaches `half_m` to either side.
pub(crate) fn figures(form: Form, half_m: f64) -> RunFigures {
    RunFigures {
        leg_length_m: 6.0,
        form,
        tube_diameter_m: 0.1,
        reflector: [
            (-half_m, -0.06),
            (-0.6 * half_m, 0.14),
            (0.6 * half_m, 0.14),
            (half_m, -0.06),
        ]
        .map(DVec2::from)
        .to_vec(),
        tilt_degrees: 0.0,
        burner: BurnerBox {
            length_m: 0.55,
            width_m: 0.36,
            above_axis_m: 0.24,
            below_axis_m: 0.18,
        },
        exhaust: ExhaustBox {
            length_m: 0.2,
            diameter_m: 0.14,
        },
    }
}

/// An obstacle somewhere round a run: about a third overlap its envelope.
pub(crate) fn random_obstacle(random: &mut Rng, run: &Placed) -> Drawn {
    let frame = run.frame();
    let near = frame.site_from_local(DVec3::new(
        between(random, -2.0, run.figures.leg_length_m + 2.0),
        between(random, -3.5, 3.5),
        0.0,
    ));
    let size = between(random, 0.3, 3.0);
    let polygon = random_polygon(random, size).translated(near.truncate());
    let tilted = |random: &mut Rng, z: f64| {
        let gradient = if random.u32(0..3) == 0 {
            DVec2::new(between(random, -0.3, 0.3), between(random, -0.3, 0.3))
        } else {
            DVec2::ZERO
        };
        Elevation {
            base_m: z - gradient.dot(near.truncate()),
            gradient,
        }
    };
    let z = near.z + between(random, -3.5, 1.5);
    let height = between(random, 0.1, 2.5);
    Drawn {
        bottom: tilted(random, z),
        top: tilted(random, z + height),
        polygon,
    }
}

fn random_polygon(random: &mut Rng, size: f64) -> Polygon {
    loop {
        let turn = between(random, 0.0, 360.0);
        let place = |x: f64, y: f64| {
            let (sin, cos) = sin_cos_degrees(turn);
            DVec2::new(cos * x - sin * y, sin * x + cos * y) * size
        };
        let polygon = match random.u32(0..4) {
            0 => Polygon::rectangle(DVec2::splat(-size), DVec2::new(size, 0.4 * size)),
            1 => Polygon::new(
                [(-1.0, -0.6), (1.0, -0.6), (1.0, 0.6), (-1.0, 0.6)]
                    .map(|(x, y)| place(x, y))
                    .to_vec(),
            ),
            2 => Polygon {
                outline: [
                    (-1.0, -1.0),
                    (1.0, -1.0),
                    (1.0, 0.0),
                    (0.3, 0.1),
                    (0.2, 1.0),
                    (-1.0, 1.0),
                ]
                .map(|(x, y)| place(x, y))
                .to_vec(),
                holes: vec![
                    [(-0.7, -0.7), (0.1, -0.7), (-0.7, 0.4)]
                        .map(|(x, y)| place(x, y))
                        .to_vec(),
                ],
            },
            _ => {
                let n = random.u32(3..12);
                let corners = (0..n).map(|k| {
                    let (sin, cos) = sin_cos_degrees(360.0 * f64::from(k) / f64::from(n));
                    let reach = size * between(random, 0.3, 1.0);
                    DVec2::new(cos, sin) * reach
                });
                Polygon::new(corners.collect())
            }
        };
        if polygon.check().is_ok() {
            return polygon;
        }
    }
}

/// A run of one of its bodies.
pub(crate) fn only(run: &CheckedRun, body: Body) -> CheckedRun {
    CheckedRun {
        bodies: RunBodies {
            frame: run.bodies.frame,
            bodies: vec![body],
        },
        required: run.required.clone(),
    }
}

impl Placed {
    pub(crate) fn frame(&self) -> Frame {
        Frame::sloped(self.origin, self.bearing_degrees, self.slope)
    }

    /// The run with its table's distances for class 0.
    pub(crate) fn checked(&self) -> CheckedRun {
        let tilt_degrees = self.figures.tilt_degrees;
        let distances = keep_clear(&table(), tilt_degrees, self.shields);
        CheckedRun {
            bodies: RunBodies {
                frame: self.frame(),
                bodies: bodies(&self.figures),
            },
            required: vec![distances.map(|distances| {
                distances
                    .required(tilt_degrees, &self.figures.form)
                    .with_hot_movement(0.03)
            })],
        }
    }
}

impl Drawn {
    pub(crate) fn obstacle(&self) -> Obstacle {
        Obstacle {
            pieces: ConvexSolid::prisms(&self.polygon, self.bottom, self.top),
            class: Class(0),
        }
    }

    /// Whether a point is in it: above the bottom, below the top, an odd number of
    /// edges crossed on the way out. `grown_m` makes it larger.
    pub(crate) fn contains(&self, p: DVec3, grown_m: f64) -> bool {
        let plan = p.truncate();
        let in_height = self.bottom.at(plan) - grown_m <= p.z && p.z <= self.top.at(plan) + grown_m;
        in_height
            && (self.polygon.contains(plan) || self.polygon.distance_to_boundary(plan) <= grown_m)
    }
}
