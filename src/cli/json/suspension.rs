//! What `check --json` says of suspensions: lengths, pulls, load cases, hardware, and
//! what to buy.

use crate::hanging::{Hanger, LoadCases, NoMakeUp, WorstCase};
use crate::study::{Assumption, CutList, HangerHardware, LegHardware, Part};
use serde::Serialize;

/// What a hanger carries where the run isn't level.
#[derive(Debug, Serialize)]
pub(super) struct CasesReport {
    level_n: f64,
    level_error_n: f64,
    /// The hanger that is low; null where the level case is worst.
    level_error_by: Option<String>,
    neighbour_slack_n: f64,
    /// The hanger that is slack; null where the level case is worst.
    neighbour_slack_by: Option<String>,
    tips_without: bool,
}

/// The least suspension of a hanger.
#[derive(Debug, Serialize)]
pub(super) struct LeastReport {
    required_m: f64,
    governed_by: &'static str,
}

/// One suspension.
#[derive(Debug, Serialize)]
pub(super) struct SuspensionReport {
    eye_m: [f64; 3],
    length_m: f64,
    pull_n: f64,
    greatest_pull_n: f64,
    lean_deg: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    hardware: Option<LegReport>,
}

#[derive(Debug, Serialize)]
struct LegReport {
    kind: &'static str,
    size: Option<String>,
    allowed_n: Option<f64>,
    used: Option<f64>,
    cut_m: Option<f64>,
    links: Option<u32>,
    adjuster: Option<String>,
    adjuster_set_m: Option<f64>,
    range_m: Option<[f64; 2]>,
    /// Why it can't be made up: too-short, too-long, between-links.
    fault: Option<&'static str>,
}

/// A clamp or bracket.
#[derive(Debug, Serialize)]
pub(super) struct ClampReport {
    name: String,
    allowed_n: f64,
    used: f64,
}

/// What to buy.
#[derive(Debug, Serialize)]
pub(super) struct BuyReport {
    stock: Vec<StockReport>,
    parts: Vec<PartReport>,
    /// What was assumed somewhere: verify on site.
    verify: Vec<&'static str>,
}

#[derive(Debug, Serialize)]
struct StockReport {
    kind: &'static str,
    size: String,
    pieces: usize,
    cut_m: f64,
}

#[derive(Debug, Serialize)]
struct PartReport {
    name: String,
    count: usize,
}

impl CasesReport {
    pub(super) fn new(run: &str, cases: &LoadCases) -> Self {
        let by = |case: WorstCase| case.by.map(|which| format!("{run}.{}", which + 1));
        Self {
            level_n: cases.level_n,
            level_error_n: cases.level_error.load_n,
            level_error_by: by(cases.level_error),
            neighbour_slack_n: cases.neighbour_slack.load_n,
            neighbour_slack_by: by(cases.neighbour_slack),
            tips_without: cases.tips_without,
        }
    }
}

impl LeastReport {
    pub(super) fn new(hanger: &Hanger) -> Self {
        let least = &hanger.least_suspension;
        Self {
            required_m: least.required_m(),
            governed_by: if least.growth_governs() {
                "growth"
            } else {
                "rule"
            },
        }
    }
}

/// The suspensions of a hanger with what they are made of, if that is known.
pub(super) fn suspensions(
    hanger: &Hanger,
    hardware: Option<&HangerHardware>,
) -> Vec<SuspensionReport> {
    let all = hanger.suspensions.iter().enumerate();
    all.map(|(which, suspension)| SuspensionReport {
        eye_m: suspension.eye.to_array(),
        length_m: suspension.length_m,
        pull_n: suspension.pull_n,
        greatest_pull_n: hanger.greatest_pull_n(suspension),
        lean_deg: suspension.lean_rad.to_degrees(),
        hardware: hardware
            .and_then(|hardware| hardware.legs.get(which))
            .map(leg),
    })
    .collect()
}

fn leg(leg: &LegHardware) -> LegReport {
    let made = leg.made.as_ref().and_then(|made| made.as_ref().ok());
    let fault = leg.made.as_ref().and_then(|made| made.as_ref().err());
    let adjuster = made.and_then(|made| made.adjuster.as_ref());
    LegReport {
        kind: leg.kind.label(),
        size: leg.size.as_ref().map(|size| size.part.name.clone()),
        allowed_n: leg.size.as_ref().map(|size| size.allowed_n),
        used: leg.size.as_ref().map(Part::used),
        cut_m: made.map(|made| made.make_up.cut_m),
        links: made.and_then(|made| made.make_up.links),
        adjuster: adjuster.map(|it| it.part.name.clone()),
        adjuster_set_m: adjuster.and(made).map(|made| made.make_up.adjuster_set_m),
        range_m: made.map(|made| made.make_up.range_m.into()),
        fault: fault.map(|fault| match fault {
            NoMakeUp::TooShort(_) => "too-short",
            NoMakeUp::TooLong(_) => "too-long",
            NoMakeUp::Between(_) => "between-links",
        }),
    }
}

/// The clamp or bracket of a hanger.
pub(super) fn clamp(hardware: Option<&HangerHardware>) -> Option<ClampReport> {
    let clamp = hardware?.attachment.as_ref()?;
    Some(ClampReport {
        name: clamp.part.name.clone(),
        allowed_n: clamp.allowed_n,
        used: clamp.used(),
    })
}

impl BuyReport {
    pub(super) fn new(list: &CutList) -> Self {
        let mut verify: Vec<Assumption> = list
            .pieces
            .iter()
            .flat_map(|piece| piece.verify.iter().copied())
            .collect();
        verify.sort_unstable();
        verify.dedup();
        Self {
            stock: list
                .stock
                .iter()
                .map(|total| StockReport {
                    kind: total.kind.label(),
                    size: total.size.clone(),
                    pieces: total.n_pieces,
                    cut_m: total.cut_m,
                })
                .collect(),
            parts: list
                .parts
                .iter()
                .map(|total| PartReport {
                    name: total.name.clone(),
                    count: total.count,
                })
                .collect(),
            verify: verify.into_iter().map(Assumption::label).collect(),
        }
    }
}
