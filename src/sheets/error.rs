//! Why a sheet can't be written.

use crate::sheets::layer::Layer;

/// Why a sheet can't be written. All of these are about what the sheet contains or
/// what was asked for; none is about files.
#[derive(Debug, thiserror::Error)]
pub enum SheetError {
    /// A mark has a coordinate that isn't finite, or lies absurdly far from the paper.
    #[error(
        "sheet {sheet}: mark {mark} on layer {} has a coordinate that can't be drawn; \
         coordinates are finite and at most {MOST_MM} mm from the sheet's corner",
        layer.name()
    )]
    OffPaper {
        /// The sheet's id.
        sheet: String,
        /// The mark's place in the sheet's list.
        mark: usize,
        /// The mark's layer.
        layer: Layer,
    },
    /// A mark refers to a viewport that the sheet doesn't have.
    #[error(
        "sheet {sheet}: mark {mark} refers to viewport {viewport}, but the sheet has {n_viewports}"
    )]
    UnknownViewport {
        /// The sheet's id.
        sheet: String,
        /// The mark's place in the sheet's list.
        mark: usize,
        /// What it refers to.
        viewport: usize,
        /// How many there are.
        n_viewports: usize,
    },
    /// A viewport's scale, turn or window can't be used.
    #[error(
        "sheet {sheet}: viewport “{viewport}” has a scale, turn or window that can't be used; \
         scales are greater than zero, windows have a width and a height"
    )]
    BadViewport {
        /// The sheet's id.
        sheet: String,
        /// The viewport's name.
        viewport: String,
    },
    /// A picture can't be read.
    #[error("sheet {sheet}: a picture can't be read ({reason}); pictures are PNG files")]
    Picture {
        /// The sheet's id.
        sheet: String,
        /// What the decoder says.
        reason: String,
    },
    /// The image asked for is too large.
    #[error(
        "sheet {sheet} at {dots_per_inch} dots per inch has {megapixels} megapixels; \
         choose fewer dots per inch, at most {MOST_MEGAPIXELS} megapixels can be drawn"
    )]
    TooManyPixels {
        /// The sheet's id.
        sheet: String,
        /// What was asked for.
        dots_per_inch: f64,
        /// What it comes to.
        megapixels: u64,
    },
    /// A library refused what we gave it.
    #[error("sheet {sheet} can't be written as {format}: {reason}")]
    Refused {
        /// The sheet's id, or several.
        sheet: String,
        /// The file format.
        format: &'static str,
        /// What the library says.
        reason: String,
    },
}

/// The farthest that a coordinate may be from the sheet's corner, mm: 10 km, the
/// greatest site, ten times enlarged. Beyond it, single precision in PDF files fails.
pub const MOST_MM: f64 = 1e8;

/// The largest image, megapixels: A0 at 300 dots per inch has 140; four bytes each.
pub const MOST_MEGAPIXELS: u64 = 160;
