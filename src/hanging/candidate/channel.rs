//! Candidates on a channel across two neighbouring members.

use super::gathering::{Gathering, Near, StationRange, only_panel_points};
use super::spot::Grip;
use super::{Kind, Place};
use crate::geometry::{DVec2, tolerance};
use crate::hanging::steel::SpanInSpace;

impl Gathering<'_> {
    /// Channels between each two neighbouring members that have the tube between them.
    pub(super) fn channels(&mut self, near: &[Near]) {
        let spans = self.case.spans;
        for (which, one) in near.iter().enumerate() {
            let span = &spans[one.index];
            for other in &near[which + 1..] {
                let next = &spans[other.index];
                if next.framing != span.framing || next.row.abs_diff(span.row) > 1 {
                    break;
                }
                if next.row == span.row + 1 {
                    self.between(one.index, other.index);
                } else if span.row == next.row + 1 {
                    self.between(other.index, one.index);
                }
            }
        }
    }

    fn between(&mut self, first: usize, second: usize) {
        let spans = self.case.spans;
        let (a, b) = (&spans[first], &spans[second]);
        let start = self.axis.point(0.0).truncate();
        let per_m = |direction: DVec2| self.axis.plan_length(self.axis.heading.dot(direction));
        let mut range = StationRange::whole(self.axis.tube_length_m);
        for span in [a, b] {
            range = range.narrowed(
                span.position_abreast(start),
                per_m(span.direction),
                span.usable_m.0,
                span.usable_m.1,
            );
        }
        // Between the members: left of one is right of the other.
        let left = a.direction.perp();
        let across_m = left.dot(b.start - a.start);
        range = range.narrowed(
            left.dot(start - a.start),
            per_m(left),
            across_m.min(0.0),
            across_m.max(0.0),
        );
        for station_m in self.steps(range) {
            self.channel_at(station_m, first, second);
        }
    }

    /// Notes a channel at a station, if one fits between two spans.
    pub(super) fn channel_at(&mut self, station_m: f64, first: usize, second: usize) {
        let spans = self.case.spans;
        let stock = &self.case.channel;
        let plan = self.axis.point(station_m).truncate();
        let (Some(a), Some(b)) = (End::of(&spans[first], plan), End::of(&spans[second], plan))
        else {
            return;
        };
        let (a_m, b_m) = (a.to_member.length(), b.to_member.length());
        let span_m = a_m + b_m;
        let fits = a.to_member.dot(b.to_member) < 0.0
            && a_m >= stock.least_end_m - tolerance::LIMIT
            && b_m >= stock.least_end_m - tolerance::LIMIT
            && span_m <= stock.greatest_span_m + tolerance::LIMIT;
        if !fits {
            return;
        }
        let (z_a, z_b) = (
            spans[first].attach_at(a.position_m),
            spans[second].attach_at(b.position_m),
        );
        let z = z_a + (z_b - z_a) * (a_m / span_m) - stock.depth_m;
        let level = (z_a - z_b).abs() <= stock.greatest_step_m + tolerance::LIMIT;
        if level && self.is_above(station_m, z) {
            let suspension_m = z - self.axis.eye(station_m).z;
            let grip = |span: usize, end: End| Grip {
                span,
                position_m: end.position_m,
            };
            let (first, second) = (grip(first, a), Some(grip(second, b)));
            self.add(station_m, Kind::Channel, suspension_m, first, second);
        }
    }
}

/// Where a channel's end lies on its member.
#[derive(Debug, Clone, Copy)]
struct End {
    position_m: f64,
    /// From the hanger square to the member.
    to_member: DVec2,
}

impl End {
    /// The end square across from a plan point; none where the member can't take it.
    fn of(span: &SpanInSpace, plan: DVec2) -> Option<Self> {
        let position_m = span.position_abreast(plan);
        let refused = !span.usable_at(position_m)
            || (only_panel_points(span)
                && !matches!(span.place_at(position_m), Place::PanelPoint(_)));
        (!refused).then(|| Self {
            position_m,
            to_member: span.plan_at(position_m) - plan,
        })
    }
}
