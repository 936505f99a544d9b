//! What may be in the way of runs, with an index that finds what is near.

use super::bodies::RunBodies;
use crate::geometry::{Bounds, ConvexSolid};
use parry3d_f64::bounding_volume::Aabb;
use parry3d_f64::partitioning::{Bvh, BvhBuildStrategy};

/// The class of an obstacle: the position of its required distances in a run's list
/// ([`super::CheckedRun::required`]).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Class(pub usize);

/// A solid in the way, as convex pieces that together make it up.
#[derive(Debug, Clone, PartialEq)]
pub struct Obstacle {
    /// The pieces; they may touch each other.
    pub pieces: Vec<ConvexSolid>,
    /// Which distances are required from it.
    pub class: Class,
}

impl Obstacle {
    /// The bodies of a run, as another run meets them.
    #[must_use]
    pub fn from_run(run: &RunBodies, class: Class) -> Self {
        Self {
            pieces: run.solids().into_iter().map(|(_, solid)| solid).collect(),
            class,
        }
    }

    /// The box round all pieces.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        self.pieces
            .iter()
            .fold(Bounds::EMPTY, |bounds, piece| bounds.union(*piece.bounds()))
    }
}

/// Obstacles with an index over their pieces. Built once; asking it what is near a run
/// costs microseconds.
pub struct Obstacles {
    obstacles: Vec<Obstacle>,
    /// Obstacle and piece of each leaf of the tree.
    leaves: Vec<(usize, usize)>,
    tree: Bvh,
}

impl Obstacles {
    /// Indexes obstacles. Their order is kept: measures name them by position.
    #[must_use]
    pub fn new(obstacles: Vec<Obstacle>) -> Self {
        let leaves: Vec<(usize, usize)> = obstacles
            .iter()
            .enumerate()
            .flat_map(|(k, obstacle)| (0..obstacle.pieces.len()).map(move |piece| (k, piece)))
            .collect();
        let boxes: Vec<Aabb> = leaves
            .iter()
            .map(|&(k, piece)| aabb(obstacles[k].pieces[piece].bounds()))
            .collect();
        Self {
            tree: Bvh::from_leaves(BvhBuildStrategy::Binned, &boxes),
            leaves,
            obstacles,
        }
    }

    /// All of them, in order.
    #[must_use]
    pub fn all(&self) -> &[Obstacle] {
        &self.obstacles
    }

    /// Obstacle and piece of everything whose box meets another one, in order.
    #[must_use]
    pub fn near(&self, bounds: &Bounds) -> Vec<(usize, usize)> {
        let wanted = aabb(bounds);
        let mut found: Vec<(usize, usize)> = self
            .tree
            .intersect_aabb(&wanted)
            .filter_map(|leaf| self.leaves.get(leaf as usize).copied())
            .collect();
        found.sort_unstable();
        found
    }
}

fn aabb(bounds: &Bounds) -> Aabb {
    Aabb::new(bounds.low, bounds.high)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{DVec3, Frame};

    fn cube(x: f64) -> Obstacle {
        let local = Bounds {
            low: DVec3::new(x, 0.0, 0.0),
            high: DVec3::new(x + 1.0, 1.0, 1.0),
        };
        Obstacle {
            pieces: ConvexSolid::turned_box(&Frame::AXES, &local)
                .into_iter()
                .collect(),
            class: Class(0),
        }
    }

    fn check(obstacles: Vec<Obstacle>, expected: &[(usize, usize)]) {
        let wanted = Bounds {
            low: DVec3::new(1.5, 0.0, 0.0),
            high: DVec3::new(4.0, 1.0, 1.0),
        };
        assert_eq!(Obstacles::new(obstacles).near(&wanted), expected);
    }

    #[test]
    fn what_meets_is_named_in_order() {
        check(
            (0..9).rev().map(f64::from).map(cube).collect(),
            &[(4, 0), (5, 0), (6, 0), (7, 0)],
        );
    }

    #[test]
    fn few_or_none_are_no_trouble() {
        check(Vec::new(), &[]);
        check(vec![cube(2.0)], &[(0, 0)]);
        check(vec![cube(9.0)], &[]);
        let empty = Obstacle {
            pieces: Vec::new(),
            class: Class(0),
        };
        check(vec![empty, cube(2.0)], &[(1, 0)]);
    }
}
