//! Layers: what kind of thing a mark draws.

use crate::sheets::pen::Ink;

/// The kind of thing that a mark draws. Names follow the spirit of ISO 13567 (agent
/// responsible, element, presentation) in the short readable form that is common in
/// building drawings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Layer {
    /// Tubes, reflectors, burners.
    HeatTube,
    /// Hangers and cross channels.
    HeatHanger,
    /// Keep-clear envelopes.
    HeatClearance,
    /// Names and figures of runs and hangers.
    HeatText,
    /// Warmth pictures and contours.
    HeatWarmth,
    /// Gas, air and exhaust.
    HeatService,
    /// Joists, purlins, beams, trusses.
    Member,
    /// Names of members.
    MemberText,
    /// Grid lines and their bubbles.
    Grid,
    /// Walls.
    Wall,
    /// Doors and windows.
    Opening,
    /// Obstructions.
    Obstruction,
    /// Hatches of obstructions and other surfaces.
    Hatch,
    /// Breaches and other findings.
    Finding,
    /// Dimension lines and their figures.
    Dimension,
    /// Notes, legends, tables.
    Text,
    /// Frame and title block.
    Frame,
}

impl Layer {
    /// All layers, in the order in which drawings list them.
    pub const ALL: [Self; 17] = [
        Self::HeatTube,
        Self::HeatHanger,
        Self::HeatClearance,
        Self::HeatText,
        Self::HeatWarmth,
        Self::HeatService,
        Self::Member,
        Self::MemberText,
        Self::Grid,
        Self::Wall,
        Self::Opening,
        Self::Obstruction,
        Self::Hatch,
        Self::Finding,
        Self::Dimension,
        Self::Text,
        Self::Frame,
    ];

    /// The layer's name in files.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::HeatTube => "M-HEAT-TUBE",
            Self::HeatHanger => "M-HEAT-HANGER",
            Self::HeatClearance => "M-HEAT-CLEARANCE",
            Self::HeatText => "M-HEAT-TEXT",
            Self::HeatWarmth => "M-HEAT-WARMTH",
            Self::HeatService => "M-HEAT-SERVICE",
            Self::Member => "S-MEMBER",
            Self::MemberText => "S-MEMBER-TEXT",
            Self::Grid => "S-GRID",
            Self::Wall => "A-WALL",
            Self::Opening => "A-OPENING",
            Self::Obstruction => "G-OBSTRUCTION",
            Self::Hatch => "G-HATCH",
            Self::Finding => "G-FINDING",
            Self::Dimension => "G-DIM",
            Self::Text => "G-TEXT",
            Self::Frame => "G-FRAME",
        }
    }

    /// What is on the layer, for readers of the file.
    #[must_use]
    pub const fn description(self) -> &'static str {
        match self {
            Self::HeatTube => "Heater tubes, reflectors and burners",
            Self::HeatHanger => "Hangers and cross channels",
            Self::HeatClearance => "Keep-clear envelopes",
            Self::HeatText => "Names and figures of runs and hangers",
            Self::HeatWarmth => "Warmth pictures and contours",
            Self::HeatService => "Gas, air and exhaust",
            Self::Member => "Joists, purlins, beams and trusses",
            Self::MemberText => "Names of members",
            Self::Grid => "Grid lines",
            Self::Wall => "Walls",
            Self::Opening => "Doors and windows",
            Self::Obstruction => "Obstructions",
            Self::Hatch => "Hatches",
            Self::Finding => "Findings",
            Self::Dimension => "Dimensions",
            Self::Text => "Notes, legends and tables",
            Self::Frame => "Frame and title block",
        }
    }

    /// The ink that a mark on this layer has unless it says otherwise.
    #[must_use]
    pub const fn ink(self) -> Ink {
        match self {
            Self::Member | Self::MemberText | Self::Grid => Ink::DarkGrey,
            Self::Hatch => Ink::Grey,
            Self::Finding => Ink::Alarm,
            Self::HeatTube
            | Self::HeatHanger
            | Self::HeatClearance
            | Self::HeatText
            | Self::HeatWarmth
            | Self::HeatService
            | Self::Wall
            | Self::Opening
            | Self::Obstruction
            | Self::Dimension
            | Self::Text
            | Self::Frame => Ink::Black,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn names_are_unique_and_legal_in_files() {
        let names: BTreeSet<&str> = Layer::ALL.iter().map(|layer| layer.name()).collect();
        assert_eq!(names.len(), Layer::ALL.len());
        for name in names {
            assert!(
                name.chars().all(|c| c.is_ascii_uppercase() || c == '-'),
                "{name}"
            );
        }
    }
}
