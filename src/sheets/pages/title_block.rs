//! The title block: data fields after ISO 7200, 180 mm wide, at the bottom right.

use crate::sheets::layer::Layer;
use crate::sheets::lettering::{LEAST_HEIGHT_MM, Lettering};
use crate::sheets::mark::{Mark, Polyline};
use crate::sheets::paper::{PaperPoint, PaperRect, SheetSize};
use crate::sheets::pen::{Ink, Pen};
use crate::sheets::text::Text;

use super::block::Block;

/// Width of the title block, mm (ISO 7200, 6): it fits the frame of A4.
pub(super) const WIDTH_MM: f64 = 180.0;
/// Heights of its rows, mm.
const ROWS_MM: [f64; 3] = [10.2, 12.0, 10.2];
/// Height of the title block, mm.
pub(super) const HEIGHT_MM: f64 = ROWS_MM[0] + ROWS_MM[1] + ROWS_MM[2];

/// What the title block says. An empty field is shown as a dash: nobody filled it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct TitleBlock {
    /// Legal owner of the document.
    pub owner: String,
    /// Site and place.
    pub project: String,
    /// Document number.
    pub document: String,
    /// What the sheet shows.
    pub title: String,
    /// What more there is to say of it: the scheme.
    pub supplement: String,
    /// Who made it.
    pub made_by: String,
    /// Who approved it.
    pub approved_by: String,
    /// Day of issue.
    pub date: String,
    /// Revision letter.
    pub revision: String,
    /// Draft, for comment, for construction.
    pub status: String,
    /// Scale, or a dash for tables.
    pub scale: String,
    /// Number of this sheet, and of how many.
    pub sheet: String,
    /// Name of the paper's size.
    pub paper: String,
}

/// Where the title block lies on a sheet.
pub(super) fn place(size: SheetSize) -> PaperRect {
    let frame = size.frame();
    PaperRect {
        left: (frame.right - WIDTH_MM).max(frame.left),
        top: frame.bottom - HEIGHT_MM,
        ..frame
    }
}

/// Draws it from its top left corner, as wide as the place that it has.
pub(super) fn draw(says: &TitleBlock, width_mm: f64) -> Block {
    let mut block = Block::empty(width_mm, HEIGHT_MM);
    let part = width_mm / WIDTH_MM;
    let value = Lettering::regular(2.5);
    let rows: [&[Cell<'_>]; 3] = [
        &[
            Cell::new("owner", &says.owner, value, 52.0),
            Cell::new("site", &says.project, Lettering::bold(3.0), 92.0),
            Cell::new("document", &says.document, value, 36.0),
        ],
        &[
            Cell::new("title", &says.title, Lettering::bold(4.5), 82.0),
            Cell::new("supplement", &says.supplement, value, 56.0),
            Cell::new("paper", &says.paper, value, 16.0),
            Cell::new("scale", &says.scale, value, 26.0),
        ],
        &[
            Cell::new("made by", &says.made_by, value, 40.0),
            Cell::new("approved by", &says.approved_by, value, 40.0),
            Cell::new("date of issue", &says.date, value, 27.0),
            Cell::new("revision", &says.revision, value, 21.0),
            Cell::new("status", &says.status, value, 30.0),
            Cell::new("sheet", &says.sheet, value, 22.0),
        ],
    ];
    let mut top = 0.0;
    for (cells, height_mm) in rows.into_iter().zip(ROWS_MM) {
        let mut left = 0.0;
        for cell in cells {
            let width = cell.width_mm * part;
            if 0.0 < left {
                let ends = [
                    PaperPoint::new(left, top),
                    PaperPoint::new(left, top + height_mm),
                ];
                block.marks.push(line(Polyline::open(Pen::THIN, ends)));
            }
            block.marks.extend(cell.draw(PaperRect::at(
                PaperPoint::new(left, top),
                width,
                height_mm,
            )));
            left += width;
        }
        if 0.0 < top {
            let ends = [PaperPoint::new(0.0, top), PaperPoint::new(width_mm, top)];
            block.marks.push(line(Polyline::open(Pen::THIN, ends)));
        }
        top += height_mm;
    }
    let outline = [
        PaperPoint::new(0.0, HEIGHT_MM),
        PaperPoint::ZERO,
        PaperPoint::new(width_mm, 0.0),
    ];
    block.marks.push(line(Polyline::open(Pen::BOLD, outline)));
    block
}

fn line(line: Polyline) -> Mark {
    Mark::new(Layer::Frame, line)
}

/// One field.
struct Cell<'a> {
    caption: &'a str,
    value: &'a str,
    lettering: Lettering,
    width_mm: f64,
}

/// Distance of text from a cell's sides, mm.
const PAD_MM: f64 = 1.5;

impl<'a> Cell<'a> {
    const fn new(caption: &'a str, value: &'a str, lettering: Lettering, width_mm: f64) -> Self {
        Self {
            caption,
            value,
            lettering,
            width_mm,
        }
    }

    fn draw(&self, room: PaperRect) -> [Mark; 2] {
        let width_mm = room.width_mm() - 2.0 * PAD_MM;
        let caption = Lettering::condensed(2.5);
        let value = if self.value.trim().is_empty() {
            "—"
        } else {
            self.value
        };
        let caption_at = PaperPoint::new(room.left + PAD_MM, room.top + 1.2 + caption.height_mm);
        let value_at = PaperPoint::new(room.left + PAD_MM, room.bottom - 1.6);
        let caption_text = caption.shortened(self.caption, width_mm);
        let lettering = self.letters_for(value, width_mm);
        let value_text = lettering.shortened(value, width_mm);
        [
            Mark::new(Layer::Frame, Text::new(&caption_text, caption, caption_at))
                .ink(Ink::DarkGrey),
            Mark::new(Layer::Frame, Text::new(&value_text, lettering, value_at)),
        ]
    }

    /// The cell's letters; smaller or narrower ones for what is too long for them.
    fn letters_for(&self, value: &str, width_mm: f64) -> Lettering {
        let letters = [
            self.lettering,
            Lettering::bold(self.lettering.height_mm.min(3.0)),
            Lettering::regular(LEAST_HEIGHT_MM),
        ];
        let fitting = letters
            .into_iter()
            .find(|it| it.width_mm(value) <= width_mm);
        fitting.unwrap_or(Lettering::condensed(LEAST_HEIGHT_MM))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_names_shorten_visibly_and_stay_in_their_field() {
        let long = "Skerry Harbour port authority, department of freight sheds ".repeat(4);
        let says = TitleBlock {
            owner: long.clone(),
            project: long.clone(),
            document: long.clone(),
            title: long.clone(),
            ..TitleBlock::default()
        };
        let block = draw(&says, WIDTH_MM);
        let texts: Vec<&Text> = block.marks.iter().flat_map(Mark::texts).collect();
        assert_eq!(
            texts
                .iter()
                .filter(|text| text.content().ends_with('…'))
                .count(),
            4
        );
        for text in &texts {
            assert!(text.start().x + text.advance_mm() <= WIDTH_MM);
        }
        assert!(
            texts.iter().any(|text| text.content() == "—"),
            "empty fields show a dash"
        );
    }
}
