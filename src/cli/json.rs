//! The shape of `check --json`: versioned, SI units, documented in the README.

mod clearance;
mod suspension;

use super::shifts::ShiftsReport;
use super::survey_report::SurveyJson;
use super::ways_out::WaysOutReport;
use crate::findings::{Bound, Finding};
use crate::geometry::DVec3;
use crate::hanging::{Candidate, Capacity, Hanger, HangingRule, Kind, Place, Status, Window};
use crate::remedies::clearance::WaysOut;
use crate::remedies::hanging::Suggestions;
use crate::site::RunId;
use crate::study::{HangerHardware, RunGroup, RunStudy, Study, cut_list};
use crate::units::UnitSystem;
use clearance::{ClearanceReport, RoomReport};
use serde::Serialize;
use suspension::{BuyReport, CasesReport, ClampReport, LeastReport, SuspensionReport};

/// Version of the shape: a reader that knows it may rely on every field named here, and
/// passes over others. Fields are added within a version, never taken away or changed.
pub const VERSION: u32 = 1;

/// Everything that `check --json` says.
#[derive(Debug, Serialize)]
pub struct Report {
    format: &'static str,
    version: u32,
    units: &'static str,
    cautions: &'static [&'static str],
    site: String,
    scheme: String,
    runs: Vec<RunReport>,
    groups: Vec<GroupReport>,
    findings: Vec<FindingReport>,
    /// Numbers that the site sets otherwise than the program.
    policy: Vec<PolicyReport>,
    work_spots: Vec<WorkSpotReport>,
    totals: TotalsReport,
    to_buy: BuyReport,
    /// What members not being where they are drawn changes; left out where all are.
    #[serde(skip_serializing_if = "Option::is_none")]
    survey: Option<SurveyJson>,
}

#[derive(Debug, Serialize)]
struct RunReport {
    id: String,
    family: String,
    size: String,
    input_net_w: f64,
    lowest_part_m: f64,
    stacking_height_m: f64,
    stacking_exact_m: f64,
    hanging: HangingReport,
    hangers: Vec<HangerReport>,
    #[serde(skip_serializing_if = "Option::is_none")]
    clearances: Option<Vec<ClearanceReport>>,
    /// With `--full`: the least room in each direction, however much it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    rooms: Option<Vec<RoomReport>>,
}

/// Runs whose hangers had to be chosen together.
#[derive(Debug, Serialize)]
struct GroupReport {
    runs: Vec<String>,
    left_out: Vec<String>,
    kept: Vec<String>,
    contested: Vec<PlaceReport>,
    cost: f64,
    least_cost: f64,
    proven: bool,
    sets_tried: usize,
}

#[derive(Debug, Serialize)]
struct PlaceReport {
    member: String,
    /// Number of the panel point; null for a chord panel or a whole member.
    panel_point: Option<usize>,
    /// Number of the panel point before the chord panel; null for others.
    chord_panel: Option<usize>,
}

#[derive(Debug, Serialize)]
struct HangingReport {
    status: &'static str,
    cost: Option<f64>,
    least_cost: Option<f64>,
    greatest_gap_m: Option<f64>,
    weight_n: f64,
    growth_m: f64,
    fixed_station_m: f64,
    fixed_pull_n: f64,
    sets_tried: usize,
    blocked_by: Vec<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    limits: Option<LimitsReport>,
    #[serde(skip_serializing_if = "Option::is_none")]
    candidates: Option<Vec<CandidateReport>>,
}

#[derive(Debug, Serialize)]
struct HangerReport {
    id: String,
    station_m: f64,
    point_m: [f64; 3],
    kind: &'static str,
    members: Vec<String>,
    /// Panel point numbers, one a member; null where the hold is on none.
    panel_points: Vec<Option<usize>>,
    suspension_m: f64,
    load_n: f64,
    allowed_n: Option<f64>,
    shares: Vec<ShareReport>,
    slack: bool,
    lean_deg: f64,
    movement_m: f64,
    swing_deg: f64,
    side_pull_n: f64,
    least_suspension: LeastReport,
    cases: CasesReport,
    suspensions: Vec<SuspensionReport>,
    clamp: Option<ClampReport>,
}

#[derive(Debug, Serialize)]
struct ShareReport {
    member: String,
    position_m: f64,
    load_n: f64,
    sum_n: f64,
    allowed_n: Option<f64>,
}

#[derive(Debug, Serialize)]
struct CandidateReport {
    station_m: f64,
    kind: &'static str,
    members: Vec<String>,
    cost: f64,
    lean_deg: f64,
    suspension_m: f64,
    point_m: [f64; 3],
    #[serde(skip_serializing_if = "Option::is_none")]
    refused: Option<&'static str>,
}

#[derive(Debug, Serialize)]
struct LimitsReport {
    first_m: [f64; 2],
    second_after_first_m: [f64; 2],
    spacing_m: [f64; 2],
    greatest_overhang_m: f64,
    joints_m: Vec<f64>,
    joint_keep_off_m: f64,
    least_suspension_m: f64,
    greatest_lean_deg: f64,
    greatest_swing_deg: f64,
    tube_length_m: f64,
    slope: f64,
    eye_rise_m: f64,
}

#[derive(Debug, Serialize)]
pub(super) struct FindingReport {
    rule: &'static str,
    severity: &'static str,
    subjects: Vec<String>,
    at_m: Option<[f64; 3]>,
    measured: Option<f64>,
    required: Option<f64>,
    bound: &'static str,
    unit: &'static str,
    source: String,
    text: String,
    accepted: Option<String>,
    /// With `--remedies`: what cures a geometric breach.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    remedies: Vec<WaysOutReport>,
    /// With `--remedies` or `--full`: what shift would let the run hang, or hang for less.
    #[serde(skip_serializing_if = "Option::is_none")]
    shifts: Option<ShiftsReport>,
}

/// One number that the site sets otherwise, with its reason.
#[derive(Debug, Serialize)]
struct PolicyReport {
    name: &'static str,
    label: &'static str,
    value: f64,
    default: f64,
    unit: &'static str,
    reason: String,
}

#[derive(Debug, Serialize)]
struct WorkSpotReport {
    id: String,
    name: String,
    at_m: [f64; 3],
}

#[derive(Debug, Serialize)]
struct TotalsReport {
    runs: usize,
    runs_hung: usize,
    input_net_w: f64,
    tube_m: f64,
    hangers: usize,
    hangers_panel: usize,
    hangers_line: usize,
    hangers_off_panel: usize,
    cross_channels: usize,
    channel_m: f64,
    suspension_m: f64,
    mass_kg: f64,
    open_breaches: usize,
}

/// How much a report says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Detail {
    /// The answer.
    Answer,
    /// Also all that was considered, so that anybody can check the answer.
    Full,
}

impl Report {
    /// Adds what cures each finding, in the order of the findings.
    pub(super) fn add_remedies(&mut self, found: &[Vec<WaysOut>]) {
        for (finding, ways) in self.findings.iter_mut().zip(found) {
            finding.remedies = ways.iter().map(WaysOutReport::new).collect();
        }
    }

    /// Adds what the survey changes.
    pub(super) fn add_survey(&mut self, study: &Study, findings: &[Finding], detail: Detail) {
        self.survey = SurveyJson::new(study, findings, detail);
    }

    /// Adds what shift would help, in the order of the findings.
    pub(super) fn add_shifts(&mut self, found: &[Option<Suggestions>]) {
        for (finding, found) in self.findings.iter_mut().zip(found) {
            finding.shifts = found.as_ref().map(ShiftsReport::new);
        }
    }

    /// What there is to say of a study.
    #[must_use]
    pub fn new(study: &Study, findings: &[Finding], detail: Detail) -> Self {
        let totals = &study.totals;
        Self {
            format: "rafterglow-check",
            version: VERSION,
            units: "SI: m, N, W, kg, degrees",
            cautions: crate::findings::CAUTIONS,
            site: study.site.name.clone(),
            scheme: study.site.scheme().id.to_string(),
            runs: study
                .runs
                .iter()
                .map(|run| run_report(study, run, detail))
                .collect(),
            groups: study
                .groups
                .iter()
                .map(|group| group_report(group))
                .collect(),
            findings: findings.iter().map(finding_report).collect(),
            policy: study
                .site
                .policy
                .overrides()
                .map(|(item, given)| PolicyReport {
                    name: item.facts().name,
                    label: item.facts().label,
                    value: given.value,
                    default: item.facts().default,
                    unit: item.facts().unit,
                    reason: given.reason.clone(),
                })
                .collect(),
            work_spots: study
                .site
                .work_spots
                .iter()
                .map(|spot| WorkSpotReport {
                    id: spot.id.to_string(),
                    name: spot.name.clone(),
                    at_m: [spot.at.x, spot.at.y, spot.height.as_metres()],
                })
                .collect(),
            totals: TotalsReport {
                runs: totals.n_runs,
                runs_hung: totals.n_hung,
                input_net_w: totals.input_net.as_watts(),
                tube_m: totals.tube.as_metres(),
                hangers: totals.n_hangers(),
                hangers_panel: totals.n_panel,
                hangers_line: totals.n_line,
                hangers_off_panel: totals.n_off_panel,
                cross_channels: totals.n_channel,
                channel_m: totals.channel.as_metres(),
                suspension_m: totals.suspension.as_metres(),
                mass_kg: totals.mass.as_kilograms(),
                open_breaches: findings
                    .iter()
                    .filter(|finding| finding.is_open_breach())
                    .count(),
            },
            to_buy: BuyReport::new(&cut_list(study)),
            survey: None,
        }
    }
}

fn run_report(study: &Study, run: &RunStudy, detail: Detail) -> RunReport {
    let hanging = &run.hanging;
    let full = detail == Detail::Full;
    let gaps = hanging
        .hangers
        .windows(2)
        .map(|pair| pair[1].at.station_m - pair[0].at.station_m);
    RunReport {
        id: run.run.id.to_string(),
        family: run.run.family.clone(),
        size: run.run.size.clone(),
        input_net_w: run.size.input_net.as_watts(),
        lowest_part_m: run.clearance.stacking.lowest_part_m,
        stacking_height_m: run.clearance.stacking.posted.as_metres(),
        stacking_exact_m: run.clearance.stacking.height_m,
        hanging: HangingReport {
            status: status_word(hanging.status),
            cost: hanging.cost.map(in_hangers),
            least_cost: hanging.least_cost.map(in_hangers),
            greatest_gap_m: gaps.reduce(f64::max),
            weight_n: hanging
                .hangers
                .iter()
                .map(|hanger| hanger.load.load_n)
                .sum(),
            growth_m: hanging.growth.total_m,
            fixed_station_m: hanging.growth.fixed_station_m,
            fixed_pull_n: hanging.fixed_pull_n,
            sets_tried: hanging.sets_tried,
            blocked_by: hanging
                .obstacle
                .iter()
                .flat_map(|obstacle| obstacle.helps.iter().map(|limit| limit.name()))
                .collect(),
            limits: full.then(|| limits_report(run)),
            candidates: full.then(|| study.considered(run).iter().map(candidate_report).collect()),
        },
        hangers: hanging
            .hangers
            .iter()
            .enumerate()
            .map(|(index, hanger)| hanger_report(run, index, hanger))
            .collect(),
        clearances: full.then(|| clearance::of_run(study, run)),
        rooms: full.then(|| clearance::rooms_of_run(study, run)),
    }
}

fn group_report(group: &RunGroup) -> GroupReport {
    let ids = |runs: &[RunId]| runs.iter().map(ToString::to_string).collect();
    GroupReport {
        runs: ids(&group.runs),
        left_out: ids(&group.left_out),
        kept: ids(&group.kept),
        contested: group
            .contested
            .iter()
            .map(|place| PlaceReport {
                member: place.member.to_string(),
                panel_point: place.place.panel_point(),
                chord_panel: match place.place {
                    Place::ChordPanel(before) => Some(before),
                    Place::PanelPoint(_) | Place::Line => None,
                },
            })
            .collect(),
        cost: in_hangers(group.cost),
        least_cost: in_hangers(group.least_cost),
        proven: group.proven,
        sets_tried: group.sets_tried,
    }
}

/// The word for a status.
#[must_use]
pub const fn status_word(status: Status) -> &'static str {
    match status {
        Status::Solved => "solved",
        Status::Locked => "locked",
        Status::Impossible => "impossible",
        Status::Unproven => "unproven",
    }
}

/// The word for a kind of hanger.
#[must_use]
pub const fn kind_word(kind: Kind) -> &'static str {
    match kind {
        Kind::Panel => "panel",
        Kind::Line => "line",
        Kind::OffPanel => "off-panel",
        Kind::Channel => "channel",
    }
}

/// Thousandths as the cost of hangers.
#[expect(
    clippy::cast_precision_loss,
    reason = "a run has at most some tens of hangers"
)]
pub(super) fn in_hangers(thousandths: u64) -> f64 {
    thousandths as f64 / 1000.0
}

fn point(p: DVec3) -> [f64; 3] {
    [p.x, p.y, p.z]
}

fn known(capacity: Capacity) -> Option<f64> {
    match capacity {
        Capacity::Unknown => None,
        // What nothing limits is no figure either.
        Capacity::Known(force) => Some(force).filter(|force| force.is_finite()),
    }
}

fn hanger_report(run: &RunStudy, index: usize, hanger: &Hanger) -> HangerReport {
    let at = &hanger.at;
    let run_id = run.run.id.as_str();
    let hardware: Option<&HangerHardware> = run.hardware.get(index);
    HangerReport {
        id: format!("{run_id}.{}", index + 1),
        station_m: at.station_m,
        point_m: point(at.attach),
        kind: kind_word(at.kind),
        members: at.members().map(str::to_owned).collect(),
        panel_points: at.holds().map(|hold| hold.place.panel_point()).collect(),
        suspension_m: at.suspension_m,
        load_n: hanger.load.load_n,
        allowed_n: known(hanger.load.allowed),
        shares: hanger
            .load
            .holds
            .iter()
            .zip(at.holds())
            .map(|(load, hold)| ShareReport {
                member: hold.member.to_string(),
                position_m: hold.position_m,
                load_n: load.load_n,
                sum_n: load.sum_n,
                allowed_n: known(load.allowed_sum.unwrap_or(load.allowed_single)),
            })
            .collect(),
        slack: hanger.load.slack,
        lean_deg: at.lean_rad.to_degrees(),
        movement_m: hanger.movement_m,
        swing_deg: hanger.swing_rad.to_degrees(),
        side_pull_n: hanger.side_pull_n,
        least_suspension: LeastReport::new(hanger),
        cases: CasesReport::new(run_id, &hanger.cases),
        suspensions: suspension::suspensions(hanger, hardware),
        clamp: suspension::clamp(hardware),
    }
}

fn candidate_report(candidate: &Candidate) -> CandidateReport {
    CandidateReport {
        station_m: candidate.station_m,
        kind: kind_word(candidate.kind),
        members: candidate.members().map(str::to_owned).collect(),
        cost: in_hangers(u64::from(candidate.cost)),
        lean_deg: candidate.lean_rad.to_degrees(),
        suspension_m: candidate.suspension_m,
        point_m: point(candidate.attach),
        refused: candidate.refused.map(|refusal| refusal.name()),
    }
}

fn limits_report(run: &RunStudy) -> LimitsReport {
    let rule: &HangingRule = &run.rule;
    let both = |window: Window| [window.least_m, window.greatest_m];
    LimitsReport {
        first_m: both(rule.first),
        second_after_first_m: both(rule.second),
        spacing_m: both(rule.spacing),
        greatest_overhang_m: rule.greatest_overhang_m,
        joints_m: rule.joints_m.clone(),
        joint_keep_off_m: rule.joint_keep_off_m,
        least_suspension_m: rule.least_suspension_m,
        greatest_lean_deg: rule.greatest_lean_rad.to_degrees(),
        greatest_swing_deg: rule.greatest_swing_rad.to_degrees(),
        tube_length_m: run.geometry.tube_length_m,
        slope: run.geometry.slope,
        eye_rise_m: run.geometry.eye_rise_m,
    }
}

pub(super) fn finding_report(finding: &Finding) -> FindingReport {
    FindingReport {
        rule: finding.rule,
        severity: finding.severity.label(),
        subjects: finding.subjects.iter().map(ToString::to_string).collect(),
        at_m: finding.place.map(point),
        measured: finding.measured,
        required: finding.required,
        bound: match finding.bound {
            Bound::Least => "min",
            Bound::Greatest => "max",
        },
        unit: finding.dimension.unit(),
        source: finding.source.clone(),
        text: finding.text_in(UnitSystem::Metric),
        accepted: finding.accepted.clone(),
        remedies: Vec::new(),
        shifts: None,
    }
}
