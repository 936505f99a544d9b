//! Distances against dense samples of boxes and obstacles.

use crate::clearance_oracle::{Skin, point_to_skin};
use crate::clearance_support::{Drawn, Placed, between, n_cases, random_obstacle, random_run};
use rafterglow::clearance::{Direction, Measured, Required, check_obstacle};
use rafterglow::geometry::{Bounds, DVec3};

const FAR_M: f64 = 100.0;
/// Sides of envelopes are stepped back by this where they only touch.
const TOUCH_M: f64 = 1e-6;

struct Case {
    run: Placed,
    drawn: Drawn,
    required: Required,
    found: Measured,
}

fn cases(seed: u64) -> Vec<Case> {
    let mut random = fastrand::Rng::with_seed(seed);
    (0..n_cases(300))
        .filter_map(|_| {
            let run = random_run(&mut random);
            let drawn = random_obstacle(&mut random, &run);
            let found = check_obstacle(&run.checked(), 0, &drawn.obstacle(), FAR_M)?;
            Some(Case {
                required: run.checked().required[0]?,
                run,
                drawn,
                found,
            })
        })
        .collect()
}

/// Round the obstacle's corners, seen from the run.
fn local_bounds(case: &Case) -> Bounds {
    let frame = case.run.frame();
    let corners = case.drawn.polygon.outline.iter().flat_map(|&p| {
        [case.drawn.bottom.at(p), case.drawn.top.at(p)].map(|z| frame.local_from_site(p.extend(z)))
    });
    corners.fold(Bounds::EMPTY, Bounds::with)
}

/// The points of an envelope's corridor in a direction: beyond the opposite face,
/// between the other four.
fn corridor(envelope: &Bounds, direction: Direction) -> Bounds {
    let mut region = envelope.grown(-TOUCH_M);
    let axis = direction.axis();
    if direction.sign() > 0.0 {
        region.high[axis] = f64::INFINITY;
    } else {
        region.low[axis] = f64::NEG_INFINITY;
    }
    region
}

#[test]
fn available_distances_agree_with_samples_of_the_corridor() {
    let mut random = fastrand::Rng::with_seed(21);
    let (mut n_some, mut n_missed, mut excess, mut n_excess) = (0, 0, 0.0, 0.0);
    for case in cases(22) {
        let frame = case.run.frame();
        let around = local_bounds(&case);
        for direction in Direction::ALL {
            let axis = direction.axis();
            let mut sampled: Option<f64> = None;
            let mut length_m: f64 = 0.0;
            for body in &case.run.checked().bodies.bodies {
                let region = corridor(&case.required.envelope(&body.local), direction);
                let (low, high) = (region.low.max(around.low), region.high.min(around.high));
                if !low.cmple(high).all() {
                    continue;
                }
                length_m = length_m.max(high[axis] - low[axis]);
                let face_m = direction.face_of(&body.local);
                for _ in 0..1_000 {
                    let p = DVec3::new(
                        between(&mut random, low.x, high.x),
                        between(&mut random, low.y, high.y),
                        between(&mut random, low.z, high.z),
                    );
                    if case.drawn.contains(frame.site_from_local(p), 0.0) {
                        let distance_m = (p[axis] - face_m) * direction.sign();
                        sampled = Some(sampled.map_or(distance_m, |d| d.min(distance_m)));
                    }
                }
            }
            match (case.found.reaches[direction.index()], sampled) {
                (None, Some(distance_m)) => panic!(
                    "{} m {} was not seen: {:?} {:?}",
                    distance_m,
                    direction.label(),
                    case.run,
                    case.drawn
                ),
                (Some(reach), Some(distance_m)) => {
                    n_some += 1;
                    assert!(
                        reach.available_m <= distance_m + 1e-9,
                        "{reach:?} {distance_m}"
                    );
                    excess += (distance_m - reach.available_m) / length_m.max(0.01);
                    n_excess += 1.0;
                }
                (Some(_), None) => n_missed += 1,
                (None, None) => {}
            }
        }
    }
    assert!(n_missed * 20 < n_some, "{n_missed} slivers, {n_some} met");
    // A thousand points along a tip come to within a tenth or two of it on average.
    assert!(excess / n_excess < 0.12, "{}", excess / n_excess);
}

/// Every distance is attained: its place belongs to the obstacle, lies in the corridor,
/// and is that far away.
#[test]
fn the_place_of_every_distance_is_a_point_of_the_obstacle() {
    for case in cases(23) {
        let frame = case.run.frame();
        let is_whole = case.drawn.obstacle().pieces.len() == 1;
        for reach in case.found.reaches.iter().flatten() {
            let p = frame.local_from_site(reach.place);
            let is_attained = case.run.checked().bodies.bodies.iter().any(|body| {
                let region = corridor(&case.required.envelope(&body.local), reach.direction);
                let face_m = reach.direction.face_of(&body.local);
                let away_m = (p[reach.direction.axis()] - face_m) * reach.direction.sign();
                (away_m - reach.available_m).abs() < 1e-9
                    && (!is_whole || region.grown(2.0 * TOUCH_M).contains(p))
            });
            assert!(is_attained, "{reach:?} {:?} {:?}", case.run, case.drawn);
            if is_whole {
                assert!(
                    case.drawn.contains(reach.place, 1e-6),
                    "{reach:?} {:?} {:?}",
                    case.run,
                    case.drawn
                );
            }
        }
    }
}

#[test]
fn separations_agree_with_samples_of_the_envelope() {
    for case in cases(24) {
        let frame = case.run.frame();
        let skins: Vec<Skin> = case.drawn.obstacle().pieces.iter().map(Skin::of).collect();
        let mut nearest = f64::INFINITY;
        let mut is_inside = false;
        let mut step: f64 = 0.0;
        for body in &case.run.checked().bodies.bodies {
            let envelope = case.required.envelope(&body.local);
            let counts = DVec3::new(24.0, 6.0, 6.0);
            let cell = (envelope.high - envelope.low) / counts;
            step = step.max(cell.length() / 2.0);
            for k in 0..25 * 7 * 7 {
                let at = DVec3::new(f64::from(k % 25), f64::from(k / 25 % 7), f64::from(k / 175));
                let p = frame.site_from_local(envelope.low + cell * at);
                is_inside |= case.drawn.contains(p, -1e-6);
                for skin in &skins {
                    nearest = nearest.min(point_to_skin(p, skin));
                }
            }
        }
        if is_inside {
            assert!(case.found.separation_m < 0.0, "{:?}", case.found);
            assert!(case.found.is_breach(), "{:?}", case.found);
        } else if case.found.separation_m > 0.0 {
            let error = nearest - case.found.separation_m;
            assert!(-1e-9 < error && error <= step, "{error} {step}");
            assert!(!case.found.is_breach(), "{:?}", case.found);
        }
    }
}

/// The moves are the least: a hair less leaves the obstacle inside, the move itself clears it.
#[test]
fn moving_by_the_least_move_clears_the_obstacle_and_no_less_does() {
    let mut n_moved = 0;
    for case in cases(25).iter().filter(|case| case.found.is_breach()) {
        let frame = case.run.frame();
        for direction in Direction::ALL {
            let away = -[frame.along, frame.left, frame.up][direction.axis()] * direction.sign();
            let inside_after = |move_m: f64| {
                let mut run = case.run.clone();
                run.origin += away * move_m;
                check_obstacle(&run.checked(), 0, &case.drawn.obstacle(), FAR_M)
                    .is_some_and(|found| found.is_breach())
            };
            let move_m = case.found.moves_m[direction.index()];
            assert!(0.0 < move_m);
            assert!(
                inside_after(move_m - 1e-5),
                "{direction:?} {:?}",
                case.found
            );
            assert!(
                !inside_after(move_m + 1e-9),
                "{direction:?} {:?}",
                case.found
            );
            n_moved += 1;
        }
    }
    assert!(n_cases(300) < n_moved, "{n_moved}");
}
