//! Grid lines with their bubbles, and the running dimensions.

use crate::geometry::DVec2;
use crate::sheets::layer::Layer;
use crate::sheets::lettering::Lettering;
use crate::sheets::mark::{Circle, Finish, Mark, Polyline};
use crate::sheets::paper::PaperPoint;
use crate::sheets::pen::{Ink, LineKind, Pen, PenWidth};
use crate::sheets::scale::Scale;
use crate::sheets::text::{Across, Along, Anchor, Text};
use crate::site::GridLine;

use super::Drawing;
use crate::sheets::pages::datum::{Axes, Datum};
use crate::sheets::pages::running::{Chain, Edge, JOG_MM, MOVED_MM};

/// Letters in bubbles.
const LETTERS: Lettering = Lettering::regular(3.0);
/// Radius of the smallest and of the largest bubble, mm.
const RADIUS_MM: (f64, f64) = (3.3, 6.0);
/// Distance between a figure and the bubble beyond it, mm.
const GAP_MM: f64 = 0.6;
/// How far a grid line goes beyond the plan at its far end, mm.
const BEYOND_PLAN_MM: f64 = 1.5;
/// How far a grid line goes beyond the plan at the end of its bubble, at least, mm.
const LEAST_REACH_MM: f64 = 4.0;
/// Rows of bubbles at most; lines so near that they need more are left without.
const MOST_ROWS: usize = 4;

const LINE_PEN: Pen = Pen::of(PenWidth::W018, LineKind::LongDashDot);

/// The edges on which the bubbles of the lines along x and along y stand: where most
/// of the lines begin.
pub(super) fn bubble_edges(axes: &Axes) -> [Edge; 2] {
    let n_up = |datum: &Option<Datum>, is_first: &dyn Fn(DVec2, DVec2) -> bool| {
        let lines = datum.iter().flat_map(|datum| &datum.lines);
        lines.fold(0_i32, |n, line| {
            let (from, to) = (axes.on_paper(line.from), axes.on_paper(line.to));
            if is_first(from, to) { n + 1 } else { n - 1 }
        })
    };
    let begins_low = n_up(&axes.along_x, &|from, to| from.y < to.y);
    let begins_right = n_up(&axes.along_y, &|from, to| to.x < from.x);
    [
        if 0 < begins_low {
            Edge::Bottom
        } else {
            Edge::Top
        },
        if 0 < begins_right {
            Edge::Right
        } else {
            Edge::Left
        },
    ]
}

/// How far bubbles reach beyond the figures, for the lines along x and along y, mm.
pub(super) fn reach_mm(axes: &Axes, scale: Scale) -> [f64; 2] {
    [&axes.along_x, &axes.along_y].map(|datum| match datum {
        Some(datum) if !datum.lines.is_empty() => {
            let rows = rows(datum, scale);
            let n_rows = rows
                .iter()
                .flatten()
                .max()
                .map_or(0.0, |&row| count(row) + 1.0);
            GAP_MM + n_rows * 2.0 * radius_mm(datum) + (n_rows - 1.0).max(0.0) * GAP_MM + 0.6
        }
        _ => 0.0,
    })
}

/// Radius of the bubbles of the lines along x and along y, mm; 0 where there are none.
pub(super) fn radii_mm(axes: &Axes) -> [f64; 2] {
    [&axes.along_x, &axes.along_y].map(|datum| {
        let lines = datum.iter().filter(|datum| !datum.lines.is_empty());
        lines.map(radius_mm).fold(0.0, f64::max)
    })
}

fn count(n: usize) -> f64 {
    u32::try_from(n).map_or(f64::INFINITY, f64::from)
}

/// Radius of the bubbles of a direction, mm: all alike, the widest name fits.
fn radius_mm(datum: &Datum) -> f64 {
    let names = datum
        .lines
        .iter()
        .map(|line| LETTERS.width_mm(line.id.as_str()));
    let widest = names.fold(0.0, f64::max);
    ((widest + 2.0) / 2.0).clamp(RADIUS_MM.0, RADIUS_MM.1)
}

/// The row in which each line's bubble stands, counted outward, so that none meet;
/// none where no row has room.
fn rows(datum: &Datum, scale: Scale) -> Vec<Option<usize>> {
    let apart_mm = 2.0 * radius_mm(datum) + 0.4;
    let mut order: Vec<(f64, usize)> = datum
        .stops()
        .iter()
        .enumerate()
        .map(|(index, (at_m, _))| (scale.paper_mm(*at_m), index))
        .collect();
    order.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut rows = vec![None; order.len()];
    let mut last_in_row = [f64::NEG_INFINITY; MOST_ROWS];
    for (at_mm, index) in order {
        let free = last_in_row.iter().position(|last| apart_mm <= at_mm - last);
        if let Some(row) = free {
            last_in_row[row] = at_mm;
            rows[index] = Some(row);
        }
    }
    rows
}

/// Draws grid lines, bubbles and dimensions.
pub(super) fn draw(drawing: &mut Drawing<'_>, chains: &[Chain], edges: [Edge; 2]) {
    let axes = drawing.axes;
    let mut drawn: Vec<&str> = Vec::new();
    for (datum, edge) in [&axes.along_x, &axes.along_y].into_iter().zip(edges) {
        let Some(datum) = datum else { continue };
        let figures_mm = chains
            .iter()
            .filter(|chain| chain.edge == edge)
            .map(Chain::reach_mm);
        let from_mm = figures_mm.fold(LEAST_REACH_MM, f64::max) + GAP_MM;
        let rows = rows(datum, drawing.viewport.scale);
        for (line, row) in datum.lines.iter().zip(rows) {
            let radius = radius_mm(datum);
            let centre_mm = row.map(|row| from_mm + radius + count(row) * (2.0 * radius + GAP_MM));
            draw_line(drawing, line, edge, centre_mm.map(|mm| (mm, radius)));
            drawn.push(line.id.as_str());
        }
    }
    for line in &drawing.input.site.grid {
        if !drawn.contains(&line.id.as_str()) {
            draw_slanting(drawing, line);
        }
    }
    chains.iter().for_each(|chain| draw_chain(drawing, chain));
}

/// A point outside an edge of the plan: along it from its left or top, and outward.
fn outside(drawing: &Drawing<'_>, edge: Edge, along_mm: f64, outward_mm: f64) -> PaperPoint {
    let plan = drawing.plan;
    match edge {
        Edge::Top => PaperPoint::new(plan.left + along_mm, plan.top - outward_mm),
        Edge::Bottom => PaperPoint::new(plan.left + along_mm, plan.bottom + outward_mm),
        Edge::Left => PaperPoint::new(plan.left - outward_mm, plan.top + along_mm),
        Edge::Right => PaperPoint::new(plan.right + outward_mm, plan.top + along_mm),
    }
}

/// A line from its bubble outside an edge to its other end, which goes no farther
/// beyond the plan than it must.
fn draw_line(drawing: &mut Drawing<'_>, line: &GridLine, edge: Edge, bubble: Option<(f64, f64)>) {
    let plan = drawing.plan;
    let (from, to) = (drawing.at(line.from), drawing.at(line.to));
    let at = from.midpoint(to);
    let (along_mm, ends) = if edge.is_level() {
        (at.x - plan.left, [from.y, to.y])
    } else {
        (at.y - plan.top, [from.x, to.x])
    };
    // The end away from the bubbles, as far as it reaches into the plan or through it.
    let (near, sign) = match edge {
        Edge::Top => (plan.top, 1.0),
        Edge::Bottom => (plan.bottom, -1.0),
        Edge::Left => (plan.left, 1.0),
        Edge::Right => (plan.right, -1.0),
    };
    let depth_mm = ends
        .iter()
        .map(|end| (end - near) * sign)
        .fold(f64::NEG_INFINITY, f64::max);
    let through_mm = if edge.is_level() {
        plan.height_mm()
    } else {
        plan.width_mm()
    };
    let depth_mm = depth_mm.min(through_mm + BEYOND_PLAN_MM);
    let reach_mm = bubble.map_or(LEAST_REACH_MM, |(centre, radius)| centre - radius);
    let points = [
        outside(drawing, edge, along_mm, reach_mm),
        outside(drawing, edge, along_mm, -depth_mm),
    ];
    let mark = Mark::new(Layer::Grid, Polyline::open(LINE_PEN, points));
    drawing.draw_avoided(mark.of("grid", line.id.as_str()));
    match bubble {
        Some((centre_mm, radius)) => {
            let centre = outside(drawing, edge, along_mm, centre_mm);
            draw_bubble(drawing, line, centre, radius);
        }
        None => drawing.left_out = true,
    }
}

fn draw_bubble(drawing: &mut Drawing<'_>, line: &GridLine, centre: PaperPoint, radius_mm: f64) {
    let circle = Circle {
        centre,
        radius_mm,
        finish: Finish::Drawn(Pen::THIN),
    };
    let id = line.id.as_str();
    drawing.draw(
        Mark::new(Layer::Grid, circle)
            .ink(Ink::Black)
            .key()
            .of("grid", id),
    );
    let name = LETTERS.shortened(id, 2.0 * radius_mm - 1.4);
    let text = Text::anchored(&name, LETTERS, centre, 0.0, Anchor::CENTRE);
    let mark = Mark::new(Layer::Grid, text).ink(Ink::Black).of("grid", id);
    drawing.taken.take(&mark.shape);
    drawing.draw(mark);
}

/// A line that is neither level nor upright: drawn where it is, with its bubble beyond
/// its first end where there is room.
fn draw_slanting(drawing: &mut Drawing<'_>, line: &GridLine) {
    let (from, to) = (drawing.at(line.from), drawing.at(line.to));
    let id = line.id.as_str();
    let window = drawing.viewport.window;
    let Some([from, to]) = clipped(from, to, window.inset(8.0)) else {
        return;
    };
    let mark = Mark::new(Layer::Grid, Polyline::open(LINE_PEN, [from, to]));
    drawing.draw_avoided(mark.of("grid", id));
    let out = (from - to).normalize_or_zero();
    let radius = RADIUS_MM.0;
    draw_bubble(drawing, line, from + out * radius, radius);
}

/// The part of a segment within a rectangle.
fn clipped(
    from: PaperPoint,
    to: PaperPoint,
    rect: crate::sheets::paper::PaperRect,
) -> Option<[PaperPoint; 2]> {
    let run = to - from;
    let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
    for (at, run, least, most) in [
        (from.x, run.x, rect.left, rect.right),
        (from.y, run.y, rect.top, rect.bottom),
    ] {
        if run == 0.0 {
            if at < least || most < at {
                return None;
            }
        } else {
            let (a, b) = ((least - at) / run, (most - at) / run);
            enters = enters.max(a.min(b));
            leaves = leaves.min(a.max(b));
        }
    }
    (enters < leaves).then(|| [from + run * enters, from + run * leaves])
}

fn draw_chain(drawing: &mut Drawing<'_>, chain: &Chain) {
    let edge = chain.edge;
    let (Some(first), Some(last)) = (chain.along_mm.first(), chain.along_mm.last()) else {
        return;
    };
    let line_mm = chain.line_mm;
    let ends = [
        outside(drawing, edge, *first, line_mm),
        outside(drawing, edge, *last, line_mm),
    ];
    drawing.draw(dimension(Polyline::open(Pen::FINE, ends)).key());
    let figures_mm = chain.figures_from_mm();
    for ((stop, &along_mm), &figure_mm) in chain
        .stops
        .iter()
        .zip(&chain.along_mm)
        .zip(&chain.figure_mm)
    {
        draw_tick(drawing, chain, along_mm, stop.at_m);
        extension(drawing, chain, along_mm, &stop.points);
        // From the dimension line to the figure, aside where the figure moved aside.
        let jogs = MOVED_MM < (along_mm - figure_mm).abs();
        let mut points = vec![outside(drawing, edge, along_mm, line_mm)];
        if jogs {
            points.push(outside(drawing, edge, along_mm, line_mm + 1.0));
            points.push(outside(drawing, edge, figure_mm, line_mm + JOG_MM - 0.6));
        } else {
            points.push(outside(drawing, edge, along_mm, figures_mm - 0.6));
        }
        drawing.draw(dimension(Polyline::open(Pen::HAIR, points)).key());
        let (turn_degrees, along) = match edge {
            Edge::Top => (90.0, Along::Start),
            Edge::Bottom => (90.0, Along::End),
            Edge::Left => (0.0, Along::End),
            Edge::Right => (0.0, Along::Start),
        };
        let anchor = Anchor {
            along,
            across: Across::Middle,
        };
        let place_mm = if jogs { figure_mm } else { along_mm };
        let at = outside(drawing, edge, place_mm, figures_mm);
        let text = Text::anchored(&stop.figure, stop.lettering(), at, turn_degrees, anchor);
        let mark = dimension(text.on_cleared_paper(0.3));
        drawing.taken.take(&mark.shape);
        drawing.draw(mark.of("dimension", &format!("{} {}", chain.from, stop.figure)));
    }
}

fn dimension(shape: impl Into<crate::sheets::mark::Shape>) -> Mark {
    Mark::new(Layer::Dimension, shape)
}

/// A stroke across the dimension line; a ring where measures begin.
fn draw_tick(drawing: &mut Drawing<'_>, chain: &Chain, along_mm: f64, at_m: f64) {
    let at = outside(drawing, chain.edge, along_mm, chain.line_mm);
    if at_m == 0.0 {
        let ring = Circle {
            centre: at,
            radius_mm: 1.0,
            finish: Finish::Drawn(Pen::THIN),
        };
        drawing.draw(dimension(ring).key());
    } else {
        let slant = DVec2::new(0.8, -0.8);
        drawing.draw(dimension(Polyline::open(Pen::MEDIUM, [at - slant, at + slant])).key());
    }
}

/// A faint line from the dimension to the nearest of the points that it measures.
fn extension(drawing: &mut Drawing<'_>, chain: &Chain, along_mm: f64, points: &[DVec2]) {
    let edge = chain.edge;
    let depth = |at: PaperPoint| match edge {
        Edge::Top => at.y - drawing.plan.top,
        Edge::Bottom => drawing.plan.bottom - at.y,
        Edge::Left => at.x - drawing.plan.left,
        Edge::Right => drawing.plan.right - at.x,
    };
    let nearest = points.iter().map(|&point| depth(drawing.at(point)));
    let nearest = nearest.fold(f64::INFINITY, f64::min);
    if nearest.is_finite() {
        let ends = [
            outside(drawing, edge, along_mm, chain.line_mm),
            outside(drawing, edge, along_mm, -nearest),
        ];
        drawing.draw(dimension(Polyline::open(Pen::HAIR, ends)).ink(Ink::Grey));
    }
}
