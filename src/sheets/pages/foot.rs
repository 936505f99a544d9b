//! What stands at the bottom of a page that is a table: title block, cautions, and
//! the warning that it is not for construction.

use crate::sheets::mark::Sheet;
use crate::sheets::paper::{PaperPoint, PaperRect};

use super::PageInput;
use super::{notes, title_block};

/// Distance between parts of a sheet, mm.
pub(super) const GAP_MM: f64 = 3.0;
/// Beside the title block, cautions narrower than this would be a tall pillar, mm.
const LEAST_BESIDE_MM: f64 = 120.0;

/// Draws the foot, all but the title block's own lines, and returns the room above it.
pub(super) fn draw(sheet: &mut Sheet, input: &PageInput<'_>) -> PaperRect {
    let frame = sheet.size.frame();
    let block = title_block::place(sheet.size);
    let beside_mm = block.left - frame.left - 2.0 * GAP_MM;
    let mut top = block.top;
    if LEAST_BESIDE_MM <= beside_mm {
        let mut y = block.top + 1.0;
        let cautions = notes::cautions(beside_mm);
        let warning = notes::warning(input, beside_mm);
        let height = cautions.height_mm + warning.as_ref().map_or(0.0, |it| it.height_mm + 1.5);
        y = y.min(frame.bottom - 1.0 - height);
        top = top.min(y - 1.0);
        for part in warning.iter().chain([&cautions]) {
            let corner = PaperPoint::new(frame.left + GAP_MM, y);
            part.at(corner).for_each(|mark| sheet.draw(mark));
            y += part.height_mm + 1.5;
        }
    } else {
        let width_mm = frame.width_mm() - 2.0 * GAP_MM;
        let cautions = notes::cautions(width_mm);
        top -= cautions.height_mm + 1.5;
        let corner = PaperPoint::new(frame.left + GAP_MM, top);
        cautions.at(corner).for_each(|mark| sheet.draw(mark));
        // Beside the title block if there is room for it, else above the cautions.
        let fits_beside = 60.0 <= beside_mm;
        let warning_mm = if fits_beside { beside_mm } else { width_mm };
        if let Some(warning) = notes::warning(input, warning_mm) {
            let y = if fits_beside {
                block.top + GAP_MM
            } else {
                top -= warning.height_mm + 1.5;
                top
            };
            let corner = PaperPoint::new(frame.left + GAP_MM, y);
            warning.at(corner).for_each(|mark| sheet.draw(mark));
        }
    }
    PaperRect {
        left: frame.left + GAP_MM,
        top: frame.top + GAP_MM,
        right: frame.right - GAP_MM,
        bottom: top - GAP_MM,
    }
}
