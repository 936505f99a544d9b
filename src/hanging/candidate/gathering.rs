//! The search for the candidates of one run.

use std::cmp::Ordering;
use std::sync::Arc;

use super::spot::{Grip, NANOMETRES, Spot, refusal};
use super::{Candidate, ChannelLay, Hold, Kind};
use crate::geometry::math::{atan2, tan};
use crate::geometry::{DVec3, tolerance};
use crate::hanging::case::Case;
use crate::hanging::run::RunAxis;
use crate::hanging::steel::{HangPoints, SpanInSpace};

/// The stations tried where any place on a member would do: every 50 mm, as many to
/// a metre as this.
pub(in crate::hanging) const STEPS_PER_METRE: f64 = 20.0;

/// Room for the candidates of a long run under joists: its 50 mm steps and some.
const USUAL_NUMBER: usize = 512;

/// Plan angle between run and member, degrees, from which on a member is hung from
/// where the run crosses it. Below it the crossing says little: the member
/// accompanies the run.
const LEAST_CROSSING_ANGLE_DEG: f64 = 15.0;

/// Tangent of the least plan angle at which a member is crossed.
pub(in crate::hanging) fn least_crossing() -> f64 {
    tan(LEAST_CROSSING_ANGLE_DEG.to_radians() - tolerance::LIMIT)
}

/// A station rounded as all stations are.
pub(super) fn rounded(station_m: f64) -> f64 {
    (station_m * NANOMETRES).round() / NANOMETRES
}

/// The candidates of one run, as they are found.
pub(in crate::hanging) struct Gathering<'a> {
    pub(in crate::hanging) case: &'a Case<'a>,
    pub(super) axis: RunAxis,
    /// Tangent of the least plan angle at which a member is crossed.
    pub(super) least_crossing: f64,
    /// Tangent of the greatest lean, tolerance included.
    greatest_lean: f64,
    /// The spans that are near enough.
    pub(super) near: Vec<Near>,
    /// What was found; by station once done.
    pub(in crate::hanging) spots: Vec<Spot>,
}

/// A span that is near enough to matter.
#[derive(Debug, Clone, Copy)]
pub(super) struct Near {
    pub(super) index: usize,
    /// The farthest across the run that a suspension from it can lean, m.
    pub(super) lean_reach_m: f64,
}

/// How a hanger's suspension, or its shorter one, reaches from attach point to eye.
pub(super) struct Reach {
    pub(super) length_m: f64,
    pub(super) lean_rad: f64,
    ahead_m: f64,
}

impl<'a> Gathering<'a> {
    /// Nothing looked for yet.
    pub(super) fn new(case: &'a Case<'a>) -> Self {
        Self {
            case,
            axis: case.run.axis(),
            least_crossing: least_crossing(),
            greatest_lean: tan(case.rule.greatest_lean_rad + tolerance::LIMIT),
            near: Vec::new(),
            spots: Vec::new(),
        }
    }

    /// What hangs straight from one member, in order.
    pub(in crate::hanging) fn direct_alone(case: &'a Case<'a>) -> Self {
        let mut work = Self::new(case);
        work.near = work.near_spans();
        for which in 0..work.near.len() {
            work.direct(work.near[which]);
        }
        work.sort();
        work
    }

    /// Takes in the channels too.
    pub(in crate::hanging) fn with_channels(mut self) -> Self {
        self.spots.reserve(USUAL_NUMBER);
        // They come nearly in order: two runs to merge.
        self.channels(&|_| true);
        self.sort();
        self
    }

    /// The same with those channels too whose station is wanted.
    pub(in crate::hanging) fn with_channels_where(&self, wanted: &dyn Fn(f64) -> bool) -> Self {
        let mut some = Self {
            near: self.near.clone(),
            spots: self.spots.clone(),
            ..*self
        };
        some.channels(wanted);
        some.sort();
        some
    }

    /// Everything found, in order.
    pub(in crate::hanging) fn done(case: &'a Case<'a>) -> Self {
        Self::direct_alone(case).with_channels()
    }

    /// The same candidates for the same run in other room.
    pub(in crate::hanging) fn within<'b>(&self, case: &'b Case<'b>) -> Gathering<'b> {
        Gathering {
            case,
            axis: self.axis,
            least_crossing: self.least_crossing,
            greatest_lean: self.greatest_lean,
            near: self.near.clone(),
            spots: self.spots.clone(),
        }
    }

    fn sort(&mut self) {
        let mut spots = std::mem::take(&mut self.spots);
        spots.sort_by(|a, b| {
            a.station_m
                .total_cmp(&b.station_m)
                .then_with(|| self.tie(a, b))
        });
        self.spots = spots;
    }

    /// The candidate in full.
    pub(in crate::hanging) fn candidate(&self, spot: &Spot) -> Candidate {
        let spans = self.case.spans;
        let hold = |grip: Grip, share: f64| Hold {
            member: Arc::clone(&spans[grip.span].id),
            span: grip.span,
            place: spans[grip.span].place_at(grip.position_m),
            position_m: grip.position_m,
            share,
        };
        let plan_at = |grip: Grip| spans[grip.span].plan_at(grip.position_m);
        let z_at = |grip: Grip| spans[grip.span].attach_at(grip.position_m);
        let (attach, first, second, channel) = match spot.second {
            None => (
                plan_at(spot.first).extend(z_at(spot.first)),
                hold(spot.first, 1.0),
                None,
                None,
            ),
            Some(other) => {
                let plan = self.axis.point(spot.station_m).truncate();
                let to_first_m = plan.distance(plan_at(spot.first));
                let to_second_m = plan.distance(plan_at(other));
                let span_m = to_first_m + to_second_m;
                let (z_first, z_second) = (z_at(spot.first), z_at(other));
                let z = z_first + (z_second - z_first) * (to_first_m / span_m)
                    - self.case.channel.depth_m;
                (
                    plan.extend(z),
                    hold(spot.first, to_second_m / span_m),
                    Some(hold(other, to_first_m / span_m)),
                    Some(ChannelLay { span_m, to_first_m }),
                )
            }
        };
        let reach = self.reach(spot.station_m, attach);
        Candidate {
            station_m: spot.station_m,
            kind: spot.kind,
            first,
            second,
            channel,
            attach,
            suspension_m: reach.length_m,
            lean_rad: reach.lean_rad,
            ahead_m: reach.ahead_m,
            cost: self.cost(spot.kind),
            refused: spot.refused,
        }
    }

    /// What a hanger of a kind costs.
    pub(in crate::hanging) fn cost(&self, kind: Kind) -> u32 {
        let costs = &self.case.costs;
        match kind {
            Kind::Panel => costs.panel,
            Kind::Line => costs.line,
            Kind::OffPanel => costs.off_panel,
            Kind::Channel => costs.channel,
        }
    }

    /// Notes a hanger, with what the rule says to it.
    pub(super) fn add(
        &mut self,
        station_m: f64,
        kind: Kind,
        suspension_m: f64,
        first: Grip,
        second: Option<Grip>,
    ) {
        self.spots.push(Spot {
            station_m,
            kind,
            refused: refusal(self.case.rule, station_m, suspension_m),
            first,
            second,
        });
    }

    /// Notes a hanger straight from one span at a position, if it hangs from above
    /// and leans little enough.
    pub(super) fn add_direct(&mut self, station_m: f64, kind: Kind, first: Grip) {
        let span = &self.case.spans[first.span];
        let attach = span
            .plan_at(first.position_m)
            .extend(span.attach_at(first.position_m));
        let away = attach - self.axis.eye(station_m);
        let across_m = self.axis.heading.perp_dot(away.truncate()).abs();
        if attach.z > self.axis.highest_eye_m(station_m) && across_m <= self.greatest_lean * away.z
        {
            let length_m = self.length_m(station_m, attach, away);
            self.add(station_m, kind, length_m, first, None);
        }
    }

    /// Length of the suspension, or of the shorter one of two; `away` leads from the
    /// middle eye.
    pub(super) fn length_m(&self, station_m: f64, attach: DVec3, away: DVec3) -> f64 {
        if self.axis.has_two_eyes() {
            let lengths = self.axis.eyes(station_m).map(|eye| attach.distance(eye));
            lengths.fold(f64::INFINITY, f64::min)
        } else {
            away.length()
        }
    }

    pub(super) fn reach(&self, station_m: f64, attach: DVec3) -> Reach {
        let away = attach - self.axis.eye(station_m);
        let heading = self.axis.heading;
        Reach {
            length_m: self.length_m(station_m, attach, away),
            lean_rad: atan2(heading.perp_dot(away.truncate()).abs(), away.z),
            ahead_m: heading.dot(away.truncate()),
        }
    }

    /// Whether a rounded station is on the tube.
    pub(super) fn on_tube(&self, station_m: f64) -> bool {
        0.0 <= station_m && station_m <= rounded(self.axis.tube_length_m)
    }

    /// The 50 mm stations of the tube within a range, and perhaps one more at either
    /// side.
    pub(super) fn steps(&self, range: StationRange) -> impl Iterator<Item = f64> + use<> {
        let last = (self.axis.tube_length_m + tolerance::STATION) * STEPS_PER_METRE;
        let from = (range.from_m * STEPS_PER_METRE - 1.0).ceil().max(0.0);
        let to = (range.to_m * STEPS_PER_METRE + 1.0)
            .floor()
            .min(last.floor());
        std::iter::successors(Some(from), |n| Some(n + 1.0))
            .take_while(move |&n| n <= to)
            .map(|n| n / STEPS_PER_METRE)
    }

    /// The spans that are near enough, by framing, then row as the run meets them, so
    /// that what is found is nearly in order already.
    fn near_spans(&self) -> Vec<Near> {
        let spans = self.case.spans;
        let mut near: Vec<Near> = spans
            .iter()
            .enumerate()
            .map(|(index, span)| Near {
                index,
                lean_reach_m: self.greatest_drop(span) * self.greatest_lean,
            })
            .filter(|near| self.is_near(&spans[near.index], near.lean_reach_m))
            .collect();
        near.sort_by_key(|near| {
            let span = &spans[near.index];
            (span.framing, span.row, near.index)
        });
        let first_met_last = near.first().zip(near.last()).is_some_and(|(first, last)| {
            let across = spans[last.index].start - spans[first.index].start;
            across.dot(self.axis.heading) < 0.0
        });
        if first_met_last {
            near.reverse();
        }
        near
    }

    /// Whether the boxes of a span and the run in plan, grown by what a leaning
    /// suspension or a channel can bridge, touch.
    fn is_near(&self, span: &SpanInSpace, lean_reach_m: f64) -> bool {
        let reach_m = lean_reach_m.max(self.case.channel.greatest_span_m) + tolerance::LIMIT;
        let from = self.axis.point(0.0).truncate();
        let to = self.axis.point(self.axis.tube_length_m).truncate();
        let (a, b) = (span.plan_at(span.usable_m.0), span.plan_at(span.usable_m.1));
        let apart = (a.min(b) - from.max(to)).max(from.min(to) - a.max(b));
        lean_reach_m > 0.0 && apart.max_element() <= reach_m
    }

    /// From the highest of a span to the lowest eye, m.
    fn greatest_drop(&self, span: &SpanInSpace) -> f64 {
        let highest = span
            .attach_m
            .iter()
            .fold(f64::NEG_INFINITY, |highest, &(_, z)| highest.max(z));
        let ends = (
            self.axis.eye(0.0).z,
            self.axis.eye(self.axis.tube_length_m).z,
        );
        highest - ends.0.min(ends.1)
    }

    /// The order of two spots at one station: member ids; what remains equal is put in
    /// an order that mirroring the site keeps, as far as there is one.
    fn tie(&self, a: &Spot, b: &Spot) -> Ordering {
        let spans = self.case.spans;
        let id = |grip: Grip| &*spans[grip.span].id;
        let ids = |spot: &Spot| (id(spot.first), spot.second.map(id));
        let place = |spot: &Spot| {
            let candidate = self.candidate(spot);
            (candidate.lean_rad, candidate.first.place)
        };
        ids(a)
            .cmp(&ids(b))
            .then(a.kind.cmp(&b.kind))
            .then_with(|| place(a).0.total_cmp(&place(b).0))
            .then_with(|| place(a).1.cmp(&place(b).1))
    }
}

/// A range of stations, narrowed by what must hold along it.
#[derive(Debug, Clone, Copy)]
pub(in crate::hanging) struct StationRange {
    pub(in crate::hanging) from_m: f64,
    pub(in crate::hanging) to_m: f64,
}

impl StationRange {
    const NOWHERE: Self = Self {
        from_m: f64::INFINITY,
        to_m: f64::NEG_INFINITY,
    };

    /// The whole of a tube.
    pub(super) fn whole(tube_length_m: f64) -> Self {
        Self {
            from_m: 0.0,
            to_m: tube_length_m,
        }
    }

    /// The part where `at_zero + per_m * station` may lie within `least..=greatest`.
    /// It only saves work, so it errs on the wide side; what is found in it is tested.
    pub(in crate::hanging) fn narrowed(
        self,
        at_zero: f64,
        per_m: f64,
        least: f64,
        greatest: f64,
    ) -> Self {
        let margin = 2.0 * tolerance::LIMIT;
        let (least, greatest) = (least - margin, greatest + margin);
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

/// Whether nothing may be hung off a span's panel points.
pub(in crate::hanging) fn only_panel_points(span: &SpanInSpace) -> bool {
    matches!(
        span.hang_points,
        HangPoints::Panels {
            off_panel: None,
            ..
        }
    )
}
