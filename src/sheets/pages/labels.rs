//! Labels put where there is room: beside what they name, or at the end of a leader.

use crate::geometry::DVec2;
use crate::sheets::layer::Layer;
use crate::sheets::lettering::Lettering;
use crate::sheets::mark::{Mark, Polyline, Shape};
use crate::sheets::occupied::Occupied;
use crate::sheets::oriented_box::OrientedBox;
use crate::sheets::paper::{PaperPoint, PaperRect, SheetSize, directions, turned};
use crate::sheets::pen::{Ink, Pen};
use crate::sheets::text::{Across, Along, Anchor, Text};

/// Something that wants to be named.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Label {
    /// What it may say and where, best first: a later one is taken only where none of
    /// the earlier has room.
    pub tries: Vec<(Wording, Vec<Spot>)>,
    /// Where a leader may point if no spot is free, and what is said at its other end,
    /// fullest first; none where the label rather goes.
    pub leader: Option<(PaperPoint, Vec<Wording>)>,
    /// The layer of its text.
    pub layer: Layer,
    /// Its colour.
    pub ink: Ink,
}

/// One thing that a label may say.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Wording {
    /// Its lines.
    pub lines: Vec<String>,
    /// Its letters.
    pub lettering: Lettering,
}

impl Wording {
    /// A single line.
    pub(super) fn line(content: impl Into<String>, lettering: Lettering) -> Self {
        Self {
            lines: vec![content.into()],
            lettering,
        }
    }

    /// Width of its longest line, mm.
    pub(super) fn width_mm(&self) -> f64 {
        let widths = self.lines.iter().map(|line| self.lettering.width_mm(line));
        widths.fold(0.0, f64::max)
    }

    /// Height from the top of its first capitals to its last baseline, mm.
    pub(super) fn height_mm(&self) -> f64 {
        let height_mm = self.lettering.height_mm;
        self.lines
            .iter()
            .skip(1)
            .fold(height_mm, |sum, _| sum + PITCH * height_mm)
    }
}

/// Distance between the baselines of a label's lines, cap heights.
const PITCH: f64 = 1.55;

/// A place for a label.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spot {
    /// Where the anchor lies.
    pub at: PaperPoint,
    /// How far the text is turned, degrees anticlockwise as seen.
    pub turn_degrees: f64,
    /// Which point of the text it is; of several lines, of all of them together.
    pub anchor: Anchor,
}

/// What is taken on a sheet while labels are placed.
#[derive(Debug, Clone)]
pub(super) struct Taken {
    /// Where no text may lie.
    firm: Occupied,
    /// The texts alone: no leader may run over them, not even at its tip.
    texts: Occupied,
    /// Where no text may lie, but leaders may pass: walls.
    solid: Occupied,
    /// Where text lies only if there is nowhere else: outlines, grid lines.
    soft: Occupied,
    /// Text stays within.
    window: PaperRect,
}

/// Room between a label and whatever is next to it, mm.
const CLEAR_MM: f64 = 0.9;
/// Paper cleared under a label, mm.
const BACKING_MM: f64 = 0.4;
/// How many spots a label rather moves on than lie on a wall or an outline.
const SOFT_COST: usize = 6;
/// Lengths of leaders that are tried, mm.
const LEADERS_MM: [f64; 10] = [5.0, 7.0, 9.0, 12.0, 15.0, 19.0, 24.0, 30.0, 38.0, 48.0];
/// Directions of leaders that are tried, degrees anticlockwise; slanting ones first,
/// since they are told apart from the lines of a building.
const DIRECTIONS: [f64; 16] = [
    45.0, 135.0, -45.0, -135.0, 60.0, 120.0, -60.0, -120.0, 30.0, 150.0, -30.0, -150.0, 75.0,
    105.0, -75.0, -105.0,
];
/// Room between a leader and what it passes, mm.
const LEADER_CLEAR_MM: f64 = 0.3;
/// The tip of a leader lies on what it names: what it names is looked over within, mm.
const AT_TIP_MM: f64 = 1.5;

impl Taken {
    /// Nothing is taken of a window of a sheet.
    pub(super) fn none(size: SheetSize, window: PaperRect) -> Self {
        Self {
            firm: Occupied::none(size),
            texts: Occupied::none(size),
            solid: Occupied::none(size),
            soft: Occupied::none(size),
            window,
        }
    }

    /// Takes a shape: no text may lie on it.
    pub(super) fn take(&mut self, shape: &Shape) {
        self.firm.add_shape(shape);
        if let Shape::Text(_) = shape {
            self.texts.add_shape(shape);
        }
    }

    /// No text may lie on a shape, but leaders may pass it.
    pub(super) fn block(&mut self, shape: &Shape) {
        self.solid.add_shape(shape);
    }

    /// Text had better not lie on a shape.
    pub(super) fn avoid(&mut self, shape: &Shape) {
        self.soft.add_shape(shape);
    }

    /// Draws a label where it has room, and takes the place. None if there is none.
    pub(super) fn place(&mut self, label: &Label) -> Option<Vec<Mark>> {
        let texts = self.beside(label).map(|texts| (texts, None)).or_else(|| {
            let (tip, wordings) = label.leader.as_ref()?;
            self.with_leader(wordings, *tip)
                .map(|(texts, leader)| (texts, Some(leader)))
        });
        let (texts, leader) = texts?;
        let mut marks = Vec::new();
        if let Some(ends) = leader {
            let line = Mark::new(label.layer, Polyline::open(Pen::HAIR, ends)).key();
            self.take(&line.shape);
            marks.push(line);
        }
        for text in texts {
            if let Some(ink) = text.ink_box() {
                self.firm.add_box(ink);
                self.texts.add_box(ink);
            }
            marks.push(Mark::new(label.layer, text).ink(label.ink));
        }
        Some(marks)
    }

    /// The best spot for the fullest wording that finds one.
    fn beside(&self, label: &Label) -> Option<Vec<Text>> {
        label.tries.iter().find_map(|(wording, spots)| {
            let mut set = SetWording::new(wording);
            let mut best: Option<(usize, &Spot)> = None;
            for (rank, spot) in spots.iter().enumerate() {
                if best.is_some_and(|(cost, _)| cost <= rank) {
                    break;
                }
                if !self.is_free(set.boxes(spot), Softly::No) {
                    continue;
                }
                let is_clean = self.is_free(set.boxes(spot), Softly::Yes);
                let cost = if is_clean { rank } else { rank + SOFT_COST };
                if best.is_none_or(|(least, _)| cost < least) {
                    best = Some((cost, spot));
                }
            }
            best.map(|(_, spot)| set.texts(spot))
        })
    }

    fn with_leader(
        &self,
        wordings: &[Wording],
        tip: PaperPoint,
    ) -> Option<(Vec<Text>, [PaperPoint; 2])> {
        for wording in wordings {
            let mut set = SetWording::new(wording);
            for softly in [Softly::Yes, Softly::No] {
                for length_mm in LEADERS_MM {
                    for degrees in DIRECTIONS {
                        let (end, spot) = at_end_of_leader(tip, length_mm, degrees);
                        if self.is_free(set.boxes(&spot), softly) && self.lets_pass(tip, end) {
                            return Some((set.texts(&spot), [tip, end]));
                        }
                    }
                }
            }
        }
        None
    }

    /// Whether a wording at a spot would lie on nothing, not even on what text had better
    /// not lie on.
    pub(super) fn has_room(&self, wording: &Wording, spot: &Spot) -> bool {
        self.is_free(SetWording::new(wording).boxes(spot), Softly::Yes)
    }

    /// Whether the boxes of texts stay in the window and lie on nothing.
    fn is_free(&self, mut boxes: impl Iterator<Item = OrientedBox>, softly: Softly) -> bool {
        boxes.all(|ink| {
            let cleared = ink.grown(CLEAR_MM);
            cleared
                .corners()
                .into_iter()
                .all(|corner| self.window.contains(corner))
                && self.firm.leaves_free(ink, CLEAR_MM)
                && self.solid.leaves_free(ink, CLEAR_MM)
                && (softly == Softly::No || self.soft.leaves_free(ink, CLEAR_MM))
        })
    }

    /// Whether a line from one place to another, so much wide to each side, runs over no
    /// text.
    pub(super) fn passes_texts(&self, from: PaperPoint, to: PaperPoint, half_mm: f64) -> bool {
        let length = from.distance(to);
        if length <= 0.0 {
            return true;
        }
        let line = OrientedBox {
            centre: from.midpoint(to),
            along: (to - from) / length,
            half: DVec2::new(length / 2.0, half_mm),
        };
        self.texts.leaves_free(line, LEADER_CLEAR_MM)
    }

    /// Whether a leader runs over nothing that is taken.
    fn lets_pass(&self, tip: PaperPoint, end: PaperPoint) -> bool {
        let length = tip.distance(end);
        if length <= AT_TIP_MM {
            return false;
        }
        let along = (end - tip) / length;
        let line = |from: PaperPoint| OrientedBox {
            centre: from.midpoint(end),
            along,
            half: DVec2::new(from.distance(end) / 2.0, Pen::HAIR.width.mm()),
        };
        self.firm
            .leaves_free(line(tip + along * AT_TIP_MM), LEADER_CLEAR_MM)
            && self.texts.leaves_free(line(tip), LEADER_CLEAR_MM)
    }
}

/// Whether what had better stay free is respected.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Softly {
    Yes,
    No,
}

/// Where a leader ends, and the spot of a text beside its end.
fn at_end_of_leader(tip: PaperPoint, length_mm: f64, degrees: f64) -> (PaperPoint, Spot) {
    let (direction, _) = directions(degrees);
    let end = tip + direction * length_mm;
    let (along, step) = if 0.0 < direction.x {
        (Along::Start, 0.8)
    } else {
        (Along::End, -0.8)
    };
    let spot = Spot {
        at: end + DVec2::new(step, 0.0),
        turn_degrees: 0.0,
        anchor: Anchor {
            along,
            across: Across::Middle,
        },
    };
    (end, spot)
}

/// A wording whose lines are measured once and then tried at many spots.
struct SetWording<'a> {
    wording: &'a Wording,
    /// The lines round the paper's origin, for each anchor that was asked for.
    lines: Vec<(Anchor, Vec<Text>)>,
}

impl<'a> SetWording<'a> {
    const fn new(wording: &'a Wording) -> Self {
        Self {
            wording,
            lines: Vec::new(),
        }
    }

    /// The lines at an anchor, level, on cleared paper, the anchor at the paper's origin.
    fn lines(&mut self, anchor: Anchor) -> &[Text] {
        let index = self.lines.iter().position(|(known, _)| *known == anchor);
        let index = index.unwrap_or_else(|| {
            self.lines.push((anchor, lines(self.wording, anchor)));
            self.lines.len() - 1
        });
        &self.lines[index].1
    }

    /// The boxes of the lines at a spot.
    fn boxes(&mut self, spot: &Spot) -> impl Iterator<Item = OrientedBox> {
        let (at, turn_degrees) = (spot.at, spot.turn_degrees);
        let (along, _) = directions(turn_degrees);
        self.lines(spot.anchor)
            .iter()
            .filter_map(Text::ink_box)
            .map(move |ink| OrientedBox {
                centre: turned(ink.centre, turn_degrees) + at,
                along,
                half: ink.half,
            })
    }

    /// The lines at a spot.
    fn texts(&mut self, spot: &Spot) -> Vec<Text> {
        let lines = self.lines(spot.anchor).iter().cloned();
        lines
            .map(|line| line.moved(spot.turn_degrees, spot.at))
            .collect()
    }
}

/// The lines of a wording under each other, all of them together anchored at the paper's
/// origin.
fn lines(wording: &Wording, anchor: Anchor) -> Vec<Text> {
    let pitch_mm = PITCH * wording.lettering.height_mm;
    let below_mm = wording.height_mm() - wording.lettering.height_mm;
    let mut y = match anchor.across {
        Across::Baseline => -below_mm,
        Across::Middle => -below_mm / 2.0,
        Across::Top => 0.0,
    };
    let mut texts = Vec::new();
    for line in &wording.lines {
        let at = PaperPoint::new(0.0, y);
        let text = Text::anchored(line, wording.lettering, at, 0.0, anchor);
        texts.push(text.on_cleared_paper(BACKING_MM));
        y += pitch_mm;
    }
    texts
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

    use super::*;
    use crate::sheets::mark::Sheet;
    use crate::sheets::occupied::clashes;
    use crate::sheets::paper::Format;

    const A3: SheetSize = SheetSize::landscape(Format::A3);

    fn label(content: &str, at: PaperPoint, tip: Option<PaperPoint>) -> Label {
        let wording = Wording::line(content, Lettering::regular(2.5));
        let spot = Spot {
            at,
            turn_degrees: 0.0,
            anchor: Anchor::CENTRE,
        };
        Label {
            tries: vec![(wording.clone(), vec![spot])],
            leader: tip.map(|tip| (tip, vec![wording])),
            layer: Layer::HeatText,
            ink: Ink::Black,
        }
    }

    #[test]
    fn the_first_takes_the_spot_and_the_second_gets_a_leader() {
        let mut taken = Taken::none(A3, A3.frame());
        let at = PaperPoint::new(200.0, 150.0);
        assert_eq!(taken.place(&label("R1", at, None)).unwrap().len(), 1);
        assert!(taken.place(&label("R2", at, None)).is_none());
        let beside = at + DVec2::new(0.0, 6.0);
        let marks = taken.place(&label("R2", at, Some(beside))).unwrap();
        assert_eq!(marks.len(), 2, "a leader and a text");
    }

    #[test]
    fn a_crowd_is_placed_without_any_clash() {
        let mut random = fastrand::Rng::with_seed(11);
        let mut sheet = Sheet::new("01", "Test", A3);
        let mut taken = Taken::none(A3, A3.frame());
        let mut n_placed = 0;
        for number in 0..600 {
            let at = PaperPoint::new(30.0 + random.f64() * 370.0, 20.0 + random.f64() * 250.0);
            let dot = Mark::new(
                Layer::HeatHanger,
                crate::sheets::mark::Circle {
                    centre: at,
                    radius_mm: 0.8,
                    finish: crate::sheets::mark::Finish::Drawn(Pen::THIN),
                },
            )
            .key();
            taken.take(&dot.shape);
            sheet.draw(dot);
            let mut wanted = label(
                &format!("R{number}.2"),
                at + DVec2::new(0.0, -3.4),
                Some(at),
            );
            wanted.tries[0].1[0].turn_degrees = random.f64() * 90.0;
            if let Some(marks) = taken.place(&wanted) {
                n_placed += 1;
                marks.into_iter().for_each(|mark| sheet.draw(mark));
            }
        }
        assert!(400 < n_placed, "{n_placed} of 600 placed");
        // Dots that came after a label may lie under it here; texts must not meet.
        let on_text = clashes(&sheet)
            .into_iter()
            .find(|clash| matches!(clash.fault, crate::sheets::occupied::Fault::OnText(..)));
        assert!(on_text.is_none(), "{on_text:?}");
    }

    #[test]
    fn a_shorter_wording_is_taken_where_the_full_one_has_no_room() {
        let window = PaperRect::at(PaperPoint::new(100.0, 100.0), 14.0, 6.0);
        let mut taken = Taken::none(A3, window);
        let mut wanted = label("R1 36 kW +6.20", window.centre(), None);
        let spots = wanted.tries[0].1.clone();
        wanted
            .tries
            .push((Wording::line("R1", Lettering::regular(2.5)), spots));
        let marks = taken.place(&wanted).unwrap();
        assert_eq!(marks[0].texts()[0].content(), "R1");
    }

    #[test]
    fn lines_stand_under_each_other_as_one() {
        let wording = Wording {
            lines: vec!["goods".to_owned(), "top 4.80".to_owned()],
            lettering: Lettering::regular(2.5),
        };
        let spot = Spot {
            at: PaperPoint::new(100.0, 100.0),
            turn_degrees: 0.0,
            anchor: Anchor::CENTRE,
        };
        let found = SetWording::new(&wording).texts(&spot);
        let middle = |text: &Text| text.start().y - 1.25;
        assert!((f64::midpoint(middle(&found[0]), middle(&found[1])) - 100.0).abs() < 1e-9);
        assert!(found[0].start().y < found[1].start().y);
    }
}
