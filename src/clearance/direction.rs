//! The six directions of a run.

use crate::geometry::Bounds;

/// A direction from a run, along the axes of its frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Direction {
    /// Up from the tube, square to it (+u).
    Above,
    /// Down from it (-u).
    Below,
    /// To the left, seen along the bearing (+l).
    Left,
    /// To the right (-l).
    Right,
    /// Beyond the burner, which is also the exhaust end of a hairpin (-s).
    NearEnd,
    /// Beyond the exhaust, or beyond the bend of a hairpin (+s).
    FarEnd,
}

impl Direction {
    /// All six. Where two moves are equally short, the earlier one is named: raising
    /// before moving across before moving along.
    pub const ALL: [Self; 6] = [
        Self::Below,
        Self::Above,
        Self::Left,
        Self::Right,
        Self::NearEnd,
        Self::FarEnd,
    ];

    /// The trade's name for it.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Above => "above",
            Self::Below => "below",
            Self::Left => "left",
            Self::Right => "right",
            Self::NearEnd => "burner end",
            Self::FarEnd => "far end",
        }
    }

    /// Its position in [`Direction::ALL`].
    #[must_use]
    pub const fn index(self) -> usize {
        match self {
            Self::Below => 0,
            Self::Above => 1,
            Self::Left => 2,
            Self::Right => 3,
            Self::NearEnd => 4,
            Self::FarEnd => 5,
        }
    }

    /// The local axis that it runs along: 0 for s, 1 for l, 2 for u.
    #[must_use]
    pub const fn axis(self) -> usize {
        match self {
            Self::NearEnd | Self::FarEnd => 0,
            Self::Left | Self::Right => 1,
            Self::Above | Self::Below => 2,
        }
    }

    /// +1 where it runs with its axis, -1 against it.
    #[must_use]
    pub const fn sign(self) -> f64 {
        match self {
            Self::Above | Self::Left | Self::FarEnd => 1.0,
            Self::Below | Self::Right | Self::NearEnd => -1.0,
        }
    }

    /// The other way.
    #[must_use]
    pub const fn opposite(self) -> Self {
        match self {
            Self::Above => Self::Below,
            Self::Below => Self::Above,
            Self::Left => Self::Right,
            Self::Right => Self::Left,
            Self::NearEnd => Self::FarEnd,
            Self::FarEnd => Self::NearEnd,
        }
    }

    /// Where a box ends in this direction, as a coordinate along its axis, m.
    #[must_use]
    pub fn face_of(self, local: &Bounds) -> f64 {
        if self.sign() > 0.0 {
            local.high[self.axis()]
        } else {
            local.low[self.axis()]
        }
    }
}
