//! Files: the only place that touches them.
//!
//! What is read is checked at the door before anything else sees it, and said with
//! path, line and column where it can't be used. What is written is written beside the
//! old file and then put in its place, so that a crash leaves one or the other.

pub mod catalogue_file;
mod envelope;
mod error;
mod layout;
mod output;
pub mod preferences;
mod raw;
pub mod recent;
pub mod recovery;
pub mod samples;
mod site_file;
mod state;
pub mod survey_list;

pub use catalogue_file::{
    Contents as CatalogueContents, embedded as embedded_catalogue, embedded_hardware,
    open as open_catalogue, open_contents as open_catalogue_contents, with_files as catalogue_with,
};
pub use error::StoreError;
pub use output::{OutputFile, write_all};
pub use raw::MOST_BYTES;
pub use site_file::{check_against, open, parse, save, save_over, text_of};
pub use state::state_dir;

use std::path::Path;

/// The text of a table in a file, to be read as a survey.
///
/// # Errors
/// A file that can't be read, or is no text.
pub fn read_table(path: &Path) -> Result<String, StoreError> {
    raw::read_text(path)
}
