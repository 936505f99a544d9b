//! The embedded faces, and the glyphs that draw a text with them.

use std::sync::LazyLock;

use rustybuzz::{ShapePlan, UnicodeBuffer, ttf_parser};

use crate::geometry::DVec2;

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

/// What measuring yields, in parts of the font size (em) from the start of the
/// baseline, y up.
pub(super) struct Measure {
    /// How far the pen moves on.
    pub(super) advance_em: f64,
    /// Least and greatest corner of what is inked; none for blanks.
    pub(super) ink_em: Option<(DVec2, DVec2)>,
}

/// Advance and ink of content that the face can draw.
pub(super) fn measure(face: Face, content: &str) -> Measure {
    let loaded = face.loaded();
    let em = |x: i16, y: i16| DVec2::new(f64::from(x), f64::from(y)) / loaded.units_per_em;
    let mut advance_em = 0.0;
    let mut ink_em: Option<(DVec2, DVec2)> = None;
    for glyph in glyphs(face, content) {
        if let Some(bounds) = loaded
            .face
            .glyph_bounding_box(ttf_parser::GlyphId(glyph.id))
        {
            let origin = DVec2::new(advance_em, 0.0) + glyph.offset_em;
            let least = origin + em(bounds.x_min, bounds.y_min);
            let greatest = origin + em(bounds.x_max, bounds.y_max);
            ink_em =
                Some(ink_em.map_or((least, greatest), |(a, b)| (a.min(least), b.max(greatest))));
        }
        advance_em += glyph.advance_em;
    }
    Measure { advance_em, ink_em }
}

/// The content with what the face can't draw replaced by a visible sign (U+FFFD), and
/// line feeds, tabs and other control characters by blanks.
pub(super) fn drawable(content: &str, face: Face) -> String {
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

#[cfg(test)]
mod tests {
    use super::*;

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
}
