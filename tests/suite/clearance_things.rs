//! Runs beside the things of a site as the study builds them, against the oracle: doors
//! open and travelling, cranes, ramps, sloped ducts, stairs, lifts, members, other runs.

use crate::clearance_oracle::{Skin, shortest_clearing_move, signed_distance};
use crate::clearance_support::{Placed, between, n_cases, only, random_run};
use crate::made::{Shed, shed};
use fastrand::Rng;
use rafterglow::clearance::{CheckedRun, Class, Measured, Obstacle, check_obstacle};
use rafterglow::geometry::distance::separation;
use rafterglow::geometry::{ConvexSolid, DVec2, DVec3};
use rafterglow::site::obstruction::{Footprint, ObstructionKind, Particulars, TopSlope};
use rafterglow::site::{Bay, Combustibility, Obstruction, Opening, OpeningKind};
use rafterglow::structure::{DoorPart, door_space};
use rafterglow::study::obstruction_solids;
use rafterglow::units::{Angle, Length};

/// Farther than any of the random pairs are apart.
const FAR_M: f64 = 200.0;
const SAME_M: f64 = 1e-6;

fn m(metres: f64) -> Length {
    Length::metres(metres)
}

fn door(random: &mut Rng, bay: &Bay, kind: OpeningKind, part: DoorPart) -> Vec<ConvexSolid> {
    let opening = Opening {
        id: "D1".into(),
        bay: bay.id.clone(),
        edge: random.usize(0..bay.outline.len()),
        from_corner: m(between(random, 3.0, 12.0)),
        width: m(between(random, 2.0, 5.0)),
        sill: Length::ZERO,
        height: m(between(random, 2.2, 4.5)),
        kind,
        door: Default::default(),
        notes: String::new(),
    };
    let leaves = door_space(bay, &opening);
    let parts = leaves.into_iter().map(|leaf| match part {
        DoorPart::Open => leaf.open,
        DoorPart::Travel => leaf.travel,
    });
    parts.flatten().collect()
}

fn obstruction(
    kind: ObstructionKind,
    footprint: Footprint,
    (bottom_m, top_m): (f64, f64),
    particulars: Particulars,
) -> Vec<ConvexSolid> {
    let obstruction = Obstruction {
        id: "O1".into(),
        name: String::new(),
        kind,
        footprint,
        bottom: m(bottom_m),
        top: m(top_m),
        upright_top: None,
        burns: Combustibility::Unknown,
        temperature_limit: None,
        particulars,
        notes: String::new(),
    };
    obstruction_solids(&obstruction, &[])
}

/// A bent line with a width, as ducts, stairs and runways are drawn.
fn line(random: &mut Rng, width_m: f64) -> Footprint {
    let turn = DVec2::from_angle(between(random, 0.0, 6.0));
    let points = [(0.0, 0.0), (6.0, 0.0), (8.0, 4.0)];
    Footprint::Line {
        points: points.map(|p| turn.rotate(DVec2::from(p))).to_vec(),
        width: m(width_m),
    }
}

/// A concave area with a hole.
fn area(random: &mut Rng) -> Footprint {
    let turn = DVec2::from_angle(between(random, 0.0, 6.0));
    let ring = |points: &[(f64, f64)]| {
        let points = points.iter();
        points.map(|p| turn.rotate(DVec2::from(*p))).collect()
    };
    Footprint::Area {
        outline: ring(&[
            (0.0, 0.0),
            (6.0, 0.0),
            (6.0, 2.5),
            (2.5, 2.5),
            (2.5, 5.0),
            (0.0, 5.0),
        ]),
        holes: vec![ring(&[(0.5, 0.5), (2.0, 0.5), (2.0, 2.0), (0.5, 2.0)])],
    }
}

/// The kinds of things, by name.
const KINDS: [&str; 16] = [
    "sectional door, open",
    "high-lift door, open",
    "roll-up door, open",
    "swing door, open",
    "sliding door, open",
    "dock door, open",
    "sectional door, travelling",
    "swing door, travelling",
    "sliding door, travelling",
    "crane with its hook",
    "ramp",
    "sloped duct",
    "stairs",
    "lifted vehicle",
    "member",
    "run",
];

fn thing(random: &mut Rng, bay: &Bay, name: &str) -> Vec<ConvexSolid> {
    use ObstructionKind as Kind;
    let none = Particulars::default();
    let mut door = |kind, part| door(random, bay, kind, part);
    match name {
        "sectional door, open" => door(OpeningKind::SectionalDoor, DoorPart::Open),
        "high-lift door, open" => door(OpeningKind::HighLiftDoor, DoorPart::Open),
        "roll-up door, open" => door(OpeningKind::RollUpDoor, DoorPart::Open),
        "swing door, open" => door(OpeningKind::SwingDoor, DoorPart::Open),
        "sliding door, open" => door(OpeningKind::SlidingDoor, DoorPart::Open),
        "dock door, open" => door(OpeningKind::DockDoor, DoorPart::Open),
        "sectional door, travelling" => door(OpeningKind::SectionalDoor, DoorPart::Travel),
        "swing door, travelling" => door(OpeningKind::SwingDoor, DoorPart::Travel),
        "sliding door, travelling" => door(OpeningKind::SlidingDoor, DoorPart::Travel),
        "crane with its hook" => {
            let hook = Particulars {
                hook_approach: Some(m(between(random, 0.3, 0.9))),
                ..none
            };
            let width_m = between(random, 3.0, 6.0);
            let runway = line(random, width_m);
            obstruction(Kind::CraneTravel, runway, (5.0, 6.5), hook)
        }
        "ramp" => {
            let slope = Particulars {
                top_slope: Some(TopSlope {
                    rises_toward: Angle::degrees(between(random, 0.0, 360.0)),
                    pitch: between(random, 0.05, 0.5),
                }),
                ..none
            };
            obstruction(Kind::Other, area(random), (0.0, 1.5), slope)
        }
        "sloped duct" => {
            let rising = Particulars {
                bottom_at_end: Some(m(between(random, 3.0, 6.0))),
                ..none
            };
            let width_m = between(random, 0.2, 1.2);
            let duct = line(random, width_m);
            obstruction(Kind::Duct, duct, (4.0, 4.6), rising)
        }
        "stairs" => obstruction(Kind::Stairs, line(random, 1.2), (0.0, 3.5), none),
        "lifted vehicle" => {
            let raised = Particulars {
                lift: Some(m(1.8)),
                ..none
            };
            obstruction(Kind::LiftedVehicle, area(random), (0.0, 1.6), raised)
        }
        "member" => {
            let end = |random: &mut Rng| {
                DVec3::new(
                    between(random, -6.0, 6.0),
                    between(random, -6.0, 6.0),
                    between(random, 5.0, 7.0),
                )
            };
            let (from, to) = (end(random), end(random));
            ConvexSolid::bar(from, to, 0.15, 0.6).into_iter().collect()
        }
        _ => {
            let run = random_run(random).checked();
            Obstacle::from_run(&run.bodies, Class(0)).pieces
        }
    }
}

/// A random run, moved so that it is by a thing: half of them well into it.
fn run_by(random: &mut Rng, pieces: &[ConvexSolid]) -> Placed {
    let mut run = random_run(random);
    let at = pieces[random.usize(0..pieces.len())].bounds();
    let at = at.grown([0.0, 2.0][random.usize(0..2)]);
    let target = DVec3::new(
        between(random, at.low.x, at.high.x),
        between(random, at.low.y, at.high.y),
        between(random, at.low.z, at.high.z),
    );
    let station_m = between(random, 0.0, run.figures.leg_length_m);
    run.origin = target - run.frame().along * station_m;
    run
}

fn measured(run: &CheckedRun, pieces: &[ConvexSolid]) -> Measured {
    let obstacle = Obstacle {
        pieces: pieces.to_vec(),
        class: Class(0),
    };
    check_obstacle(run, 0, &obstacle, FAR_M).expect("it is near")
}

fn moved(run: &CheckedRun, by: DVec3) -> CheckedRun {
    let mut moved = run.clone();
    moved.bodies.frame = moved.bodies.frame.translated(by);
    moved
}

/// How far outside a convex solid a point is along its faces' normals, m: zero on its
/// surface, less within.
fn outside_m(solid: &ConvexSolid, p: DVec3) -> f64 {
    let faces = solid.faces().iter();
    faces
        .map(|face| face.normal.dot(p) - face.offset)
        .fold(f64::NEG_INFINITY, f64::max)
}

/// How many pairs of a kind were apart, just touching, and inside.
#[derive(Debug, Clone, Copy, Default)]
struct Counts {
    apart: usize,
    touching: usize,
    inside: usize,
}

/// The envelopes of one run against a thing: the distance is the oracle's; where an
/// envelope is inside, the oracle's shortest move brings the two just to touch, and part
/// of it does not.
fn check(name: &str, run: &CheckedRun, pieces: &[ConvexSolid], counts: &mut Counts) {
    let required = run.required[0].expect("the tilt is in the table");
    let skins: Vec<Skin> = pieces.iter().map(Skin::of).collect();
    let mut least = f64::INFINITY;
    for body in &run.bodies.bodies {
        let one = only(run, *body);
        let envelope = Skin::of_box(&run.bodies.frame, &required.envelope(&body.local));
        let apart = skins.iter().map(|skin| signed_distance(&envelope, skin));
        let apart = apart.fold(f64::INFINITY, f64::min);
        let found = measured(&one, pieces);
        if apart > SAME_M {
            counts.apart += 1;
            least = least.min(apart);
            let difference = (found.separation_m - apart).abs();
            assert!(difference < SAME_M, "{name}: {found:?}, expected {apart}");
            assert!(!found.is_breach(), "{name}: {found:?}");
            continue;
        }
        if apart >= -SAME_M {
            least = least.min(apart);
            continue;
        }
        let way = shortest_clearing_move(&envelope, &skins);
        least = least.min(-way.length());
        counts.inside += 1;
        let difference = (found.separation_m + way.length()).abs();
        assert!(difference < SAME_M, "{name}: {found:?}, expected {way:?}");
        assert!(found.is_breach(), "{name}: {found:?}");
        let clear = measured(&moved(&one, way), pieces);
        counts.touching += 1;
        assert!(
            clear.separation_m.abs() < SAME_M,
            "{name}: {way:?} {clear:?}"
        );
        let half = measured(&moved(&one, way * 0.5), pieces);
        assert!(half.is_breach(), "{name}: {way:?} {half:?}");
        let left_m = -half.separation_m - way.length() / 2.0;
        assert!(
            left_m.abs() < SAME_M,
            "{name}: half of {way:?} leaves {half:?}"
        );
    }
    let whole = measured(run, pieces);
    assert!(
        (whole.separation_m - least).abs() < SAME_M,
        "{name}: {whole:?}"
    );
}

#[test]
fn things_of_a_site_are_as_far_from_envelopes_as_the_oracle_says() {
    let mut random = Rng::with_seed(41);
    let bay = &shed(Shed::SMALL).bays[0];
    let n = n_cases(200);
    for name in KINDS {
        let mut counts = Counts::default();
        for _ in 0..n {
            let pieces = thing(&mut random, bay, name);
            if pieces.is_empty() {
                continue;
            }
            let run = run_by(&mut random, &pieces).checked();
            check(name, &run, &pieces, &mut counts);
        }
        let fewest = counts.apart.min(counts.touching).min(counts.inside);
        assert!(n / 4 < fewest, "{name}: {n} runs, {counts:?}");
    }
}

/// The contact points of a box and a convex solid lie on their surfaces, as far apart as
/// the two are; after the shortest move they are one point.
#[test]
fn contact_points_lie_on_both_surfaces_and_meet_after_the_shortest_move() {
    let mut random = Rng::with_seed(42);
    let bay = &shed(Shed::SMALL).bays[0];
    let (mut n_apart, mut n_inside) = (0, 0);
    for name in KINDS {
        for _ in 0..n_cases(100) {
            let pieces = thing(&mut random, bay, name);
            if pieces.is_empty() {
                continue;
            }
            let run = run_by(&mut random, &pieces).checked();
            let required = run.required[0].expect("the tilt is in the table");
            for body in &run.bodies.bodies {
                let envelope = required.envelope(&body.local);
                let one = ConvexSolid::turned_box(&run.bodies.frame, &envelope);
                let one = one.expect("an envelope has a volume");
                let piece = &pieces[random.usize(0..pieces.len())];
                let found = separation(&one, piece);
                let expected = signed_distance(&Skin::of(&one), &Skin::of(piece));
                assert!(
                    (found.distance_m - expected).abs() < SAME_M,
                    "{name}: {found:?}"
                );
                for (solid, p) in [(&one, found.on_one), (piece, found.on_other)] {
                    assert!(outside_m(solid, p).abs() < SAME_M, "{name}: {found:?}");
                }
                let between = found.on_other - found.on_one;
                let expected = found.normal * found.distance_m;
                assert!(between.abs_diff_eq(expected, SAME_M), "{name}: {found:?}");
                if found.distance_m < 0.0 {
                    n_inside += 1;
                    let clear = one.translated(found.normal * found.distance_m);
                    let left = signed_distance(&Skin::of(&clear), &Skin::of(piece));
                    assert!(left.abs() < SAME_M, "{name}: {found:?} {left}");
                } else {
                    n_apart += 1;
                }
            }
        }
    }
    let fewest = n_cases(100) * KINDS.len() / 2;
    assert!(
        fewest < n_apart && fewest < n_inside,
        "{n_apart} apart, {n_inside} inside"
    );
}
