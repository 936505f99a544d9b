//! Recovery copies, as the window sees them: written beside the site while it is being
//! changed, offered after a crash, dropped once everything is saved.

use super::Editor;
use super::files::Files;
use super::intent::Message;
use crate::site::Document;
use crate::store::StoreError;
use crate::store::recovery::{self, Left};
use eframe::egui::Context;
use std::sync::Arc;
use std::time::Duration;

/// Seconds between two recovery copies while the site is being changed.
const BETWEEN_COPIES: f64 = 5.0;

impl Editor {
    /// Takes up a copy that a crash left behind. It stays unsaved, and belongs to the
    /// file that it was opened from.
    pub(super) fn restore(&mut self, index: usize) {
        if index >= self.files.left.len() {
            return;
        }
        let left = self.files.left.remove(index);
        match &left.site {
            Ok(site) => {
                self.begin(Document::unsaved(site.clone()), left.original.clone());
                self.message = Some(Message::done("Restored; save it to keep it"));
                self.write_copy_now();
                self.forget(&left);
            }
            Err(trouble) => self.message = Some(Message::trouble(trouble.to_string())),
        }
        self.dialog = None;
    }

    /// Throws a copy away that a crash left behind.
    pub(super) fn throw_away(&mut self, index: usize) {
        if index < self.files.left.len() {
            let left = self.files.left.remove(index);
            self.forget(&left);
        }
        self.dialog = self.first_question();
    }

    /// Leaves the copies for another time.
    pub(super) fn leave_copies(&mut self) {
        self.files.left.clear();
        self.dialog = self.first_question();
    }

    fn forget(&mut self, left: &Left) {
        if let Err(trouble) = recovery::remove(left) {
            self.message = Some(Message::trouble(trouble.to_string()));
        }
    }

    fn write_copy_now(&mut self) {
        if let Some(slot) = &self.files.slot {
            let kept = slot.write(self.document.committed(), self.file.as_deref());
            self.told_of_copy(kept);
        }
    }

    fn told_of_copy(&mut self, kept: Result<(), StoreError>) {
        if let Err(trouble) = kept {
            self.message = Some(Message::trouble(format!("No recovery copy: {trouble}")));
        }
    }

    /// Writes the recovery copy on a thread of its own, a while after each change.
    pub(super) fn tend_copy(&mut self, ctx: &Context) {
        let Some(slot) = &self.files.slot else {
            return;
        };
        let site = self.document.committed();
        if self.document.is_saved() {
            self.files.drop_copy();
            return;
        }
        let now = ctx.input(|input| input.time);
        if let Some((copied, at)) = &self.files.copied {
            if Arc::ptr_eq(copied, site) {
                return;
            }
            let rest = BETWEEN_COPIES - (now - at);
            if rest > 0.0 {
                ctx.request_repaint_after(Duration::from_secs_f64(rest));
                return;
            }
        }
        let (slot, site, file) = (Arc::clone(slot), Arc::clone(site), self.file.clone());
        self.files.copied = Some((Arc::clone(&site), now));
        self.files.copying = Some(std::thread::spawn(move || {
            // A copy that can't be written is found missing only when it is needed, but a
            // message on every change would be worse: saving tells of full disks.
            slot.write(&site, file.as_deref()).ok();
        }));
    }
}

impl Files {
    /// Everything is saved: no copy is needed.
    pub(super) fn drop_copy(&mut self) {
        // One that is being written would come after all; it takes milliseconds.
        if let Some(copying) = self.copying.take() {
            copying.join().ok();
        }
        if self.copied.take().is_some()
            && let Some(slot) = &self.slot
        {
            // A stale copy is offered once and does no harm.
            slot.clear().ok();
        }
    }
}
