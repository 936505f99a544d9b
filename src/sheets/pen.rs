//! Lines and inks: widths and line types after ISO 128, and inks that stay apart in grey print.

/// A line width of the ISO 128 series.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PenWidth {
    /// 0.13 mm: hatching, the faintest background.
    W013,
    /// 0.18 mm: dimension and leader lines, members.
    W018,
    /// 0.25 mm: outlines of obstructions, symbols.
    W025,
    /// 0.35 mm: walls in section views, tables' heads.
    W035,
    /// 0.50 mm: runs, walls cut in plan.
    W050,
    /// 0.70 mm: the frame.
    W070,
}

impl PenWidth {
    /// All widths, thinnest first.
    pub const ALL: [Self; 6] = [
        Self::W013,
        Self::W018,
        Self::W025,
        Self::W035,
        Self::W050,
        Self::W070,
    ];

    /// The width in millimetres.
    #[must_use]
    pub const fn mm(self) -> f64 {
        match self {
            Self::W013 => 0.13,
            Self::W018 => 0.18,
            Self::W025 => 0.25,
            Self::W035 => 0.35,
            Self::W050 => 0.5,
            Self::W070 => 0.7,
        }
    }
}

/// Travel of the pen for a dot, in line widths.
pub const DOT: f64 = 0.5;

/// A line type of ISO 128-20, with its number there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LineKind {
    /// 01: visible edges.
    Continuous,
    /// 02: hidden edges, things above the cut.
    Dashed,
    /// 04: grid lines, axes.
    LongDashDot,
    /// 05: outlines of moving or neighbouring parts, keep-clear envelopes.
    LongDashDoubleDot,
}

impl LineKind {
    /// All line types.
    pub const ALL: [Self; 4] = [
        Self::Continuous,
        Self::Dashed,
        Self::LongDashDot,
        Self::LongDashDoubleDot,
    ];

    /// How far the pen travels down and up, in multiples of the line width, down first;
    /// empty where the line has no gaps.
    ///
    /// A round pen of the line's width inks one width more than it travels, so that
    /// these give the dashes of 12, long dashes of 24 and gaps of 3 widths of ISO
    /// 128-20, table 2. Only for dots the table's half width is the travel: half a width
    /// of ink gets lost in print at 0.18 mm.
    #[must_use]
    pub const fn pattern(self) -> &'static [f64] {
        match self {
            Self::Continuous => &[],
            Self::Dashed => &[11.0, 4.0],
            Self::LongDashDot => &[23.0, 4.0, DOT, 4.0],
            Self::LongDashDoubleDot => &[23.0, 4.0, DOT, 4.0, DOT, 4.0],
        }
    }
}

/// What a line is drawn with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Pen {
    /// How wide.
    pub width: PenWidth,
    /// Which line type.
    pub kind: LineKind,
}

impl Pen {
    /// 0.13 mm continuous.
    pub const HAIR: Self = Self::continuous(PenWidth::W013);
    /// 0.18 mm continuous.
    pub const FINE: Self = Self::continuous(PenWidth::W018);
    /// 0.25 mm continuous.
    pub const THIN: Self = Self::continuous(PenWidth::W025);
    /// 0.35 mm continuous.
    pub const MEDIUM: Self = Self::continuous(PenWidth::W035);
    /// 0.5 mm continuous.
    pub const BOLD: Self = Self::continuous(PenWidth::W050);
    /// 0.7 mm continuous.
    pub const HEAVY: Self = Self::continuous(PenWidth::W070);

    /// An unbroken line.
    #[must_use]
    pub const fn continuous(width: PenWidth) -> Self {
        Self {
            width,
            kind: LineKind::Continuous,
        }
    }

    /// A line of the given type.
    #[must_use]
    pub const fn of(width: PenWidth, kind: LineKind) -> Self {
        Self { width, kind }
    }

    /// Travel of the pen down and up, mm, down first; empty for an unbroken line.
    #[must_use]
    pub fn pattern_mm(self) -> Vec<f64> {
        self.kind
            .pattern()
            .iter()
            .map(|multiple| multiple * self.width.mm())
            .collect()
    }
}

/// A colour of ink. The accents differ in lightness as well as in hue, so that a grey
/// print still tells them apart, and none is meaning on its own: shape or text says
/// the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ink {
    /// Text and everything that matters.
    Black,
    /// What carries: members, secondary text.
    DarkGrey,
    /// Background: hatches, far grid lines.
    Grey,
    /// Shading of table heads and areas; never lines or text.
    LightGrey,
    /// The paper itself, to clear the ground under a symbol or a text.
    Paper,
    /// Heat: burners and tubes where colour is wanted.
    Ember,
    /// Air, gas and exhaust lines.
    Lake,
    /// Breaches.
    Alarm,
    /// One step of a colour map, for pictures' legends: red, green, blue.
    Step(u8, u8, u8),
}

impl Ink {
    /// Red, green and blue, sRGB.
    #[must_use]
    pub const fn rgb(self) -> [u8; 3] {
        match self {
            Self::Black => [0, 0, 0],
            Self::DarkGrey => [84, 88, 92],
            Self::Grey => [138, 143, 148],
            Self::LightGrey => [226, 228, 230],
            Self::Paper => [255, 255, 255],
            Self::Ember => [186, 74, 0],
            Self::Lake => [0, 72, 112],
            Self::Alarm => [128, 0, 20],
            Self::Step(red, green, blue) => [red, green, blue],
        }
    }

    /// How light a grey printer makes it: 0 black to 255 paper (weights of ITU-R
    /// BT.601, which printer drivers use), rounded down.
    #[must_use]
    pub const fn grey(self) -> u8 {
        let [red, green, blue] = self.rgb();
        let weighted = 299 * red as u32 + 587 * green as u32 + 114 * blue as u32;
        // At most 255 * 1000 / 1000.
        (weighted / 1000).to_le_bytes()[0]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inks_stay_apart_in_grey() {
        let inks = [
            Ink::Black,
            Ink::Alarm,
            Ink::Lake,
            Ink::DarkGrey,
            Ink::Ember,
            Ink::Grey,
            Ink::LightGrey,
            Ink::Paper,
        ];
        let mut greys = inks.map(Ink::grey);
        greys.sort_unstable();
        for pair in greys.windows(2) {
            assert!(pair[1] - pair[0] >= 10, "{pair:?} of {greys:?}");
        }
    }

    #[test]
    fn line_inks_can_be_read_on_paper() {
        for ink in [Ink::Black, Ink::DarkGrey, Ink::Ember, Ink::Lake, Ink::Alarm] {
            assert!(
                ink.grey() <= 118,
                "{ink:?} is too pale for text: {}",
                ink.grey()
            );
        }
    }

    #[test]
    fn patterns_are_multiples_of_the_width() {
        let pattern = Pen::of(PenWidth::W025, LineKind::LongDashDot).pattern_mm();
        assert_eq!(pattern, [5.75, 1.0, 0.125, 1.0]);
        assert!(Pen::HEAVY.pattern_mm().is_empty());
        for kind in LineKind::ALL {
            assert_eq!(kind.pattern().len() % 2, 0, "{kind:?}");
        }
    }
}
