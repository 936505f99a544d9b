//! Pieces of a sheet that are drawn first and placed afterwards.

use crate::geometry::DVec2;
use crate::sheets::mark::Mark;
use crate::sheets::paper::PaperPoint;

/// Marks drawn from a top left corner at the paper's origin, and the room they take.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Block {
    /// What is drawn.
    pub marks: Vec<Mark>,
    /// Width, mm.
    pub width_mm: f64,
    /// Height, mm.
    pub height_mm: f64,
}

impl Block {
    /// A block of nothing that takes room.
    pub(super) fn empty(width_mm: f64, height_mm: f64) -> Self {
        Self {
            marks: Vec::new(),
            width_mm,
            height_mm,
        }
    }

    /// The marks with the block's top left corner at a point.
    pub(super) fn at(&self, corner: PaperPoint) -> impl Iterator<Item = Mark> + '_ {
        self.marks.iter().map(move |mark| Mark {
            shape: mark.shape.moved(0.0, corner),
            ..mark.clone()
        })
    }

    /// Another block put below this one, `gap_mm` under it.
    pub(super) fn over(mut self, below: &Self, gap_mm: f64) -> Self {
        let gap_mm = if self.height_mm > 0.0 && below.height_mm > 0.0 {
            gap_mm
        } else {
            0.0
        };
        let top = self.height_mm + gap_mm;
        self.marks.extend(below.at(DVec2::new(0.0, top)));
        self.width_mm = self.width_mm.max(below.width_mm);
        self.height_mm = top + below.height_mm;
        self
    }
}
