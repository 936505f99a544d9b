//! Marks work spots.

use super::sketch::{Act, Ghost, Stand};
use crate::editor::intent::Intent;
use crate::editor::make;

pub(super) fn act(act: Act, stand: &Stand<'_>) -> Vec<Intent> {
    match act {
        Act::Click(at) | Act::Release(at) => {
            let editor = stand.editor;
            let made = make::work_spot(editor.committed(), &editor.drafts, at);
            vec![Intent::Make(made)]
        }
        Act::Press(_) | Act::Move(_) | Act::Finish => Vec::new(),
    }
}

pub(super) fn ghost() -> Ghost {
    Ghost::hint("Click where somebody works")
}
