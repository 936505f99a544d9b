//! How the leaf of a door moves: what its opening's size alone does not say.

use super::bay::{Combustibility, Opening, OpeningKind};
use crate::units::Length;
use serde::{Deserialize, Serialize};

/// How the leaf of a door moves and what it is made of. A figure that is left out is
/// what is usual for the opening's kind.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Door {
    /// Sectional, dock and high-lift doors: from the head of the opening to the top of
    /// the level part of the track with its hangers.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub track_height: Option<Length>,
    /// Sectional, dock and high-lift doors: radius of the bend of the track, to the
    /// middle of the leaf.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub track_radius: Option<Length>,
    /// Roll-up doors: width and height of the drum with its housing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub drum: Option<Length>,
    /// Swing and sliding doors: which leaves there are.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub leaves: Option<Leaves>,
    /// Swing and sliding doors: on which side of the wall the leaves move.
    #[serde(skip_serializing_if = "DoorSide::is_inside")]
    pub side: DoorSide,
    /// Whether the leaf burns: with a foam core it does.
    #[serde(skip_serializing_if = "is_usual_leaf")]
    pub burns: Combustibility,
}

impl Default for Door {
    /// As usual for the kind, inside, with a foam core.
    fn default() -> Self {
        Self {
            track_height: None,
            track_radius: None,
            drum: None,
            leaves: None,
            side: DoorSide::Inside,
            burns: Combustibility::Combustible,
        }
    }
}

fn is_usual_leaf(burns: &Combustibility) -> bool {
    *burns == Combustibility::Combustible
}

/// Which leaves a swing or sliding door has. The nearer jamb is the one nearer to the
/// first corner of the wall's edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Leaves {
    /// One, hinged at the nearer jamb, or sliding past it.
    Near,
    /// One, hinged at the farther jamb, or sliding past it.
    Far,
    /// Two, each of half the width, one at either jamb.
    Both,
}

/// On which side of its wall a leaf moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum DoorSide {
    /// In the bay.
    #[default]
    Inside,
    /// Before the building.
    Outside,
}

impl DoorSide {
    const fn is_inside(&self) -> bool {
        matches!(self, Self::Inside)
    }
}

/// Which figures of a [`Door`] a kind of opening has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DoorMotion {
    /// Up along a track: upright, round a bend, level.
    Track,
    /// Up onto a drum.
    Drum,
    /// About hinges.
    Hinges,
    /// Along the wall.
    Slide,
}

impl OpeningKind {
    /// How the leaf moves; none where there is no leaf that moves.
    pub const fn motion(self) -> Option<DoorMotion> {
        match self {
            Self::SectionalDoor | Self::HighLiftDoor | Self::DockDoor => Some(DoorMotion::Track),
            Self::RollUpDoor => Some(DoorMotion::Drum),
            Self::SwingDoor => Some(DoorMotion::Hinges),
            Self::SlidingDoor => Some(DoorMotion::Slide),
            Self::Window => None,
        }
    }
}

/// Usual height of a track above the head, standard lift. With the usual radius the
/// bend begins at the head, and the open leaf lies 0.3 to 0.4 m above it.
const TRACK_HEIGHT: Length = Length::metres(0.4);
/// The same on high-lift tracks; the roof may allow less.
const HIGH_LIFT: Length = Length::metres(1.2);
/// Usual radius of a track's bend (14 inches and thereabouts).
const TRACK_RADIUS: Length = Length::metres(0.35);
/// Usual size of a drum with its housing.
const DRUM: Length = Length::metres(0.5);

impl Opening {
    /// The height of the level track above the head, as entered or usual. `room` is what
    /// there is between head and roof: a usual high lift takes no more than that.
    pub fn track_height(&self, room: Length) -> Length {
        self.door.track_height.unwrap_or(match self.kind {
            OpeningKind::HighLiftDoor => HIGH_LIFT.min(room).max(TRACK_HEIGHT),
            _ => TRACK_HEIGHT,
        })
    }

    /// The radius of the track's bend, as entered or usual.
    pub fn track_radius(&self) -> Length {
        self.door.track_radius.unwrap_or(TRACK_RADIUS)
    }

    /// The size of the drum, as entered or usual.
    pub fn drum(&self) -> Length {
        self.door.drum.unwrap_or(DRUM)
    }

    /// The leaves, as entered or usual: gates swing in two, and slide in one.
    pub fn leaves(&self) -> Leaves {
        self.door.leaves.unwrap_or(match self.kind {
            OpeningKind::SlidingDoor => Leaves::Far,
            _ => Leaves::Both,
        })
    }

    /// Whether vehicles can drive through: a door that reaches to the floor, wide and
    /// high enough. A dock door leads to a lorry's bed, not to the floor.
    pub fn takes_vehicles(&self) -> bool {
        /// Narrower than this nothing with four wheels fits through.
        const LEAST_WIDTH: Length = Length::metres(1.8);
        self.kind.motion().is_some()
            && self.kind != OpeningKind::DockDoor
            && self.sill <= Length::metres(0.3)
            && self.width >= LEAST_WIDTH
    }
}
