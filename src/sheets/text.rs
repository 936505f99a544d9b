//! Text on paper: faces, measuring, anchoring, wrapping, shortening.
//!
//! Text is measured once, with the very face that draws it, and every writer places
//! it by the start of its baseline. Heights are **cap heights**, the letter height h
//! of ISO 3098: a 2.5 mm text has capitals 2.5 mm high, in every format.

use crate::geometry::DVec2;
use crate::sheets::fonts::{drawable, measure};
use crate::sheets::lettering::Lettering;
use crate::sheets::oriented_box::OrientedBox;
use crate::sheets::paper::{PaperPoint, directions, turned};

/// Where along the line the anchor is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Along {
    /// At the first letter.
    Start,
    /// Half way.
    Middle,
    /// After the last letter.
    End,
}

/// Where across the line the anchor is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Across {
    /// On the baseline.
    Baseline,
    /// Half a cap height above the baseline.
    Middle,
    /// At the top of the capitals.
    Top,
}

/// Which point of a text lies at the given point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Anchor {
    /// Along the line.
    pub along: Along,
    /// Across the line.
    pub across: Across,
}

impl Anchor {
    /// Start of the baseline.
    pub const START: Self = Self {
        along: Along::Start,
        across: Across::Baseline,
    };
    /// Middle of the baseline.
    pub const MIDDLE: Self = Self {
        along: Along::Middle,
        across: Across::Baseline,
    };
    /// End of the baseline.
    pub const END: Self = Self {
        along: Along::End,
        across: Across::Baseline,
    };
    /// Middle of the text's box, as in a bubble.
    pub const CENTRE: Self = Self {
        along: Along::Middle,
        across: Across::Middle,
    };
}

/// What lies under a text.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Backing {
    /// Nothing: what was drawn before shows through.
    None,
    /// Paper, this far around the ink (mm), so that hatches and lines stop short of it.
    Cleared(f64),
}

/// One line of text on paper.
///
/// Its content can be drawn with its face; its measures are those of that face. Both
/// hold because the fields are set by the constructors alone.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    content: String,
    lettering: Lettering,
    start: PaperPoint,
    turn_degrees: f64,
    backing: Backing,
    advance_mm: f64,
    ink: Option<(DVec2, DVec2)>,
}

impl Text {
    /// A level text whose baseline starts at the point.
    #[must_use]
    pub fn new(content: &str, lettering: Lettering, start: PaperPoint) -> Self {
        Self::anchored(content, lettering, start, 0.0, Anchor::START)
    }

    /// A text of which the anchor lies at the point, turned about it by degrees
    /// anticlockwise as seen: 90 reads from the bottom to the top.
    #[must_use]
    pub fn anchored(
        content: &str,
        lettering: Lettering,
        point: PaperPoint,
        turn_degrees: f64,
        anchor: Anchor,
    ) -> Self {
        let content = drawable(content, lettering.face);
        let measure = measure(lettering.face, &content);
        let em_mm = lettering.em_mm();
        let advance_mm = measure.advance_em * em_mm;
        let back = match anchor.along {
            Along::Start => 0.0,
            Along::Middle => advance_mm / 2.0,
            Along::End => advance_mm,
        };
        let down = match anchor.across {
            Across::Baseline => 0.0,
            Across::Middle => lettering.height_mm / 2.0,
            Across::Top => lettering.height_mm,
        };
        let (along, up) = directions(turn_degrees);
        Self {
            content,
            lettering,
            start: point - along * back - up * down,
            turn_degrees,
            backing: Backing::None,
            advance_mm,
            ink: measure
                .ink_em
                .map(|(least, greatest)| (least * em_mm, greatest * em_mm)),
        }
    }

    /// The same text on cleared paper, this far around its ink, mm.
    #[must_use]
    pub fn on_cleared_paper(mut self, around_mm: f64) -> Self {
        self.backing = Backing::Cleared(around_mm);
        self
    }

    /// The same text turned by degrees about the origin of the paper, then moved.
    #[must_use]
    pub fn moved(mut self, turn_degrees: f64, by: DVec2) -> Self {
        self.start = turned(self.start, turn_degrees) + by;
        self.turn_degrees += turn_degrees;
        self
    }

    /// What it says, with replacements for what the face can't draw.
    #[must_use]
    pub fn content(&self) -> &str {
        &self.content
    }

    /// Face and cap height.
    #[must_use]
    pub const fn lettering(&self) -> Lettering {
        self.lettering
    }

    /// Where its baseline starts.
    #[must_use]
    pub const fn start(&self) -> PaperPoint {
        self.start
    }

    /// How far it is turned, degrees anticlockwise as seen.
    #[must_use]
    pub const fn turn_degrees(&self) -> f64 {
        self.turn_degrees
    }

    /// What lies under it.
    #[must_use]
    pub const fn backing(&self) -> Backing {
        self.backing
    }

    /// How far its advance reaches along the baseline, mm.
    #[must_use]
    pub const fn advance_mm(&self) -> f64 {
        self.advance_mm
    }

    /// The box round its ink, turned with it; none for blanks.
    #[must_use]
    pub fn ink_box(&self) -> Option<OrientedBox> {
        let (least, greatest) = self.ink?;
        let (along, up) = directions(self.turn_degrees);
        let middle = least.midpoint(greatest);
        Some(OrientedBox {
            centre: self.start + along * middle.x + up * middle.y,
            along,
            half: (greatest - least) / 2.0,
        })
    }

    /// The box of paper that is cleared under it, if any.
    #[must_use]
    pub fn cleared_box(&self) -> Option<OrientedBox> {
        match self.backing {
            Backing::None => None,
            Backing::Cleared(around_mm) => Some(self.ink_box()?.grown(around_mm)),
        }
    }
}

/// The turn that makes a text along a line legible: that of the line, or its opposite,
/// so that it reads from the bottom or from the right of the sheet (ISO 129-1), degrees
/// anticlockwise as seen, above -90 and at most 90.
#[must_use]
pub fn legible_turn_degrees(along_degrees: f64) -> f64 {
    let half_turn = along_degrees.rem_euclid(180.0);
    if half_turn <= 90.0 {
        half_turn
    } else {
        half_turn - 180.0
    }
}

/// The lines of a paragraph, no wider than `width_mm`, the first baseline at `start`.
#[must_use]
pub fn paragraph(
    content: &str,
    lettering: Lettering,
    start: PaperPoint,
    width_mm: f64,
) -> Vec<Text> {
    let mut baseline = start;
    let mut texts = Vec::new();
    for line in lettering.wrapped(content, width_mm) {
        texts.push(Text::new(&line, lettering, baseline));
        baseline.y += lettering.line_pitch_mm();
    }
    texts
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

    use super::*;
    use crate::sheets::fonts::Face;

    const TEN: Lettering = Lettering::regular(10.0);

    fn close(a: DVec2, b: DVec2) -> bool {
        a.distance(b) < 1e-9
    }

    #[test]
    fn capitals_are_as_high_as_asked() {
        for face in Face::ALL {
            let text = Text::new(
                "H",
                Lettering {
                    face,
                    height_mm: 3.5,
                },
                PaperPoint::ZERO,
            );
            let ink = text.ink_box().unwrap();
            assert!((ink.half.y * 2.0 - 3.5).abs() < 1e-9, "{face:?}");
            assert!(
                (ink.centre.y + 1.75).abs() < 1e-9,
                "above the baseline: {face:?}"
            );
        }
    }

    #[test]
    fn what_cannot_be_drawn_is_replaced_visibly() {
        let text = Text::new("dock 港 4\nnorth\t\u{7}", TEN, PaperPoint::ZERO);
        assert_eq!(text.content(), "dock \u{fffd} 4 north  ");
    }

    #[test]
    fn anchors_put_the_named_point_there() {
        let at = PaperPoint::new(50.0, 40.0);
        let width = TEN.width_mm("R3.2");
        let start = |turn, anchor| Text::anchored("R3.2", TEN, at, turn, anchor).start();
        assert!(close(start(0.0, Anchor::START), at));
        assert!(close(
            start(0.0, Anchor::MIDDLE),
            at - DVec2::new(width / 2.0, 0.0)
        ));
        assert!(close(start(0.0, Anchor::END), at - DVec2::new(width, 0.0)));
        assert!(close(
            start(0.0, Anchor::CENTRE),
            at + DVec2::new(-width / 2.0, 5.0)
        ));
        assert!(close(start(90.0, Anchor::END), at + DVec2::new(0.0, width)));
        assert!(close(
            start(90.0, Anchor::CENTRE),
            at + DVec2::new(5.0, width / 2.0)
        ));
    }

    #[test]
    fn boxes_turn_with_the_text() {
        let level = Text::new("R3", TEN, PaperPoint::ZERO).ink_box().unwrap();
        let upright = Text::new("R3", TEN, PaperPoint::ZERO)
            .moved(90.0, DVec2::ZERO)
            .ink_box()
            .unwrap();
        assert!(close(
            upright.centre,
            DVec2::new(level.centre.y, -level.centre.x)
        ));
        assert!(close(upright.along, DVec2::new(0.0, -1.0)));
        assert!(close(upright.half, level.half));
        assert!(Text::new("  ", TEN, PaperPoint::ZERO).ink_box().is_none());
    }

    #[test]
    fn paragraphs_run_downwards() {
        let texts = paragraph("one two three", TEN, PaperPoint::new(5.0, 9.0), 1.0);
        assert!(
            texts
                .windows(2)
                .all(|pair| close(pair[1].start() - pair[0].start(), DVec2::new(0.0, 19.0)))
        );
    }

    #[test]
    fn labels_never_stand_on_their_heads() {
        for (along, expected) in [
            (0.0, 0.0),
            (90.0, 90.0),
            (180.0, 0.0),
            (-90.0, 90.0),
            (120.0, -60.0),
            (200.0, 20.0),
            (-45.0, -45.0),
        ] {
            assert_eq!(legible_turn_degrees(along), expected, "along {along}");
        }
    }
}
