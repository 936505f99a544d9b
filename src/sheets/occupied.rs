//! What is already taken on a sheet, for placing labels and for judging sheets.

use std::collections::BTreeSet;

use crate::geometry::DVec2;
use crate::sheets::layer::Layer;
use crate::sheets::mark::{Mark, Shape, Sheet, Standing};
use crate::sheets::oriented_box::OrientedBox;
use crate::sheets::overlap::{Ground, grounds, lies_on};
use crate::sheets::paper::{PaperPoint, PaperRect, SheetSize};
use crate::sheets::pen::Ink;

/// Side of the squares into which the sheet is divided, mm: a few labels to the square.
const SQUARE_MM: f64 = 15.0;

/// The taken parts of a sheet. Grows only; answers in the time that the neighbourhood
/// takes, not the sheet.
#[derive(Debug, Clone)]
pub struct Occupied {
    n_columns: usize,
    n_rows: usize,
    /// Which of `grounds` reach into each square, row by row.
    squares: Vec<Vec<usize>>,
    grounds: Vec<Ground>,
}

impl Occupied {
    /// A sheet on which nothing is taken.
    #[must_use]
    pub fn none(size: SheetSize) -> Self {
        let n_columns = count(size.width_mm() / SQUARE_MM) + 1;
        let n_rows = count(size.height_mm() / SQUARE_MM) + 1;
        Self {
            n_columns,
            n_rows,
            squares: vec![Vec::new(); n_columns * n_rows],
            grounds: Vec::new(),
        }
    }

    /// What the sheet's texts and key marks take.
    #[must_use]
    pub fn by(sheet: &Sheet) -> Self {
        let mut occupied = Self::none(sheet.size);
        for mark in &sheet.marks {
            if mark.standing == Standing::Key {
                occupied.add_shape(&mark.shape);
            }
            for text in mark.texts() {
                text.ink_box()
                    .into_iter()
                    .for_each(|ink| occupied.add_box(ink));
            }
        }
        occupied
    }

    /// Takes what a shape covers.
    pub fn add_shape(&mut self, shape: &Shape) {
        for ground in grounds(shape) {
            self.add(ground);
        }
    }

    /// Takes a box.
    pub fn add_box(&mut self, area: OrientedBox) {
        self.add(Ground::Box(area));
    }

    /// Whether nothing that is taken comes nearer to the box than `gap_mm`, measured
    /// square to its sides.
    #[must_use]
    pub fn leaves_free(&self, area: OrientedBox, gap_mm: f64) -> bool {
        let area = area.grown(gap_mm);
        let mut squares = self.squares_of(bounds(&Ground::Box(area)));
        !squares.any(|square| {
            let mut numbers = self.squares[square].iter();
            numbers.any(|&number| lies_on(&area, &self.grounds[number]))
        })
    }

    /// Adds a form; its number is the count of those before it.
    fn add(&mut self, ground: Ground) {
        let number = self.grounds.len();
        for square in self.squares_of(bounds(&ground)) {
            self.squares[square].push(number);
        }
        self.grounds.push(ground);
    }

    /// The numbers of the forms that the box lies on, in order.
    fn under(&self, area: &OrientedBox) -> BTreeSet<usize> {
        self.squares_of(bounds(&Ground::Box(*area)))
            .flat_map(|square| self.squares[square].iter().copied())
            .filter(|&number| lies_on(area, &self.grounds[number]))
            .collect()
    }

    /// The squares into which a rectangle reaches. What lies off the sheet is counted
    /// to the squares along its edge.
    fn squares_of(&self, rect: PaperRect) -> impl Iterator<Item = usize> + use<> {
        let column = |x: f64| count(x / SQUARE_MM).min(self.n_columns - 1);
        let row = |y: f64| count(y / SQUARE_MM).min(self.n_rows - 1);
        let n_columns = self.n_columns;
        let (left, right) = (column(rect.left), column(rect.right));
        (row(rect.top)..=row(rect.bottom))
            .flat_map(move |row| (left..=right).map(move |column| row * n_columns + column))
    }
}

/// Rounded down to a count; zero for what is negative or not a number.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the cast saturates, and the caller limits what it uses"
)]
fn count(value: f64) -> usize {
    value as usize
}

/// The upright rectangle round a form.
fn bounds(ground: &Ground) -> PaperRect {
    let around = |points: &[PaperPoint], by: f64| {
        let least = points.iter().copied().fold(DVec2::INFINITY, DVec2::min) - DVec2::splat(by);
        let most = points.iter().copied().fold(DVec2::NEG_INFINITY, DVec2::max) + DVec2::splat(by);
        PaperRect {
            left: least.x,
            top: least.y,
            right: most.x,
            bottom: most.y,
        }
    };
    match ground {
        Ground::Box(area) => around(&area.corners(), 0.0),
        Ground::Line(ends, half_width_mm) => around(ends, *half_width_mm),
        Ground::Ring(centre, radius_mm, half_width_mm) => {
            around(&[*centre], radius_mm + half_width_mm)
        }
        Ground::Disc(centre, radius_mm) => around(&[*centre], *radius_mm),
        Ground::Polygon(rings) => around(&rings.concat(), 0.0),
    }
}

/// A text that can't be read as it should, or is where it shouldn't be.
#[derive(Debug, Clone, PartialEq)]
pub struct Clash {
    /// What the text says.
    pub text: String,
    /// The place of its mark in the sheet's list.
    pub mark: usize,
    /// What is wrong.
    pub fault: Fault,
}

/// What is wrong with a text's place.
#[derive(Debug, Clone, PartialEq)]
pub enum Fault {
    /// It lies on another text: what that says, and the place of its mark.
    OnText(String, usize),
    /// It lies on a key mark: the place of that mark.
    OnKey(usize),
    /// It leaves the sheet's frame (on the frame's layer: the sheet), or the window of
    /// the viewport that it was drawn through, and may be cut off.
    OutsideFrame,
}

impl std::fmt::Display for Clash {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "text “{}” (mark {}) ", self.text, self.mark)?;
        match &self.fault {
            Fault::OnText(other, mark) => write!(f, "lies on text “{other}” (mark {mark})"),
            Fault::OnKey(mark) => write!(f, "lies on key mark {mark}"),
            Fault::OutsideFrame => write!(f, "leaves the frame"),
        }
    }
}

/// Every text of the sheet that lies on another text or on a key mark, or leaves the
/// frame, by their order in the sheet's list.
///
/// Each pair of texts is named once. The texts of a symbol are judged like any others,
/// against its own lines too.
#[must_use]
pub fn clashes(sheet: &Sheet) -> Vec<Clash> {
    let mut keys = Occupied::none(sheet.size);
    let mut marks_of_keys = Vec::new();
    for (index, mark) in sheet.marks.iter().enumerate() {
        if mark.standing == Standing::Key {
            for shape in without_texts(mark) {
                keys.add_shape(&shape);
                marks_of_keys.resize(keys.grounds.len(), index);
            }
        }
    }
    let mut earlier = Occupied::none(sheet.size);
    let mut earlier_texts: Vec<(&str, usize)> = Vec::new();
    let mut clashes = Vec::new();
    for (index, text) in sheet.texts() {
        let Some(ink) = text.ink_box() else { continue };
        let mut report = |fault: Fault| {
            clashes.push(Clash {
                text: text.content().to_owned(),
                mark: index,
                fault,
            });
        };
        for number in earlier.under(&ink) {
            let (content, mark) = earlier_texts[number];
            report(Fault::OnText(content.to_owned(), mark));
        }
        let key_marks: BTreeSet<usize> = keys
            .under(&ink)
            .into_iter()
            .map(|number| marks_of_keys[number])
            .collect();
        key_marks
            .into_iter()
            .for_each(|mark| report(Fault::OnKey(mark)));
        let window = sheet
            .viewport_of(&sheet.marks[index])
            .map(|viewport| viewport.window);
        let frame = match sheet.marks[index].layer {
            // Grid references stand in the margin.
            Layer::Frame => sheet.size.bounds(),
            _ => sheet.size.frame(),
        };
        let limits = [Some(frame), window];
        let within = |limit: &PaperRect| ink.corners().into_iter().all(|c| limit.contains(c));
        if !limits.iter().flatten().all(within) {
            report(Fault::OutsideFrame);
        }
        earlier.add_box(ink);
        earlier_texts.push((text.content(), index));
    }
    clashes
}

/// The shapes of a mark that aren't texts.
fn without_texts(mark: &Mark) -> Vec<Shape> {
    match &mark.shape {
        Shape::Text(_) => Vec::new(),
        Shape::Symbol(used) => used
            .drawn(mark.ink)
            .into_iter()
            .filter(|(shape, ink)| !matches!(shape, Shape::Text(_)) && *ink != Ink::Paper)
            .map(|(shape, _)| shape)
            .collect(),
        shape => vec![shape.clone()],
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

    use super::*;
    use crate::sheets::lettering::Lettering;
    use crate::sheets::mark::{Circle, Finish, Polyline};
    use crate::sheets::overlap::boxes_overlap;
    use crate::sheets::paper::Format;
    use crate::sheets::pen::Pen;
    use crate::sheets::text::{Anchor, Text};

    const A3: SheetSize = SheetSize::landscape(Format::A3);

    fn text(content: &str, x: f64, y: f64, turn_degrees: f64) -> Mark {
        let at = PaperPoint::new(x, y);
        let text = Text::anchored(
            content,
            Lettering::regular(2.5),
            at,
            turn_degrees,
            Anchor::CENTRE,
        );
        Mark::new(Layer::Text, text)
    }

    fn faults(marks: Vec<Mark>) -> Vec<Fault> {
        let mut sheet = Sheet::new("01", "Test", A3);
        sheet.marks = marks;
        clashes(&sheet)
            .into_iter()
            .map(|clash| clash.fault)
            .collect()
    }

    #[test]
    fn turned_text_over_level_text_is_found() {
        let across = text("hanging plan", 100.0, 100.0, 0.0);
        let upright = text("12.60", 100.0, 103.0, 90.0);
        assert_eq!(
            faults(vec![across.clone(), upright]),
            [Fault::OnText("hanging plan".into(), 0)]
        );
        assert_eq!(faults(vec![across, text("12.60", 100.0, 107.0, 90.0)]), []);
    }

    #[test]
    fn text_keeps_off_key_marks_only() {
        let line = Mark::new(
            Layer::Dimension,
            Polyline::open(
                Pen::FINE,
                [PaperPoint::new(50.0, 100.0), PaperPoint::new(150.0, 100.0)],
            ),
        );
        let label = text("3.25", 100.0, 100.0, 0.0);
        assert_eq!(faults(vec![line.clone(), label.clone()]), []);
        assert_eq!(faults(vec![label, line.key()]), [Fault::OnKey(1)]);
    }

    #[test]
    fn a_name_too_long_for_its_bubble_is_found() {
        let circle = Circle {
            centre: PaperPoint::new(100.0, 100.0),
            radius_mm: 4.0,
            finish: Finish::Drawn(Pen::THIN),
        };
        let bubble = Mark::new(Layer::Grid, circle).key();
        assert_eq!(
            faults(vec![bubble.clone(), text("A", 100.0, 100.0, 0.0)]),
            []
        );
        assert_eq!(
            faults(vec![bubble, text("A-12", 100.0, 100.0, 0.0)]),
            [Fault::OnKey(0)]
        );
    }

    #[test]
    fn text_beyond_the_frame_is_found() {
        assert_eq!(
            faults(vec![text("margin", 15.0, 100.0, 0.0)]),
            [Fault::OutsideFrame]
        );
        assert_eq!(
            faults(vec![text("far away", -1e7, 1e7, 0.0)]),
            [Fault::OutsideFrame]
        );
    }

    #[test]
    fn crowded_sheets_are_judged_like_pair_by_pair() {
        let mut random = fastrand::Rng::with_seed(4);
        let marks: Vec<Mark> = (0..400)
            .map(|number| {
                let (x, y) = (30.0 + random.f64() * 370.0, 20.0 + random.f64() * 250.0);
                text(&format!("R{number}.2"), x, y, random.f64() * 360.0)
            })
            .collect();
        let boxes: Vec<OrientedBox> = marks
            .iter()
            .map(|mark| mark.texts()[0].ink_box().unwrap())
            .collect();
        let n_pairs = (0..boxes.len())
            .flat_map(|b| (0..b).map(move |a| (a, b)))
            .filter(|&(a, b)| boxes_overlap(&boxes[a], &boxes[b]))
            .count();
        let n_found = faults(marks)
            .iter()
            .filter(|fault| matches!(fault, Fault::OnText(..)))
            .count();
        assert!(50 < n_pairs, "{n_pairs} pairs are too few to tell");
        assert_eq!(n_found, n_pairs);
    }

    #[test]
    fn room_is_free_until_it_is_taken() {
        let label = text("R3.2", 200.0, 150.0, 30.0);
        let ink = label.texts()[0].ink_box().unwrap();
        let mut sheet = Sheet::new("01", "Test", A3);
        assert!(Occupied::by(&sheet).leaves_free(ink, 1.0));
        sheet.draw(label);
        let occupied = Occupied::by(&sheet);
        assert!(!occupied.leaves_free(ink, 0.0));
        let beside = OrientedBox {
            centre: ink.centre + ink.across() * (ink.half.y * 2.0 + 0.6),
            ..ink
        };
        assert!(occupied.leaves_free(beside, 0.5));
        assert!(!occupied.leaves_free(beside, 0.7));
    }
}
