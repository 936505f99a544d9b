//! Letter heights, measuring, wrapping and shortening.

use crate::sheets::fonts::{Face, drawable, measure};

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
        measure(self.face, &drawable(content, self.face)).advance_em * self.em_mm()
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
        // Where a beginning may end: after each of its characters.
        let ends: Vec<usize> = content.char_indices().map(|(at, _)| at).collect();
        let short = |end: usize| format!("{}…", content[..end].trim_end());
        let n_fitting = ends.partition_point(|&end| self.width_mm(&short(end)) <= width_mm);
        short(n_fitting.checked_sub(1).map_or(0, |last| ends[last]))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEN: Lettering = Lettering::regular(10.0);

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
}
