//! The files that were worked on lately, newest first.

use super::{StoreError, raw};
use std::fs;
use std::path::{Path, PathBuf};

/// How many files are remembered.
pub const MOST: usize = 12;

const FILE: &str = "recent.txt";

/// The recent files, newest first. A list that can't be read is an empty one: nothing
/// depends on it.
pub fn read(dir: &Path) -> Vec<PathBuf> {
    let text = raw::read_text(&dir.join(FILE)).unwrap_or_default();
    let lines = text.lines().filter(|line| !line.is_empty());
    lines.take(MOST).map(PathBuf::from).collect()
}

/// Puts a file at the head of the list.
///
/// # Errors
/// Where the list can't be written.
pub fn note(dir: &Path, path: &Path) -> Result<(), StoreError> {
    let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    let mut list = read(dir);
    list.retain(|known| *known != path);
    list.insert(0, path);
    list.truncate(MOST);
    write(dir, &list)
}

/// Takes a file off the list, such as one that is gone.
///
/// # Errors
/// Where the list can't be written.
pub fn forget(dir: &Path, path: &Path) -> Result<(), StoreError> {
    let mut list = read(dir);
    list.retain(|known| known != path);
    write(dir, &list)
}

fn write(dir: &Path, list: &[PathBuf]) -> Result<(), StoreError> {
    fs::create_dir_all(dir).map_err(|cause| raw::system(dir, "created", cause))?;
    // One path a line; a path that is no text, or has a line break in it, is not
    // remembered.
    let text: String = list
        .iter()
        .filter_map(|path| path.to_str())
        .filter(|path| !path.contains(['\n', '\r']))
        .map(|path| format!("{path}\n"))
        .collect();
    raw::write(&dir.join(FILE), text.as_bytes())
}
