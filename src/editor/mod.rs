//! The window. It draws the site and its study, and turns what the user does into
//! edits; it computes nothing of its own.

pub mod icons;
pub mod theme;
pub mod widgets;
