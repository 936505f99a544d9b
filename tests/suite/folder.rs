//! A folder of a test's own.

use std::path::{Path, PathBuf};

/// A new, empty folder that is removed when dropped.
pub(crate) struct Folder(PathBuf);

impl Folder {
    /// Named after its test, so that tests side by side do not meet.
    pub(crate) fn new(test: &str) -> Self {
        Self::within(&std::env::temp_dir(), test)
    }

    /// The same in another place than where the system keeps what is temporary.
    pub(crate) fn within(place: &Path, test: &str) -> Self {
        let path = place.join(format!("rafterglow-{}-{test}", std::process::id()));
        std::fs::remove_dir_all(&path).ok();
        std::fs::create_dir_all(&path).expect("the folder for temporary files can be used");
        Self(path)
    }

    pub(crate) fn path(&self) -> &Path {
        &self.0
    }

    pub(crate) fn file(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }

    /// Names of what lies in it, sorted.
    pub(crate) fn names(&self) -> Vec<String> {
        let entries = std::fs::read_dir(&self.0).expect("the folder is there");
        let mut names: Vec<String> = entries
            .flatten()
            .map(|entry| entry.file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        std::fs::remove_dir_all(&self.0).ok();
    }
}
