//! Members and their hang points.

use super::labels::{Label, Labels, Weight};
use super::pen::{DASHED, Pen};
use crate::editor::stage::Stage;
use crate::editor::theme::TextSize;
use crate::geometry::DVec2;
use crate::site::MemberKind;
use crate::structure::Member;
use eframe::egui::{Align2, Color32, Stroke, Vec2};
use std::sync::Arc;

/// From this distance between panel points on the screen they are drawn, points.
const PANEL_POINTS_FROM: f32 = 9.0;
/// From this distance they are drawn while another stage is open.
const QUIET_PANEL_POINTS_FROM: f32 = 16.0;
/// From this distance between panel points their numbers have room.
const PANEL_NUMBERS_FROM: f32 = 40.0;
/// From this width of a chord on the screen both its edges are drawn, points.
const EDGES_FROM: f32 = 4.0;

/// The members, each by the weight of its kind.
pub(super) fn members(pen: &mut Pen<'_>, members: &[Arc<Member>], stage: Stage) {
    for member in members {
        let colour = colour(pen, member, stage);
        let (a, b) = (member.start, member.end());
        let width = pen.camera.screen_length(member.width_m);
        let line = match member.kind {
            MemberKind::OpenWebJoist => 1.0,
            MemberKind::Purlin => 0.8,
            MemberKind::Beam => 1.8,
            MemberKind::TimberTruss => 1.5,
        };
        let line = if member.is_as_built { line + 0.6 } else { line };
        if width < EDGES_FROM {
            pen.line(a, b, Stroke::new(line, colour));
        } else {
            let across = member.direction.perp() * (member.width_m / 2.0);
            let ring = [a + across, a - across, b - across, b + across];
            if stage == Stage::Steel {
                pen.fill(&ring, &[], pen.roles.steel_fill);
            }
            pen.line(ring[0], ring[3], Stroke::new(line, colour));
            pen.line(ring[1], ring[2], Stroke::new(line, colour));
            pen.dashed(a, b, Stroke::new(0.6, colour), DASHED);
        }
    }
}

fn colour(pen: &Pen<'_>, member: &Member, stage: Stage) -> Color32 {
    if member.is_as_built && matches!(stage, Stage::Steel | Stage::Runs) {
        pen.roles.member_changed
    } else if stage == Stage::Steel {
        pen.roles.member
    } else {
        pen.roles.member_quiet
    }
}

/// Panel points, and their numbers when there is room.
pub(super) fn hang_points(
    pen: &mut Pen<'_>,
    labels: &mut Labels,
    members: &[Arc<Member>],
    stage: Stage,
) {
    if !matches!(stage, Stage::Steel | Stage::Runs) {
        return;
    }
    for member in members {
        let Some(apart) = panel_spacing(member).map(|m| pen.camera.screen_length(m)) else {
            continue;
        };
        let from = match stage {
            Stage::Steel => PANEL_POINTS_FROM,
            _ => QUIET_PANEL_POINTS_FROM,
        };
        if apart < from || !pen.sees(&[member.start, member.end()]) {
            continue;
        }
        let radius = (apart / 9.0).clamp(1.2, 2.6);
        for point in &member.panel_points {
            let at = member.plan_at(point.at_m);
            if !pen.sees(&[at]) {
                continue;
            }
            pen.disc(at, radius, pen.roles.hang_point, Stroke::NONE);
            if PANEL_NUMBERS_FROM <= apart {
                let screen = pen.at(at);
                labels.want(Label {
                    text: point.number.to_string(),
                    font: TextSize::Small.font(),
                    colour: pen.roles.dimension_quiet,
                    ground: None,
                    weight: Weight::Steel,
                    places: vec![
                        (screen + Vec2::new(6.0, 0.0), Align2::LEFT_CENTER),
                        (screen - Vec2::new(6.0, 0.0), Align2::RIGHT_CENTER),
                    ],
                });
            }
        }
    }
}

fn panel_spacing(member: &Member) -> Option<f64> {
    match member.panel_points.as_slice() {
        [first, second, ..] => Some(second.at_m - first.at_m),
        _ => None,
    }
}

/// The members' names, at the end that is in view.
pub(super) fn names(pen: &Pen<'_>, labels: &mut Labels, members: &[Arc<Member>], stage: Stage) {
    /// From this distance between members their names have room, points.
    const FROM: f32 = 26.0;
    if !matches!(stage, Stage::Steel | Stage::Runs) {
        return;
    }
    for member in members {
        let apart = apart_m(members, member).map_or(FROM, |m| pen.camera.screen_length(m));
        if FROM <= apart {
            want_name(pen, labels, member);
        }
    }
}

/// Distance to the next member of the framing; none where there is no other.
fn apart_m(members: &[Arc<Member>], member: &Member) -> Option<f64> {
    // They are ordered by number: the next one follows within a few spans.
    let place = members.partition_point(|it| {
        (it.framing_index, it.number) < (member.framing_index, member.number)
    });
    let other = members[place..]
        .iter()
        .find(|it| it.number != member.number)
        .filter(|it| it.framing == member.framing)
        .or_else(|| members[..place].last())
        .filter(|it| it.framing == member.framing)?;
    Some(
        (other.start - member.start)
            .perp_dot(member.direction)
            .abs(),
    )
}

fn want_name(pen: &Pen<'_>, labels: &mut Labels, member: &Member) {
    let Some((from, to)) = pen.visible_piece(member.start, member.end()) else {
        return;
    };
    let inset = pen.camera.site_length(48.0);
    if (to - from).length() < 2.0 * inset {
        return;
    }
    let at = |point: DVec2, step: DVec2| pen.at(point + step);
    let step = member.direction * inset;
    labels.want(Label {
        text: member.id.to_string(),
        font: TextSize::Small.font(),
        colour: pen.roles.dimension_quiet,
        ground: Some(pen.roles.label_ground),
        weight: Weight::Steel,
        places: vec![
            (at(from, step), Align2::CENTER_CENTER),
            (at(to, -step), Align2::CENTER_CENTER),
        ],
    });
}
