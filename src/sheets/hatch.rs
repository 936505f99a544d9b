//! Hatches: parallel lines within an outline.

use crate::geometry::DVec2;
use crate::sheets::paper::{PaperPoint, directions};
use crate::sheets::pen::Pen;

/// Lines closer than this print as a grey smear, mm; a smaller spacing is taken as
/// this one, which also bounds how many lines a hatch can have.
pub const LEAST_SPACING_MM: f64 = 0.5;

/// A hatch with more lines than this lies far beyond any sheet and draws nothing: the
/// largest sheet has a diagonal of 1.6 m.
const MOST_LINES: f64 = 20_000.0;

/// Parallel lines within an outline. What lies in an even number of its rings is not
/// hatched, so that room can be left for text.
#[derive(Debug, Clone, PartialEq)]
pub struct Hatch {
    /// The outer ring.
    pub outline: Vec<PaperPoint>,
    /// What is left out.
    pub holes: Vec<Vec<PaperPoint>>,
    /// Direction of the lines, degrees anticlockwise as seen from the direction of x.
    pub angle_degrees: f64,
    /// Distance between the lines, mm.
    pub spacing_mm: f64,
    /// Width and line type.
    pub pen: Pen,
}

impl Hatch {
    /// Without holes.
    #[must_use]
    pub fn new(
        outline: impl Into<Vec<PaperPoint>>,
        angle_degrees: f64,
        spacing_mm: f64,
        pen: Pen,
    ) -> Self {
        Self {
            outline: outline.into(),
            holes: Vec::new(),
            angle_degrees,
            spacing_mm,
            pen,
        }
    }

    /// The spacing that is drawn, mm.
    #[must_use]
    pub fn drawn_spacing_mm(&self) -> f64 {
        self.spacing_mm.max(LEAST_SPACING_MM)
    }

    /// All rings, the outer one first.
    pub fn rings(&self) -> impl Iterator<Item = &[PaperPoint]> {
        std::iter::once(&self.outline)
            .chain(&self.holes)
            .map(Vec::as_slice)
    }

    /// The hatch's lines, cut at its rings, in order across. They stand at multiples of
    /// the spacing from the sheet's corner, so that neighbouring hatches of one kind
    /// run on. A ring with a coordinate that isn't finite hatches nothing.
    #[must_use]
    pub fn lines(&self) -> Vec<[PaperPoint; 2]> {
        let spacing = self.drawn_spacing_mm();
        let (along, across) = directions(self.angle_degrees);
        let rings: Vec<Vec<DVec2>> = self
            .rings()
            .map(|ring| {
                ring.iter()
                    .map(|p| DVec2::new(p.dot(along), p.dot(across)))
                    .collect()
            })
            .collect();
        let heights = || rings.iter().flatten().map(|p| p.y);
        let least = heights().fold(f64::INFINITY, f64::min);
        let greatest = heights().fold(f64::NEG_INFINITY, f64::max);
        if !rings.iter().flatten().all(|p| p.is_finite()) || least > greatest {
            return Vec::new();
        }
        let first = (least / spacing).ceil();
        let n_lines = (greatest / spacing).floor() - first + 1.0;
        if MOST_LINES < n_lines {
            return Vec::new();
        }
        let mut lines = Vec::new();
        let mut number = 0.0;
        while number < n_lines {
            let height = (first + number) * spacing;
            for span in crossings(&rings, height).chunks_exact(2) {
                lines.push([span[0], span[1]].map(|x| along * x + across * height));
            }
            number += 1.0;
        }
        lines
    }
}

/// Where the rings' edges cross a height, in order. An edge counts its lower end but not
/// its upper one, so that a corner is crossed once and their number is even.
fn crossings(rings: &[Vec<DVec2>], height: f64) -> Vec<f64> {
    let mut crossings = Vec::new();
    for ring in rings {
        for (index, &a) in ring.iter().enumerate() {
            let b = ring[(index + 1) % ring.len()];
            if (a.y <= height) != (b.y <= height) {
                crossings.push(a.x + (height - a.y) / (b.y - a.y) * (b.x - a.x));
            }
        }
    }
    crossings.sort_by(f64::total_cmp);
    crossings
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheets::paper::PaperRect;

    fn square(corner: f64, side: f64) -> Vec<PaperPoint> {
        PaperRect::at(PaperPoint::splat(corner), side, side)
            .corners()
            .to_vec()
    }

    fn total_mm(lines: &[[PaperPoint; 2]]) -> f64 {
        lines.iter().map(|[a, b]| a.distance(*b)).sum()
    }

    #[test]
    fn level_lines_fill_a_square() {
        let lines = Hatch::new(square(10.25, 10.0), 0.0, 1.0, Pen::HAIR).lines();
        assert_eq!(lines.len(), 10);
        assert!((total_mm(&lines) - 100.0).abs() < 1e-9);
    }

    #[test]
    fn a_hole_stays_free() {
        let mut hatch = Hatch::new(square(10.25, 10.0), 0.0, 1.0, Pen::HAIR);
        hatch.holes.push(square(12.25, 4.0));
        assert!((total_mm(&hatch.lines()) - 84.0).abs() < 1e-9);
    }

    #[test]
    fn lines_times_spacing_approach_the_area() {
        for angle_degrees in [0.0, 30.0, 45.0, 90.0, 137.0] {
            let triangle =
                [(0.0, 0.0), (80.0, 13.0), (22.0, 61.0)].map(|(x, y)| PaperPoint::new(x, y));
            let area = (80.0 * 61.0 - 22.0 * 13.0) / 2.0;
            let hatch = Hatch::new(triangle, angle_degrees, 0.5, Pen::HAIR);
            assert!(
                (total_mm(&hatch.lines()) * 0.5 / area - 1.0).abs() < 0.01,
                "at {angle_degrees}"
            );
        }
    }

    #[test]
    fn odd_input_draws_little_and_ends() {
        assert!(Hatch::new([], 45.0, 1.0, Pen::HAIR).lines().is_empty());
        assert!(
            Hatch::new(square(0.0, f64::NAN), 45.0, 1.0, Pen::HAIR)
                .lines()
                .is_empty()
        );
        assert!(
            Hatch::new(square(0.0, 10.0), 45.0, 1e-300, Pen::HAIR)
                .lines()
                .len()
                < 100
        );
        assert!(
            Hatch::new(square(0.0, 10.0), 45.0, f64::NAN, Pen::HAIR)
                .lines()
                .len()
                < 100
        );
    }
}
