//! Framing: sets of parallel members under a bay's roof, as drawn and as built.

use super::as_built::MemberAdjustment;
use super::id::{BayId, FramingId, GridId};
use crate::geometry::DVec2;
use crate::units::{Angle, Force, Length};
use serde::{Deserialize, Serialize};

/// A set of parallel members under one bay's roof.
///
/// Member k (k = 0, 1, 2, ...) runs parallel to `bearing` at `first + k spacing` to the
/// right of the anchor, is clipped to the bay's outline, and is cut into spans at the
/// lines that it bears on. Member k is lettered `<id>-<k+1>`, its spans by the lines
/// at their two ends: `J-20/AB`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Framing {
    /// Its id, the letters that its members' ids begin with.
    pub id: FramingId,
    /// The bay whose roof it carries.
    pub bay: BayId,
    /// What its members are.
    pub kind: MemberKind,
    /// A plan point that spacing is counted from, m.
    pub anchor: DVec2,
    /// Bearing of the members.
    pub bearing: Angle,
    /// Distance of member 0 to the right of the anchor (seen along the bearing).
    pub first: Length,
    /// Distance between members, in plan.
    pub spacing: Length,
    /// Number of members, counted from member 0; without it, as many as the bay holds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub count: Option<usize>,
    /// Depth, vertical: deck to the underside of the bottom chord or flange. Where the
    /// bottom chord is level, the depth at the lower end of the span.
    pub depth: Length,
    /// Deck to the bearing surface at a span's end, which is also where the underside of
    /// the top chord lies.
    pub seat: Length,
    /// Width of the chord or flange, for clearance.
    pub width: Length,
    /// Lines that cut members into spans. The bay's walls always do.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub bears_on: Vec<GridId>,
    /// How the bottom chord runs.
    pub bottom: BottomChord,
    /// Where suspensions attach.
    pub hang_from: HangFrom,
    /// Drop of the clamp below the chord or flange that it grips.
    pub clamp_drop: Length,
    /// Panel points, for joists and trusses.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub panels: Option<Panels>,
    /// Load allowed at one panel point, or at any one place on a beam or purlin.
    pub allowed_at_point: Allowance,
    /// Load allowed in all within one chord panel, between its panel points. 0 forbids it.
    pub allowed_off_panel: Allowance,
    /// Load allowed in all on one member span, all its places together, such as a
    /// purlin's share of the collateral allowance; none where nobody has said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub allowed_in_all: Option<Force>,
    /// Where the building differs from the drawing.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub as_built: Vec<MemberAdjustment>,
    /// What the user noted.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// What a member is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum MemberKind {
    /// Open-web steel joist: hung from at panel points.
    OpenWebJoist,
    /// Purlin: hung from anywhere along it.
    Purlin,
    /// Beam: hung from anywhere along it.
    Beam,
    /// Timber truss: hung from at panel points; burns.
    TimberTruss,
}

impl MemberKind {
    /// Whether it has panel points rather than a line to hang from.
    pub const fn has_panel_points(self) -> bool {
        matches!(self, Self::OpenWebJoist | Self::TimberTruss)
    }

    /// Whether it burns.
    pub const fn is_timber(self) -> bool {
        matches!(self, Self::TimberTruss)
    }

    /// The trade's name for it.
    pub const fn label(self) -> &'static str {
        match self {
            Self::OpenWebJoist => "open-web joist",
            Self::Purlin => "purlin",
            Self::Beam => "beam",
            Self::TimberTruss => "timber truss",
        }
    }
}

/// How a bottom chord runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum BottomChord {
    /// Parallel to the roof.
    Parallel,
    /// Level.
    Level,
}

/// Where suspensions attach.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum HangFrom {
    /// Underside of the bottom chord.
    BottomChord,
    /// Underside of the top chord.
    TopChord,
    /// Underside of the bottom flange of a beam or purlin.
    Flange,
}

/// Panel points of a span: at `first + j spacing` from the span's end nearer the lowest
/// grid line (without one, nearer the bay's first corner), numbered from 1, strictly
/// inside the span.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Panels {
    /// Distance of the first from the span's end.
    pub first: Length,
    /// Distance between them.
    pub spacing: Length,
}

/// A load that the building's engineer allows.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Allowance {
    /// Nobody has said: printed "unknown: engineer", never as a percentage.
    Unknown,
    /// So much.
    Known(Force),
}

impl Allowance {
    /// The load, if it is known.
    pub const fn known(self) -> Option<Force> {
        match self {
            Self::Unknown => None,
            Self::Known(force) => Some(force),
        }
    }
}
