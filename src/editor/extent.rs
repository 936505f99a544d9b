//! How far objects reach in plan.

use crate::catalogue::{Catalogue, FamilyShape};
use crate::geometry::DVec2;
use crate::geometry::math::{atan, cos};
use crate::site::bay::along;
use crate::site::{Bay, Footprint, Obstruction, Opening, Run, Site};
use crate::site::{Object, ObjectId};

/// A stretch of the plan, axis by axis. Empty until something is put into it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Extent {
    /// South-west corner.
    pub least: DVec2,
    /// North-east corner.
    pub greatest: DVec2,
}

impl Extent {
    /// Nothing.
    pub(crate) const EMPTY: Self = Self {
        least: DVec2::INFINITY,
        greatest: DVec2::NEG_INFINITY,
    };

    /// As far as some points reach.
    pub(crate) fn of(points: impl IntoIterator<Item = DVec2>) -> Self {
        points.into_iter().fold(Self::EMPTY, Self::with)
    }

    /// Reaching to one more point.
    #[must_use]
    pub(crate) fn with(self, point: DVec2) -> Self {
        Self {
            least: self.least.min(point),
            greatest: self.greatest.max(point),
        }
    }

    /// Reaching as far as both.
    #[must_use]
    pub(crate) fn joined(self, other: Self) -> Self {
        Self {
            least: self.least.min(other.least),
            greatest: self.greatest.max(other.greatest),
        }
    }

    /// Whether nothing has been put into it.
    pub(crate) fn is_empty(&self) -> bool {
        !self.least.cmple(self.greatest).all()
    }

    /// Its middle.
    pub(crate) fn middle(&self) -> DVec2 {
        (self.least + self.greatest) / 2.0
    }

    /// Its size along both axes.
    pub(crate) fn size(&self) -> DVec2 {
        self.greatest - self.least
    }

    /// Whether the two have a point in common.
    pub(crate) fn meets(&self, other: &Self) -> bool {
        self.least.cmple(other.greatest).all() && other.least.cmple(self.greatest).all()
    }

    /// Whether all of `other` lies within it.
    pub(crate) fn holds(&self, other: &Self) -> bool {
        self.least.cmple(other.least).all() && other.greatest.cmple(self.greatest).all()
    }
}

/// The plan of a run, in its own directions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct RunPlan {
    /// Tube axis at the flange.
    pub flange: DVec2,
    /// Toward the exhaust or the bend.
    pub heading: DVec2,
    /// Left of it.
    pub left: DVec2,
    /// Length of tube or leg in plan, m.
    pub length_m: f64,
    /// Length of the burner's body behind the flange, m.
    pub burner_length_m: f64,
    /// Width of the burner's body, m.
    pub burner_width_m: f64,
    /// What the exhaust fitting or the bend adds beyond the tube, m.
    pub end_length_m: f64,
    /// Half the distance between the legs' axes; 0 of a straight run.
    pub half_spacing_m: f64,
    /// Diameter of the tube, m.
    pub tube_m: f64,
    /// Half the width of the reflector, m.
    pub half_width_m: f64,
}

impl RunPlan {
    /// The plan of a run; of a run whose family nobody knows, that of a short bare tube.
    pub(crate) fn of(run: &Run, catalogue: &Catalogue) -> Self {
        let heading = along(run.bearing);
        let bare = Self {
            flange: run.burner,
            heading,
            left: heading.perp(),
            length_m: 3.0,
            burner_length_m: 0.5,
            burner_width_m: 0.4,
            end_length_m: 0.2,
            half_spacing_m: 0.0,
            tube_m: 0.1,
            half_width_m: 0.25,
        };
        let Some((family, size)) = catalogue.size(&run.family, &run.size) else {
            return bare;
        };
        let (half_spacing_m, end_length_m) = match family.shape {
            FamilyShape::Straight => (0.0, family.exhaust.length.as_metres()),
            FamilyShape::Hairpin {
                leg_spacing,
                bend_length,
                ..
            } => (leg_spacing.as_metres() / 2.0, bend_length.as_metres()),
        };
        let reach = |far: f64, point: &DVec2| far.max(point.x.abs());
        let reflector = family.reflector.profile.iter().fold(0.0, reach);
        Self {
            length_m: family.leg_length(size).as_metres() * cos(atan(family.hanging.slope)),
            burner_length_m: family.burner.length.as_metres(),
            burner_width_m: family.burner.width.as_metres(),
            end_length_m,
            half_spacing_m,
            tube_m: family.tube_diameter.as_metres(),
            half_width_m: reflector.max(half_spacing_m + family.tube_diameter.as_metres() / 2.0),
            ..bare
        }
    }

    /// A point by its distance along the run and to the left of it.
    pub(crate) fn at(&self, along_m: f64, left_m: f64) -> DVec2 {
        self.flange + self.heading * along_m + self.left * left_m
    }

    /// The far end of the tube or the legs.
    pub(crate) fn end(&self) -> DVec2 {
        self.at(self.length_m, 0.0)
    }

    /// The corners of everything that belongs to the run.
    pub(crate) fn corners(&self) -> [DVec2; 4] {
        let half = self.half_width_m.max(self.burner_width_m / 2.0);
        let (from, to) = (-self.burner_length_m, self.length_m + self.end_length_m);
        [
            self.at(from, -half),
            self.at(to, -half),
            self.at(to, half),
            self.at(from, half),
        ]
    }
}

/// The two corners of a wall, in the order of the outline; none if it is not there.
pub(crate) fn wall(bay: &Bay, edge: usize) -> Option<(DVec2, DVec2)> {
    let from = *bay.outline.get(edge)?;
    let to = *bay.outline.get((edge + 1) % bay.outline.len())?;
    Some((from, to))
}

/// The two jambs of an opening in plan; none if its wall is not there.
pub(crate) fn jambs(opening: &Opening, bay: &Bay) -> Option<(DVec2, DVec2)> {
    let (from, to) = wall(bay, opening.edge)?;
    let direction = (to - from).try_normalize()?;
    let start = from + direction * opening.from_corner.as_metres();
    Some((start, start + direction * opening.width.as_metres()))
}

/// The outline of an obstruction: of a line, the rectangle along each of its pieces.
pub(crate) fn outlines(obstruction: &Obstruction) -> Vec<Vec<DVec2>> {
    match &obstruction.footprint {
        Footprint::Area { outline, holes } => std::iter::once(outline.clone())
            .chain(holes.iter().cloned())
            .collect(),
        Footprint::Line { points, width } => points
            .windows(2)
            .map(|piece| {
                let across =
                    (piece[1] - piece[0]).normalize_or(DVec2::X).perp() * (width.as_metres() / 2.0);
                vec![
                    piece[0] + across,
                    piece[0] - across,
                    piece[1] - across,
                    piece[1] + across,
                ]
            })
            .collect(),
    }
}

/// How far an object reaches in plan; empty where it depends on something that is gone.
pub(crate) fn extent(site: &Site, catalogue: &Catalogue, object: &Object) -> Extent {
    match object {
        Object::GridLine(line) => Extent::of([line.from, line.to]),
        Object::SectionLine(line) => Extent::of([line.from, line.to]),
        Object::Bay(bay) => Extent::of(bay.outline.iter().copied()),
        Object::Opening(opening) => site
            .bays
            .iter()
            .find(|bay| bay.id == opening.bay)
            .and_then(|bay| jambs(opening, bay))
            .map_or(Extent::EMPTY, |(a, b)| Extent::of([a, b])),
        Object::Framing(framing) => site
            .bays
            .iter()
            .find(|bay| bay.id == framing.bay)
            .map_or(Extent::EMPTY, |bay| Extent::of(bay.outline.iter().copied())),
        Object::Obstruction(it) => Extent::of(outlines(it).into_iter().flatten()),
        Object::WorkSpot(spot) => Extent::of([spot.at]),
        Object::Run(run) => Extent::of(RunPlan::of(run, catalogue).corners()),
    }
}

/// How far some objects reach in plan together.
pub(crate) fn extent_of_ids<'a>(
    site: &Site,
    catalogue: &Catalogue,
    ids: impl IntoIterator<Item = &'a ObjectId>,
) -> Extent {
    ids.into_iter()
        .filter_map(|id| site.object(id))
        .map(|object| extent(site, catalogue, &object))
        .fold(Extent::EMPTY, Extent::joined)
}
