//! Where the picked run could hang from: small quiet marks by kind, on the tube where the
//! hanger would be.

use super::labels::{Label, Labels, Weight};
use super::pen::Pen;
use crate::editor::Editor;
use crate::editor::extent::RunPlan;
use crate::editor::theme::TextSize;
use crate::editor::view::Layer;
use crate::geometry::DVec2;
use crate::hanging::{Candidate, Kind, RunAxis};
use crate::study::RunStudy;
use eframe::egui::{Align2, Color32, Pos2, Shape, Stroke, Vec2};

/// From this distance on the screen between a metre's ends the marks are drawn, points.
const FROM: f32 = 14.0;
/// From this distance between stations each cross channel has a mark of its own.
const EACH_FROM: f32 = 5.0;
/// From this distance between direct hang points their names have room.
const NAMES_FROM: f32 = 76.0;
/// Half the size of a mark, points.
const SIZE: f32 = 2.6;
/// Stations of cross channels farther apart than this are not one stretch, m.
const ONE_STRETCH: f64 = 0.075;

/// The hang points of the only picked run.
pub(super) fn hang_points(pen: &mut Pen<'_>, labels: &mut Labels, editor: &Editor) {
    let Some(study) = editor.hung_run() else {
        return;
    };
    if pen.camera.screen_length(1.0) < FROM {
        return;
    }
    let all = editor.hang_points.of(&study.run.id);
    let axis = study.geometry.axis();
    let plan = RunPlan::of(&study.run, &editor.catalogue);
    channels(pen, all, &axis, &plan);
    let direct: Vec<&Candidate> = all
        .iter()
        .filter(|it| it.kind != Kind::Channel && !is_taken(study, it))
        .collect();
    let apart = direct
        .windows(2)
        .map(|pair| pair[1].station_m - pair[0].station_m)
        .fold(f64::INFINITY, f64::min);
    let apart = pen.camera.screen_length(apart);
    // Along a member that lies beside the run there is one every few centimetres.
    if apart < EACH_FROM {
        let stations: Vec<f64> = direct.iter().map(|it| it.station_m).collect();
        stretches(pen, &stations, &axis, &plan, -1.0);
        return;
    }
    for it in direct {
        let at = axis.point(it.station_m).truncate();
        if !pen.sees(&[at]) {
            continue;
        }
        mark(pen, it, at);
        if NAMES_FROM <= apart && editor.view.shows(Layer::Labels) {
            name(pen, labels, it, at, &plan);
        }
    }
}

fn is_taken(study: &RunStudy, it: &Candidate) -> bool {
    let hangers = &study.hanging.hangers;
    hangers
        .iter()
        .any(|hanger| (hanger.at.station_m - it.station_m).abs() < 1e-3)
}

/// Ring: a panel point. Stroke: anywhere on a beam or purlin. Square: off panel points.
/// One that the maker's rule refuses is struck out.
fn mark(pen: &mut Pen<'_>, it: &Candidate, at: DVec2) {
    let colour = pen.roles.hang_point;
    let stroke = Stroke::new(1.2, colour);
    let ground = pen.roles.ground;
    let centre = pen.at(at);
    let attach = pen.at(it.attach.truncate());
    if SIZE < (attach - centre).length() {
        pen.add(Shape::line_segment(
            [centre, attach],
            Stroke::new(0.8, colour),
        ));
    }
    match it.kind {
        Kind::Panel => pen.disc(at, SIZE, ground, stroke),
        Kind::Line | Kind::Channel => {
            let across = Vec2::new(0.0, SIZE + 1.0);
            pen.add(Shape::line_segment(
                [centre - across, centre + across],
                stroke,
            ));
        }
        Kind::OffPanel => {
            let points: Vec<Pos2> = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]
                .map(|(x, y)| centre + Vec2::new(x, y) * SIZE)
                .to_vec();
            pen.add(Shape::convex_polygon(points, ground, stroke));
        }
    }
    if it.refused.is_some() {
        let arm = Vec2::new(SIZE + 2.0, -SIZE - 2.0);
        let stroke = Stroke::new(1.2, pen.roles.caution);
        pen.add(Shape::line_segment([centre - arm, centre + arm], stroke));
    }
}

/// Where cross channels could lie: a tick each where there is room, else a line along
/// each stretch.
fn channels(pen: &mut Pen<'_>, all: &[Candidate], axis: &RunAxis, plan: &RunPlan) {
    let stations: Vec<f64> = all
        .iter()
        .filter(|it| it.kind == Kind::Channel && it.refused.is_none())
        .map(|it| it.station_m)
        .collect();
    stretches(pen, &stations, axis, plan, 1.0);
}

/// Marks that are close together, along the left or the right edge of the reflector.
fn stretches(pen: &mut Pen<'_>, stations: &[f64], axis: &RunAxis, plan: &RunPlan, side: f64) {
    let stroke = Stroke::new(1.0, pen.roles.hang_point);
    let off = plan.left * (side * (plan.half_width_m + pen.camera.site_length(3.0)));
    let tick = plan.left * (side * pen.camera.site_length(3.0));
    let at = |station: f64| axis.point(station).truncate() + off;
    let mut begun: Option<f64> = None;
    for (place, station) in stations.iter().enumerate() {
        let from = *begun.get_or_insert(*station);
        let goes_on = stations
            .get(place + 1)
            .is_some_and(|next| next - station <= ONE_STRETCH);
        if EACH_FROM <= pen.camera.screen_length(0.05) {
            pen.line(at(*station), at(*station) + tick, stroke);
        }
        if !goes_on {
            let (a, b) = (at(from), at(*station));
            pen.line(a, b, stroke);
            pen.line(a - tick * 0.5, a + tick, stroke);
            pen.line(b - tick * 0.5, b + tick, stroke);
            begun = None;
        }
    }
}

fn name(pen: &Pen<'_>, labels: &mut Labels, it: &Candidate, at: DVec2, plan: &RunPlan) {
    let member = &it.first.member;
    let number = member.split('/').next().unwrap_or(member);
    let text = match it.first.place.panel_point() {
        Some(point) => format!("{number} p{point}"),
        None => number.to_owned(),
    };
    let across = pen.camera.screen_vector(plan.left).normalized();
    let off = across * (pen.camera.screen_length(plan.half_width_m).max(5.0) + 10.0);
    let at = pen.at(at);
    labels.want(Label {
        text,
        font: TextSize::Small.font(),
        colour: pen.roles.dimension_quiet,
        ground: Some(Color32::TRANSPARENT),
        weight: Weight::Steel,
        places: vec![
            (at + off, Align2::CENTER_CENTER),
            (at - off, Align2::CENTER_CENTER),
        ],
    });
}
