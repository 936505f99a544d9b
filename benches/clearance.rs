//! How long clearance takes: 1,000 boxes (250 runs) against 5,000 prisms.
//!
//! Answers three questions: is the full check quick enough to run on every change, is
//! one moved run quick enough to drag, and what does exactness in six directions cost
//! beside the bare convex queries of the geometry library for the same pairs?
//!
//! The library is asked for one signed distance a pair, first as it would be used, its
//! tree finding the pairs, then with the pairs known beforehand. Both must find the same
//! pairs and the same distances as the check, or the bench stops.
//!
//! `cargo bench --bench clearance`. Wall time, one thread. A check of everything is the
//! sum of the medians of its runs, so that other work on the machine, which interrupts
//! every few milliseconds, does not count.

#![expect(clippy::print_stdout, reason = "a bench prints what it measured")]

#[path = "../tests/suite/clearance_support.rs"]
mod clearance_support;
mod support;

use clearance_support::{Drawn, figures, only};
use parry3d_f64::bounding_volume::Aabb;
use parry3d_f64::math::Pose;
use parry3d_f64::partitioning::{Bvh, BvhBuildStrategy};
use parry3d_f64::query::contact;
use parry3d_f64::shape::{ConvexPolyhedron, Cuboid, Shape};
use rafterglow::clearance::{
    CheckedRun, Form, Measured, Obstacle, Obstacles, Required, RunBodies, RunFigures, Side, bodies,
    check_obstacle, check_run,
};
use rafterglow::geometry::math::sin_cos_degrees;
use rafterglow::geometry::{DVec2, DVec3, Elevation, Frame, Polygon};
use std::hint::black_box;
use support::{median, median_ms, timed_ms};

const N_RUNS: u32 = 250;
const N_PRISMS: u32 = 5_000;
const MARGIN_M: f64 = 1.0;
const HALL_M: (f64, f64) = (300.0, 200.0);

/// Distances of the library's and ours may differ by so much, m.
const SAME_M: f64 = 1e-6;

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

    let build = median(31, || {
        // Copying the obstacles and letting them go is no part of indexing them.
        let copy = obstacles.clone();
        let mut built = None;
        timed_ms(|| built = Some(black_box(Obstacles::new(copy))))
    });
    let one_run: Vec<f64> = runs
        .iter()
        .map(|run| {
            median_ms(9, || {
                black_box(check_run(run, &index, MARGIN_M));
            })
        })
        .collect();
    let full: f64 = one_run.iter().sum();
    let worst = one_run.iter().copied().fold(0.0, f64::max);
    let plain_loop: f64 = runs
        .iter()
        .map(|run| {
            median_ms(5, || {
                for (k, obstacle) in obstacles.iter().enumerate() {
                    black_box(check_obstacle(run, k, obstacle, MARGIN_M));
                }
            })
        })
        .sum();

    let bare = Bare::new(&runs, &obstacles);
    let tree = bare.tree();
    let bare_build = median_ms(31, || {
        black_box(bare.tree());
    });
    let boxes_of = |run: usize| run * n_boxes / runs.len()..(run + 1) * n_boxes / runs.len();
    let pairs_of: Vec<Vec<Distance>> = (0..runs.len())
        .map(|run| bare.near(&tree, boxes_of(run)))
        .collect();
    let n_pairs = same_pairs(&runs, &index, &pairs_of);
    let bare_full: f64 = (0..runs.len())
        .map(|run| {
            median_ms(9, || {
                black_box(bare.near(&tree, boxes_of(run)));
            })
        })
        .sum();
    let bare_pairs: f64 = pairs_of
        .iter()
        .map(|pairs| {
            median_ms(9, || {
                for pair in pairs {
                    black_box(bare.distance(pair.of_box, pair.of_prism));
                }
            })
        })
        .sum();

    println!("measured {n_measured} pairs of run and obstacle, {n_inside} inside an envelope");
    println!("that is {n_pairs} pairs of box and prism, the same that the library finds");
    println!("index built              {build:8.3} ms");
    println!("full check               {full:8.3} ms");
    println!(
        "one run moved, mean      {:8.3} ms",
        full / f64::from(N_RUNS)
    );
    println!("one run moved, worst     {worst:8.3} ms");
    println!("plain loop, all pairs    {plain_loop:8.3} ms");
    println!("  that by the full check {:8.1}", plain_loop / full);
    println!("library's tree built     {bare_build:8.3} ms");
    println!("library's tree, queries  {bare_full:8.3} ms");
    println!("  full check by that     {:8.2}", full / bare_full);
    println!("library's queries alone  {bare_pairs:8.3} ms, pairs known");
    println!("  full check by that     {:8.2}", full / bare_pairs);
}

/// Stops where the check and the library differ in which boxes and prisms are near each
/// other, or in a distance; the number of pairs.
fn same_pairs(runs: &[CheckedRun], index: &Obstacles, pairs_of: &[Vec<Distance>]) -> usize {
    let mut n_pairs = 0;
    let mut first_box = 0;
    for (run, pairs) in runs.iter().zip(pairs_of) {
        let boxes = run.bodies.bodies.iter().enumerate();
        let mut ours: Vec<Distance> = boxes
            .flat_map(|(k, body)| {
                let found = check_run(&only(run, *body), index, MARGIN_M);
                found.into_iter().map(move |measured| Distance {
                    of_box: first_box + k,
                    of_prism: measured.obstacle,
                    separation_m: measured.separation_m,
                })
            })
            .collect();
        let mut theirs = pairs.clone();
        for list in [&mut ours, &mut theirs] {
            list.sort_by_key(|pair| (pair.of_box, pair.of_prism));
        }
        assert_eq!(ours.len(), theirs.len(), "pairs of box and prism");
        for (one, other) in ours.iter().zip(&theirs) {
            assert!(one.is_same(other), "{one:?} {other:?}");
        }
        n_pairs += ours.len();
        first_box += run.bodies.bodies.len();
    }
    n_pairs
}

/// A hairpin (four boxes) somewhere in its part of the hall, bearing anywhere.
fn run(random: &mut fastrand::Rng, k: u32) -> CheckedRun {
    let at = |k: u32, step: f64| step * (0.5 + f64::from(k));
    let form = Form::Hairpin {
        leg_spacing_m: 0.45,
        bend_length_m: 0.3,
        return_leg: Side::Left,
    };
    let figures = RunFigures {
        leg_length_m: 6.0 + 6.0 * random.f64(),
        tilt_degrees: 60.0 * random.f64() - 30.0,
        ..figures(form, 0.6)
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
    let drawn = Drawn {
        polygon: Polygon::new(ring.to_vec()),
        bottom: Elevation::level(bottom),
        top,
    };
    drawn.obstacle()
}

/// A box and a prism, and how far apart the library has them.
#[derive(Debug, Clone, Copy)]
struct Distance {
    of_box: usize,
    of_prism: usize,
    separation_m: f64,
}

impl Distance {
    fn is_same(&self, other: &Self) -> bool {
        (self.of_box, self.of_prism) == (other.of_box, other.of_prism)
            && (self.separation_m - other.separation_m).abs() <= SAME_M
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

    /// The signed distance; none beyond the margin.
    fn distance(&self, of_box: usize, of_prism: usize) -> Option<f64> {
        let ((pose, cuboid), (other_pose, hull)) = (&self.boxes[of_box], &self.prisms[of_prism]);
        let found = contact(pose, cuboid, other_pose, hull, MARGIN_M).ok()??;
        Some(found.dist)
    }

    /// The pairs within the margin of some of the boxes.
    fn near(&self, tree: &Bvh, boxes: std::ops::Range<usize>) -> Vec<Distance> {
        let mut near = Vec::new();
        for of_box in boxes {
            let (pose, cuboid) = &self.boxes[of_box];
            let bounds = cuboid.compute_aabb(pose);
            let wanted = Aabb::new(bounds.mins - MARGIN_M, bounds.maxs + MARGIN_M);
            for leaf in tree.intersect_aabb(&wanted) {
                let of_prism = leaf as usize;
                if let Some(separation_m) = self.distance(of_box, of_prism) {
                    near.push(Distance {
                        of_box,
                        of_prism,
                        separation_m,
                    });
                }
            }
        }
        near
    }
}
