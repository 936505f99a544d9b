//! The least that a run can cost anywhere in a rectangle of places.
//!
//! Seen from the steel, what a member offers stays and the tube moves over it. Positions
//! here are stations of the run at the rectangle's middle, for places in space: a panel
//! point abreast of the axis keeps its position wherever in the rectangle the run is,
//! while the tube's ends and joints move by `along` at most. Only what is tried at steps
//! of the tube (channels, members that accompany the run) or moves with the crossing of
//! a skew member changes its position, by a known `stray` at most.
//!
//! So every set of hangers at any place of the rectangle is a set here too, when the
//! windows of its two ends are wider by `along` and the stray, gaps by twice the stray,
//! and a hold counts that some place of the rectangle would have. Loads are left out:
//! they can only make a set dearer. Hence the least cost of a set here, by the same
//! program that the choice uses, is a lower bound.

use crate::geometry::math::tan;
use crate::geometry::{DVec2, tolerance};
use crate::hanging::candidate::{STEPS_PER_METRE, StationRange, least_crossing, only_panel_points};
use crate::hanging::case::Case;
use crate::hanging::choice::{ChannelBounds, FreerRule, Rung, fewest_hangers};
use crate::hanging::run::RunAxis;
use crate::hanging::steel::{HangPoints, SpanInSpace};

/// A suspension from a member that accompanies the run, up to 15 degrees off, reaches
/// ahead too: level, 1 / cos(15 degrees) of what it reaches across, rounded up.
const LEVEL_PER_ACROSS: f64 = 1.04;

/// Rungs and spans of one rectangle; kept from one to the next for their memory.
#[derive(Debug, Default)]
pub(super) struct Relaxed {
    rungs: Vec<Rung>,
    near: Vec<usize>,
}

/// A rectangle of places, as seen from the run at its middle.
struct Moving<'a> {
    case: &'a Case<'a>,
    axis: RunAxis,
    /// How far the tube moves either way: along it, and across.
    along_m: f64,
    across_m: f64,
    /// How far a 50 mm step is from a position, at most.
    step_stray_m: f64,
    /// The most that an eye comes down by that.
    down_m: f64,
    greatest_lean: f64,
    /// How far the nearer of two eyes is from where a single one would be.
    eye_off_m: f64,
    /// The greatest stray of any rung so far.
    stray_m: f64,
}

impl Relaxed {
    /// A lower bound of what the run costs anywhere up to `half_along_m` and
    /// `half_across_m` from where it is, thousandths; [`u64::MAX`] where it can't be hung.
    /// From `below` on nothing finer is looked for.
    pub(super) fn least_cost(
        &mut self,
        case: &Case<'_>,
        (half_along_m, half_across_m): (f64, f64),
        below: u64,
    ) -> u64 {
        let margin_m = 2.0 * tolerance::LIMIT;
        let axis = case.run.axis();
        let along_m = half_along_m / axis.plan_length(1.0) + margin_m;
        let step_stray_m = along_m.min(0.5 / STEPS_PER_METRE + margin_m);
        let fall = (axis.eye_level(1.0) - axis.eye_level(0.0)).abs();
        let mut moving = Moving {
            case,
            axis,
            along_m,
            across_m: half_across_m + margin_m,
            step_stray_m,
            down_m: fall * (along_m + step_stray_m),
            eye_off_m: axis
                .eyes(0.0)
                .map(|eye| eye.distance(axis.eye(0.0)))
                .fold(f64::INFINITY, f64::min),
            greatest_lean: tan(case.rule.greatest_lean_rad + tolerance::LIMIT),
            stray_m: 0.0,
        };
        self.rungs.clear();
        self.near.clear();
        self.near
            .extend((0..case.spans.len()).filter(|&index| moving.is_near(&case.spans[index])));
        self.near.sort_by_key(|&index| {
            let span = &case.spans[index];
            (span.framing, span.row, index)
        });
        for &index in &self.near {
            moving.direct(&case.spans[index], &mut self.rungs);
        }
        self.rungs.sort_unstable_by_key(|rung| rung.station_nm);
        let tube_m = case.run.tube_length_m;
        let freer =
            |stray_m: f64| FreerRule::new(case.rule, tube_m, along_m + stray_m, 2.0 * stray_m);
        let with_steps_m = moving.stray_m.max(step_stray_m);
        let (Some(straight), Some(stepped)) = (freer(moving.stray_m), freer(with_steps_m)) else {
            return 0;
        };
        let channel = case.costs.channel;
        // Wherever the tube is, it has so many hangers, none cheaper than the cheapest.
        let costs = self.rungs.iter().map(|rung| rung.cost);
        let cheapest = u64::from(costs.fold(channel, u32::min));
        let by_number = cheapest * fewest_hangers(case.rule, tube_m);
        if by_number >= below {
            return by_number;
        }
        let within_m = (-along_m, tube_m + along_m);
        let bounds = stepped.channel_bounds(&self.rungs, channel, within_m);
        let straight = straight.least_cost(&self.rungs);
        let least = straight.min(bounds.least).max(by_number);
        if straight.max(by_number) < below || least >= below {
            return least;
        }
        let budget = below.saturating_sub(1);
        for (which, &one) in self.near.iter().enumerate() {
            let span = &case.spans[one];
            for &other in &self.near[which + 1..] {
                let next = &case.spans[other];
                if next.framing != span.framing || next.row > span.row + 1 {
                    break;
                }
                if next.row == span.row + 1 {
                    moving.channels((span, next), (&bounds, budget), &mut self.rungs);
                }
            }
        }
        self.rungs.sort_unstable_by_key(|rung| rung.station_nm);
        stepped.least_cost(&self.rungs).max(least)
    }
}

impl Moving<'_> {
    fn lean_reach_m(&self, span: &SpanInSpace) -> f64 {
        let highest = highest(span);
        let ends = (
            self.axis.eye_level(0.0),
            self.axis.eye_level(self.case.run.tube_length_m),
        );
        (highest - ends.0.min(ends.1) + self.down_m) * self.greatest_lean
    }

    fn is_near(&self, span: &SpanInSpace) -> bool {
        let lean_reach_m = self.lean_reach_m(span);
        let reach_m = lean_reach_m.max(self.case.channel.greatest_span_m)
            + DVec2::new(self.along_m, self.across_m).length()
            + tolerance::LIMIT;
        let from = self.axis.point(0.0).truncate();
        let to = self.axis.point(self.case.run.tube_length_m).truncate();
        let (a, b) = (span.plan_at(span.usable_m.0), span.plan_at(span.usable_m.1));
        let apart = (a.min(b) - from.max(to)).max(from.min(to) - a.max(b));
        lean_reach_m > 0.0 && apart.max_element() <= reach_m
    }

    /// The tube, as far as it reaches from any place.
    fn tube(&self) -> StationRange {
        StationRange {
            from_m: -self.along_m,
            to_m: self.case.run.tube_length_m + self.along_m,
        }
    }

    fn direct(&mut self, span: &SpanInSpace, rungs: &mut Vec<Rung>) {
        let lean_reach_m = self.lean_reach_m(span) + self.across_m;
        let sine = self.axis.heading.perp_dot(span.direction);
        let cosine = self.axis.heading.dot(span.direction);
        let costs = self.case.costs;
        let mut other_cost = costs.line;
        if let HangPoints::Panels { points_m, .. } = &span.hang_points {
            other_cost = costs.off_panel;
            let within = StationRange {
                from_m: span.usable_m.0 - 2.0 * tolerance::LIMIT,
                to_m: span.usable_m.1 + 2.0 * tolerance::LIMIT,
            }
            .narrowed(
                self.axis.offset_left(span.start),
                sine,
                -lean_reach_m,
                lean_reach_m,
            );
            let from = points_m.partition_point(|&point_m| point_m < within.from_m);
            for &position_m in points_m[from..].iter().take_while(|&&it| it <= within.to_m) {
                let station_m = self.axis.station_abreast(span.plan_at(position_m));
                let away_m = self.axis.offset_left(span.plan_at(position_m)).abs();
                self.hang(
                    station_m,
                    (away_m, span.attach_at(position_m)),
                    (0.0, costs.panel),
                    rungs,
                );
            }
        }
        if only_panel_points(span) {
            return;
        }
        if sine.abs() >= least_crossing() * cosine.abs() {
            // Across by one, the crossing goes 1 / sine along the member.
            let crossing_m = -self.axis.offset_left(span.start) / sine;
            let slide_m = self.across_m / sine.abs();
            let (least, greatest) = (crossing_m - slide_m, crossing_m + slide_m);
            if greatest < span.usable_m.0 - 2.0 * tolerance::LIMIT
                || least > span.usable_m.1 + 2.0 * tolerance::LIMIT
            {
                return;
            }
            let station_m = self.axis.station_abreast(span.plan_at(crossing_m));
            let stray_m = slide_m * cosine.abs() / self.axis.plan_length(1.0);
            let z = highest_between(span, least, greatest);
            self.hang(station_m, (0.0, z), (stray_m, other_cost), rungs);
            return;
        }
        let slide_m = self.across_m * sine.abs() + self.step_stray_m;
        let start = self.axis.point(0.0).truncate();
        let position_m = span.position_abreast(start);
        let per_m = self.axis.plan_length(cosine);
        let offset_m = self.axis.offset_left(span.plan_at(position_m));
        let lean_reach_m = lean_reach_m + self.step_stray_m * sine.abs();
        let range = self
            .tube()
            .narrowed(
                position_m,
                per_m,
                span.usable_m.0 - slide_m,
                span.usable_m.1 + slide_m,
            )
            .narrowed(offset_m, per_m * sine, -lean_reach_m, lean_reach_m);
        let mut steps = Steps::new(range);
        while let Some(station_m) = steps.next() {
            let at_m = position_m + per_m * station_m;
            let z = highest_between(span, at_m - slide_m, at_m + slide_m);
            let away_m =
                (offset_m + per_m * sine * station_m).abs() - self.step_stray_m * sine.abs();
            self.hang(
                station_m,
                (away_m, z),
                (self.step_stray_m, other_cost),
                rungs,
            );
        }
    }

    /// Notes a hold `away_m` across from the axis and `z` up, if it may serve anywhere.
    fn hang(
        &mut self,
        station_m: f64,
        (away_m, z): (f64, f64),
        (stray_m, cost): (f64, u32),
        rungs: &mut Vec<Rung>,
    ) {
        let drop_m = z - self.axis.eye_level(station_m) + self.down_m + self.fall(stray_m);
        let nearest_m = (away_m - self.across_m).max(0.0);
        if drop_m <= 0.0 || nearest_m > self.greatest_lean * drop_m + tolerance::LIMIT {
            return;
        }
        let level_m = away_m.max(0.0) + 2.0 * (self.across_m + self.step_stray_m);
        let longest_m = DVec2::new(level_m * LEVEL_PER_ACROSS, drop_m).length() + self.eye_off_m;
        self.note(station_m, longest_m, (stray_m, cost), rungs);
    }

    /// The most that an eye comes down where its hanger strays.
    fn fall(&self, stray_m: f64) -> f64 {
        (self.axis.eye_level(stray_m) - self.axis.eye_level(0.0)).abs()
    }

    fn note(
        &mut self,
        station_m: f64,
        longest_m: f64,
        (stray_m, cost): (f64, u32),
        rungs: &mut Vec<Rung>,
    ) {
        let rule = self.case.rule;
        let moves_m = self.along_m + stray_m;
        let on_tube = -moves_m <= station_m && station_m <= self.case.run.tube_length_m + moves_m;
        let keep_off_m = rule.joint_keep_off_m - moves_m;
        let on_joint = rule
            .joints_m
            .iter()
            .any(|joint_m| (joint_m - station_m).abs() < keep_off_m);
        if on_tube && !on_joint && longest_m >= rule.least_suspension_m - 2.0 * tolerance::LIMIT {
            self.stray_m = self.stray_m.max(stray_m);
            rungs.push(Rung::new(station_m, cost));
        }
    }

    /// Notes the channels between two spans with which a set may keep a budget.
    fn channels(
        &mut self,
        (first, second): (&SpanInSpace, &SpanInSpace),
        (bounds, budget): (&ChannelBounds, u64),
        rungs: &mut Vec<Rung>,
    ) {
        let stock = &self.case.channel;
        let start = self.axis.point(0.0).truncate();
        let (cosine, sine) = (
            self.axis.heading.dot(first.direction),
            self.axis.heading.perp_dot(first.direction),
        );
        let left = first.direction.perp();
        // How far positions along the members, and the distance from them, change.
        let slide_m = self.across_m * sine.abs() + self.step_stray_m * cosine.abs();
        let away_by_m = self.across_m * cosine.abs() + self.step_stray_m * sine.abs();
        let away_m = (start - first.start).dot(left);
        let apart_m = (second.start - first.start).dot(left);
        if apart_m.abs() > stock.greatest_span_m + 2.0 * tolerance::LIMIT {
            return;
        }
        // The members' direction seen from the run: the second may look the other way.
        let per_m = self.axis.plan_length(cosine);
        let away_per_m = self.axis.plan_length(self.axis.heading.dot(left));
        let at = |span: &SpanInSpace| {
            let way = self.axis.heading.dot(span.direction);
            (span.position_abreast(start), self.axis.plan_length(way))
        };
        let (at_first, at_second) = (at(first), at(second));
        let (inner, outer) = (
            apart_m.min(0.0) + stock.least_end_m - away_by_m,
            apart_m.max(0.0) - stock.least_end_m + away_by_m,
        );
        let mut range = self.tube().narrowed(away_m, away_per_m, inner, outer);
        for ((at_zero, per_m), span) in [(at_first, first), (at_second, second)] {
            range = range.narrowed(
                at_zero,
                per_m,
                span.usable_m.0 - slide_m,
                span.usable_m.1 + slide_m,
            );
        }
        debug_assert!((per_m.abs() - at_second.1.abs()).abs() < tolerance::LIMIT);
        let rises_m = slide_m * (steepest(first) + steepest(second));
        let takes = |span: &SpanInSpace, at_m: f64| {
            let HangPoints::Panels {
                points_m,
                off_panel: None,
                ..
            } = &span.hang_points
            else {
                return true;
            };
            let reach_m = slide_m + tolerance::ON_PANEL_POINT + 2.0 * tolerance::LIMIT;
            let from = points_m.partition_point(|&point_m| point_m < at_m - reach_m);
            points_m
                .get(from)
                .is_some_and(|&point_m| point_m <= at_m + reach_m)
        };
        let mut steps = Steps::new(range);
        while let Some(station_m) = steps.next() {
            if !bounds.allows(station_m, budget) {
                continue;
            }
            let (a_m, b_m) = (
                at_first.0 + at_first.1 * station_m,
                at_second.0 + at_second.1 * station_m,
            );
            let (z_a, z_b) = (first.attach_at(a_m), second.attach_at(b_m));
            let step_m = (z_a - z_b).abs();
            if step_m > stock.greatest_step_m + rises_m + 2.0 * tolerance::LIMIT
                || !takes(first, a_m)
                || !takes(second, b_m)
            {
                continue;
            }
            let z =
                z_a.max(z_b) + rises_m - stock.depth_m + self.down_m + self.fall(self.step_stray_m);
            if z > self.axis.highest_eye_m(station_m) {
                let drop_m = z - self.axis.eye_level(station_m);
                self.note(
                    station_m,
                    drop_m.abs() + self.eye_off_m,
                    (self.step_stray_m, self.case.costs.channel),
                    rungs,
                );
            }
        }
    }
}

/// The 50 mm positions in a range, and one more at either side.
struct Steps {
    next: f64,
    last: f64,
}

impl Steps {
    fn new(range: StationRange) -> Self {
        Self {
            next: (range.from_m * STEPS_PER_METRE - 1.0).ceil(),
            last: (range.to_m * STEPS_PER_METRE + 1.0).floor(),
        }
    }

    fn next(&mut self) -> Option<f64> {
        let n = self.next;
        self.next += 1.0;
        (n <= self.last).then(|| n / STEPS_PER_METRE)
    }
}

fn highest(span: &SpanInSpace) -> f64 {
    let heights = span.attach_m.iter().map(|&(_, z)| z);
    heights.fold(f64::NEG_INFINITY, f64::max)
}

/// The highest attach elevation of a stretch.
fn highest_between(span: &SpanInSpace, from_m: f64, to_m: f64) -> f64 {
    let within = span
        .attach_m
        .iter()
        .filter(|&&(at_m, _)| from_m <= at_m && at_m <= to_m);
    within
        .map(|&(_, z)| z)
        .fold(span.attach_at(from_m).max(span.attach_at(to_m)), f64::max)
}

/// The steepest that a span's attach elevation rises or falls.
fn steepest(span: &SpanInSpace) -> f64 {
    span.attach_m
        .windows(2)
        .map(|pair| ((pair[1].1 - pair[0].1) / (pair[1].0 - pair[0].0)).abs())
        .fold(0.0, f64::max)
}
