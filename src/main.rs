//! Starts the window or the command line, and maps what went wrong to exit codes.

use clap::Parser;
use rafterglow::cli::{self, Arguments, complain};
use rafterglow::editor::{Editor, open_window};
use rafterglow::site::Site;
use rafterglow::store;
use std::path::PathBuf;
use std::process::ExitCode;
use std::sync::Arc;

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    match &arguments.command {
        Some(command) => cli::run(command),
        None => match window(&arguments) {
            Ok(()) => ExitCode::SUCCESS,
            Err(message) => {
                complain(&message);
                ExitCode::from(cli::COULD_NOT)
            }
        },
    }
}

fn window(arguments: &Arguments) -> Result<(), String> {
    let catalogue = cli::catalogue_with(&arguments.catalogues).map_err(|failure| failure.0)?;
    let (site, file) = match &arguments.site {
        Some(path) => (
            store::open(path).map_err(|error| error.to_string())?,
            Some(path.clone()),
        ),
        None => last_or_sample()?,
    };
    store::check_against(
        file.as_deref().unwrap_or_else(|| "site".as_ref()),
        &site,
        &catalogue,
    )
    .map_err(|error| error.to_string())?;
    if !has_display() {
        return Err(without_window("there is no display"));
    }
    let editor = Editor::opened(site, file, Arc::new(catalogue));
    open_window(editor).map_err(|error| without_window(&error))
}

/// Whether there is anything to open a window on. Asked beforehand, because the window
/// system's own answer speaks to programmers.
fn has_display() -> bool {
    let names_one = |name| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    !cfg!(target_os = "linux")
        || ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"]
            .into_iter()
            .any(names_one)
}

fn without_window(cause: &str) -> String {
    format!(
        "no window could be opened: {cause}\n\
         These commands need no display: check, sheets, section, picture, hang, catalogue, explain. \
         See `rafterglow --help`."
    )
}

/// The site that was worked on last, or the first sample where there is none that opens.
fn last_or_sample() -> Result<(Site, Option<PathBuf>), String> {
    let recent = store::state_dir()
        .map(|dir| store::recent::read(&dir))
        .unwrap_or_default();
    for path in recent {
        if let Ok(site) = store::open(&path) {
            return Ok((site, Some(path)));
        }
    }
    let [first, ..] = store::samples::SAMPLES;
    first
        .open()
        .map(|site| (site, None))
        .map_err(|error| error.to_string())
}
