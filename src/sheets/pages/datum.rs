//! How the plan lies on the sheet, and what places are measured from.

use std::sync::Arc;

use crate::geometry::{DVec2, math};
use crate::site::grid::{GridOffset, families, nearest, offset_from};
use crate::site::{GridLine, Site};

use super::figures::Figures;
use super::wording::compass;

/// Sine of the angle within which a direction on paper counts as level or upright:
/// a degree, as grid lines within a degree are one direction.
const STRAIGHT: f64 = 0.017_452;

/// How the plan lies on the sheet, and what it is measured from.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Axes {
    /// How far the site is turned on the paper, degrees anticlockwise, so that its
    /// grid is square to the sheet; at most 45 either way.
    pub turn_degrees: f64,
    /// Measures along the paper from left to right, or from right to left.
    pub along_x: Option<Datum>,
    /// Measures up or down the paper.
    pub along_y: Option<Datum>,
}

/// A line that places are measured from, and those parallel to it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Datum {
    /// What the line is called: `1`, or `W wall`.
    pub name: String,
    /// The grid lines of this direction in the order of their lettering; none where a
    /// wall stands in for them.
    pub lines: Vec<Arc<GridLine>>,
    /// Unit vector of the site along which measures grow.
    pub direction: DVec2,
    /// A point on the line.
    origin: DVec2,
    /// Measure of the opposite wall, where a wall stands in for grid lines.
    far_wall_m: Option<f64>,
}

impl Datum {
    /// How far a point is from the line, m.
    pub(super) fn measure(&self, point: DVec2) -> f64 {
        match self.lines.first() {
            Some(first) => offset_from(&self.lines, first, point).offset_m,
            None => self.direction.dot(point - self.origin),
        }
    }

    /// A point at a measure.
    pub(super) fn point_at(&self, measure_m: f64) -> DVec2 {
        self.origin + self.direction * measure_m
    }

    /// Where the lines are: measure, and name where they are grid lines.
    pub(super) fn stops(&self) -> Vec<(f64, Option<&Arc<GridLine>>)> {
        if self.lines.is_empty() {
            return [Some(0.0), self.far_wall_m]
                .into_iter()
                .flatten()
                .map(|at| (at, None))
                .collect();
        }
        self.lines
            .iter()
            .map(|line| (self.measure(line.from), Some(line)))
            .collect()
    }

    /// How far a point is from the nearest line.
    fn offset(&self, point: DVec2) -> GridOffset {
        nearest(&self.lines, point).unwrap_or_else(|| GridOffset {
            line: self.name.as_str().into(),
            offset_m: self.measure(point),
        })
    }
}

impl Axes {
    /// Of a site: its first two directions of grid lines; walls where there are none.
    pub(super) fn of(site: &Site) -> Self {
        let families = families(&site.grid);
        let turn_degrees = turn(reference_direction(site, &families));
        let mut axes = Self {
            turn_degrees,
            along_x: None,
            along_y: None,
        };
        for family in families {
            let on_paper = axes.on_paper(family[0].direction());
            if on_paper.x.abs() < STRAIGHT && axes.along_x.is_none() {
                axes.along_x = Some(of_lines(family));
            } else if on_paper.y.abs() < STRAIGHT && axes.along_y.is_none() {
                axes.along_y = Some(of_lines(family));
            }
        }
        axes.along_x = axes.along_x.take().or_else(|| axes.of_wall(site, DVec2::X));
        axes.along_y = axes.along_y.take().or_else(|| axes.of_wall(site, DVec2::Y));
        axes
    }

    /// A direction of the site as it lies on the paper, y up.
    pub(super) fn on_paper(&self, direction: DVec2) -> DVec2 {
        let (sin, cos) = math::sin_cos_degrees(self.turn_degrees);
        DVec2::new(cos, sin).rotate(direction)
    }

    /// A direction of the paper, y up, as it lies on the site.
    pub(super) fn on_site(&self, direction: DVec2) -> DVec2 {
        let (sin, cos) = math::sin_cos_degrees(-self.turn_degrees);
        DVec2::new(cos, sin).rotate(direction)
    }

    /// Whether a direction of the site lies level on the paper.
    pub(super) fn is_level(&self, direction: DVec2) -> bool {
        self.on_paper(direction).y.abs() < STRAIGHT
    }

    /// Whether a direction of the site stands upright on the paper.
    pub(super) fn is_upright(&self, direction: DVec2) -> bool {
        self.on_paper(direction).x.abs() < STRAIGHT
    }

    /// How far a point is from the nearest line of each direction; none where there is
    /// nothing to measure from.
    pub(super) fn offsets(&self, point: DVec2) -> [Option<GridOffset>; 2] {
        [&self.along_y, &self.along_x].map(|datum| datum.as_ref().map(|it| it.offset(point)))
    }

    /// The same as a crew reads it: `B + 2.40`; a dash where there is nothing to measure
    /// from.
    pub(super) fn located(&self, point: DVec2, figures: Figures) -> [String; 2] {
        self.offsets(point)
            .map(|it| it.map_or_else(|| "–".to_owned(), |offset| figures.offset(&offset)))
    }

    /// Where a point is, as one phrase: `B + 2.40, 3 − 0.60`.
    pub(super) fn place(&self, point: DVec2, figures: Figures) -> String {
        self.located(point, figures).join(", ")
    }

    /// The wall that stands farthest back along a direction of the paper, y up.
    fn of_wall(&self, site: &Site, on_paper: DVec2) -> Option<Datum> {
        let direction = self.on_site(on_paper);
        let corners = site.bays.iter().flat_map(|bay| bay.outline.iter().copied());
        let back = corners
            .clone()
            .min_by(|a, b| direction.dot(*a).total_cmp(&direction.dot(*b)))?;
        let front = corners.max_by(|a, b| direction.dot(*a).total_cmp(&direction.dot(*b)))?;
        Some(Datum {
            name: format!("{} wall", compass(-direction)),
            lines: Vec::new(),
            direction,
            origin: back,
            far_wall_m: Some(direction.dot(front - back)),
        })
    }
}

fn of_lines(lines: Vec<Arc<GridLine>>) -> Datum {
    let first = &lines[0];
    let left = first.direction().perp();
    let grows_left = 0.0 < offset_from(&lines, first, first.from + left).offset_m;
    Datum {
        name: first.id.as_str().to_owned(),
        direction: if grows_left { left } else { -left },
        origin: first.from,
        far_wall_m: None,
        lines,
    }
}

/// The direction that is laid square to the sheet: the grid's, else that of the longest
/// wall, else east.
fn reference_direction(site: &Site, families: &[Vec<Arc<GridLine>>]) -> DVec2 {
    if let Some(family) = families.first() {
        return family[0].direction();
    }
    let mut longest = DVec2::X;
    let mut length = 0.0;
    for bay in &site.bays {
        for (a, b) in crate::geometry::polygon::ring_edges(&bay.outline) {
            if length < a.distance(b) {
                length = a.distance(b);
                longest = (b - a).normalize_or(DVec2::X);
            }
        }
    }
    longest
}

/// The turn, degrees anticlockwise within 45 either way, that lays a direction level or
/// upright. Rounding of a hundred-millionth of a degree is no turn.
fn turn(direction: DVec2) -> f64 {
    const NO_TURN: f64 = 1e-8;
    let degrees = math::atan2(direction.y, direction.x).to_degrees();
    let turn = -(degrees - 90.0 * (degrees / 90.0).round());
    if turn.abs() < NO_TURN { 0.0 } else { turn }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::math::sin_cos_degrees;
    use crate::units::UnitSystem;

    fn line(id: &str, from: DVec2, to: DVec2) -> Arc<GridLine> {
        Arc::new(GridLine {
            id: id.into(),
            from,
            to,
            notes: String::new(),
        })
    }

    /// A grid of A and B, 1 and 2, turned by degrees.
    fn site(degrees: f64) -> (Site, impl Fn(f64, f64) -> DVec2) {
        let (sin, cos) = sin_cos_degrees(degrees);
        let at = move |x: f64, y: f64| DVec2::new(cos, sin).rotate(DVec2::new(x, y));
        let site = Site {
            grid: vec![
                line("A", at(0.0, 0.0), at(30.0, 0.0)),
                line("B", at(0.0, 12.0), at(30.0, 12.0)),
                line("1", at(0.0, 0.0), at(0.0, 20.0)),
                line("2", at(6.0, 0.0), at(6.0, 20.0)),
            ],
            ..Site::default()
        };
        (site, at)
    }

    #[test]
    fn the_grid_lies_square_to_the_sheet_however_the_site_is_turned() {
        for degrees in [0.0, 30.0, -44.0, 60.0, 90.0, 100.0, 200.0] {
            let (site, at) = site(degrees);
            let axes = Axes::of(&site);
            assert!(axes.turn_degrees.abs() <= 45.0);
            let (x, y) = (axes.along_x.as_ref(), axes.along_y.as_ref());
            let names: Vec<&str> = [x, y].iter().flatten().map(|it| it.name.as_str()).collect();
            assert!(
                names == ["1", "A"] || names == ["A", "1"],
                "{names:?} at {degrees}"
            );
            let figures = Figures::in_units(UnitSystem::Metric);
            let mut place = axes.located(at(4.5, 2.4), figures);
            place.sort();
            assert_eq!(place, ["2 − 1.50", "A + 2.40"], "at {degrees}");
        }
    }

    #[test]
    fn walls_stand_in_for_a_grid() {
        let mut site = site(0.0).0;
        site.grid.clear();
        assert!(Axes::of(&site).along_x.is_none());
    }
}
