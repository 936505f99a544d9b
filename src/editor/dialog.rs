//! The questions that the window puts, and their answers.

use std::path::PathBuf;

/// A question that waits for an answer. It holds what has been typed into it.
#[derive(Debug, Clone, PartialEq)]
pub enum Dialog {
    /// Which file to open.
    Open {
        /// The path as typed.
        path: String,
        /// What was wrong with it.
        trouble: Option<String>,
    },
    /// Which file to write.
    SaveAs {
        /// The path as typed.
        path: String,
        /// What was wrong with it.
        trouble: Option<String>,
        /// What was waiting for the save.
        then: Option<Waiting>,
    },
    /// What becomes of unsaved work.
    Unsaved {
        /// What waits for the answer.
        then: Waiting,
    },
    /// By what angle to turn.
    TurnBy {
        /// Degrees clockwise, as typed.
        angle: String,
    },
    /// How often, how far and which way to repeat.
    Repeat {
        /// Number of copies, as typed.
        count: String,
        /// Distance from one to the next, as typed.
        spacing: String,
        /// Bearing, as typed.
        bearing: String,
    },
    /// The numbers that may be overridden, each with its default and source.
    Policy,
    /// Which command.
    FindCommand {
        /// A part of its name, as typed.
        sought: String,
    },
}

/// What waits until unsaved work is saved or given up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Waiting {
    /// An empty site.
    New,
    /// Choosing a file.
    Open,
    /// A certain file.
    OpenPath(PathBuf),
    /// Closing the window.
    Close,
}

/// An answer to a question.
#[derive(Debug, Clone, PartialEq)]
pub enum Answer {
    /// Open this file.
    OpenPath(PathBuf),
    /// Write into this file.
    SaveTo(PathBuf),
    /// Save first, then go on with what waits.
    SaveFirst(Waiting),
    /// Give the changes up and go on with what waits.
    GiveUpChanges(Waiting),
    /// Turn what is picked by degrees clockwise.
    TurnBy(f64),
    /// Copies of what is picked.
    Repeat {
        /// How many.
        count: usize,
        /// Distance from one to the next, m.
        spacing_m: f64,
        /// Bearing, degrees.
        bearing_degrees: f64,
    },
}
