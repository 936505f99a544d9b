//! Text on paper: faces, measuring, anchoring, wrapping, shortening.
//!
//! Text is measured once, with the very face that draws it, and every writer places
//! it by the start of its baseline. Heights are **cap heights**, the letter height h
//! of ISO 3098: a 2.5 mm text has capitals 2.5 mm high, in every format.

use std::sync::LazyLock;

use rustybuzz::{ShapePlan, UnicodeBuffer, ttf_parser};

use crate::geometry::{DVec2, math};
use crate::sheets::paper::PaperPoint;

/// A face of the embedded family.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Face {
    /// Text.
    Regular,
    /// Titles and what must be seen first.
    Bold,
    /// Where room is short.
    Condensed,
}

impl Face {
    /// All faces.
    pub const ALL: [Self; 3] = [Self::Regular, Self::Bold, Self::Condensed];

    /// The font file.
    #[must_use]
    pub const fn bytes(self) -> &'static [u8] {
        match self {
            Self::Regular => include_bytes!("../../assets/fonts/DejaVuSans.ttf"),
            Self::Bold => include_bytes!("../../assets/fonts/DejaVuSans-Bold.ttf"),
            Self::Condensed => include_bytes!("../../assets/fonts/DejaVuSansCondensed.ttf"),
        }
    }

    fn loaded(self) -> &'static LoadedFace {
        static FACES: LazyLock<[LoadedFace; 3]> = LazyLock::new(|| Face::ALL.map(LoadedFace::new));
        &FACES[self as usize]
    }

    /// Em sizes per cap height: the font size that makes capitals 1 high.
    #[must_use]
    pub fn em_per_cap_height(self) -> f64 {
        self.loaded().units_per_em / self.loaded().cap_height
    }

    /// Whether the face can draw the character.
    #[must_use]
    pub fn has(self, character: char) -> bool {
        self.loaded().face.glyph_index(character).is_some()
    }
}

/// A parsed face and the figures that are asked for again and again.
struct LoadedFace {
    face: rustybuzz::Face<'static>,
    /// The plan for Latin text from left to right: making one costs more than using it.
    latin: ShapePlan,
    units_per_em: f64,
    cap_height: f64,
}

impl LoadedFace {
    fn new(face: Face) -> Self {
        let parsed = rustybuzz::Face::from_slice(face.bytes(), 0)
            .expect("the embedded font files are committed and parsed by the tests");
        let latin = ShapePlan::new(
            &parsed,
            rustybuzz::Direction::LeftToRight,
            Some(rustybuzz::script::LATIN),
            None,
            &[],
        );
        // These files predate the table that states a cap height; H is flat at both ends.
        let cap_height = parsed
            .glyph_index('H')
            .and_then(|glyph| parsed.glyph_bounding_box(glyph))
            .map_or(0.73 * f64::from(parsed.units_per_em()), |bounds| {
                f64::from(bounds.y_max)
            });
        let units_per_em = f64::from(parsed.units_per_em());
        Self {
            face: parsed,
            latin,
            units_per_em,
            cap_height,
        }
    }
}

/// How letters look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lettering {
    /// The face.
    pub face: Face,
    /// Cap height, mm.
    pub height_mm: f64,
}

/// The smallest cap height that a printed sheet may carry, mm (ISO 3098-1 begins at 1.8;
/// 2.5 can be read at arm's length on a lift).
pub const LEAST_HEIGHT_MM: f64 = 2.5;

impl Lettering {
    /// Regular face with this cap height, mm.
    #[must_use]
    pub const fn regular(height_mm: f64) -> Self {
        Self {
            face: Face::Regular,
            height_mm,
        }
    }

    /// Bold face with this cap height, mm.
    #[must_use]
    pub const fn bold(height_mm: f64) -> Self {
        Self {
            face: Face::Bold,
            height_mm,
        }
    }

    /// Condensed face with this cap height, mm.
    #[must_use]
    pub const fn condensed(height_mm: f64) -> Self {
        Self {
            face: Face::Condensed,
            height_mm,
        }
    }

    /// Font size (em), mm.
    #[must_use]
    pub fn em_mm(self) -> f64 {
        self.height_mm * self.face.em_per_cap_height()
    }

    /// Distance between the baselines of a paragraph, mm: 1.9 cap heights, between the
    /// 1.5 of ISO 3098 for plain capitals and its 2.1 for letters with accents.
    #[must_use]
    pub fn line_pitch_mm(self) -> f64 {
        1.9 * self.height_mm
    }

    /// How far the text's advance reaches, mm.
    #[must_use]
    pub fn width_mm(self, content: &str) -> f64 {
        self.measured(&drawable(content, self.face)).advance_mm
    }

    /// The content in lines no wider than `width_mm`, broken between words; a word that
    /// is itself wider is broken within. Line feeds break too. Never empty.
    #[must_use]
    pub fn wrapped(self, content: &str, width_mm: f64) -> Vec<String> {
        let mut lines = Vec::new();
        for paragraph in content.split('\n') {
            self.wrap_paragraph(paragraph, width_mm, &mut lines);
        }
        lines
    }

    fn wrap_paragraph(self, paragraph: &str, width_mm: f64, lines: &mut Vec<String>) {
        let mut line = String::new();
        for word in paragraph.split_whitespace() {
            let longer = if line.is_empty() {
                word.to_owned()
            } else {
                format!("{line} {word}")
            };
            if self.width_mm(&longer) <= width_mm {
                line = longer;
                continue;
            }
            if !line.is_empty() {
                lines.push(std::mem::take(&mut line));
            }
            for character in word.chars() {
                line.push(character);
                if width_mm < self.width_mm(&line) && 1 < line.chars().count() {
                    line.pop();
                    lines.push(std::mem::replace(&mut line, character.to_string()));
                }
            }
        }
        lines.push(line);
    }

    /// The content, or as much of its beginning as fits `width_mm` with an ellipsis
    /// after it, so that the reader sees that something is missing. The ellipsis alone
    /// where nothing fits.
    #[must_use]
    pub fn shortened(self, content: &str, width_mm: f64) -> String {
        if self.width_mm(content) <= width_mm {
            return content.to_owned();
        }
        let mut kept: Vec<char> = content.chars().collect();
        while kept.pop().is_some() {
            let beginning: String = kept.iter().collect();
            let short = format!("{}…", beginning.trim_end());
            if self.width_mm(&short) <= width_mm {
                return short;
            }
        }
        "…".to_owned()
    }

    /// Advance and ink of content that the face can draw.
    fn measured(self, content: &str) -> Measure {
        let loaded = self.face.loaded();
        let mm_per_unit = self.em_mm() / loaded.units_per_em;
        let mut pen = DVec2::ZERO;
        let mut ink: Option<(DVec2, DVec2)> = None;
        for glyph in glyphs(self.face, content) {
            if let Some(bounds) = loaded
                .face
                .glyph_bounding_box(ttf_parser::GlyphId(glyph.id))
            {
                let origin = pen + glyph.offset_em * loaded.units_per_em;
                let least = origin + DVec2::new(f64::from(bounds.x_min), f64::from(bounds.y_min));
                let greatest =
                    origin + DVec2::new(f64::from(bounds.x_max), f64::from(bounds.y_max));
                ink = Some(ink.map_or((least, greatest), |(a, b)| (a.min(least), b.max(greatest))));
            }
            pen += DVec2::new(glyph.advance_em * loaded.units_per_em, 0.0);
        }
        Measure {
            advance_mm: pen.x * mm_per_unit,
            ink: ink.map(|(least, greatest)| (least * mm_per_unit, greatest * mm_per_unit)),
        }
    }
}

/// What measuring yields, mm from the start of the baseline, y up.
struct Measure {
    advance_mm: f64,
    /// Least and greatest corner of what is inked; none for blanks.
    ink: Option<(DVec2, DVec2)>,
}

/// A glyph of a shaped text. Lengths are in parts of the font size (em), y up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlacedGlyph {
    /// The glyph's number in the face.
    pub id: u16,
    /// Byte of the content at which what it draws begins.
    pub cluster: usize,
    /// How far the pen moves on.
    pub advance_em: f64,
    /// Where the glyph lies from the pen.
    pub offset_em: DVec2,
}

/// The glyphs that draw the content, in drawing order.
///
/// The content is taken as one stretch in the direction of its first letters; text
/// that mixes directions isn't reordered.
#[must_use]
pub fn glyphs(face: Face, content: &str) -> Vec<PlacedGlyph> {
    let loaded = face.loaded();
    let mut buffer = UnicodeBuffer::new();
    buffer.push_str(content);
    let shaped = if content.chars().all(is_plain) {
        buffer.set_direction(rustybuzz::Direction::LeftToRight);
        buffer.set_script(rustybuzz::script::LATIN);
        rustybuzz::shape_with_plan(&loaded.face, &loaded.latin, buffer)
    } else {
        rustybuzz::shape(&loaded.face, &[], buffer)
    };
    let em = |units: i32| f64::from(units) / loaded.units_per_em;
    shaped
        .glyph_infos()
        .iter()
        .zip(shaped.glyph_positions())
        .map(|(info, position)| PlacedGlyph {
            // A face has at most 65,535 glyphs.
            id: u16::try_from(info.glyph_id).unwrap_or(0),
            cluster: usize::try_from(info.cluster).unwrap_or(0),
            advance_em: em(position.x_advance),
            offset_em: DVec2::new(em(position.x_offset), em(position.y_offset)),
        })
        .collect()
}

/// Letters and signs that are written from left to right without joining: the Latin
/// blocks, general punctuation and the signs up to the arrows and box drawings.
fn is_plain(character: char) -> bool {
    matches!(character, '\u{20}'..='\u{24f}' | '\u{2010}'..='\u{2027}' | '\u{2030}'..='\u{205e}' | '\u{2070}'..='\u{27bf}')
}

/// The content with what the face can't draw replaced by a visible sign (U+FFFD), and
/// line feeds, tabs and other control characters by blanks.
fn drawable(content: &str, face: Face) -> String {
    content
        .chars()
        .map(|character| {
            if character.is_control() || character == '\u{2028}' || character == '\u{2029}' {
                ' '
            } else if face.has(character) {
                character
            } else {
                char::REPLACEMENT_CHARACTER
            }
        })
        .collect()
}

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
        let measure = lettering.measured(&content);
        let back = match anchor.along {
            Along::Start => 0.0,
            Along::Middle => measure.advance_mm / 2.0,
            Along::End => measure.advance_mm,
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
            advance_mm: measure.advance_mm,
            ink: measure.ink,
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

/// A rectangle turned in the plane of the paper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OrientedBox {
    /// The middle.
    pub centre: PaperPoint,
    /// Unit vector along its first side.
    pub along: DVec2,
    /// Half the sides along and across, mm.
    pub half: DVec2,
}

impl OrientedBox {
    /// Larger by this much on every side, mm.
    #[must_use]
    pub fn grown(self, by_mm: f64) -> Self {
        Self {
            half: (self.half + DVec2::splat(by_mm)).max(DVec2::ZERO),
            ..self
        }
    }

    /// Unit vector along its second side.
    #[must_use]
    pub fn across(self) -> DVec2 {
        DVec2::new(-self.along.y, self.along.x)
    }

    /// Its corners, in order round it.
    #[must_use]
    pub fn corners(self) -> [PaperPoint; 4] {
        let a = self.along * self.half.x;
        let b = self.across() * self.half.y;
        [
            self.centre - a - b,
            self.centre + a - b,
            self.centre + a + b,
            self.centre - a + b,
        ]
    }
}

/// Unit vectors on paper along and up a line turned by degrees anticlockwise as seen.
pub(crate) fn directions(turn_degrees: f64) -> (DVec2, DVec2) {
    let (sin, cos) = math::sin_cos_degrees(turn_degrees);
    (DVec2::new(cos, -sin), DVec2::new(-sin, -cos))
}

/// A point turned about the paper's origin by degrees anticlockwise as seen.
pub(crate) fn turned(point: PaperPoint, turn_degrees: f64) -> PaperPoint {
    let (along, up) = directions(turn_degrees);
    along * point.x - up * point.y
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

    use super::*;

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
    fn width_is_the_sum_of_the_advances() {
        // Advances from the files' hmtx table, units of 2048 to the em; H is 1493 high.
        for (face, digit) in [
            (Face::Regular, 1303.0),
            (Face::Bold, 1425.0),
            (Face::Condensed, 1172.0),
        ] {
            let expected = 5.0 * digit / 1493.0 * 10.0;
            let width = Lettering {
                face,
                height_mm: 10.0,
            }
            .width_mm("12345");
            assert!(
                (width - expected).abs() < 1e-9,
                "{face:?}: {width} for {expected}"
            );
        }
    }

    #[test]
    fn plain_and_general_shaping_agree() {
        for content in ["AVATAR To. R3.2", "5.20 m ≥ 4′ 6″ ⌀ → √", "Größe café"] {
            for face in Face::ALL {
                let mut buffer = UnicodeBuffer::new();
                buffer.push_str(content);
                let general = rustybuzz::shape(&face.loaded().face, &[], buffer);
                let ids: Vec<u32> = general
                    .glyph_infos()
                    .iter()
                    .map(|info| info.glyph_id)
                    .collect();
                let plain: Vec<u32> = glyphs(face, content)
                    .iter()
                    .map(|g| u32::from(g.id))
                    .collect();
                assert_eq!(plain, ids, "{content} in {face:?}");
            }
        }
    }

    #[test]
    fn every_drawing_sign_is_there() {
        for face in Face::ALL {
            for sign in "⌀±°²³·×÷≤≥≠≈←↑→↓↔√∞△▲▽▼□■○●◇◆☐☑✓✗′″–—…½¼¾⅛⅜⅝⅞�".chars()
            {
                assert!(face.has(sign), "{face:?} lacks {sign}");
            }
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
    fn wrapping_keeps_every_word_and_the_width() {
        let lettering = Lettering::condensed(2.5);
        let content = "Hang from panel points only; the building's engineer confirms each load.\nUninterruptedlylongword";
        for width in [8.0, 20.0, 60.0, 500.0] {
            let lines = lettering.wrapped(content, width);
            assert!(
                lines.iter().all(|line| lettering.width_mm(line) <= width),
                "at {width}: {lines:?}"
            );
            let letters = |s: &str| s.chars().filter(|c| !c.is_whitespace()).collect::<String>();
            assert_eq!(letters(&lines.concat()), letters(content));
        }
        assert_eq!(lettering.wrapped("", 10.0), [""]);
        assert_eq!(lettering.wrapped("ab", -1.0), ["a", "b"]);
    }

    #[test]
    fn shortening_shows_that_something_is_missing() {
        assert_eq!(TEN.shortened("North wall", 500.0), "North wall");
        let short = TEN.shortened("North wall", 60.0);
        assert!(
            short.ends_with('…') && TEN.width_mm(&short) <= 60.0,
            "{short}"
        );
        assert!(
            TEN.width_mm("North ") < 60.0 && short.starts_with("North"),
            "{short}"
        );
        assert_eq!(TEN.shortened("North wall", 0.0), "…");
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
}
