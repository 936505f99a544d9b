//! What cannot be used, said so that people can put it right.
//!
//! The document, the catalogue and the files that hold them are checked at one door
//! each; all three report in these terms.

use std::fmt;

/// One value that cannot be used, and what could be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Which field, by its path in the file: `bays[0].outline[3]`.
    pub path: String,
    /// The id of the object that it belongs to, where there is one.
    pub subject: Option<String>,
    /// The value found.
    pub found: String,
    /// What would be accepted, and so what to do.
    pub accepted: String,
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.path)?;
        if let Some(subject) = &self.subject {
            write!(f, " ({subject})")?;
        }
        write!(f, ": found {}; accepted: {}", self.found, self.accepted)
    }
}

/// What cannot be used: the first [`Problems::KEPT`] problems and the number of all.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Problems {
    kept: Vec<Problem>,
    n_all: usize,
}

impl Problems {
    /// How many are kept: more would bury the first, which often causes the rest.
    pub const KEPT: usize = 20;

    /// Just this one.
    pub fn one(problem: Problem) -> Self {
        let mut problems = Self::default();
        problems.push(problem);
        problems
    }

    /// Adds one.
    pub fn push(&mut self, problem: Problem) {
        self.n_all += 1;
        if self.kept.len() < Self::KEPT {
            self.kept.push(problem);
        }
    }

    /// The problems kept, in the order in which they were met.
    pub fn kept(&self) -> &[Problem] {
        &self.kept
    }

    /// How many there are in all, kept or not.
    pub const fn n_all(&self) -> usize {
        self.n_all
    }

    /// Whether there is none.
    pub const fn is_empty(&self) -> bool {
        self.n_all == 0
    }

    /// Fine where there is none.
    ///
    /// # Errors
    /// The problems themselves, where there are any.
    pub fn into_result(self) -> Result<(), Self> {
        if self.is_empty() { Ok(()) } else { Err(self) }
    }
}

impl fmt::Display for Problems {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, problem) in self.kept.iter().enumerate() {
            if i > 0 {
                writeln!(f)?;
            }
            write!(f, "{problem}")?;
        }
        let n_more = self.n_all - self.kept.len();
        if n_more > 0 {
            write!(f, "\nand {n_more} more")?;
        }
        Ok(())
    }
}

impl std::error::Error for Problems {}

/// Looks at the fields of one object and notes what cannot be used.
///
/// Field names are formatted only when something is wrong, so that checking a sound
/// object allocates nothing.
pub struct Check<'p> {
    problems: &'p mut Problems,
    at: String,
    subject: Option<String>,
}

impl<'p> Check<'p> {
    /// A look at the object at a path; an empty path is the whole document.
    pub fn new(problems: &'p mut Problems, at: impl fmt::Display) -> Self {
        Self {
            problems,
            at: at.to_string(),
            subject: None,
        }
    }

    /// The same, naming the object by its id as well.
    pub fn of(
        problems: &'p mut Problems,
        at: impl fmt::Display,
        subject: impl fmt::Display,
    ) -> Self {
        Self {
            problems,
            at: at.to_string(),
            subject: Some(subject.to_string()),
        }
    }

    /// How many problems were met so far, here and before.
    pub const fn n_problems(&self) -> usize {
        self.problems.n_all
    }

    /// Whether no more problems are kept, only counted.
    pub const fn is_full(&self) -> bool {
        self.problems.n_all >= Problems::KEPT
    }

    /// Notes that a field cannot be used.
    pub fn refuse(
        &mut self,
        field: impl fmt::Display,
        found: impl fmt::Display,
        accepted: impl fmt::Display,
    ) {
        let field = field.to_string();
        let path = match (self.at.is_empty(), field.is_empty()) {
            (true, _) => field,
            (false, true) => self.at.clone(),
            (false, false) => format!("{}.{field}", self.at),
        };
        self.problems.push(Problem {
            path,
            subject: self.subject.clone(),
            found: found.to_string(),
            accepted: accepted.to_string(),
        });
    }

    /// A number within its bounds, both included. What is no number lies within none.
    pub fn number(&mut self, field: impl fmt::Display, value: f64, bounds: Bounds) {
        if !(bounds.least <= value && value <= bounds.greatest) {
            self.refuse(field, With(value, bounds.unit), bounds);
        }
    }

    /// A count within its bounds, both included.
    pub fn count(&mut self, field: impl fmt::Display, value: usize, least: usize, greatest: usize) {
        if !(least <= value && value <= greatest) {
            self.refuse(field, value, format_args!("{least} to {greatest}"));
        }
    }

    /// Text short enough to be shown and printed.
    pub fn text(&mut self, field: impl fmt::Display, text: &str, greatest_bytes: usize) {
        if text.len() > greatest_bytes {
            let found = format_args!("{} bytes of text", text.len());
            self.refuse(field, found, format_args!("at most {greatest_bytes}"));
        }
    }

    /// Text that says something.
    pub fn given(&mut self, field: impl fmt::Display, text: &str, greatest_bytes: usize) {
        if text.trim().is_empty() {
            self.refuse(field, "no text", "text that says something");
        } else {
            self.text(field, text, greatest_bytes);
        }
    }
}

/// The least and the greatest number accepted, with their unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// The least.
    pub least: f64,
    /// The greatest.
    pub greatest: f64,
    /// The unit in which the file holds it, empty for a plain number.
    pub unit: &'static str,
}

impl Bounds {
    /// Bounds with their unit.
    pub const fn new(least: f64, greatest: f64, unit: &'static str) -> Self {
        Self {
            least,
            greatest,
            unit,
        }
    }

    /// Bounds of a length, m.
    pub const fn metres(least: f64, greatest: f64) -> Self {
        Self::new(least, greatest, "m")
    }

    /// Bounds of an angle, degrees.
    pub const fn degrees(least: f64, greatest: f64) -> Self {
        Self::new(least, greatest, "degrees")
    }

    /// Bounds of a plain number.
    pub const fn plain(least: f64, greatest: f64) -> Self {
        Self::new(least, greatest, "")
    }
}

impl fmt::Display for Bounds {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let greatest = With(self.greatest, self.unit);
        write!(f, "{} to {greatest}", Short(self.least))
    }
}

/// A number with its unit.
struct With(f64, &'static str);

impl fmt::Display for With {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", Short(self.0))?;
        if self.1.is_empty() {
            Ok(())
        } else {
            write!(f, " {}", self.1)
        }
    }
}

/// A number as people write it: 1e300 rather than 301 digits.
struct Short(f64);

impl fmt::Display for Short {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let size = self.0.abs();
        if self.0.is_nan() {
            f.write_str("not a number (NaN)")
        } else if size == 0.0 || size.is_infinite() || (1e-4..1e7).contains(&size) {
            write!(f, "{}", self.0)
        } else {
            write!(f, "{:e}", self.0)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_problem_names_field_object_value_and_way_out() {
        let mut problems = Problems::default();
        let mut check = Check::of(&mut problems, "framings[2]", "J");
        check.number("spacing", 1e-300, Bounds::metres(0.1, 10_000.0));
        check.number("depth", f64::NAN, Bounds::metres(0.0, 10.0));
        check.number("seat", 0.1, Bounds::metres(0.0, 0.1));
        assert_eq!(
            problems.to_string(),
            "framings[2].spacing (J): found 1e-300 m; accepted: 0.1 to 10000 m\n\
             framings[2].depth (J): found not a number (NaN) m; accepted: 0 to 10 m"
        );
    }

    #[test]
    fn the_list_is_cut_but_the_count_is_not() {
        let mut problems = Problems::default();
        for i in 0..27 {
            Check::new(&mut problems, "").refuse(format_args!("runs[{i}]"), "x", "y");
        }
        assert_eq!((problems.kept().len(), problems.n_all()), (20, 27));
        assert!(problems.to_string().ends_with("\nand 7 more"));
        assert!(problems.into_result().is_err());
    }
}
