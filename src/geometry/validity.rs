//! Whether a polygon is one: simple rings, holes inside, and if not, what is wrong where.

use super::polygon::{Polygon, ring_edges};
use super::segment::{Meeting, distance_to_segment, meeting};
use super::{DVec2, tolerance};
use std::fmt;

/// A ring of a polygon.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ring {
    /// The outer ring.
    Outline,
    /// A hole, counted from 0.
    Hole(usize),
}

impl fmt::Display for Ring {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Outline => f.write_str("the outline"),
            Self::Hole(index) => write!(f, "hole {}", index + 1),
        }
    }
}

/// The most corners that a polygon may have. A traced building has some dozens; the
/// cap keeps a file of noise from holding the program up.
pub const MOST_CORNERS: usize = 2_000;

/// What is wrong with a polygon. Corners and edges count from 0 here and from 1 in
/// the text; edge k runs from corner k to the next.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum PolygonFault {
    /// A ring needs three corners.
    #[error("{ring} has {n_corners} corners; it needs at least 3")]
    TooFewCorners {
        /// Which ring.
        ring: Ring,
        /// How many it has.
        n_corners: usize,
    },
    /// More than [`MOST_CORNERS`] in all.
    #[error("it has {n_corners} corners; at most {MOST_CORNERS} are accepted")]
    TooManyCorners {
        /// How many it has.
        n_corners: usize,
    },
    /// A coordinate that is no number, or infinite.
    #[error("corner {} of {ring} is not a finite number", corner + 1)]
    NotFinite {
        /// Which ring.
        ring: Ring,
        /// Which corner.
        corner: usize,
    },
    /// A corner in the same place as the one before it.
    #[error("corner {} of {ring} repeats the one before it at {}", corner + 1, Place(*place))]
    RepeatedCorner {
        /// Which ring.
        ring: Ring,
        /// The later of the two corners; the first one where it repeats the last.
        corner: usize,
        /// Where.
        place: DVec2,
    },
    /// All corners on one line.
    #[error("{ring} has no area: all its corners lie on one line")]
    ZeroArea {
        /// Which ring.
        ring: Ring,
    },
    /// Two edges of one ring cross, touch or overlap.
    #[error("edges {} and {} of {ring} meet at {}", edges.0 + 1, edges.1 + 1, Place(*place))]
    SelfCrossing {
        /// Which ring.
        ring: Ring,
        /// The two edges, the lower one first.
        edges: (usize, usize),
        /// Where they meet.
        place: DVec2,
    },
    /// A hole that lies outside the outline.
    #[error("hole {} lies outside the outline", hole + 1)]
    HoleOutside {
        /// Which hole.
        hole: usize,
    },
    /// A hole that touches the outline or another hole.
    #[error("hole {} touches {other} at {}", hole + 1, Place(*place))]
    HoleTouches {
        /// Which hole.
        hole: usize,
        /// What it touches.
        other: Ring,
        /// Where.
        place: DVec2,
    },
    /// A hole that crosses the outline or another hole.
    #[error("hole {} crosses {other} at {}", hole + 1, Place(*place))]
    HoleCrosses {
        /// Which hole.
        hole: usize,
        /// What it crosses.
        other: Ring,
        /// Where.
        place: DVec2,
    },
    /// A hole that lies inside another hole.
    #[error("hole {} lies inside hole {}", hole + 1, other + 1)]
    HoleInHole {
        /// Which hole.
        hole: usize,
        /// The one round it.
        other: usize,
    },
}

/// A place as a message shows it.
struct Place(DVec2);

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "({:.3}, {:.3})", self.0.x, self.0.y)
    }
}

impl Polygon {
    /// Whether this is a polygon that everything else can rely on: at least three
    /// corners a ring, none repeated, no ring that meets itself, every hole strictly
    /// inside the outline and apart from the other holes.
    ///
    /// # Errors
    /// The first fault: corners before crossings, the outline before the holes.
    pub fn check(&self) -> Result<(), PolygonFault> {
        let n_corners = self.rings().map(<[DVec2]>::len).sum();
        if n_corners > MOST_CORNERS {
            return Err(PolygonFault::TooManyCorners { n_corners });
        }
        for (ring, corners) in self.named_rings() {
            check_corners(ring, corners)?;
        }
        let edges = self.numbered_edges();
        let meetings = meetings(&edges);
        check_rings_alone(&edges, &meetings)?;
        check_rings_together(&edges, &meetings)?;
        self.check_nesting()
    }

    fn named_rings(&self) -> impl Iterator<Item = (Ring, &[DVec2])> {
        self.rings().enumerate().map(|(i, corners)| {
            let ring = i.checked_sub(1).map_or(Ring::Outline, Ring::Hole);
            (ring, corners)
        })
    }

    fn numbered_edges(&self) -> Vec<Edge> {
        let mut edges = Vec::new();
        for (ring, corners) in self.named_rings() {
            for (index, (from, to)) in ring_edges(corners).enumerate() {
                edges.push(Edge {
                    ring,
                    index,
                    n_in_ring: corners.len(),
                    from,
                    to,
                });
            }
        }
        edges
    }

    /// Given that no two rings meet, one corner tells where a whole hole lies.
    fn check_nesting(&self) -> Result<(), PolygonFault> {
        let outline = Self::new(self.outline.clone());
        let holes: Vec<Self> = self.holes.iter().cloned().map(Self::new).collect();
        for (hole, ring) in self.holes.iter().enumerate() {
            let Some(&corner) = ring.first() else {
                continue;
            };
            if !outline.contains(corner) {
                return Err(PolygonFault::HoleOutside { hole });
            }
            let round_it = holes
                .iter()
                .enumerate()
                .find(|(other, ring)| *other != hole && ring.contains(corner));
            if let Some((other, _)) = round_it {
                return Err(PolygonFault::HoleInHole { hole, other });
            }
        }
        Ok(())
    }
}

struct Edge {
    ring: Ring,
    index: usize,
    n_in_ring: usize,
    from: DVec2,
    to: DVec2,
}

impl Edge {
    fn low(&self) -> DVec2 {
        self.from.min(self.to) - DVec2::splat(tolerance::SAME_POINT)
    }

    fn high(&self) -> DVec2 {
        self.from.max(self.to) + DVec2::splat(tolerance::SAME_POINT)
    }
}

fn check_corners(ring: Ring, corners: &[DVec2]) -> Result<(), PolygonFault> {
    if let Some(corner) = corners.iter().position(|c| !c.is_finite()) {
        return Err(PolygonFault::NotFinite { ring, corner });
    }
    if corners.len() < 3 {
        let n_corners = corners.len();
        return Err(PolygonFault::TooFewCorners { ring, n_corners });
    }
    for (k, (a, b)) in ring_edges(corners).enumerate() {
        if a.distance(b) <= tolerance::SAME_POINT {
            let corner = (k + 1) % corners.len();
            let place = b;
            return Err(PolygonFault::RepeatedCorner {
                ring,
                corner,
                place,
            });
        }
    }
    let a = corners[0];
    let b = corners.iter().copied().fold(a, |far, c| {
        if c.distance(a) > far.distance(a) {
            c
        } else {
            far
        }
    });
    let is_flat = corners
        .iter()
        .all(|&c| distance_to_line(c, a, b) <= tolerance::SAME_POINT);
    if is_flat {
        return Err(PolygonFault::ZeroArea { ring });
    }
    Ok(())
}

fn distance_to_line(p: DVec2, a: DVec2, b: DVec2) -> f64 {
    (p - a).perp_dot((b - a).normalize_or_zero()).abs()
}

/// Two edges, as positions in the list of all edges (the lower one first), and how they meet.
type EdgePair = (usize, usize, Meeting);

/// Every pair of edges that meets where it should not, in order.
///
/// Sweeps along x, so that the edges of a drawn polygon are tested against their
/// neighbours only.
fn meetings(edges: &[Edge]) -> Vec<EdgePair> {
    let mut by_left: Vec<usize> = (0..edges.len()).collect();
    by_left.sort_by(|&i, &j| edges[i].low().x.total_cmp(&edges[j].low().x));
    let mut found = Vec::new();
    for (k, &i) in by_left.iter().enumerate() {
        let (low, high) = (edges[i].low(), edges[i].high());
        let reachable = by_left[k + 1..]
            .iter()
            .take_while(|&&j| edges[j].low().x <= high.x);
        for &j in reachable {
            if edges[j].low().y <= high.y && low.y <= edges[j].high().y {
                let (first, second) = (i.min(j), i.max(j));
                if let Some(how) = fault_of_pair(&edges[first], &edges[second]) {
                    found.push((first, second, how));
                }
            }
        }
    }
    found.sort_by_key(|&(first, second, _)| (first, second));
    found
}

/// How two edges meet beyond the corner that neighbours share.
fn fault_of_pair(first: &Edge, second: &Edge) -> Option<Meeting> {
    let is_next = |a: &Edge, b: &Edge| a.ring == b.ring && (a.index + 1) % a.n_in_ring == b.index;
    let (before, after) = if is_next(first, second) {
        (first, second)
    } else if is_next(second, first) {
        (second, first)
    } else {
        return meeting(first.from, first.to, second.from, second.to);
    };
    // Neighbours meet again only by folding back onto each other.
    let folds = if distance_to_segment(after.to, before.from, before.to) <= tolerance::SAME_POINT {
        Some(after.to)
    } else if distance_to_segment(before.from, after.from, after.to) <= tolerance::SAME_POINT {
        Some(before.from)
    } else {
        None
    };
    folds.map(Meeting::Touch)
}

fn check_rings_alone(edges: &[Edge], meetings: &[EdgePair]) -> Result<(), PolygonFault> {
    let alone = meetings
        .iter()
        .find(|(i, j, _)| edges[*i].ring == edges[*j].ring);
    match alone {
        None => Ok(()),
        Some(&(i, j, how)) => Err(PolygonFault::SelfCrossing {
            ring: edges[i].ring,
            edges: (edges[i].index, edges[j].index),
            place: how.place(),
        }),
    }
}

fn check_rings_together(edges: &[Edge], meetings: &[EdgePair]) -> Result<(), PolygonFault> {
    let Some(&(i, j, how)) = meetings.first() else {
        return Ok(());
    };
    let pair = (edges[i].ring, edges[j].ring);
    let same_pair = |k: usize, l: usize| (edges[k].ring, edges[l].ring) == pair;
    let crossing = meetings
        .iter()
        .filter(|(k, l, _)| same_pair(*k, *l))
        .find_map(|(_, _, how)| matches!(how, Meeting::Cross(_)).then(|| how.place()));
    let (Ring::Hole(hole), other) = (pair.1, pair.0) else {
        // Edges are listed outline first, so the second ring of a pair is a hole.
        return Ok(());
    };
    let through_corner = || lies_on_both_sides(edges, pair).then(|| how.place());
    Err(match crossing.or_else(through_corner) {
        Some(place) => PolygonFault::HoleCrosses { hole, other, place },
        None => PolygonFault::HoleTouches {
            hole,
            other,
            place: how.place(),
        },
    })
}

/// Whether the later ring has corners inside and outside the earlier one. Where they
/// meet at corners only, it then crosses through a corner.
fn lies_on_both_sides(edges: &[Edge], (other, hole): (Ring, Ring)) -> bool {
    let around = Polygon::new(corners_of(edges, other));
    let clear: Vec<DVec2> = corners_of(edges, hole)
        .into_iter()
        .filter(|&c| around.distance_to_boundary(c) > tolerance::SAME_POINT)
        .collect();
    clear.iter().any(|&c| around.contains(c)) && clear.iter().any(|&c| !around.contains(c))
}

fn corners_of(edges: &[Edge], ring: Ring) -> Vec<DVec2> {
    edges
        .iter()
        .filter(|edge| edge.ring == ring)
        .map(|edge| edge.from)
        .collect()
}
