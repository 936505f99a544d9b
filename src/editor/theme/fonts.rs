//! The faces: of the family that the sheets are set in, so that screen and paper agree
//! and every symbol of the trade is there on every machine; narrow, so that forms can
//! be. All figures of these faces are equally wide, so a changing number moves nothing.

use eframe::egui;
use egui::{FontData, FontDefinitions, FontFamily};
use std::sync::Arc;

const REGULAR: &[u8] = include_bytes!("../../../assets/fonts/DejaVuSansCondensed.ttf");
const BOLD: &[u8] = include_bytes!("../../../assets/fonts/DejaVuSansCondensed-Bold.ttf");

/// The family of bold text.
pub(super) fn bold() -> FontFamily {
    FontFamily::Name("bold".into())
}

/// All faces, nothing else: text must not differ between machines.
pub(super) fn definitions() -> FontDefinitions {
    let mut fonts = FontDefinitions::empty();
    for (name, bytes) in [("regular", REGULAR), ("bold", BOLD)] {
        fonts
            .font_data
            .insert(name.to_owned(), Arc::new(FontData::from_static(bytes)));
    }
    for (family, faces) in [
        (FontFamily::Proportional, ["regular", "bold"]),
        (FontFamily::Monospace, ["regular", "bold"]),
        (bold(), ["bold", "regular"]),
    ] {
        fonts
            .families
            .insert(family, faces.map(str::to_owned).to_vec());
    }
    fonts
}
