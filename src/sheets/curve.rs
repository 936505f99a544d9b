//! Circles and arcs as cubic curves, for formats that know no circles.

use crate::geometry::math;
use crate::sheets::mark::Arc;
use crate::sheets::paper::{PaperPoint, directions};

/// A cubic curve that continues from the end of what was drawn before.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cubic {
    /// First control point.
    pub control_1: PaperPoint,
    /// Second control point.
    pub control_2: PaperPoint,
    /// Where it ends.
    pub end: PaperPoint,
}

/// The greatest part of a circle that one curve stands for, degrees. The curve of a
/// quarter circle strays from it by at most 0.03 % of the radius.
const PIECE_DEGREES: f64 = 90.0;

/// Where the arc starts, and the curves that follow it from there.
///
/// The controls of a piece that sweeps an angle a lie 4/3 tan(a/4) radii along the
/// tangents at its ends, which makes its middle lie on the circle.
#[must_use]
pub fn cubics(arc: &Arc) -> (PaperPoint, Vec<Cubic>) {
    let sweep = arc.sweep_degrees.clamp(-360.0, 360.0);
    let mut n_pieces = 1.0;
    while n_pieces * PIECE_DEGREES < sweep.abs() {
        n_pieces += 1.0;
    }
    let step = sweep / n_pieces;
    let reach_mm = arc.radius_mm * 4.0 / 3.0 * math::tan(step.to_radians() / 4.0);
    let mut curves = Vec::new();
    let mut piece = 0.0;
    while piece < n_pieces {
        let from = arc.from_degrees + piece * step;
        let to = from + step;
        // Anticlockwise as seen, the tangent is the direction a quarter turn on.
        let (_, tangent_from) = directions(from);
        let (_, tangent_to) = directions(to);
        curves.push(Cubic {
            control_1: arc.point_at(from) + tangent_from * reach_mm,
            control_2: arc.point_at(to) - tangent_to * reach_mm,
            end: arc.point_at(to),
        });
        piece += 1.0;
    }
    (arc.point_at(arc.from_degrees), curves)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheets::pen::Pen;

    #[test]
    fn curves_stay_on_the_circle() {
        for (from_degrees, sweep_degrees) in [
            (0.0, 360.0),
            (30.0, -75.0),
            (200.0, 91.0),
            (5.0, 1e9),
            (0.0, 0.0),
        ] {
            let centre = PaperPoint::new(30.0, 40.0);
            let arc = Arc {
                centre,
                radius_mm: 10.0,
                from_degrees,
                sweep_degrees,
                pen: Pen::THIN,
            };
            let (mut start, curves) = cubics(&arc);
            for curve in curves {
                for step in 0..=8 {
                    let t = f64::from(step) / 8.0;
                    let u = 1.0 - t;
                    let at = start * u.powi(3)
                        + curve.control_1 * (3.0 * u * u * t)
                        + curve.control_2 * (3.0 * u * t * t)
                        + curve.end * t.powi(3);
                    assert!((at.distance(centre) - 10.0).abs() < 0.003, "{arc:?} at {t}");
                }
                start = curve.end;
            }
            let swept = sweep_degrees.clamp(-360.0, 360.0);
            assert!(start.distance(arc.point_at(from_degrees + swept)) < 1e-9);
        }
    }
}
