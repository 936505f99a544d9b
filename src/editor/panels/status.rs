//! How far each stage of the job is, in a word.

use crate::editor::{Editor, Stage};
use crate::findings::{Severity, Subject};

/// How far a stage is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum StageStatus {
    /// Nothing is there yet.
    Empty,
    /// Nothing is left to do that the program knows of.
    InOrder,
    /// So many things to be looked at.
    Open(usize),
    /// So many breaches.
    Breaches(usize),
}

impl StageStatus {
    /// The words for it where there is little room: many are a number beside a shape.
    pub(super) fn short_words(self) -> String {
        match self {
            Self::Open(count) | Self::Breaches(count) if count > 99 => count.to_string(),
            _ => self.words(),
        }
    }

    /// The words for it.
    pub(super) fn words(self) -> String {
        match self {
            Self::Empty => "empty".to_owned(),
            Self::InOrder => "ok".to_owned(),
            Self::Open(count) => format!("{count} open"),
            Self::Breaches(1) => "1 breach".to_owned(),
            Self::Breaches(count) => format!("{count} breaches"),
        }
    }
}

/// How far a stage is: what is there, and what was found about it.
pub(super) fn stage_status(editor: &Editor, stage: Stage) -> StageStatus {
    let site = editor.site();
    let is_empty = match stage {
        Stage::Shell => site.bays.is_empty(),
        Stage::Steel => site.framings.is_empty(),
        Stage::Obstructions => site.obstructions.is_empty() && site.work_spots.is_empty(),
        Stage::Runs | Stage::Sheets => site.scheme().runs.is_empty(),
    };
    let count = |severity: Severity| {
        editor
            .results
            .findings()
            .iter()
            .filter(|it| it.severity == severity && it.accepted.is_none())
            .filter(|it| it.subjects.first().is_some_and(|it| stage_of(it) == stage))
            .count()
    };
    match (is_empty, count(Severity::Breach), count(Severity::Caution)) {
        (true, ..) => StageStatus::Empty,
        (_, 0, 0) => StageStatus::InOrder,
        (_, 0, cautions) => StageStatus::Open(cautions),
        (_, breaches, _) => StageStatus::Breaches(breaches),
    }
}

/// The stage in which a finding about something is put right.
const fn stage_of(subject: &Subject) -> Stage {
    match subject {
        Subject::Run(_) | Subject::Hanger(..) | Subject::Family(_) => Stage::Runs,
        Subject::Member(_) | Subject::Framing(_) => Stage::Steel,
        Subject::Obstruction(_) => Stage::Obstructions,
        Subject::Wall(..) | Subject::Deck(_) | Subject::Bay(_) | Subject::Opening(_) => {
            Stage::Shell
        }
    }
}
