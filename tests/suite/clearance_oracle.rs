//! An oracle for signed distances, written without the engine's own: separating axes
//! for the depth of an overlap, pairs of triangles for the distance apart.

use rafterglow::geometry::solid::Face;
use rafterglow::geometry::{Bounds, ConvexSolid, DVec2, DVec3, Frame};

/// A convex solid as the oracle sees it: corners, edges, and triangles of its surface.
pub(crate) struct Skin {
    points: Vec<DVec3>,
    edges: Vec<(DVec3, DVec3)>,
    triangles: Vec<[DVec3; 3]>,
}

impl Skin {
    /// From flat faces, each a convex ring of corners.
    pub(crate) fn new(faces: &[Vec<DVec3>]) -> Self {
        let triangles = faces
            .iter()
            .flat_map(|face| (1..face.len() - 1).map(|k| [face[0], face[k], face[k + 1]]))
            .filter(|[a, b, c]| (*b - *a).cross(*c - *a).length() > 1e-12)
            .collect();
        let mut points: Vec<DVec3> = Vec::new();
        let mut edges: Vec<(DVec3, DVec3)> = Vec::new();
        for face in faces {
            for (k, &a) in face.iter().enumerate() {
                let b = face[(k + 1) % face.len()];
                if points.iter().all(|known| known.distance(a) > 1e-12) {
                    points.push(a);
                }
                // Each edge belongs to two faces, which run along it either way.
                let is_new = edges.iter().all(|&(c, d)| {
                    a.distance(c).max(b.distance(d)) > 1e-12
                        && a.distance(d).max(b.distance(c)) > 1e-12
                });
                if a.distance(b) > 1e-12 && is_new {
                    edges.push((a, b));
                }
            }
        }
        Self {
            points,
            edges,
            triangles,
        }
    }

    /// The faces of a solid of the engine, of which nothing but corners is taken over.
    pub(crate) fn of(solid: &ConvexSolid) -> Self {
        let ring = |face: &Face| {
            let corners = face.corners.iter();
            corners.map(|&k| solid.vertices()[k]).collect()
        };
        let faces: Vec<Vec<DVec3>> = solid.faces().iter().map(ring).collect();
        Self::new(&faces)
    }

    /// A box along a frame's axes.
    pub(crate) fn of_box(frame: &Frame, local: &Bounds) -> Self {
        let size = local.high - local.low;
        Self::box_from(
            frame.site_from_local(local.low),
            [frame.along * size.x, frame.left * size.y, frame.up * size.z],
        )
    }

    /// A prism over a convex ring.
    pub(crate) fn prism(
        ring: &[DVec2],
        bottom: impl Fn(DVec2) -> f64,
        top: impl Fn(DVec2) -> f64,
    ) -> Self {
        let floor: Vec<DVec3> = ring.iter().map(|&p| p.extend(bottom(p))).collect();
        let lid: Vec<DVec3> = ring.iter().map(|&p| p.extend(top(p))).collect();
        let mut faces = vec![floor.clone(), lid.clone()];
        for k in 0..ring.len() {
            let next = (k + 1) % ring.len();
            faces.push(vec![floor[k], floor[next], lid[next], lid[k]]);
        }
        Self::new(&faces)
    }

    /// A box from its corner and three edges.
    pub(crate) fn box_from(corner: DVec3, [a, b, c]: [DVec3; 3]) -> Self {
        let side = |from: DVec3, u: DVec3, v: DVec3| vec![from, from + u, from + u + v, from + v];
        Self::new(&[
            side(corner, a, b),
            side(corner, b, c),
            side(corner, a, c),
            side(corner + c, a, b),
            side(corner + a, b, c),
            side(corner + b, a, c),
        ])
    }

    fn normals(&self) -> impl Iterator<Item = DVec3> {
        self.triangles
            .iter()
            .map(|[a, b, c]| (*b - *a).cross(*c - *a).normalize())
    }
}

/// Every direction that can part two solids, once.
fn axes(one: &Skin, other: &Skin) -> Vec<DVec3> {
    let along = |skin: &Skin| {
        let edges = skin.edges.iter();
        distinct(edges.map(|&(a, b)| (b - a).normalize()))
    };
    let mut axes: Vec<DVec3> = one.normals().chain(other.normals()).collect();
    for one in along(one) {
        for other in along(other) {
            let axis = one.cross(other);
            if axis.length() > 1e-9 {
                axes.push(axis.normalize());
            }
        }
    }
    distinct(axes.into_iter())
}

/// Directions, parallel ones once.
fn distinct(axes: impl Iterator<Item = DVec3>) -> Vec<DVec3> {
    let mut distinct: Vec<DVec3> = Vec::new();
    for axis in axes {
        if distinct
            .iter()
            .all(|known| known.cross(axis).length() > 1e-10)
        {
            distinct.push(axis);
        }
    }
    distinct
}

/// For every parting axis: the shifts of the first along it, from and to, between which
/// the shadows of the two overlap.
fn overlapping_shifts(one: &Skin, other: &Skin) -> Shifts {
    let shadow = |skin: &Skin, axis: DVec3| {
        skin.points
            .iter()
            .map(|p| p.dot(axis))
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
                (low.min(at), high.max(at))
            })
    };
    axes(one, other)
        .into_iter()
        .map(|axis| {
            let ((low_one, high_one), (low_other, high_other)) =
                (shadow(one, axis), shadow(other, axis));
            (axis, low_other - high_one, high_other - low_one)
        })
        .collect()
}

/// Signed distance of a box from a solid made of convex pieces: above zero apart, below
/// zero the length of the shortest move of the box that clears all pieces.
pub(crate) fn signed_distance_of_pieces(one: &Skin, pieces: &[Skin]) -> f64 {
    let apart = pieces
        .iter()
        .map(|piece| signed_distance(one, piece))
        .fold(f64::INFINITY, f64::min);
    if apart >= 0.0 {
        return apart;
    }
    -shortest_clearing_move(one, pieces).length()
}

/// The shortest move of a box that clears all pieces of a solid that it overlaps.
pub(crate) fn shortest_clearing_move(one: &Skin, pieces: &[Skin]) -> DVec3 {
    let mut blocked: Vec<_> = pieces
        .iter()
        .map(|piece| overlapping_shifts(one, piece))
        .collect();
    // Pieces farther away than a move that is known to clear all can't be met by a shorter one.
    let is_free = |moved: DVec3| is_free(&blocked, moved);
    let straight = blocked
        .iter()
        .flatten()
        .flat_map(|&(axis, low, high)| [axis * high, axis * low]);
    let known_m = straight
        .filter(|moved| is_free(*moved))
        .map(DVec3::length)
        .fold(f64::INFINITY, f64::min);
    let mut near = pieces
        .iter()
        .map(|piece| signed_distance(one, piece) <= known_m);
    blocked.retain(|_| near.next() == Some(true));
    shortest_free_move(&blocked)
}

/// For each piece, its shifts as [`overlapping_shifts`] tells them.
type Shifts = Vec<(DVec3, f64, f64)>;

fn is_free(blocked: &[Shifts], moved: DVec3) -> bool {
    blocked.iter().all(|piece| {
        piece.iter().any(|(axis, low, high)| {
            let at = axis.dot(moved);
            at <= low + 1e-9 || high - 1e-9 <= at
        })
    })
}

/// The shortest move that no piece blocks, by trying every one that can be it: the
/// foot on each side of a piece's blocked moves, on each line where two sides meet,
/// and each point where three meet.
fn shortest_free_move(blocked: &[Shifts]) -> DVec3 {
    let mut sides: Vec<(DVec3, f64)> = blocked
        .iter()
        .flatten()
        .flat_map(|&(axis, low, high)| [(axis, high), (-axis, -low)])
        .collect();
    sides.sort_by(|a, b| a.1.abs().total_cmp(&b.1.abs()));
    let mut shortest = DVec3::INFINITY;
    let mut offer = |moved: DVec3| {
        if moved.length() < shortest.length() && is_free(blocked, moved) {
            shortest = moved;
        }
        shortest.length()
    };
    for (i, &(n, c)) in sides.iter().enumerate() {
        let mut best = offer(n * c);
        if best < c.abs() {
            break;
        }
        for (j, &(m, d)) in sides[..i].iter().enumerate() {
            let cos = n.dot(m);
            let square = 1.0 - cos * cos;
            if square < 1e-12 {
                continue;
            }
            let foot = n * ((c - cos * d) / square) + m * ((d - cos * c) / square);
            best = offer(foot);
            if best < foot.length() {
                continue;
            }
            for &(o, e) in &sides[..j] {
                let volume = n.dot(m.cross(o));
                if volume.abs() > 1e-12 {
                    best = offer((m.cross(o) * c + o.cross(n) * d + n.cross(m) * e) / volume);
                }
            }
        }
    }
    shortest
}

/// Signed distance of two convex solids: above zero apart, below zero the depth of the
/// overlap.
pub(crate) fn signed_distance(one: &Skin, other: &Skin) -> f64 {
    let least_overlap = overlapping_shifts(one, other)
        .into_iter()
        .map(|(_, low, high)| high.min(-low))
        .fold(f64::INFINITY, f64::min);
    if least_overlap >= 0.0 {
        return -least_overlap;
    }
    let mut least = f64::INFINITY;
    for p in one.points.iter().copied() {
        for triangle in &other.triangles {
            least = least.min(point_to_triangle(p, triangle));
        }
    }
    for p in other.points.iter().copied() {
        for triangle in &one.triangles {
            least = least.min(point_to_triangle(p, triangle));
        }
    }
    for &(a, b) in &one.edges {
        for &(c, d) in &other.edges {
            least = least.min(segment_to_segment(a, b, c, d));
        }
    }
    least
}

/// Distance from a point to a solid's surface; zero inside is not known here.
pub(crate) fn point_to_skin(p: DVec3, skin: &Skin) -> f64 {
    skin.triangles
        .iter()
        .map(|triangle| point_to_triangle(p, triangle))
        .fold(f64::INFINITY, f64::min)
}

fn point_to_segment(p: DVec3, a: DVec3, b: DVec3) -> f64 {
    let along = b - a;
    let t = ((p - a).dot(along) / along.length_squared()).clamp(0.0, 1.0);
    p.distance(a + along * t)
}

fn point_to_triangle(p: DVec3, [a, b, c]: &[DVec3; 3]) -> f64 {
    let normal = (*b - *a).cross(*c - *a).normalize();
    let inside = [(a, b), (b, c), (c, a)]
        .iter()
        .all(|(from, to)| (**to - **from).cross(p - **from).dot(normal) >= 0.0);
    if inside {
        (p - *a).dot(normal).abs()
    } else {
        point_to_segment(p, *a, *b)
            .min(point_to_segment(p, *b, *c))
            .min(point_to_segment(p, *c, *a))
    }
}

/// Where the common perpendicular falls inside both, its length; otherwise an end is nearest.
fn segment_to_segment(a: DVec3, b: DVec3, c: DVec3, d: DVec3) -> f64 {
    let ends = point_to_segment(a, c, d)
        .min(point_to_segment(b, c, d))
        .min(point_to_segment(c, a, b))
        .min(point_to_segment(d, a, b));
    let (u, v) = (b - a, d - c);
    let across = u.cross(v);
    if across.length_squared() < 1e-18 * u.length_squared() * v.length_squared() {
        return ends;
    }
    let between = c - a;
    let s = between.cross(v).dot(across) / across.length_squared();
    let t = between.cross(u).dot(across) / across.length_squared();
    if (0.0..=1.0).contains(&s) && (0.0..=1.0).contains(&t) {
        ends.min(between.dot(across).abs() / across.length())
    } else {
        ends
    }
}
