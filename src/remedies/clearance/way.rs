//! The ways in which a run may change.

use crate::geometry::{DVec2, DVec3};
use crate::site::Run;
use crate::site::bay::along;
use crate::units::Length;

/// A way in which a run may change.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Way {
    /// Raised or lowered.
    Height,
    /// Moved across its tube.
    Across,
    /// Moved along its tube.
    Along,
    /// Its reflector tilted otherwise.
    Tilt,
    /// Other side shields fitted.
    Shield,
    /// Turned end for end where it lies.
    EndForEnd,
    /// A size of less input.
    SmallerSize,
}

impl Way {
    /// All, in the order in which they are offered.
    pub const ALL: [Self; 7] = [
        Self::Height,
        Self::Across,
        Self::Along,
        Self::Tilt,
        Self::Shield,
        Self::EndForEnd,
        Self::SmallerSize,
    ];

    /// The trade's name for it.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Height => "raise or lower",
            Self::Across => "move across",
            Self::Along => "move along",
            Self::Tilt => "tilt",
            Self::Shield => "side shields",
            Self::EndForEnd => "turn end for end",
            Self::SmallerSize => "smaller size",
        }
    }
}

/// A straight move of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Move {
    /// Up.
    Up,
    /// Down.
    Down,
    /// To the left, seen along the bearing, level.
    Left,
    /// To the right.
    Right,
    /// Along the bearing, level.
    Forward,
    /// Against it.
    Back,
}

impl Move {
    /// The two straight moves of a way; the first is preferred where both are equal.
    pub(super) const fn both(way: Way) -> Option<[Self; 2]> {
        match way {
            Way::Height => Some([Self::Up, Self::Down]),
            Way::Across => Some([Self::Left, Self::Right]),
            Way::Along => Some([Self::Forward, Self::Back]),
            Way::Tilt | Way::Shield | Way::EndForEnd | Way::SmallerSize => None,
        }
    }

    /// Its direction in space for a run, a unit vector.
    #[must_use]
    pub fn direction(self, run: &Run) -> DVec3 {
        let heading = along(run.bearing);
        let level = |plan: DVec2| plan.extend(0.0);
        match self {
            Self::Up => DVec3::Z,
            Self::Down => -DVec3::Z,
            Self::Left => level(heading.perp()),
            Self::Right => -level(heading.perp()),
            Self::Forward => level(heading),
            Self::Back => -level(heading),
        }
    }

    /// The run moved by a distance.
    #[must_use]
    pub fn moved(self, run: &Run, by_m: f64) -> Run {
        let by = self.direction(run) * by_m;
        Run {
            burner: run.burner + by.truncate(),
            tube_height: run.tube_height + Length::metres(by.z),
            ..run.clone()
        }
    }
}
