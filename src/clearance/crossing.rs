//! Runs whose bodies run into each other.

use super::bodies::{Part, RunBodies};
use crate::geometry::distance::separation;
use crate::geometry::parting::widest_gap;
use crate::geometry::{DVec3, tolerance};

/// Two runs that are in one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossing {
    /// How deep they are in each other, m, above zero.
    pub depth_m: f64,
    /// The body of the first.
    pub part: Part,
    /// The body of the second.
    pub other_part: Part,
    /// Where, in site space.
    pub place: DVec3,
}

/// Where the bodies of two runs overlap, deepest; `None` where they don't. Touching,
/// up to [`tolerance::LIMIT`], is no overlap.
#[must_use]
pub fn crossing(one: &RunBodies, other: &RunBodies) -> Option<Crossing> {
    let (solids, others) = (one.solids(), other.solids());
    let mut deepest: Option<Crossing> = None;
    for (part, solid) in &solids {
        for (other_part, met) in &others {
            if !solid.bounds().meets(met.bounds()) {
                continue;
            }
            let depth_m = -widest_gap(solid, met).gap_m;
            let least_m = deepest.map_or(tolerance::LIMIT, |known| known.depth_m);
            if least_m < depth_m {
                let found = separation(solid, met);
                deepest = Some(Crossing {
                    depth_m,
                    part: *part,
                    other_part: *other_part,
                    place: (found.on_one + found.on_other) / 2.0,
                });
            }
        }
    }
    deepest
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use super::*;
    use crate::clearance::bodies::Body;
    use crate::geometry::{Bounds, Frame};

    fn tube(x: f64, y: f64, z: f64, bearing_degrees: f64) -> RunBodies {
        RunBodies {
            frame: Frame::sloped(DVec3::new(x, y, z), bearing_degrees, 0.0),
            bodies: vec![Body {
                part: Part::Tube,
                local: Bounds {
                    low: DVec3::new(0.0, -0.3, -0.1),
                    high: DVec3::new(10.0, 0.3, 0.1),
                },
            }],
        }
    }

    #[test]
    fn crossed_tubes_are_found_where_they_cross() {
        let found = crossing(&tube(0.0, 0.0, 5.0, 90.0), &tube(4.0, -5.0, 5.15, 0.0)).unwrap();
        assert!((found.depth_m - 0.05).abs() < 1e-12);
        assert!(found.place.abs_diff_eq(DVec3::new(4.0, 0.0, 5.075), 1e-9));
    }

    #[test]
    fn touching_or_passing_over_is_no_crossing() {
        let one = tube(0.0, 0.0, 5.0, 90.0);
        assert_eq!(crossing(&one, &tube(4.0, -5.0, 5.2, 0.0)), None);
        assert_eq!(crossing(&one, &tube(4.0, -5.0, 6.0, 0.0)), None);
        assert_eq!(crossing(&one, &tube(0.0, 0.6, 5.0, 90.0)), None);
    }
}
