//! The site as it is seen: cut by an upright plane, and in space.
//!
//! ```text
//! Site + Study + Findings --> Section (metres on the plane) --> window, sheet
//!                         '-> Scene (faces and lines) + Camera --> pixels
//! ```
//!
//! Pure: the same input gives the same lines and the same pixels, whatever the number
//! of threads.

pub mod heater;
pub mod section;
pub mod space;

pub use section::{Section, section};
