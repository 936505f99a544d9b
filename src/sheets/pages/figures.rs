//! How sheets show each quantity: one function for each, so that plan, schedule and
//! files never disagree.
//!
//! Loads are rounded up, what is allowed down, places to the nearest: rounding never
//! turns a breach into a pass.

use crate::findings::{Bound, Dimension};
use crate::hanging::Capacity;
use crate::site::Site;
use crate::site::grid::GridOffset;
use crate::units::{
    Angle, AreaLoad, Force, Length, Mass, Power, Precision, Quantity, Rounding, SmallLength,
    UnitSystem,
};

/// Places and heights: centimetres, eighths of an inch. A crew sets out no finer.
const PLACE: Precision = Precision {
    decimals: 2,
    inch_parts: 8,
};
/// What is cut or measured on the bench: millimetres, sixteenths of an inch.
const CUT: Precision = Precision {
    decimals: 3,
    inch_parts: 16,
};

/// The quantities of sheets in one unit system.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Figures {
    units: UnitSystem,
}

impl Figures {
    /// As a site shows them.
    #[must_use]
    pub const fn of(site: &Site) -> Self {
        Self { units: site.units }
    }

    /// In this system.
    #[must_use]
    pub const fn in_units(units: UnitSystem) -> Self {
        Self { units }
    }

    /// The system.
    #[must_use]
    pub const fn units(self) -> UnitSystem {
        self.units
    }

    /// What plan figures are in, as a note says it.
    #[must_use]
    pub const fn plan_unit(self) -> &'static str {
        match self.units {
            UnitSystem::Metric => "metres",
            UnitSystem::FeetInches => "feet and inches",
        }
    }

    /// The unit of plan figures for a table's head; empty where figures carry theirs.
    #[must_use]
    pub const fn place_unit(self) -> &'static str {
        match self.units {
            UnitSystem::Metric => "m",
            UnitSystem::FeetInches => "",
        }
    }

    /// The unit of cut lengths for a table's head; empty where figures carry theirs.
    #[must_use]
    pub const fn cut_unit(self) -> &'static str {
        match self.units {
            UnitSystem::Metric => "mm",
            UnitSystem::FeetInches => "",
        }
    }

    /// The unit of loads.
    #[must_use]
    pub fn load_unit(self) -> &'static str {
        Force::unit_label(self.units)
    }

    /// A place, a distance or a height, nearest, without unit.
    #[must_use]
    pub fn place(self, metres: f64) -> String {
        signed(Length::metres(metres).show_rounded(self.units, PLACE, Rounding::Nearest))
    }

    /// The same with its unit.
    #[must_use]
    pub fn place_with_unit(self, metres: f64) -> String {
        Length::with_unit(self.place(metres), self.units)
    }

    /// An elevation above finished floor, nearest: `+6.20`.
    #[must_use]
    pub fn elevation(self, metres: f64) -> String {
        let figure = self.place(metres);
        if figure.starts_with(MINUS) {
            figure
        } else {
            format!("+{figure}")
        }
    }

    /// The elevation of an attach point, nearest millimetre or sixteenth of an inch.
    #[must_use]
    pub fn attach(self, metres: f64) -> String {
        signed(Length::metres(metres).show_rounded(self.units, CUT, Rounding::Nearest))
    }

    /// A length to cut or to set, nearest millimetre or sixteenth of an inch.
    #[must_use]
    pub fn cut(self, metres: f64) -> String {
        signed(SmallLength(Length::metres(metres)).show_rounded(
            self.units,
            Precision::decimals(0),
            Rounding::Nearest,
        ))
    }

    /// A sum of lengths to cut with its unit, as fine as those: metres, or feet and inches.
    #[must_use]
    pub fn cut_in_all(self, metres: f64) -> String {
        Length::with_unit(self.attach(metres), self.units)
    }

    /// A movement with its sign, nearest millimetre or sixteenth of an inch.
    #[must_use]
    pub fn movement(self, metres: f64) -> String {
        let figure = self.cut(metres);
        let moves = figure.chars().any(|c| c.is_ascii_digit() && c != '0');
        if moves && !figure.starts_with(MINUS) {
            format!("+{figure}")
        } else {
            figure
        }
    }

    /// A load, rounded up, without unit.
    #[must_use]
    pub fn load(self, newtons: f64) -> String {
        signed(Force::newtons(newtons).show_rounded(
            self.units,
            Precision::decimals(0),
            Rounding::Up,
        ))
    }

    /// A load in part of what is allowed, rounded up to whole percent; words where
    /// nobody has said what is allowed.
    #[must_use]
    pub fn share(self, of_allowed: Option<f64>) -> String {
        match of_allowed {
            Some(share) => {
                let percent = 100.0 * share;
                format!(
                    "{} %",
                    percent.show_rounded(self.units, Precision::decimals(0), Rounding::Up)
                )
            }
            None => UNKNOWN_CAPACITY.to_owned(),
        }
    }

    /// What is allowed, rounded down, without unit.
    #[must_use]
    pub fn allowed(self, capacity: Capacity) -> String {
        match capacity {
            Capacity::Known(newtons) => Force::newtons(newtons).show_rounded(
                self.units,
                Precision::decimals(0),
                Rounding::Down,
            ),
            Capacity::Unknown => UNKNOWN_CAPACITY.to_owned(),
        }
    }

    /// What is allowed, N, rounded down, without unit.
    #[must_use]
    pub fn allowed_load(self, newtons: f64) -> String {
        self.allowed(Capacity::Known(newtons))
    }

    /// How far a channel sags, to tenths of a millimetre or hundredths of an inch, up.
    #[must_use]
    pub fn sag(self, metres: f64) -> String {
        self.small(metres, Rounding::Up)
    }

    /// How far it may sag, likewise, down.
    #[must_use]
    pub fn sag_allowed(self, metres: f64) -> String {
        self.small(metres, Rounding::Down)
    }

    fn small(self, metres: f64, rounding: Rounding) -> String {
        let length = Length::metres(metres);
        match self.units {
            UnitSystem::Metric => {
                length
                    .as_millimetres()
                    .show_rounded(self.units, Precision::decimals(1), rounding)
            }
            UnitSystem::FeetInches => {
                let inches =
                    length
                        .as_inches()
                        .show_rounded(self.units, Precision::decimals(2), rounding);
                format!("{inches}\"")
            }
        }
    }

    /// The unit of plan areas.
    #[must_use]
    pub const fn area_unit(self) -> &'static str {
        match self.units {
            UnitSystem::Metric => "m²",
            UnitSystem::FeetInches => "ft²",
        }
    }

    /// A plan area, rounded down, without unit: what spreads a load must not be larger.
    #[must_use]
    pub fn area(self, square_metres: f64) -> String {
        let foot = Length::feet(1.0).as_metres();
        let area = match self.units {
            UnitSystem::Metric => square_metres,
            UnitSystem::FeetInches => square_metres / (foot * foot),
        };
        area.show_rounded(self.units, Precision::decimals(0), Rounding::Down)
    }

    /// A load spread over an area, rounded up, without unit.
    #[must_use]
    pub fn area_load(self, load: AreaLoad) -> String {
        let precision = AreaLoad::sheet_precision(self.units);
        load.show_rounded(self.units, precision, Rounding::Up)
    }

    /// A load that is allowed over an area, rounded down, without unit.
    #[must_use]
    pub fn area_load_allowed(self, load: AreaLoad) -> String {
        let precision = AreaLoad::sheet_precision(self.units);
        load.show_rounded(self.units, precision, Rounding::Down)
    }

    /// An angle to tenths of a degree, rounded up.
    #[must_use]
    pub fn lean(self, radians: f64) -> String {
        Angle::degrees(radians.to_degrees()).show_rounded(
            self.units,
            Precision::decimals(1),
            Rounding::Up,
        )
    }

    /// An angle that somebody set, as typed, with its sign of degree.
    #[must_use]
    pub fn set_angle(self, angle: Angle) -> String {
        angle.show_with_unit(self.units)
    }

    /// A rated input with its unit, nearest; without a decimal that is zero.
    #[must_use]
    pub fn input(self, power: Power) -> String {
        let precision = Power::sheet_precision(self.units);
        let figure = power.show_rounded(self.units, precision, Rounding::Nearest);
        let short = figure.strip_suffix(".0").unwrap_or(&figure);
        Power::with_unit(short.to_owned(), self.units)
    }

    /// A mass with its unit, rounded up.
    #[must_use]
    pub fn mass(self, mass: Mass) -> String {
        Mass::with_unit(
            mass.show_rounded(self.units, Precision::decimals(0), Rounding::Up),
            self.units,
        )
    }

    /// A greatest stacking height, rounded down.
    #[must_use]
    pub fn stacking(self, height: Length) -> String {
        height.show_rounded(self.units, PLACE, Rounding::Down)
    }

    /// A distance from a grid line as a crew reads it: `B + 2.40`, or `on B`.
    #[must_use]
    pub fn offset(self, offset: &GridOffset) -> String {
        let figure = self.place(offset.offset_m.abs());
        if figure.chars().all(|c| !c.is_ascii_digit() || c == '0') {
            return format!("on {}", offset.line);
        }
        let sign = if offset.offset_m < 0.0 { MINUS } else { '+' };
        format!("{} {sign} {figure}", offset.line)
    }

    /// What a finding measured, rounded to the side that never makes a breach read as
    /// a pass; with its unit.
    #[must_use]
    pub fn measured(self, value: f64, dimension: Dimension, bound: Bound) -> String {
        self.judged(
            value,
            dimension,
            match bound {
                Bound::Least => Rounding::Down,
                Bound::Greatest => Rounding::Up,
            },
        )
    }

    /// What a finding requires, rounded likewise; with its unit.
    #[must_use]
    pub fn required(self, value: f64, dimension: Dimension, bound: Bound) -> String {
        let (word, rounding) = match bound {
            Bound::Least => ("≥", Rounding::Up),
            Bound::Greatest => ("≤", Rounding::Down),
        };
        format!("{word} {}", self.judged(value, dimension, rounding))
    }

    fn judged(self, value: f64, dimension: Dimension, rounding: Rounding) -> String {
        let units = self.units;
        signed(match dimension {
            Dimension::Length => {
                let figure = Length::metres(value).show_rounded(units, PLACE, rounding);
                Length::with_unit(figure, units)
            }
            Dimension::Force => {
                let whole = Precision::decimals(0);
                Force::with_unit(
                    Force::newtons(value).show_rounded(units, whole, rounding),
                    units,
                )
            }
            Dimension::Angle => {
                let tenths = Precision::decimals(1);
                Angle::with_unit(
                    Angle::degrees(value).show_rounded(units, tenths, rounding),
                    units,
                )
            }
            Dimension::AreaLoad => {
                let precision = AreaLoad::sheet_precision(units);
                AreaLoad::with_unit(
                    AreaLoad::pascals(value).show_rounded(units, precision, rounding),
                    units,
                )
            }
            Dimension::Number => {
                let figure = value.show_rounded(units, Precision::decimals(2), rounding);
                // Counts are whole.
                figure
                    .strip_suffix(".00")
                    .map_or(figure.clone(), str::to_owned)
            }
        })
    }
}

/// What is printed where nobody has said what a place may carry.
pub const UNKNOWN_CAPACITY: &str = "unknown: engineer";

/// A true minus sign, as wide as a plus.
const MINUS: char = '\u{2212}';

/// A figure with a true minus sign.
fn signed(figure: String) -> String {
    match figure.strip_prefix('-') {
        Some(rest) => format!("{MINUS}{rest}"),
        None => figure,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const METRIC: Figures = Figures::in_units(UnitSystem::Metric);
    const FEET: Figures = Figures::in_units(UnitSystem::FeetInches);

    #[test]
    fn places_read_as_a_crew_says_them() {
        assert_eq!(METRIC.place(3.25), "3.25");
        assert_eq!(METRIC.elevation(6.2), "+6.20");
        assert_eq!(METRIC.elevation(-0.5), "−0.50");
        assert_eq!(FEET.place(3.048), "10' 0\"");
        let offset = |offset_m| GridOffset {
            line: "B".into(),
            offset_m,
        };
        assert_eq!(METRIC.offset(&offset(2.4)), "B + 2.40");
        assert_eq!(METRIC.offset(&offset(-0.6)), "B − 0.60");
        assert_eq!(METRIC.offset(&offset(-0.004)), "on B");
        assert_eq!(FEET.offset(&offset(0.0)), "on B");
        assert_eq!(FEET.offset(&offset(0.3048)), "B + 1' 0\"");
    }

    #[test]
    fn cut_lengths_go_to_the_nearest_millimetre() {
        assert_eq!(METRIC.cut(0.8453), "845");
        assert_eq!(METRIC.movement(0.0123), "+12");
        assert_eq!(METRIC.movement(-0.0123), "−12");
        assert_eq!(METRIC.movement(0.0001), "0");
        assert_eq!(FEET.cut(0.254), "10\"");
        assert_eq!(METRIC.input(Power::watts(36_000.0)), "36 kW");
        assert_eq!(METRIC.input(Power::watts(36_500.0)), "36.5 kW");
    }

    #[test]
    fn loads_go_up_and_what_is_allowed_goes_down() {
        assert_eq!(METRIC.load(311.2), "312");
        assert_eq!(METRIC.allowed(Capacity::Known(899.9)), "899");
        assert_eq!(METRIC.share(Some(0.346_01)), "35 %");
        assert_eq!(METRIC.share(Some(1.0)), "100 %");
        assert_eq!(METRIC.share(Some(1.000_01)), "101 %");
        assert_eq!(METRIC.share(None), UNKNOWN_CAPACITY);
        assert_eq!(METRIC.allowed(Capacity::Unknown), UNKNOWN_CAPACITY);
        assert_eq!(METRIC.stacking(Length::metres(3.0999)), "3.09");
    }

    #[test]
    fn a_breach_never_reads_as_a_pass() {
        let least = (Dimension::Length, Bound::Least);
        assert_eq!(METRIC.measured(0.9999, least.0, least.1), "0.99 m");
        assert_eq!(METRIC.required(1.0, least.0, least.1), "≥ 1.00 m");
        let most = (Dimension::Force, Bound::Greatest);
        assert_eq!(METRIC.measured(900.01, most.0, most.1), "901 N");
        assert_eq!(METRIC.required(900.0, most.0, most.1), "≤ 900 N");
    }
}
