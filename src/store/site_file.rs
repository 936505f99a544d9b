//! Site files.

use super::envelope::{self, Kind};
use super::{StoreError, raw};
use crate::catalogue::Catalogue;
use crate::site::{Site, validate_against};
use std::path::Path;

const SITE: Kind = Kind {
    label: "site file",
    head: "Rafterglow",
    fields: &["format", "site"],
    format: 1,
};

/// Reads a site and checks it.
///
/// # Errors
/// Where the file can't be read, is no site file, is of a newer format, or holds what
/// can't be used. The file is never touched.
pub fn open(path: &Path) -> Result<Site, StoreError> {
    parse(path, &raw::read_text(path)?)
}

/// Reads a site from the text of a file and checks it; the path is for messages.
///
/// # Errors
/// As [`open`], but for what the system refuses.
pub fn parse(path: &Path, text: &str) -> Result<Site, StoreError> {
    checked(path, envelope::read(SITE, path, text)?)
}

/// Saves a site over nothing, or over a site that can be read: what was there is
/// replaced as a whole, or not at all.
///
/// # Errors
/// Where the system refuses, or where something that is no readable site would be lost;
/// [`save_over`] is for when the user was asked about that.
pub fn save(path: &Path, site: &Site) -> Result<(), StoreError> {
    if path.exists()
        && let Err(cause) = open(path)
    {
        return Err(StoreError::WouldReplace {
            cause: Box::new(cause),
        });
    }
    save_over(path, site)
}

/// Saves a site over whatever is there: it is replaced as a whole, or not at all.
///
/// # Errors
/// Where the system refuses.
pub fn save_over(path: &Path, site: &Site) -> Result<(), StoreError> {
    raw::write(path, text_of(path, site)?.as_bytes())
}

/// Checks that a catalogue has every heater that a site names; the path of the site is
/// for messages.
///
/// # Errors
/// Where it lacks one: the site can't be used with this catalogue.
pub fn check_against(path: &Path, site: &Site, catalogue: &Catalogue) -> Result<(), StoreError> {
    validate_against(site, catalogue).map_err(|problems| StoreError::Unusable {
        path: path.to_owned(),
        problems,
    })
}

/// The text of a site's file; the path is for messages.
///
/// # Errors
/// Where the site can't be put into words, which would be a fault of the program.
pub fn text_of(path: &Path, site: &Site) -> Result<String, StoreError> {
    envelope::text_of(SITE, path, site)
}

/// A site that has passed the door.
pub(super) fn checked(path: &Path, site: Site) -> Result<Site, StoreError> {
    site.validate().map_err(|problems| StoreError::Unusable {
        path: path.to_owned(),
        problems,
    })?;
    Ok(site.normalised())
}
