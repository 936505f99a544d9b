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

    /// How far apart the two are, m; zero where they meet.
    #[must_use]
    pub fn gap_m(&self, other: &Self) -> f64 {
        let apart = (other.low - self.high).max(self.low - other.high);
        apart.max(DVec3::ZERO).length()
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gap_is_measured_across_corners_and_is_zero_where_boxes_meet() {
        let cube = |low: DVec3| Bounds {
            low,
            high: low + 1.0,
        };
        let check = |to: [f64; 3], expected: f64| {
            let (one, other) = (cube(DVec3::ZERO), cube(DVec3::from(to)));
            assert_eq!(one.gap_m(&other), expected);
            assert_eq!(other.gap_m(&one), expected);
        };
        check([4.0, 5.0, 0.5], 5.0);
        check([0.0, -3.0, 0.0], 2.0);
        check([1.0, 1.0, 1.0], 0.0);
        check([0.5, 0.5, 0.5], 0.0);
    }
}
