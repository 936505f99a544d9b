//! What the survey changes: the study of the building as built beside that of the
//! building as drawn.
//!
//! Pure: both studies are of the same site and catalogue, one without any adjustment of
//! members. What differs is told member by member and hanger by hanger.

mod hangers;
mod members;

pub use hangers::{HangerDifference, HungPlace, LostHold, RunDifference};
pub use members::{MemberDifference, MemberState, Unmeasured, unmeasured};

use super::{Study, restudy};
use crate::site::{Framing, Site};
use std::sync::Arc;

/// Places and lengths that differ by less than this are the same, m: a tape is read,
/// and a chain cut, to the millimetre.
pub const SAME_LENGTH_M: f64 = 0.0005;

/// A load that changes by less than this part of it is told as the same: an hour's dust
/// changes it more than an engineer would look at.
pub const SAME_LOAD: f64 = 0.02;

/// What is different because members are not where they were drawn.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Survey {
    /// The members of which the site says anything, in the order of framings and numbers.
    pub members: Vec<MemberDifference>,
    /// The runs that hang differently, in the order of the scheme.
    pub runs: Vec<RunDifference>,
}

impl Survey {
    /// How many hangers have moved, come or gone.
    #[must_use]
    pub fn n_moved(&self) -> usize {
        self.hangers().filter(|it| it.is_moved()).count()
    }

    /// How many hangers that stayed need another suspension.
    #[must_use]
    pub fn n_recut(&self) -> usize {
        self.hangers()
            .filter(|it| it.suspension_change_m().is_some())
            .count()
    }

    /// The differences of all runs, one after the other.
    pub fn hangers(&self) -> impl Iterator<Item = &HangerDifference> {
        self.runs.iter().flat_map(|run| &run.hangers)
    }
}

/// Whether the site says of any member that it is not as drawn.
#[must_use]
pub fn is_surveyed(site: &Site) -> bool {
    site.framings.iter().any(|it| !it.as_built.is_empty())
}

/// The site as drawn: the same without any adjustment. Framings that have none stay
/// pointer-equal.
#[must_use]
pub fn as_drawn(site: &Site) -> Site {
    let mut drawn = site.clone();
    for framing in &mut drawn.framings {
        if !framing.as_built.is_empty() {
            *framing = Arc::new(Framing {
                as_built: Vec::new(),
                ..framing.as_ref().clone()
            });
        }
    }
    drawn
}

/// The study of the site as drawn. `before` is an earlier one of the kind: where the
/// drawing is still the same, little is computed again.
#[must_use]
pub fn study_as_drawn(built: &Study, before: Option<&Study>) -> Study {
    let mut site = as_drawn(&built.site);
    let known = before.map_or(&[][..], |study| &study.site.framings);
    for framing in &mut site.framings {
        if let Some(same) = known.iter().find(|known| *known == framing) {
            *framing = Arc::clone(same);
        }
    }
    restudy(before.unwrap_or(built), &Arc::new(site), &built.catalogue)
}

/// What is different in a study as built from the study as drawn.
#[must_use]
pub fn survey_differences(drawn: &Study, built: &Study) -> Survey {
    Survey {
        members: members::differences(drawn, built),
        runs: hangers::differences(drawn, built),
    }
}
