//! Bytes and text of files.

use super::StoreError;
use atomic_write_file::AtomicWriteFile;
use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

/// The largest file that is read.
pub const MOST_BYTES: u64 = 32 * 1024 * 1024;

/// The text of a file.
pub(super) fn read_text(path: &Path) -> Result<String, StoreError> {
    let refused = |cause| system(path, "read", cause);
    // Asked before opening: opening a pipe would wait for somebody to write to it.
    let about = fs::metadata(path).map_err(refused)?;
    if !about.is_file() {
        return Err(StoreError::NotAFile {
            path: path.to_owned(),
        });
    }
    let too_large = |n_bytes| StoreError::TooLarge {
        path: path.to_owned(),
        n_bytes,
    };
    if about.len() > MOST_BYTES {
        return Err(too_large(about.len()));
    }
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(refused)?;
    // One byte more than is accepted, in case the file grows meanwhile.
    let n_bytes = file
        .take(MOST_BYTES + 1)
        .read_to_end(&mut bytes)
        .map_err(refused)?;
    if n_bytes as u64 > MOST_BYTES {
        return Err(too_large(n_bytes as u64));
    }
    String::from_utf8(bytes).map_err(|fault| {
        let good = &fault.as_bytes()[..fault.utf8_error().valid_up_to()];
        let (line, column) = place_behind(good);
        StoreError::NotText {
            path: path.to_owned(),
            line,
            column,
        }
    })
}

/// Line and column behind some text, from 1.
fn place_behind(text: &[u8]) -> (usize, usize) {
    let line = text.iter().filter(|byte| **byte == b'\n').count() + 1;
    let last = text.rsplit(|byte| *byte == b'\n').next().unwrap_or(text);
    (line, String::from_utf8_lossy(last).chars().count() + 1)
}

/// Replaces a file's content, all or nothing. A link is followed, permissions are kept.
pub(super) fn write(path: &Path, bytes: &[u8]) -> Result<(), StoreError> {
    let write = || -> io::Result<()> {
        let mut file = AtomicWriteFile::open(behind_links(path)?)?;
        file.write_all(bytes)?;
        file.commit()
    };
    write().map_err(|cause| system(path, "written", cause))
}

/// The file that a path stands for. Putting a new file in the place of a link would
/// part it from what it links to.
pub(super) fn behind_links(path: &Path) -> io::Result<PathBuf> {
    match fs::symlink_metadata(path) {
        Ok(about) if about.is_symlink() => fs::canonicalize(path),
        _ => Ok(path.to_owned()),
    }
}

pub(super) fn system(path: &Path, doing: &'static str, cause: io::Error) -> StoreError {
    StoreError::System {
        path: path.to_owned(),
        doing,
        cause,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_count_lines_and_characters_from_1() {
        assert_eq!(place_behind(b""), (1, 1));
        assert_eq!(place_behind(b"ab\ncd"), (2, 3));
        assert_eq!(place_behind("ab\n\u{e9}".as_bytes()), (2, 2));
    }
}
