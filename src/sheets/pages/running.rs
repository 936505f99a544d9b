//! Running dimensions: places along one direction, each measured from the first grid
//! line, so that no error adds up (ISO 129-1, superimposed running dimensioning).

use crate::geometry::DVec2;
use crate::sheets::lettering::Lettering;
use crate::sheets::scale::Scale;
use crate::study::Study;

use super::bounds::Extent;
use super::datum::{Axes, Datum};
use super::figures::Figures;
use super::spread::{Wish, room_for, spread};

/// An edge of the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Edge {
    Top,
    Bottom,
    Left,
    Right,
}

impl Edge {
    /// All four.
    pub(super) const ALL: [Self; 4] = [Self::Top, Self::Bottom, Self::Left, Self::Right];

    /// The edge across the plan.
    pub(super) const fn opposite(self) -> Self {
        match self {
            Self::Top => Self::Bottom,
            Self::Bottom => Self::Top,
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }

    /// Whether it runs across the paper rather than up it.
    pub(super) const fn is_level(self) -> bool {
        matches!(self, Self::Top | Self::Bottom)
    }

    /// How far a point (paper, metres of the site, y up) is from the edge, inward.
    fn depth_m(self, at: DVec2, extent: &Extent) -> f64 {
        match self {
            Self::Top => extent.high.y - at.y,
            Self::Bottom => at.y - extent.low.y,
            Self::Left => at.x - extent.low.x,
            Self::Right => extent.high.x - at.x,
        }
    }
}

/// What a stop of a chain is, the most important first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Rank {
    /// A grid line, or a wall that stands in for one.
    Line,
    /// A first hanger, or the axis of a tube.
    First,
    /// A last hanger.
    Last,
}

/// One place that a chain of dimensions goes to.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Stop {
    /// Measure from the first line, m.
    pub at_m: f64,
    /// What is written.
    pub figure: String,
    /// What it is.
    pub rank: Rank,
    /// The points that are at this measure, in plan, m; none for a line.
    pub points: Vec<DVec2>,
}

/// A chain of running dimensions along one edge, at one scale.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Chain {
    /// Along which edge.
    pub edge: Edge,
    /// What it measures from.
    pub from: String,
    /// Distance of its line from the plan, mm.
    pub line_mm: f64,
    /// Its stops from left to right, or from top to bottom.
    pub stops: Vec<Stop>,
    /// Where each stop is, mm from the left or the top of the plan.
    pub along_mm: Vec<f64>,
    /// Where its figure is.
    pub figure_mm: Vec<f64>,
}

/// Letters of the figures.
pub(super) const FIGURES: Lettering = Lettering::condensed(2.5);
/// Letters of the figures of grid lines.
pub(super) const LINE_FIGURES: Lettering = Lettering::bold(2.5);
/// Least distance between two figures' middles, mm.
const PITCH_MM: f64 = 3.5;
/// How far figures may go beyond the plan's edges, mm.
const BEYOND_MM: f64 = 5.0;
/// From the dimension line to where figures that moved aside begin, mm.
pub(super) const JOG_MM: f64 = 2.6;
/// From the dimension line to the figures where none moved aside, mm.
const STRAIGHT_MM: f64 = 1.6;
/// A figure that moved less than this is where it belongs, mm.
pub(super) const MOVED_MM: f64 = 0.05;

impl Chain {
    /// Where its figures begin, mm outward from the plan.
    pub(super) fn figures_from_mm(&self) -> f64 {
        let moved = |(a, b): (&f64, &f64)| MOVED_MM < (a - b).abs();
        let any_moved = self.along_mm.iter().zip(&self.figure_mm).any(moved);
        self.line_mm + if any_moved { JOG_MM } else { STRAIGHT_MM }
    }

    /// How far it reaches outward from the plan, mm.
    pub(super) fn reach_mm(&self) -> f64 {
        let widths = self
            .stops
            .iter()
            .map(|stop| stop.lettering().width_mm(&stop.figure));
        self.figures_from_mm() + widths.fold(0.0, f64::max) + 0.6
    }
}

impl Stop {
    /// The letters of its figure.
    pub(super) const fn lettering(&self) -> Lettering {
        match self.rank {
            Rank::Line => LINE_FIGURES,
            Rank::First | Rank::Last => FIGURES,
        }
    }
}

/// Everything that the chains of one direction go to, in the order of their measures;
/// what has the same figure is one stop.
///
/// Runs along the direction give their first and their last hanger, runs across it
/// their axis, runs at a slant both hangers. Together with the other direction every
/// first and last hanger is located both ways.
pub(super) fn stops(
    datum: &Datum,
    is_along: impl Fn(DVec2) -> bool,
    is_across: impl Fn(DVec2) -> bool,
    study: &Study,
    figures: Figures,
) -> Vec<Stop> {
    let mut all: Vec<Stop> = Vec::new();
    let mut add = |at_m: f64, rank: Rank, point: Option<DVec2>| {
        all.push(Stop {
            at_m,
            figure: figures.place(at_m),
            rank,
            points: point.into_iter().collect(),
        });
    };
    for (at_m, _) in datum.stops() {
        add(at_m, Rank::Line, None);
    }
    for run in &study.runs {
        let (burner, exhaust) = run.axis_ends();
        let heading = (exhaust - burner).truncate().normalize_or_zero();
        let hangers = &run.hanging.hangers;
        if is_across(heading) {
            add(
                datum.measure(burner.truncate()),
                Rank::First,
                Some(burner.truncate()),
            );
        } else {
            let ends = [(hangers.first(), Rank::First), (hangers.last(), Rank::Last)];
            for (hanger, rank) in ends {
                if let Some(hanger) = hanger {
                    let at = hanger.at.attach.truncate();
                    add(datum.measure(at), rank, Some(at));
                }
            }
            if hangers.is_empty() && !is_along(heading) {
                add(
                    datum.measure(burner.truncate()),
                    Rank::First,
                    Some(burner.truncate()),
                );
            }
        }
    }
    all.sort_by(|a, b| a.at_m.total_cmp(&b.at_m).then(a.rank.cmp(&b.rank)));
    let mut merged: Vec<Stop> = Vec::new();
    for stop in all {
        match merged.last_mut() {
            Some(before) if before.figure == stop.figure => {
                // A line keeps its place; what coincides with it as shown is at it.
                if stop.rank < before.rank {
                    before.rank = stop.rank;
                    before.at_m = stop.at_m;
                }
                before.points.extend(stop.points);
            }
            _ => merged.push(stop),
        }
    }
    merged
}

/// The chains of one direction at a scale, and how many stops found no room.
///
/// All stops are on the edge where the grid's bubbles are, as long as they fit; else
/// those that are nearer to the other edge go there. What still doesn't fit is left
/// out, last hangers first.
pub(super) fn chains(
    datum: &Datum,
    stops: &[Stop],
    edge: Edge,
    line_mm: f64,
    axes: &Axes,
    extent: &Extent,
    scale: Scale,
) -> (Vec<Chain>, usize) {
    let length_mm = scale.paper_mm(if edge.is_level() {
        extent.size().x
    } else {
        extent.size().y
    });
    let n_most = room_for(-BEYOND_MM, length_mm + BEYOND_MM, PITCH_MM);
    let (mut near, mut far): (Vec<Stop>, Vec<Stop>) = (stops.to_vec(), Vec::new());
    if n_most < near.len() {
        (near, far) = near
            .into_iter()
            .partition(|stop| stop.rank == Rank::Line || is_nearer(stop, edge, axes, extent));
    }
    let mut n_left_out = 0;
    for side in [&mut near, &mut far] {
        while n_most < side.len() {
            let Some(least) = least_important(side) else {
                break;
            };
            side.remove(least);
            n_left_out += 1;
        }
    }
    let along_mm = |stop: &Stop| {
        let at = axes.on_paper(datum.point_at(stop.at_m));
        scale.paper_mm(if edge.is_level() {
            at.x - extent.low.x
        } else {
            extent.high.y - at.y
        })
    };
    let mut found = Vec::new();
    for (edge, stops) in [(edge, near), (edge.opposite(), far)] {
        if stops.is_empty() {
            continue;
        }
        let mut placed: Vec<(f64, Stop)> = stops
            .into_iter()
            .map(|stop| (along_mm(&stop), stop))
            .collect();
        placed.sort_by(|a, b| a.0.total_cmp(&b.0));
        let wishes: Vec<Wish> = placed
            .iter()
            .map(|(at_mm, stop)| wish(*at_mm, stop))
            .collect();
        let Some(figure_mm) = spread(&wishes, PITCH_MM, -BEYOND_MM, length_mm + BEYOND_MM) else {
            n_left_out += placed.len();
            continue;
        };
        let (along_mm, stops) = placed.into_iter().unzip();
        found.push(Chain {
            edge,
            from: datum.name.clone(),
            line_mm,
            stops,
            along_mm,
            figure_mm,
        });
    }
    (found, n_left_out)
}

/// Figures of grid lines hardly move: they stand in their lines.
fn wish(at_mm: f64, stop: &Stop) -> Wish {
    let weight = if stop.rank == Rank::Line { 1e6 } else { 1.0 };
    Wish { at_mm, weight }
}

fn is_nearer(stop: &Stop, edge: Edge, axes: &Axes, extent: &Extent) -> bool {
    let least = |edge: Edge| {
        let depths = stop
            .points
            .iter()
            .map(|&point| edge.depth_m(axes.on_paper(point), extent));
        depths.fold(f64::INFINITY, f64::min)
    };
    least(edge) <= least(edge.opposite())
}

/// The last of the least important stops; lines are never left out for others, but go
/// like any other where they alone are too many.
fn least_important(stops: &[Stop]) -> Option<usize> {
    let greatest = stops.iter().map(|stop| stop.rank).max()?;
    stops.iter().rposition(|stop| stop.rank == greatest)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::site::{GridLine, Site};
    use std::sync::Arc;

    fn site() -> Site {
        let line = |id: &str, x: f64| {
            Arc::new(GridLine {
                id: id.into(),
                from: DVec2::new(x, 30.0),
                to: DVec2::new(x, 0.0),
                notes: String::new(),
            })
        };
        Site {
            grid: vec![line("1", 5.0), line("2", 17.0), line("3", 29.0)],
            ..Site::default()
        }
    }

    /// The lines that the top edge is dimensioned from, and the building's extent.
    fn along_the_top(axes: &Axes) -> (&Datum, Extent) {
        let Some(datum) = &axes.along_x else {
            panic!("the site has lines")
        };
        let extent = Extent {
            low: DVec2::new(5.0, 0.0),
            high: DVec2::new(29.0, 30.0),
        };
        (datum, extent)
    }

    fn stop(at_m: f64, rank: Rank, y: f64) -> Stop {
        Stop {
            at_m,
            figure: format!("{at_m:.2}"),
            rank,
            points: vec![DVec2::new(5.0 + at_m, y)],
        }
    }

    #[test]
    fn figures_keep_apart_and_lines_keep_their_place() {
        let site = site();
        let axes = Axes::of(&site);
        let (datum, extent) = along_the_top(&axes);
        let mut all = vec![
            stop(0.0, Rank::Line, 0.0),
            stop(12.0, Rank::Line, 0.0),
            stop(24.0, Rank::Line, 0.0),
        ];
        all.extend((0..12).map(|n| stop(11.9 + 0.01 * f64::from(n), Rank::First, 3.0)));
        all.sort_by(|a, b| a.at_m.total_cmp(&b.at_m));
        let scale = Scale { denominator: 200.0 };
        let (chains, n_left_out) = chains(datum, &all, Edge::Top, 4.0, &axes, &extent, scale);
        assert_eq!((chains.len(), n_left_out), (1, 0));
        let chain = &chains[0];
        assert!(
            chain
                .figure_mm
                .windows(2)
                .all(|pair| pair[1] - pair[0] >= PITCH_MM - 1e-9)
        );
        for ((stop, along), figure) in chain
            .stops
            .iter()
            .zip(&chain.along_mm)
            .zip(&chain.figure_mm)
        {
            assert!((along - 5.0 * stop.at_m).abs() < 1e-9);
            if stop.rank == Rank::Line {
                assert!((along - figure).abs() < 0.01);
            }
        }
    }

    #[test]
    fn what_does_not_fit_goes_to_the_other_edge_and_last_hangers_are_left_out_first() {
        let site = site();
        let axes = Axes::of(&site);
        let (datum, extent) = along_the_top(&axes);
        let scale = Scale { denominator: 500.0 };
        // 48 mm and 5 mm beyond each end hold 17 figures.
        let lines = [0.0, 12.0, 24.0].map(|at| stop(at, Rank::Line, 0.0));
        let upper = (0..10).map(|n| stop(1.0 + f64::from(n), Rank::First, 25.0));
        let lower = (0..20).map(|n| stop(2.1 + f64::from(n) * 0.7, Rank::Last, 3.0));
        let all: Vec<Stop> = lines.into_iter().chain(upper).chain(lower).collect();
        let (chains, n_left_out) = chains(datum, &all, Edge::Top, 4.0, &axes, &extent, scale);
        assert_eq!(chains.len(), 2);
        assert_eq!(chains[0].stops.len(), 13);
        assert_eq!(chains[1].edge, Edge::Bottom);
        assert_eq!(chains[1].stops.len() + n_left_out, 20);
        assert!(chains[1].stops.iter().all(|stop| stop.rank == Rank::Last));
    }
}
