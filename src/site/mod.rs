//! The document: everything that the user entered, nothing that is computed.
//!
//! Plain data behind `Arc`s: what is pointer-equal has not changed. Every value is
//! checked once, when it enters ([`Site::validate`] for a file, [`edit::Edit::apply`]
//! for a change); after that door the engines need no defensive code.

pub mod as_built;
pub mod bay;
pub mod conditions;
pub mod door;
pub mod edit;
pub mod framing;
pub mod grid;
pub mod history;
pub mod id;
mod normal;
pub mod object;
pub mod obstruction;
pub mod place;
pub mod policy;
mod remove;
mod rename;
pub mod run;
pub mod scheme;
pub mod section;
pub mod validate;

pub use as_built::{HeightAt, MeasuredAt, MeasuredHeight, MemberAdjustment};
pub use bay::{Bay, BayUse, Combustibility, Construction, Opening, OpeningKind, Roof};
pub use conditions::{Conditions, Gas, SeismicCategory, WindExposure};
pub use door::{Door, DoorMotion, DoorSide, Leaves};
pub use edit::Edit;
pub use framing::{Allowance, BottomChord, Framing, HangFrom, MemberKind, Panels};
pub use grid::GridLine;
pub use history::Document;
pub use id::{
    BayId, FramingId, GridId, MemberId, ObstructionId, OpeningId, RunId, SchemeId, SectionId,
    WorkSpotId,
};
pub use object::{Object, ObjectId};
pub use obstruction::{
    Footprint, Hazard, Obstruction, ObstructionKind, Particulars, SprinklerRating, TopSlope,
};
pub use policy::{Policy, PolicyItem};
pub use run::{Exhaust, Hanging, LockedAt, LockedHanger, Run, RunShape, Shields, Side};
pub use scheme::{Acceptance, Paper, Scheme, SheetSettings, WorkSpot};
pub use section::SectionLine;
pub use validate::validate_against;

use crate::units::UnitSystem;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// A site: one building, its surroundings, and one or more schemes of heating it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Site {
    /// What people call it.
    pub name: String,
    /// Where it is.
    #[serde(default)]
    pub place: String,
    /// Units shown. Values are SI whatever is shown.
    pub units: UnitSystem,
    /// Design conditions.
    pub conditions: Conditions,
    /// Column lines.
    #[serde(default)]
    pub grid: Vec<Arc<GridLine>>,
    /// Heated spaces.
    #[serde(default)]
    pub bays: Vec<Arc<Bay>>,
    /// Openings in the bays' walls.
    #[serde(default)]
    pub openings: Vec<Arc<Opening>>,
    /// Roof members.
    #[serde(default)]
    pub framings: Vec<Arc<Framing>>,
    /// What is in the way.
    #[serde(default)]
    pub obstructions: Vec<Arc<Obstruction>>,
    /// Where people work.
    #[serde(default)]
    pub work_spots: Vec<Arc<WorkSpot>>,
    /// Where the site is cut for sections.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub sections: Vec<Arc<SectionLine>>,
    /// Alternative layouts, at least one.
    pub schemes: Vec<Arc<Scheme>>,
    /// The scheme that is shown and studied.
    pub shown_scheme: SchemeId,
    /// Findings that somebody accepted.
    #[serde(default)]
    pub acceptances: Vec<Acceptance>,
    /// Numbers that differ from the program's defaults.
    #[serde(default)]
    pub policy: Policy,
    /// What the sheets say.
    #[serde(default)]
    pub sheets: SheetSettings,
    /// What the user noted.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

impl Default for Site {
    /// An empty site with one empty scheme.
    fn default() -> Self {
        let scheme = Scheme {
            id: "A".into(),
            name: String::new(),
            runs: Vec::new(),
            notes: String::new(),
        };
        Self {
            name: String::new(),
            place: String::new(),
            units: UnitSystem::Metric,
            conditions: Conditions::default(),
            grid: Vec::new(),
            bays: Vec::new(),
            openings: Vec::new(),
            framings: Vec::new(),
            obstructions: Vec::new(),
            work_spots: Vec::new(),
            sections: Vec::new(),
            shown_scheme: scheme.id.clone(),
            schemes: vec![Arc::new(scheme)],
            acceptances: Vec::new(),
            policy: Policy::default(),
            sheets: SheetSettings::default(),
            notes: String::new(),
        }
    }
}

impl Site {
    /// The scheme that is shown and studied. A checked site has it; a site that has
    /// no such scheme shows its first, and one without schemes an empty one.
    pub fn scheme(&self) -> Arc<Scheme> {
        self.schemes
            .iter()
            .find(|scheme| scheme.id == self.shown_scheme)
            .or_else(|| self.schemes.first())
            .cloned()
            .unwrap_or_else(|| {
                Arc::new(Scheme {
                    id: self.shown_scheme.clone(),
                    name: String::new(),
                    runs: Vec::new(),
                    notes: String::new(),
                })
            })
    }
}
