//! The command line: a thin shell over the same core as the window.
//!
//! Answers go to standard output, messages to standard error. Exit codes: 0 no
//! unaccepted breach, 1 a breach, 2 could not do it.

mod arguments;
mod catalogue;
mod check;
mod explain;
mod hang;
pub mod json;
mod picture;
mod report;
mod section;
mod sheets;
mod shifts;
mod survey;
mod survey_report;
mod ways_out;

pub use arguments::{Arguments, Command, SiteChoice};
pub use check::catalogue as catalogue_with;

use std::process::ExitCode;

/// How a command ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Done, and no unaccepted breach.
    Clean,
    /// Done, and there is an unaccepted breach.
    Breach,
}

/// What kept a command from being done, as its message.
#[derive(Debug, thiserror::Error)]
#[error("{0}")]
pub struct Failure(pub String);

/// Exit code for what could not be done.
pub const COULD_NOT: u8 = 2;

/// Runs a command, prints its answer or its message, and tells the exit code.
#[must_use]
pub fn run(command: &Command) -> ExitCode {
    let outcome = match command {
        Command::Check(check) => check::run(check),
        Command::Sheets(sheets) => sheets::run(sheets),
        Command::Section(section) => section::run(section),
        Command::Picture(picture) => picture::run(picture),
        Command::Hang(hang) => hang::run(hang),
        Command::Survey(survey) => survey::run(survey),
        Command::Catalogue(catalogue) => catalogue::run(catalogue),
        Command::Explain(explain) => explain::run(explain),
    };
    match outcome {
        Ok(Outcome::Clean) => ExitCode::SUCCESS,
        Ok(Outcome::Breach) => ExitCode::FAILURE,
        Err(failure) => {
            complain(&failure.0);
            ExitCode::from(COULD_NOT)
        }
    }
}

/// Writes an answer. A closed pipe (`| head`) ends the answer, not the program.
fn answer(text: &str) {
    use std::io::Write;
    let mut out = std::io::stdout().lock();
    if out
        .write_all(text.as_bytes())
        .and_then(|()| out.flush())
        .is_err()
    {
        // Nobody reads on: nothing more to say.
    }
}

/// Writes a message.
pub fn complain(text: &str) {
    use std::io::Write;
    if writeln!(std::io::stderr().lock(), "rafterglow: {text}").is_err() {
        // Standard error is closed: there is nowhere left to complain.
    }
}
