//! Section lines: where the site is cut, and which way one looks.

use super::id::SectionId;
use super::run::Side;
use crate::geometry::DVec2;
use crate::units::Length;
use serde::{Deserialize, Serialize};

/// A line in plan along which the site is cut, upright, from the floor to above the roof.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SectionLine {
    /// Its letter, as sheets name it: `A` for section A-A.
    pub id: SectionId,
    /// One end, m.
    pub from: DVec2,
    /// The other end, m.
    pub to: DVec2,
    /// The side that is looked at, seen from `from` to `to`.
    pub looks: Side,
    /// How far behind the cut things are still shown.
    pub depth: Length,
    /// What the user noted.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

impl SectionLine {
    /// Unit vector in plan from `from` to `to`.
    #[must_use]
    pub fn direction(&self) -> DVec2 {
        (self.to - self.from).normalize_or(DVec2::X)
    }

    /// Unit vector in plan towards what is looked at.
    #[must_use]
    pub fn looking(&self) -> DVec2 {
        match self.looks {
            Side::Left => self.direction().perp(),
            Side::Right => -self.direction().perp(),
        }
    }

    /// Its name as sheets write it: `A-A`.
    #[must_use]
    pub fn label(&self) -> String {
        format!("{}-{}", self.id, self.id)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_looks_to_its_side() {
        let line = |looks| SectionLine {
            id: "A".into(),
            from: DVec2::ZERO,
            to: DVec2::new(4.0, 0.0),
            looks,
            depth: Length::metres(3.0),
            notes: String::new(),
        };
        assert_eq!(line(Side::Left).looking(), DVec2::Y);
        assert_eq!(line(Side::Right).looking(), -DVec2::Y);
        assert_eq!(line(Side::Left).label(), "A-A");
    }
}
