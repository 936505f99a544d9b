//! Sprinkler heads near a heater: which temperature rating their place asks for.
//!
//! NFPA 13 (2019), table 9.4.2.5(a): zones by the distance to the side and above. For a
//! heater that is long, distances count from the nearest point of its outline.

use super::bodies::{Part, RunBodies};
use crate::geometry::pieces::convex_hull;
use crate::geometry::polygon::ring_edges;
use crate::geometry::segment::{Meeting, meeting, nearest_on_segment};
use crate::geometry::{DVec2, Polygon, tolerance};

/// 7 ft: the near zone, to the side and above, m.
pub const NEAR_ZONE_M: f64 = 7.0 * 0.3048;
/// 20 ft: how far the zone on the discharge side reaches, m.
const FAR_ZONE_M: f64 = 20.0 * 0.3048;
/// 2 ft: how far below the top zones reach on the discharge side, m.
const BELOW_TOP_M: f64 = 2.0 * 0.3048;

/// The temperature class that a place asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum HeadZone {
    /// Away from the heater.
    Ordinary,
    /// 79 to 107 degC.
    Intermediate,
    /// 121 to 149 degC.
    High,
}

/// Where sprinkler heads are from a heater.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeadPlace {
    /// Distance in plan from the nearest point of tube and reflector, m; 0 over them.
    pub aside_m: f64,
    /// Above the lowest point of the heater's top, m; less than zero below it.
    pub above_top_m: f64,
    /// Above the highest point of the heater's top, m.
    pub above_highest_m: f64,
    /// Whether they are on the side that a tilted reflector throws to.
    pub on_discharge_side: bool,
    /// The point of the heads' outline in plan that is nearest, m.
    pub nearest: DVec2,
}

impl HeadPlace {
    /// The class that the place asks for. Limits are inclusive: a head on the bound of
    /// two zones is in the hotter one.
    #[must_use]
    pub fn zone(&self) -> HeadZone {
        let within = |distance: f64, most: f64| distance <= most + tolerance::LIMIT;
        let lowest_m = if self.on_discharge_side {
            -BELOW_TOP_M
        } else {
            0.0
        };
        if self.above_top_m < lowest_m - tolerance::LIMIT {
            return HeadZone::Ordinary;
        }
        let is_low = within(self.above_highest_m, NEAR_ZONE_M);
        if within(self.aside_m, NEAR_ZONE_M) {
            if is_low {
                HeadZone::High
            } else {
                HeadZone::Intermediate
            }
        } else if self.on_discharge_side && is_low && within(self.aside_m, FAR_ZONE_M) {
            HeadZone::Intermediate
        } else {
            HeadZone::Ordinary
        }
    }
}

impl HeadPlace {
    /// How far the heater may move level while the heads certainly stay in their zone, m:
    /// a distance to the side changes by no more than the move. 0 where a tilted heater
    /// is over them, so that any move may change on which side of it they are.
    /// `tilt_degrees` is the reflector's.
    #[must_use]
    pub fn level_room_m(&self, tilt_degrees: f64) -> f64 {
        let near_m = (NEAR_ZONE_M - self.aside_m).abs();
        if tilt_degrees.to_radians().abs() <= tolerance::LIMIT {
            return near_m;
        }
        let far_m = (FAR_ZONE_M - self.aside_m).abs();
        near_m.min(far_m).min(self.aside_m)
    }

    /// How far it may move up or down while they certainly stay in it, m.
    #[must_use]
    pub fn upright_room_m(&self) -> f64 {
        [
            self.above_top_m,
            self.above_top_m + BELOW_TOP_M,
            self.above_highest_m - NEAR_ZONE_M,
        ]
        .into_iter()
        .fold(f64::INFINITY, |least, room_m| least.min(room_m.abs()))
    }
}

impl RunBodies {
    /// Where heads at an elevation, anywhere within outlines in plan, are from the run.
    /// `tilt_degrees` is the reflector's, positive to the left. `None` without outlines.
    #[must_use]
    pub fn head_place(
        &self,
        outlines: &[Polygon],
        deflector_m: f64,
        tilt_degrees: f64,
    ) -> Option<HeadPlace> {
        let hot = self.bodies.iter().filter(|body| body.part != Part::Burner);
        let corners: Vec<_> = hot
            .flat_map(|body| self.frame.corners(&body.local))
            .collect();
        let plan: Vec<DVec2> = corners.iter().map(|c| c.truncate()).collect();
        let hull = Polygon::new(convex_hull(&plan));
        let (nearest, aside_m) = outlines
            .iter()
            .filter_map(|outline| nearest_of(outline, &hull))
            .min_by(|one, other| one.1.total_cmp(&other.1))?;
        let (lowest_top_m, highest_m) = self.top_m();
        let side_m = (nearest - self.frame.origin.truncate()).dot(self.frame.left.truncate());
        let tilt = tilt_degrees.to_radians();
        Some(HeadPlace {
            aside_m,
            above_top_m: deflector_m - lowest_top_m,
            above_highest_m: deflector_m - highest_m,
            on_discharge_side: tilt.abs() > tolerance::LIMIT && side_m * tilt > 0.0,
            nearest,
        })
    }

    /// The lowest and the highest elevation of the top of tube and reflector, m.
    fn top_m(&self) -> (f64, f64) {
        let tops = self.bodies.iter().filter(|body| body.part == Part::Tube);
        // Bit 2 of a corner's number says that it is an upper one.
        tops.flat_map(|body| self.frame.corners(&body.local).into_iter().skip(4))
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), corner| {
                (low.min(corner.z), high.max(corner.z))
            })
    }
}

/// The point of an outline nearest to a hull, and how far that is; 0 where they overlap.
/// Of many that are equally near, the middle, so that a turned site names the same one.
fn nearest_of(outline: &Polygon, hull: &Polygon) -> Option<(DVec2, f64)> {
    let in_hull = outline.outline.iter().filter(|p| hull.contains(**p));
    let in_outline = hull.outline.iter().filter(|p| outline.contains(**p));
    let crossings = outline
        .edges()
        .flat_map(|(a, b)| ring_edges(&hull.outline).filter_map(move |(c, d)| meeting(a, b, c, d)));
    let shared: Vec<DVec2> = in_hull
        .chain(in_outline)
        .copied()
        .chain(crossings.map(Meeting::place))
        .collect();
    if let Some(middle) = middle(&shared) {
        return Some((middle, 0.0));
    }
    let from_corners = outline
        .outline
        .iter()
        .map(|p| (*p, hull.distance_to_boundary(*p)));
    let from_hull = hull.outline.iter().flat_map(|corner| {
        outline.edges().map(move |(a, b)| {
            let on_it = nearest_on_segment(*corner, a, b);
            (on_it, corner.distance(on_it))
        })
    });
    let all: Vec<(DVec2, f64)> = from_corners.chain(from_hull).collect();
    let least_m = all.iter().map(|(_, m)| *m).fold(f64::INFINITY, f64::min);
    let nearest: Vec<DVec2> = all
        .iter()
        .filter(|(_, m)| *m <= least_m + tolerance::DISTANCE)
        .map(|(point, _)| *point)
        .collect();
    Some((middle(&nearest)?, least_m))
}

/// Halfway between the two points that are farthest apart. Points between them, which
/// rounding may keep or drop, make no difference.
fn middle(points: &[DVec2]) -> Option<DVec2> {
    let pairs = points.iter().enumerate().flat_map(|(k, one)| {
        let others = points[k..].iter();
        others.map(move |other| (one.distance_squared(*other), one.midpoint(*other)))
    });
    let farthest = pairs.max_by(|one, other| one.0.total_cmp(&other.0))?;
    Some(farthest.1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::clearance::bodies::Body;
    use crate::geometry::{Bounds, DVec3, Frame};

    /// A tube of 10 m along +x, 0.6 m wide, its top at 5.2 m.
    fn run() -> RunBodies {
        RunBodies {
            frame: Frame::sloped(DVec3::new(0.0, 0.0, 5.0), 90.0, 0.0),
            bodies: vec![Body {
                part: Part::Tube,
                local: Bounds {
                    low: DVec3::new(0.0, -0.3, -0.1),
                    high: DVec3::new(10.0, 0.3, 0.2),
                },
            }],
        }
    }

    /// A head 50 mm wide in the middle of the run's length.
    fn check(aside_m: f64, above_m: f64, tilt_degrees: f64, expected: HeadZone) {
        let y = aside_m.signum() * (aside_m.abs() + 0.3);
        let half = DVec2::new(0.025, 0.0);
        let middle = DVec2::new(5.0, y);
        let head = Polygon::new(vec![
            middle - half,
            middle + half,
            middle + half + DVec2::new(0.0, 0.05 * aside_m.signum()),
        ]);
        let place = run().head_place(&[head], 5.2 + above_m, tilt_degrees);
        let place = place.unwrap_or_else(|| panic!("a head has a place"));
        assert!((place.aside_m - aside_m.abs()).abs() < 1e-9, "{place:?}");
        assert_eq!(place.zone(), expected, "{aside_m} aside, {above_m} above");
    }

    #[test]
    fn zones_by_distance_as_the_table_has_them() {
        use HeadZone::{High, Intermediate, Ordinary};
        check(2.1, 0.5, 0.0, High);
        check(2.1, 2.13, 0.0, High);
        check(2.1, 2.2, 0.0, Intermediate);
        check(2.2, 0.5, 0.0, Ordinary);
        check(1.0, -0.1, 0.0, Ordinary);
    }

    #[test]
    fn the_side_that_a_tilted_reflector_throws_to_reaches_farther() {
        use HeadZone::{High, Intermediate, Ordinary};
        // Left of a run that bears east is north.
        check(3.0, 0.5, 30.0, Intermediate);
        check(-3.0, 0.5, 30.0, Ordinary);
        check(-3.0, 0.5, -30.0, Intermediate);
        check(1.0, -0.6, 30.0, High);
        check(1.0, -0.7, 30.0, Ordinary);
        check(6.2, 0.5, 30.0, Ordinary);
        check(3.0, 2.2, 30.0, Ordinary);
    }

    #[test]
    fn a_pipe_over_the_heater_is_nowhere_aside() {
        let pipe = Polygon::rectangle(DVec2::new(4.0, -9.0), DVec2::new(4.1, 9.0));
        let place = run().head_place(&[pipe], 6.0, 0.0);
        assert!(place.is_some_and(|place| place.aside_m == 0.0));
        assert_eq!(run().head_place(&[], 6.0, 0.0), None);
    }
}
