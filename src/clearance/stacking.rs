//! How high goods may be stacked under a run, and over what area that holds.

use super::bodies::RunBodies;
use super::required::Required;
use crate::geometry::DVec2;
use crate::geometry::pieces::convex_hull;
use crate::units::Length;

/// What a stacking height is counted from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StackingGround {
    /// Elevation of the surface that goods stand on, m.
    pub surface_m: f64,
    /// How far a part may hang lower than drawn, m.
    pub level_error_m: f64,
    /// The posted height is a multiple of this: 0.1 m, or 4 inches.
    pub step: Length,
}

/// The greatest stacking height under a run.
#[derive(Debug, Clone, PartialEq)]
pub struct Stacking {
    /// Elevation of the run's lowest part, m, as drawn.
    pub lowest_part_m: f64,
    /// The height above the surface that the distance below leaves, m; none or less
    /// where nothing may be stacked.
    pub height_m: f64,
    /// The height to post: rounded down, at least nothing.
    pub posted: Length,
    /// The area in plan over which it holds, convex, counter-clockwise, m: round the
    /// envelope of the whole run.
    pub footprint: Vec<DVec2>,
}

impl Stacking {
    /// The height to post above a surface higher than the one that it is counted from, by
    /// `above_m`: rounded down, at least nothing.
    #[must_use]
    pub fn posted_above(&self, above_m: f64, step: Length) -> Length {
        Length::metres(self.height_m - above_m)
            .rounded_down_to(step)
            .max(Length::ZERO)
    }
}

impl RunBodies {
    /// Elevation of the lowest part, m: low end, reflector's edge, burner, whichever is
    /// lowest. Infinite without bodies.
    #[must_use]
    pub fn lowest_part_m(&self) -> f64 {
        self.bodies
            .iter()
            .flat_map(|body| self.frame.corners(&body.local))
            .map(|corner| corner.z)
            .fold(f64::INFINITY, f64::min)
    }

    /// The greatest stacking height under the run: its lowest part, less the level
    /// error, less the distance required below, from the surface that goods stand on.
    ///
    /// On a steep run the envelope reaches lower beyond its low end than that; then no
    /// higher than the envelope. Whoever keeps to the height stays out of the envelope.
    #[must_use]
    pub fn stacking(&self, required: &Required, ground: &StackingGround) -> Stacking {
        let lowest_part_m = self.lowest_part_m();
        let corners: Vec<_> = self
            .envelope(required)
            .flat_map(|envelope| self.frame.corners(&envelope))
            .collect();
        let lowest_envelope_m = corners.iter().map(|c| c.z).fold(f64::INFINITY, f64::min);
        let limit_m =
            (lowest_part_m - ground.level_error_m - required.below_m).min(lowest_envelope_m);
        let height_m = limit_m - ground.surface_m;
        let plan: Vec<DVec2> = corners.iter().map(|c| c.truncate()).collect();
        Stacking {
            lowest_part_m,
            height_m,
            posted: Length::metres(height_m)
                .rounded_down_to(ground.step)
                .max(Length::ZERO),
            footprint: convex_hull(&plan),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::clearance::bodies::{Body, Part};
    use crate::geometry::{Bounds, DVec3, Frame};

    /// A tube 10 m long, 0.6 m wide, 0.1 m below its axis, at 5 m at the burner.
    fn run(slope: f64) -> RunBodies {
        RunBodies {
            frame: Frame::sloped(DVec3::new(2.0, 3.0, 5.0), 90.0, slope),
            bodies: vec![Body {
                part: Part::Tube,
                local: Bounds {
                    low: DVec3::new(0.0, -0.3, -0.1),
                    high: DVec3::new(10.0, 0.3, 0.2),
                },
            }],
        }
    }

    fn required() -> Required {
        Required {
            below_m: 1.5,
            far_end_m: 0.75,
            near_end_m: 0.5,
            ..Required::all_round(1.0)
        }
    }

    fn ground(step: Length) -> StackingGround {
        StackingGround {
            surface_m: 0.2,
            level_error_m: 0.01,
            step,
        }
    }

    #[test]
    fn a_level_run_by_hand() {
        // 5.00 - 0.10 - 0.01 - 1.50 - 0.20 = 3.19
        let found = run(0.0).stacking(&required(), &ground(Length::metres(0.1)));
        assert!((found.lowest_part_m - 4.9).abs() < 1e-12);
        assert!((found.height_m - 3.19).abs() < 1e-12);
        assert!((found.posted.as_metres() - 3.1).abs() < 1e-12);
        let inches = run(0.0).stacking(&required(), &ground(Length::inches(4.0)));
        assert!((inches.posted.as_inches() - 124.0).abs() < 1e-9);
        let expected = [(1.5, 1.7), (12.75, 1.7), (12.75, 4.3), (1.5, 4.3)].map(DVec2::from);
        assert_eq!(found.footprint.len(), 4);
        assert!(
            expected
                .iter()
                .all(|e| found.footprint.iter().any(|f| f.abs_diff_eq(*e, 1e-12)))
        );
    }

    #[test]
    fn goods_on_a_raised_floor_are_counted_from_it() {
        let step = Length::metres(0.1);
        let found = run(0.0).stacking(&required(), &ground(step));
        // 3.19 above the ground; a floor of 2.45 m leaves 0.74.
        let posted = found.posted_above(2.45, step);
        assert!((posted.as_metres() - 0.7).abs() < 1e-12);
        assert_eq!(found.posted_above(3.2, step), Length::ZERO);
    }

    #[test]
    fn the_low_end_counts() {
        // 4 mm/m over 10 m: 40 mm lower at the exhaust.
        let found = run(0.004).stacking(&required(), &ground(Length::metres(0.1)));
        assert!((found.lowest_part_m - (4.9 - 0.04)).abs() < 1e-5);
        assert!((found.height_m - 3.15).abs() < 1e-5);
    }

    #[test]
    fn keeping_to_the_height_keeps_out_of_a_steep_envelope() {
        let found = run(0.1).stacking(&required(), &ground(Length::metres(0.1)));
        let steep = run(0.1);
        let lowest = steep
            .envelope(&required())
            .flat_map(|envelope| steep.frame.corners(&envelope))
            .map(|c| c.z)
            .fold(f64::INFINITY, f64::min);
        assert!(found.height_m + 0.2 <= lowest + 1e-12);
    }

    #[test]
    fn nothing_is_stacked_under_a_low_run() {
        let mut low = run(0.0);
        low.frame.origin.z = 1.0;
        let found = low.stacking(&required(), &ground(Length::metres(0.1)));
        assert!(found.height_m < 0.0);
        assert_eq!(found.posted, Length::ZERO);
    }
}
