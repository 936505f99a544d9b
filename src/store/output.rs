//! Writing what the program makes: all files of a set, or none.

use super::{StoreError, raw};
use atomic_write_file::AtomicWriteFile;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// A file to be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OutputFile {
    /// Its name, without any folder.
    pub name: String,
    /// Its content.
    pub bytes: Vec<u8>,
}

/// Writes files into a folder, which is made where there is none: all of them or none.
/// Files of the same names are replaced.
///
/// Everything is first written beside its place, which is where disks run full and
/// folders turn out to be read-only; only then is each put in its place. Should even
/// that fail half-way, those already in place are put back.
///
/// # Errors
/// Where a name is no plain file name, or the system refuses.
pub fn write_all(dir: &Path, files: &[OutputFile]) -> Result<(), StoreError> {
    for file in files {
        check_name(&file.name)?;
    }
    fs::create_dir_all(dir).map_err(|cause| raw::system(dir, "created", cause))?;
    let mut waiting = Vec::new();
    for file in files {
        waiting.push(Waiting::new(dir, file)?);
    }
    let mut placed: Vec<Placed> = Vec::new();
    for file in waiting {
        match file.put_in_place() {
            Ok(file) => placed.push(file),
            Err(fault) => {
                for file in placed.into_iter().rev() {
                    file.put_back();
                }
                return Err(fault);
            }
        }
    }
    Ok(())
}

/// A name that stays in its folder, on every system.
fn check_name(name: &str) -> Result<(), StoreError> {
    let is_plain =
        !name.is_empty() && name != "." && name != ".." && !name.contains(['/', '\\', ':', '\0']);
    if is_plain {
        return Ok(());
    }
    Err(StoreError::NotAName {
        name: name.to_owned(),
    })
}

/// A file written beside its place.
struct Waiting {
    path: PathBuf,
    file: AtomicWriteFile,
}

impl Waiting {
    fn new(dir: &Path, file: &OutputFile) -> Result<Self, StoreError> {
        let path = dir.join(&file.name);
        if path.is_dir() {
            return Err(StoreError::NotAFile { path });
        }
        let write = || -> io::Result<AtomicWriteFile> {
            let mut beside = AtomicWriteFile::open(raw::behind_links(&path)?)?;
            beside.write_all(&file.bytes)?;
            Ok(beside)
        };
        match write() {
            Ok(file) => Ok(Self { path, file }),
            Err(cause) => Err(raw::system(&path, "written", cause)),
        }
    }

    fn put_in_place(self) -> Result<Placed, StoreError> {
        let before = match fs::read(&self.path) {
            Ok(bytes) => Some(bytes),
            Err(cause) if cause.kind() == io::ErrorKind::NotFound => None,
            Err(cause) => return Err(raw::system(&self.path, "read", cause)),
        };
        match self.file.commit() {
            Ok(()) => Ok(Placed {
                path: self.path,
                before,
            }),
            Err(cause) => Err(raw::system(&self.path, "written", cause)),
        }
    }
}

/// A file in its place, with what was there before.
struct Placed {
    path: PathBuf,
    before: Option<Vec<u8>>,
}

impl Placed {
    /// As far as the system still lets it: the failure that is reported is the one that
    /// led here.
    fn put_back(self) {
        match self.before {
            Some(bytes) => raw::write(&self.path, &bytes).ok(),
            None => fs::remove_file(&self.path).ok(),
        };
    }
}
