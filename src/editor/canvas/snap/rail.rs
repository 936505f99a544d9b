//! Lines that the pointer may be held on.

use crate::geometry::DVec2;

/// A line that the pointer may be held on.
#[derive(Debug, Clone)]
pub(super) struct Rail {
    pub(super) point: DVec2,
    pub(super) direction: DVec2,
    /// How far off it is, m; more where other lines are to be preferred.
    pub(super) cost: f64,
    pub(super) why: String,
    pub(super) shows_guide: bool,
}

impl Rail {
    pub(super) fn new(point: DVec2, along: DVec2, cost: f64, why: String) -> Option<Self> {
        Some(Self {
            point,
            direction: along.try_normalize()?,
            cost,
            why,
            shows_guide: false,
        })
    }

    pub(super) fn meets(&self, other: &Self) -> Option<DVec2> {
        let cross = self.direction.perp_dot(other.direction);
        // Lines within a few degrees meet far from where they both are near.
        if cross.abs() < 0.1 {
            return None;
        }
        let along = (other.point - self.point).perp_dot(other.direction) / cross;
        Some(self.point + self.direction * along)
    }

    pub(super) fn guide(&self, to: DVec2) -> Option<(DVec2, DVec2)> {
        self.shows_guide.then_some((self.point, to))
    }
}
