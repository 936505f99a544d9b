//! Runs: burner, tube, exhaust, tilt, hangers and cross channels.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::geometry::{Bounds, DVec2, DVec3};
use crate::sheets::layer::Layer;
use crate::sheets::mark::{Area, Mark, Polyline};
use crate::sheets::paper::PaperPoint;
use crate::sheets::pen::Pen;
use crate::sheets::symbol::SymbolUse;
use crate::structure::Member;
use crate::study::RunStudy;

use super::Drawing;
use super::run_shape::RunShape;
use super::symbols::{self, Symbols};
use crate::sheets::pages::hangers::{HungAt, members_by_id, of_run};
use crate::sheets::pages::wording;

/// A run as it was drawn, to be named.
pub(super) struct DrawnRun<'a> {
    /// The run.
    pub run: &'a Arc<RunStudy>,
    /// Its axis on paper, from the burner flange to the end of the tube.
    pub axis: [PaperPoint; 2],
    /// Half its width on paper: legs and hangers, mm.
    pub half_mm: f64,
    /// To which side of the paper it is tilted.
    pub aim: Option<DVec2>,
    /// Its hangers, and where they are on paper.
    pub hangers: Vec<(HungAt<'a>, PaperPoint)>,
}

/// A reflector narrower than this on paper is not drawn beside its tube, mm.
const LEAST_REFLECTOR_MM: f64 = 3.2;
/// A burner is drawn at least this long and this wide, mm.
const LEAST_BURNER_MM: (f64, f64) = (2.2, 1.8);
/// How far a tilt arrow reaches beyond its run, mm.
const TILT_MM: f64 = 3.6;

/// Draws every run.
pub(super) fn draw<'a>(drawing: &mut Drawing<'a>) -> Vec<DrawnRun<'a>> {
    let study = drawing.input.study;
    let members = members_by_id(study);
    let symbols = symbols(drawing);
    let mut drawn = Vec::new();
    for run in &study.runs {
        drawn.push(draw_run(drawing, run, &members, &symbols));
    }
    drawn
}

/// Marks small enough that those of neighbours do not meet.
fn symbols(drawing: &Drawing<'_>) -> Symbols {
    let mut least_m = f64::INFINITY;
    for run in &drawing.input.study.runs {
        for pair in run.hanging.hangers.windows(2) {
            least_m = least_m.min(pair[1].at.station_m - pair[0].at.station_m);
        }
    }
    Symbols::for_pitch(drawing.mm(least_m))
}

fn draw_run<'a>(
    drawing: &mut Drawing<'a>,
    run: &'a Arc<RunStudy>,
    members: &BTreeMap<&str, &'a Arc<Member>>,
    symbols: &Symbols,
) -> DrawnRun<'a> {
    let shape = RunShape::new(run);
    let id = run.run.id.as_str();
    let on_run = |mark: Mark| mark.of("run", id);
    if shows_reflector(drawing, &shape) {
        let outline = shape.corners(&shape.tube).map(|corner| drawing.at(corner));
        let line = Polyline::closed(Pen::HAIR, outline);
        drawing.draw_avoided(on_run(Mark::new(Layer::HeatTube, line)));
    }
    draw_tilt(drawing, run, &shape);
    let tube: Vec<PaperPoint> = shape.tube_line().iter().map(|&it| drawing.at(it)).collect();
    drawing.draw(on_run(
        Mark::new(Layer::HeatTube, Polyline::open(Pen::BOLD, tube)).key(),
    ));
    let burner = burner(drawing, &shape);
    drawing.draw(on_run(Mark::new(Layer::HeatTube, Area::new(burner)).key()));
    let (tip, out) = shape.exhaust_tip();
    let chevron = symbols::exhaust(drawing.at(tip), drawing.direction(out));
    drawing.draw(on_run(Mark::new(Layer::HeatTube, chevron).key()));
    let hangers = of_run(drawing.input.study, run, members)
        .into_iter()
        .map(|hung| {
            let at = draw_hanger(drawing, &hung, &shape, symbols);
            (hung, at)
        })
        .collect();
    DrawnRun {
        run,
        axis: [
            drawing.at(shape.plan(0.0, 0.0)),
            drawing.at(shape.plan(shape.leg_m, 0.0)),
        ],
        half_mm: half_mm(drawing, &shape).max(symbols.half_mm),
        aim: wording::aim(&run.run).map(|aim| drawing.direction(aim)),
        hangers,
    }
}

fn shows_reflector(drawing: &Drawing<'_>, shape: &RunShape<'_>) -> bool {
    LEAST_REFLECTOR_MM <= drawing.mm(shape.tube.high.y - shape.tube.low.y)
}

/// Half the width of what is drawn along a run, on paper, mm.
fn half_mm(drawing: &Drawing<'_>, shape: &RunShape<'_>) -> f64 {
    let legs_m = shape.tube_l.map(f64::abs).into_iter().fold(0.0, f64::max);
    let reflector_m = shape.tube.high.y.max(-shape.tube.low.y);
    if shows_reflector(drawing, shape) {
        drawing.mm(reflector_m.max(legs_m))
    } else {
        drawing.mm(legs_m) + Pen::BOLD.width.mm() / 2.0
    }
}

fn draw_hanger(
    drawing: &mut Drawing<'_>,
    hung: &HungAt<'_>,
    shape: &RunShape<'_>,
    symbols: &Symbols,
) -> PaperPoint {
    let candidate = &hung.hanger.at;
    if let [Some(one), Some(other)] = shape.legs() {
        // One hanger carries both legs from a yoke.
        let ends = [one, other].map(|l| drawing.at(shape.plan(candidate.station_m, l)));
        let yoke = Polyline::open(Pen::THIN, ends);
        drawing.draw(
            Mark::new(Layer::HeatHanger, yoke)
                .key()
                .of("yoke", &hung.id),
        );
    }
    let at = drawing.at(candidate.attach.truncate());
    let used = SymbolUse::new(symbols.hanger(candidate.kind), at)
        .keeping("ID", &hung.id)
        .keeping("KIND", wording::kind(candidate.kind))
        .keeping("MEMBER", &hung.members())
        .keeping("SUSPENSION", &drawing.figures.cut(candidate.suspension_m))
        .keeping("LOAD", &drawing.figures.load(hung.hanger.load.load_n));
    drawing.draw(
        Mark::new(Layer::HeatHanger, used)
            .key()
            .of("hanger", &hung.id),
    );
    if hung.is_overloaded() {
        for stroke in symbols.overloaded(at) {
            drawing.draw(
                Mark::new(Layer::HeatHanger, stroke)
                    .key()
                    .of("overloaded", &hung.id),
            );
        }
    }
    at
}

/// Draws the arrow to the side that the reflector aims at, between two hangers.
fn draw_tilt(drawing: &mut Drawing<'_>, run: &RunStudy, shape: &RunShape<'_>) {
    let Some(aim) = wording::aim(&run.run) else {
        return;
    };
    let from = drawing.at(shape.plan(free_station(run, shape.leg_m, 0.5), 0.0));
    let length_mm = half_mm(drawing, shape) + TILT_MM;
    let parts = symbols::tilt(from, drawing.direction(aim), length_mm);
    for part in parts {
        let mark = Mark::new(Layer::HeatTube, part)
            .key()
            .of("run", run.run.id.as_str());
        drawing.draw(mark);
    }
}

/// A station half way between two hangers, as near as can be to a part of the leg.
pub(super) fn free_station(run: &RunStudy, leg_m: f64, part: f64) -> f64 {
    let wanted = leg_m * part;
    let between = run.hanging.hangers.windows(2);
    let middles = between.map(|pair| f64::midpoint(pair[0].at.station_m, pair[1].at.station_m));
    middles
        .min_by(|a, b| (a - wanted).abs().total_cmp(&(b - wanted).abs()))
        .unwrap_or(wanted)
}

/// The burner's box on paper, as long and wide as it is, or as can be seen.
fn burner(drawing: &Drawing<'_>, shape: &RunShape<'_>) -> [PaperPoint; 4] {
    let body = &shape.burner;
    let middle_l = f64::midpoint(body.low.y, body.high.y);
    let scale = drawing.viewport.scale;
    let length_m = (body.high.x - body.low.x).max(scale.site_m(LEAST_BURNER_MM.0));
    let half_m = ((body.high.y - body.low.y).max(scale.site_m(LEAST_BURNER_MM.1))) / 2.0;
    let seen = Bounds {
        low: DVec3::new(body.high.x - length_m, middle_l - half_m, 0.0),
        high: DVec3::new(body.high.x, middle_l + half_m, 0.0),
    };
    shape.corners(&seen).map(|corner| drawing.at(corner))
}
