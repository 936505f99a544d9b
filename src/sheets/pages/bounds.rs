//! How large what is drawn is.

use crate::geometry::{DVec2, DVec3};
use crate::site::Site;
use crate::structure::WALL_M;
use crate::study::{Study, footprint_outlines};

use super::datum::Axes;

/// An upright box of the paper round what is drawn, in metres of the site, y up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Extent {
    /// Least corner.
    pub low: DVec2,
    /// Greatest corner.
    pub high: DVec2,
}

impl Extent {
    /// Round everything of a site that has a place in plan; grid lines count only where
    /// there is nothing else, since they may be drawn as long as anybody likes. A
    /// square of 20 m round the origin where there is nothing at all.
    pub(super) fn of(site: &Site, study: &Study, axes: &Axes) -> Self {
        let mut extent: Option<Self> = None;
        let mut add = |point: DVec2, around_m: f64| {
            let at = axes.on_paper(point);
            let (low, high) = (at - DVec2::splat(around_m), at + DVec2::splat(around_m));
            extent = Some(extent.map_or(Self { low, high }, |so_far| Self {
                low: so_far.low.min(low),
                high: so_far.high.max(high),
            }));
        };
        for bay in &site.bays {
            bay.outline.iter().for_each(|&corner| add(corner, WALL_M));
        }
        for obstruction in &site.obstructions {
            for outline in footprint_outlines(&obstruction.footprint) {
                outline.outline.iter().for_each(|&corner| add(corner, 0.0));
            }
        }
        for run in &study.runs {
            let bodies = &run.clearance.bodies;
            for body in &bodies.bodies {
                let corners = bodies.frame.corners(&body.local);
                corners
                    .into_iter()
                    .map(DVec3::truncate)
                    .for_each(|corner| add(corner, 0.0));
            }
        }
        for member in &study.structure.members {
            add(member.start, 0.0);
            add(member.end(), 0.0);
        }
        if extent.is_none() {
            let ends = site.grid.iter().flat_map(|line| [line.from, line.to]);
            ends.for_each(|end| {
                let at = axes.on_paper(end);
                extent = Some(extent.map_or(Self { low: at, high: at }, |so_far| Self {
                    low: so_far.low.min(at),
                    high: so_far.high.max(at),
                }));
            });
        }
        extent.unwrap_or(Self {
            low: DVec2::splat(-10.0),
            high: DVec2::splat(10.0),
        })
    }

    /// Width and height, m.
    pub(super) fn size(self) -> DVec2 {
        self.high - self.low
    }

    /// Its middle on the paper, as a point of the site.
    pub(super) fn centre_on_site(self, axes: &Axes) -> DVec2 {
        axes.on_site(self.low.midpoint(self.high))
    }
}
