//! A finding: where, what, by how much.

use crate::geometry::DVec3;
use crate::site::id::natural_order;
use crate::site::{BayId, FramingId, MemberId, ObstructionId, OpeningId, RunId};
use crate::units::{Angle, AreaLoad, Force, Length, Precision, Quantity, Rounding, UnitSystem};
use std::cmp::Ordering;
use std::fmt;

/// One thing that the study has to say.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// The name of the rule.
    pub rule: &'static str,
    /// How bad it is.
    pub severity: Severity,
    /// What it is about, the run first.
    pub subjects: Vec<Subject>,
    /// Where it is, m.
    pub place: Option<DVec3>,
    /// What was measured, in the SI unit of the dimension; none if there is no figure,
    /// as for an unknown capacity.
    pub measured: Option<f64>,
    /// What is required.
    pub required: Option<f64>,
    /// Whether what is required is a least or a greatest value.
    pub bound: Bound,
    /// What kind of quantity both are.
    pub dimension: Dimension,
    /// Where the requirement comes from.
    pub source: String,
    /// What to tell the reader, as phrases whose figures take the shown unit.
    pub text: Vec<Phrase>,
    /// Why it was accepted, if it was.
    pub accepted: Option<String>,
}

/// How bad a finding is; the worst sorts first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// It must not be built like this.
    Breach,
    /// Somebody must look at it.
    Caution,
    /// Good to know.
    Note,
}

impl Severity {
    /// Its word.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Breach => "breach",
            Self::Caution => "caution",
            Self::Note => "note",
        }
    }
}

/// On which side of the required value the measured one must lie. Equal passes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    /// At least.
    Least,
    /// At most.
    Greatest,
}

/// The kind of a finding's quantity, and so its SI unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dimension {
    /// m.
    Length,
    /// N.
    Force,
    /// degrees.
    Angle,
    /// N/m2.
    AreaLoad,
    /// A number without unit.
    Number,
}

impl Dimension {
    /// SI unit as JSON states it.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Length => "m",
            Self::Force => "N",
            Self::Angle => "deg",
            Self::AreaLoad => "Pa",
            Self::Number => "",
        }
    }
}

/// A piece of a finding's text.
#[derive(Debug, Clone, PartialEq)]
pub enum Phrase {
    /// Words.
    Words(String),
    /// A length that must not be shown longer than it is (measured where a least is asked).
    LengthDown(Length),
    /// A length that must not be shown shorter than it is.
    LengthUp(Length),
    /// A force, rounded up: loads are never shown lighter.
    Force(Force),
    /// A force that must not be shown greater than it is: what is allowed.
    ForceDown(Force),
    /// A load over an area, rounded up: loads are never shown lighter.
    AreaLoad(AreaLoad),
    /// A load over an area that must not be shown greater than it is: what is allowed.
    AreaLoadDown(AreaLoad),
    /// An angle as it was entered.
    Angle(Angle),
    /// An angle that must not be shown smaller than it is (measured where a greatest
    /// is asked).
    AngleUp(Angle),
}

impl Phrase {
    /// Words.
    pub fn words(text: impl Into<String>) -> Self {
        Self::Words(text.into())
    }

    /// The phrase as text, its figure in the shown units.
    #[must_use]
    pub fn shown_in(&self, units: UnitSystem) -> String {
        match self {
            Self::Words(text) => text.clone(),
            Self::LengthDown(length) => shown_length(*length, units, Rounding::Down),
            Self::LengthUp(length) => shown_length(*length, units, Rounding::Up),
            Self::Force(force) => shown_force(*force, units, Rounding::Up),
            Self::ForceDown(force) => shown_force(*force, units, Rounding::Down),
            Self::AreaLoad(load) => shown_area_load(*load, units, Rounding::Up),
            Self::AreaLoadDown(load) => shown_area_load(*load, units, Rounding::Down),
            Self::Angle(angle) => angle.show_with_unit(units),
            Self::AngleUp(angle) => Angle::with_unit(
                angle.show_rounded(units, Precision::decimals(1), Rounding::Up),
                units,
            ),
        }
    }
}

impl Finding {
    /// The text with its figures in the shown units. Rounding never makes a breach
    /// read as a pass: lengths go to the safe side by their phrase.
    #[must_use]
    pub fn text_in(&self, units: UnitSystem) -> String {
        self.text
            .iter()
            .map(|phrase| phrase.shown_in(units))
            .collect()
    }

    /// Whether it is a breach that nobody accepted.
    #[must_use]
    pub fn is_open_breach(&self) -> bool {
        self.severity == Severity::Breach && self.accepted.is_none()
    }
}

fn shown_force(force: Force, units: UnitSystem, rounding: Rounding) -> String {
    Force::with_unit(
        force.show_rounded(units, Precision::decimals(0), rounding),
        units,
    )
}

fn shown_area_load(load: AreaLoad, units: UnitSystem, rounding: Rounding) -> String {
    let precision = AreaLoad::sheet_precision(units);
    AreaLoad::with_unit(load.show_rounded(units, precision, rounding), units)
}

/// Centimetres or eighths of an inch: what a reader compares.
fn shown_length(length: Length, units: UnitSystem, rounding: Rounding) -> String {
    let precision = Precision {
        decimals: 2,
        inch_parts: 8,
    };
    Length::with_unit(length.show_rounded(units, precision, rounding), units)
}

/// What a finding is about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Subject {
    /// A run.
    Run(RunId),
    /// A run's hanger, numbered from 1 at the burner.
    Hanger(RunId, usize),
    /// A member span.
    Member(MemberId),
    /// An obstruction.
    Obstruction(ObstructionId),
    /// The wall along an edge of a bay's outline, counted from 0.
    Wall(BayId, usize),
    /// A bay's roof deck.
    Deck(BayId),
    /// A framing.
    Framing(FramingId),
    /// A bay.
    Bay(BayId),
    /// An opening, or its door.
    Opening(OpeningId),
    /// A catalogue family.
    Family(String),
}

impl Subject {
    /// Its kind's place in the order, its id, and its number within that.
    fn sort_key(&self) -> (u8, &str, usize) {
        match self {
            Self::Run(id) => (0, id.as_str(), 0),
            Self::Hanger(run, number) => (1, run.as_str(), *number),
            Self::Member(id) => (2, id.as_str(), 0),
            Self::Obstruction(id) => (3, id.as_str(), 0),
            Self::Wall(bay, edge) => (4, bay.as_str(), *edge),
            Self::Deck(bay) => (5, bay.as_str(), 0),
            Self::Framing(id) => (6, id.as_str(), 0),
            Self::Bay(id) => (7, id.as_str(), 0),
            Self::Opening(id) => (8, id.as_str(), 0),
            Self::Family(id) => (9, id, 0),
        }
    }
}

impl Ord for Subject {
    /// By kind, then as people order names: `R2` before `R10`.
    fn cmp(&self, other: &Self) -> Ordering {
        let ((kind, id, number), (other_kind, other_id, other_number)) =
            (self.sort_key(), other.sort_key());
        kind.cmp(&other_kind)
            .then_with(|| natural_order(id, other_id))
            .then(number.cmp(&other_number))
    }
}

impl PartialOrd for Subject {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl fmt::Display for Subject {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Run(id) => write!(f, "{id}"),
            Self::Hanger(run, number) => write!(f, "{run}.{number}"),
            Self::Member(id) => write!(f, "{id}"),
            Self::Obstruction(id) => write!(f, "{id}"),
            Self::Wall(bay, edge) => write!(f, "{bay} wall {}", edge + 1),
            Self::Deck(bay) => write!(f, "{bay} roof"),
            Self::Framing(id) => write!(f, "{id}"),
            Self::Bay(id) => write!(f, "{id}"),
            Self::Opening(id) => write!(f, "{id}"),
            Self::Family(id) => f.write_str(id),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn subjects_sort_as_people_count() {
        let hanger = |number| Subject::Hanger("R2".into(), number);
        let mut subjects = [
            Subject::Member("J-10".into()),
            Subject::Run("R10".into()),
            hanger(10),
            hanger(9),
            Subject::Member("J-02".into()),
            Subject::Run("R2".into()),
        ];
        subjects.sort();
        let shown: Vec<String> = subjects.iter().map(ToString::to_string).collect();
        assert_eq!(shown, ["R2", "R10", "R2.9", "R2.10", "J-02", "J-10"]);
    }
}
