//! What would help: edits of the site, found by the engines and proven by a full study
//! of the edited site.

mod verdict;

pub use verdict::{Base, Tried};
