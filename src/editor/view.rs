//! What of the plan is shown.

use std::collections::BTreeSet;

/// Something that can be left out of the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Layer {
    /// Grid lines and their bubbles.
    Grid,
    /// Openings.
    Openings,
    /// Members and their panel points.
    Steel,
    /// Obstructions.
    Obstructions,
    /// Work spots.
    WorkSpots,
    /// Runs with their hangers.
    Runs,
    /// Keep-clear envelopes.
    Envelopes,
    /// Room on all sides of the picked run.
    Measures,
    /// Section lines.
    Sections,
    /// Marks of findings.
    Findings,
    /// Names, lengths and loads.
    Labels,
}

impl Layer {
    /// All layers, from the ground up.
    pub const ALL: [Self; 11] = [
        Self::Grid,
        Self::Openings,
        Self::Steel,
        Self::Obstructions,
        Self::WorkSpots,
        Self::Runs,
        Self::Envelopes,
        Self::Measures,
        Self::Sections,
        Self::Findings,
        Self::Labels,
    ];

    /// Its name, in the plural, small letters.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Grid => "grid lines",
            Self::Openings => "openings",
            Self::Steel => "members",
            Self::Obstructions => "obstructions",
            Self::WorkSpots => "work spots",
            Self::Runs => "runs",
            Self::Envelopes => "keep-clear envelopes",
            Self::Measures => "measures of the picked run",
            Self::Sections => "section lines",
            Self::Findings => "finding marks",
            Self::Labels => "labels",
        }
    }
}

/// From where the site is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Aspect {
    /// From above.
    #[default]
    Plan,
    /// Cut along a section line.
    Section,
    /// In space.
    Space,
}

impl Aspect {
    /// All of them, as offered.
    pub const ALL: [Self; 3] = [Self::Plan, Self::Section, Self::Space];

    /// Its name.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Plan => "Plan",
            Self::Section => "Section",
            Self::Space => "3-D",
        }
    }

    /// What it shows, in one sentence without a full stop.
    pub const fn explanation(self) -> &'static str {
        match self {
            Self::Plan => "See the site from above and work on it",
            Self::Section => "See the site cut along a section line, to scale",
            Self::Space => "See the site in space and walk round it",
        }
    }
}

/// What of the plan is shown, and how the pointer behaves on it.
#[derive(Debug, Clone, PartialEq)]
pub struct View {
    /// Layers left out.
    pub hidden: BTreeSet<Layer>,
    /// Whether the pointer catches on things.
    pub snapping: bool,
    /// From where the site is looked at.
    pub aspect: Aspect,
    /// Whether the plan stays beside a section or the site in space.
    pub beside: bool,
    /// Whether the run profile is shown under the plan.
    pub profile: bool,
}

impl Default for View {
    fn default() -> Self {
        Self {
            hidden: BTreeSet::new(),
            snapping: true,
            aspect: Aspect::Plan,
            beside: false,
            profile: true,
        }
    }
}

impl View {
    /// Whether a layer is shown.
    pub fn shows(&self, layer: Layer) -> bool {
        !self.hidden.contains(&layer)
    }

    /// Leaves a layer out, or shows it again.
    pub(crate) fn toggle(&mut self, layer: Layer) {
        if !self.hidden.remove(&layer) {
            self.hidden.insert(layer);
        }
    }
}
