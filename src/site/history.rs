//! The document on screen: committed, with at most one preview, and its named steps.

use super::{Edit, Site};
use crate::problem::Problems;
use std::sync::Arc;

/// How many steps can be undone. A step keeps the site before it, whose unchanged
/// objects are shared: some kilobytes each.
const MOST_STEPS: usize = 1_000;

/// A site being worked on.
///
/// An edit is carried out at once, or previewed first: dragging replaces the preview,
/// release commits it, Escape cancels it. Only the committed site is saved. Each
/// committed edit is one step with a name, whatever it took to find it.
#[derive(Debug, Clone)]
pub struct Document {
    committed: Arc<Site>,
    preview: Option<Step>,
    done: Vec<Step>,
    undone: Vec<Step>,
    saved: Option<Arc<Site>>,
    revision: u64,
}

/// A named step and the site that it leads to: when undone, the one before it; when
/// redone, the one after it.
#[derive(Debug, Clone)]
struct Step {
    name: String,
    site: Arc<Site>,
}

impl Document {
    /// A site as it was opened, or an empty one: nothing of it is unsaved.
    pub fn new(site: Site) -> Self {
        let site = Arc::new(site);
        Self {
            saved: Some(Arc::clone(&site)),
            ..Self::unsaved_behind(site)
        }
    }

    /// A site that stands in no file yet, such as one restored after a crash.
    pub fn unsaved(site: Site) -> Self {
        Self::unsaved_behind(Arc::new(site))
    }

    fn unsaved_behind(committed: Arc<Site>) -> Self {
        Self {
            committed,
            preview: None,
            done: Vec::new(),
            undone: Vec::new(),
            saved: None,
            revision: 0,
        }
    }

    /// The site to show: with the preview, if there is one.
    pub fn shown(&self) -> &Arc<Site> {
        self.preview
            .as_ref()
            .map_or(&self.committed, |preview| &preview.site)
    }

    /// The site to save.
    pub fn committed(&self) -> &Arc<Site> {
        &self.committed
    }

    /// Whether a preview is shown.
    pub const fn is_previewing(&self) -> bool {
        self.preview.is_some()
    }

    /// Shows an edit of the committed site in place of the preview that was shown.
    ///
    /// # Errors
    /// What the edit was refused for; then the former preview stays, so that a drag
    /// past what is allowed rests at the last place that was.
    pub fn preview(&mut self, name: impl Into<String>, edit: &Edit) -> Result<(), Problems> {
        let site = Arc::new(edit.apply(&self.committed)?);
        self.preview = Some(Step {
            name: name.into(),
            site,
        });
        self.revision += 1;
        Ok(())
    }

    /// Makes the preview a step. Nothing happens where there is none.
    pub fn commit_preview(&mut self) {
        if let Some(preview) = self.preview.take() {
            self.step_to(preview);
        }
    }

    /// Drops the preview. Nothing happens where there is none.
    pub fn cancel_preview(&mut self) {
        if self.preview.take().is_some() {
            self.revision += 1;
        }
    }

    /// Applies an edit to the committed site as one step; a preview is dropped. An edit
    /// that changes nothing makes no step.
    ///
    /// # Errors
    /// What the edit was refused for; then nothing has changed.
    pub fn carry_out(&mut self, name: impl Into<String>, edit: &Edit) -> Result<(), Problems> {
        let site = Arc::new(edit.apply(&self.committed)?);
        self.cancel_preview();
        self.step_to(Step {
            name: name.into(),
            site,
        });
        Ok(())
    }

    /// Takes the last step back, and says which it was. A preview is dropped.
    pub fn undo(&mut self) -> Option<String> {
        self.cancel_preview();
        let step = self.done.pop()?;
        let after = std::mem::replace(&mut self.committed, step.site);
        self.undone.push(Step {
            name: step.name.clone(),
            site: after,
        });
        self.revision += 1;
        Some(step.name)
    }

    /// Takes the last undone step again, and says which it was. A preview is dropped.
    pub fn redo(&mut self) -> Option<String> {
        self.cancel_preview();
        let step = self.undone.pop()?;
        let before = std::mem::replace(&mut self.committed, step.site);
        self.done.push(Step {
            name: step.name.clone(),
            site: before,
        });
        self.revision += 1;
        Some(step.name)
    }

    /// The step that [`Document::undo`] would take back.
    pub fn undo_name(&self) -> Option<&str> {
        self.done.last().map(|step| step.name.as_str())
    }

    /// The step that [`Document::redo`] would take again.
    pub fn redo_name(&self) -> Option<&str> {
        self.undone.last().map(|step| step.name.as_str())
    }

    /// Whether the committed site is the one last saved. Undoing back to it counts.
    pub fn is_saved(&self) -> bool {
        self.saved
            .as_ref()
            .is_some_and(|saved| Arc::ptr_eq(saved, &self.committed))
    }

    /// Notes that the committed site was saved.
    pub fn mark_saved(&mut self) {
        self.saved = Some(Arc::clone(&self.committed));
    }

    /// A number that grows whenever what is shown changes.
    pub const fn revision(&self) -> u64 {
        self.revision
    }

    fn step_to(&mut self, step: Step) {
        self.revision += 1;
        if *step.site == *self.committed {
            return;
        }
        let before = std::mem::replace(&mut self.committed, step.site);
        self.done.push(Step {
            name: step.name,
            site: before,
        });
        if self.done.len() > MOST_STEPS {
            self.done.remove(0);
        }
        self.undone.clear();
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use super::*;

    fn named(name: &str) -> Edit {
        Edit::Name(name.to_owned())
    }

    #[test]
    fn a_preview_is_shown_but_not_committed_until_told() {
        let mut document = Document::new(Site::default());
        document.preview("Name", &named("one")).unwrap();
        document.preview("Name", &named("two")).unwrap();
        assert_eq!(document.shown().name, "two");
        assert_eq!(document.committed().name, "");
        assert!(document.is_saved());
        document.cancel_preview();
        assert_eq!(document.shown().name, "");
        document.preview("Name", &named("three")).unwrap();
        document.commit_preview();
        assert_eq!(document.committed().name, "three");
        assert_eq!(document.undo_name(), Some("Name"));
        assert_eq!(document.undo().as_deref(), Some("Name"));
        assert_eq!(document.undo(), None);
    }

    #[test]
    fn saved_means_the_very_site_that_was_saved() {
        let mut document = Document::new(Site::default());
        document.carry_out("Name", &named("one")).unwrap();
        assert!(!document.is_saved());
        document.mark_saved();
        document.carry_out("Name", &named("two")).unwrap();
        assert!(!document.is_saved());
        document.undo();
        assert!(document.is_saved());
        assert!(!Document::unsaved(Site::default()).is_saved());
    }

    #[test]
    fn an_edit_that_changes_nothing_is_no_step() {
        let mut document = Document::new(Site::default());
        document.carry_out("Name", &named("")).unwrap();
        assert_eq!(document.undo_name(), None);
        assert!(document.is_saved());
    }

    #[test]
    fn a_new_step_ends_what_could_be_redone() {
        let mut document = Document::new(Site::default());
        document.carry_out("Name", &named("one")).unwrap();
        document.undo();
        assert_eq!(document.redo_name(), Some("Name"));
        document
            .carry_out("Place", &Edit::Place("quay".to_owned()))
            .unwrap();
        assert_eq!(document.redo_name(), None);
        assert_eq!(document.redo(), None);
    }
}
