//! Lettered and numbered column lines.

use super::id::{GridId, natural_order};
use crate::geometry::DVec2;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// A column line. Sheets and people locate things from it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GridLine {
    /// Its letter or number.
    pub id: GridId,
    /// One end, where its bubble stands, m.
    pub from: DVec2,
    /// The other end, m.
    pub to: DVec2,
    /// What the user noted.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

impl GridLine {
    /// Unit vector along it.
    pub fn direction(&self) -> DVec2 {
        (self.to - self.from).normalize_or(DVec2::X)
    }

    /// Signed distance of a plan point from the (endless) line, m, positive to its left.
    pub fn offset_of(&self, point: DVec2) -> f64 {
        self.direction().perp_dot(point - self.from)
    }

    /// Whether it cuts members that run along a unit vector: a line flatter to them than
    /// 15 degrees cuts none.
    pub fn crosses(&self, heading: DVec2) -> bool {
        /// Sine of 15 degrees.
        const LEAST_CROSSING: f64 = 0.258_819;
        self.direction().perp_dot(heading).abs() >= LEAST_CROSSING
    }
}

/// A plan distance from the nearest grid line of one direction, as a crew reads it:
/// `B + 2.40 m`.
#[derive(Debug, Clone, PartialEq)]
pub struct GridOffset {
    /// The line measured from.
    pub line: GridId,
    /// Distance, m; positive toward the lines that come later in the lettering.
    pub offset_m: f64,
}

/// Where a point lies from the nearest grid line of each direction, at most two:
/// the direction of the first line of the site comes first.
///
/// Lines within 1 degree of each other are one direction. Among equally near lines
/// the one earlier in the lettering is taken.
pub fn locate(lines: &[Arc<GridLine>], point: DVec2) -> Vec<GridOffset> {
    families(lines)
        .into_iter()
        .take(2)
        .filter_map(|family| nearest(&family, point))
        .collect()
}

/// The site's grid lines by direction, each family in the order of its lettering.
pub fn families(lines: &[Arc<GridLine>]) -> Vec<Vec<Arc<GridLine>>> {
    /// Sine of one degree: lines closer in direction than this are parallel as drawn.
    const PARALLEL: f64 = 0.017_452;
    let mut families: Vec<Vec<Arc<GridLine>>> = Vec::new();
    for line in lines {
        let parallel = |family: &&mut Vec<Arc<GridLine>>| {
            family[0].direction().perp_dot(line.direction()).abs() < PARALLEL
        };
        match families.iter_mut().find(parallel) {
            Some(family) => family.push(Arc::clone(line)),
            None => families.push(vec![Arc::clone(line)]),
        }
    }
    for family in &mut families {
        family.sort_by(|a, b| natural_order(a.id.as_str(), b.id.as_str()));
    }
    families
}

/// The offset of a point from the nearest line of one family.
pub fn nearest(family: &[Arc<GridLine>], point: DVec2) -> Option<GridOffset> {
    let line = family.iter().min_by(|a, b| {
        a.offset_of(point)
            .abs()
            .total_cmp(&b.offset_of(point).abs())
    })?;
    Some(offset_from(family, line, point))
}

/// The offset of a point from one line of a family, signed toward later letters.
pub fn offset_from(family: &[Arc<GridLine>], line: &GridLine, point: DVec2) -> GridOffset {
    let offset = line.offset_of(point);
    // The lettering decides the sign, not the way the line was drawn.
    let forward = match (family.first(), family.last()) {
        (Some(first), Some(last)) if family.len() > 1 => {
            let middle = (last.from + last.to) / 2.0;
            if line.direction().perp_dot(middle - first.from) >= 0.0 {
                1.0
            } else {
                -1.0
            }
        }
        // A lone line: positive to the north or east of it.
        _ => {
            let left = line.direction().perp();
            if left.y > 1e-9 || (left.y.abs() <= 1e-9 && left.x > 0.0) {
                1.0
            } else {
                -1.0
            }
        }
    };
    GridOffset {
        line: line.id.clone(),
        offset_m: offset * forward,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(id: &str, from: (f64, f64), to: (f64, f64)) -> Arc<GridLine> {
        Arc::new(GridLine {
            id: id.into(),
            from: from.into(),
            to: to.into(),
            notes: String::new(),
        })
    }

    fn check(point: (f64, f64), expected: &[(&str, f64)]) {
        let lines = [
            line("B", (0.0, 12.0), (30.0, 12.0)),
            line("A", (30.0, 0.0), (0.0, 0.0)),
            line("1", (0.0, -1.0), (0.0, 20.0)),
            line("2", (6.0, -1.0), (6.0, 20.0)),
        ];
        let found = locate(&lines, point.into());
        assert_eq!(found.len(), expected.len());
        for (got, (id, offset)) in found.iter().zip(expected) {
            assert_eq!(got.line.as_str(), *id);
            assert!((got.offset_m - offset).abs() < 1e-12, "{got:?}");
        }
    }

    #[test]
    fn offsets_grow_with_the_lettering_however_lines_were_drawn() {
        check((1.0, 2.4), &[("A", 2.4), ("1", 1.0)]);
        check((5.0, 11.0), &[("B", -1.0), ("2", -1.0)]);
        check((7.5, -0.5), &[("A", -0.5), ("2", 1.5)]);
    }
}
