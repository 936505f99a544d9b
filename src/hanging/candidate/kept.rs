//! The place of a hanger that was put there, whether or not it would be proposed.

use super::{Candidate, Gathering, Kind, Place, reach, rounded};
use crate::geometry::tolerance;
use crate::hanging::case::Case;
use crate::hanging::locked::{LockedHanger, Loss};
use crate::hanging::steel::{HangPoints, SpanInSpace};

/// The candidate that a kept hanger is: the proposed one at its station and members,
/// if there is one; else the hang point of its member that is nearest to its station,
/// however its suspension leans.
pub(in crate::hanging) fn kept(
    case: &Case<'_>,
    candidates: &[Candidate],
    hanger: &LockedHanger,
) -> Result<Candidate, Loss> {
    let mut work = Gathering::empty(case);
    let station_m = rounded(hanger.station_m);
    if !work.on_tube(station_m) {
        return Err(Loss::OffTube);
    }
    let proposed = candidates.iter().find(|candidate| {
        (candidate.station_m - station_m).abs() <= tolerance::LIMIT
            && candidate
                .members()
                .eq(hanger.members.iter().map(|member| &**member))
            && hanger
                .panel_point
                .is_none_or(|point| candidate.first.place == Place::PanelPoint(point))
    });
    if let Some(candidate) = proposed {
        return Ok(candidate.clone());
    }
    let find = |id: &str| case.spans.iter().position(|span| *span.id == *id);
    let mut spans = Vec::new();
    for member in &hanger.members {
        spans.push(find(member).ok_or(Loss::NoSuchMember)?);
    }
    match spans[..] {
        [only] => work.hang_from(station_m, only, hanger.panel_point)?,
        [first, second] => {
            work.greatest_lean_rad = f64::INFINITY;
            work.channel_at(station_m, first, second);
        }
        _ => {}
    }
    work.list.pop().ok_or(Loss::NoHold)
}

impl Gathering<'_> {
    fn hang_from(
        &mut self,
        station_m: f64,
        index: usize,
        panel_point: Option<usize>,
    ) -> Result<(), Loss> {
        let span = &self.case.spans[index];
        let abreast_m = span.position_abreast(self.axis.point(station_m).truncate());
        let position_m = hang_position(span, abreast_m, panel_point).ok_or(Loss::NoHold)?;
        let place = span.place_at(position_m);
        let kind = match place {
            Place::PanelPoint(_) => Kind::Panel,
            Place::ChordPanel(_) => Kind::OffPanel,
            Place::Line => Kind::Line,
        };
        let attach = span.plan_at(position_m).extend(span.attach_at(position_m));
        let reach = reach(&self.axis, station_m, attach).ok_or(Loss::NotAbove)?;
        let hold = super::direct::whole(index, span, place, position_m);
        self.add(station_m, kind, (hold, None), None, &reach);
        Ok(())
    }
}

/// Where on a span a hanger near a position is attached: at the panel point that was
/// asked for, at one that is near enough, straight across where that is allowed, or
/// at the nearest panel point.
fn hang_position(span: &SpanInSpace, abreast_m: f64, panel_point: Option<usize>) -> Option<f64> {
    let within = abreast_m.max(span.usable_m.0).min(span.usable_m.1);
    let HangPoints::Panels {
        points_m,
        off_panel,
        ..
    } = &span.hang_points
    else {
        return Some(within);
    };
    if let Some(number) = panel_point {
        return points_m.get(number.checked_sub(1)?).copied();
    }
    match span.place_at(within) {
        Place::PanelPoint(number) => points_m.get(number - 1).copied(),
        _ if off_panel.is_some() => Some(within),
        _ => points_m
            .iter()
            .copied()
            .min_by(|a, b| (a - within).abs().total_cmp(&(b - within).abs())),
    }
}
