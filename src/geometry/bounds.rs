//! A box along the axes of whatever space it is in.

use super::DVec3;

/// The box between a lowest and a highest corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// The lowest coordinates.
    pub low: DVec3,
    /// The highest coordinates.
    pub high: DVec3,
}

impl Bounds {
    /// Round nothing: grows to whatever is added first.
    pub const EMPTY: Self = Self {
        low: DVec3::INFINITY,
        high: DVec3::NEG_INFINITY,
    };

    /// The smallest box round points; [`Bounds::EMPTY`] where there are none.
    #[must_use]
    pub fn around(points: &[DVec3]) -> Self {
        points.iter().fold(Self::EMPTY, |bounds, &p| bounds.with(p))
    }

    /// Grown to hold a point.
    #[must_use]
    pub fn with(self, p: DVec3) -> Self {
        Self {
            low: self.low.min(p),
            high: self.high.max(p),
        }
    }

    /// The smallest box round both.
    #[must_use]
    pub fn union(self, other: Self) -> Self {
        Self {
            low: self.low.min(other.low),
            high: self.high.max(other.high),
        }
    }

    /// Larger by a margin on every side; smaller where it is negative.
    #[must_use]
    pub fn grown(self, margin_m: f64) -> Self {
        Self {
            low: self.low - margin_m,
            high: self.high + margin_m,
        }
    }

    /// Whether the two have a point in common; touching counts.
    #[must_use]
    pub fn meets(&self, other: &Self) -> bool {
        self.low.cmple(other.high).all() && other.low.cmple(self.high).all()
    }

    /// Whether a point is inside; the surface counts.
    #[must_use]
    pub fn contains(&self, p: DVec3) -> bool {
        self.low.cmple(p).all() && p.cmple(self.high).all()
    }

    /// Its centre.
    #[must_use]
    pub fn centre(&self) -> DVec3 {
        (self.low + self.high) / 2.0
    }

    /// Half its size.
    #[must_use]
    pub fn half_size(&self) -> DVec3 {
        (self.high - self.low) / 2.0
    }

    /// Its corner that reaches farthest in a direction.
    #[must_use]
    pub fn farthest(&self, direction: DVec3) -> DVec3 {
        DVec3::select(direction.cmpge(DVec3::ZERO), self.high, self.low)
    }
}
