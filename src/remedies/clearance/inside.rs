//! How far a run that reaches out of the building must go to be inside.

use crate::geometry::pieces::convex_hull;
use crate::geometry::{DVec2, DVec3, Polygon, tolerance};
use crate::site::Site;
use crate::study::RunStudy;

/// Nearer to the edge of the building than this a corner says nothing, m: what the rule
/// passes over as rounding. Ten times the limit that passes.
const AT_EDGE_M: f64 = 10.0 * tolerance::LIMIT;

/// How far a run must move in a level direction (a unit vector) until no corner of its
/// outline is outside every bay, m: the farthest that one of them has to go. Infinite
/// where a corner gets into no bay within `reach_m`; 0 where all are inside, which a
/// notch or a hole of a bay may still cut out of the outline.
pub(super) fn until_inside(run: &RunStudy, site: &Site, direction: DVec3, reach_m: f64) -> f64 {
    let bays: Vec<Polygon> = site
        .bays
        .iter()
        .map(|bay| Polygon {
            outline: bay.outline.clone(),
            holes: bay.holes.clone(),
        })
        .collect();
    let bodies = &run.clearance.bodies;
    let boxes = bodies.bodies.iter();
    let corners: Vec<DVec2> = boxes
        .flat_map(|body| bodies.frame.corners(&body.local))
        .map(DVec3::truncate)
        .collect();
    let along = direction.truncate() * reach_m;
    convex_hull(&corners)
        .into_iter()
        .map(|corner| way_in(&bays, corner, along))
        .fold(0.0, f64::max)
}

/// How far a corner has to go along a way until it is in a bay, m.
fn way_in(bays: &[Polygon], corner: DVec2, along: DVec2) -> f64 {
    let is_in =
        |bay: &Polygon| bay.contains(corner) || bay.distance_to_boundary(corner) <= AT_EDGE_M;
    if bays.iter().any(is_in) {
        return 0.0;
    }
    let entries = bays
        .iter()
        .flat_map(|bay| bay.clip_segment(corner, corner + along))
        .map(|stretch| stretch.from_m);
    entries.fold(f64::INFINITY, f64::min)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(corner: (f64, f64), along: (f64, f64), expected: f64) {
        let bays = [
            Polygon::rectangle(DVec2::ZERO, DVec2::new(10.0, 5.0)),
            Polygon::rectangle(DVec2::new(10.0, 0.0), DVec2::new(12.0, 9.0)),
        ];
        let found = way_in(&bays, corner.into(), along.into());
        assert!(
            found == expected || (found - expected).abs() < 1e-9,
            "{corner:?} {along:?}: {found}"
        );
    }

    #[test]
    fn a_corner_goes_straight_to_the_nearest_bay_on_its_way() {
        check((1.0, 1.0), (3.0, 0.0), 0.0);
        check((10.0, 2.0), (3.0, 0.0), 0.0);
        check((-0.5, 1.0), (3.0, 0.0), 0.5);
        check((-0.5, 1.0), (-3.0, 0.0), f64::INFINITY);
        check((8.5, 6.0), (3.0, 0.0), 1.5);
        check((8.5, 6.0), (0.0, -3.0), 1.0);
        check((8.5, 6.0), (0.0, 0.0), f64::INFINITY);
        check((-4.0, 1.0), (3.0, 0.0), f64::INFINITY);
    }
}
