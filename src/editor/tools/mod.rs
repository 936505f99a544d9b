//! The tools: each turns the pointer and the keys into intents, and says and draws what
//! it is about to do.

mod bay;
pub(super) mod entry;
mod framing;
mod grid_line;
pub(super) mod handles;
pub(super) mod hanger;
mod kind;
mod obstruction;
mod opening;
pub(super) mod pick;
mod run;
mod section_line;
mod settle;
pub(super) mod sketch;
mod work_spot;

pub use kind::ToolKind;

use super::intent::Intent;
use crate::geometry::DVec2;
use sketch::{Act, Ghost, Sketch, Stand};

/// What a drawing tool does when something is done on the plan. Picking has gestures of
/// its own: [`pick`].
pub(super) fn act(kind: ToolKind, sketch: &mut Sketch, act: Act, stand: &Stand<'_>) -> Vec<Intent> {
    match kind {
        ToolKind::Pick => Vec::new(),
        ToolKind::Bay => bay::act(sketch, act, stand),
        ToolKind::GridLine => grid_line::act(sketch, act, stand),
        ToolKind::Opening => opening::act(sketch, act, stand),
        ToolKind::Framing => framing::act(sketch, act, stand),
        ToolKind::Obstruction => obstruction::act(sketch, act, stand),
        ToolKind::WorkSpot => work_spot::act(act, stand),
        ToolKind::Run => run::act(sketch, act, stand),
        ToolKind::SectionLine => section_line::act(sketch, act, stand),
    }
}

/// What a drawing tool shows with the pointer at a point.
pub(super) fn ghost(kind: ToolKind, sketch: &Sketch, at: DVec2, stand: &Stand<'_>) -> Ghost {
    match kind {
        ToolKind::Pick => Ghost::default(),
        ToolKind::Bay => bay::ghost(sketch, at, stand, "bay"),
        ToolKind::GridLine => grid_line::ghost(sketch, at, stand),
        ToolKind::Opening => opening::ghost(sketch, at, stand),
        ToolKind::Framing => framing::ghost(sketch, at, stand),
        ToolKind::Obstruction => obstruction::ghost(sketch, at, stand),
        ToolKind::WorkSpot => work_spot::ghost(),
        ToolKind::Run => run::ghost(sketch, at, stand),
        ToolKind::SectionLine => section_line::ghost(sketch, at, stand),
    }
}
