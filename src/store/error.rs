//! What can go wrong with a file, and what to do then.

use crate::problem::Problems;
use std::io;
use std::path::PathBuf;

/// Why a file could not be read or written.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// The system refused.
    #[error("{path}: can't be {doing}: {cause}", path = .path.display())]
    System {
        /// Which file.
        path: PathBuf,
        /// What was tried: "read", "written".
        doing: &'static str,
        /// What the system said.
        cause: io::Error,
    },
    /// No regular file: a folder, a device.
    #[error("{path}: is no file, but a folder or a device", path = .path.display())]
    NotAFile {
        /// What.
        path: PathBuf,
    },
    /// Larger than any site is.
    #[error("{path}: has {n_bytes} bytes; at most {most} are accepted, so this is something else", path = .path.display(), most = super::MOST_BYTES)]
    TooLarge {
        /// Which file.
        path: PathBuf,
        /// How many bytes it has.
        n_bytes: u64,
    },
    /// More lists and values than any site has.
    #[error("{path}: has {n_marks} brackets and commas; at most {most} are accepted, so this is something else", path = .path.display())]
    TooMuch {
        /// Which file.
        path: PathBuf,
        /// How many brackets and commas it has.
        n_marks: usize,
        /// How many are accepted.
        most: usize,
    },
    /// No text.
    #[error("{path}: is no text file (line {line}, column {column} is not UTF-8)", path = .path.display())]
    NotText {
        /// Which file.
        path: PathBuf,
        /// Where, from 1.
        line: usize,
        /// Where, from 1.
        column: usize,
    },
    /// Nothing in it.
    #[error("{path}: is empty; a {expected} begins with `{head}(`", path = .path.display())]
    Empty {
        /// Which file.
        path: PathBuf,
        /// What it should have been.
        expected: &'static str,
        /// How such a file begins.
        head: &'static str,
    },
    /// Text that is no such document.
    #[error("{path}: line {line}, column {column}: {message}", path = .path.display())]
    Malformed {
        /// Which file.
        path: PathBuf,
        /// Where, from 1.
        line: usize,
        /// Where, from 1.
        column: usize,
        /// What was found and what is accepted.
        message: String,
    },
    /// Written by a later version of the program.
    #[error("{path}: is of format {format}, and this version of Rafterglow reads formats 1 to {known}; open it with a newer version. The file was left as it is", path = .path.display())]
    Newer {
        /// Which file.
        path: PathBuf,
        /// Its format.
        format: u64,
        /// The newest format that is read.
        known: u64,
    },
    /// A document that can't be used.
    #[error("{path}: can't be used:\n{problems}", path = .path.display())]
    Unusable {
        /// Which file.
        path: PathBuf,
        /// Each field that can't be used.
        problems: Problems,
    },
    /// Saving would have destroyed something that is no readable site.
    #[error(
        "not saved, because the file that is there could not be read and may hold what nothing else does ({cause}). Save under another name, or say that it may be replaced"
    )]
    WouldReplace {
        /// Why it could not be read.
        cause: Box<Self>,
    },
    /// The document could not be put into words: a fault of the program.
    #[error("{path}: can't be written as text: {message}", path = .path.display())]
    Unwritable {
        /// Which file.
        path: PathBuf,
        /// What failed.
        message: String,
    },
    /// A name that would lead out of the folder it is meant for.
    #[error("{name:?} is no plain file name")]
    NotAName {
        /// The name.
        name: String,
    },
    /// No folder for what lasts between sessions.
    #[error("there is no folder to keep recovery copies in: set XDG_STATE_HOME or HOME")]
    NoStateDir,
}
