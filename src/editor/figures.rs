//! Figures as the canvas says them: rounded, with their unit, in the units shown.

use crate::geometry::DVec2;
use crate::site::Site;
use crate::site::grid::{GridOffset, locate};
use crate::units::{Angle, Force, Length, Precision, Quantity, Rounding, UnitSystem};

/// Longest figure that is said exactly where nobody types it: `18' 10 11/16"`.
const LONGEST_EXACT: usize = 12;

/// A figure as briefly as it can be said, without its unit: exactly where that is short,
/// else rounded as on sheets.
pub(crate) fn brief<Q: Quantity>(units: UnitSystem, value: Q) -> String {
    let exact = value.show(units);
    if exact.chars().count() <= LONGEST_EXACT {
        exact
    } else {
        value.show_rounded(units, Q::sheet_precision(units), Rounding::Nearest)
    }
}

/// [`brief`], with its unit.
pub(crate) fn brief_with_unit<Q: Quantity>(units: UnitSystem, value: Q) -> String {
    Q::with_unit(brief(units, value), units)
}

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Power;

    #[test]
    fn figures_are_exact_where_that_is_short() {
        let metric = UnitSystem::Metric;
        let feet = UnitSystem::FeetInches;
        assert_eq!(brief(metric, Length::metres(6.2)), "6.2");
        assert_eq!(brief(feet, Length::inches(222.5)), "18' 6 1/2\"");
        assert!(brief(feet, Length::metres(5.5)).len() <= 14);
        assert_eq!(brief(feet, Power::kilowatts(18.0)), "61419");
        assert_eq!(brief_with_unit(metric, Power::kilowatts(18.0)), "18 kW");
    }
}
