//! Signed distances of envelopes from obstacles, against an oracle of the tests' own.

use crate::clearance_oracle::{Skin, signed_distance, signed_distance_of_pieces};
use crate::clearance_support::{
    Drawn, Placed, between, n_cases, only, random_obstacle, random_run,
};
use rafterglow::clearance::{Class, Form, Obstacle, check_obstacle};
use rafterglow::geometry::distance::separation;
use rafterglow::geometry::pieces::cut_by_line;
use rafterglow::geometry::{Bounds, ConvexSolid, DVec2, DVec3, Frame, Polygon, math};
use std::collections::BTreeMap;

/// Farther than any of the random pairs are apart.
const FAR_M: f64 = 100.0;

/// The prism over a ring, which ends where its top meets its bottom.
fn clipped_prism(ring: &[DVec2], drawn: &Drawn) -> Option<Skin> {
    let height = |p: DVec2| drawn.top.at(p) - drawn.bottom.at(p);
    let mut kept = Vec::new();
    for k in 0..ring.len() {
        let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
        if height(a) >= 0.0 {
            kept.push(a);
        }
        if (height(a) >= 0.0) != (height(b) >= 0.0) {
            kept.push(a + (b - a) * (height(a) / (height(a) - height(b))));
        }
    }
    (3 <= kept.len()).then(|| Skin::prism(&kept, |p| drawn.bottom.at(p), |p| drawn.top.at(p)))
}

/// What a pair has of what makes distances hard.
fn traits(run: &Placed, drawn: &Drawn) -> Vec<&'static str> {
    let has = [
        ("sloped run", run.slope != 0.0),
        ("tilted", run.figures.tilt_degrees != 0.0),
        ("hairpin", matches!(run.figures.form, Form::Hairpin { .. })),
        (
            "concave or with a hole",
            1 < drawn.polygon.convex_pieces().len(),
        ),
        ("with a hole", !drawn.polygon.holes.is_empty()),
        ("sloped top", drawn.top.gradient != DVec2::ZERO),
        ("sloped bottom", drawn.bottom.gradient != DVec2::ZERO),
    ];
    let present = has.into_iter().filter(|(_, is_so)| *is_so);
    present.map(|(name, _)| name).collect()
}

/// Every envelope against every convex piece, then against all pieces of the obstacle.
#[test]
fn signed_distances_agree_with_the_oracle() {
    let mut random = fastrand::Rng::with_seed(11);
    let mut n_pairs = 0;
    let mut counts: BTreeMap<&str, [usize; 2]> = BTreeMap::new();
    let n = n_cases(1_500);
    for case in 0..n {
        let run = random_run(&mut random);
        let drawn = random_obstacle(&mut random, &run);
        let checked = run.checked();
        let required = checked.required[0].expect("the tilt is in the table");
        let solids = drawn.obstacle().pieces;
        let rings = drawn.polygon.convex_pieces();
        let skins: Vec<Skin> = rings
            .iter()
            .filter_map(|ring| clipped_prism(ring, &drawn))
            .collect();
        let mut least = f64::INFINITY;
        for body in &checked.bodies.bodies {
            let one = only(&checked, *body);
            let skin = Skin::of_box(&run.frame(), &required.envelope(&body.local));
            for solid in &solids {
                let piece = Obstacle {
                    pieces: vec![solid.clone()],
                    class: Class(0),
                };
                let found = check_obstacle(&one, 0, &piece, FAR_M).expect("it is near");
                let expected = signed_distance(&skin, &Skin::of(solid));
                let difference = (found.separation_m - expected).abs();
                assert!(difference < 1e-6, "case {case}: {found:?}, not {expected}");
                n_pairs += 1;
            }
            let expected = signed_distance_of_pieces(&skin, &skins);
            least = least.min(expected);
            if let Some(found) = check_obstacle(&one, 0, &drawn.obstacle(), FAR_M) {
                let difference = (found.separation_m - expected).abs();
                assert!(difference < 1e-6, "case {case}: {found:?}, not {expected}");
                for name in traits(&run, &drawn) {
                    counts.entry(name).or_default()[usize::from(expected < 0.0)] += 1;
                }
            }
        }
        match check_obstacle(&checked, 0, &drawn.obstacle(), FAR_M) {
            Some(found) => {
                let difference = (found.separation_m - least).abs();
                assert!(difference < 1e-6, "case {case}: {found:?}, not {least}");
            }
            None => assert!(least.is_infinite(), "case {case}: {run:?} {drawn:?}"),
        }
    }
    assert!(1_000 <= n_pairs, "{n_pairs} pairs");
    assert_eq!(counts.len(), 7, "{counts:?}");
    for (name, [n_apart, n_inside]) in &counts {
        let fewest = n_apart.min(n_inside);
        assert!(n / 8 < *fewest, "{name}: {counts:?}");
    }
}

/// Pairs nearly in touch, parallel, or turned by a hair: where iteration goes wrong.
#[test]
fn nearly_touching_and_nearly_parallel_pairs_agree_with_the_oracle() {
    let mut random = fastrand::Rng::with_seed(12);
    for case in 0..n_cases(1_000) {
        let frame = Frame::sloped(
            DVec3::new(between(&mut random, -1e3, 1e3), 0.0, 5.0),
            between(&mut random, 0.0, 360.0),
            [0.0, 0.004][random.usize(0..2)],
        );
        let hair = [0.0, 1e-12, 1e-9, 1e-7, 1e-5, 1e-3][random.usize(0..6)];
        let turned = Frame::sloped(
            frame.origin,
            math::atan2(frame.heading().x, frame.heading().y).to_degrees() + hair,
            0.004,
        );
        let size = |random: &mut fastrand::Rng| {
            DVec3::new(
                between(random, 0.1, 18.0),
                between(random, 0.1, 3.0),
                between(random, 0.1, 3.0),
            )
        };
        let one = Bounds {
            low: DVec3::ZERO,
            high: size(&mut random),
        };
        let gap = [0.0, 1e-9, 1e-7, -1e-7, 1e-5, -1e-5, 0.01, -0.01][random.usize(0..8)];
        let axis = random.usize(0..3);
        let mut low = DVec3::new(
            between(&mut random, -1.0, 1.0),
            between(&mut random, -1.0, 1.0),
            between(&mut random, -1.0, 1.0),
        );
        low[axis] = one.high[axis] + gap;
        let other = Bounds {
            low,
            high: low + size(&mut random),
        };
        let expected = signed_distance(&Skin::of_box(&frame, &one), &Skin::of_box(&turned, &other));
        let solids = [(&frame, &one), (&turned, &other)]
            .map(|(frame, local)| ConvexSolid::turned_box(frame, local).expect("it has a volume"));
        let found = separation(&solids[0], &solids[1]);
        assert!(
            (found.distance_m - expected).abs() < 1e-9,
            "case {case}: found {}, expected {expected}",
            found.distance_m
        );
        let reach = found.on_one.distance(found.on_other);
        assert!(
            (reach - expected.abs()).abs() < 1e-6,
            "case {case}: {found:?} {expected}"
        );
    }
}

/// How an outline is cut into pieces must not matter: here the same bar in one piece
/// and in many.
#[test]
fn cutting_a_solid_into_pieces_changes_no_measure() {
    let mut random = fastrand::Rng::with_seed(13);
    for _ in 0..n_cases(300) {
        let run = random_run(&mut random);
        let drawn = random_obstacle(&mut random, &run);
        let (low, high) = drawn.polygon.bounds().expect("it has corners");
        let whole = Polygon::rectangle(low, high).outline;
        let n_cuts = random.u32(1..5);
        let strips = (0..=n_cuts).filter_map(|k| {
            let at = |k: u32| low.x + (high.x - low.x) * f64::from(k) / f64::from(n_cuts + 1);
            let left = cut_by_line(&whole, DVec2::X, at(k + 1));
            let strip = cut_by_line(&left, DVec2::NEG_X, -at(k));
            ConvexSolid::prism(&strip, drawn.bottom, drawn.top)
        });
        let cut = Obstacle {
            pieces: strips.collect(),
            class: Class(0),
        };
        let whole = Obstacle {
            pieces: ConvexSolid::prism(&whole, drawn.bottom, drawn.top)
                .into_iter()
                .collect(),
            class: Class(0),
        };
        let [one, other] =
            [&whole, &cut].map(|obstacle| check_obstacle(&run.checked(), 0, obstacle, FAR_M));
        let (Some(one), Some(other)) = (&one, &other) else {
            assert_eq!(one, other);
            continue;
        };
        assert!(
            (one.separation_m - other.separation_m).abs() < 1e-8,
            "{one:?} {other:?}"
        );
        assert_eq!(one.governing, other.governing);
        assert!(
            one.place.abs_diff_eq(other.place, 1e-6),
            "{one:?} {other:?}"
        );
        for (a, b) in one.moves_m.iter().zip(&other.moves_m) {
            assert!((a - b).abs() < 1e-8, "{one:?} {other:?}");
        }
        for (a, b) in one.reaches.iter().zip(&other.reaches) {
            let same = match (a, b) {
                (Some(a), Some(b)) => {
                    (a.available_m - b.available_m).abs() < 1e-8
                        && a.place.abs_diff_eq(b.place, 1e-6)
                }
                (None, None) => true,
                _ => false,
            };
            assert!(same, "{a:?} {b:?}");
        }
    }
}
