//! Candidates on a channel across two neighbouring members.

use super::{ChannelLay, Gathering, Hold, Kind, Place, StationRange};
use crate::geometry::{DVec2, tolerance};
use crate::hanging::steel::{HangPoints, SpanInSpace};

impl Gathering<'_> {
    /// Channels between each two neighbouring members that have the tube between them.
    pub(super) fn channels(&mut self) {
        for which in 0..self.near.len() {
            let first = self.near[which];
            let span = &self.case.spans[first];
            for later in which + 1..self.near.len() {
                let second = self.near[later];
                let other = &self.case.spans[second];
                if other.framing != span.framing || other.row > span.row + 1 {
                    break;
                }
                if other.row == span.row + 1 {
                    self.between(first, second);
                }
            }
        }
    }

    fn between(&mut self, first: usize, second: usize) {
        let spans = self.case.spans;
        let (a, b) = (&spans[first], &spans[second]);
        let start = self.axis.point(0.0).truncate();
        let mut range = StationRange {
            from_m: 0.0,
            to_m: self.axis.tube_length_m,
        };
        for span in [a, b] {
            range = range.narrowed(
                (start - span.start).dot(span.direction),
                self.axis.plan_length(self.axis.heading.dot(span.direction)),
                span.usable_m.0,
                span.usable_m.1,
            );
        }
        // Between the members: left of one is right of the other.
        let across = a.direction.perp_dot(b.start - a.start);
        range = range.narrowed(
            a.direction.perp_dot(start - a.start),
            self.axis
                .plan_length(a.direction.perp_dot(self.axis.heading)),
            across.min(0.0),
            across.max(0.0),
        );
        for station_m in self.steps(range) {
            self.channel_at(station_m, first, second);
        }
    }

    pub(super) fn channel_at(&mut self, station_m: f64, first: usize, second: usize) {
        let spans = self.case.spans;
        let stock = &self.case.channel;
        let plan = self.axis.point(station_m).truncate();
        let (Some(a), Some(b)) = (End::of(&spans[first], plan), End::of(&spans[second], plan))
        else {
            return;
        };
        let span_m = a.away_m + b.away_m;
        let fits = a.to_member.dot(b.to_member) < 0.0
            && a.away_m >= stock.least_end_m - tolerance::LIMIT
            && b.away_m >= stock.least_end_m - tolerance::LIMIT
            && span_m <= stock.greatest_span_m + tolerance::LIMIT
            && (a.attach_z - b.attach_z).abs() <= stock.greatest_step_m + tolerance::LIMIT;
        if !fits {
            return;
        }
        let z = a.attach_z + (b.attach_z - a.attach_z) * (a.away_m / span_m) - stock.depth_m;
        let Some(reach) = self.reach(station_m, plan.extend(z)) else {
            return;
        };
        let lay = ChannelLay {
            span_m,
            to_first_m: a.away_m,
        };
        let holds = (
            a.hold(&spans[first], first, b.away_m / span_m),
            Some(b.hold(&spans[second], second, a.away_m / span_m)),
        );
        self.add(station_m, Kind::Channel, holds, Some(lay), &reach);
    }
}

/// Where a channel's end lies on its member.
struct End {
    position_m: f64,
    place: Place,
    /// From the hanger square to the member.
    to_member: DVec2,
    away_m: f64,
    attach_z: f64,
}

impl End {
    /// The end square across from a plan point; none where the member can't take it.
    fn of(span: &SpanInSpace, plan: DVec2) -> Option<Self> {
        let position_m = span.position_abreast(plan);
        if !span.usable_at(position_m) {
            return None;
        }
        let place = span.place_at(position_m);
        if let (
            HangPoints::Panels {
                off_panel: None, ..
            },
            Place::ChordPanel(_),
        ) = (&span.hang_points, place)
        {
            return None;
        }
        let to_member = span.plan_at(position_m) - plan;
        Some(Self {
            position_m,
            place,
            to_member,
            away_m: to_member.length(),
            attach_z: span.attach_at(position_m),
        })
    }

    fn hold(&self, span: &SpanInSpace, index: usize, share: f64) -> Hold {
        Hold {
            member: span.id.clone(),
            span: index,
            place: self.place,
            position_m: self.position_m,
            share,
        }
    }
}
