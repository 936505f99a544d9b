//! What a file says about itself.

use std::str::FromStr;

/// The program's name, as files name their creator.
pub const CREATOR: &str = "Rafterglow";

/// What a file says about itself. Nothing in it comes from a clock: the same metadata
/// and sheets give the same bytes.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Metadata {
    /// The set's title: `Skerry Harbour, freight shed`.
    pub title: String,
    /// What it is about, in a sentence; empty for none.
    pub subject: String,
    /// Who made it; empty for unknown.
    pub author: String,
    /// Language of the texts, RFC 3066: `en`.
    pub language: String,
    /// Date of issue; none where the set isn't dated.
    pub issued: Option<IssueDate>,
}

/// A day of the Gregorian calendar, as sets of drawings are dated.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct IssueDate {
    year: u16,
    month: u8,
    day: u8,
}

/// Why a date isn't one.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("“{found}” is not a date; dates look like 2031-03-02")]
pub struct NotADate {
    /// What was found.
    pub found: String,
}

impl IssueDate {
    /// The day, where the calendar has it; years 1 to 9999.
    #[must_use]
    pub const fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let leap =
            year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
        let n_days = match month {
            1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
            4 | 6 | 9 | 11 => 30,
            2 if leap => 29,
            2 => 28,
            _ => 0,
        };
        if 1 <= year && year <= 9999 && 1 <= day && day <= n_days {
            Some(Self { year, month, day })
        } else {
            None
        }
    }

    /// 1 to 9999.
    #[must_use]
    pub const fn year(self) -> u16 {
        self.year
    }

    /// 1 to 12.
    #[must_use]
    pub const fn month(self) -> u8 {
        self.month
    }

    /// 1 to 31.
    #[must_use]
    pub const fn day(self) -> u8 {
        self.day
    }
}

impl std::fmt::Display for IssueDate {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl FromStr for IssueDate {
    type Err = NotADate;

    /// Reads `2031-03-02` (ISO 8601, extended form).
    fn from_str(typed: &str) -> Result<Self, NotADate> {
        let parts: Vec<&str> = typed.trim().split('-').collect();
        let digits = |s: &&str| s.bytes().all(|b| b.is_ascii_digit());
        let date = match parts[..] {
            [year, month, day]
                if (year.len(), month.len(), day.len()) == (4, 2, 2)
                    && parts.iter().all(digits) =>
            {
                match (year.parse(), month.parse(), day.parse()) {
                    (Ok(year), Ok(month), Ok(day)) => Self::new(year, month, day),
                    _ => None,
                }
            }
            _ => None,
        };
        date.ok_or_else(|| NotADate {
            found: typed.to_owned(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dates_are_read_and_shown_alike() {
        for text in ["2031-03-02", "0001-01-01", "2028-02-29", "9999-12-31"] {
            assert_eq!(
                text.parse::<IssueDate>().map(|date| date.to_string()),
                Ok(text.to_owned())
            );
        }
    }

    #[test]
    fn what_is_no_date_is_refused() {
        for text in [
            "",
            "2031-3-2",
            "2031-02-29",
            "2100-02-29",
            "2031-13-01",
            "0000-01-01",
            "+031-01-01",
            "2031-01-01-01",
            "tomorrow",
        ] {
            assert!(text.parse::<IssueDate>().is_err(), "{text}");
        }
    }
}
