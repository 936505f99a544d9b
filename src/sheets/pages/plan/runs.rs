//! Runs: burner, tube, exhaust, tilt, hangers and cross channels, and what they are
//! called.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::clearance::{Body, Part};
use crate::geometry::{Bounds, DVec2, DVec3, math};
use crate::hanging::Kind;
use crate::sheets::layer::Layer;
use crate::sheets::lettering::Lettering;
use crate::sheets::mark::{Area, Mark, Polyline};
use crate::sheets::paper::PaperPoint;
use crate::sheets::pen::{Ink, Pen};
use crate::sheets::symbol::SymbolUse;
use crate::sheets::text::{Across, Along, Anchor};
use crate::structure::Member;
use crate::study::RunStudy;

use super::symbols::{self, Symbols};
use super::{Drawing, reading_turn};
use crate::sheets::pages::hangers::{HungAt, members_by_id, of_run};
use crate::sheets::pages::labels::{Label, Spot, Wording};
use crate::sheets::pages::wording;

/// A run as it was drawn, to be named.
pub(super) struct DrawnRun<'a> {
    run: &'a Arc<RunStudy>,
    /// Its axis on paper, from the burner flange to the end of the tube.
    axis: [PaperPoint; 2],
    /// Half its width on paper: legs and hangers, mm.
    half_mm: f64,
    /// To which side of the paper it is tilted.
    aim: Option<DVec2>,
    hangers: Vec<(HungAt<'a>, PaperPoint)>,
}

/// A reflector narrower than this on paper is not drawn beside its tube, mm.
const LEAST_REFLECTOR_MM: f64 = 3.2;
/// A burner is drawn at least this long and this wide, mm.
const LEAST_BURNER_MM: (f64, f64) = (2.2, 1.8);
/// How far a tilt arrow reaches beyond its run, mm.
const TILT_MM: f64 = 3.6;
/// Pieces of the arc of a return bend.
const N_BEND: u32 = 8;
/// Letters of run names and hanger numbers.
const LETTERS: Lettering = Lettering::condensed(2.5);
/// Letters of a run's id.
const NAME_LETTERS: Lettering = Lettering::regular(2.5);

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
    if let (Kind::Channel, [first, second]) = (candidate.kind, &hung.holds[..]) {
        for line in symbols::channel(drawing.at(*first), drawing.at(*second)) {
            drawing.draw(
                Mark::new(Layer::HeatHanger, line)
                    .key()
                    .of("channel", &hung.id),
            );
        }
    }
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
fn free_station(run: &RunStudy, leg_m: f64, part: f64) -> f64 {
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

/// The form of a run in plan.
struct RunShape<'a> {
    run: &'a RunStudy,
    leg_m: f64,
    burner: Bounds,
    tube: Bounds,
    exhaust: Bounds,
    bend: Option<Bounds>,
    /// Where the axes of burner leg and exhaust leg are, left of the run's axis, m.
    tube_l: [f64; 2],
}

impl<'a> RunShape<'a> {
    fn new(run: &'a RunStudy) -> Self {
        let of = |part: Part| -> Option<&Body> {
            run.clearance
                .bodies
                .bodies
                .iter()
                .find(|body| body.part == part)
        };
        let leg_m = run.geometry.tube_length_m;
        let nothing = Bounds {
            low: DVec3::ZERO,
            high: DVec3::ZERO,
        };
        let local = |part| of(part).map_or(nothing, |body| body.local);
        let (burner, exhaust) = (local(Part::Burner), local(Part::Exhaust));
        let middle = |bounds: &Bounds| f64::midpoint(bounds.low.y, bounds.high.y);
        Self {
            run,
            leg_m,
            tube: local(Part::Tube),
            bend: of(Part::Bend).map(|body| body.local),
            tube_l: [middle(&burner), middle(&exhaust)],
            burner,
            exhaust,
        }
    }

    /// The plan point at a station and a distance left of the axis.
    fn plan(&self, station_m: f64, left_m: f64) -> DVec2 {
        let frame = &self.run.clearance.bodies.frame;
        frame
            .site_from_local(DVec3::new(station_m, left_m, 0.0))
            .truncate()
    }

    fn corners(&self, bounds: &Bounds) -> [DVec2; 4] {
        [
            (bounds.low.x, bounds.low.y),
            (bounds.high.x, bounds.low.y),
            (bounds.high.x, bounds.high.y),
            (bounds.low.x, bounds.high.y),
        ]
        .map(|(s, l)| self.plan(s, l))
    }

    /// Both legs of a hairpin, left of the axis.
    fn legs(&self) -> [Option<f64>; 2] {
        self.tube_l.map(|l| self.bend.map(|_| l))
    }

    /// The tube's axis from the burner to the exhaust, round the bend of a hairpin.
    fn tube_line(&self) -> Vec<DVec2> {
        let [out_l, back_l] = self.tube_l;
        let Some(bend) = self.bend else {
            return vec![
                self.plan(0.0, out_l),
                self.plan(self.exhaust.high.x, back_l),
            ];
        };
        let depth_m = bend.high.x - self.leg_m;
        let mut line = vec![self.plan(0.0, out_l)];
        // Half an ellipse from leg to leg.
        for step in 0..=N_BEND {
            let turn = std::f64::consts::PI * f64::from(step) / f64::from(N_BEND);
            let station_m = self.leg_m + depth_m * math::sin(turn);
            let part = (1.0 - math::cos(turn)) / 2.0;
            line.push(self.plan(station_m, out_l + (back_l - out_l) * part));
        }
        line.push(self.plan(self.exhaust.low.x, back_l));
        line
    }

    /// The tip of the exhaust and the direction in which it points.
    fn exhaust_tip(&self) -> (DVec2, DVec2) {
        let (station_m, sign) = match self.bend {
            Some(_) => (self.exhaust.low.x, -1.0),
            None => (self.exhaust.high.x, 1.0),
        };
        let tip = self.plan(station_m, self.tube_l[1]);
        let before = self.plan(station_m - sign, self.tube_l[1]);
        (tip, (tip - before).normalize_or_zero())
    }
}

/// Names runs and numbers hangers; returns whether runs are named by their id alone.
pub(super) fn name(drawing: &mut Drawing<'_>, runs: &[DrawnRun<'_>]) -> bool {
    let number_all = hangers_are_roomy(runs);
    for run in runs {
        let n = run.hangers.len();
        for (index, hanger) in run.hangers.iter().enumerate() {
            if index == 0 || index + 1 == n {
                number(drawing, run, hanger);
            }
        }
    }
    let level = wording_level(runs, drawing);
    for run in runs {
        name_run(drawing, run, level);
    }
    if number_all {
        for run in runs {
            let n = run.hangers.len();
            let inner = run.hangers.iter().enumerate();
            for (_, hanger) in inner.filter(|(index, _)| 0 < *index && index + 1 < n) {
                number(drawing, run, hanger);
            }
        }
    }
    level == Level::IdAlone
}

/// Whether the numbers of neighbouring hangers fit side by side everywhere.
fn hangers_are_roomy(runs: &[DrawnRun<'_>]) -> bool {
    const APART_MM: f64 = 1.0;
    runs.iter().all(|run| {
        let direction = run.direction();
        run.hangers.windows(2).all(|pair| {
            let apart = pair[0].1.distance(pair[1].1);
            let text = format!("{}v", pair[1].0.index + 1);
            // Numbers stand level: beside an upright run their height counts.
            let needed = if direction.y.abs() < direction.x.abs() {
                LETTERS.width_mm(&text)
            } else {
                LETTERS.height_mm
            };
            needed + APART_MM <= apart
        })
    })
}

impl DrawnRun<'_> {
    fn direction(&self) -> DVec2 {
        (self.axis[1] - self.axis[0]).normalize_or_zero()
    }

    /// The side of the run, on paper, on which its hangers are numbered: that to which
    /// it is tilted, so that the arrow doesn't meet its name; else above it, or at the left
    /// of an upright run.
    fn number_side(&self) -> DVec2 {
        let across = self.direction().perp();
        if let Some(aim) = self.aim {
            return if 0.0 < across.dot(aim) {
                across
            } else {
                -across
            };
        }
        let is_upright = across.x.abs() > across.y.abs();
        let looks_back = if is_upright {
            across.x > 0.0
        } else {
            across.y > 0.0
        };
        if looks_back { -across } else { across }
    }
}

fn number(drawing: &mut Drawing<'_>, run: &DrawnRun<'_>, hanger: &(HungAt<'_>, PaperPoint)) {
    let (hung, at) = hanger;
    let mark = if hung.must_be_verified() { "v" } else { "" };
    let text = format!("{}{mark}", hung.index + 1);
    let half = DVec2::new(LETTERS.width_mm(&text), LETTERS.height_mm) / 2.0;
    let side = run.number_side();
    let along = run.direction();
    let spot = |direction: DVec2, more_mm: f64, shift_mm: f64| Spot {
        at: *at
            + direction
                * (run.half_mm
                    + 0.8
                    + more_mm
                    + half.x * direction.x.abs()
                    + half.y * direction.y.abs())
            + along * shift_mm,
        turn_degrees: 0.0,
        anchor: Anchor::CENTRE,
    };
    let mut spots = Vec::new();
    for direction in [side, -side] {
        for (more_mm, shift_mm) in [
            (0.0, 0.0),
            (0.0, 1.2),
            (0.0, -1.2),
            (0.2, 2.2),
            (0.2, -2.2),
            (0.2, 3.2),
            (0.2, -3.2),
            (1.0, 0.0),
        ] {
            spots.push(spot(direction, more_mm, shift_mm));
        }
    }
    let label = Label {
        tries: vec![(Wording::line(text, LETTERS), spots)],
        leader: None,
        layer: Layer::HeatText,
        ink: Ink::Black,
    };
    if !drawing.label(&label, "hanger-number", &hung.id) {
        drawing.left_out = true;
    }
}

/// How much is said of each run; the same for all of a sheet, so that it reads evenly.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Level {
    Full,
    Short,
    IdAlone,
}

fn wording_level(runs: &[DrawnRun<'_>], drawing: &Drawing<'_>) -> Level {
    // A name may be a little longer than its run.
    const LONGER: f64 = 1.25;
    let fits = |level: Level| {
        runs.iter().all(|run| {
            let length = run.axis[0].distance(run.axis[1]);
            line(drawing, run.run, level).width_mm() <= length * LONGER
        })
    };
    [Level::Full, Level::Short]
        .into_iter()
        .find(|&level| fits(level))
        .unwrap_or(Level::IdAlone)
}

fn line(drawing: &Drawing<'_>, run: &RunStudy, level: Level) -> Wording {
    let figures = drawing.figures;
    let mut parts = vec![run.run.id.as_str().to_owned()];
    let height = figures.elevation(run.run.tube_height.as_metres());
    match level {
        Level::Full => {
            parts.push(run.size.id.clone());
            parts.push(height);
            if wording::aim(&run.run).is_some() {
                parts.push(wording::tilt(&run.run, figures));
            }
        }
        Level::Short => parts.push(height),
        Level::IdAlone => {}
    }
    if run.hanging.hangers.is_empty() {
        parts.push("NOT HUNG".to_owned());
    }
    Wording::line(parts.join("  "), NAME_LETTERS)
}

fn name_run(drawing: &mut Drawing<'_>, run: &DrawnRun<'_>, level: Level) {
    let levels = [Level::Full, Level::Short, Level::IdAlone];
    let allowed = levels.into_iter().skip_while(|it| *it != level);
    let wordings: Vec<Wording> = allowed.map(|it| line(drawing, run.run, it)).collect();
    let direction = run.direction();
    let turn_degrees = reading_turn(direction);
    let side = -run.number_side();
    let [from, to] = run.axis;
    let away_mm = run.half_mm + 1.1 + NAME_LETTERS.height_mm / 2.0;
    let beyond_numbers_mm = away_mm + LETTERS.height_mm + 0.9;
    let mut spots = Vec::new();
    for (side, away_mm) in [
        (side, away_mm),
        (-side, beyond_numbers_mm),
        (side, beyond_numbers_mm),
    ] {
        for part in [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9] {
            spots.push(Spot {
                at: from.lerp(to, part) + side * away_mm,
                turn_degrees,
                anchor: Anchor::CENTRE,
            });
        }
    }
    // Before the burner and behind the exhaust, in line with the run.
    let (before, behind) = if 0.0 < direction.x {
        (Along::End, Along::Start)
    } else {
        (Along::Start, Along::End)
    };
    for (at, along) in [
        (to + direction * 4.0, behind),
        (from - direction * 4.5, before),
    ] {
        spots.push(Spot {
            at,
            turn_degrees,
            anchor: Anchor {
                along,
                across: Across::Middle,
            },
        });
    }
    let leg_m = run.run.geometry.tube_length_m;
    let tip_part = free_station(run.run, leg_m, 0.35) / leg_m.max(f64::MIN_POSITIVE);
    let label = Label {
        tries: wordings
            .iter()
            .map(|wording| (wording.clone(), spots.clone()))
            .collect(),
        leader: Some((from.lerp(to, tip_part), wordings)),
        layer: Layer::HeatText,
        ink: Ink::Black,
    };
    if !drawing.label(&label, "run", run.run.run.id.as_str()) {
        drawing.left_out = true;
    }
}
