//! What would help: edits of the site, found by the engines and proven by a full study
//! of the edited site.

pub mod clearance;
pub mod hanging;
mod verdict;

pub use verdict::{Base, Tried};
