//! The place of a hanger that was put there, whether or not it would be proposed.

use super::channel::Pair;
use super::gathering::{Gathering, only_panel_points, rounded};
use super::spot::Grip;
use super::{Candidate, Kind, Place};
use crate::geometry::tolerance;
use crate::hanging::locked::{LockedAt, LockedHanger, Loss};
use crate::hanging::steel::{HangPoints, SpanInSpace};

/// The candidate that a kept hanger is: the proposed one at its station and members,
/// if there is one; else the hang point of its member that is nearest to its station,
/// however its suspension leans.
pub(in crate::hanging) fn kept(
    all: &Gathering<'_>,
    hanger: &LockedHanger,
) -> Result<Candidate, Loss> {
    let case = all.case;
    let station_m = rounded(hanger.station_m);
    if !all.on_tube(station_m) {
        return Err(Loss::OffTube);
    }
    let proposed = all
        .spots
        .iter()
        .filter(|spot| (spot.station_m - station_m).abs() <= tolerance::LIMIT)
        .map(|spot| all.candidate(spot))
        .filter(|candidate| {
            candidate
                .members()
                .eq(hanger.members.iter().map(|member| &**member))
                && hanger.at.is_none_or(|at| is_at(candidate, at))
        })
        .min_by_key(|candidate| (candidate.refused.is_some(), candidate.cost));
    if let Some(candidate) = proposed {
        return Ok(candidate);
    }
    let mut spans = Vec::new();
    for member in &hanger.members {
        let found = case.spans.iter().position(|span| span.id == *member);
        spans.push(found.ok_or(Loss::NoSuchMember)?);
    }
    let mut work = Gathering::new(case);
    match spans[..] {
        [only] => work.hang_from(station_m, only, hanger.at)?,
        [first, second] => {
            let pair = Pair::new(&work, first, second);
            work.channel_at(station_m, &pair);
        }
        _ => {}
    }
    let spot = work.spots.pop().ok_or(Loss::NoHold)?;
    Ok(work.candidate(&spot))
}

impl Gathering<'_> {
    fn hang_from(
        &mut self,
        station_m: f64,
        index: usize,
        at: Option<LockedAt>,
    ) -> Result<(), Loss> {
        let span = &self.case.spans[index];
        let abreast_m = span.position_abreast(self.axis.point(station_m).truncate());
        let position_m = hang_position(span, abreast_m, at).ok_or(Loss::NoHold)?;
        let kind = match span.place_at(position_m) {
            Place::PanelPoint(_) => Kind::Panel,
            Place::ChordPanel(_) => Kind::OffPanel,
            Place::Line => Kind::Line,
        };
        let attach = span.plan_at(position_m).extend(span.attach_at(position_m));
        if attach.z <= self.axis.highest_eye_m(station_m) {
            return Err(Loss::NotAbove);
        }
        let reach = self.reach(station_m, attach);
        let grip = Grip {
            span: index,
            position_m,
        };
        self.add(station_m, kind, reach.length_m, grip, None);
        Ok(())
    }
}

/// Whether a candidate is what a kept hanger is said to hang from.
fn is_at(candidate: &Candidate, at: LockedAt) -> bool {
    match at {
        LockedAt::PanelPoint(number) => candidate.first.place == Place::PanelPoint(number),
        LockedAt::OffPanel => candidate.kind == Kind::OffPanel,
    }
}

/// Where on a span a hanger near a position is attached: at the panel point that was
/// asked for, at one that is near enough, straight across where that is allowed, or
/// at the nearest panel point.
fn hang_position(span: &SpanInSpace, abreast_m: f64, at: Option<LockedAt>) -> Option<f64> {
    let within = abreast_m.max(span.usable_m.0).min(span.usable_m.1);
    let HangPoints::Panels { points_m, .. } = &span.hang_points else {
        return Some(within);
    };
    let point = |number: usize| points_m.get(number.checked_sub(1)?).copied();
    match (at, span.place_at(within)) {
        (Some(LockedAt::PanelPoint(number)), _) | (_, Place::PanelPoint(number)) => point(number),
        _ if !only_panel_points(span) => Some(within),
        (Some(LockedAt::OffPanel), _) => None,
        (None, _) => points_m
            .iter()
            .copied()
            .min_by(|a, b| (a - within).abs().total_cmp(&(b - within).abs())),
    }
}
