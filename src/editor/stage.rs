//! The stages of the job, in the order in which it is done.

use super::tools::ToolKind;

/// A stage of the job. It brings its own tools and form and puts its own layer forward.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Stage {
    /// Bays, grid lines, openings.
    #[default]
    Shell,
    /// Framing and its members.
    Steel,
    /// What is in the way, and where people work.
    Obstructions,
    /// Heaters.
    Runs,
    /// What is printed.
    Sheets,
}

impl Stage {
    /// All stages, in order.
    pub const ALL: [Self; 5] = [
        Self::Shell,
        Self::Steel,
        Self::Obstructions,
        Self::Runs,
        Self::Sheets,
    ];

    /// Its name.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Shell => "Shell",
            Self::Steel => "Steel",
            Self::Obstructions => "Obstructions",
            Self::Runs => "Runs",
            Self::Sheets => "Sheets",
        }
    }

    /// What is done in it.
    pub const fn explanation(self) -> &'static str {
        match self {
            Self::Shell => "Outline the bays, letter the grid lines, cut the openings",
            Self::Steel => "Lay the roof members that everything hangs from",
            Self::Obstructions => "Draw what is in the way and where people work",
            Self::Runs => "Place the heaters and see how they hang",
            Self::Sheets => "Set up and write the plan set",
        }
    }

    /// The tools that it brings, beside picking.
    pub const fn tools(self) -> &'static [ToolKind] {
        match self {
            Self::Shell => &[ToolKind::Bay, ToolKind::GridLine, ToolKind::Opening],
            Self::Steel => &[ToolKind::Framing],
            Self::Obstructions => &[ToolKind::Obstruction, ToolKind::WorkSpot],
            Self::Runs => &[ToolKind::Run, ToolKind::SectionLine],
            Self::Sheets => &[],
        }
    }
}
