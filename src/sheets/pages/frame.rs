//! The sheet's border: frame, centring marks and grid references after ISO 5457.

use crate::geometry::DVec2;
use crate::sheets::layer::Layer;
use crate::sheets::lettering::Lettering;
use crate::sheets::mark::{Mark, Polyline, Sheet};
use crate::sheets::paper::{PaperPoint, PaperRect};
use crate::sheets::pen::Pen;
use crate::sheets::text::{Anchor, Text};

/// Width of the band of grid references outside the frame, mm (ISO 5457, 5.3).
const BAND_MM: f64 = 5.0;
/// Length of a field of the grid references, mm, counted from the middle (ISO 5457, 5.3).
const FIELD_MM: f64 = 50.0;
/// Length of a centring mark, mm: from 10 mm outside the frame to the frame. It stops
/// there, since the tables and plans of this set go up to the frame (ISO 5457, 5.2, has
/// it go on a little).
const CENTRING_MM: f64 = 10.0;
/// Letters of the fields: I and O are left out, as they read as 1 and 0.
const LETTERS: &[u8] = b"ABCDEFGHJKLMNPQRSTUVWXYZ";

/// Draws the border of a sheet.
pub(super) fn draw(sheet: &mut Sheet) {
    let frame = sheet.size.frame();
    let band = frame.inset(-BAND_MM);
    sheet.draw(on_frame(Polyline::around(Pen::HEAVY, frame)));
    sheet.draw(on_frame(Polyline::around(Pen::FINE, band)));
    centring_marks(sheet, frame);
    grid_references(sheet, frame, band);
}

fn on_frame(line: Polyline) -> Mark {
    Mark::new(Layer::Frame, line)
}

fn centring_marks(sheet: &mut Sheet, frame: PaperRect) {
    let middle = sheet.size.bounds().centre();
    let marks = [
        (PaperPoint::new(middle.x, frame.top), DVec2::Y),
        (PaperPoint::new(middle.x, frame.bottom), -DVec2::Y),
        (PaperPoint::new(frame.left, middle.y), DVec2::X),
        (PaperPoint::new(frame.right, middle.y), -DVec2::X),
    ];
    for (edge, inward) in marks {
        let reach = [edge - inward * CENTRING_MM, edge];
        sheet.draw(on_frame(Polyline::open(Pen::HEAVY, reach)));
    }
}

fn grid_references(sheet: &mut Sheet, frame: PaperRect, band: PaperRect) {
    let bounds = sheet.size.bounds();
    let lettering = Lettering::regular(2.5);
    let mut name = |content: &str, at: PaperPoint| {
        let text = Text::anchored(content, lettering, at, 0.0, Anchor::CENTRE);
        sheet.draw(Mark::new(Layer::Frame, text));
    };
    let columns = fields(bounds.centre().x, frame.left, frame.right);
    for (index, field) in columns.iter().enumerate() {
        let number = (index + 1).to_string();
        let middle = f64::midpoint(field.0, field.1);
        for y in [
            f64::midpoint(band.top, frame.top),
            f64::midpoint(band.bottom, frame.bottom),
        ] {
            name(&number, PaperPoint::new(middle, y));
        }
    }
    let rows = fields(bounds.centre().y, frame.top, frame.bottom);
    for (field, letter) in rows.iter().zip(LETTERS) {
        let middle = f64::midpoint(field.0, field.1);
        for x in [
            f64::midpoint(band.left, frame.left),
            f64::midpoint(band.right, frame.right),
        ] {
            name(&char::from(*letter).to_string(), PaperPoint::new(x, middle));
        }
    }
    for (from, _) in columns.iter().skip(1) {
        for (outer, inner) in [(band.top, frame.top), (frame.bottom, band.bottom)] {
            let ends = [PaperPoint::new(*from, outer), PaperPoint::new(*from, inner)];
            sheet.draw(on_frame(Polyline::open(Pen::FINE, ends)));
        }
    }
    for (from, _) in rows.iter().skip(1) {
        for (outer, inner) in [(band.left, frame.left), (frame.right, band.right)] {
            let ends = [PaperPoint::new(outer, *from), PaperPoint::new(inner, *from)];
            sheet.draw(on_frame(Polyline::open(Pen::FINE, ends)));
        }
    }
}

/// Fields of 50 mm from the middle outward, an even number; the outermost ones reach to
/// the frame, and take in what would be less than half a field.
fn fields(middle: f64, from: f64, to: f64) -> Vec<(f64, f64)> {
    let mut cuts = vec![middle];
    let mut reach = FIELD_MM;
    while from + FIELD_MM / 2.0 <= middle - reach && middle + reach <= to - FIELD_MM / 2.0 {
        cuts.insert(0, middle - reach);
        cuts.push(middle + reach);
        reach += FIELD_MM;
    }
    cuts.insert(0, from);
    cuts.push(to);
    cuts.windows(2).map(|pair| (pair[0], pair[1])).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheets::paper::{Format, SheetSize};

    #[test]
    fn fields_are_even_in_number_and_cover_the_frame() {
        for format in Format::ALL {
            for size in [SheetSize::landscape(format), SheetSize::portrait(format)] {
                let (frame, middle) = (size.frame(), size.bounds().centre());
                for (middle, from, to) in [
                    (middle.x, frame.left, frame.right),
                    (middle.y, frame.top, frame.bottom),
                ] {
                    let fields = fields(middle, from, to);
                    assert!(fields.len().is_multiple_of(2) && fields.len() <= LETTERS.len());
                    assert!(fields.first().is_some_and(|field| field.0 == from));
                    assert!(fields.last().is_some_and(|field| field.1 == to));
                    assert!(fields.windows(2).all(|pair| pair[0].1 == pair[1].0));
                    assert!(fields.iter().all(|(a, b)| b - a >= FIELD_MM / 2.0 - 6.0));
                }
            }
        }
    }
}
