//! The tools: each turns the pointer and the keys into intents, and draws what it is
//! about to make.

mod kind;

pub use kind::ToolKind;
