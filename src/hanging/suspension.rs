//! The one or two suspensions of a hanger: where they run, and what pulls in each.

use super::candidate::Candidate;
use super::run::RunAxis;
use crate::geometry::DVec3;
use crate::geometry::math::{atan2, sin};

/// One suspension, straight from its attach point to its eye, cold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Suspension {
    /// Its lower end.
    pub eye: DVec3,
    /// Its upper end; two suspensions of a hanger share it.
    pub attach: DVec3,
    /// Its length, m.
    pub length_m: f64,
    /// Pull in it with the run level, N.
    pub pull_n: f64,
    /// Pull in it for each newton that the hanger carries.
    pub pull_per_n: f64,
    /// Its lean across the run, rad, positive where the attach point is left of the eye.
    pub lean_rad: f64,
}

/// The suspensions of a hanger that carries a load.
///
/// One takes all of it. Two make a bridle: their vertical parts add up to the load and
/// their horizontal parts across the run are equal and opposite, so that the side with
/// the steeper suspension takes more. Where both eyes are on one side of the attach
/// point no such balance exists: the nearer one takes all and the other is slack.
pub(super) fn suspensions(axis: &RunAxis, at: &Candidate, load_n: f64) -> Vec<Suspension> {
    let left = axis.heading.perp();
    let mut legs: Vec<Suspension> = axis
        .eyes(at.station_m)
        .map(|eye| {
            let away = at.attach - eye;
            let length_m = away.length();
            Suspension {
                eye,
                attach: at.attach,
                length_m,
                pull_n: 0.0,
                pull_per_n: length_m / away.z,
                lean_rad: atan2(left.dot(away.truncate()), away.z),
            }
        })
        .collect();
    if let [one, other] = legs.as_mut_slice() {
        let (share_one, share_other) = bridle(slope(one, left), slope(other, left));
        one.pull_per_n *= share_one;
        other.pull_per_n *= share_other;
    }
    for leg in &mut legs {
        leg.pull_n = load_n * leg.pull_per_n;
    }
    legs
}

/// Across over up, signed.
fn slope(leg: &Suspension, left: crate::geometry::DVec2) -> f64 {
    let away = leg.attach - leg.eye;
    left.dot(away.truncate()) / away.z
}

/// The parts of the load that two suspensions of these slopes take.
fn bridle(one: f64, other: f64) -> (f64, f64) {
    if one * other < 0.0 {
        let both = one.abs() + other.abs();
        (other.abs() / both, one.abs() / both)
    } else if one.abs() <= other.abs() {
        (1.0, 0.0)
    } else {
        (0.0, 1.0)
    }
}

/// The least suspension that a hanger needs, and who says so.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeastSuspension {
    /// What the maker asks for, or the site's floor, m.
    pub by_rule_m: f64,
    /// What its movement asks for at the greatest swing, m: movement / sin(swing)
    /// (CODES.md 4.6).
    pub by_growth_m: f64,
}

impl LeastSuspension {
    /// For a hanger that moves by so much.
    pub(super) fn new(by_rule_m: f64, movement_m: f64, greatest_swing_rad: f64) -> Self {
        Self {
            by_rule_m,
            by_growth_m: movement_m.abs() / sin(greatest_swing_rad),
        }
    }

    /// The greater of both, m.
    #[must_use]
    pub const fn required_m(&self) -> f64 {
        self.by_rule_m.max(self.by_growth_m)
    }

    /// Whether the tube's growth asks for more than the rule.
    #[must_use]
    pub fn growth_governs(&self) -> bool {
        self.by_rule_m < self.by_growth_m
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::DVec2;
    use crate::geometry::math::tan;
    use crate::hanging::candidate::{Hold, Kind, Place};
    use crate::hanging::channel::leg_factor;
    use crate::hanging::growth::TemperatureRise;
    use crate::hanging::run::{Eyes, RunGeometry};
    use std::sync::Arc;

    fn axis(eyes: Eyes) -> RunAxis {
        RunGeometry {
            flange: DVec3::new(0.0, 0.0, 5.0),
            heading: DVec2::X,
            slope: 0.0,
            tube_length_m: 10.0,
            eye_rise_m: 0.15,
            eyes,
            rise: TemperatureRise::even(280.0),
        }
        .axis()
    }

    /// A hang point at station 4, so far left of the run and so high over the floor.
    fn hung(left_m: f64, attach_m: f64) -> Candidate {
        Candidate {
            station_m: 4.0,
            kind: Kind::Line,
            first: Hold {
                member: Arc::from("P-1"),
                span: 0,
                place: Place::Line,
                position_m: 0.0,
                share: 1.0,
            },
            second: None,
            channel: None,
            attach: DVec3::new(4.0, left_m, attach_m),
            suspension_m: 1.0,
            lean_rad: 0.0,
            ahead_m: 0.0,
            cost: 1_000,
            refused: None,
        }
    }

    fn two(apart_m: f64, tilt_deg: f64) -> Eyes {
        Eyes::Two {
            apart_m,
            tilt_rad: tilt_deg.to_radians(),
        }
    }

    /// codes.json `rope.vee`: 0.577 at 30 degrees, 0.707 at 45, 1.0 at 60.
    #[test]
    fn a_symmetric_bridle_pulls_as_the_leg_factor_says() {
        for (degrees, factor) in [(30.0_f64, 0.577), (45.0, 0.707), (60.0, 1.0)] {
            let drop_m = 0.15 / tan(degrees.to_radians());
            let legs = suspensions(&axis(two(0.3, 0.0)), &hung(0.0, 5.15 + drop_m), 100.0);
            assert_eq!(legs.len(), 2);
            for leg in &legs {
                assert!((leg.pull_per_n - factor).abs() < 0.001, "{leg:?}");
                assert!((leg.pull_per_n - leg_factor(2, degrees.to_radians())).abs() < 1e-12);
                assert!((leg.pull_n - 100.0 * leg.pull_per_n).abs() < 1e-12);
            }
            assert!(
                legs[0].lean_rad < 0.0 && 0.0 < legs[1].lean_rad,
                "left one first"
            );
        }
    }

    /// Whatever the tilt and the offset: vertical parts make up the load, horizontal ones
    /// cancel as long as the attach point is between the eyes, and none pushes.
    #[test]
    fn two_suspensions_balance() {
        let mut random = fastrand::Rng::with_seed(9);
        let mut balanced = 0;
        for _ in 0..2_000 {
            let eyes = two(0.1 + 0.8 * random.f64(), 90.0 * random.f64() - 45.0);
            let axis = axis(eyes);
            let at = hung(0.6 * random.f64() - 0.3, 5.7 + 2.0 * random.f64());
            let legs = suspensions(&axis, &at, 250.0);
            let (mut up_n, mut left_n) = (0.0, 0.0);
            for leg in &legs {
                assert!(leg.pull_n >= 0.0);
                let away = (leg.attach - leg.eye) / leg.length_m;
                up_n += leg.pull_n * away.z;
                left_n += leg.pull_n * away.y;
                assert!((leg.eye.distance(leg.attach) - leg.length_m).abs() < 1e-12);
            }
            assert!((up_n - 250.0).abs() < 1e-9, "{up_n}");
            let between = legs[1].eye.y < at.attach.y && at.attach.y < legs[0].eye.y;
            if between {
                balanced += 1;
                assert!(left_n.abs() < 1e-9, "{left_n}");
                assert!(legs.iter().all(|leg| leg.pull_n > 0.0));
            } else {
                assert!(legs.iter().any(|leg| leg.pull_n == 0.0), "one is slack");
            }
        }
        assert!(balanced > 1_000, "only {balanced} were between the eyes");
    }

    #[test]
    fn eyes_turn_with_the_reflector() {
        let eyes: Vec<DVec3> = axis(two(0.4, 0.0)).eyes(2.0).collect();
        assert!((eyes[0] - DVec3::new(2.0, 0.2, 5.15)).length() < 1e-12);
        assert!((eyes[1] - DVec3::new(2.0, -0.2, 5.15)).length() < 1e-12);
        // Aimed left by 30 degrees: the left eye rises, the right one sinks.
        let axis = axis(two(0.4, 30.0));
        let eyes: Vec<DVec3> = axis.eyes(2.0).collect();
        let (sine, cosine) = (0.5, 0.75_f64.sqrt());
        let left = DVec3::new(
            2.0,
            0.2 * cosine - 0.15 * sine,
            5.0 + 0.2 * sine + 0.15 * cosine,
        );
        let right = DVec3::new(
            2.0,
            -0.2 * cosine - 0.15 * sine,
            5.0 - 0.2 * sine + 0.15 * cosine,
        );
        assert!((eyes[0] - left).length() < 1e-12, "{eyes:?}");
        assert!((eyes[1] - right).length() < 1e-12, "{eyes:?}");
        assert!((axis.highest_eye_m(2.0) - left.z).abs() < 1e-12);
    }

    #[test]
    fn growth_or_the_rule_asks_for_more() {
        let least = LeastSuspension::new(0.28, -0.061, 10.0_f64.to_radians());
        assert!(least.growth_governs());
        assert!((least.required_m() - 0.351).abs() < 0.001);
        let least = LeastSuspension::new(0.52, 0.061, 10.0_f64.to_radians());
        assert!(!least.growth_governs());
        assert_eq!(least.required_m(), 0.52);
    }
}
