//! Candidates on a channel across two neighbouring members.

use super::gathering::{Gathering, StationRange, only_panel_points};
use super::spot::Grip;
use super::{Kind, Place};
use crate::geometry::{DVec2, DVec3, tolerance};
use crate::hanging::steel::SpanInSpace;

impl Gathering<'_> {
    /// Channels between each two neighbouring members that have the tube between them, at
    /// the stations that are wanted.
    pub(super) fn channels(&mut self, wanted: &dyn Fn(f64) -> bool) {
        let spans = self.case.spans;
        let near = std::mem::take(&mut self.near);
        for (which, one) in near.iter().enumerate() {
            let span = &spans[one.index];
            for other in &near[which + 1..] {
                let next = &spans[other.index];
                if next.framing != span.framing || next.row.abs_diff(span.row) > 1 {
                    break;
                }
                if next.row == span.row + 1 {
                    self.between(one.index, other.index, wanted);
                } else if span.row == next.row + 1 {
                    self.between(other.index, one.index, wanted);
                }
            }
        }
        self.near = near;
    }

    fn between(&mut self, first: usize, second: usize, wanted: &dyn Fn(f64) -> bool) {
        let pair = Pair::new(self, first, second);
        let mut range = StationRange::whole(self.axis.tube_length_m);
        for end in [&pair.first, &pair.second] {
            let (least, greatest) = end.span.usable_m;
            range = range.narrowed(end.position.at_zero, end.position.per_m, least, greatest);
        }
        let apart_m = pair.first.away.at_zero - pair.second.away.at_zero;
        range = range.narrowed(
            pair.first.away.at_zero,
            pair.first.away.per_m,
            apart_m.min(0.0),
            apart_m.max(0.0),
        );
        for station_m in self.steps(range).filter(|&station_m| wanted(station_m)) {
            self.channel_at(station_m, &pair);
        }
    }

    /// Notes a channel at a station, if one fits between two spans.
    pub(super) fn channel_at(&mut self, station_m: f64, pair: &Pair<'_>) {
        let stock = &self.case.channel;
        let (away_a, away_b) = (
            pair.first.away.at(station_m),
            pair.second.away.at(station_m),
        );
        let (a_m, b_m) = (away_a.abs(), away_b.abs());
        let (at_a, at_b) = (
            pair.first.position.at(station_m),
            pair.second.position.at(station_m),
        );
        let fits = away_a * away_b < 0.0
            && a_m.min(b_m) >= stock.least_end_m - tolerance::LIMIT
            && a_m + b_m <= stock.greatest_span_m + tolerance::LIMIT
            && pair.first.takes(at_a)
            && pair.second.takes(at_b);
        if !fits {
            return;
        }
        let (z_a, z_b) = (
            pair.first.span.attach_at(at_a),
            pair.second.span.attach_at(at_b),
        );
        let z = z_a + (z_b - z_a) * (a_m / (a_m + b_m)) - stock.depth_m;
        let drop_m = z - self.axis.eye_level(station_m);
        let level = (z_a - z_b).abs() <= stock.greatest_step_m + tolerance::LIMIT;
        if level && z > self.axis.highest_eye_m(station_m) {
            let attach = self.axis.point(station_m).truncate().extend(z);
            let away = DVec3::new(0.0, 0.0, drop_m);
            let suspension_m = self.length_m(station_m, attach, away);
            let grip = |end: &PairEnd<'_>, position_m: f64| Grip {
                span: end.index,
                position_m,
            };
            let second = Some(grip(&pair.second, at_b));
            let first = grip(&pair.first, at_a);
            self.add(station_m, Kind::Channel, suspension_m, first, second);
        }
    }
}

/// Two parallel spans as a station moves along the run.
pub(super) struct Pair<'a> {
    first: PairEnd<'a>,
    second: PairEnd<'a>,
}

struct PairEnd<'a> {
    index: usize,
    span: &'a SpanInSpace,
    /// Position on the span that is square across from the station, m.
    position: Linear,
    /// How far the station is left of the span, m; the two spans look one way.
    away: Linear,
}

/// What changes evenly along the run.
#[derive(Debug, Clone, Copy)]
struct Linear {
    at_zero: f64,
    per_m: f64,
}

impl Linear {
    fn at(self, station_m: f64) -> f64 {
        self.at_zero + self.per_m * station_m
    }
}

impl<'a> Pair<'a> {
    pub(super) fn new(work: &Gathering<'a>, first: usize, second: usize) -> Self {
        let spans = work.case.spans;
        let start = work.axis.point(0.0).truncate();
        let along = |from: DVec2, direction: DVec2| Linear {
            at_zero: (start - from).dot(direction),
            per_m: work.axis.plan_length(work.axis.heading.dot(direction)),
        };
        let left = spans[first].direction.perp();
        let end = |index: usize| PairEnd {
            index,
            span: &spans[index],
            position: along(spans[index].start, spans[index].direction),
            away: along(spans[index].start, left),
        };
        Self {
            first: end(first),
            second: end(second),
        }
    }
}

impl PairEnd<'_> {
    /// Whether a channel may rest at a position.
    fn takes(&self, position_m: f64) -> bool {
        self.span.usable_at(position_m)
            && (!only_panel_points(self.span)
                || matches!(self.span.place_at(position_m), Place::PanelPoint(_)))
    }
}
