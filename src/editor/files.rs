//! Files, as the window sees them: which one is open, what is asked before unsaved work
//! would be lost, what is kept in case the program or machine stops.

use super::Editor;
use super::chooser::{Choosing, Chosen, FileChooser, Purpose, SITE_EXTENSION, Wanted};
use super::dialog::{Dialog, Replacing, Waiting};
use super::intent::Message;
use crate::site::{Document, Site};
use crate::store::preferences::{self, Preferences};
use crate::store::recovery::{self, Left, Slot};
use crate::store::samples::SAMPLES;
use crate::store::{self, StoreError, recent};
use eframe::egui::Context;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::thread::JoinHandle;

/// What the window knows of files.
#[derive(Default)]
pub(crate) struct Files {
    /// The desktop's dialogs, if there are any.
    chooser: Option<Arc<dyn FileChooser>>,
    /// One that is to be opened.
    wanted: Option<Wanted>,
    /// One that is open.
    choosing: Option<Choosing>,
    /// Where what lasts is kept; nothing lasts without it.
    state_dir: Option<PathBuf>,
    /// Files worked on lately, newest first.
    pub(crate) recent: Vec<PathBuf>,
    /// What the user chose once and for all sites.
    pub(crate) preferences: Preferences,
    /// Copies that a program left behind.
    pub(crate) left: Vec<Left>,
    /// Where this program's recovery copy goes.
    pub(super) slot: Option<Arc<Slot>>,
    /// The site that the recovery copy holds, and when it was written, s.
    pub(super) copied: Option<(Arc<Site>, f64)>,
    /// Whoever writes the copy just now.
    pub(super) copying: Option<JoinHandle<()>>,
}

/// Which wording of the safety words is shown: one more when they say something new,
/// so that everybody reads them again.
const CAUTIONS_EDITION: u32 = 1;

impl std::fmt::Debug for Files {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Files")
            .field("state_dir", &self.state_dir)
            .field("recent", &self.recent)
            .finish_non_exhaustive()
    }
}

impl Editor {
    /// The same window with the desktop's file dialogs.
    #[must_use]
    pub fn with_chooser(mut self, chooser: Arc<dyn FileChooser>) -> Self {
        self.files.chooser = Some(chooser);
        self
    }

    /// The same window with a folder for what lasts: recent files, recovery copies,
    /// preferences. What a crash left there is offered at once.
    #[must_use]
    pub fn with_state_dir(mut self, dir: PathBuf) -> Self {
        self.files.recent = recent::read(&dir);
        self.files.preferences = preferences::read(&dir);
        self.theme = self.files.preferences.look.into();
        self.files.left = recovery::find(&dir);
        // Without a slot there is no copy: said once something would have been lost.
        self.files.slot = Slot::claim(&dir).ok().map(Arc::new);
        self.files.state_dir = Some(dir);
        if let Some(file) = self.file.clone() {
            self.note_recent(&file);
        }
        self.dialog = self.first_question();
        self
    }

    /// The same window on a site that was read from a file.
    #[must_use]
    pub fn with_file(mut self, path: PathBuf) -> Self {
        self.note_recent(&path);
        self.file = Some(path);
        self
    }

    /// What is asked before anything else: what a crash left behind comes first, then
    /// the safety words that nobody has read yet.
    pub(super) fn first_question(&self) -> Option<Dialog> {
        if !self.files.left.is_empty() {
            return Some(Dialog::Recovery);
        }
        let read = self.files.preferences.cautions_read;
        (read < CAUTIONS_EDITION).then_some(Dialog::Cautions)
    }

    /// Goes on with what was waiting, unless unsaved work would be lost.
    pub(super) fn guarded(&mut self, then: Waiting) {
        if self.document.is_saved() {
            self.go_on(then);
        } else {
            self.dialog = Some(Dialog::Unsaved { then });
        }
    }

    /// Goes on with what was waiting, whatever is lost.
    pub(super) fn go_on(&mut self, then: Waiting) {
        self.dialog = None;
        match then {
            Waiting::New => self.begin(Document::new(Site::default()), None),
            Waiting::Open => {
                self.dialog = Some(Dialog::Open {
                    path: String::new(),
                    trouble: None,
                });
                self.files.wants_chooser(Purpose::OpenSite, self.folder());
            }
            Waiting::OpenPath(path) => self.open_path(&path),
            Waiting::Sample(name) => self.open_sample(name),
            Waiting::Close => {
                self.files.drop_copy();
                self.may_close = true;
            }
        }
    }

    /// Reads a site; where it can't be used, says why and lets another be chosen.
    pub(super) fn open_path(&mut self, path: &Path) {
        let read = store::open(path)
            .and_then(|site| store::check_against(path, &site, &self.catalogue).map(|()| site));
        match read {
            Ok(site) => {
                self.begin(Document::new(site), Some(path.to_owned()));
                self.note_recent(path);
            }
            Err(trouble) => {
                self.dialog = Some(Dialog::Open {
                    path: path.display().to_string(),
                    trouble: Some(trouble.to_string()),
                });
            }
        }
    }

    /// Opens a sample, which has no file: it can be tried out and is never overwritten.
    fn open_sample(&mut self, name: &str) {
        let Some(sample) = SAMPLES.iter().find(|sample| sample.name == name) else {
            return;
        };
        match sample.open() {
            Ok(site) => self.begin(Document::new(site), None),
            Err(trouble) => self.message = Some(Message::trouble(trouble.to_string())),
        }
    }

    /// Another document in the window.
    pub(super) fn begin(&mut self, document: Document, file: Option<PathBuf>) {
        self.stage = super::state::first_stage(document.committed());
        self.drafts = super::drafts::Drafts::new(&self.catalogue, document.committed().units);
        self.finding_at = None;
        self.document = document;
        self.file = file;
        self.selection = super::Selection::default();
        self.canvas.drop_drawing();
        self.tool = super::ToolKind::default();
        self.message = None;
        self.dialog = None;
        self.fit();
    }

    /// Writes into the file, or asks for one.
    pub(super) fn save(&mut self, then: Option<Waiting>) {
        match self.file.clone() {
            Some(path) => self.save_to(&path, Replacing::Sites, then),
            None => self.ask_where(then),
        }
    }

    /// Asks where to write.
    pub(super) fn ask_where(&mut self, then: Option<Waiting>) {
        let path = self.suggested_path();
        self.dialog = Some(Dialog::SaveAs {
            path: path.display().to_string(),
            trouble: None,
            may_replace: false,
            then,
        });
        self.files.wants_chooser(Purpose::SaveSite, Some(path));
    }

    /// Writes into a file, goes on in that one, and then with what was waiting. What is
    /// no site is replaced only where the user has said so.
    pub(super) fn save_to(&mut self, path: &Path, over: Replacing, then: Option<Waiting>) {
        let path = with_extension(path);
        let site = self.document.committed();
        let saved = match over {
            Replacing::Sites => store::save(&path, site),
            Replacing::Anything => store::save_over(&path, site),
        };
        match saved {
            Ok(()) => self.is_saved_as(&path, then),
            Err(trouble) => {
                self.dialog = Some(Dialog::SaveAs {
                    path: path.display().to_string(),
                    may_replace: matches!(trouble, StoreError::WouldReplace { .. }),
                    trouble: Some(trouble.to_string()),
                    then,
                });
            }
        }
    }

    fn is_saved_as(&mut self, path: &Path, then: Option<Waiting>) {
        self.document.mark_saved();
        self.note_recent(path);
        self.message = Some(Message::done(format!("Saved as {}", path.display())));
        self.file = Some(path.to_owned());
        self.dialog = None;
        self.files.drop_copy();
        if let Some(then) = then {
            self.go_on(then);
        }
    }

    /// The folder of the file that is open.
    fn folder(&self) -> Option<PathBuf> {
        self.file
            .as_ref()
            .or(self.files.recent.first())
            .and_then(|path| path.parent())
            .map(Path::to_owned)
    }

    /// Where a site without a file would go: named after the site, beside the last one.
    fn suggested_path(&self) -> PathBuf {
        if let Some(file) = &self.file {
            return file.clone();
        }
        let name: String = self
            .document
            .committed()
            .name
            .chars()
            .map(|c| if c.is_alphanumeric() { c } else { '-' })
            .collect();
        let name = match name.trim_matches('-') {
            "" => "new-site",
            name => name,
        };
        let file = format!("{}.{SITE_EXTENSION}", name.to_lowercase());
        self.folder()
            .map_or_else(|| PathBuf::from(&file), |folder| folder.join(&file))
    }

    fn note_recent(&mut self, path: &Path) {
        let Some(dir) = &self.files.state_dir else {
            return;
        };
        // The list is a convenience: that it can't be kept is no reason to disturb.
        if recent::note(dir, path).is_ok() {
            self.files.recent = recent::read(dir);
        }
    }

    /// Keeps the preferences, with the theme in force.
    pub(super) fn keep_preferences(&mut self) {
        self.files.preferences.look = self.theme.into();
        if let Some(dir) = &self.files.state_dir {
            let kept = preferences::write(dir, &self.files.preferences);
            if let Err(trouble) = kept {
                self.message = Some(Message::trouble(trouble.to_string()));
            }
        }
    }

    /// The safety words were read.
    pub(super) fn cautions_read(&mut self) {
        self.files.preferences.cautions_read = CAUTIONS_EDITION;
        self.keep_preferences();
        self.dialog = None;
    }

    /// What files ask of every frame: the answer of a dialog, the recovery copy.
    pub(super) fn tend_files(&mut self, ctx: &Context) {
        if let Some(wanted) = self.files.wanted.take()
            && let Some(chooser) = &self.files.chooser
        {
            self.files.choosing = Some(Choosing::start(Arc::clone(chooser), wanted, ctx));
        }
        self.take_chosen();
        self.tend_copy(ctx);
    }

    fn take_chosen(&mut self) {
        let Some(choosing) = &self.files.choosing else {
            return;
        };
        let purpose = choosing.purpose;
        let chosen = choosing.poll();
        if chosen == Chosen::NotYet {
            return;
        }
        self.files.choosing = None;
        let Chosen::Path(path) = chosen else {
            return;
        };
        if purpose == Purpose::SheetFolder {
            self.set_writer.order.folder = path.display().to_string();
            return;
        }
        match (purpose, self.dialog.take()) {
            (Purpose::OpenSite, Some(Dialog::Open { .. })) => self.open_path(&path),
            (Purpose::SaveSite, Some(Dialog::SaveAs { then, .. })) => {
                self.save_to(&path, Replacing::Sites, then);
            }
            (Purpose::SavePicture, Some(Dialog::SavePicture { .. })) => {
                self.save_picture(&path);
            }
            // The question was answered by hand meanwhile.
            (_, dialog) => self.dialog = dialog,
        }
    }
}

impl Files {
    /// Asks for a desktop dialog in this frame.
    pub(crate) fn wants_chooser(&mut self, purpose: Purpose, start: Option<PathBuf>) {
        self.wanted = Some(Wanted { purpose, start });
    }

    /// Whether a desktop dialog is open.
    pub(crate) fn is_choosing(&self) -> bool {
        self.choosing.is_some()
    }
}

/// The path with the ending of a site's file where it has none.
fn with_extension(path: &Path) -> PathBuf {
    match path.extension() {
        Some(_) => path.to_owned(),
        None => path.with_extension(SITE_EXTENSION),
    }
}
