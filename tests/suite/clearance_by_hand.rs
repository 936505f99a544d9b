//! Level, untilted runs whose distances can be worked out with a pencil.

use rafterglow::clearance::{
    Body, CheckedRun, Class, Direction, Measured, Obstacle, Part, Required, RunBodies,
    check_obstacle,
};
use rafterglow::geometry::{Bounds, ConvexSolid, DVec2, DVec3, Elevation, Frame, Polygon};

const COMBUSTIBLE: Class = Class(0);
const NON_COMBUSTIBLE: Class = Class(1);

/// A tube 10 m long at 5 m, running east from the origin; left is north. Its body
/// reaches 0.3 m to the sides, 0.1 m down, 0.2 m up. With what is required, the envelope
/// is x -0.5..10.75, y -1.1..1.3, z 3.4..5.45.
fn run() -> CheckedRun {
    CheckedRun {
        bodies: RunBodies {
            frame: Frame::sloped(DVec3::new(0.0, 0.0, 5.0), 90.0, 0.0),
            bodies: vec![Body {
                part: Part::Tube,
                local: Bounds {
                    low: DVec3::new(0.0, -0.3, -0.1),
                    high: DVec3::new(10.0, 0.3, 0.2),
                },
            }],
        },
        required: vec![
            Some(Required {
                above_m: 0.25,
                below_m: 1.5,
                left_m: 1.0,
                right_m: 0.8,
                near_end_m: 0.5,
                far_end_m: 0.75,
            }),
            Some(Required::all_round(0.1)),
        ],
    }
}

fn block(low: [f64; 3], high: [f64; 3], class: Class) -> Obstacle {
    let [low, high] = [low, high].map(DVec3::from);
    Obstacle {
        pieces: ConvexSolid::prisms(
            &Polygon::rectangle(low.truncate(), high.truncate()),
            Elevation::level(low.z),
            Elevation::level(high.z),
        ),
        class,
    }
}

fn measured(low: [f64; 3], high: [f64; 3]) -> Measured {
    check_obstacle(&run(), 0, &block(low, high, COMBUSTIBLE), 10.0).expect("it is near")
}

#[track_caller]
fn check(found: &Measured, direction: Direction, available_m: f64, separation_m: f64) {
    let reach = found.governing_reach().expect("it lies in a direction");
    assert_eq!(reach.direction, direction, "{found:?}");
    assert!((reach.available_m - available_m).abs() < 1e-9, "{found:?}");
    assert!(
        (found.separation_m - separation_m).abs() < 1e-9,
        "{found:?}"
    );
    assert_eq!(reach.place, found.place);
}

#[test]
fn goods_stacked_too_high() {
    let found = measured([2.0, -1.0, 0.0], [4.0, 1.0, 3.6]);
    check(&found, Direction::Below, 1.3, -0.2);
    assert!(found.is_breach());
    assert!(found.place.abs_diff_eq(DVec3::new(3.0, 0.0, 3.6), 1e-9));
    assert!((found.moves_m[Direction::Below.index()] - 0.2).abs() < 1e-9);
    // Upwards it would have to leave with all its height: from 5.45 down to 0.
    assert!((found.moves_m[Direction::Above.index()] - 5.45).abs() < 1e-9);
}

#[test]
fn a_wall_beside() {
    let found = measured([-5.0, 1.1, 0.0], [20.0, 1.3, 8.0]);
    check(&found, Direction::Left, 0.8, -0.2);
    // Only what lies between the ends, the top and the bottom counts for the place.
    assert!(found.place.abs_diff_eq(DVec3::new(5.125, 1.1, 4.425), 1e-9));
    check(
        &measured([-5.0, -3.0, 0.0], [20.0, -1.0, 8.0]),
        Direction::Right,
        0.7,
        -0.1,
    );
}

#[test]
fn equal_passes() {
    for (low, high, direction, available_m) in [
        ([2.0, -1.0, 0.0], [4.0, 1.0, 3.4], Direction::Below, 1.5),
        ([2.0, -1.0, 5.45], [4.0, 1.0, 6.0], Direction::Above, 0.25),
        ([-5.0, 1.3, 0.0], [20.0, 1.5, 8.0], Direction::Left, 1.0),
        ([-1.0, -9.0, 0.0], [-0.5, 9.0, 8.0], Direction::NearEnd, 0.5),
        (
            [10.75, -9.0, 0.0],
            [11.0, 9.0, 8.0],
            Direction::FarEnd,
            0.75,
        ),
    ] {
        let found = measured(low, high);
        check(&found, direction, available_m, 0.0);
        assert!(!found.is_breach());
        let others = found.reaches.iter().flatten().count();
        assert_eq!(
            others, 1,
            "what touches one face lies in no other direction"
        );
    }
}

#[test]
fn beyond_by_more_than_a_micrometre_is_a_breach() {
    assert!(!measured([2.0, -1.0, 0.0], [4.0, 1.0, 3.4 + 0.9e-6]).is_breach());
    assert!(measured([2.0, -1.0, 0.0], [4.0, 1.0, 3.4 + 1.1e-6]).is_breach());
}

#[test]
fn what_lies_beyond_an_edge_is_in_no_direction() {
    // 3 m east and 4 m north of the envelope's corner.
    let found = measured([13.75, 5.3, 0.0], [15.0, 7.0, 8.0]);
    assert_eq!(found.governing, None);
    assert!((found.separation_m - 5.0).abs() < 1e-9);
    assert!(found.reaches.iter().all(Option::is_none));
    // Its whole upright edge is nearest, between the heights of the envelope.
    assert!(found.place.abs_diff_eq(DVec3::new(13.75, 5.3, 4.425), 1e-9));
}

#[test]
fn a_column_through_the_envelope_is_left_by_the_shorter_side() {
    // To the north the envelope would have to go 1.3 m, to the south 1.5 m.
    let found = measured([5.0, -0.2, 0.0], [5.4, 0.2, 8.0]);
    check(&found, Direction::Right, -0.5, -1.3);
    assert!((found.moves_m[Direction::Right.index()] - 1.3).abs() < 1e-9);
    assert!((found.moves_m[Direction::Left.index()] - 1.5).abs() < 1e-9);
}

#[test]
fn another_class_asks_for_other_distances() {
    let low = [2.0, -1.0, 0.0];
    let high = [4.0, 1.0, 4.7];
    let duct = block(low, high, NON_COMBUSTIBLE);
    let found = check_obstacle(&run(), 0, &duct, 10.0).expect("it is near");
    check(&found, Direction::Below, 0.2, 0.1);
    assert!(!found.is_breach());
    let unknown = block(low, high, Class(2));
    assert_eq!(check_obstacle(&run(), 0, &unknown, 10.0), None);
}

#[test]
fn a_yard_round_a_run_is_no_breach_and_its_rim_is() {
    // A frame of shelving round the run: the hole is as large as the envelope and 1 cm.
    let frame = |rim_m: f64| Obstacle {
        pieces: ConvexSolid::prisms(
            &Polygon {
                outline: Polygon::rectangle(DVec2::new(-5.0, -5.0), DVec2::new(15.0, 5.0)).outline,
                holes: vec![
                    Polygon::rectangle(
                        DVec2::new(-0.5 - rim_m, -1.1 - rim_m),
                        DVec2::new(10.75 + rim_m, 1.3 + rim_m),
                    )
                    .outline,
                ],
            },
            Elevation::level(0.0),
            Elevation::level(8.0),
        ),
        class: COMBUSTIBLE,
    };
    let clear = check_obstacle(&run(), 0, &frame(0.01), 1.0).expect("it is near");
    assert!((clear.separation_m - 0.01).abs() < 1e-9 && !clear.is_breach());
    let tight = check_obstacle(&run(), 0, &frame(-0.01), 1.0).expect("it is near");
    assert!(tight.is_breach());
    // No way out to the side: the other rim is 20 mm from it.
    assert!(tight.moves_m[Direction::Left.index()] > 3.0);
}

#[test]
fn one_run_is_an_obstacle_to_another() {
    let mut other = run().bodies;
    other.frame.origin.y = 2.0;
    let found = check_obstacle(&run(), 7, &Obstacle::from_run(&other, COMBUSTIBLE), 1.0)
        .expect("it is near");
    // Between the bodies 2.0 - 0.3 - 0.3 = 1.4 m; 1.0 m is required.
    assert_eq!(found.obstacle, 7);
    check(&found, Direction::Left, 1.4, 0.4);
}
