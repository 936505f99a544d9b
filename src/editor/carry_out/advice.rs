//! Shows and takes suggestions.

use crate::editor::Editor;
use crate::editor::intent::Message;
use crate::remedies::hanging::Suggestion;
use crate::site::RunId;

impl Editor {
    /// Shows a suggestion as if it were taken; or nothing any more.
    pub(super) fn show_suggestion(&mut self, which: Option<(RunId, usize)>) {
        let found = which.and_then(|(run, which)| Some((which, self.advised(&run, which)?)));
        match found {
            Some((which, suggestion)) => {
                self.preview(&step_name(&suggestion), suggestion.edit);
                self.advice.shown = Some(which);
            }
            None if self.advice.shown.take().is_some() => {
                self.previewed = None;
                self.document.cancel_preview();
            }
            None => {}
        }
    }

    /// Takes a suggestion, as one step.
    pub(super) fn take_suggestion(&mut self, run: &RunId, which: usize) {
        let Some(suggestion) = self.advised(run, which) else {
            return;
        };
        self.advice.shown = None;
        self.previewed = None;
        self.document.cancel_preview();
        let name = step_name(&suggestion);
        if self.step(&name, &suggestion.edit) {
            self.message = Some(Message::done(format!("{name}, as suggested")));
        }
    }

    /// Takes the shifts of all runs, as one step.
    pub(super) fn take_site_shift(&mut self) {
        let site = self.document.committed();
        let Some(found) = self.site_advice.of(site) else {
            return;
        };
        let (count, edit) = (found.moved.len(), found.edit.clone());
        let what = if count == 1 { "run" } else { "runs" };
        self.step(&format!("Shift {count} {what}"), &edit);
    }

    fn advised(&self, run: &RunId, which: usize) -> Option<Suggestion> {
        self.advice.suggestion(run, which).cloned()
    }
}

fn step_name(suggestion: &Suggestion) -> String {
    let verb = if suggestion.shift.clockwise_deg == 0.0 {
        "Shift"
    } else {
        "Turn and shift"
    };
    format!("{verb} {}", suggestion.run)
}
