//! How rules put together what they say: phrases, lists, sources.

use super::{Bound, Context, Dimension, Finding, Phrase, Subject};
use crate::catalogue::Family;
use crate::geometry::DVec3;
use crate::hanging;
use crate::site::policy::PolicyItem;
use crate::units::{Angle, AreaLoad, Force, Length};

impl Context<'_> {
    /// A finding of this rule, without a place and without figures.
    pub(super) fn finding(
        &self,
        subjects: Vec<Subject>,
        source: String,
        text: Vec<Phrase>,
    ) -> Finding {
        Finding {
            rule: self.rule.name,
            severity: self.rule.severity,
            subjects,
            place: None,
            measured: None,
            required: None,
            bound: Bound::Greatest,
            dimension: Dimension::Number,
            source,
            text,
            accepted: None,
        }
    }

    /// Where a number of the site's policy comes from: its default's source, or the
    /// reason that was given for another one.
    pub(super) fn policy_source(&self, item: PolicyItem) -> String {
        let facts = item.facts();
        match self.site.policy.given(item) {
            Some(given) => format!("policy {}, overridden: {}", facts.name, given.reason),
            None => format!("policy {}: {}", facts.name, facts.source),
        }
    }
}

impl Finding {
    /// The same with its place.
    #[must_use]
    pub(super) fn at(self, place: DVec3) -> Self {
        Self {
            place: Some(place),
            ..self
        }
    }

    /// The same with a figure that must be at least what is required.
    #[must_use]
    pub(super) fn at_least(self, dimension: Dimension, measured: f64, required: f64) -> Self {
        self.with_figures(dimension, Bound::Least, measured, required)
    }

    /// The same with a figure that must be at most what is required.
    #[must_use]
    pub(super) fn at_most(self, dimension: Dimension, measured: f64, required: f64) -> Self {
        self.with_figures(dimension, Bound::Greatest, measured, required)
    }

    /// The same with what was measured and what is required.
    #[must_use]
    pub(super) fn with_figures(
        self,
        dimension: Dimension,
        bound: Bound,
        measured: f64,
        required: f64,
    ) -> Self {
        Self {
            measured: Some(measured),
            required: Some(required),
            bound,
            dimension,
            ..self
        }
    }
}

impl From<hanging::Bound> for Bound {
    fn from(bound: hanging::Bound) -> Self {
        match bound {
            hanging::Bound::Least => Self::Least,
            hanging::Bound::Greatest => Self::Greatest,
        }
    }
}

/// Words.
pub(super) fn words(text: impl Into<String>) -> Phrase {
    Phrase::words(text)
}

/// A length that must not be shown longer than it is, m.
pub(super) const fn down(length_m: f64) -> Phrase {
    Phrase::LengthDown(Length::metres(length_m))
}

/// A length that must not be shown shorter than it is, m.
pub(super) const fn up(length_m: f64) -> Phrase {
    Phrase::LengthUp(Length::metres(length_m))
}

/// A load, N.
pub(super) const fn load(force_n: f64) -> Phrase {
    Phrase::Force(Force::newtons(force_n))
}

/// A load that is allowed, N.
pub(super) const fn allowed(force_n: f64) -> Phrase {
    Phrase::ForceDown(Force::newtons(force_n))
}

/// A load spread over an area, Pa.
pub(super) const fn area_load(pascals: f64) -> Phrase {
    Phrase::AreaLoad(AreaLoad::pascals(pascals))
}

/// A load spread over an area that is allowed, Pa.
pub(super) const fn allowed_area_load(pascals: f64) -> Phrase {
    Phrase::AreaLoadDown(AreaLoad::pascals(pascals))
}

/// An angle that must not be shown smaller than it is, degrees.
pub(super) const fn angle_up(degrees: f64) -> Phrase {
    Phrase::AngleUp(Angle::degrees(degrees))
}

/// A measured length and what is required, each rounded so that a breach still reads
/// as one: `2.81 m apart, at most 2.80 m is allowed.`
pub(super) fn length_against(
    bound: Bound,
    measured_m: f64,
    between: &str,
    required_m: f64,
) -> [Phrase; 4] {
    match bound {
        Bound::Least => [
            down(measured_m),
            words(format!("{between}, at least ")),
            up(required_m),
            words(" is needed."),
        ],
        Bound::Greatest => [
            up(measured_m),
            words(format!("{between}, at most ")),
            down(required_m),
            words(" is allowed."),
        ],
    }
}

/// The maker's document that a family's figures come from.
pub(super) fn makers_document(family: &Family) -> String {
    let source = &family.source;
    let revision = match source.revision.as_str() {
        "" => String::new(),
        revision => format!("revision {revision}"),
    };
    let parts = [&source.document, &revision, &source.date];
    let stated: Vec<&str> = parts
        .iter()
        .map(|part| part.as_str())
        .filter(|part| !part.is_empty())
        .collect();
    stated.join(", ")
}

/// Names in a row: `R1.1, R1.2 and R1.3`; of many, the first few and how many more.
pub(super) fn list<T: std::fmt::Display>(names: &[T]) -> String {
    /// As many names as a line holds besides its sentence.
    const MOST: usize = 8;
    let said: Vec<String> = names.iter().take(MOST).map(ToString::to_string).collect();
    let n_more = names.len() - said.len();
    match said.as_slice() {
        [] => "none".to_owned(),
        _ if n_more > 0 => format!("{} and {n_more} more", said.join(", ")),
        [only] => only.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// A cost in thousandths as hangers at panel points: `9`, `10.5`.
#[must_use]
pub fn cost_words(thousandths: u64) -> String {
    let (whole, rest) = (thousandths / 1_000, thousandths % 1_000);
    if rest == 0 {
        return whole.to_string();
    }
    let decimals = format!("{rest:03}");
    format!("{whole}.{}", decimals.trim_end_matches('0'))
}

/// With a capital at the start of a sentence.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// A count with its noun: `1 hanger`, `3 hangers`.
pub(super) fn count(n: usize, noun: &str) -> String {
    match n {
        1 => format!("1 {noun}"),
        _ => format!("{n} {noun}s"),
    }
}

/// Which of several is worst by a figure: the first that no other exceeds beyond
/// rounding, so that a moved or turned site names the same one.
pub(super) fn worst<T>(all: impl IntoIterator<Item = T>, figure: impl Fn(&T) -> f64) -> Option<T> {
    let mut worst: Option<(f64, T)> = None;
    for one in all {
        let its = figure(&one);
        if worst
            .as_ref()
            .is_none_or(|(known, _)| its > known + crate::geometry::tolerance::LIMIT)
        {
            worst = Some((its, one));
        }
    }
    worst.map(|(_, one)| one)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::UnitSystem;

    #[test]
    fn lists_name_a_few_and_count_the_rest() {
        assert_eq!(list::<&str>(&[]), "none");
        assert_eq!(list(&["a"]), "a");
        assert_eq!(list(&["a", "b", "c"]), "a, b and c");
        let many: Vec<usize> = (1..=10).collect();
        assert_eq!(list(&many), "1, 2, 3, 4, 5, 6, 7, 8 and 2 more");
    }

    #[test]
    fn costs_are_said_without_needless_decimals() {
        assert_eq!(cost_words(9_000), "9");
        assert_eq!(cost_words(10_500), "10.5");
        assert_eq!(cost_words(1_025), "1.025");
        assert_eq!(cost_words(40), "0.04");
    }

    #[test]
    fn what_is_equal_but_for_rounding_leaves_the_first_worst() {
        let all = [(1, 2.0), (2, 3.0), (3, 3.0 + 1e-9), (4, 2.5)];
        assert_eq!(worst(all, |one| one.1).map(|one| one.0), Some(2));
        assert_eq!(worst(Vec::<f64>::new(), |one| *one), None);
    }

    #[test]
    fn a_hair_beyond_a_limit_reads_as_beyond_it() {
        let finding = |text| Finding {
            rule: "",
            severity: super::super::Severity::Breach,
            subjects: Vec::new(),
            place: None,
            measured: None,
            required: None,
            bound: Bound::Least,
            dimension: Dimension::Length,
            source: String::new(),
            text,
            accepted: None,
        };
        let read = |text| finding(text).text_in(UnitSystem::Metric);
        let hair = 2e-6;
        let least = length_against(Bound::Least, 1.5 - hair, "", 1.5);
        assert_eq!(read(least.to_vec()), "1.49 m, at least 1.50 m is needed.");
        let greatest = length_against(Bound::Greatest, 1.5 + hair, "", 1.5);
        assert_eq!(
            read(greatest.to_vec()),
            "1.51 m, at most 1.50 m is allowed."
        );
        let text = vec![load(445.0 * (1.0 + hair)), words(" of "), allowed(445.0)];
        assert_eq!(read(text), "446 N of 445 N");
        let text = vec![load(445.3 * (1.0 + hair)), words(" of "), allowed(445.3)];
        assert_eq!(read(text), "446 N of 445 N");
        let text = vec![angle_up((9_f64.to_radians() + hair).to_degrees())];
        assert_eq!(read(text), "9.1°");
    }
}
