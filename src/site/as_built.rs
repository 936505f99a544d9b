//! The building as built: where members are, by a tape instead of by the drawing.
//!
//! A measurement is absolute. It says how far a member lies from a grid line, or how
//! high the surface is that it is hung from, so it stays true when the drawing of the
//! framing is corrected afterwards. What the member is moved and raised by follows.

use super::bay::along;
use super::id::GridId;
use super::{Framing, GridLine};
use crate::geometry::{DVec2, tolerance};
use crate::units::Length;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// The columns of a survey as a table that are read, in any order; a table must have
/// the first.
pub const COLUMNS: [&str; 7] = [
    "member",
    "from",
    "distance",
    "height",
    "height at",
    "missing",
    "note",
];

/// Columns of it that only inform whoever fills the table in.
pub const INFORMING: [&str; 4] = ["positive", "drawn distance", "drawn low end", "carries"];

/// How one member differs from the drawing.
///
/// Its place is given either by `moved` or by `measured_at`, its height either by
/// `raised` or by `measured_height`; both at once are refused.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MemberAdjustment {
    /// The member's number, as in its id: 20 for `J-20`.
    pub member: usize,
    /// Moved to the right of its bearing (negative: to the left).
    #[serde(default)]
    pub moved: Length,
    /// Raised (negative: lowered).
    #[serde(default)]
    pub raised: Length,
    /// Where it was found, from a grid line.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub measured_at: Option<MeasuredAt>,
    /// How high it was found.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub measured_height: Option<MeasuredHeight>,
    /// Not there.
    #[serde(default)]
    pub missing: bool,
    /// What the user noted.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// Where a member was found: so far from a grid line that runs along it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MeasuredAt {
    /// The grid line.
    pub from: GridId,
    /// Distance from it in plan, positive to the right of the framing's bearing: of
    /// members that run north, to the east. [`compass`] says the side in words.
    pub distance: Length,
}

/// How high a member was found.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MeasuredHeight {
    /// Elevation above the finished floor of the surface that it is hung from: the
    /// underside of the chord or flange, without the clamp.
    pub height: Length,
    /// Where along the member. All its spans are raised with that place.
    pub at: HeightAt,
}

/// Where along a member its height was measured.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum HeightAt {
    /// At the lowest end of its spans.
    LowEnd,
    /// So far from a grid line that crosses it.
    FromLine {
        /// The grid line.
        line: GridId,
        /// Distance from it along the member, positive along the framing's bearing.
        distance: Length,
    },
    /// So far along the bearing from the framing's anchor. This is what stays of a
    /// place on a member when the grid line that it was measured from is removed.
    FromAnchor(Length),
}

impl MemberAdjustment {
    /// A member of which nothing is known yet but its drawing.
    pub const fn as_drawn(member: usize) -> Self {
        Self {
            member,
            moved: Length::ZERO,
            raised: Length::ZERO,
            measured_at: None,
            measured_height: None,
            missing: false,
            notes: String::new(),
        }
    }

    /// Whether it says nothing that the drawing does not say.
    pub fn says_nothing(&self) -> bool {
        *self == Self::as_drawn(self.member)
    }

    /// Whether somebody has been there: its place was measured, moved by hand, or it was
    /// found missing.
    pub fn is_surveyed(&self) -> bool {
        self.measured_at.is_some() || self.moved != Length::ZERO || self.missing
    }
}

impl Framing {
    /// Unit vector to the right of the bearing, the way in which members are counted.
    pub fn right(&self) -> DVec2 {
        -along(self.bearing).perp()
    }

    /// Where a member is drawn: distance to the right of the anchor, m. Numbers begin
    /// at 1.
    pub fn drawn_offset_m(&self, member: usize) -> f64 {
        #[expect(
            clippy::cast_precision_loss,
            reason = "member counts are capped far below 2^52"
        )]
        let k = member.saturating_sub(1) as f64;
        self.first.as_metres() + self.spacing.as_metres() * k
    }

    /// Distance of a grid line to the right of the anchor, m, where it runs along the
    /// members; a line within [`tolerance::ALONG_MEMBERS`] counts with its middle.
    pub fn line_offset_m(&self, line: &GridLine) -> Option<f64> {
        let heading = along(self.bearing);
        let is_along = line.direction().perp_dot(heading).abs() <= tolerance::ALONG_MEMBERS;
        is_along.then(|| {
            let middle = line.from + (line.to - line.from) / 2.0;
            self.right().dot(middle - self.anchor)
        })
    }

    /// Where a grid line crosses a member that lies so far to the right of the anchor:
    /// distance along the bearing from the anchor, m. Nothing for a line too flat to
    /// the members to cut them.
    pub fn line_station_m(&self, line: &GridLine, offset_m: f64) -> Option<f64> {
        let heading = along(self.bearing);
        line.crosses(heading).then(|| {
            let foot = self.anchor + self.right() * offset_m;
            let direction = line.direction();
            direction.perp_dot(line.from - foot) / direction.perp_dot(heading)
        })
    }

    /// Where a member is: distance to the right of the anchor, m. A measurement from a
    /// line that is not there, or does not run along the members, is not counted.
    pub fn built_offset_m(&self, adjustment: &MemberAdjustment, grid: &[Arc<GridLine>]) -> f64 {
        let measured = adjustment.measured_at.as_ref().and_then(|measured| {
            let line = grid.iter().find(|line| line.id == measured.from)?;
            Some(self.line_offset_m(line)? + measured.distance.as_metres())
        });
        measured.unwrap_or_else(|| {
            self.drawn_offset_m(adjustment.member) + adjustment.moved.as_metres()
        })
    }

    /// Where along a member its height was measured: distance along the bearing from the
    /// anchor, m; nothing for its low end.
    pub fn height_station_m(
        &self,
        at: &HeightAt,
        offset_m: f64,
        grid: &[Arc<GridLine>],
    ) -> Option<f64> {
        match at {
            HeightAt::LowEnd => None,
            HeightAt::FromAnchor(distance) => Some(distance.as_metres()),
            HeightAt::FromLine { line, distance } => {
                let line = grid.iter().find(|known| known.id == *line)?;
                Some(self.line_station_m(line, offset_m)? + distance.as_metres())
            }
        }
    }

    /// Whether any place or height of it was measured.
    pub fn is_measured(&self) -> bool {
        let measured =
            |it: &MemberAdjustment| it.measured_at.is_some() || it.measured_height.is_some();
        self.as_built.iter().any(measured)
    }

    /// Whether a measurement stands on a grid line.
    pub fn is_measured_from(&self, line: &GridId) -> bool {
        self.as_built.iter().any(|it| it.names(line))
    }

    /// The framing without any measurement from a grid line: each becomes the move, or
    /// the place, that it came to, so that nothing jumps.
    #[must_use]
    pub fn settled(&self, line: &GridId, grid: &[Arc<GridLine>]) -> Self {
        let mut settled = self.clone();
        for adjustment in &mut settled.as_built {
            let offset_m = self.built_offset_m(adjustment, grid);
            if let Some(height) = &mut adjustment.measured_height
                && matches!(&height.at, HeightAt::FromLine { line: from, .. } if from == line)
                && let Some(station_m) = self.height_station_m(&height.at, offset_m, grid)
            {
                height.at = HeightAt::FromAnchor(Length::metres(station_m));
            }
            if adjustment
                .measured_at
                .as_ref()
                .is_some_and(|it| it.from == *line)
            {
                let drawn_m = self.drawn_offset_m(adjustment.member);
                adjustment.moved = Length::metres(offset_m - drawn_m);
                adjustment.measured_at = None;
            }
        }
        settled
    }
}

impl MemberAdjustment {
    fn names(&self, line: &GridId) -> bool {
        let at = self.measured_at.as_ref().map(|it| &it.from);
        let height = self.measured_height.as_ref().and_then(|it| it.at.line());
        at == Some(line) || height == Some(line)
    }

    /// Gives a grid line that it measures from another name.
    pub(super) fn rename_line(&mut self, line: &GridId, to: &str) {
        if let Some(measured) = &mut self.measured_at
            && measured.from == *line
        {
            measured.from = to.into();
        }
        if let Some(MeasuredHeight {
            at: HeightAt::FromLine { line: from, .. },
            ..
        }) = &mut self.measured_height
            && from == line
        {
            *from = to.into();
        }
    }

    /// The adjustment of a mirrored framing, whose members run the other way: to the
    /// right stays to the right, along the bearing becomes against it.
    pub(super) fn mirrored(&self) -> Self {
        let mut mirrored = self.clone();
        if let Some(height) = &mut mirrored.measured_height {
            match &mut height.at {
                HeightAt::LowEnd => {}
                HeightAt::FromLine { distance, .. } | HeightAt::FromAnchor(distance) => {
                    // 0 is taken as it is: its negative would be another text in the file.
                    if *distance != Length::ZERO {
                        *distance = -*distance;
                    }
                }
            }
        }
        mirrored
    }
}

impl HeightAt {
    /// The grid line that it is measured from.
    pub const fn line(&self) -> Option<&GridId> {
        match self {
            Self::FromLine { line, .. } => Some(line),
            Self::LowEnd | Self::FromAnchor(_) => None,
        }
    }
}

/// The side of the plan that a direction points to, in words: `east`, `north-west`.
pub fn compass(direction: DVec2) -> &'static str {
    /// Tangent of 22.5 degrees: within that of an axis it is the axis's name.
    const NEAR_AXIS: f64 = 0.414_214;
    let (x, y) = (direction.x, direction.y);
    let is_upright = x.abs() <= NEAR_AXIS * y.abs();
    let is_level = y.abs() <= NEAR_AXIS * x.abs();
    match (is_upright, is_level, 0.0 <= x, 0.0 <= y) {
        (true, _, _, true) => "north",
        (true, _, _, false) => "south",
        (_, true, true, _) => "east",
        (_, true, false, _) => "west",
        (_, _, true, true) => "north-east",
        (_, _, true, false) => "south-east",
        (_, _, false, true) => "north-west",
        (_, _, false, false) => "south-west",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sides_have_names() {
        for (x, y, name) in [
            (1.0, 0.0, "east"),
            (1.0, 0.4, "east"),
            (1.0, 0.5, "north-east"),
            (0.0, 1.0, "north"),
            (-0.1, -1.0, "south"),
            (-1.0, 0.0, "west"),
            (-1.0, 1.0, "north-west"),
            (1.0, -1.0, "south-east"),
        ] {
            assert_eq!(compass(DVec2::new(x, y)), name);
        }
    }
}
