//! The day, for what is dated when it is entered. Nothing computed depends on it.

use std::time::{SystemTime, UNIX_EPOCH};

/// Today in universal time, as `2031-07-08`; nothing where the machine has no clock.
pub(crate) fn today() -> String {
    SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .map_or_else(|_| String::new(), |since| date(since.as_secs() / 86_400))
}

/// The civil date so many days after 1 January 1970, by the Gregorian calendar.
fn date(days: u64) -> String {
    // Years from 1 March, so that the leap day is the last of a year; eras of 400 years
    // have 146,097 days each.
    let days = days + 719_468;
    let (era, day_of_era) = (days / 146_097, days % 146_097);
    let year_of_era =
        (day_of_era - day_of_era / 1_460 + day_of_era / 36_524 - day_of_era / 146_096) / 365;
    let day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let shifted_month = (5 * day_of_year + 2) / 153;
    let day = day_of_year - (153 * shifted_month + 2) / 5 + 1;
    let month = if shifted_month < 10 {
        shifted_month + 3
    } else {
        shifted_month - 9
    };
    let year = era * 400 + year_of_era + u64::from(month <= 2);
    format!("{year}-{month:02}-{day:02}")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(days: u64, expected: &str) {
        assert_eq!(date(days), expected);
    }

    #[test]
    fn days_are_counted_through_leap_years() {
        check(0, "1970-01-01");
        check(58, "1970-02-28");
        check(59, "1970-03-01");
        check(789, "1972-02-29");
        check(11_016, "2000-02-29");
        check(11_017, "2000-03-01");
        check(20_453, "2025-12-31");
        check(47_541, "2100-03-01");
    }
}
