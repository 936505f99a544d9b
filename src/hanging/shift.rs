//! Where a run could be moved a little so that it can be hung, or hung for less.
//!
//! Places are whole steps of a centimetre along and across the run as it is, perhaps
//! turned about the middle of the run. Each is judged by the exact choice of hangers; a
//! search that leaves out whole areas which can't hold what is sought ([`Seek`]) finds
//! what looking at every single place would find.

mod places;
mod relaxed;
mod seek;

pub use places::{Area, STEP_M, Shift, Turn};
pub use seek::{Aim, Order, Place as FoundPlace, Seek};

use super::candidate::{Candidate, Kind};
use super::case::Case;
use super::outcome::{Hanging, Status};
use super::search::best;

/// The sets whose loads are tried at one place: where the proof takes more, the search
/// passes over the place, and says that it hasn't looked everywhere.
pub const SETS_PER_PLACE: usize = 100;

/// What hanging a run somewhere comes to, in few figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Outcome {
    /// What is known about it.
    pub status: Status,
    /// Sum of the hangers' costs, thousandths; none without hangers.
    pub cost: Option<u64>,
    /// Its hangers.
    pub n_hangers: usize,
    /// Those on cross channels.
    pub n_channels: usize,
    /// Those off panel points.
    pub n_off_panel: usize,
    /// Greatest distance between two hangers that follow each other, nm.
    pub greatest_gap_nm: i64,
}

impl Outcome {
    /// What [`super::hang`] comes to, without working out what the hangers carry, if that
    /// is proven by [`SETS_PER_PLACE`]; else unproven, without hangers.
    #[must_use]
    pub fn of_case(case: &Case<'_>) -> Self {
        Self::below(case, u64::MAX).0
    }

    /// The same among sets that cost less than `below`, and how many sets were looked at
    /// for it.
    fn below(case: &Case<'_>, below: u64) -> (Self, usize) {
        let (_, found) = best(case, SETS_PER_PLACE, below);
        let chosen = found.chosen.as_deref().unwrap_or_default();
        (Self::of(Status::of(&found), chosen.iter()), found.work)
    }

    /// What an answer comes to.
    #[must_use]
    pub fn of_hanging(hanging: &Hanging) -> Self {
        let hangers = hanging.hangers.iter().map(|hanger| &hanger.at);
        Self::of(hanging.status, hangers)
    }

    fn of<'a>(status: Status, hangers: impl Iterator<Item = &'a Candidate>) -> Self {
        let mut outcome = Self {
            status,
            cost: None,
            n_hangers: 0,
            n_channels: 0,
            n_off_panel: 0,
            greatest_gap_nm: 0,
        };
        let mut before_nm = None;
        for hanger in hangers {
            let station_nm = super::Rung::new(hanger.station_m, 0).station_nm;
            let gap_nm = before_nm.map_or(0, |before_nm| station_nm - before_nm);
            before_nm = Some(station_nm);
            outcome.greatest_gap_nm = outcome.greatest_gap_nm.max(gap_nm);
            outcome.cost = Some(outcome.cost.unwrap_or(0) + u64::from(hanger.cost));
            outcome.n_hangers += 1;
            outcome.n_channels += usize::from(hanger.kind == Kind::Channel);
            outcome.n_off_panel += usize::from(hanger.kind == Kind::OffPanel);
        }
        outcome
    }
}
