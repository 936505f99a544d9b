//! The limits that a set of hangers must keep, by name, and what breaks them.

use super::loads::LoadPlace;
use super::run::{HangingRule, Window};

/// One limit on how a run hangs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Limit {
    /// Where the first hanger may be.
    FirstHanger,
    /// How far after the first hanger the second may be.
    SecondHanger,
    /// Least spacing of further hangers.
    LeastSpacing,
    /// Greatest spacing of further hangers.
    GreatestSpacing,
    /// Greatest length of tube beyond the last hanger.
    EndOverhang,
    /// Distance from tube joints.
    Joint,
    /// Least suspension length.
    Suspension,
    /// Greatest lean across the run.
    Lean,
    /// Greatest swing along the run, hot.
    Swing,
    /// What a place on a member may carry.
    Load,
    /// A cross channel's strength.
    ChannelBending,
    /// A cross channel's stiffness.
    ChannelDeflection,
    /// The weight must be between the outermost hangers.
    Balance,
}

impl Limit {
    /// Its name in reports.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::FirstHanger => "first-hanger",
            Self::SecondHanger => "second-hanger",
            Self::LeastSpacing => "least-spacing",
            Self::GreatestSpacing => "greatest-spacing",
            Self::EndOverhang => "end-overhang",
            Self::Joint => "tube-joint",
            Self::Suspension => "least-suspension",
            Self::Lean => "lean",
            Self::Swing => "swing",
            Self::Load => "load",
            Self::ChannelBending => "channel-bending",
            Self::ChannelDeflection => "channel-deflection",
            Self::Balance => "balance",
        }
    }

    /// The limits of which each is lifted alone to see whether a run could hang then.
    pub(super) const LIFTED_ALONE: [Self; 9] = [
        Self::FirstHanger,
        Self::SecondHanger,
        Self::LeastSpacing,
        Self::GreatestSpacing,
        Self::EndOverhang,
        Self::Joint,
        Self::Suspension,
        Self::Lean,
        Self::Load,
    ];
}

/// Which side of a limit passes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    /// The measure must not be less.
    Least,
    /// The measure must not be greater.
    Greatest,
}

/// One limit that is not kept.
#[derive(Debug, Clone, PartialEq)]
pub struct LimitBreach {
    /// Which.
    pub limit: Limit,
    /// The hangers that it is about, by their place in the answer.
    pub hangers: Vec<usize>,
    /// The place that carries too much, for loads.
    pub place: Option<LoadPlace>,
    /// What is: m, rad, N or N m, as the limit has it.
    pub measured: f64,
    /// What is required, in the same unit.
    pub required: f64,
    /// Which side passes.
    pub bound: Bound,
}

/// Farther than any run is long, m.
const ANYWHERE_M: f64 = 1e6;

/// The greatest lean, rad, that is looked at to see whether lean is what blocks a
/// run: 30 degrees. Beyond it the pull across is more than half the load, and a
/// suspension is a stay.
const LEAN_LOOKED_AT_RAD: f64 = std::f64::consts::FRAC_PI_6;

impl HangingRule {
    /// The same rule with one limit lifted. Those that are no limits of the rule
    /// (loads and what follows from them) change nothing.
    #[must_use]
    pub fn without(&self, limit: Limit) -> Self {
        let mut rule = self.clone();
        match limit {
            Limit::FirstHanger => {
                rule.first = Window {
                    least_m: 0.0,
                    greatest_m: ANYWHERE_M,
                }
            }
            Limit::SecondHanger => {
                rule.second = Window {
                    least_m: 0.0,
                    greatest_m: ANYWHERE_M,
                }
            }
            Limit::LeastSpacing => rule.spacing.least_m = 0.0,
            Limit::GreatestSpacing => rule.spacing.greatest_m = ANYWHERE_M,
            Limit::EndOverhang => rule.greatest_overhang_m = ANYWHERE_M,
            Limit::Joint => rule.joint_keep_off_m = 0.0,
            Limit::Suspension => rule.least_suspension_m = 0.0,
            Limit::Lean => {
                rule.greatest_lean_rad = rule.greatest_lean_rad.max(LEAN_LOOKED_AT_RAD);
            }
            Limit::Swing
            | Limit::Load
            | Limit::ChannelBending
            | Limit::ChannelDeflection
            | Limit::Balance => {}
        }
        rule
    }
}
