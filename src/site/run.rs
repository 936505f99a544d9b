//! Runs: heaters as placed.

use super::id::{MemberId, RunId};
use crate::catalogue::SuspensionKind;
use crate::geometry::DVec2;
use crate::units::{Angle, Length};
use serde::{Deserialize, Serialize};

/// One heater as placed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Run {
    /// Its id.
    pub id: RunId,
    /// Catalogue family.
    pub family: String,
    /// Size within the family.
    pub size: String,
    /// The tube axis at the burner flange in plan, m. A hairpin's lies midway between its legs.
    pub burner: DVec2,
    /// Elevation of the tube axis at the burner flange, cold.
    pub tube_height: Length,
    /// Bearing from burner to exhaust (hairpin: to the bend).
    pub bearing: Angle,
    /// Straight, or a hairpin with the side of its return leg.
    pub shape: RunShape,
    /// Turn of the reflector about the tube axis; positive aims left, seen along the bearing.
    #[serde(default)]
    pub tilt: Angle,
    /// Side shields fitted.
    #[serde(default)]
    pub shields: Shields,
    /// Hangers chosen by the program, or kept where they are.
    #[serde(default)]
    pub hanging: Hanging,
    /// Number of the hanger that stays put while the tube grows; hanger 1 unless set.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fixed_hanger: Option<usize>,
    /// What its suspensions are made of, where it isn't the site's usual kind.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub suspension: Option<SuspensionKind>,
    /// Where its exhaust goes.
    #[serde(default, skip_serializing_if = "Exhaust::is_usual")]
    pub exhaust: Exhaust,
    /// Control zone.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub zone: String,
    /// What the user noted.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// Where a run's exhaust goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Exhaust {
    /// Outside, through a vent.
    #[default]
    Vented,
    /// Into the hall, which is ventilated for it: a hot jet leaves the exhaust fitting.
    Unvented,
}

impl Exhaust {
    fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}

/// The form of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum RunShape {
    /// One straight tube.
    Straight,
    /// Two legs joined by a bend (U-tube).
    Hairpin {
        /// Side of the return leg, seen from burner to bend.
        return_leg: Side,
    },
}

/// A side, seen along the bearing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
}

impl Side {
    /// The other side.
    #[must_use]
    pub const fn opposite(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }
}

/// Side shields fitted to a reflector, seen along the bearing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Shields {
    /// None; in files `Without`, as a bare `None` means a missing value there.
    #[default]
    #[serde(rename = "Without", alias = "None")]
    None,
    /// On the left.
    Left,
    /// On the right.
    Right,
    /// On both sides.
    Both,
}

impl Shields {
    /// As seen in a mirror or from the other end.
    #[must_use]
    pub const fn swapped(self) -> Self {
        match self {
            Self::None => Self::None,
            Self::Left => Self::Right,
            Self::Right => Self::Left,
            Self::Both => Self::Both,
        }
    }
}

/// Who places the hangers.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub enum Hanging {
    /// The program, always the cheapest allowed set.
    #[default]
    Solved,
    /// They stay where they are and are checked.
    Locked(Vec<LockedHanger>),
}

/// A hanger that stays where it is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LockedHanger {
    /// Distance from the burner flange along the tube.
    pub station: Length,
    /// The member that it hangs from, or the two that its cross channel lies on.
    pub members: Vec<MemberId>,
    /// What of its one member it hangs from; where that isn't said, the cheapest hang
    /// point at its station, or else the nearest.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<LockedAt>,
}

/// What of a member a kept hanger hangs from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum LockedAt {
    /// A panel point, by its number from 1.
    PanelPoint(usize),
    /// A chord, between panel points.
    OffPanel,
}
