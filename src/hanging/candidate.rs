//! Every place that a run can reach to hang from.

mod channel;
mod direct;
mod gathering;
mod kept;
mod spot;

pub(super) use gathering::{
    Gathering, STEPS_PER_METRE, StationRange, least_crossing, only_panel_points,
};
pub(super) use kept::kept;
pub(super) use spot::{NANOMETRES, Spot};

use std::sync::Arc;

use super::case::Case;
use crate::geometry::DVec3;

/// How a hanger gets its hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// At a panel point.
    Panel,
    /// Anywhere on a beam or a purlin.
    Line,
    /// On a chord between panel points.
    OffPanel,
    /// From a channel across two neighbouring members.
    Channel,
}

/// The part of a member span that takes a load; loads at one place add up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// Panel point, numbered from 1.
    PanelPoint(usize),
    /// The chord between panel points j and j + 1.
    ChordPanel(usize),
    /// A span as a whole: where a beam or a purlin is hung from, and what all loads on
    /// a joist or truss sum to where it is limited in all.
    Line,
}

impl Place {
    /// The number of the panel point, if it is one.
    #[must_use]
    pub const fn panel_point(self) -> Option<usize> {
        match self {
            Self::PanelPoint(number) => Some(number),
            Self::ChordPanel(_) | Self::Line => None,
        }
    }
}

/// One hold on one member span.
#[derive(Debug, Clone, PartialEq)]
pub struct Hold {
    /// The member's id.
    pub member: Arc<str>,
    /// Which of the case's spans it is.
    pub span: usize,
    /// What takes the load.
    pub place: Place,
    /// Where along the span, m from its start.
    pub position_m: f64,
    /// The part of the hanger's load that comes here: 1, or a channel's share.
    pub share: f64,
}

/// How a channel lies on its two members.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChannelLay {
    /// Distance between its members, m.
    pub span_m: f64,
    /// Distance from the hanger to the first of its holds, m.
    pub to_first_m: f64,
}

/// Why a candidate can't be used, whatever else is chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Refusal {
    /// Nearer to a tube joint than the maker allows.
    OnJoint,
    /// Its suspension would be shorter than the least.
    SuspensionTooShort,
}

impl Refusal {
    /// Its name in reports.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::OnJoint => "tube-joint",
            Self::SuspensionTooShort => "least-suspension",
        }
    }
}

/// One place where a hanger could be.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// Station on the run, m, rounded to [`crate::geometry::tolerance::STATION`].
    pub station_m: f64,
    /// How it gets its hold.
    pub kind: Kind,
    /// Its hold; for a channel the one on the lower row.
    pub first: Hold,
    /// A channel's other hold.
    pub second: Option<Hold>,
    /// A channel's lay.
    pub channel: Option<ChannelLay>,
    /// Where the suspension begins, in space.
    pub attach: DVec3,
    /// Straight from the attach point to the eye, cold, m; of two suspensions the
    /// shorter.
    pub suspension_m: f64,
    /// Lean of the suspension across the run, cold, rad, without sign; of two, that of
    /// the line from the attach point to where a single eye would be.
    pub lean_rad: f64,
    /// How far the attach point is ahead of the eye along the run, cold, m. Zero but
    /// for members that are nearly parallel to the run, and for hangers kept where
    /// they are although their member moved.
    pub ahead_m: f64,
    /// Cost in whole thousandths of a hanger at a panel point.
    pub cost: u32,
    /// Why it can't be used, if so.
    pub refused: Option<Refusal>,
}

impl Candidate {
    /// Its one or two holds.
    pub fn holds(&self) -> impl Iterator<Item = &Hold> {
        std::iter::once(&self.first).chain(&self.second)
    }

    /// The ids of its members, in the order of its holds.
    pub fn members(&self) -> impl Iterator<Item = &str> {
        self.holds().map(|hold| &*hold.member)
    }
}

/// All candidates of a run by station, those that the rule refuses included (joints
/// and least suspension). Beyond the greatest lean, or with steel below the eye,
/// there is no candidate.
#[must_use]
pub fn candidates(case: &Case<'_>) -> Vec<Candidate> {
    let work = Gathering::done(case);
    work.spots.iter().map(|spot| work.candidate(spot)).collect()
}
