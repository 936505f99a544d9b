//! The section's plane, the grid lines that cross it, and the line that is taken where
//! none is drawn.

use super::Stage;
use crate::catalogue::Catalogue;
use crate::geometry::{DVec2, Polygon, UprightPlane, math};
use crate::site::bay::along;
use crate::site::{Bay, GridId, Run, SectionLine, Side, Site};
use crate::structure::WALL_M;
use crate::units::Length;

/// The plane of a section line, as one looks at it, and the line's length, m.
#[must_use]
pub fn plane_of(line: &SectionLine) -> (UprightPlane, f64) {
    let into = line.looking();
    // To the right of whoever looks along `into`.
    let along = -into.perp();
    let origin = match line.looks {
        Side::Left => line.from,
        Side::Right => line.to,
    };
    let plane = UprightPlane {
        origin,
        along,
        into,
    };
    (plane, line.from.distance(line.to))
}

/// Grid lines that cross the plane between its ends, from left to right.
pub(super) fn grid(stage: &Stage, site: &Site) -> Vec<(f64, GridId)> {
    /// Sine of the flattest crossing at which a grid line still stands in one place.
    const FLATTEST: f64 = 0.26;
    let plane = &stage.plane;
    let mut found: Vec<(f64, GridId)> = site
        .grid
        .iter()
        .filter_map(|line| {
            let direction = line.direction();
            let crossing = direction.perp_dot(plane.along);
            if crossing.abs() < FLATTEST {
                return None;
            }
            let u = direction.perp_dot(line.from - plane.origin) / crossing;
            (0.0 <= u && u <= stage.width_m).then(|| (u, line.id.clone()))
        })
        .collect();
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    found
}

/// How far beyond the walls the line reaches where none is drawn, m.
const BEYOND_WALL_M: f64 = 0.6;
/// How far it looks, m.
const DEPTH_M: f64 = 6.0;

/// A line across the bay that a place is in, through it: square to a run where one is
/// given, else across the bay's shorter side. None outside every bay.
#[must_use]
pub fn line_through(site: &Site, place: DVec2, run: Option<&Run>) -> Option<SectionLine> {
    let area = |bay: &Bay| Polygon {
        outline: bay.outline.clone(),
        holes: bay.holes.clone(),
    };
    let mut bays = site.bays.iter().map(|bay| area(bay));
    let bay =
        bays.find(|area| area.contains(place) || area.distance_to_boundary(place) <= WALL_M)?;
    let direction = match run {
        Some(run) => rightward(along(run.bearing).perp()),
        None => across(&bay)?,
    };
    across_through(&bay, place, direction)
}

/// Where the site is cut if nobody has drawn a line: across the middle of a bay; where
/// heaters hang in it, square to the one nearest its middle, through the middle of its
/// tube. None in a site without a bay.
#[must_use]
pub fn default_line(site: &Site, catalogue: &Catalogue) -> Option<SectionLine> {
    let scheme = site.scheme();
    let area = |bay: &Bay| Polygon {
        outline: bay.outline.clone(),
        holes: bay.holes.clone(),
    };
    let in_bay = |bay: &Bay| -> Vec<&Run> {
        let area = area(bay);
        let runs = scheme.runs.iter().map(AsRef::as_ref);
        runs.filter(|run| area.contains(run.burner)).collect()
    };
    let bay = site
        .bays
        .iter()
        .find(|bay| !in_bay(bay).is_empty())
        .or_else(|| site.bays.first())?;
    let (least, greatest) = area(bay).bounds()?;
    let middle = (least + greatest) / 2.0;
    let of_runs = in_bay(bay)
        .into_iter()
        .map(|run| (tube_middle(run, catalogue), along(run.bearing)))
        .min_by(|a, b| a.0.distance(middle).total_cmp(&b.0.distance(middle)));
    let (through, direction) = match of_runs {
        Some((through, heading)) => (through, rightward(heading.perp())),
        None => (middle, across(&area(bay))?),
    };
    across_through(&area(bay), through, direction)
}

/// The direction of the site's axes in which an area is narrower.
fn across(area: &Polygon) -> Option<DVec2> {
    let (least, greatest) = area.bounds()?;
    let size = greatest - least;
    Some(if size.x < size.y { DVec2::X } else { DVec2::Y })
}

/// From beyond one wall of an area to beyond the other, through a place.
fn across_through(area: &Polygon, through: DVec2, direction: DVec2) -> Option<SectionLine> {
    let stretches = area.clip_line(through, direction);
    let (first, last) = (stretches.first()?, stretches.last()?);
    let beyond_m = WALL_M + BEYOND_WALL_M;
    Some(SectionLine {
        id: "A".into(),
        from: through + direction * (first.from_m - beyond_m),
        to: through + direction * (last.to_m + beyond_m),
        looks: Side::Left,
        depth: Length::metres(DEPTH_M),
        notes: String::new(),
    })
}

fn tube_middle(run: &Run, catalogue: &Catalogue) -> DVec2 {
    let half_m = catalogue
        .size(&run.family, &run.size)
        .map_or(0.0, |(family, size)| {
            let leg_m = family.leg_length(size).as_metres();
            leg_m * math::cos(math::atan(family.hanging.slope)) / 2.0
        });
    run.burner + along(run.bearing) * half_m
}

/// The one of two opposite directions that leads east, or, where neither does, north.
fn rightward(direction: DVec2) -> DVec2 {
    let is_west = direction.x < -1e-9 || (direction.x < 1e-9 && direction.y < 0.0);
    if is_west { -direction } else { direction }
}
