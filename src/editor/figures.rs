//! Figures as the canvas says them: rounded, with their unit, in the units shown.

use crate::geometry::DVec2;
use crate::site::Site;
use crate::site::grid::{GridOffset, locate};
use crate::units::{Angle, Force, Length, Precision, Quantity, Rounding, UnitSystem};

/// A length: centimetres, or quarters of an inch.
pub(crate) fn length(units: UnitSystem, length: Length) -> String {
    let precision = Precision {
        decimals: 2,
        inch_parts: 4,
    };
    Length::with_unit(
        length.show_rounded(units, precision, Rounding::Nearest),
        units,
    )
}

/// A length without its unit, where there is no room for it.
pub(crate) fn bare_length(units: UnitSystem, length: Length) -> String {
    let precision = Precision {
        decimals: 2,
        inch_parts: 4,
    };
    length.show_rounded(units, precision, Rounding::Nearest)
}

/// A force, in whole newtons or pounds-force.
pub(crate) fn force(units: UnitSystem, force: Force) -> String {
    Force::with_unit(
        force.show_rounded(units, Precision::decimals(0), Rounding::Nearest),
        units,
    )
}

/// An angle, in tenths of a degree.
pub(crate) fn angle(units: UnitSystem, angle: Angle) -> String {
    Angle::with_unit(
        angle.show_rounded(units, Precision::decimals(1), Rounding::Nearest),
        units,
    )
}

/// An offset from a grid line: `B + 2.40 m`, or the line alone where it is on it.
pub(crate) fn offset(units: UnitSystem, offset: &GridOffset) -> String {
    let figure = length(units, Length::metres(offset.offset_m.abs()));
    if offset.offset_m.abs() < 0.005 {
        offset.line.to_string()
    } else if offset.offset_m < 0.0 {
        format!("{} \u{2212} {figure}", offset.line)
    } else {
        format!("{} + {figure}", offset.line)
    }
}

/// Where a plan point is, from the nearest grid lines; from the origin where there are none.
pub(crate) fn position(site: &Site, at: DVec2) -> String {
    let found = locate(&site.grid, at);
    if found.is_empty() {
        return format!(
            "{} east, {} north",
            length(site.units, Length::metres(at.x)),
            length(site.units, Length::metres(at.y))
        );
    }
    let said: Vec<String> = found.iter().map(|it| offset(site.units, it)).collect();
    said.join(", ")
}
