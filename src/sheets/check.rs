//! The one check of a sheet before a writer draws it.

use crate::geometry::DVec2;
use crate::sheets::error::{MOST_MM, SheetError};
use crate::sheets::mark::{Mark, Shape, Sheet};
use crate::sheets::paper::{PaperRect, Viewport};

/// Refuses a sheet that can't be drawn, so that the writers need no defences.
pub(super) fn check(sheet: &Sheet) -> Result<(), SheetError> {
    for viewport in &sheet.viewports {
        if !is_usable(viewport) {
            return Err(SheetError::BadViewport {
                sheet: sheet.id.clone(),
                viewport: viewport.name.clone(),
            });
        }
    }
    for (index, mark) in sheet.marks.iter().enumerate() {
        check_mark(sheet, index, mark)?;
    }
    Ok(())
}

fn check_mark(sheet: &Sheet, index: usize, mark: &Mark) -> Result<(), SheetError> {
    if let Some(viewport) = mark.viewport
        && sheet.viewports.len() <= viewport.0
    {
        return Err(SheetError::UnknownViewport {
            sheet: sheet.id.clone(),
            mark: index,
            viewport: viewport.0,
            n_viewports: sheet.viewports.len(),
        });
    }
    if !is_drawable(&mark.shape) {
        return Err(SheetError::OffPaper {
            sheet: sheet.id.clone(),
            mark: index,
            layer: mark.layer,
        });
    }
    if let Shape::Picture(picture) = &mark.shape {
        decode(&picture.png).map_err(|error| SheetError::Picture {
            sheet: sheet.id.clone(),
            reason: error.to_string(),
        })?;
    }
    Ok(())
}

/// Decodes a picture to its end, since the readers of our files would find out.
fn decode(png: &[u8]) -> Result<(), png::DecodingError> {
    let limits = png::Limits {
        bytes: MOST_PICTURE_BYTES,
    };
    let mut reader =
        png::Decoder::new_with_limits(std::io::Cursor::new(png), limits).read_info()?;
    while reader.next_row()?.is_some() {}
    Ok(())
}

/// The most memory that decoding a picture may take.
const MOST_PICTURE_BYTES: usize = 256 << 20;

fn is_usable(viewport: &Viewport) -> bool {
    let scale = viewport.scale.denominator;
    scale.is_finite()
        && 0.0 < scale
        && number(viewport.turn_degrees)
        && point(viewport.site_anchor)
        && point(viewport.paper_anchor)
        && rect(viewport.window)
}

fn number(value: f64) -> bool {
    value.abs() <= MOST_MM
}

fn point(point: DVec2) -> bool {
    number(point.x) && number(point.y)
}

fn rect(rect: PaperRect) -> bool {
    rect.corners().into_iter().all(point) && rect.left < rect.right && rect.top < rect.bottom
}

fn is_drawable(shape: &Shape) -> bool {
    let all = |ring: &[DVec2]| ring.iter().copied().all(point);
    match shape {
        Shape::Polyline(line) => all(&line.points),
        Shape::Area(area) => area.rings().all(all),
        Shape::Circle(circle) => point(circle.centre) && number(circle.radius_mm),
        Shape::Arc(arc) => {
            point(arc.centre)
                && number(arc.radius_mm)
                && number(arc.from_degrees)
                && number(arc.sweep_degrees)
        }
        Shape::Hatch(hatch) => {
            hatch.rings().all(all) && number(hatch.angle_degrees) && number(hatch.spacing_mm)
        }
        Shape::Text(text) => {
            point(text.start()) && number(text.turn_degrees()) && number(text.advance_mm())
        }
        Shape::Picture(picture) => rect(picture.place),
        Shape::Symbol(used) => {
            point(used.at)
                && number(used.turn_degrees)
                && used.symbol.parts.iter().all(|part| match part.shape {
                    // Left out by the writers.
                    Shape::Symbol(_) => true,
                    _ => is_drawable(&part.shape),
                })
                && used
                    .shown()
                    .all(|text| is_drawable(&Shape::Text(text.clone())))
        }
    }
}
