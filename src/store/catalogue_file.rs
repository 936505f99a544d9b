//! Catalogue files: the embedded ones and those that a user adds.

use super::envelope::{self, Kind};
use super::{StoreError, raw};
use crate::catalogue::{Catalogue, Family, validate};
use std::path::Path;

const CATALOGUE: Kind = Kind {
    label: "catalogue file",
    head: "RafterglowCatalogue",
    fields: &["format", "families"],
    format: 1,
};

/// The catalogue files that are part of the program, so that it runs from any folder.
const EMBEDDED: &[(&str, &str)] = &[
    (
        "generic-straight.ron",
        include_str!("../../assets/catalogue/generic-straight.ron"),
    ),
    (
        "generic-hairpin.ron",
        include_str!("../../assets/catalogue/generic-hairpin.ron"),
    ),
];

/// Reads the families of a catalogue file and checks them.
///
/// # Errors
/// Where the file can't be read, is no catalogue file, is of a newer format, or holds
/// what can't be used.
pub fn open(path: &Path) -> Result<Vec<Family>, StoreError> {
    parse(path, &raw::read_text(path)?)
}

/// Reads the families of a catalogue file's text and checks them; the path is for
/// messages.
///
/// # Errors
/// As [`open`], but for what the system refuses.
pub fn parse(path: &Path, text: &str) -> Result<Vec<Family>, StoreError> {
    let families: Vec<Family> = envelope::read(CATALOGUE, path, text)?;
    validate::check_families(&families).map_err(|problems| StoreError::Unusable {
        path: path.to_owned(),
        problems,
    })?;
    Ok(families)
}

/// The text of a catalogue file; the path is for messages.
///
/// # Errors
/// Where it can't be put into words, which would be a fault of the program.
pub fn text_of(path: &Path, families: &[Family]) -> Result<String, StoreError> {
    envelope::text_of(CATALOGUE, path, &families)
}

/// The invented, generic families that are part of the program.
///
/// A test makes sure that all of them can be read. One that couldn't would be left out,
/// and sites that name it would be told so.
pub fn embedded() -> Catalogue {
    Catalogue::new(
        EMBEDDED
            .iter()
            .filter_map(|(name, text)| parse(Path::new(name), text).ok())
            .flatten(),
    )
}

/// The embedded families and those of a user's files, which replace any of the same id.
///
/// # Errors
/// As [`open`], for the first file that can't be used.
pub fn with_files<'a>(files: impl IntoIterator<Item = &'a Path>) -> Result<Catalogue, StoreError> {
    let mut catalogue = embedded();
    for file in files {
        for family in open(file)? {
            catalogue.put(family);
        }
    }
    Ok(catalogue)
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use super::*;

    #[test]
    fn every_embedded_file_can_be_read_and_is_laid_out_as_we_write() {
        for (name, text) in EMBEDDED {
            let families = parse(Path::new(name), text).unwrap();
            assert_eq!(families.len(), 1, "{name}");
            assert!(!families[0].source.certified, "{name} is invented");
            let written = text_of(Path::new(name), &families).unwrap();
            assert_eq!(written, *text, "{name} is not laid out as the program does");
        }
        assert_eq!(embedded().families().len(), EMBEDDED.len());
    }
}
