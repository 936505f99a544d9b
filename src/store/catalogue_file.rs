//! Catalogue files: the embedded ones and those that a user adds. One holds heater
//! families, or hardware.

use super::envelope::{self, Kind};
use super::{StoreError, raw};
use crate::catalogue::{Catalogue, Family, HardwareTable, validate};
use std::path::Path;

const CATALOGUE: Kind = Kind {
    label: "catalogue file",
    head: "RafterglowCatalogue",
    fields: &["format", "families"],
    format: 1,
};

const HARDWARE: Kind = Kind {
    label: "hardware file",
    head: "RafterglowHardware",
    fields: &["format", "hardware"],
    format: 1,
};

/// The hardware file that is part of the program.
const EMBEDDED_HARDWARE: (&str, &str) = (
    "generic.ron",
    include_str!("../../assets/hardware/generic.ron"),
);

/// What a catalogue file holds.
#[derive(Debug, Clone, PartialEq)]
pub enum Contents {
    /// Heater families.
    Families(Vec<Family>),
    /// Hardware.
    Hardware(HardwareTable),
}

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

/// Reads a catalogue file of either kind and checks it. It is a hardware file if that is
/// its first word.
///
/// # Errors
/// As [`open`].
pub fn open_contents(path: &Path) -> Result<Contents, StoreError> {
    let text = raw::read_text(path)?;
    if text
        .trim_start_matches('\u{feff}')
        .trim_start()
        .starts_with(HARDWARE.head)
    {
        parse_hardware(path, &text).map(Contents::Hardware)
    } else {
        parse(path, &text).map(Contents::Families)
    }
}

/// Reads the hardware of a hardware file's text and checks it; the path is for messages.
///
/// # Errors
/// As [`parse`].
pub fn parse_hardware(path: &Path, text: &str) -> Result<HardwareTable, StoreError> {
    let hardware: HardwareTable = envelope::read(HARDWARE, path, text)?;
    validate::check_hardware(&hardware).map_err(|problems| StoreError::Unusable {
        path: path.to_owned(),
        problems,
    })?;
    Ok(hardware)
}

/// The text of a hardware file; the path is for messages.
///
/// # Errors
/// As [`text_of`].
pub fn text_of_hardware(path: &Path, hardware: &HardwareTable) -> Result<String, StoreError> {
    envelope::text_of(HARDWARE, path, hardware)
}

/// The text of a catalogue file; the path is for messages.
///
/// # Errors
/// Where it can't be put into words, which would be a fault of the program.
pub fn text_of(path: &Path, families: &[Family]) -> Result<String, StoreError> {
    envelope::text_of(CATALOGUE, path, &families)
}

/// The invented, generic families and the generic hardware that are part of the program.
///
/// A test makes sure that all of them can be read. One that couldn't would be left out,
/// and sites that name it would be told so.
pub fn embedded() -> Catalogue {
    let mut catalogue = Catalogue::new(
        EMBEDDED
            .iter()
            .filter_map(|(name, text)| parse(Path::new(name), text).ok())
            .flatten(),
    );
    catalogue.hardware = embedded_hardware();
    catalogue
}

/// The generic hardware that is part of the program.
pub fn embedded_hardware() -> HardwareTable {
    let (name, text) = EMBEDDED_HARDWARE;
    parse_hardware(Path::new(name), text).unwrap_or_default()
}

/// What is embedded and what a user's files hold; of the same id, theirs is used.
///
/// # Errors
/// As [`open`], for the first file that can't be used.
pub fn with_files<'a>(files: impl IntoIterator<Item = &'a Path>) -> Result<Catalogue, StoreError> {
    let mut catalogue = embedded();
    for file in files {
        match open_contents(file)? {
            Contents::Families(families) => {
                for family in families {
                    catalogue.put(family);
                }
            }
            Contents::Hardware(hardware) => catalogue.hardware.put_all(hardware),
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
    #[test]
    fn the_embedded_hardware_can_be_read_and_is_laid_out_as_we_write() {
        let (name, text) = EMBEDDED_HARDWARE;
        let hardware = parse_hardware(Path::new(name), text).unwrap();
        let written = text_of_hardware(Path::new(name), &hardware).unwrap();
        assert_eq!(written, text, "{name} is not laid out as the program does");
        assert_eq!(embedded().hardware, hardware);
    }
}
