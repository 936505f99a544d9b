//! The one test of which side a point lies on.
//!
//! Everything that asks "left or right?" asks here, so that two parts of the
//! program never answer differently for the same three points.

use super::DVec2;
use geo::algorithm::kernels::{Kernel, Orientation, RobustKernel};

/// How a path through three points turns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Turn {
    /// Counter-clockwise: the third point lies left of the first two.
    Left,
    /// The three points lie on one line, exactly.
    Straight,
    /// Clockwise: the third point lies right of the first two.
    Right,
}

/// The turn of the path a, b, c; exact for any finite coordinates.
#[must_use]
pub fn turn(a: DVec2, b: DVec2, c: DVec2) -> Turn {
    match RobustKernel::orient2d(coord(a), coord(b), coord(c)) {
        Orientation::CounterClockwise => Turn::Left,
        Orientation::Collinear => Turn::Straight,
        Orientation::Clockwise => Turn::Right,
    }
}

fn coord(p: DVec2) -> geo::Coord {
    geo::Coord { x: p.x, y: p.y }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cmp::Ordering;

    #[test]
    fn turns_are_exact_where_plain_arithmetic_is_not() {
        let step = f64::EPSILON;
        let (b, c) = (DVec2::splat(12.0), DVec2::splat(24.0));
        for i in 0..64_i32 {
            for j in 0..64_i32 {
                let a = DVec2::new(0.5 + f64::from(i) * step, 0.5 + f64::from(j) * step);
                // A point below the diagonal (i > j) lies right of the way up it.
                let expected = match i.cmp(&j) {
                    Ordering::Less => Turn::Left,
                    Ordering::Equal => Turn::Straight,
                    Ordering::Greater => Turn::Right,
                };
                assert_eq!(turn(b, c, a), expected, "at {i}, {j}");
            }
        }
    }
}
