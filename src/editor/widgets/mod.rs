//! The window's own controls, so that every panel has the same ones: each row of a form
//! is as high as every other, each field behaves alike, each thing says what it is to a
//! screen reader.
//!
//! A control shows a value and hands back what the user made of it; it never changes
//! anything itself.

mod button;
mod card;
mod choice;
mod field;
mod fold;
mod form;
mod heading;
mod row;
mod table;

pub use button::{
    Chosen, icon_button_ui, link_ui, main_button_ui, plain_button_ui, quiet_button_ui,
    small_button_ui, tick_ui, tool_row_ui, wide_button_ui,
};
pub use card::{Tone, card_ui, message_ui};
pub use choice::{choice_ui, segments_ui};
pub(crate) use field::select_all;
pub use field::{Entry, Shown, text_ui};
pub use fold::{AtFirst, fold_ui};
pub(crate) use form::{Figure, Form};
pub use heading::{empty_ui, heading_ui, hint_ui, panel_title_ui, rule_ui, section_ui};
pub use row::{LABEL_WIDTH, lines_ui, row_ui, said_row_ui};
pub use table::{Column, Table, TableRow};
