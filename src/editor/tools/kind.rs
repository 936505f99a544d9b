//! Which tools there are.

use eframe::egui::Key;

/// A tool.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum ToolKind {
    /// Picks, moves, turns.
    #[default]
    Pick,
    /// Draws a bay.
    Bay,
    /// Draws grid lines.
    GridLine,
    /// Cuts openings into walls.
    Opening,
    /// Lays framing.
    Framing,
    /// Draws obstructions.
    Obstruction,
    /// Marks work spots.
    WorkSpot,
    /// Places runs.
    Run,
    /// Draws section lines.
    SectionLine,
}

impl ToolKind {
    /// All tools, in the order of the stages.
    pub const ALL: [Self; 9] = [
        Self::Pick,
        Self::Bay,
        Self::GridLine,
        Self::Opening,
        Self::Framing,
        Self::Obstruction,
        Self::WorkSpot,
        Self::Run,
        Self::SectionLine,
    ];

    /// Its name.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Pick => "Pick and move",
            Self::Bay => "Draw a bay",
            Self::GridLine => "Letter grid lines",
            Self::Opening => "Cut an opening",
            Self::Framing => "Lay framing",
            Self::Obstruction => "Draw an obstruction",
            Self::WorkSpot => "Mark a work spot",
            Self::Run => "Place a run",
            Self::SectionLine => "Draw a section line",
        }
    }

    /// How it is used, in one sentence without a full stop.
    pub const fn explanation(self) -> &'static str {
        match self {
            Self::Pick => "Click or draw a box to pick, drag to move",
            Self::Bay => "Click corner after corner, or drag from corner to corner",
            Self::GridLine => "Click both ends; the next line is lettered on",
            Self::Opening => "Click a wall where the opening begins, then where it ends",
            Self::Framing => "Drag inside the bay the way the members run",
            Self::Obstruction => "Drag a rectangle, click a polygon, or click along a line",
            Self::WorkSpot => "Click where somebody works",
            Self::Run => "Click where the burner hangs, then toward the exhaust",
            Self::SectionLine => "Click both ends, then as far behind the cut as is to be shown",
        }
    }

    /// The key that takes it up.
    pub const fn key(self) -> Key {
        match self {
            Self::Pick => Key::P,
            Self::Bay => Key::B,
            Self::GridLine => Key::G,
            Self::Opening => Key::D,
            Self::Framing => Key::F,
            Self::Obstruction => Key::O,
            Self::WorkSpot => Key::W,
            Self::Run => Key::R,
            Self::SectionLine => Key::S,
        }
    }
}
