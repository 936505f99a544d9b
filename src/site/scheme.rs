//! Schemes, work spots, acceptances and what the sheets say.

use super::id::{RunId, SchemeId, WorkSpotId};
use super::run::Run;
use crate::geometry::DVec2;
use crate::units::Length;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// A named alternative layout: same building, other runs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Scheme {
    /// Its id.
    pub id: SchemeId,
    /// What people call it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Its heaters.
    #[serde(default)]
    pub runs: Vec<Arc<Run>>,
    /// What the user noted.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

impl Scheme {
    /// The run with an id.
    pub fn run(&self, id: &RunId) -> Option<&Arc<Run>> {
        self.runs.iter().find(|run| run.id == *id)
    }
}

/// A place where somebody works.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WorkSpot {
    /// Its id.
    pub id: WorkSpotId,
    /// What people call it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Where, m.
    pub at: DVec2,
    /// Height of the body's middle: 1.1 m standing, 0.6 m seated.
    pub height: Length,
    /// Metabolic rate, met (1 met = 58.15 W/m2); 0.8 to 4.
    pub activity_met: f64,
    /// Clothing, clo (1 clo = 0.155 m2 K/W); 0 to 2.
    pub clothing_clo: f64,
    /// What the user noted.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// A finding that somebody accepted, with the reason that is printed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Acceptance {
    /// The rule's name.
    pub rule: String,
    /// The ids of the objects that the finding is about.
    pub subjects: Vec<String>,
    /// Why it is accepted.
    pub reason: String,
    /// The day it was accepted, as the user wrote it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub date: String,
}

/// Paper for the sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Paper {
    /// ISO A4.
    A4,
    /// ISO A3.
    A3,
    /// ISO A2.
    A2,
    /// ISO A1.
    A1,
    /// ISO A0.
    A0,
    /// ANSI B, 11 x 17 in.
    AnsiB,
    /// ANSI C, 17 x 22 in.
    AnsiC,
    /// ANSI D, 22 x 34 in.
    AnsiD,
    /// ANSI E, 34 x 44 in.
    AnsiE,
}

impl Paper {
    /// All sizes, as offered.
    pub const ALL: [Self; 9] = [
        Self::A4,
        Self::A3,
        Self::A2,
        Self::A1,
        Self::A0,
        Self::AnsiB,
        Self::AnsiC,
        Self::AnsiD,
        Self::AnsiE,
    ];

    /// The standard's name.
    pub const fn label(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::A3 => "A3",
            Self::A2 => "A2",
            Self::A1 => "A1",
            Self::A0 => "A0",
            Self::AnsiB => "ANSI B",
            Self::AnsiC => "ANSI C",
            Self::AnsiD => "ANSI D",
            Self::AnsiE => "ANSI E",
        }
    }
}

/// What the sheets say and how large they are. Fields of the title block after ISO 7200.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SheetSettings {
    /// Paper of the plan.
    pub paper: Paper,
    /// Scale 1:n of the plan; chosen to fit where there is none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub scale: Option<u32>,
    /// Legal owner of the document.
    #[serde(default)]
    pub owner: String,
    /// Document number.
    #[serde(default)]
    pub document_number: String,
    /// Revision letter.
    #[serde(default)]
    pub revision: String,
    /// Who made it.
    #[serde(default)]
    pub made_by: String,
    /// Who approved it.
    #[serde(default)]
    pub approved_by: String,
    /// Draft, for comment, for construction.
    #[serde(default)]
    pub status: String,
}

impl Default for SheetSettings {
    fn default() -> Self {
        Self {
            paper: Paper::A3,
            scale: None,
            owner: String::new(),
            document_number: String::new(),
            revision: String::new(),
            made_by: String::new(),
            approved_by: String::new(),
            status: "draft".to_owned(),
        }
    }
}
