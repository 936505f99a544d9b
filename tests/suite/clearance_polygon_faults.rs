//! What is wrong with a polygon, and where: the table of faults.

use rafterglow::geometry::DVec2;
use rafterglow::geometry::polygon::Polygon;
use rafterglow::geometry::validity::{MOST_CORNERS, PolygonFault, Ring};

fn ring(corners: &[(f64, f64)]) -> Vec<DVec2> {
    corners.iter().copied().map(DVec2::from).collect()
}

const SQUARE: [(f64, f64); 4] = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)];

fn check(outline: &[(f64, f64)], holes: &[&[(f64, f64)]], expected: Result<(), PolygonFault>) {
    let polygon = Polygon {
        outline: ring(outline),
        holes: holes.iter().map(|hole| ring(hole)).collect(),
    };
    assert_eq!(polygon.check(), expected, "{polygon:?}");
    let mut backwards = polygon;
    backwards.outline.reverse();
    assert_eq!(
        backwards.check().is_ok(),
        expected.is_ok(),
        "backwards {backwards:?}"
    );
}

#[test]
fn sound_polygons_pass() {
    check(&SQUARE, &[], Ok(()));
    check(&[(0.0, 0.0), (1.0, 0.0), (0.0, 1.0)], &[], Ok(()));
    check(
        &SQUARE,
        &[
            &[(1.0, 1.0), (2.0, 1.0), (2.0, 2.0)],
            &[(4.0, 4.0), (5.0, 5.0), (5.0, 4.0)],
        ],
        Ok(()),
    );
    // A corner straight between its neighbours is harmless.
    check(
        &[(0.0, 0.0), (5.0, 0.0), (10.0, 0.0), (0.0, 10.0)],
        &[],
        Ok(()),
    );
    // A slot a tenth of a millimetre wide is still a slot.
    check(
        &[
            (0.0, 0.0),
            (4.0, 0.0),
            (4.0, 5.0),
            (4.0001, 0.0),
            (9.0, 0.0),
            (9.0, 9.0),
            (0.0, 9.0),
        ],
        &[],
        Ok(()),
    );
}

#[test]
fn corners_are_looked_at_first() {
    let ring = Ring::Outline;
    check(
        &[],
        &[],
        Err(PolygonFault::TooFewCorners { ring, n_corners: 0 }),
    );
    check(
        &SQUARE[..2],
        &[],
        Err(PolygonFault::TooFewCorners { ring, n_corners: 2 }),
    );
    check(
        &SQUARE,
        &[&SQUARE[..2]],
        Err(PolygonFault::TooFewCorners {
            ring: Ring::Hole(0),
            n_corners: 2,
        }),
    );
    check(
        &[(0.0, 0.0), (1.0, f64::INFINITY), (f64::NAN, 1.0)],
        &[],
        Err(PolygonFault::NotFinite { ring, corner: 1 }),
    );
    check(
        &[(0.0, 0.0), (1.0, 0.0), (1.0, 0.5e-6), (0.0, 3.0)],
        &[],
        Err(PolygonFault::RepeatedCorner {
            ring,
            corner: 2,
            place: DVec2::new(1.0, 0.5e-6),
        }),
    );
    check(
        &[(0.0, 0.0), (1.0, 0.0), (0.0, 3.0), (0.0, 0.0)],
        &[],
        Err(PolygonFault::RepeatedCorner {
            ring,
            corner: 0,
            place: DVec2::ZERO,
        }),
    );
    check(
        &[(0.0, 0.0), (1.0, 1.0), (5.0, 5.0), (2.0, 2.0)],
        &[],
        Err(PolygonFault::ZeroArea { ring }),
    );
    let n_corners = MOST_CORNERS + 1;
    let many: Vec<(f64, f64)> = (0..n_corners).map(|_| (1.0, 1.0)).collect();
    check(&many, &[], Err(PolygonFault::TooManyCorners { n_corners }));
}

#[test]
fn a_ring_that_meets_itself_is_told_where() {
    let ring = Ring::Outline;
    let crossing = |edges, x, y| {
        Err(PolygonFault::SelfCrossing {
            ring,
            edges,
            place: DVec2::new(x, y),
        })
    };
    // A bow tie.
    check(
        &[(0.0, 0.0), (4.0, 4.0), (4.0, 0.0), (0.0, 4.0)],
        &[],
        crossing((0, 2), 2.0, 2.0),
    );
    // A corner on another edge.
    check(
        &[(0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (3.0, 0.0), (0.0, 4.0)],
        &[],
        crossing((0, 2), 3.0, 0.0),
    );
    // Two corners in one place, apart in the ring.
    check(
        &[
            (0.0, 0.0),
            (3.0, 2.0),
            (6.0, 0.0),
            (6.0, 4.0),
            (3.0, 2.0),
            (0.0, 4.0),
        ],
        &[],
        crossing((0, 3), 3.0, 2.0),
    );
    // A spike that folds back along its own edge.
    check(
        &[(0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (6.0, 2.0), (0.0, 3.0)],
        &[],
        crossing((1, 2), 6.0, 2.0),
    );
}

#[test]
fn holes_stay_inside_and_apart() {
    let place = |x, y| DVec2::new(x, y);
    let triangle: &[(f64, f64)] = &[(1.0, 1.0), (3.0, 1.0), (1.0, 3.0)];
    check(
        &SQUARE,
        &[&[(11.0, 1.0), (12.0, 1.0), (11.0, 2.0)]],
        Err(PolygonFault::HoleOutside { hole: 0 }),
    );
    check(
        &SQUARE,
        &[&[(-9.0, -9.0), (19.0, -9.0), (19.0, 29.0), (-9.0, 29.0)]],
        Err(PolygonFault::HoleOutside { hole: 0 }),
    );
    check(
        &SQUARE,
        &[&[(5.0, 5.0), (12.0, 5.0), (5.0, 6.0)]],
        Err(PolygonFault::HoleCrosses {
            hole: 0,
            other: Ring::Outline,
            place: place(10.0, 5.0),
        }),
    );
    check(
        &SQUARE,
        &[&[(5.0, 5.0), (10.0, 5.0), (5.0, 6.0)]],
        Err(PolygonFault::HoleTouches {
            hole: 0,
            other: Ring::Outline,
            place: place(10.0, 5.0),
        }),
    );
    check(
        &SQUARE,
        &[triangle, &[(1.0, 3.0), (3.0, 5.0), (1.0, 5.0)]],
        Err(PolygonFault::HoleTouches {
            hole: 1,
            other: Ring::Hole(0),
            place: place(1.0, 3.0),
        }),
    );
    check(
        &SQUARE,
        &[triangle, &[(1.5, 1.5), (5.0, 1.5), (5.0, 5.0)]],
        Err(PolygonFault::HoleCrosses {
            hole: 1,
            other: Ring::Hole(0),
            place: place(2.5, 1.5),
        }),
    );
    check(
        &SQUARE,
        &[&[(1.2, 1.2), (1.4, 1.2), (1.2, 1.4)], triangle],
        Err(PolygonFault::HoleInHole { hole: 0, other: 1 }),
    );
    // Crossing through two corners of the outline, nowhere through an edge.
    check(
        &[(5.0, 0.0), (10.0, 5.0), (5.0, 10.0), (0.0, 5.0)],
        &[&[
            (6.0, 5.0),
            (12.0, 5.0),
            (12.0, 12.0),
            (5.0, 12.0),
            (5.0, 6.0),
        ]],
        Err(PolygonFault::HoleCrosses {
            hole: 0,
            other: Ring::Outline,
            place: place(10.0, 5.0),
        }),
    );
}

#[test]
fn faults_read_like_sentences() {
    let fault = PolygonFault::SelfCrossing {
        ring: Ring::Hole(1),
        edges: (0, 2),
        place: DVec2::new(2.0, 2.5),
    };
    assert_eq!(
        fault.to_string(),
        "edges 1 and 3 of hole 2 meet at (2.000, 2.500)"
    );
}

#[test]
fn the_most_corners_are_checked_quickly() {
    // A comb whose long edges all overlap in x: the sweep's worst case.
    let n_teeth = MOST_CORNERS / 4;
    let mut comb: Vec<DVec2> = (0..n_teeth)
        .flat_map(|k| {
            let y = 2.0 * f64::from(u32::try_from(k).unwrap_or(0));
            [(0.0, y), (50.0, y), (50.0, y + 1.0), (0.5, y + 1.0)].map(DVec2::from)
        })
        .collect();
    comb.push(DVec2::new(-1.0, 2_000.0));
    comb.push(DVec2::new(-1.0, -1.0));
    comb.drain(..2);
    assert_eq!(Polygon::new(comb).check(), Ok(()));
}
