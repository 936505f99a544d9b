//! The only place of the window that changes anything: what was wanted, done in order.

use super::arrange::{self, Axis};
use super::command::Command;
use super::dialog::{Answer, Dialog, Waiting};
use super::extent::extent_of_ids;
use super::intent::{Intent, Message};
use super::make::Made;
use super::results::Results;
use super::stage::Stage;
use super::theme::ThemeChoice;
use super::tools::ToolKind;
use super::{Editor, Way};
use crate::geometry::DVec2;
use crate::site::Edit;
use crate::site::ObjectId;
use crate::units::{Angle, Length, UnitSystem};
use std::collections::BTreeSet;

/// Factor of one step nearer.
const ZOOM_STEP: f64 = 1.25;

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
            Intent::CancelPreview => self.document.cancel_preview(),
            Intent::Pick(ids) => self.selection.ids = ids,
            Intent::PickAlso(ids) => self.selection.ids.extend(ids),
            Intent::TogglePick(id) => self.selection.toggle(id),
            Intent::Hover(id) => self.selection.hovered = id,
            Intent::Command(command) => self.command(command),
            Intent::GoTo { place, subjects } => self.go_to(place, subjects),
            Intent::Drafts(drafts) => self.drafts = *drafts,
            Intent::Ask(dialog) => self.dialog = dialog,
            Intent::Answer(answer) => self.answer(answer),
            Intent::Browse(purpose) => {
                let start = self.file.clone();
                self.files.wants_chooser(purpose, start);
            }
            Intent::Theme(theme) => {
                self.theme = theme;
                self.keep_preferences();
            }
            Intent::Say(message) => self.message = Some(message),
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
            self.selection.ids = made.ids.into_iter().collect();
        }
    }

    fn command(&mut self, command: Command) {
        // What is half drawn or half dragged never survives another command.
        match command {
            Command::ZoomIn | Command::ZoomOut | Command::Fit | Command::ToggleSnapping => {}
            _ => self.document.cancel_preview(),
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
            | Command::ToggleTheme
            | Command::NextFinding
            | Command::PreviousFinding => self.view_command(command),
            Command::ToggleUnits => {
                let units = match self.document.committed().units {
                    UnitSystem::Metric => UnitSystem::FeetInches,
                    UnitSystem::FeetInches => UnitSystem::Metric,
                };
                self.step("Change units", &Edit::Units(units));
            }
            Command::Take(tool) => self.take(tool),
            Command::Enter(stage) => {
                self.stage = stage;
                self.take(ToolKind::Pick);
            }
            Command::Delete
            | Command::Duplicate
            | Command::Repeat
            | Command::TurnQuarter
            | Command::TurnBy
            | Command::EndForEnd
            | Command::LockHangers
            | Command::Nudge(_)
            | Command::NudgeFinely(_)
            | Command::LineUp(_)
            | Command::SpaceEvenlyAcross
            | Command::SpaceEvenlyUp => self.arrange_command(command),
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

    fn pick_command(&mut self, command: Command) {
        match command {
            Command::SelectAll => {
                self.selection.ids = self.stage_objects().into_iter().collect();
            }
            Command::PickNext => self.pick_neighbour(1),
            Command::PickPrevious => self.pick_neighbour(-1),
            _ => self.let_go(),
        }
    }

    /// What Escape means: what is half drawn goes first, then the tool, then the picks.
    fn let_go(&mut self) {
        if self.canvas.drop_drawing() || self.profile.drop_drag() {
        } else if self.tool != ToolKind::Pick {
            self.tool = ToolKind::Pick;
        } else {
            self.selection.ids.clear();
            self.message = None;
        }
    }

    /// The objects that the open stage puts forward.
    pub(super) fn stage_objects(&self) -> Vec<ObjectId> {
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

    fn take(&mut self, tool: ToolKind) {
        self.canvas.drop_drawing();
        self.tool = tool;
        if let Some(stage) = Stage::ALL
            .into_iter()
            .find(|stage| stage.tools().contains(&tool))
        {
            self.stage = stage;
        }
        self.message = None;
    }

    fn view_command(&mut self, command: Command) {
        match command {
            Command::Fit => self.fit(),
            Command::FitSelection => {
                let site = self.document.shown();
                let extent = extent_of_ids(site, &self.catalogue, &self.selection.ids);
                if !extent.is_empty() {
                    self.canvas.camera.fit(extent.least, extent.greatest);
                }
            }
            Command::ZoomIn => self.canvas.camera.zoom_middle(ZOOM_STEP),
            Command::ZoomOut => self.canvas.camera.zoom_middle(1.0 / ZOOM_STEP),
            Command::ToggleLayer(layer) => self.view.toggle(layer),
            Command::NextFinding => self.go_to_finding(1),
            Command::PreviousFinding => self.go_to_finding(-1),
            Command::ToggleSnapping => {
                self.view.snapping = !self.view.snapping;
                self.message = Some(Message::done(if self.view.snapping {
                    "Snapping"
                } else {
                    "Not snapping"
                }));
            }
            Command::ToggleProfile => self.view.profile = !self.view.profile,
            Command::ToggleTheme => {
                self.theme = match self.theme {
                    ThemeChoice::Dark => ThemeChoice::Light,
                    ThemeChoice::Light | ThemeChoice::Desktop => ThemeChoice::Dark,
                };
                self.keep_preferences();
            }
            _ => {}
        }
    }

    /// The finding so many places on in the list, round and round.
    fn go_to_finding(&mut self, step: isize) {
        let findings = std::sync::Arc::clone(self.results.findings());
        let n_findings = findings.len();
        let next = match (self.finding_at, step) {
            (Some(place), _) if n_findings > 0 => {
                (place % n_findings + n_findings).saturating_add_signed(step) % n_findings
            }
            (_, 1) => 0,
            _ => n_findings.saturating_sub(1),
        };
        if let Some(finding) = findings.get(next) {
            self.finding_at = Some(next);
            self.go_to(Results::place_of(finding), self.results.objects_of(finding));
            let units = self.document.committed().units;
            self.message = Some(Message::done(finding.text_in(units)));
        }
    }

    fn arrange_command(&mut self, command: Command) {
        let site = self.document.committed().clone();
        let ids = self.selection.ids.clone();
        let what = self.picked_name();
        let catalogue = std::sync::Arc::clone(&self.catalogue);
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
    pub(super) fn nudge_step(&self) -> f64 {
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

    fn turn(&mut self, degrees: f64) {
        let site = self.document.committed();
        let ids = &self.selection.ids;
        let extent = extent_of_ids(site, &self.catalogue, ids);
        if extent.is_empty() {
            return;
        }
        let edit = arrange::turn(site, ids, extent.middle(), Angle::degrees(degrees));
        self.step(&format!("Turn {}", self.picked_name()), &edit);
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

    fn repeat_question(&self) -> Dialog {
        Dialog::Repeat {
            count: self.drafts.repeat_count.to_string(),
            spacing: format!("{} m", self.drafts.repeat_spacing.as_metres()),
            bearing: self.drafts.repeat_bearing.as_degrees().to_string(),
        }
    }

    fn go_to(&mut self, place: Option<DVec2>, subjects: BTreeSet<ObjectId>) {
        let site = self.document.shown();
        let extent = extent_of_ids(site, &self.catalogue, &subjects);
        if let Some(place) = place.or((!extent.is_empty()).then(|| extent.middle())) {
            self.canvas.camera.go_to(place);
        }
        if let Some(id) = subjects.last() {
            self.stage = stage_of(id);
        }
        self.selection.ids = subjects;
    }

    fn answer(&mut self, answer: Answer) {
        let asked = self.dialog.take();
        match answer {
            Answer::OpenPath(path) => match asked {
                // Unsaved work was asked about before the file was.
                Some(Dialog::Open { .. }) => self.go_on(Waiting::OpenPath(path)),
                _ => self.guarded(Waiting::OpenPath(path)),
            },
            Answer::SaveTo(path, over) => {
                let then = match asked {
                    Some(Dialog::SaveAs { then, .. }) => then,
                    _ => None,
                };
                self.save_to(&path, over, then);
            }
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

/// The stage that puts an object forward.
pub(super) fn stage_of(id: &ObjectId) -> Stage {
    match id {
        ObjectId::GridLine(_) | ObjectId::Bay(_) | ObjectId::Opening(_) => Stage::Shell,
        ObjectId::Framing(_) => Stage::Steel,
        ObjectId::Obstruction(_) | ObjectId::WorkSpot(_) => Stage::Obstructions,
        ObjectId::Run(_) => Stage::Runs,
    }
}
