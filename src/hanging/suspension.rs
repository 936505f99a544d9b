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
