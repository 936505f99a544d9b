//! Pages that are a table: as many sheets as it needs.

use crate::sheets::mark::Sheet;
use crate::sheets::paper::{Format, PaperPoint, PaperRect, SheetSize};
use crate::site::Paper;

use super::block::Block;
use super::table::Table;
use super::{Draft, PageInput, foot, notes, wording};

/// A page made of tables, one under the other.
pub(super) struct TablePage<'a> {
    /// Its name: `hanging-schedule`.
    pub name: &'a str,
    /// Its title.
    pub title: &'a str,
    /// Its tables.
    pub sections: Vec<Section>,
    /// What explains the tables, drawn under the last.
    pub key: Vec<String>,
}

/// A table with its heading.
pub(super) struct Section {
    /// What stands over it; empty for nothing.
    pub heading: String,
    /// The table.
    pub table: Table,
}

/// The paper of tables: no larger than a table needs and an office prints, since
/// schedules are carried up the lift.
pub(super) const fn paper(of_plan: Paper) -> SheetSize {
    SheetSize::landscape(match of_plan {
        Paper::A4 => Format::A4,
        Paper::A3 | Paper::A2 | Paper::A1 | Paper::A0 => Format::A3,
        Paper::AnsiB | Paper::AnsiC | Paper::AnsiD | Paper::AnsiE => Format::AnsiB,
    })
}

/// A table is not begun in less room than this, mm: head and a few rows.
const LEAST_ROOM_MM: f64 = 30.0;
/// The key is not wider than this, mm.
const MOST_KEY_MM: f64 = 240.0;

/// Draws it.
pub(super) fn draw(input: &PageInput<'_>, page: &TablePage<'_>) -> Vec<Draft> {
    let size = paper(input.site.sheets.paper);
    let mut pile = Pile::new(input, page, size);
    for section in &page.sections {
        pile.section(section);
    }
    if !page.key.is_empty() {
        let width_mm = pile.room.width_mm().min(MOST_KEY_MM);
        pile.put(&notes::numbered("Key", &page.key, width_mm));
    }
    let drafts = pile.finished().into_iter().map(|sheet| Draft {
        sheet,
        supplement: wording::scheme(input.site),
        scale: String::new(),
    });
    drafts.collect()
}

/// Sheets on which blocks are put one under the other.
struct Pile<'a> {
    blank: Sheet,
    input: &'a PageInput<'a>,
    done: Vec<Sheet>,
    sheet: Sheet,
    room: PaperRect,
    y: f64,
}

impl<'a> Pile<'a> {
    fn new(input: &'a PageInput<'a>, page: &TablePage<'_>, size: SheetSize) -> Self {
        let blank = Sheet::new(page.name, page.title, size);
        let mut sheet = blank.clone();
        let room = foot::draw(&mut sheet, input);
        Self {
            blank,
            input,
            done: Vec::new(),
            sheet,
            room,
            y: room.top,
        }
    }

    fn left_mm(&self) -> f64 {
        self.room.bottom - self.y
    }

    fn next_sheet(&mut self) {
        let mut sheet = self.blank.clone();
        foot::draw(&mut sheet, self.input);
        self.done.push(std::mem::replace(&mut self.sheet, sheet));
        self.y = self.room.top;
    }

    fn section(&mut self, section: &Section) {
        if self.left_mm() < LEAST_ROOM_MM {
            self.next_sheet();
        }
        if !section.heading.is_empty() {
            self.put(&notes::heading_block(
                &section.heading,
                self.room.width_mm(),
            ));
            self.y -= foot::GAP_MM;
        }
        let (first_mm, height_mm) = (self.left_mm(), self.room.height_mm());
        let pieces = section
            .table
            .in_pieces(self.room.width_mm(), first_mm, height_mm);
        for (index, piece) in pieces.iter().enumerate() {
            if 0 < index {
                self.next_sheet();
            }
            self.put(piece);
        }
    }

    /// Puts a block under what is there, or on the next sheet if it doesn't fit.
    fn put(&mut self, block: &Block) {
        if self.left_mm() < block.height_mm && self.room.top < self.y {
            self.next_sheet();
        }
        let corner = PaperPoint::new(self.room.left, self.y);
        block.at(corner).for_each(|mark| self.sheet.draw(mark));
        self.y += block.height_mm + foot::GAP_MM;
    }

    fn finished(mut self) -> Vec<Sheet> {
        self.done.push(self.sheet);
        self.done
    }
}
