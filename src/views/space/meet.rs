//! What is met first along a line of sight.

use crate::geometry::{ConvexSolid, DVec3};
use crate::study::{Study, Thing};

/// The heater or the obstruction that is met first from a point along a unit vector. The
/// building is looked through.
#[must_use]
pub fn thing_at(study: &Study, from: DVec3, way: DVec3) -> Option<Thing> {
    let things = study
        .surroundings
        .things
        .iter()
        .filter(|thing| thing.kind.is_some() || matches!(thing.thing, Thing::Door(..)))
        .flat_map(|thing| {
            let met = thing.solids.iter().filter_map(|it| entered(it, from, way));
            met.map(|at_m| (at_m, thing.thing.clone()))
        });
    let runs = study.runs.iter().flat_map(|run| {
        let solids = run.clearance.bodies.solids();
        let met: Vec<f64> = solids
            .iter()
            .filter_map(|(_, solid)| entered(solid, from, way))
            .collect();
        met.into_iter()
            .map(|at_m| (at_m, Thing::Run(run.run.id.clone())))
    });
    things
        .chain(runs)
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, thing)| thing)
}

/// How far along a line a solid is entered, m; none where it is missed, or lies behind.
fn entered(solid: &ConvexSolid, from: DVec3, way: DVec3) -> Option<f64> {
    let (mut first, mut last) = (0.0_f64, f64::INFINITY);
    for face in solid.faces() {
        let before = face.offset - face.normal.dot(from);
        let speed = face.normal.dot(way);
        if speed == 0.0 {
            if before < 0.0 {
                return None;
            }
        } else if speed < 0.0 {
            first = first.max(before / speed);
        } else {
            last = last.min(before / speed);
        }
    }
    (first <= last).then_some(first)
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use super::*;
    use crate::geometry::{Bounds, Frame};

    #[test]
    fn a_box_is_entered_at_its_near_face() {
        let local = Bounds {
            low: DVec3::new(2.0, -1.0, -1.0),
            high: DVec3::new(4.0, 1.0, 1.0),
        };
        let solid = ConvexSolid::turned_box(&Frame::AXES, &local).unwrap();
        let met = |from: [f64; 3], way: [f64; 3]| {
            entered(&solid, DVec3::from(from), DVec3::from(way).normalize())
        };
        assert!((met([0.0, 0.0, 0.0], [1.0, 0.0, 0.0]).unwrap() - 2.0).abs() < 1e-12);
        assert_eq!(met([3.0, 0.0, 0.0], [1.0, 0.0, 0.0]), Some(0.0));
        assert_eq!(met([0.0, 0.0, 0.0], [-1.0, 0.0, 0.0]), None);
        assert_eq!(met([0.0, 2.0, 0.0], [1.0, 0.0, 0.0]), None);
    }
}
