//! Choosing a file with the desktop's own dialog.
//!
//! Such a dialog may be missing, or hang: it runs on a thread of its own, the window
//! never waits for it, and a path can always be typed beside it.

use eframe::egui::Context;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};

/// What the dialog is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// A site to read.
    OpenSite,
    /// A file to write a site into.
    SaveSite,
    /// A file to draw a section or a picture into.
    SavePicture,
    /// A folder to write sheets into.
    SheetFolder,
}

/// What is wanted of a dialog.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wanted {
    /// What it is for.
    pub purpose: Purpose,
    /// Where it starts: a folder, or a file whose folder and name it takes over.
    pub start: Option<PathBuf>,
}

/// Whoever can show such a dialog.
pub trait FileChooser: Send + Sync {
    /// Asks the user, and waits; none when the user chose nothing, or there is no dialog.
    fn choose(&self, wanted: &Wanted) -> Option<PathBuf>;
}

/// The desktop's dialogs.
#[derive(Debug, Clone, Copy, Default)]
pub struct DesktopChooser;

/// Extension of a site's file.
pub const SITE_EXTENSION: &str = "ron";

impl FileChooser for DesktopChooser {
    fn choose(&self, wanted: &Wanted) -> Option<PathBuf> {
        let mut dialog = rfd::FileDialog::new();
        if let Some(start) = &wanted.start {
            let is_folder = start.extension().is_none();
            let folder = if is_folder {
                Some(start.as_path())
            } else {
                start.parent()
            };
            if let Some(folder) = folder {
                dialog = dialog.set_directory(folder);
            }
            if let (false, Some(name)) = (is_folder, start.file_name()) {
                dialog = dialog.set_file_name(name.to_string_lossy());
            }
        }
        match wanted.purpose {
            Purpose::OpenSite => dialog
                .set_title("Open a site")
                .add_filter("Sites", &[SITE_EXTENSION])
                .add_filter("All files", &["*"])
                .pick_file(),
            Purpose::SaveSite => dialog
                .set_title("Save the site")
                .add_filter("Sites", &[SITE_EXTENSION])
                .save_file(),
            Purpose::SavePicture => dialog
                .set_title("Save the picture")
                .add_filter("Drawings and pictures", &["pdf", "svg", "png", "dxf"])
                .save_file(),
            Purpose::SheetFolder => dialog.set_title("Write the sheets into").pick_folder(),
        }
    }
}

/// A dialog that is open.
#[derive(Debug)]
pub struct Choosing {
    /// What it is for.
    pub purpose: Purpose,
    answer: Receiver<Option<PathBuf>>,
}

/// What has become of a dialog.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Chosen {
    /// The user is still choosing.
    NotYet,
    /// This file.
    Path(PathBuf),
    /// Nothing, or there is no dialog on this desktop.
    Nothing,
}

impl Choosing {
    /// Opens a dialog on a thread of its own, and draws the window again once the user
    /// has chosen.
    pub fn start(chooser: Arc<dyn FileChooser>, wanted: Wanted, ctx: &Context) -> Self {
        let (sender, answer) = channel();
        let purpose = wanted.purpose;
        let ctx = ctx.clone();
        std::thread::spawn(move || {
            let chosen = chooser.choose(&wanted);
            // The window may have been closed meanwhile: then nobody wants the answer.
            if sender.send(chosen).is_ok() {
                ctx.request_repaint();
            }
        });
        Self { purpose, answer }
    }

    /// Looks whether the user has chosen; never waits.
    pub fn poll(&self) -> Chosen {
        match self.answer.try_recv() {
            Ok(Some(path)) => Chosen::Path(path),
            Ok(None) | Err(TryRecvError::Disconnected) => Chosen::Nothing,
            Err(TryRecvError::Empty) => Chosen::NotYet,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::{Duration, Instant};

    struct Fake(Option<PathBuf>);

    impl FileChooser for Fake {
        fn choose(&self, _: &Wanted) -> Option<PathBuf> {
            self.0.clone()
        }
    }

    fn check(chosen: Option<&str>, expected: &Chosen) {
        let wanted = Wanted {
            purpose: Purpose::OpenSite,
            start: None,
        };
        let fake = Arc::new(Fake(chosen.map(PathBuf::from)));
        let choosing = Choosing::start(fake, wanted, &Context::default());
        let until = Instant::now() + Duration::from_secs(10);
        let mut found = Chosen::NotYet;
        while found == Chosen::NotYet && Instant::now() < until {
            std::thread::sleep(Duration::from_millis(1));
            found = choosing.poll();
        }
        assert_eq!(found, *expected);
    }

    #[test]
    fn the_answer_arrives_without_waiting_for_it() {
        check(
            Some("/sites/shed.ron"),
            &Chosen::Path("/sites/shed.ron".into()),
        );
        check(None, &Chosen::Nothing);
    }
}
