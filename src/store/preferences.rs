//! What a user chose once and for all sites.

use super::{StoreError, raw};
use serde::{Deserialize, Serialize};
use std::path::Path;

const FILE: &str = "preferences.ron";

/// What a user chose once and for all sites.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Preferences {
    /// Light or dark.
    pub look: Look,
    /// Whether the safety words were read, by the number of their wording: when they
    /// change they are shown again.
    pub cautions_read: u32,
}

/// Light or dark.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Look {
    /// What the desktop says.
    #[default]
    Desktop,
    /// Dark ink on light paper.
    Light,
    /// Light ink on dark paper.
    Dark,
}

/// The preferences kept in a folder; the defaults where they can't be read, because
/// nothing depends on them.
pub fn read(dir: &Path) -> Preferences {
    raw::read_text(&dir.join(FILE))
        .ok()
        .and_then(|text| ron::from_str(&text).ok())
        .unwrap_or_default()
}

/// Keeps preferences in a folder, which is made where there is none.
///
/// # Errors
/// Where they can't be written.
pub fn write(dir: &Path, preferences: &Preferences) -> Result<(), StoreError> {
    std::fs::create_dir_all(dir).map_err(|cause| raw::system(dir, "created", cause))?;
    let path = dir.join(FILE);
    let text = ron::to_string(preferences)
        .map_err(|cause| raw::system(&path, "written", std::io::Error::other(cause)))?;
    raw::write(&path, text.as_bytes())
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

    use super::*;

    #[test]
    fn preferences_are_kept_and_nonsense_counts_as_none() {
        let dir = std::env::temp_dir().join(format!("rafterglow-prefs-{}", std::process::id()));
        assert_eq!(read(&dir), Preferences::default());
        let kept = Preferences {
            look: Look::Dark,
            cautions_read: 3,
        };
        write(&dir, &kept).unwrap();
        assert_eq!(read(&dir), kept);
        std::fs::write(dir.join(FILE), "not ron").unwrap();
        assert_eq!(read(&dir), Preferences::default());
        std::fs::remove_dir_all(&dir).unwrap();
    }
}
