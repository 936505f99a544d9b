//! Rectangles turned in the plane of the paper.

use crate::geometry::DVec2;
use crate::sheets::paper::PaperPoint;

/// A rectangle turned in the plane of the paper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OrientedBox {
    /// The middle.
    pub centre: PaperPoint,
    /// Unit vector along its first side.
    pub along: DVec2,
    /// Half the sides along and across, mm.
    pub half: DVec2,
}

impl OrientedBox {
    /// Larger by this much on every side, mm.
    #[must_use]
    pub fn grown(self, by_mm: f64) -> Self {
        Self {
            half: (self.half + DVec2::splat(by_mm)).max(DVec2::ZERO),
            ..self
        }
    }

    /// Unit vector along its second side.
    #[must_use]
    pub fn across(self) -> DVec2 {
        DVec2::new(-self.along.y, self.along.x)
    }

    /// Its corners, in order round it.
    #[must_use]
    pub fn corners(self) -> [PaperPoint; 4] {
        let a = self.along * self.half.x;
        let b = self.across() * self.half.y;
        [
            self.centre - a - b,
            self.centre + a - b,
            self.centre + a + b,
            self.centre - a + b,
        ]
    }
}
