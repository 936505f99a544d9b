//! What of a convex solid lies in the corridor that an envelope sweeps along an axis.

use crate::geometry::parting::{Hull, extent};
use crate::geometry::{Bounds, ConvexSolid, DVec3, Frame, tolerance};

/// A convex solid seen from a run: its corners in (s, l, u).
pub(super) struct Seen<'a> {
    solid: &'a ConvexSolid,
    frame: &'a Frame,
    pub(super) vertices: &'a [DVec3],
    pub(super) bounds: Bounds,
}

/// What of a solid lies in a corridor, along the corridor's axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Range {
    /// Least coordinate along the axis, m.
    pub(super) low_m: f64,
    /// Greatest coordinate along the axis, m.
    pub(super) high_m: f64,
    /// Round what lies lowest, (s, l, u).
    pub(super) lowest: Bounds,
    /// Round what lies highest, (s, l, u).
    pub(super) highest: Bounds,
}

impl<'a> Seen<'a> {
    /// Turns a solid's corners into the frame; they are kept in `vertices`, which is
    /// used again and again so that thousands of pairs ask for no memory.
    pub(super) fn new(
        solid: &'a ConvexSolid,
        frame: &'a Frame,
        vertices: &'a mut Vec<DVec3>,
    ) -> Self {
        vertices.clear();
        vertices.extend(solid.vertices().iter().map(|&v| frame.local_from_site(v)));
        Self {
            solid,
            frame,
            bounds: Bounds::around(vertices),
            vertices,
        }
    }

    /// The part of the solid within the corridor that an envelope sweeps along an axis:
    /// the points whose other two coordinates lie between the envelope's. `None` where
    /// there is none. What only touches the corridor's sides, by up to
    /// [`tolerance::LIMIT`], keeps its distance there and is not in it.
    ///
    /// The part is convex, and a linear function is least at one of its corners: a
    /// corner of the solid, a crossing of one of its edges with a side of the
    /// corridor, or of one of its faces with an edge of the corridor. These are
    /// gathered in `candidates`.
    pub(super) fn range_in_corridor(
        &self,
        axis: usize,
        envelope: &Bounds,
        candidates: &mut Vec<DVec3>,
    ) -> Option<Range> {
        self.range_within(axis, &envelope.grown(-tolerance::LIMIT), candidates)
    }

    /// The same between the given coordinates themselves, which may be equal.
    fn range_within(
        &self,
        axis: usize,
        corridor: &Bounds,
        candidates: &mut Vec<DVec3>,
    ) -> Option<Range> {
        let (i, j) = ((axis + 1) % 3, (axis + 2) % 3);
        let (low, high) = (corridor.low, corridor.high);
        let outside = self.bounds.high[i] < low[i]
            || high[i] < self.bounds.low[i]
            || self.bounds.high[j] < low[j]
            || high[j] < self.bounds.low[j];
        if outside {
            return None;
        }
        candidates.clear();
        let within = low[i] <= self.bounds.low[i]
            && self.bounds.high[i] <= high[i]
            && low[j] <= self.bounds.low[j]
            && self.bounds.high[j] <= high[j];
        if within {
            candidates.extend_from_slice(self.vertices);
        } else {
            self.edges_in_corridor((i, j), corridor, candidates);
            self.corridor_edges_in_solid(axis, corridor, candidates);
        }
        range_of(candidates, axis)
    }

    /// Round what of the solid lies nearest to an envelope in its corridor, looking
    /// along an axis upwards (sign +1) or downwards (-1) from the envelope's face
    /// behind; `None` where all of it lies behind that face. `range` is what lies in the
    /// corridor at all.
    pub(super) fn nearest_in_corridor(
        &self,
        (axis, sign): (usize, f64),
        envelope: &Bounds,
        range: &Range,
        candidates: &mut Vec<DVec3>,
    ) -> Option<(f64, Bounds)> {
        let (near_m, far_m, nearest, behind_m) = if sign > 0.0 {
            (range.low_m, range.high_m, range.lowest, envelope.low[axis])
        } else {
            (
                range.high_m,
                range.low_m,
                range.highest,
                envelope.high[axis],
            )
        };
        if (far_m - behind_m) * sign <= tolerance::LIMIT {
            return None;
        }
        if (near_m - behind_m) * sign >= 0.0 {
            return Some((near_m, nearest));
        }
        // It reaches through the face behind: its section there is nearest. How far the
        // section reaches along each of the other axes is again what lies in a corridor.
        let mut section = envelope.grown(-tolerance::LIMIT);
        (section.low[axis], section.high[axis]) = (behind_m, behind_m);
        let (i, j) = ((axis + 1) % 3, (axis + 2) % 3);
        let reaches = [i, j].map(|across| self.range_within(across, &section, candidates));
        for (across, reach) in [i, j].into_iter().zip(reaches) {
            let reach = reach?;
            section.low[across] = section.low[across].max(reach.low_m);
            section.high[across] = section.high[across].min(reach.high_m);
        }
        Some((behind_m, section))
    }

    /// The ends of what of each edge lies in the corridor.
    fn edges_in_corridor(
        &self,
        (i, j): (usize, usize),
        corridor: &Bounds,
        candidates: &mut Vec<DVec3>,
    ) {
        for &(a, b) in self.solid.edges() {
            let (from, to) = (self.vertices[a], self.vertices[b]);
            let along = to - from;
            let (mut enter, mut leave) = (0.0, 1.0);
            for k in [i, j] {
                let (at_low, at_high) = (corridor.low[k] - from[k], corridor.high[k] - from[k]);
                if along[k].abs() > 0.0 {
                    let (one, other) = (at_low / along[k], at_high / along[k]);
                    enter = one.min(other).max(enter);
                    leave = one.max(other).min(leave);
                } else if at_low > 0.0 || at_high < 0.0 {
                    leave = f64::NEG_INFINITY;
                }
            }
            if enter <= leave {
                candidates.push(from + along * enter);
                candidates.push(from + along * leave);
            }
        }
    }

    /// The ends of what of each of the corridor's four edges lies in the solid.
    fn corridor_edges_in_solid(&self, axis: usize, corridor: &Bounds, candidates: &mut Vec<DVec3>) {
        let (i, j) = ((axis + 1) % 3, (axis + 2) % 3);
        for (at_i, at_j) in [
            (corridor.low[i], corridor.low[j]),
            (corridor.high[i], corridor.low[j]),
            (corridor.low[i], corridor.high[j]),
            (corridor.high[i], corridor.high[j]),
        ] {
            let beside = at_i < self.bounds.low[i]
                || self.bounds.high[i] < at_i
                || at_j < self.bounds.low[j]
                || self.bounds.high[j] < at_j;
            if beside {
                continue;
            }
            let mut point = DVec3::ZERO;
            (point[i], point[j]) = (at_i, at_j);
            if let Some((low_m, high_m)) = self.line_in_solid(axis, point, 0.0) {
                point[axis] = low_m;
                candidates.push(point);
                point[axis] = high_m;
                candidates.push(point);
            }
        }
    }

    /// Where the line through a point along an axis is within `slack_m` of the solid's
    /// planes, as coordinates along the axis.
    pub(super) fn line_in_solid(
        &self,
        axis: usize,
        mut point: DVec3,
        slack_m: f64,
    ) -> Option<(f64, f64)> {
        point[axis] = 0.0;
        let direction = match axis {
            0 => self.frame.along,
            1 => self.frame.left,
            _ => self.frame.up,
        };
        let start = self.frame.site_from_local(point);
        let (mut enter, mut leave) = (f64::NEG_INFINITY, f64::INFINITY);
        for face in self.solid.faces() {
            let room = face.offset + slack_m - face.normal.dot(start);
            let slope = face.normal.dot(direction);
            if slope > tolerance::PARALLEL {
                leave = leave.min(room / slope);
            } else if slope < -tolerance::PARALLEL {
                enter = enter.max(room / slope);
            } else if room < 0.0 {
                return None;
            }
        }
        (enter <= leave).then_some((enter, leave))
    }

    /// Its normals and edges turned into the frame, for telling how deep it sits in a box.
    pub(super) fn hull(&self) -> SeenHull<'_> {
        let turned = |directions: &[DVec3]| {
            directions
                .iter()
                .map(|&d| self.frame.local_direction(d))
                .collect()
        };
        SeenHull {
            vertices: self.vertices,
            face_directions: turned(self.solid.face_directions()),
            edge_directions: turned(self.solid.edge_directions()),
        }
    }

    /// The whole solid in (s, l, u).
    pub(super) fn solid(&self) -> ConvexSolid {
        self.solid.seen_from(self.frame)
    }
}

/// See [`Seen::hull`].
pub(super) struct SeenHull<'a> {
    vertices: &'a [DVec3],
    face_directions: Vec<DVec3>,
    edge_directions: Vec<DVec3>,
}

impl Hull for SeenHull<'_> {
    fn face_directions(&self) -> &[DVec3] {
        &self.face_directions
    }

    fn edge_directions(&self) -> &[DVec3] {
        &self.edge_directions
    }

    fn extent(&self, axis: DVec3) -> (f64, f64) {
        extent(self.vertices, axis)
    }
}

/// The least and greatest coordinate of the candidates, with the box round what lies there.
///
/// What lies there is flat and convex, so that the middle of its box belongs to it;
/// and it is the same middle from whichever side the site is looked at, which the
/// first corner found would not be.
fn range_of(candidates: &[DVec3], axis: usize) -> Option<Range> {
    if candidates.is_empty() {
        return None;
    }
    let bounds = Bounds::around(candidates);
    let (low_m, high_m) = (bounds.low[axis], bounds.high[axis]);
    let there = |at_m: f64| {
        candidates
            .iter()
            .filter(|p| (p[axis] - at_m).abs() <= tolerance::DISTANCE)
            .fold(Bounds::EMPTY, |bounds, &p| bounds.with(p))
    };
    Some(Range {
        low_m,
        high_m,
        lowest: there(low_m),
        highest: there(high_m),
    })
}
