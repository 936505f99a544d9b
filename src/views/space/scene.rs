//! What is drawn in space: bodies of flat faces, their edges, and lines.

use super::inks::Tone;
use crate::geometry::{Bounds, ConvexSolid, DVec3};
use crate::site::ObjectId;

/// Things in space, ready to be drawn from anywhere.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    pub(super) corners: Vec<DVec3>,
    pub(super) faces: Vec<Face>,
    /// Corners of the faces, one after the other.
    pub(super) rings: Vec<u32>,
    pub(super) edges: Vec<[u32; 2]>,
    pub(super) bodies: Vec<Body>,
    pub(super) lines: Vec<Line>,
    /// Names of things, with the place in space that they belong to.
    pub captions: Vec<Caption>,
    /// The box round everything.
    pub bounds: Bounds,
}

/// A name in space.
#[derive(Debug, Clone, PartialEq)]
pub struct Caption {
    /// What is named.
    pub of: CaptionOf,
    /// Its text.
    pub text: String,
    /// Where it belongs.
    pub at: DVec3,
}

/// What a caption names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CaptionOf {
    /// A run.
    Run(ObjectId),
    /// An obstruction.
    Obstruction(ObjectId),
    /// A grid line, at its end.
    Grid,
}

/// A flat face: a convex ring of corners.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Face {
    /// Its corners: from and until, in the list of rings.
    pub(super) from: u32,
    pub(super) until: u32,
    /// Unit vector out of the body.
    pub(super) normal: DVec3,
    /// Whether it is seen from behind too.
    pub(super) sides: Sides,
    /// How much more than its tone says it covers, where it is translucent, 256ths.
    pub(super) weight: u16,
}

/// From where a face is seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sides {
    /// From outside alone.
    Outer,
    /// From both sides.
    Both,
}

/// A body: faces and edges that belong together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Body {
    pub(super) tone: Tone,
    pub(super) corners: [u32; 2],
    pub(super) faces: [u32; 2],
    pub(super) edges: [u32; 2],
    pub(super) centre: DVec3,
    pub(super) radius_m: f64,
}

/// A straight line with a width in space.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Line {
    pub(super) tone: Tone,
    pub(super) from: DVec3,
    pub(super) to: DVec3,
    pub(super) width_m: f64,
    /// A line that would be seen shorter than this is left out, pixels.
    pub(super) least_px: f64,
}

impl Default for Scene {
    fn default() -> Self {
        Self {
            corners: Vec::new(),
            faces: Vec::new(),
            rings: Vec::new(),
            edges: Vec::new(),
            bodies: Vec::new(),
            lines: Vec::new(),
            captions: Vec::new(),
            bounds: Bounds::EMPTY,
        }
    }
}

/// A place in a list, as it is kept. Scenes stay far below the limit; what would lie
/// beyond is not drawn.
fn place(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

impl Scene {
    /// A convex solid. `weight` tells of each face's centre and normal how much it covers,
    /// 256 for as much as its tone says.
    pub(super) fn solid(
        &mut self,
        tone: Tone,
        solid: &ConvexSolid,
        weight: impl Fn(DVec3, DVec3) -> u16,
    ) {
        let first = self.corners.len();
        let begun = (self.faces.len(), self.edges.len());
        self.corners.extend_from_slice(solid.vertices());
        for face in solid.faces() {
            let from = place(self.rings.len());
            self.rings
                .extend(face.corners.iter().map(|&k| place(first + k)));
            let sum: DVec3 = face.corners.iter().map(|&k| solid.vertices()[k]).sum();
            #[expect(clippy::cast_precision_loss, reason = "a face has few corners")]
            let centre = sum / face.corners.len() as f64;
            self.faces.push(Face {
                from,
                until: place(self.rings.len()),
                normal: face.normal,
                sides: Sides::Outer,
                weight: weight(centre, face.normal),
            });
        }
        let edges = solid.edges().iter();
        self.edges
            .extend(edges.map(|&(a, b)| [place(first + a), place(first + b)]));
        self.close(tone, first, begun);
    }

    /// A convex solid without edges.
    pub(super) fn smooth(&mut self, tone: Tone, solid: &ConvexSolid) {
        self.solid(tone, solid, |_, _| 256);
        if let Some(body) = self.bodies.last_mut() {
            self.edges.truncate(body.edges[0] as usize);
            body.edges[1] = body.edges[0];
        }
    }

    /// A flat area seen from both sides.
    pub(super) fn sheet(&mut self, tone: Tone, ring: &[DVec3], edged: &[bool]) {
        let [a, b, c, ..] = ring else {
            return;
        };
        let Some(normal) = (b - a).cross(c - a).try_normalize() else {
            return;
        };
        let first = self.corners.len();
        let begun = (self.faces.len(), self.edges.len());
        self.corners.extend_from_slice(ring);
        let from = place(self.rings.len());
        self.rings.extend((0..ring.len()).map(|k| place(first + k)));
        self.faces.push(Face {
            from,
            until: place(self.rings.len()),
            normal,
            sides: Sides::Both,
            weight: 256,
        });
        for (k, is_edge) in edged.iter().enumerate().take(ring.len()) {
            if *is_edge {
                let next = (k + 1) % ring.len();
                self.edges.push([place(first + k), place(first + next)]);
            }
        }
        self.close(tone, first, begun);
    }

    fn close(&mut self, tone: Tone, first: usize, begun: (usize, usize)) {
        let bounds = Bounds::around(&self.corners[first..]);
        self.bounds = self.bounds.union(bounds);
        self.bodies.push(Body {
            tone,
            corners: [place(first), place(self.corners.len())],
            faces: [place(begun.0), place(self.faces.len())],
            edges: [place(begun.1), place(self.edges.len())],
            centre: bounds.centre(),
            radius_m: bounds.half_size().length(),
        });
    }

    /// A line as wide as something in space; it is always seen, however thin.
    pub(super) fn line(&mut self, tone: Tone, from: DVec3, to: DVec3, width_m: f64) {
        self.fine_line(tone, from, to, width_m, 0.0);
    }

    /// A line that is left out where it would be seen shorter than some pixels.
    pub(super) fn fine_line(
        &mut self,
        tone: Tone,
        from: DVec3,
        to: DVec3,
        width_m: f64,
        least_px: f64,
    ) {
        self.bounds = self.bounds.with(from).with(to);
        self.lines.push(Line {
            tone,
            from,
            to,
            width_m,
            least_px,
        });
    }

    /// How many faces it has.
    #[must_use]
    pub fn n_faces(&self) -> usize {
        self.faces.len()
    }
}
