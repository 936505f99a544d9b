//! What is typed on the plan while something is drawn.

use super::sketch::Typed;
use crate::units::{Length, Quantity, UnitSystem};

/// Text typed on the plan. It begins with a figure; while it is there, plain keys are
/// part of it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct Entry {
    text: String,
}

impl Entry {
    pub(crate) fn text(&self) -> &str {
        &self.text
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.text.is_empty()
    }

    pub(crate) fn clear(&mut self) {
        self.text.clear();
    }

    /// Takes typed text, if it begins or continues a number.
    pub(crate) fn push(&mut self, typed: &str) {
        let begins = |c: char| c.is_ascii_digit() || c == '.' || c == ',';
        for c in typed.chars() {
            if !c.is_control() && (!self.text.is_empty() || begins(c)) {
                self.text.push(c);
            }
        }
    }

    pub(crate) fn pop(&mut self) {
        self.text.pop();
    }

    /// The numbers; the reason where the text is none.
    pub(crate) fn read(&self, units: UnitSystem) -> Result<Typed, String> {
        if self.text.is_empty() {
            return Ok(Typed::default());
        }
        let mut parts = self.text.split(['x', 'X', '\u{d7}', '*']);
        let length = |part: Option<&str>| match part.map(str::trim) {
            None | Some("") => Ok(None),
            Some(text) => Length::parse(text, units)
                .map(|length| Some(length.as_metres()))
                .map_err(|error| error.to_string()),
        };
        let first = parts.next();
        let plain =
            first.and_then(|text| f64::parse(text.trim().trim_end_matches('\u{b0}'), units).ok());
        let typed = Typed {
            first_m: length(first)?,
            second_m: length(parts.next())?,
            plain,
        };
        let is_length = |length: Option<f64>| length.is_none_or(|m| 0.0 < m && m < 1e5);
        if parts.next().is_some() {
            Err("two lengths at most".to_owned())
        } else if is_length(typed.first_m) && is_length(typed.second_m) {
            Ok(typed)
        } else {
            Err("a length more than 0".to_owned())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, first: Option<f64>, second: Option<f64>) {
        let mut entry = Entry::default();
        entry.push(text);
        let typed = entry.read(UnitSystem::Metric);
        assert_eq!(
            typed.map(|typed| (typed.first_m, typed.second_m)),
            Ok((first, second)),
            "{text}"
        );
    }

    #[test]
    fn one_or_two_lengths_are_read() {
        check("24", Some(24.0), None);
        check("24x", Some(24.0), None);
        check("24 x 12.5", Some(24.0), Some(12.5));
        check("1250 mm", Some(1.25), None);
        check("", None, None);
    }

    #[test]
    fn letters_alone_begin_nothing() {
        let mut entry = Entry::default();
        entry.push("r");
        assert!(entry.is_empty());
    }

    #[test]
    fn what_is_no_length_is_refused_with_the_reason() {
        for text in ["12 parrots", "0", "1x2x3"] {
            let mut entry = Entry::default();
            entry.push(text);
            assert!(entry.read(UnitSystem::Metric).is_err(), "{text}");
        }
    }
}
