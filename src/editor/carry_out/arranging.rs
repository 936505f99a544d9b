//! Moves, turns, copies and lines up what is picked.

use crate::editor::arrange::{self, Axis};
use crate::editor::command::Command;
use crate::editor::dialog::Dialog;
use crate::editor::extent::extent_of_ids;
use crate::editor::{Editor, Way};
use crate::geometry::DVec2;
use crate::units::{Angle, UnitSystem};
use std::sync::Arc;

impl Editor {
    pub(super) fn arrange_command(&mut self, command: Command) {
        let site = self.document.committed().clone();
        let ids = self.selection.ids.clone();
        let what = self.picked_name();
        let catalogue = Arc::clone(&self.catalogue);
        match command {
            Command::Delete => {
                self.step(&format!("Remove {what}"), &arrange::remove(&ids));
            }
            Command::Duplicate => {
                let by = DVec2::new(1.0, -1.0) * self.nudge_step() * 10.0;
                self.make(arrange::repeat(&site, &ids, 1, by));
            }
            Command::Repeat => {
                self.dialog = Some(self.repeat_question());
            }
            Command::TurnBy => {
                self.dialog = Some(Dialog::TurnBy {
                    angle: "45".to_owned(),
                });
            }
            Command::TurnQuarter => self.turn(90.0),
            Command::EndForEnd => {
                let edit = arrange::end_for_end(&site, &catalogue, &ids);
                self.step(&format!("Turn {what} end for end"), &edit);
            }
            Command::Nudge(way) => self.nudge(way, self.nudge_step()),
            Command::NudgeFinely(way) => self.nudge(way, self.nudge_step() / 10.0),
            Command::LineUp(edge) => {
                let edit = arrange::line_up(&site, &catalogue, &ids, edge);
                self.step(edge.label(), &edit);
            }
            Command::SpaceEvenlyAcross => {
                let edit = arrange::space_evenly(&site, &catalogue, &ids, Axis::Across);
                self.step("Space evenly", &edit);
            }
            Command::SpaceEvenlyUp => {
                let edit = arrange::space_evenly(&site, &catalogue, &ids, Axis::Up);
                self.step("Space evenly", &edit);
            }
            _ => {}
        }
    }

    /// One step of the arrow keys: 0.1 m, or 6 inches.
    pub(in crate::editor) fn nudge_step(&self) -> f64 {
        match self.document.committed().units {
            UnitSystem::Metric => 0.1,
            UnitSystem::FeetInches => 6.0 * 0.0254,
        }
    }

    fn nudge(&mut self, way: Way, step_m: f64) {
        let edit = arrange::shift(
            self.document.committed(),
            &self.selection.ids,
            way.vector() * step_m,
        );
        self.step(&format!("Move {}", self.picked_name()), &edit);
    }

    pub(super) fn turn(&mut self, degrees: f64) {
        let site = self.document.committed();
        let ids = &self.selection.ids;
        let extent = extent_of_ids(site, &self.catalogue, ids);
        if extent.is_empty() {
            return;
        }
        let edit = arrange::turn(site, ids, extent.middle(), Angle::degrees(degrees));
        self.step(&format!("Turn {}", self.picked_name()), &edit);
    }

    fn repeat_question(&self) -> Dialog {
        Dialog::Repeat {
            count: self.drafts.repeat_count.to_string(),
            spacing: format!("{} m", self.drafts.repeat_spacing.as_metres()),
            bearing: self.drafts.repeat_bearing.as_degrees().to_string(),
        }
    }
}
