//! Candidates that hang straight from one member.

use super::{Gathering, Hold, Kind, Place, StationRange, lean_reach, rounded};
use crate::geometry::math::atan2;
use crate::geometry::tolerance;
use crate::hanging::steel::{HangPoints, SpanInSpace};

/// Plan angle between run and member, degrees, from which on a member is hung from
/// where the run crosses it. Below it the crossing says little: the member
/// accompanies the run.
const LEAST_CROSSING_ANGLE_DEG: f64 = 15.0;

impl Gathering<'_> {
    /// Panel points, crossings, and places along members that accompany the run.
    pub(super) fn direct(&mut self) {
        for which in 0..self.near.len() {
            let index = self.near[which];
            let span = &self.case.spans[index];
            match &span.hang_points {
                HangPoints::Panels {
                    points_m,
                    off_panel,
                    ..
                } => {
                    self.panel_points(index, span, points_m);
                    if off_panel.is_some() {
                        self.anywhere(index, span);
                    }
                }
                HangPoints::Anywhere { .. } => self.anywhere(index, span),
            }
        }
    }

    fn panel_points(&mut self, index: usize, span: &SpanInSpace, points_m: &[f64]) {
        for (which, &position_m) in points_m.iter().enumerate() {
            if !span.usable_at(position_m) {
                continue;
            }
            let plan = span.plan_at(position_m);
            let station_m = rounded(self.axis.station_abreast(plan));
            if !self.on_tube(station_m) {
                continue;
            }
            let attach = plan.extend(span.attach_at(position_m));
            if let Some(reach) = self.reach(station_m, attach) {
                let hold = whole(index, span, Place::PanelPoint(which + 1), position_m);
                self.add(station_m, Kind::Panel, (hold, None), None, &reach);
            }
        }
    }

    fn anywhere(&mut self, index: usize, span: &SpanInSpace) {
        let heading = self.axis.heading;
        let sine = heading.perp_dot(span.direction);
        let angle = atan2(sine.abs(), heading.dot(span.direction).abs());
        if angle >= LEAST_CROSSING_ANGLE_DEG.to_radians() - tolerance::LIMIT {
            let from = span.start - self.axis.point(0.0).truncate();
            let crossing = span.plan_at(from.perp_dot(heading) / sine);
            let station_m = rounded(self.axis.station_abreast(crossing));
            if self.on_tube(station_m) {
                self.foot(index, span, station_m);
            }
            return;
        }
        let position = (self.axis.point(0.0).truncate() - span.start).dot(span.direction);
        let per_m = self.axis.plan_length(heading.dot(span.direction));
        let whole_tube = StationRange {
            from_m: 0.0,
            to_m: self.axis.tube_length_m,
        };
        let lean_reach_m = lean_reach(self.case, &self.axis, span);
        let range = whole_tube
            .narrowed(position, per_m, span.usable_m.0, span.usable_m.1)
            .narrowed(
                self.axis.offset_left(span.plan_at(position)),
                per_m * sine,
                -lean_reach_m,
                lean_reach_m,
            );
        for station_m in self.steps(range) {
            self.foot(index, span, station_m);
        }
    }

    /// The hold straight across from a station: the foot of the axis on the member.
    fn foot(&mut self, index: usize, span: &SpanInSpace, station_m: f64) {
        let position_m = span.position_abreast(self.axis.point(station_m).truncate());
        if !span.usable_at(position_m) {
            return;
        }
        let place = span.place_at(position_m);
        let kind = match place {
            // The panel point itself is a candidate already.
            Place::PanelPoint(_) => return,
            Place::ChordPanel(_) => Kind::OffPanel,
            Place::Line => Kind::Line,
        };
        let attach = span.plan_at(position_m).extend(span.attach_at(position_m));
        if let Some(reach) = self.reach(station_m, attach) {
            let hold = whole(index, span, place, position_m);
            self.add(station_m, kind, (hold, None), None, &reach);
        }
    }
}

/// A hold that carries all of its hanger's load.
pub(super) fn whole(index: usize, span: &SpanInSpace, place: Place, position_m: f64) -> Hold {
    Hold {
        member: span.id.clone(),
        span: index,
        place,
        position_m,
        share: 1.0,
    }
}
