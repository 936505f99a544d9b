//! Ways out of a geometric breach: the least change of a run that cures it.
//!
//! Ways are looked for in the order of what a change costs on site: raise or lower, move
//! across, move along, tilt, shield, turn end for end, a smaller size. Of each way the
//! least is found that cures the breach, makes no new one anywhere, and leaves the run
//! hung; a full study of the edited site proves it.

mod changed;
mod inside;
mod offer;
mod straight;
mod way;

pub use offer::{Change, Measure, Offer};
pub use way::{Move, Way};

use super::verdict::{Base, Tried};
use crate::catalogue::{Family, HeaterSize};
use crate::findings::{Finding, Severity, Subject};
use crate::site::edit::{Edit, Object};
use crate::site::{Run, RunId};
use crate::study::{RunStudy, Study};
use std::sync::Arc;

/// The rules whose breaches a run's own change may cure, and what a straight move must
/// overcome.
const CURED: [(&str, Missing); 16] = [
    ("combustible-inside-keep-clear", Missing::Place),
    ("crane-inside-lawful-distance", Missing::CraneDistance),
    ("garage-heater-too-low", Missing::HeightInBay),
    ("hangar-heater-too-low", Missing::HeightInBay),
    ("hangar-shop-heater-too-low", Missing::HeightInBay),
    ("heater-in-hazard-zone", Missing::Place),
    ("heater-over-gas-vehicles", Missing::AnotherBay),
    ("mezzanine-below-low-heater", Missing::HeightInBay),
    ("mounting-height-outside-range", Missing::Height),
    ("paint-sprayed-near-heater", Missing::SprayDistance),
    ("run-outside-bay", Missing::Building),
    ("runs-crossing", Missing::Place),
    ("solid-meets-heater", Missing::Place),
    ("sprinkler-rating-too-low", Missing::HeadZone),
    ("tilt-outside-bands", Missing::Tilt),
    ("vehicle-door-head-above-heater", Missing::HeightInBay),
];

/// What a straight move of a run must overcome to cure a breach.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Missing {
    /// Room: what is in the way has a depth.
    Place,
    /// Height of the lowest part, wherever the run hangs: measured and required are both
    /// heights.
    Height,
    /// The same over one bay or mezzanine only: elsewhere nothing asks for it.
    HeightInBay,
    /// It must not hang over that bay at any height.
    AnotherBay,
    /// Distance from a crane's way.
    CraneDistance,
    /// Distance from where paint is sprayed.
    SprayDistance,
    /// Distance from sprinkler heads, in steps of their zones.
    HeadZone,
    /// The building: all of it must be inside.
    Building,
    /// Another tilt, or other shields: no move of the run helps.
    Tilt,
}

impl Missing {
    fn of(rule: &str) -> Option<Self> {
        let known = CURED.iter().find(|(name, _)| *name == rule)?;
        Some(known.1)
    }
}

/// What helps against one breach of one run.
#[derive(Debug, Clone, PartialEq)]
pub struct WaysOut {
    /// The run that changes.
    pub run: RunId,
    /// What cures the breach, in the order of the ways.
    pub offers: Vec<Offer>,
    /// The ways that cure nothing within their limits, each with what stands in the way
    /// where the breach itself would be cured; none where no place or change cures it.
    pub closed: Vec<(Way, Option<Blocking>)>,
}

/// What would have to give for a way to be open.
#[derive(Debug, Clone, PartialEq)]
pub struct Blocking {
    /// The rule that would be broken.
    pub rule: &'static str,
    /// By what, the changed run left out.
    pub subjects: Vec<Subject>,
}

impl Blocking {
    /// What stands in the way, as a reader of the window is told: `N1 roof (roof too near)`.
    #[must_use]
    pub fn in_the_way(&self) -> String {
        let title = crate::findings::rule(self.rule).map_or(self.rule, |rule| rule.title);
        let subjects: Vec<String> = self.subjects.iter().map(ToString::to_string).collect();
        if subjects.is_empty() {
            title.to_owned()
        } else {
            format!("{} ({title})", subjects.join(", "))
        }
    }

    /// What stands in the way, as a reader is told: `N1 roof (combustible-inside-keep-clear)`.
    #[must_use]
    pub fn words(&self) -> String {
        let subjects: Vec<String> = self.subjects.iter().map(ToString::to_string).collect();
        if subjects.is_empty() {
            self.rule.to_owned()
        } else {
            format!("{} ({})", subjects.join(", "), self.rule)
        }
    }
}

/// Whether a finding is a geometric breach, for which ways out are looked for.
#[must_use]
pub fn is_geometric_breach(finding: &Finding) -> bool {
    finding.severity == Severity::Breach && Missing::of(finding.rule).is_some()
}

/// Looks for the ways out of a breach, for each run that it names. Nothing is looked for
/// where the finding is no geometric breach.
#[must_use]
pub fn ways_out(base: &Base<'_>, fault: &Finding) -> Vec<WaysOut> {
    if !is_geometric_breach(fault) {
        return Vec::new();
    }
    fault
        .subjects
        .iter()
        .filter_map(|subject| match subject {
            Subject::Run(id) => base.study.run(id),
            _ => None,
        })
        .map(|run| Case { base, fault, run }.ways_out())
        .collect()
}

/// Looks for the ways out of a breach by changing one run, which it may or may not name;
/// none where the finding is no geometric breach or there is no such run.
#[must_use]
pub fn ways_out_of(base: &Base<'_>, fault: &Finding, run: &RunId) -> Option<WaysOut> {
    let run = base.study.run(run).filter(|_| is_geometric_breach(fault))?;
    Some(Case { base, fault, run }.ways_out())
}

/// One breach and the run that is to change.
#[derive(Clone, Copy)]
struct Case<'a> {
    base: &'a Base<'a>,
    fault: &'a Finding,
    run: &'a RunStudy,
}

/// A changed run that cures the breach, proven.
struct Cure {
    run: Run,
    /// How much is changed: m, or degrees; 0 where the change has no measure.
    least: f64,
    tried: Tried,
}

impl Case<'_> {
    fn ways_out(&self) -> WaysOut {
        let mut found = WaysOut {
            run: self.run.run.id.clone(),
            offers: Vec::new(),
            closed: Vec::new(),
        };
        for way in Way::ALL {
            let mut blocking = None;
            let cure = match way {
                Way::Height | Way::Across | Way::Along => self.least_move(way, &mut blocking),
                Way::Tilt | Way::Shield | Way::EndForEnd | Way::SmallerSize => {
                    self.least_change(way, &mut blocking)
                }
            };
            match cure {
                Some(offer) => found.offers.push(offer),
                None => found.closed.push((way, blocking)),
            }
        }
        found
    }

    fn family(&self) -> &Family {
        &self.run.family
    }

    fn size(&self) -> &HeaterSize {
        &self.run.size
    }

    /// The study with the run changed; none where the change is refused at the door.
    fn studied(&self, run: &Run) -> Option<Study> {
        self.base.studied(&edit(run))
    }

    /// Whether a change cures the breach, breaks nothing anew and leaves the run hung.
    /// Notes the first rule that stands in the way of a place that cures the breach.
    fn proven(&self, study: Study, blocking: &mut Option<Blocking>) -> Option<Tried> {
        let tried = Tried::judged(study);
        if !tried.is_cured(self.fault) {
            return None;
        }
        let new = self.base.new_breaches(&tried).next();
        if let Some(new) = new {
            blocking.get_or_insert_with(|| Blocking {
                rule: new.rule,
                subjects: new
                    .subjects
                    .iter()
                    .filter(|subject| **subject != Subject::Run(self.run.run.id.clone()))
                    .cloned()
                    .collect(),
            });
            return None;
        }
        Some(tried)
    }
}

fn edit(run: &Run) -> Edit {
    Edit::Put(Object::Run(Arc::new(run.clone())))
}
