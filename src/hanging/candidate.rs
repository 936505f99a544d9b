//! Every place that a run can reach to hang from.

mod channel;
mod direct;
mod kept;

pub(super) use kept::kept;

use std::cmp::Ordering;
use std::sync::Arc;

use super::case::Case;
use super::run::{HangingRule, RunAxis};
use super::steel::SpanInSpace;
use crate::geometry::math::{atan2, tan};
use crate::geometry::{DVec3, tolerance};

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
    /// A beam or a purlin as a whole.
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
    /// Station on the run, m, rounded to [`tolerance::STATION`].
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
    /// Straight from the attach point to the eye, cold, m.
    pub suspension_m: f64,
    /// Lean of the suspension across the run, cold, rad, without sign.
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

    /// Station first, then member ids; what remains equal is put in an order that
    /// mirroring the site keeps, as far as there is one.
    fn order(&self, other: &Self) -> Ordering {
        self.station_m
            .total_cmp(&other.station_m)
            .then_with(|| self.members().cmp(other.members()))
            .then(self.kind.cmp(&other.kind))
            .then(self.lean_rad.total_cmp(&other.lean_rad))
            .then(self.first.place.cmp(&other.first.place))
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
    let mut found = Gathering::new(case);
    found.direct();
    found.channels();
    let mut list = found.list;
    list.sort_by(Candidate::order);
    list
}

/// Nanometres in a metre: stations are whole numbers of them ([`tolerance::STATION`],
/// whose reciprocal is not exact).
pub(super) const NANOMETRES: f64 = 1e9;

/// A station rounded as all stations are.
pub(super) fn rounded(station_m: f64) -> f64 {
    (station_m * NANOMETRES).round() / NANOMETRES
}

/// The stations tried where any place on a member would do: every 50 mm, as many to
/// a metre as this.
const STEPS_PER_METRE: f64 = 20.0;

/// The work of finding the candidates of one run.
struct Gathering<'a> {
    case: &'a Case<'a>,
    axis: RunAxis,
    /// The spans that are near enough to matter, by framing and row.
    near: Vec<usize>,
    greatest_lean_rad: f64,
    list: Vec<Candidate>,
}

/// A candidate's attach point and what follows from it.
struct Reach {
    attach: DVec3,
    suspension_m: f64,
    lean_rad: f64,
    ahead_m: f64,
}

impl<'a> Gathering<'a> {
    fn new(case: &'a Case<'a>) -> Self {
        let mut work = Self::empty(case);
        work.near.extend(
            (0..case.spans.len())
                .filter(|&index| near_enough(case, &work.axis, &case.spans[index])),
        );
        work.near.sort_by_key(|&index| {
            let span = &case.spans[index];
            (span.framing, span.row, index)
        });
        work
    }

    /// No span looked at yet.
    fn empty(case: &'a Case<'a>) -> Self {
        Self {
            case,
            axis: case.run.axis(),
            near: Vec::new(),
            greatest_lean_rad: case.rule.greatest_lean_rad,
            list: Vec::new(),
        }
    }

    /// Notes a candidate, if its suspension is one.
    fn add(
        &mut self,
        station_m: f64,
        kind: Kind,
        holds: (Hold, Option<Hold>),
        channel: Option<ChannelLay>,
        reach: &Reach,
    ) {
        let costs = &self.case.costs;
        self.list.push(Candidate {
            station_m,
            kind,
            first: holds.0,
            second: holds.1,
            channel,
            attach: reach.attach,
            suspension_m: reach.suspension_m,
            lean_rad: reach.lean_rad,
            ahead_m: reach.ahead_m,
            cost: match kind {
                Kind::Panel => costs.panel,
                Kind::Line => costs.line,
                Kind::OffPanel => costs.off_panel,
                Kind::Channel => costs.channel,
            },
            refused: refusal(self.case.rule, station_m, reach.suspension_m),
        });
    }

    /// The suspension from an attach point to the eye at a station; none where the
    /// attach point is not above the eye, or leans beyond the limit.
    fn reach(&self, station_m: f64, attach: DVec3) -> Option<Reach> {
        let reach = reach(&self.axis, station_m, attach)?;
        (reach.lean_rad <= self.greatest_lean_rad + tolerance::LIMIT).then_some(reach)
    }

    /// Whether a rounded station is on the tube.
    fn on_tube(&self, station_m: f64) -> bool {
        0.0 <= station_m && station_m <= rounded(self.axis.tube_length_m)
    }

    /// The 50 mm stations within a range, and on the tube.
    fn steps(&self, range: StationRange) -> impl Iterator<Item = f64> + use<> {
        let last = (self.axis.tube_length_m + tolerance::STATION) * STEPS_PER_METRE;
        let from = (range.from_m * STEPS_PER_METRE - 1.0).ceil().max(0.0);
        let to = (range.to_m * STEPS_PER_METRE + 1.0)
            .floor()
            .min(last.floor());
        std::iter::successors(Some(from), |n| Some(n + 1.0))
            .take_while(move |&n| n <= to)
            .map(|n| n / STEPS_PER_METRE)
    }
}

/// What the rule says to a place, whatever else is chosen.
fn refusal(rule: &HangingRule, station_m: f64, suspension_m: f64) -> Option<Refusal> {
    if suspension_m < rule.least_suspension_m - tolerance::LIMIT {
        return Some(Refusal::SuspensionTooShort);
    }
    let after = rule.joints_m.partition_point(|&joint| joint < station_m);
    let nearest = rule.joints_m[after.saturating_sub(1)..]
        .iter()
        .take(2)
        .map(|joint| (joint - station_m).abs())
        .fold(f64::INFINITY, f64::min);
    (nearest < rule.joint_keep_off_m - tolerance::LIMIT).then_some(Refusal::OnJoint)
}

/// The suspension from an attach point to an eye; none unless it is above the eye.
fn reach(axis: &RunAxis, station_m: f64, attach: DVec3) -> Option<Reach> {
    let eye = axis.eye(station_m);
    let drop_m = attach.z - eye.z;
    if drop_m <= 0.0 || !drop_m.is_finite() {
        return None;
    }
    let offset = (attach - eye).truncate();
    Some(Reach {
        attach,
        suspension_m: (attach - eye).length(),
        lean_rad: atan2(axis.heading.perp_dot(offset).abs(), drop_m),
        ahead_m: axis.heading.dot(offset),
    })
}

/// A cheap test that a span is within reach of a run: their boxes in plan, grown by
/// what a leaning suspension or a channel can bridge.
fn near_enough(case: &Case<'_>, axis: &RunAxis, span: &SpanInSpace) -> bool {
    let lean_reach_m = lean_reach(case, axis, span);
    if lean_reach_m <= 0.0 {
        return false;
    }
    let reach_m = lean_reach_m.max(case.channel.greatest_span_m) + tolerance::LIMIT;
    let from = axis.point(0.0).truncate();
    let to = axis.point(axis.tube_length_m).truncate();
    let (a, b) = (span.plan_at(span.usable_m.0), span.plan_at(span.usable_m.1));
    let beyond = (a.min(b) - from.max(to)).max(from.min(to) - a.max(b));
    beyond.max_element() <= reach_m
}

/// The farthest across the run that a suspension from a span could lean, m; not
/// positive where the whole span is below the eyes.
fn lean_reach(case: &Case<'_>, axis: &RunAxis, span: &SpanInSpace) -> f64 {
    let highest = span
        .attach_m
        .iter()
        .fold(f64::NEG_INFINITY, |highest, &(_, z)| highest.max(z));
    let lowest_eye = axis.eye(0.0).z.min(axis.eye(axis.tube_length_m).z);
    (highest - lowest_eye) * tan(case.rule.greatest_lean_rad + tolerance::LIMIT)
}

/// A range of stations, narrowed by what must hold along it.
#[derive(Debug, Clone, Copy)]
struct StationRange {
    from_m: f64,
    to_m: f64,
}

impl StationRange {
    const NOWHERE: Self = Self {
        from_m: f64::INFINITY,
        to_m: f64::NEG_INFINITY,
    };

    /// The part where `at_zero + per_m * station` may lie within `least..=greatest`.
    /// It only saves work, so it errs on the wide side; what is found in it is tested.
    fn narrowed(self, at_zero: f64, per_m: f64, least: f64, greatest: f64) -> Self {
        let (least, greatest) = (
            least - 2.0 * tolerance::LIMIT,
            greatest + 2.0 * tolerance::LIMIT,
        );
        if per_m.abs() < tolerance::STATION {
            // Constant along any tube to less than the margin: all or nothing.
            return if least <= at_zero && at_zero <= greatest {
                self
            } else {
                Self::NOWHERE
            };
        }
        let (a, b) = ((least - at_zero) / per_m, (greatest - at_zero) / per_m);
        Self {
            from_m: self.from_m.max(a.min(b)),
            to_m: self.to_m.min(a.max(b)),
        }
    }
}
