//! How far each stage of the job is, in a word.

use crate::editor::{Editor, Stage};

/// How far a stage is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum StageStatus {
    /// Nothing is there yet.
    Empty,
    /// Nothing is left to do that the program knows of.
    InOrder,
}

impl StageStatus {
    /// The words for it.
    pub(super) const fn words(self) -> &'static str {
        match self {
            Self::Empty => "empty",
            Self::InOrder => "ok",
        }
    }
}

/// How far a stage is.
pub(super) fn stage_status(editor: &Editor, stage: Stage) -> StageStatus {
    let site = editor.site();
    let is_empty = match stage {
        Stage::Shell => site.bays.is_empty(),
        Stage::Steel => site.framings.is_empty(),
        Stage::Obstructions => site.obstructions.is_empty() && site.work_spots.is_empty(),
        Stage::Runs | Stage::Sheets => site.scheme().runs.is_empty(),
    };
    if is_empty {
        StageStatus::Empty
    } else {
        StageStatus::InOrder
    }
}
