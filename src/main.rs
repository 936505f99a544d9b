//! Starts the window or the command line.

use clap::Parser;
use rafterglow::cli::{self, Arguments};
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    match &arguments.command {
        Some(command) => cli::run(command),
        None => ExitCode::SUCCESS,
    }
}
