//! Tables: columns as wide as what they hold, rows that wrap, as many sheets as needed.

use crate::geometry::DVec2;
use crate::sheets::fonts::Face;
use crate::sheets::layer::Layer;
use crate::sheets::lettering::{LEAST_HEIGHT_MM, Lettering};
use crate::sheets::mark::{Area, Mark, Polyline};
use crate::sheets::paper::{PaperPoint, PaperRect};
use crate::sheets::pen::{Ink, Pen};
use crate::sheets::text::{Across, Along, Anchor, Text};

use super::block::Block;

/// A table.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Table {
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows.
    pub rows: Vec<Row>,
}

/// A column.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Column {
    /// What it holds; words break onto lines.
    pub head: String,
    /// In which unit; empty for none.
    pub unit: String,
    /// On which side its cells stand.
    pub side: Side,
    /// Wider content wraps, mm.
    pub most_mm: f64,
    /// What it does where the table is too wide for its sheet.
    pub gives: Gives,
}

/// What a column does where the table is too wide for its sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Gives {
    /// Its cells break at spaces.
    Way,
    /// It keeps its width, for a broken figure is misread.
    Nothing,
}

/// On which side a cell's text stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    /// Words.
    Left,
    /// Figures, so that they line up.
    Right,
}

impl Column {
    /// Words at the left.
    pub(super) fn words(head: &str, most_mm: f64) -> Self {
        Self {
            head: head.to_owned(),
            unit: String::new(),
            side: Side::Left,
            most_mm,
            gives: Gives::Way,
        }
    }

    /// Places at the left, such as `1 + 9' 10 1/8"`: they have spaces, and stay on a line.
    pub(super) fn places(head: &str) -> Self {
        Self {
            gives: Gives::Nothing,
            ..Self::words(head, 60.0)
        }
    }

    /// Figures at the right.
    pub(super) fn figures(head: &str, unit: &str) -> Self {
        Self {
            head: head.to_owned(),
            unit: unit.to_owned(),
            side: Side::Right,
            most_mm: 60.0,
            gives: Gives::Nothing,
        }
    }
}

/// A row.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Row {
    /// One cell for each column.
    Cells {
        /// Their texts.
        cells: Vec<String>,
        /// Kind and id of the object that the row is about.
        subject: Option<(&'static str, String)>,
    },
    /// A heading for the rows that follow, across the table. Repeated at the top of
    /// the next sheet where its rows go on there.
    Heading(String),
    /// A remark across the table.
    Remark(String),
    /// Sums, set off by a line.
    Sum(Vec<String>),
}

const BODY_MM: f64 = LEAST_HEIGHT_MM;
/// Distance of text from the sides of its cell, mm.
const PAD_MM: f64 = 1.2;
/// Distance between the baselines of a cell's lines, mm.
const PITCH_MM: f64 = 3.9;
/// What a row takes beyond its lines, mm.
const ROW_PAD_MM: f64 = 1.3;
/// A column that wraps is not made narrower than this, mm.
const LEAST_WRAPPED_MM: f64 = 22.0;
/// Columns with something in them are widened to fill the sheet up to this factor; beyond
/// it the eye gets lost between them.
const MOST_STRETCH: f64 = 1.7;

impl Table {
    /// The table in pieces, in order: the first as high as `first_mm` at most, the others
    /// as `height_mm`. At least one row goes into each piece, however small the room.
    pub(super) fn in_pieces(&self, width_mm: f64, first_mm: f64, height_mm: f64) -> Vec<Block> {
        Setting::new(self, width_mm).pieces(self, first_mm, height_mm)
    }
}

/// How a table is set: its lettering and the widths of its columns.
struct Setting {
    body: Lettering,
    bold: Lettering,
    widths_mm: Vec<f64>,
    /// What stands free before the text of each column.
    leads_mm: Vec<f64>,
    head: Block,
}

impl Setting {
    fn new(table: &Table, width_mm: f64) -> Self {
        let roomy = natural_widths(table, Face::Regular);
        let total = |widths: &[f64]| widths.iter().sum::<f64>();
        let (face, natural) = if total(&roomy) <= width_mm {
            (Face::Regular, roomy)
        } else {
            (Face::Condensed, natural_widths(table, Face::Condensed))
        };
        let widths_mm = fitted(table, natural, width_mm);
        let letters = |face| Lettering {
            face,
            height_mm: BODY_MM,
        };
        let mut setting = Self {
            body: letters(face),
            bold: Lettering::bold(BODY_MM),
            widths_mm,
            leads_mm: leads(table),
            head: Block::default(),
        };
        setting.head = setting.head(table);
        setting
    }

    fn width_mm(&self) -> f64 {
        self.widths_mm.iter().sum()
    }

    fn head(&self, table: &Table) -> Block {
        let lettering = self.head_lettering();
        let cells: Vec<Vec<String>> = table
            .columns
            .iter()
            .zip(self.widths_mm.iter().zip(&self.leads_mm))
            .map(|(column, (width, lead))| {
                let mut lines = lettering.wrapped(&column.head, width - lead - 2.0 * PAD_MM);
                if !column.unit.is_empty() {
                    lines.push(column.unit.clone());
                }
                lines
            })
            .collect();
        let n_lines = cells.iter().map(Vec::len).max().unwrap_or(1);
        let mut block = Block::empty(self.width_mm(), height_of(n_lines) + 0.6);
        let place = PaperRect::at(PaperPoint::ZERO, block.width_mm, block.height_mm);
        block
            .marks
            .push(Mark::new(Layer::Text, Area::new(place.corners())).ink(Ink::LightGrey));
        let mut left = 0.0;
        let placed = self.widths_mm.iter().zip(&self.leads_mm);
        for ((lines, column), (width, lead)) in cells.iter().zip(&table.columns).zip(placed) {
            // Heads stand on the line under them, as a reader expects of columns.
            let first = n_lines - lines.len();
            block.marks.extend(cell(
                lines,
                first,
                column.side,
                lettering,
                left + lead,
                width - lead,
            ));
            left += width;
        }
        block.marks.push(rule(Pen::MEDIUM, block.width_mm, 0.0));
        block
            .marks
            .push(rule(Pen::MEDIUM, block.width_mm, block.height_mm));
        block
    }

    fn head_lettering(&self) -> Lettering {
        Lettering {
            face: self.body.face,
            height_mm: BODY_MM,
        }
    }

    fn pieces(&self, table: &Table, first_mm: f64, height_mm: f64) -> Vec<Block> {
        let rows: Vec<Block> = table.rows.iter().map(|row| self.row(table, row)).collect();
        let mut pieces: Vec<Block> = Vec::new();
        let mut piece = self.head.clone();
        let mut is_empty = true;
        let mut heading: Option<&str> = None;
        for (index, row) in table.rows.iter().enumerate() {
            // A heading stays with what follows it.
            let with_next = match row {
                Row::Heading(_) => rows
                    .iter()
                    .skip(index + 1)
                    .take(2)
                    .map(|next| next.height_mm)
                    .sum(),
                _ => 0.0,
            };
            let most_mm = if pieces.is_empty() {
                first_mm
            } else {
                height_mm
            };
            if !is_empty && most_mm < piece.height_mm + rows[index].height_mm + with_next {
                pieces.push(std::mem::replace(&mut piece, self.head.clone()));
                if let (Some(heading), false) = (heading, matches!(row, Row::Heading(_))) {
                    let again = self.row(table, &Row::Heading(format!("{heading} (continued)")));
                    piece = piece.over(&again, 0.0);
                }
            }
            if let Row::Heading(text) = row {
                heading = Some(text);
            }
            piece = piece.over(&rows[index], 0.0);
            is_empty = false;
        }
        pieces.push(piece);
        for piece in &mut pieces {
            piece
                .marks
                .push(rule(Pen::MEDIUM, piece.width_mm, piece.height_mm));
        }
        pieces
    }

    fn row(&self, table: &Table, row: &Row) -> Block {
        let width = self.width_mm();
        match row {
            Row::Cells { cells, subject } => {
                let mut block = self.cells(table, cells, self.body);
                if let (Some((kind, id)), Some(first)) = (subject, first_text(&mut block)) {
                    first.subject = Some(format!("{kind}:{id}"));
                }
                block
                    .marks
                    .push(rule(Pen::HAIR, width, block.height_mm).ink(Ink::Grey));
                block
            }
            Row::Sum(cells) => {
                let mut block = self.cells(table, cells, self.bold);
                block.marks.push(rule(Pen::THIN, width, 0.0));
                block.marks.push(rule(Pen::THIN, width, block.height_mm));
                block
            }
            Row::Heading(text) => self.across(text, self.bold, 1.0),
            Row::Remark(text) => self.across(text, self.body, 0.0),
        }
    }

    fn cells(&self, table: &Table, cells: &[String], lettering: Lettering) -> Block {
        let lines: Vec<Vec<String>> = cells
            .iter()
            .zip(self.widths_mm.iter().zip(&self.leads_mm))
            .map(|(text, (width, lead))| lettering.wrapped(text, width - lead - 2.0 * PAD_MM))
            .collect();
        let n_lines = lines.iter().map(Vec::len).max().unwrap_or(1);
        let mut block = Block::empty(self.width_mm(), height_of(n_lines));
        let mut left = 0.0;
        let placed = self.widths_mm.iter().zip(&self.leads_mm);
        for ((lines, column), (width, lead)) in lines.iter().zip(&table.columns).zip(placed) {
            block.marks.extend(cell(
                lines,
                0,
                column.side,
                lettering,
                left + lead,
                width - lead,
            ));
            left += width;
        }
        block
    }

    fn across(&self, text: &str, lettering: Lettering, above_mm: f64) -> Block {
        let width = self.width_mm();
        let lines = lettering.wrapped(text, width - 2.0 * PAD_MM);
        let mut block = Block::empty(width, height_of(lines.len()));
        block.marks = cell(&lines, 0, Side::Left, lettering, 0.0, width);
        let mut spaced = Block::empty(width, above_mm).over(&block, 0.0);
        spaced
            .marks
            .push(rule(Pen::HAIR, width, spaced.height_mm).ink(Ink::Grey));
        spaced
    }
}

/// What each column would take: its widest cell, its longest word of the head.
fn natural_widths(table: &Table, face: Face) -> Vec<f64> {
    let body = Lettering {
        face,
        height_mm: BODY_MM,
    };
    let mut widths: Vec<f64> = table
        .columns
        .iter()
        .map(|column| {
            let words = column.head.split_whitespace().chain([column.unit.as_str()]);
            words.map(|word| body.width_mm(word)).fold(0.0, f64::max)
        })
        .collect();
    for row in &table.rows {
        let (cells, lettering) = match row {
            Row::Cells { cells, .. } => (cells, body),
            Row::Sum(cells) => (cells, Lettering::bold(BODY_MM)),
            Row::Heading(_) | Row::Remark(_) => continue,
        };
        for ((width, text), column) in widths.iter_mut().zip(cells).zip(&table.columns) {
            *width = width.max(lettering.width_mm(text).min(column.most_mm));
        }
    }
    widths
        .iter()
        .zip(leads(table))
        .map(|(width, lead)| width + lead + 2.0 * PAD_MM + SLACK_MM)
        .collect()
}

/// Words that follow figures stand off from them, or the two read as one.
fn leads(table: &Table) -> Vec<f64> {
    let before = table.columns.iter().map(|column| Some(column.side));
    std::iter::once(None)
        .chain(before)
        .zip(&table.columns)
        .map(|(before, column)| match (before, column.side) {
            (Some(Side::Right), Side::Left) => LEAD_MM,
            _ => 0.0,
        })
        .collect()
}

/// How far they stand off, mm.
const LEAD_MM: f64 = 2.4;

/// So that a cell as wide as its column does not wrap by rounding, mm.
const SLACK_MM: f64 = 0.01;

/// The widths made to fill the room, or to fit it.
fn fitted(table: &Table, natural: Vec<f64>, room_mm: f64) -> Vec<f64> {
    let total: f64 = natural.iter().sum();
    if total <= room_mm {
        let has_cells = table
            .rows
            .iter()
            .any(|row| matches!(row, Row::Cells { .. }));
        let most = if has_cells {
            MOST_STRETCH
        } else {
            f64::INFINITY
        };
        let stretch = (room_mm / total).min(most);
        return natural.iter().map(|width| width * stretch).collect();
    }
    // What wraps gives way first, in proportion to what it can give.
    let least: Vec<f64> = natural
        .iter()
        .zip(&table.columns)
        .map(|(width, column)| match column.gives {
            Gives::Way => width.min(LEAST_WRAPPED_MM),
            Gives::Nothing => *width,
        })
        .collect();
    let can_give: f64 = natural
        .iter()
        .zip(&least)
        .map(|(width, least)| width - least)
        .sum();
    if total - room_mm <= can_give {
        let part = (total - room_mm) / can_give;
        return natural
            .iter()
            .zip(&least)
            .map(|(width, least)| width - part * (width - least))
            .collect();
    }
    let part = room_mm / least.iter().sum::<f64>();
    least.iter().map(|width| width * part).collect()
}

/// Height of a row of so many lines, mm.
fn height_of(n_lines: usize) -> f64 {
    let beyond_first = (1..n_lines).fold(0.0, |height, _| height + PITCH_MM);
    BODY_MM + beyond_first + 2.0 * ROW_PAD_MM
}

fn cell(
    lines: &[String],
    first_line: usize,
    side: Side,
    lettering: Lettering,
    left: f64,
    width_mm: f64,
) -> Vec<Mark> {
    let (x, along) = match side {
        Side::Left => (left + PAD_MM, Along::Start),
        Side::Right => (left + width_mm - PAD_MM, Along::End),
    };
    let anchor = Anchor {
        along,
        across: Across::Baseline,
    };
    let mut baseline = ROW_PAD_MM + BODY_MM;
    baseline = (0..first_line).fold(baseline, |y, _| y + PITCH_MM);
    let mut marks = Vec::new();
    for line in lines {
        if !line.is_empty() {
            let fits = lettering.shortened(line, width_mm - 2.0 * PAD_MM + SLACK_MM);
            let at = DVec2::new(x, baseline);
            marks.push(Mark::new(
                Layer::Text,
                Text::anchored(&fits, lettering, at, 0.0, anchor),
            ));
        }
        baseline += PITCH_MM;
    }
    marks
}

fn rule(pen: Pen, width_mm: f64, y: f64) -> Mark {
    let ends = [PaperPoint::new(0.0, y), PaperPoint::new(width_mm, y)];
    Mark::new(Layer::Text, Polyline::open(pen, ends))
}

fn first_text(block: &mut Block) -> Option<&mut Mark> {
    block.marks.iter_mut().find(|mark| !mark.texts().is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn table(n_rows: usize) -> Table {
        let mut rows = Vec::new();
        for number in 0..n_rows {
            if number % 7 == 0 {
                rows.push(Row::Heading(format!("R{}", number / 7 + 1)));
            }
            rows.push(Row::Cells {
                cells: vec![
                    format!("R1.{number}"),
                    "a place that nobody has looked at yet, as far as is known".repeat(number % 3),
                    format!(
                        "{}",
                        3.25 * f64::from(u8::try_from(number % 200).unwrap_or(0))
                    ),
                ],
                subject: Some(("hanger", format!("{number}"))),
            });
        }
        Table {
            columns: vec![
                Column::words("hanger", 40.0),
                Column::words("remark", 80.0),
                Column::figures("station", "m"),
            ],
            rows,
        }
    }

    #[test]
    fn every_row_is_on_one_sheet_and_none_is_too_high() {
        let table = table(150);
        let pieces = table.in_pieces(180.0, 80.0, 120.0);
        assert!(5 < pieces.len());
        assert!(pieces[0].height_mm <= 80.0 + 1e-9);
        let mut subjects: Vec<String> = Vec::new();
        for piece in &pieces {
            assert!(piece.height_mm <= 120.0 + 1e-9, "{}", piece.height_mm);
            assert!(piece.width_mm <= 180.0 + 1e-9);
            subjects.extend(piece.marks.iter().filter_map(|mark| mark.subject.clone()));
        }
        let expected: Vec<String> = (0..150).map(|number| format!("hanger:{number}")).collect();
        assert_eq!(subjects, expected);
    }

    #[test]
    fn no_cell_leaves_its_table_however_narrow() {
        for width in [400.0, 180.0, 90.0, 40.0] {
            for piece in table(10).in_pieces(width, 100.0, 100.0) {
                assert!(piece.width_mm <= width + 1e-9);
                for text in piece.marks.iter().flat_map(Mark::texts) {
                    assert!(-1e-9 <= text.start().x, "{}", text.content());
                    assert!(text.start().x + text.advance_mm() <= width + 0.02);
                }
            }
        }
    }

    #[test]
    fn headings_go_on_where_their_rows_go_on() {
        let pieces = table(40).in_pieces(180.0, 60.0, 60.0);
        let says = |piece: &Block, what: &str| {
            piece
                .marks
                .iter()
                .flat_map(Mark::texts)
                .any(|text| text.content().contains(what))
        };
        assert!(
            pieces
                .iter()
                .skip(1)
                .any(|piece| says(piece, "(continued)"))
        );
        assert!(!says(&pieces[0], "(continued)"));
    }

    #[test]
    fn an_empty_table_is_its_head() {
        let pieces = table(0).in_pieces(180.0, 60.0, 60.0);
        assert_eq!(pieces.len(), 1);
    }
}
