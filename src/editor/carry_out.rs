//! The only place of the window that changes anything: what was wanted, done in order.

mod advice;
mod arranging;
mod hanging;
mod picking;
mod viewing;
mod ways_out;

pub(super) use picking::stage_of;

use super::Editor;
use super::arrange;
use super::command::Command;
use super::dialog::{Answer, Dialog, Waiting};
use super::intent::{Intent, Message};
use super::make::Made;
use super::tools::ToolKind;
use crate::site::Edit;
use crate::units::{Angle, Length, UnitSystem};
use std::sync::Arc;

impl Editor {
    /// Carries intents out, in order.
    pub(super) fn carry_out(&mut self, intents: Vec<Intent>) {
        for intent in intents {
            self.carry_out_one(intent);
        }
    }

    fn carry_out_one(&mut self, intent: Intent) {
        match intent {
            Intent::CarryOut { name, edit } => {
                self.step(&name, &edit);
            }
            Intent::Make(made) => self.make(made),
            Intent::Preview { name, edit } => self.preview(&name, edit),
            Intent::CommitPreview => {
                self.previewed = None;
                self.document.commit_preview();
            }
            Intent::DropPreview => {
                self.previewed = None;
                self.document.cancel_preview();
            }
            Intent::Pick(ids) => self.selection.pick(ids),
            Intent::MoveHanger(to) => self.move_picked_hanger(&to),
            Intent::AddHanger(at) => self.add_hanger_at(&at),
            Intent::Tell(why) => self.message = Some(Message::trouble(why)),
            Intent::ShowSuggestion(which) => self.show_suggestion(which),
            Intent::TakeSuggestion(run, which) => self.take_suggestion(&run, which),
            Intent::SeekWaysOut(breach) => self.seek_ways_out(breach),
            Intent::ShowWayOut(which) => self.show_way_out(which),
            Intent::TakeWayOut(which) => self.take_way_out(which),
            Intent::SeekSiteShift(at_most) => self.site_sought = Some(at_most),
            Intent::TakeSiteShift => self.take_site_shift(),
            Intent::PickHanger(hanger) => self.pick_hanger(hanger),
            Intent::PickAlso(ids) => self.selection.ids.extend(ids),
            Intent::TogglePick(id) => self.selection.toggle(id),
            Intent::Hover(id) => self.selection.hovered = id,
            Intent::PointAt(finding) => self.pointed = Some(finding),
            Intent::Command(command) => self.command(command),
            Intent::GoTo { place, subjects } => self.go_to(place, subjects),
            Intent::Drafts(drafts) => self.drafts = *drafts,
            Intent::Ask(dialog) => self.dialog = dialog,
            Intent::Answer(answer) => self.answer(answer),
            Intent::Browse(purpose) => {
                let start = self.file.clone();
                self.files.wants_chooser(purpose, start);
            }
            Intent::OrderSet(order) => self.set_writer.order = order,
            Intent::WriteSet => {
                let site = Arc::clone(self.document.committed());
                self.message = self.set_writer.begin(&site, &self.catalogue);
            }
            Intent::Theme(theme) => {
                self.theme = theme;
                self.keep_preferences();
            }
            Intent::Dismiss => self.message = None,
        }
    }

    /// Shows an edit that is not done yet. The same one again changes nothing: a hand
    /// that holds still must not set the study to work.
    fn preview(&mut self, name: &str, edit: Edit) {
        if self.document.is_previewing() && self.previewed.as_ref() == Some(&edit) {
            return;
        }
        match self.document.preview(name, &edit) {
            Ok(()) => self.message = None,
            Err(problems) => self.message = Some(Message::trouble(problems.to_string())),
        }
        self.previewed = Some(edit);
    }

    /// One step that can be undone; false, with a message, if the site refuses it.
    fn step(&mut self, name: &str, edit: &Edit) -> bool {
        match self.document.carry_out(name, edit) {
            Ok(()) => {
                self.message = None;
                true
            }
            Err(problems) => {
                self.message = Some(Message::trouble(problems.to_string()));
                false
            }
        }
    }

    /// One step that makes something, which is then picked.
    fn make(&mut self, made: Made) {
        if self.step(&made.name, &made.edit) {
            self.selection.pick(made.ids.into_iter().collect());
        }
    }

    fn command(&mut self, command: Command) {
        // What is half drawn or half dragged never survives another command.
        match command {
            Command::ZoomIn
            | Command::ZoomOut
            | Command::Fit
            | Command::ToggleSnapping
            | Command::Look(_)
            | Command::ToggleBeside => {}
            _ => {
                self.document.cancel_preview();
                // Escape leaves what is previewed, and the run stays picked.
                let was_shown =
                    self.advice.shown.take().is_some() | self.way_advice.shown.take().is_some();
                if was_shown && command == Command::LetGo {
                    return;
                }
            }
        }
        match command {
            Command::New
            | Command::Open
            | Command::Save
            | Command::SaveAs
            | Command::FindCommand => self.file_command(command),
            Command::Undo | Command::Redo => self.walk_steps(command),
            Command::SelectAll | Command::LetGo | Command::PickNext | Command::PickPrevious => {
                self.pick_command(command)
            }
            Command::Fit
            | Command::FitSelection
            | Command::ZoomIn
            | Command::ZoomOut
            | Command::ToggleLayer(_)
            | Command::ToggleSnapping
            | Command::ToggleProfile
            | Command::Look(_)
            | Command::ToggleBeside
            | Command::ToggleTheme
            | Command::NextFinding
            | Command::PreviousFinding => self.view_command(command),
            Command::SavePicture => self.ask_picture(),
            Command::ToggleUnits => self.toggle_units(),
            Command::Take(tool) => self.take(tool),
            Command::Enter(stage) => {
                self.stage = stage;
                self.take(ToolKind::Pick);
            }
            Command::Delete | Command::Nudge(_) | Command::NudgeFinely(_)
                if self.selection.hanger.is_some() =>
            {
                self.hanger_command(command);
            }
            Command::LockHangers
            | Command::NextHanger
            | Command::PreviousHanger
            | Command::AddHanger => self.hanger_command(command),
            Command::Delete
            | Command::Duplicate
            | Command::Repeat
            | Command::TurnQuarter
            | Command::TurnBy
            | Command::EndForEnd
            | Command::Nudge(_)
            | Command::NudgeFinely(_)
            | Command::LineUp(_)
            | Command::SpaceEvenlyAcross
            | Command::SpaceEvenlyUp => self.arrange_command(command),
        }
    }

    fn toggle_units(&mut self) {
        let from = self.document.committed().units;
        let to = match from {
            UnitSystem::Metric => UnitSystem::FeetInches,
            UnitSystem::FeetInches => UnitSystem::Metric,
        };
        if self.step("Change units", &Edit::Units(to)) {
            self.drafts.follow_units(&self.catalogue, from, to);
        }
    }

    fn file_command(&mut self, command: Command) {
        match command {
            Command::New => self.guarded(Waiting::New),
            Command::Open => self.guarded(Waiting::Open),
            Command::Save => self.save(None),
            Command::SaveAs => self.ask_where(None),
            _ => {
                self.dialog = Some(Dialog::FindCommand {
                    sought: String::new(),
                });
            }
        }
    }

    fn walk_steps(&mut self, command: Command) {
        let done = match command {
            Command::Undo => self.document.undo().map(|name| format!("Undone: {name}")),
            _ => self
                .document
                .redo()
                .map(|name| format!("Done again: {name}")),
        };
        self.canvas.drop_drawing();
        self.message = done.map(Message::done);
    }

    fn answer(&mut self, answer: Answer) {
        let asked = self.dialog.take();
        match answer {
            Answer::OpenPath(path) => match asked {
                // Unsaved work was asked about before the file was.
                Some(Dialog::Open { .. }) => self.go_on(Waiting::OpenPath(path)),
                _ => self.guarded(Waiting::OpenPath(path)),
            },
            Answer::OpenSample(name) => match asked {
                Some(Dialog::Open { .. }) => self.go_on(Waiting::Sample(name)),
                _ => self.guarded(Waiting::Sample(name)),
            },
            Answer::SaveTo(path, over) => {
                let then = match asked {
                    Some(Dialog::SaveAs { then, .. }) => then,
                    _ => None,
                };
                self.save_to(&path, over, then);
            }
            Answer::SavePicture(path) => self.save_picture(&path),
            Answer::SaveFirst(then) => self.save(Some(then)),
            Answer::GiveUpChanges(then) => self.go_on(then),
            Answer::Restore(index) => self.restore(index),
            Answer::ThrowAway(index) => self.throw_away(index),
            Answer::LeaveCopies => self.leave_copies(),
            Answer::CautionsRead => self.cautions_read(),
            Answer::TurnBy(degrees) => self.turn(degrees),
            Answer::Repeat {
                count,
                spacing_m,
                bearing_degrees,
            } => {
                self.drafts.repeat_count = count;
                self.drafts.repeat_spacing = Length::metres(spacing_m);
                self.drafts.repeat_bearing = Angle::degrees(bearing_degrees);
                let step = arrange::step(self.drafts.repeat_bearing, self.drafts.repeat_spacing);
                let made =
                    arrange::repeat(self.document.committed(), &self.selection.ids, count, step);
                self.make(made);
            }
        }
    }
}
