//! The site in space: faces and lines, a camera that walks round them, and pixels.
//!
//! Drawn by the processor, with a depth for each pixel, so that what hides what is
//! right, the picture is the same on every machine, and no graphics driver is needed.

mod build;
mod camera;
mod draw;
mod inks;
mod meet;
mod raster;
mod scene;

pub use build::{runs_scene, site_scene};
pub use camera::{Camera, Seen};
pub use draw::{Finish, Image, draw};
pub use inks::{Inks, Rgb, Tone};
pub use meet::thing_at;
pub use scene::{Caption, CaptionOf, Scene};
