//! Directions that part convex solids, and how far apart or deep in each other the
//! solids' shadows are along them.

use super::bounds::Bounds;
use super::solid::ConvexSolid;
use super::{DVec3, tolerance};

/// What is needed of a convex solid to tell how deep another one sits in it.
pub trait Hull {
    /// Unit normals of its faces, parallel faces once.
    fn face_directions(&self) -> &[DVec3];
    /// Unit vectors along its edges, parallel edges once.
    fn edge_directions(&self) -> &[DVec3];
    /// Its least and greatest coordinate along an axis.
    fn extent(&self, axis: DVec3) -> (f64, f64);
}

impl Hull for ConvexSolid {
    fn face_directions(&self) -> &[DVec3] {
        Self::face_directions(self)
    }

    fn edge_directions(&self) -> &[DVec3] {
        Self::edge_directions(self)
    }

    fn extent(&self, axis: DVec3) -> (f64, f64) {
        extent(self.vertices(), axis)
    }
}

impl Hull for Bounds {
    fn face_directions(&self) -> &[DVec3] {
        &DVec3::AXES
    }

    fn edge_directions(&self) -> &[DVec3] {
        &DVec3::AXES
    }

    fn extent(&self, axis: DVec3) -> (f64, f64) {
        let (middle, reach) = (self.centre().dot(axis), self.half_size().dot(axis.abs()));
        (middle - reach, middle + reach)
    }
}

/// The least and greatest coordinate of points along an axis.
#[must_use]
pub fn extent(points: &[DVec3], axis: DVec3) -> (f64, f64) {
    points
        .iter()
        .map(|p| p.dot(axis))
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
            (low.min(at), high.max(at))
        })
}

/// All directions that can part two convex solids: unit normals of their faces and
/// the common perpendiculars of their edges.
pub fn parting_axes<'a>(
    one: &'a impl Hull,
    other: &'a impl Hull,
) -> impl Iterator<Item = DVec3> + 'a {
    let normals = one.face_directions().iter().chain(other.face_directions());
    let across = one.edge_directions().iter().flat_map(|a| {
        other.edge_directions().iter().filter_map(move |b| {
            let axis = a.cross(*b);
            let length = axis.length();
            (length > tolerance::PARALLEL).then(|| axis / length)
        })
    });
    normals.copied().chain(across)
}

/// A slab between two convex solids.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// Its thickness, m. Less than zero where the solids overlap: the length of the
    /// shortest move that parts them.
    pub gap_m: f64,
    /// Unit vector across it, from the first solid to the second.
    pub normal: DVec3,
}

/// The direction along which the shadows of two solids are farthest apart, or overlap
/// least.
///
/// Looked for among all directions that can part two convex solids. A gap of less than zero
/// is the exact depth of the overlap; one above zero says that they are apart, by at
/// least so much.
#[must_use]
pub fn widest_gap(one: &impl Hull, other: &impl Hull) -> Gap {
    let mut widest = Gap {
        gap_m: f64::NEG_INFINITY,
        normal: DVec3::X,
    };
    for axis in parting_axes(one, other) {
        let (low_one, high_one) = one.extent(axis);
        let (low_other, high_other) = other.extent(axis);
        for (gap_m, normal) in [(low_other - high_one, axis), (low_one - high_other, -axis)] {
            if widest.gap_m < gap_m {
                widest = Gap { gap_m, normal };
            }
        }
    }
    widest
}
