//! A candidate in few bytes: a run has some hundred, of which a dozen is chosen.

use super::{Kind, Refusal};
use crate::geometry::tolerance;
use crate::hanging::run::HangingRule;

/// Nanometres in a metre: stations are whole numbers of them ([`tolerance::STATION`],
/// whose reciprocal is not exact).
pub(in crate::hanging) const NANOMETRES: f64 = 1e9;

/// Where a candidate is: what follows from it is worked out when it is asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::hanging) struct Spot {
    /// Its station, m, rounded.
    pub(in crate::hanging) station_m: f64,
    pub(in crate::hanging) kind: Kind,
    pub(in crate::hanging) refused: Option<Refusal>,
    /// Its hold; for a channel the one on the lower row.
    pub(super) first: Grip,
    /// A channel's other hold.
    pub(super) second: Option<Grip>,
}

/// A position along one of the case's spans.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Grip {
    pub(super) span: usize,
    pub(super) position_m: f64,
}

/// What the rule says to a place, whatever else is chosen.
pub(super) fn refusal(rule: &HangingRule, station_m: f64, suspension_m: f64) -> Option<Refusal> {
    if suspension_m < rule.least_suspension_m - tolerance::LIMIT {
        return Some(Refusal::SuspensionTooShort);
    }
    // Few, so that a look at all of them is quicker than a search.
    let on_joint = rule
        .joints_m
        .iter()
        .any(|joint_m| (joint_m - station_m).abs() < rule.joint_keep_off_m - tolerance::LIMIT);
    on_joint.then_some(Refusal::OnJoint)
}
