//! Convex solids with flat sides.

use super::bounds::Bounds;
use super::frame::Frame;
use super::{DVec3, tolerance};

/// A flat side of a solid.
#[derive(Debug, Clone, PartialEq)]
pub struct Face {
    /// Unit vector out of the solid.
    pub normal: DVec3,
    /// The solid lies where `normal . p <= offset`.
    pub offset: f64,
    /// Positions of its corners in the list of vertices, counter-clockwise seen from outside.
    pub corners: Vec<usize>,
}

/// A bounded convex solid with flat sides and a volume.
#[derive(Debug, Clone, PartialEq)]
pub struct ConvexSolid {
    vertices: Vec<DVec3>,
    faces: Vec<Face>,
    edges: Vec<(usize, usize)>,
    edge_directions: Vec<DVec3>,
    face_directions: Vec<DVec3>,
    bounds: Bounds,
}

impl ConvexSolid {
    /// Farther from the origin than this, m, or not a number, is no building: the
    /// arithmetic of distances has no room left there.
    pub const FARTHEST_M: f64 = 1e6;

    /// Faces as outward normals of any length and corners; a face left with fewer
    /// than three different corners is dropped.
    pub(super) fn from_faces(
        vertices: Vec<DVec3>,
        faces: Vec<(DVec3, Vec<usize>)>,
    ) -> Option<Self> {
        let faces: Vec<Face> = faces
            .into_iter()
            .filter_map(|(normal, mut corners)| {
                corners.dedup();
                if corners.first() == corners.last() {
                    corners.pop();
                }
                let normal = normal.try_normalize()?;
                let offset = corners
                    .iter()
                    .map(|&k| normal.dot(vertices[k]))
                    .fold(f64::NEG_INFINITY, f64::max);
                (3 <= corners.len()).then_some(Face {
                    normal,
                    offset,
                    corners,
                })
            })
            .collect();
        let is_near = |v: &DVec3| v.abs().max_element() <= Self::FARTHEST_M;
        if faces.len() < 4 || !vertices.iter().all(is_near) {
            return None;
        }
        let mut edges: Vec<(usize, usize)> = faces
            .iter()
            .flat_map(|face| {
                let next = face.corners.iter().cycle().skip(1);
                face.corners.iter().zip(next).map(|(&a, &b)| (a, b))
            })
            .filter(|(a, b)| a < b)
            .collect();
        edges.sort_unstable();
        edges.dedup();
        let along = |&(a, b): &(usize, usize)| (vertices[b] - vertices[a]).normalize_or_zero();
        Some(Self {
            bounds: Bounds::around(&vertices),
            edge_directions: distinct(edges.iter().map(along)),
            face_directions: distinct(faces.iter().map(|face| face.normal)),
            vertices,
            faces,
            edges,
        })
    }

    /// Its corners.
    #[must_use]
    pub fn vertices(&self) -> &[DVec3] {
        &self.vertices
    }

    /// Its flat sides.
    #[must_use]
    pub fn faces(&self) -> &[Face] {
        &self.faces
    }

    /// Its edges, each once, as positions in the list of vertices.
    #[must_use]
    pub fn edges(&self) -> &[(usize, usize)] {
        &self.edges
    }

    /// Unit vectors along its edges, parallel edges once.
    #[must_use]
    pub fn edge_directions(&self) -> &[DVec3] {
        &self.edge_directions
    }

    /// Unit normals of its faces, parallel faces once.
    #[must_use]
    pub fn face_directions(&self) -> &[DVec3] {
        &self.face_directions
    }

    /// The box round it.
    #[must_use]
    pub fn bounds(&self) -> &Bounds {
        &self.bounds
    }

    /// Whether a point is inside; the surface counts.
    #[must_use]
    pub fn contains(&self, p: DVec3) -> bool {
        self.faces
            .iter()
            .all(|face| face.normal.dot(p) <= face.offset)
    }

    /// Moved by a vector.
    #[must_use]
    pub fn translated(&self, by: DVec3) -> Self {
        let mut moved = self.clone();
        moved.bounds.low += by;
        moved.bounds.high += by;
        for vertex in &mut moved.vertices {
            *vertex += by;
        }
        for face in &mut moved.faces {
            face.offset += face.normal.dot(by);
        }
        moved
    }

    /// The same solid in a frame's local coordinates.
    #[must_use]
    pub fn seen_from(&self, frame: &Frame) -> Self {
        let vertices: Vec<DVec3> = self
            .vertices
            .iter()
            .map(|&v| frame.local_from_site(v))
            .collect();
        let turned = |directions: &[DVec3]| {
            directions
                .iter()
                .map(|&d| frame.local_direction(d))
                .collect()
        };
        let faces = self
            .faces
            .iter()
            .map(|face| Face {
                normal: frame.local_direction(face.normal),
                offset: face.offset - face.normal.dot(frame.origin),
                corners: face.corners.clone(),
            })
            .collect();
        Self {
            bounds: Bounds::around(&vertices),
            vertices,
            faces,
            edges: self.edges.clone(),
            edge_directions: turned(&self.edge_directions),
            face_directions: turned(&self.face_directions),
        }
    }
}

/// Unit vectors, parallel and opposite ones once.
fn distinct(directions: impl Iterator<Item = DVec3>) -> Vec<DVec3> {
    let mut found: Vec<DVec3> = Vec::new();
    for direction in directions {
        let is_new = found
            .iter()
            .all(|known| known.cross(direction).length() > tolerance::PARALLEL);
        if is_new {
            found.push(direction);
        }
    }
    found
}
