//! The questions that the window puts, and their answers.

use std::path::PathBuf;

/// A question that waits for an answer. It holds what has been typed into it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Dialog {
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
        /// Whether something that is no site is in the way, and may be replaced.
        may_replace: bool,
        /// What was waiting for the save.
        then: Option<Waiting>,
    },
    /// Which file to draw the section or the picture into.
    SavePicture {
        /// The path as typed.
        path: String,
        /// What was wrong with it.
        trouble: Option<String>,
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
    /// What becomes of the copies that a crash left behind.
    Recovery,
    /// The safety words, before the program is used for the first time.
    Cautions,
    /// Which command.
    FindCommand {
        /// A part of its name, as typed.
        sought: String,
    },
}

/// What a save may replace.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Replacing {
    /// Sites, of this or an older format.
    Sites,
    /// Whatever is there: the user was asked.
    Anything,
}

/// What waits until unsaved work is saved or given up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Waiting {
    /// An empty site.
    New,
    /// Choosing a file.
    Open,
    /// A certain file.
    OpenPath(PathBuf),
    /// The sample with this name.
    Sample(&'static str),
    /// Closing the window.
    Close,
}

/// An answer to a question.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Answer {
    /// Open this file.
    OpenPath(PathBuf),
    /// Open the sample with this name.
    OpenSample(&'static str),
    /// Write into this file.
    SaveTo(PathBuf, Replacing),
    /// Draw into this file.
    SavePicture(PathBuf),
    /// Save first, then go on with what waits.
    SaveFirst(Waiting),
    /// Give the changes up and go on with what waits.
    GiveUpChanges(Waiting),
    /// Take up the copy with this place in the list.
    Restore(usize),
    /// Throw that copy away.
    ThrowAway(usize),
    /// Ask about the copies another time.
    LeaveCopies,
    /// The safety words were read.
    CautionsRead,
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
