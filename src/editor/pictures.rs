//! Saving what is shown: a section to scale, or the site in space.

use super::Editor;
use super::chooser::Purpose;
use super::dialog::Dialog;
use super::intent::Message;
use super::view::Aspect;
use crate::findings::judge;
use crate::sheets::files::{SheetFormat, one_file};
use crate::sheets::mark::Sheet;
use crate::sheets::pages::{PageInput, PictureOrder, metadata, picture, section_sheet};
use crate::store::{OutputFile, write_all};
use crate::study::study;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Dots per inch of images.
const DOTS_PER_INCH: f64 = 300.0;
/// Width of a picture of the site in space, mm.
const WIDTH_MM: f64 = 180.0;

impl Editor {
    /// Asks where to draw what is shown.
    pub(super) fn ask_picture(&mut self) {
        let what = match self.view.aspect {
            Aspect::Plan => return,
            Aspect::Section => "section.pdf",
            Aspect::Space => "in-3-d.png",
        };
        let folder = self.file.as_ref().and_then(|path| path.parent());
        let path = folder.map_or_else(|| PathBuf::from(what), |folder| folder.join(what));
        self.dialog = Some(Dialog::SavePicture {
            path: path.display().to_string(),
            trouble: None,
        });
        self.files.wants_chooser(Purpose::SavePicture, Some(path));
    }

    /// Draws what is shown into a file whose ending says how.
    pub(super) fn save_picture(&mut self, path: &Path) {
        match self.drawn(path).and_then(|bytes| write(path, bytes)) {
            Ok(()) => {
                self.dialog = None;
                self.message = Some(Message::done(format!("Saved as {}", path.display())));
            }
            Err(trouble) => {
                self.dialog = Some(Dialog::SavePicture {
                    path: path.display().to_string(),
                    trouble: Some(trouble),
                });
            }
        }
    }

    fn drawn(&self, path: &Path) -> Result<Vec<u8>, String> {
        let format = path
            .extension()
            .and_then(|ending| SheetFormat::of_ending(&ending.to_string_lossy()))
            .ok_or("The ending says how it is written: png, svg, pdf or dxf.")?;
        // As with the plan set: of what a save would write.
        let site = Arc::clone(self.document.committed());
        let study = study(&site, &self.catalogue);
        let findings = judge(&site, &self.catalogue, &study);
        let input = PageInput {
            site: &site,
            catalogue: &self.catalogue,
            study: &study,
            findings: &findings,
            date: None,
        };
        let sheet = self.sheet(&input, format)?;
        one_file(&sheet, &metadata(&input), format, site.units, DOTS_PER_INCH)
            .map_err(|error| error.to_string())
    }

    fn sheet(&self, input: &PageInput<'_>, format: SheetFormat) -> Result<Sheet, String> {
        if self.view.aspect == Aspect::Section {
            let line = self.section.line(input.site, input.catalogue);
            return line
                .map(|line| section_sheet(input, &line))
                .ok_or_else(|| "There is neither a section line nor a bay to cut.".to_owned());
        }
        if format == SheetFormat::Dxf {
            return Err(
                "The site in 3-D can't be written as DXF; take png, svg or pdf.".to_owned(),
            );
        }
        let camera = self.space.camera().copied();
        let stand = camera.unwrap_or_default();
        let order = PictureOrder {
            from_degrees: stand.from_degrees,
            tilt_degrees: stand.tilt_degrees,
            width_mm: WIDTH_MM,
            dots_per_inch: DOTS_PER_INCH,
            camera,
        };
        picture(input, &order).map_err(|error| error.to_string())
    }
}

fn write(path: &Path, bytes: Vec<u8>) -> Result<(), String> {
    let name = path.file_name().ok_or("That names no file.")?;
    let file = OutputFile {
        name: name.to_string_lossy().into_owned(),
        bytes,
    };
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    write_all(folder, &[file]).map_err(|error| error.to_string())
}
