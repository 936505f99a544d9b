//! What is picked, and with which tool.

use crate::editor::Editor;
use crate::editor::command::Command;
use crate::editor::stage::Stage;
use crate::editor::tools::ToolKind;
use crate::editor::view::Aspect;
use crate::site::ObjectId;
use std::collections::BTreeSet;

impl Editor {
    pub(super) fn pick_command(&mut self, command: Command) {
        match command {
            Command::SelectAll => {
                let all = self.stage_objects().into_iter().collect();
                self.selection.pick(all);
            }
            Command::PickNext => self.pick_neighbour(1),
            Command::PickPrevious => self.pick_neighbour(-1),
            _ => self.let_go(),
        }
    }

    /// What Escape means: what is half drawn goes first, then the tool, then the picks.
    fn let_go(&mut self) {
        if self.canvas.drop_drawing() || self.profile.drop_drag() {
        } else if self.selection.hanger.is_some() {
            self.selection.hanger = None;
        } else if self.tool != ToolKind::Pick {
            self.tool = ToolKind::Pick;
        } else {
            self.selection.pick(BTreeSet::new());
            self.message = None;
        }
    }

    /// The objects that the open stage puts forward.
    fn stage_objects(&self) -> Vec<ObjectId> {
        let stage = self.stage;
        self.document
            .shown()
            .object_ids()
            .into_iter()
            .filter(|id| stage_of(id) == stage || stage == Stage::Sheets)
            .collect()
    }

    fn pick_neighbour(&mut self, step: isize) {
        let all = self.stage_objects();
        let picked = match step {
            1 => self.selection.ids.last(),
            _ => self.selection.ids.first(),
        };
        let place = picked.and_then(|id| all.iter().position(|known| known == id));
        let next = match (place, step) {
            (None, 1) => 0,
            (None, _) => all.len().saturating_sub(1),
            (Some(place), step) => (place + all.len()).saturating_add_signed(step) % all.len(),
        };
        if let Some(id) = all.get(next) {
            self.go_to(None, BTreeSet::from([id.clone()]));
        }
    }

    pub(super) fn take(&mut self, tool: ToolKind) {
        self.canvas.drop_drawing();
        self.tool = tool;
        // Tools draw on the plan.
        if tool != ToolKind::Pick && !self.view.beside {
            self.view.aspect = Aspect::Plan;
        }
        if let Some(stage) = Stage::ALL
            .into_iter()
            .find(|stage| stage.tools().contains(&tool))
        {
            self.stage = stage;
        }
        self.message = None;
    }

    /// What is picked, in words: `R3`, `4 runs`, `6 objects`.
    pub(crate) fn picked_name(&self) -> String {
        let ids = &self.selection.ids;
        let mut kinds: Vec<&str> = ids.iter().map(ObjectId::kind_label).collect();
        kinds.dedup();
        match (ids.first(), ids.len(), kinds.len()) {
            (Some(only), 1, _) => only.to_string(),
            (Some(_), count, 1) => format!("{count} {}s", kinds[0]),
            (_, count, _) => format!("{count} objects"),
        }
    }
}

/// The stage that puts an object forward.
pub(in crate::editor) fn stage_of(id: &ObjectId) -> Stage {
    match id {
        ObjectId::GridLine(_) | ObjectId::Bay(_) | ObjectId::Opening(_) => Stage::Shell,
        ObjectId::Framing(_) => Stage::Steel,
        ObjectId::Obstruction(_) | ObjectId::WorkSpot(_) => Stage::Obstructions,
        ObjectId::Run(_) | ObjectId::SectionLine(_) => Stage::Runs,
    }
}
