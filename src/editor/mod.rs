//! The window. It draws the site and its study, and turns what the user does into
//! edits; it computes nothing of its own.
//!
//! ```text
//! panels, canvas, tools --read--> Editor
//!         '--push--> Intent --carry_out()--> Document, selection, camera, ...
//! ```
//!
//! Panels and tools read the whole frame; [`Editor::show`] carries their intents out
//! once, at its end.

pub mod icons;
pub mod theme;
pub mod widgets;

mod advice;
mod app;
pub(crate) mod arrange;
mod away;
mod camera;
mod canvas;
mod carry_out;
pub mod chooser;
pub mod command;
pub(crate) mod dialog;
pub(crate) mod drafts;
pub(crate) mod extent;
pub(crate) mod figures;
mod files;
pub(crate) mod hangers;
pub(crate) mod intent;
mod keys;
pub(crate) mod make;
mod panels;
mod pictures;
pub(crate) mod placed;
mod profile;
mod recovery;
pub(crate) mod results;
pub(crate) mod rooms;
mod section;
mod selection;
pub mod set_writer;
mod space;
mod stage;
mod state;
mod today;
mod tools;
mod view;
mod way_advice;
mod worker;

pub use app::open_window;
pub use arrange::{Edge, Way};
pub use camera::Camera;
pub use command::{Command, Group};
pub use selection::Selection;
pub use stage::Stage;
pub use state::Editor;
pub use theme::ThemeChoice;
pub use tools::ToolKind;
pub use view::{Aspect, Layer, View};
