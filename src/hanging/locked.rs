//! Hangers that stay where they were put.

use std::sync::Arc;

use super::candidate::{Candidate, Gathering, kept};
use super::case::Case;
use super::outcome::{Hanging, Status, finish};

/// A hanger as the document keeps it.
#[derive(Debug, Clone, PartialEq)]
pub struct LockedHanger {
    /// Its station on the run, m.
    pub station_m: f64,
    /// The member that it hangs from; two for a cross channel.
    pub members: Vec<Arc<str>>,
    /// What of its one member it hangs from; where that isn't said, the cheapest hang
    /// point at its station, or else the nearest.
    pub at: Option<LockedAt>,
}

/// What of a member a kept hanger hangs from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LockedAt {
    /// A panel point, by its number from 1.
    PanelPoint(usize),
    /// A chord, between panel points.
    OffPanel,
}

/// Why a kept hanger holds nothing any more.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Loss {
    /// Its station is not on the tube.
    OffTube,
    /// A member that it names isn't there.
    NoSuchMember,
    /// Its members offer no place for it: no such panel point, beyond their usable
    /// range, or no channel fits between them.
    NoHold,
    /// The attach point is not above the hanger's eye.
    NotAbove,
}

/// A kept hanger that holds nothing any more.
#[derive(Debug, Clone, PartialEq)]
pub struct LostHanger {
    /// As it was kept.
    pub hanger: LockedHanger,
    /// Why.
    pub why: Loss,
}

/// Checks hangers that stay where they are. Those that lost their hold carry nothing;
/// the others share the run.
#[must_use]
pub fn check_locked(case: &Case<'_>, locked: &[LockedHanger]) -> Hanging {
    let all = Gathering::done(case);
    let mut lost = Vec::new();
    let mut chosen: Vec<Candidate> = Vec::new();
    for hanger in locked {
        match kept(&all, hanger) {
            Ok(candidate) => chosen.push(candidate),
            Err(why) => lost.push(LostHanger {
                hanger: hanger.clone(),
                why,
            }),
        }
    }
    chosen.sort_by(|a, b| a.station_m.total_cmp(&b.station_m));
    let mut hanging = finish(case, Status::Locked, chosen, 0, None);
    hanging.lost = lost;
    hanging
}
