//! How long clearance takes: 1,000 boxes (250 runs) against 5,000 prisms.
//!
//! Answers three questions: is the full check quick enough to run on every change, is
//! one moved run quick enough to drag, and what does exactness in six directions cost
//! beside the bare convex queries of the geometry library for the same pairs?
//!
//! `cargo bench --bench clearance`. Wall time, one thread. A check of everything is the
//! sum of the medians of its runs, so that other work on the machine, which interrupts
//! every few milliseconds, does not count.

#![expect(clippy::print_stdout, reason = "a bench prints what it measured")]

use parry3d_f64::bounding_volume::Aabb;
use parry3d_f64::math::Pose;
use parry3d_f64::partitioning::{Bvh, BvhBuildStrategy};
use parry3d_f64::query::contact;
use parry3d_f64::shape::{ConvexPolyhedron, Cuboid, Shape};
use rafterglow::clearance::{
    BurnerBox, CheckedRun, Class, ExhaustBox, Form, Measured, Obstacle, Obstacles, Required,
    RunBodies, RunFigures, Side, bodies, check_obstacle, check_run,
};
use rafterglow::geometry::math::sin_cos_degrees;
use rafterglow::geometry::{ConvexSolid, DVec2, DVec3, Elevation, Frame};
use std::hint::black_box;
use std::time::{Duration, Instant};

const N_RUNS: u32 = 250;
const N_PRISMS: u32 = 5_000;
const MARGIN_M: f64 = 1.0;
const HALL_M: (f64, f64) = (300.0, 200.0);

fn main() {
    let mut random = fastrand::Rng::with_seed(5);
    let runs: Vec<CheckedRun> = (0..N_RUNS).map(|k| run(&mut random, k)).collect();
    let obstacles: Vec<Obstacle> = (0..N_PRISMS).map(|_| prism(&mut random)).collect();
    let n_boxes: usize = runs.iter().map(|run| run.bodies.bodies.len()).sum();
    println!("{n_boxes} boxes of {N_RUNS} runs, {N_PRISMS} prisms, margin {MARGIN_M} m");

    let index = Obstacles::new(obstacles.clone());
    let found: Vec<Vec<Measured>> = runs
        .iter()
        .map(|run| check_run(run, &index, MARGIN_M))
        .collect();
    let n_measured: usize = found.iter().map(Vec::len).sum();
    let n_inside = found.iter().flatten().filter(|m| m.is_breach()).count();

    let build = quickest(30, || {
        // Copying the obstacles and letting them go is no part of indexing them.
        let copy = obstacles.clone();
        let start = Instant::now();
        let built = black_box(Obstacles::new(copy));
        let time = start.elapsed();
        drop(built);
        time
    });
    let one_run: Vec<Duration> = runs
        .iter()
        .map(|run| median(9, || timed(|| check_run(run, &index, MARGIN_M))))
        .collect();
    let full: Duration = one_run.iter().sum();
    let worst = one_run.iter().max().copied().unwrap_or_default();
    let all_pairs: Duration = runs
        .iter()
        .map(|run| {
            let check = || -> Vec<Measured> {
                let each = obstacles.iter().enumerate();
                each.filter_map(|(k, obstacle)| check_obstacle(run, k, obstacle, MARGIN_M))
                    .collect()
            };
            median(5, || timed(check))
        })
        .sum();
    let bare = Bare::new(&runs, &obstacles);
    let bare_build = quickest(30, || timed(|| bare.tree()));
    let tree = bare.tree();
    let each_run = bare.boxes.chunks(n_boxes / runs.len());
    let n_pairs: usize = each_run.clone().map(|boxes| bare.query(&tree, boxes)).sum();
    let bare_full: Duration = each_run
        .map(|boxes| median(9, || timed(|| bare.query(&tree, boxes))))
        .sum();

    println!("measured {n_measured} pairs of run and obstacle, {n_inside} inside an envelope");
    println!("index built            {}", ms(build));
    println!("full check             {}", ms(full));
    println!("one run moved, mean    {}", ms(full / N_RUNS));
    println!("one run moved, worst   {}", ms(worst));
    println!(
        "plain loop, all pairs  {}  ({:.0} times the full check)",
        ms(all_pairs),
        ratio(all_pairs, full)
    );
    println!("library's tree built   {}", ms(bare_build));
    println!(
        "library's queries      {}  for {n_pairs} pairs of box and prism",
        ms(bare_full)
    );
    println!("full check / queries   {:8.2}", ratio(full, bare_full));
}

/// A hairpin (four boxes) somewhere in its part of the hall, bearing anywhere.
fn run(random: &mut fastrand::Rng, k: u32) -> CheckedRun {
    let at = |k: u32, step: f64| step * (0.5 + f64::from(k));
    let figures = RunFigures {
        leg_length_m: 6.0 + 6.0 * random.f64(),
        form: Form::Hairpin {
            leg_spacing_m: 0.45,
            bend_length_m: 0.3,
            return_leg: Side::Left,
        },
        tube_diameter_m: 0.1,
        reflector: [(-0.6, -0.06), (-0.4, 0.14), (0.4, 0.14), (0.6, -0.06)]
            .map(DVec2::from)
            .to_vec(),
        tilt_degrees: 60.0 * random.f64() - 30.0,
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
    };
    let origin = DVec3::new(at(k % 25, 12.0), at(k / 25, 20.0), 4.5 + 2.0 * random.f64());
    CheckedRun {
        bodies: RunBodies {
            frame: Frame::sloped(origin, 360.0 * random.f64(), 0.004),
            bodies: bodies(&figures),
        },
        required: vec![Some(Required {
            above_m: 0.25,
            below_m: 1.7,
            left_m: 1.2,
            right_m: 0.9,
            near_end_m: 0.75,
            far_end_m: 0.8,
        })],
    }
}

/// Racks, ducts, vehicles: turned boxes, one in four with a sloped top.
fn prism(random: &mut fastrand::Rng) -> Obstacle {
    let centre = DVec2::new(HALL_M.0 * random.f64(), HALL_M.1 * random.f64());
    let (sin, cos) = sin_cos_degrees(360.0 * random.f64());
    let half = DVec2::new(0.3 + 1.5 * random.f64(), 0.2 + 0.8 * random.f64());
    let ring = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(|(x, y)| {
        let p = DVec2::new(x, y) * half;
        centre + DVec2::new(cos * p.x - sin * p.y, sin * p.x + cos * p.y)
    });
    let bottom = 7.0 * random.f64();
    let gradient = DVec2::splat(if random.u32(0..4) == 0 { 0.1 } else { 0.0 });
    let top = Elevation {
        base_m: bottom + 0.4 + 1.5 * random.f64() - gradient.dot(centre),
        gradient,
    };
    Obstacle {
        pieces: ConvexSolid::prism(&ring, Elevation::level(bottom), top)
            .into_iter()
            .collect(),
        class: Class(0),
    }
}

/// The geometry library alone: its tree finds the pairs, its contact query measures
/// them, one signed distance a pair.
struct Bare {
    boxes: Vec<(Pose, Cuboid)>,
    prisms: Vec<(Pose, ConvexPolyhedron)>,
}

impl Bare {
    fn new(runs: &[CheckedRun], obstacles: &[Obstacle]) -> Self {
        let mut boxes = Vec::new();
        for run in runs {
            let frame = run.bodies.frame;
            let axes = glam::DMat3::from_cols(frame.along, frame.left, frame.up);
            for required in run.required.iter().flatten() {
                for envelope in run.bodies.envelope(required) {
                    let centre = frame.site_from_local(envelope.centre());
                    let pose = Pose::from_parts(centre, glam::DQuat::from_mat3(&axes));
                    boxes.push((pose, Cuboid::new(envelope.half_size())));
                }
            }
        }
        let prisms = obstacles.iter().flat_map(|obstacle| &obstacle.pieces);
        let prisms = prisms.filter_map(|piece| {
            let centre = piece.bounds().centre();
            let points: Vec<DVec3> = piece.vertices().iter().map(|v| *v - centre).collect();
            let hull = ConvexPolyhedron::from_convex_hull(&points)?;
            Some((Pose::from_translation(centre), hull))
        });
        Self {
            boxes,
            prisms: prisms.collect(),
        }
    }

    fn tree(&self) -> Bvh {
        let bounds = |(pose, hull): &(Pose, ConvexPolyhedron)| hull.compute_aabb(pose);
        let bounds: Vec<Aabb> = self.prisms.iter().map(bounds).collect();
        Bvh::from_leaves(BvhBuildStrategy::Binned, &bounds)
    }

    /// The number of pairs within the margin.
    fn query(&self, tree: &Bvh, boxes: &[(Pose, Cuboid)]) -> usize {
        let mut n_near = 0;
        for (pose, cuboid) in boxes {
            let bounds = cuboid.compute_aabb(pose);
            let wanted = Aabb::new(bounds.mins - MARGIN_M, bounds.maxs + MARGIN_M);
            for leaf in tree.intersect_aabb(&wanted) {
                let (other_pose, hull) = &self.prisms[leaf as usize];
                let found = contact(pose, cuboid, other_pose, hull, MARGIN_M);
                n_near += usize::from(found.is_ok_and(|contact| contact.is_some()));
            }
        }
        n_near
    }
}

fn timed<T>(work: impl Fn() -> T) -> Duration {
    let start = Instant::now();
    black_box(work());
    start.elapsed()
}

fn median(n: usize, mut sample: impl FnMut() -> Duration) -> Duration {
    let mut times: Vec<Duration> = (0..n).map(|_| sample()).collect();
    times.sort();
    times[n / 2]
}

fn quickest(n: usize, sample: impl FnMut() -> Duration) -> Duration {
    std::iter::repeat_with(sample)
        .take(n)
        .min()
        .unwrap_or_default()
}

fn ms(time: Duration) -> String {
    format!("{:8.3} ms", time.as_secs_f64() * 1e3)
}

fn ratio(one: Duration, other: Duration) -> f64 {
    one.as_secs_f64() / other.as_secs_f64()
}
