//! Numbers as people write them: `1250`, `3.2`, `3,2`, `1 250,5`, `6 1/2`, `1/2`, `1e3`.

use super::entry::{Fault, quoted};
use super::exact::Exact;

/// A number without its sign.
#[derive(Debug, Clone, Copy)]
pub(super) struct Number {
    pub(super) value: Exact,
    /// Written as digits alone: no decimals, no fraction, no power of ten.
    pub(super) plain: bool,
}

/// Digits kept of a number. More are more than an `f64` can tell apart by far.
const MOST_DIGITS: usize = 24;

/// Takes a number off the front of `rest`.
///
/// A point is always a decimal point where it stands alone; a comma is a decimal
/// comma where it can't set thousands apart. Spaces may set thousands apart.
pub(super) fn read(rest: &mut &str) -> Result<Number, Fault> {
    let start = *rest;
    let not_a_number = || Fault::NotANumber(quoted(start));
    let mut written = take_while(rest, |c| c.is_ascii_digit() || c == '.' || c == ',').to_owned();
    if !written.contains(|c: char| c.is_ascii_digit()) {
        return Err(not_a_number());
    }
    let spaced = take_spaced_groups(rest, &mut written);
    let (whole, behind) = split_at_point(&written, spaced)?.ok_or_else(not_a_number)?;
    let power = take_power_of_ten(rest);
    let plain = !written.contains(['.', ',']) && power.is_none();
    let value = decimal(&whole, &behind, power.unwrap_or(0)).ok_or_else(not_a_number)?;
    if !plain {
        return Ok(Number { value, plain });
    }
    // `1/2`, where the digits were the upper part, or `6 1/2`.
    if let Some(below) = rest.strip_prefix('/') {
        *rest = below;
        let below = fraction_part(take_digits(rest)).ok_or_else(not_a_number)?;
        let above = fraction_part(&whole).ok_or_else(not_a_number)?;
        let value = Exact::fraction(above, below).ok_or_else(not_a_number)?;
        return Ok(Number {
            value,
            plain: false,
        });
    }
    if rest.starts_with(' ') && starts_with_fraction(rest.trim_start()) {
        *rest = rest.trim_start();
        let value = value.plus(read_fraction(rest, start)?);
        return Ok(Number {
            value: value.ok_or_else(not_a_number)?,
            plain: false,
        });
    }
    Ok(Number { value, plain })
}

/// Whether a text begins with `n/d`.
pub(super) fn starts_with_fraction(text: &str) -> bool {
    let behind = text.trim_start_matches(|c: char| c.is_ascii_digit());
    behind.len() < text.len()
        && behind
            .strip_prefix('/')
            .is_some_and(|below| below.starts_with(|c: char| c.is_ascii_digit()))
}

/// Takes `n/d` off the front, the part of a mixed number, so less than one.
pub(super) fn read_fraction(rest: &mut &str, whole_text: &str) -> Result<Exact, Fault> {
    let above = fraction_part(take_digits(rest));
    *rest = rest.strip_prefix('/').unwrap_or(rest);
    let below = fraction_part(take_digits(rest));
    match (above, below) {
        (Some(above), Some(below)) if above < below => Exact::fraction(above, below),
        _ => None,
    }
    .ok_or_else(|| Fault::NotANumber(quoted(whole_text)))
}

/// The upper or lower part of a fraction: at most six digits, which no rule or
/// drawing exceeds.
fn fraction_part(digits: &str) -> Option<i128> {
    (digits.len() <= 6).then(|| digits.parse().ok()).flatten()
}

fn take_while<'a>(rest: &mut &'a str, belongs: impl Fn(char) -> bool) -> &'a str {
    let end = rest.find(|c| !belongs(c)).unwrap_or(rest.len());
    let (taken, left) = rest.split_at(end);
    *rest = left;
    taken
}

fn take_digits<'a>(rest: &mut &'a str) -> &'a str {
    take_while(rest, |c| c.is_ascii_digit())
}

/// Appends ` 250` and the like, groups of exactly three digits, and decimals behind
/// the last. Says whether there were any.
fn take_spaced_groups(rest: &mut &str, written: &mut String) -> bool {
    let is_digit = |c: char| c.is_ascii_digit();
    if written.len() > 3 || !written.chars().all(is_digit) {
        return false;
    }
    let mut spaced = false;
    while let Some(mut behind) = rest.strip_prefix(' ') {
        let group = take_digits(&mut behind);
        if group.len() != 3 || behind.starts_with('/') {
            break;
        }
        written.push_str(group);
        *rest = behind;
        spaced = true;
    }
    if spaced && rest.starts_with(['.', ',']) && rest[1..].starts_with(is_digit) {
        written.push_str(take_while(rest, |c| is_digit(c) || c == '.' || c == ','));
    }
    spaced
}

/// The digits before and behind the decimal point; none where points and commas
/// follow no rule.
fn split_at_point(written: &str, spaced: bool) -> Result<Option<(String, String)>, Fault> {
    let n_points = written.matches('.').count();
    let n_commas = written.matches(',').count();
    let at = |separator: char| written.rsplit_once(separator);
    let halves = match (n_points, n_commas) {
        (0, 0) => Some((written, "")),
        (1, 0) => at('.'),
        (0, 1) => {
            let halves = at(',').filter(|(_, behind)| !behind.is_empty());
            if !spaced && halves.is_some_and(|(whole, _)| is_grouped(written, ',') && whole != "0")
            {
                return Err(Fault::AmbiguousComma(quoted(written)));
            }
            halves
        }
        (_, 0) if is_grouped(written, '.') => Some((written, "")),
        (0, _) if is_grouped(written, ',') => Some((written, "")),
        (1, _) if written.rfind('.') > written.rfind(',') => {
            at('.').filter(|(whole, _)| is_grouped(whole, ','))
        }
        (_, 1) => at(',').filter(|(whole, _)| is_grouped(whole, '.')),
        _ => None,
    };
    Ok(halves.map(|(whole, behind)| (whole.replace(['.', ','], ""), behind.to_owned())))
}

/// Whether a separator sets thousands apart: one to three digits, then threes.
fn is_grouped(written: &str, separator: char) -> bool {
    let mut groups = written.split(separator);
    let digits_alone = |group: &str| group.chars().all(|c| c.is_ascii_digit());
    groups
        .next()
        .is_some_and(|first| (1..=3).contains(&first.len()) && digits_alone(first))
        && groups.all(|group| group.len() == 3 && digits_alone(group))
}

/// `e3` behind a number; none where the `e` belongs to something else.
fn take_power_of_ten(rest: &mut &str) -> Option<i32> {
    let mut behind = rest.strip_prefix(['e', 'E'])?;
    let negative = behind.starts_with('-');
    behind = behind.strip_prefix(['-', '+']).unwrap_or(behind);
    let digits = take_digits(&mut behind);
    if digits.is_empty() {
        return None;
    }
    // Beyond this every number is infinite or nothing.
    let power = digits.parse().unwrap_or(9_999).min(9_999);
    *rest = behind;
    Some(if negative { -power } else { power })
}

/// Puts the digits together, those beyond [`MOST_DIGITS`] left out.
fn decimal(whole: &str, behind: &str, power: i32) -> Option<Exact> {
    let digits = format!("{whole}{behind}");
    let significant = digits.trim_start_matches('0');
    let kept = &significant[..significant.len().min(MOST_DIGITS)];
    let dropped = i32::try_from(significant.len() - kept.len()).ok()?;
    let places = i32::try_from(behind.len()).ok()?;
    if kept.is_empty() {
        return (!digits.is_empty()).then_some(Exact::whole(0));
    }
    Some(Exact::decimal(kept.parse().ok()?, power + dropped - places))
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use super::*;

    fn check(text: &str, expected: f64, left: &str) {
        let mut rest = text;
        let number = read(&mut rest).unwrap();
        assert_eq!((number.value.to_f64(), rest), (expected, left), "{text}");
    }

    #[test]
    fn numbers_as_people_write_them() {
        check("1250", 1250.0, "");
        check("3.2 m", 3.2, " m");
        check("3,2 m", 3.2, " m");
        check(".5", 0.5, "");
        check(",5", 0.5, "");
        check("3.", 3.0, "");
        check("007", 7.0, "");
        check("0,250", 0.25, "");
        check("1250,500", 1250.5, "");
        check("1.250", 1.25, "");
        check("1,234.5", 1234.5, "");
        check("1.234,5", 1234.5, "");
        check("1,234,567", 1_234_567.0, "");
        check("1.234.567", 1_234_567.0, "");
        check("1 250 mm", 1250.0, " mm");
        check("12 345 678,25", 12_345_678.25, "");
        check("1 250,500", 1250.5, "");
        check("1e3", 1000.0, "");
        check("2.5E-1 m", 0.25, " m");
        check("6 1/2\"", 6.5, "\"");
        check("1/2\"", 0.5, "\"");
        check("12 3/16", 12.1875, "");
        check("5 125/1000", 5.125, "");
        check("12 6", 12.0, " 6");
        check("12 6 1/2", 12.0, " 6 1/2");
        check("12-6", 12.0, "-6");
        check("5 eggs", 5.0, " eggs");
        check("5eggs", 5.0, "eggs");
    }

    #[test]
    fn digits_beyond_all_need_are_left_out() {
        check("0.1000000000000000055511151231257827021181583", 0.1, "");
        check(
            "123456789012345678901234567890",
            123456789012345678901234567890.0,
            "",
        );
        check("000000000000000000000000000000000000000000004", 4.0, "");
    }

    #[test]
    fn what_follows_no_rule_is_refused() {
        for text in [
            "",
            ".",
            ",",
            "abc",
            "NaN",
            "inf",
            "1.2.3",
            "1,2,3",
            "1,23,456",
            "1,234.5,6",
            "3,",
            "1,234.5.6",
            "1/0",
            "6 3/2",
            "1/2000000000",
            "1234,567.5",
        ] {
            let mut rest = text;
            let fault = read(&mut rest).unwrap_err();
            assert!(matches!(fault, Fault::NotANumber(_)), "{text}: {fault}");
        }
        for text in ["1,250", "140,000 Btu/h", "3,200"] {
            let mut rest = text;
            let fault = read(&mut rest).unwrap_err();
            assert!(matches!(fault, Fault::AmbiguousComma(_)), "{text}: {fault}");
        }
    }
}
