//! Colours of the site in space, by what they stand for.

/// A colour: red, green, blue, 0 to 255 each.
pub type Rgb = [u8; 3];

/// What a face or a line stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tone {
    /// The floor of a bay.
    Floor,
    /// Walls.
    Wall,
    /// Roof decks.
    Deck,
    /// Joists, purlins, beams, trusses.
    Member,
    /// What is in the way.
    Obstruction,
    /// Where something moves, or nothing may be: cranes, doors, hazard zones.
    Sweep,
    /// A tube.
    Tube,
    /// A burner.
    Burner,
    /// Reflector, return bend, exhaust fitting.
    Reflector,
    /// A suspension, a cross channel.
    Hanger,
    /// A keep-clear envelope.
    Envelope,
    /// A keep-clear envelope with something in it.
    Breach,
    /// Grid lines on the floor.
    Grid,
}

/// The colours of a picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Inks {
    /// Behind everything.
    pub ground: Rgb,
    /// Floors.
    pub floor: Rgb,
    /// Walls and decks.
    pub wall: Rgb,
    /// Members.
    pub member: Rgb,
    /// Faces of obstructions.
    pub obstruction: Rgb,
    /// Edges of obstructions.
    pub obstruction_edge: Rgb,
    /// Tubes.
    pub run: Rgb,
    /// Burners.
    pub burner: Rgb,
    /// Reflectors and fittings.
    pub reflector: Rgb,
    /// Suspensions.
    pub hanger: Rgb,
    /// Envelopes.
    pub envelope: Rgb,
    /// Breaches.
    pub breach: Rgb,
    /// Grid lines.
    pub grid: Rgb,
    /// Names.
    pub text: Rgb,
}

impl Inks {
    /// Dark ink on light paper, as the plan has it.
    pub const PAPER: Self = Self {
        ground: [0xFD, 0xFC, 0xFA],
        floor: [0xEF, 0xED, 0xE8],
        wall: [0x1E, 0x22, 0x27],
        member: [0x7E, 0x95, 0xA4],
        obstruction: [0xE4, 0xE2, 0xDC],
        obstruction_edge: [0x7A, 0x7E, 0x83],
        run: [0xC8, 0x4B, 0x16],
        burner: [0x8A, 0x2D, 0x0B],
        reflector: [0xE8, 0xA9, 0x88],
        hanger: [0x22, 0x26, 0x2B],
        envelope: [0xC2, 0x60, 0x2F],
        breach: [0xA3, 0x00, 0x4F],
        grid: [0x9A, 0xA0, 0xA6],
        text: [0x22, 0x26, 0x2B],
    };

    /// The colour of faces of a tone.
    #[must_use]
    pub const fn face(&self, tone: Tone) -> Rgb {
        match tone {
            Tone::Floor => self.floor,
            Tone::Wall | Tone::Deck => self.wall,
            Tone::Member => self.member,
            Tone::Obstruction | Tone::Sweep => self.obstruction,
            Tone::Tube => self.run,
            Tone::Burner => self.burner,
            Tone::Reflector => self.reflector,
            Tone::Hanger => self.hanger,
            Tone::Envelope => self.envelope,
            Tone::Breach => self.breach,
            Tone::Grid => self.grid,
        }
    }

    /// The colour of lines and edges of a tone.
    #[must_use]
    pub const fn line(&self, tone: Tone) -> Rgb {
        match tone {
            Tone::Floor | Tone::Grid => self.grid,
            Tone::Wall | Tone::Deck => self.wall,
            Tone::Member => self.member,
            Tone::Obstruction | Tone::Sweep => self.obstruction_edge,
            Tone::Tube | Tone::Burner | Tone::Reflector => self.burner,
            Tone::Hanger => self.hanger,
            Tone::Envelope => self.envelope,
            Tone::Breach => self.breach,
        }
    }
}

impl Tone {
    /// How much a face covers what is behind it, 0 to 255.
    pub(super) const fn cover(self) -> u8 {
        match self {
            Self::Wall => 34,
            Self::Deck => 16,
            Self::Sweep => 70,
            Self::Envelope => 34,
            Self::Breach => 44,
            Self::Floor
            | Self::Member
            | Self::Obstruction
            | Self::Tube
            | Self::Burner
            | Self::Reflector
            | Self::Hanger
            | Self::Grid => 255,
        }
    }

    /// How much an edge covers what is behind it, 0 to 255.
    pub(super) const fn edge_cover(self) -> u8 {
        match self {
            Self::Wall | Self::Deck => 120,
            Self::Floor => 140,
            Self::Envelope => 190,
            Self::Tube | Self::Reflector => 150,
            _ => 255,
        }
    }
}
