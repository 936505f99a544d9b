//! Recovery copies: what was not saved yet, kept in case the program or machine stops.
//!
//! A running program claims a slot by a lock that the system releases when the program
//! ends, however it ends. A copy in a slot whose lock is free was left behind by one
//! that did not end well.

use super::envelope::{self, Kind};
use super::{StoreError, raw, site_file};
use crate::site::Site;
use serde::{Deserialize, Serialize};
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

const COPY: Kind = Kind {
    label: "recovery copy",
    head: "RafterglowRecovery",
    fields: &["format", "copy"],
    format: 1,
};

/// More programs than anybody runs at once, and more crashes than anybody puts up with.
const MOST_SLOTS: usize = 100;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Copy {
    original: Option<String>,
    site: Site,
}

/// A place for this program's recovery copy, until it is dropped.
#[derive(Debug)]
pub struct Slot {
    copy: PathBuf,
    lock_path: PathBuf,
    /// Held open for its lock.
    _lock: File,
}

impl Slot {
    /// Claims a slot in a folder, which is made where there is none.
    ///
    /// # Errors
    /// Where the folder can't be used, or all slots are taken.
    pub fn claim(dir: &Path) -> Result<Self, StoreError> {
        fs::create_dir_all(dir).map_err(|cause| raw::system(dir, "created", cause))?;
        for number in 0..MOST_SLOTS {
            let copy = copy_path(dir, number);
            let lock_path = lock_path(dir, number);
            if copy.exists() {
                continue;
            }
            if let Some(lock) = lock(&lock_path)? {
                return Ok(Self {
                    copy,
                    lock_path,
                    _lock: lock,
                });
            }
        }
        let cause = io::Error::other("too many recovery copies lie there already");
        Err(raw::system(dir, "written", cause))
    }

    /// Writes the copy, or replaces the one written before. `original` is the file that
    /// the site was opened from.
    ///
    /// # Errors
    /// Where it can't be written.
    pub fn write(&self, site: &Site, original: Option<&Path>) -> Result<(), StoreError> {
        let copy = Copy {
            original: original.and_then(Path::to_str).map(str::to_owned),
            site: site.clone(),
        };
        let text = envelope::text_of(COPY, &self.copy, &copy)?;
        raw::write(&self.copy, text.as_bytes())
    }

    /// Removes the copy: everything is saved. Nothing happens where there is none.
    ///
    /// # Errors
    /// Where it can't be removed.
    pub fn clear(&self) -> Result<(), StoreError> {
        remove_file(&self.copy)
    }
}

impl Drop for Slot {
    fn drop(&mut self) {
        // A copy that is still there is wanted: the slot then stays as it is, and is
        // found free. A lock file that can't be removed does no harm.
        if !self.copy.exists() {
            fs::remove_file(&self.lock_path).ok();
        }
    }
}

/// A copy that a program left behind.
#[derive(Debug)]
pub struct Left {
    /// Where it lies.
    pub path: PathBuf,
    /// The file that the site was opened from, if it had one.
    pub original: Option<PathBuf>,
    /// When it was written.
    pub written: Option<SystemTime>,
    /// The site; or why it can't be used, in which case the copy is left where it is.
    pub site: Result<Site, StoreError>,
}

/// The copies in a folder that no running program holds, newest first. Where the folder
/// can't be read there are none.
pub fn find(dir: &Path) -> Vec<Left> {
    let mut found = Vec::new();
    for number in 0..MOST_SLOTS {
        let path = copy_path(dir, number);
        if path.exists() && is_free(&lock_path(dir, number)) {
            found.push(look_at(path));
        }
    }
    found.sort_by_key(|left| std::cmp::Reverse(left.written));
    found
}

/// Removes a copy that was left behind: it has been restored, or is not wanted.
///
/// # Errors
/// Where it can't be removed.
pub fn remove(left: &Left) -> Result<(), StoreError> {
    remove_file(&left.path)
}

fn look_at(path: PathBuf) -> Left {
    let written = fs::metadata(&path).and_then(|about| about.modified()).ok();
    let read = || -> Result<Copy, StoreError> {
        let copy: Copy = envelope::read(COPY, &path, &raw::read_text(&path)?)?;
        Ok(Copy {
            site: site_file::checked(&path, copy.site)?,
            ..copy
        })
    };
    let (original, site) = match read() {
        Ok(copy) => (copy.original.map(PathBuf::from), Ok(copy.site)),
        Err(fault) => (None, Err(fault)),
    };
    Left {
        path,
        original,
        written,
        site,
    }
}

fn copy_path(dir: &Path, number: usize) -> PathBuf {
    dir.join(format!("recovery-{number}.ron"))
}

fn lock_path(dir: &Path, number: usize) -> PathBuf {
    dir.join(format!("recovery-{number}.lock"))
}

/// The lock, if nobody holds it.
fn lock(path: &Path) -> Result<Option<File>, StoreError> {
    let refused = |cause| raw::system(path, "written", cause);
    let file = File::options()
        .create(true)
        .write(true)
        .truncate(false)
        .open(path)
        .map_err(refused)?;
    match file.try_lock() {
        Ok(()) => Ok(Some(file)),
        Err(fs::TryLockError::WouldBlock) => Ok(None),
        Err(fs::TryLockError::Error(cause)) => Err(refused(cause)),
    }
}

fn is_free(path: &Path) -> bool {
    match File::options().write(true).open(path) {
        Ok(file) => !matches!(file.try_lock(), Err(fs::TryLockError::WouldBlock)),
        // Without its lock file nobody holds it.
        Err(_) => true,
    }
}

fn remove_file(path: &Path) -> Result<(), StoreError> {
    match fs::remove_file(path) {
        Err(cause) if cause.kind() != io::ErrorKind::NotFound => {
            Err(raw::system(path, "removed", cause))
        }
        _ => Ok(()),
    }
}
