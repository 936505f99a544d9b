//! How high members lie: roof, depth, and what was measured.

use super::layout::{PlanSpan, lowest_line, spans_of_line};
use crate::geometry::polygon::Polygon;
use crate::geometry::tolerance;
use crate::site::bay::{RoofPlanes, along};
use crate::site::framing::{BottomChord, HangFrom};
use crate::site::{Framing, GridLine, HeightAt, MemberAdjustment, Site};
use std::sync::Arc;

/// A framing as drawn, to ask how high its members hang.
#[derive(Debug)]
pub struct DrawnFraming<'a> {
    framing: &'a Framing,
    grid: &'a [Arc<GridLine>],
    outline: Polygon,
    roof: RoofPlanes,
}

impl<'a> DrawnFraming<'a> {
    /// Of a site; nothing for a framing whose bay is gone.
    #[must_use]
    pub fn new(site: &'a Site, framing: &'a Framing) -> Option<Self> {
        let bay = site.bays.iter().find(|bay| bay.id == framing.bay)?;
        Some(Self {
            framing,
            grid: &site.grid,
            outline: Polygon {
                outline: bay.outline.clone(),
                holes: bay.holes.clone(),
            },
            roof: bay.roof_planes(),
        })
    }

    /// How many members the drawing has.
    #[must_use]
    pub fn n_members(&self) -> usize {
        super::layout::n_members(self.framing, &self.outline)
    }

    /// Elevation of the surface that a member is hung from at a place along it, as drawn,
    /// m above floor; nothing for one that doesn't reach into the bay.
    #[must_use]
    pub fn surface_m(&self, member: usize, at: &HeightAt) -> Option<f64> {
        let framing = self.framing;
        let heading = along(framing.bearing);
        let offset_m = framing.drawn_offset_m(member);
        let cuts: Vec<&GridLine> = framing
            .bears_on
            .iter()
            .filter_map(|id| self.grid.iter().find(|line| line.id == *id))
            .map(Arc::as_ref)
            .filter(|line| line.crosses(heading))
            .collect();
        let lowest = lowest_line(&cuts, self.grid, heading);
        let origin = framing.anchor + framing.right() * offset_m;
        let spans = spans_of_line(&self.outline, origin, heading, &cuts, lowest);
        drawn_height(framing, at, self.grid, &self.roof, offset_m, &spans)
    }
}

/// What a member is raised by: as noted, or what brings the place that was measured to
/// the height that was measured.
pub(super) fn raised(
    framing: &Framing,
    adjustment: &MemberAdjustment,
    grid: &[Arc<GridLine>],
    roof: &RoofPlanes,
    offset_m: f64,
    spans: &[PlanSpan],
) -> f64 {
    let Some(measured) = &adjustment.measured_height else {
        return adjustment.raised.as_metres();
    };
    let drawn = drawn_height(framing, &measured.at, grid, roof, offset_m, spans);
    drawn.map_or(0.0, |drawn| measured.height.as_metres() - drawn)
}

/// Height of the surface hung from at a place along a member that lies where it was
/// found but is not raised, m. At a line between two spans with steps the lower one
/// counts; beyond the member's ends its nearest end. Nothing for a member of no span.
fn drawn_height(
    framing: &Framing,
    at: &HeightAt,
    grid: &[Arc<GridLine>],
    roof: &RoofPlanes,
    offset_m: f64,
    spans: &[PlanSpan],
) -> Option<f64> {
    let surface = |span: &PlanSpan, at_m: f64| {
        elevation_at(&elevations(framing, roof, span, 0.0).surface_m, at_m)
    };
    let Some(station_m) = framing.height_station_m(at, offset_m, grid) else {
        let ends = spans
            .iter()
            .flat_map(|span| [(span, 0.0), (span, span.length_m)]);
        return ends
            .map(|(span, at_m)| surface(span, at_m))
            .reduce(f64::min);
    };
    let place = framing.anchor + framing.right() * offset_m + along(framing.bearing) * station_m;
    let far = |span: &PlanSpan| {
        let at_m = (place - span.start).dot(span.direction);
        let nearest_m = at_m.clamp(0.0, span.length_m);
        ((at_m - nearest_m).abs(), nearest_m)
    };
    let nearest_m = spans.iter().map(|span| far(span).0).reduce(f64::min)?;
    spans
        .iter()
        .map(|span| (span, far(span)))
        .filter(|(_, (far_m, _))| *far_m <= nearest_m + tolerance::SAME_POINT)
        .map(|(span, (_, at_m))| surface(span, at_m))
        .reduce(f64::min)
}

/// How high a span lies: (m from its start, z), ascending, straight between.
pub(super) struct Elevations {
    pub(super) top_m: Vec<(f64, f64)>,
    pub(super) underside_m: Vec<(f64, f64)>,
    /// What it is hung from, without the clamp.
    pub(super) surface_m: Vec<(f64, f64)>,
}

pub(super) fn elevations(
    framing: &Framing,
    roof: &RoofPlanes,
    span: &PlanSpan,
    raised: f64,
) -> Elevations {
    let top_m: Vec<(f64, f64)> = roof_line(roof, span)
        .into_iter()
        .map(|(at, z)| (at, z + raised))
        .collect();
    let lowered =
        |by: f64| -> Vec<(f64, f64)> { top_m.iter().map(|(at, z)| (*at, z - by)).collect() };
    let depth = framing.depth.as_metres();
    let underside_m = match framing.bottom {
        BottomChord::Parallel => lowered(depth),
        BottomChord::Level => {
            let lower_end = elevation_at(&top_m, 0.0).min(elevation_at(&top_m, span.length_m));
            vec![(0.0, lower_end - depth), (span.length_m, lower_end - depth)]
        }
    };
    let surface_m = match framing.hang_from {
        HangFrom::TopChord => lowered(framing.seat.as_metres()),
        HangFrom::BottomChord | HangFrom::Flange => underside_m.clone(),
    };
    Elevations {
        top_m,
        underside_m,
        surface_m,
    }
}

/// The roof's elevation along a span: its ends, and the ridge where it crosses one.
fn roof_line(roof: &RoofPlanes, span: &PlanSpan) -> Vec<(f64, f64)> {
    let mut stations = vec![0.0];
    if let [(c0, g0), (c1, g1)] = roof.planes.as_slice() {
        // Along the span both planes are straight: they meet where their difference is 0.
        let at_start = c0 - c1 + (*g0 - *g1).dot(span.start);
        let per_metre = (*g0 - *g1).dot(span.direction);
        let meet = -at_start / per_metre;
        if tolerance::SAME_POINT < meet && meet < span.length_m - tolerance::SAME_POINT {
            stations.push(meet);
        }
    }
    stations.push(span.length_m);
    stations
        .into_iter()
        .map(|at| (at, roof.elevation_at(span.start + span.direction * at)))
        .collect()
}

/// Elevation at a position of a line given by its corners, level beyond its ends.
pub(super) fn elevation_at(line: &[(f64, f64)], position_m: f64) -> f64 {
    let after = line.partition_point(|&(at, _)| at < position_m);
    match (
        after.checked_sub(1).and_then(|i| line.get(i)),
        line.get(after),
    ) {
        (Some(&(from, z0)), Some(&(to, z1))) => {
            z0 + (z1 - z0) * ((position_m - from) / (to - from))
        }
        (Some(&(_, z)), None) | (None, Some(&(_, z))) => z,
        (None, None) => 0.0,
    }
}
