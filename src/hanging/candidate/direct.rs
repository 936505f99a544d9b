//! Candidates that hang straight from one member.

use super::gathering::{Gathering, Near, StationRange, only_panel_points, rounded};
use super::spot::Grip;
use super::{Kind, Place};
use crate::hanging::steel::HangPoints;

impl Gathering<'_> {
    /// Panel points, the crossing, and places along a member that accompanies the run.
    pub(super) fn direct(&mut self, near: Near) {
        let span = &self.case.spans[near.index];
        self.panel_points(near);
        if !only_panel_points(span) {
            self.anywhere(near);
        }
    }

    fn panel_points(&mut self, near: Near) {
        let span = &self.case.spans[near.index];
        let HangPoints::Panels { points_m, .. } = &span.hang_points else {
            return;
        };
        // Those within reach of a lean, found without a look at all of them.
        let sine = self.axis.heading.perp_dot(span.direction);
        let within = StationRange::whole(f64::INFINITY).narrowed(
            self.axis.offset_left(span.start),
            sine,
            -near.lean_reach_m,
            near.lean_reach_m,
        );
        let from = points_m.partition_point(|&point_m| point_m < within.from_m);
        for (which, &position_m) in points_m.iter().enumerate().skip(from) {
            if position_m > within.to_m {
                break;
            }
            let station_m = rounded(self.axis.station_abreast(span.plan_at(position_m)));
            if span.usable_at(position_m) && self.on_tube(station_m) {
                let grip = Grip {
                    span: near.index,
                    position_m,
                };
                debug_assert_eq!(span.place_at(position_m), Place::PanelPoint(which + 1));
                self.add_direct(station_m, Kind::Panel, grip);
            }
        }
    }

    fn anywhere(&mut self, near: Near) {
        let span = &self.case.spans[near.index];
        let heading = self.axis.heading;
        let (sine, cosine) = (
            heading.perp_dot(span.direction),
            heading.dot(span.direction),
        );
        let start = self.axis.point(0.0).truncate();
        if sine.abs() >= self.least_crossing * cosine.abs() {
            let crossing_m = (span.start - start).perp_dot(heading) / sine;
            let station_m = rounded(self.axis.station_abreast(span.plan_at(crossing_m)));
            if self.on_tube(station_m) {
                self.foot(near.index, station_m);
            }
            return;
        }
        let position_m = span.position_abreast(start);
        let per_m = self.axis.plan_length(cosine);
        let range = StationRange::whole(self.axis.tube_length_m)
            .narrowed(position_m, per_m, span.usable_m.0, span.usable_m.1)
            .narrowed(
                self.axis.offset_left(span.plan_at(position_m)),
                per_m * sine,
                -near.lean_reach_m,
                near.lean_reach_m,
            );
        for station_m in self.steps(range) {
            self.foot(near.index, station_m);
        }
    }

    /// The hold straight across from a station: the foot of the axis on the member.
    fn foot(&mut self, index: usize, station_m: f64) {
        let span = &self.case.spans[index];
        let position_m = span.position_abreast(self.axis.point(station_m).truncate());
        if !span.usable_at(position_m) {
            return;
        }
        let kind = match span.place_at(position_m) {
            // The panel point itself is a candidate already.
            Place::PanelPoint(_) => return,
            Place::ChordPanel(_) => Kind::OffPanel,
            Place::Line => Kind::Line,
        };
        let grip = Grip {
            span: index,
            position_m,
        };
        self.add_direct(station_m, kind, grip);
    }
}
