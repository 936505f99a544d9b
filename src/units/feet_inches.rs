//! Lengths in feet and inches, typed and shown.

use super::entry::{self, EntryError, Fault, quoted};
use super::exact::Exact;
use super::factor::Factor;
use super::kind::{FOOT, INCH, Kind, Unit};
use super::number;
use super::rounding::{Rounding, Slack};
use super::tolerance;

/// Reads a length: a number with a unit, or feet and inches in any of the ways in
/// which they are written (`12' 6 1/2"`, `12-6 1/2`, `12'-6"`, `12 ft 6 in`).
/// Feet and inches are understood whatever unit is shown; a bare number is in `bare`.
pub(super) fn parse(text: &str, kind: &Kind, bare: &Unit) -> Result<f64, EntryError> {
    read(text, kind, bare).map_err(|fault| EntryError::new(fault, kind))
}

fn read(text: &str, kind: &Kind, bare: &Unit) -> Result<f64, Fault> {
    let text = entry::normalise(text)?;
    let (negative, mut rest) = entry::sign(&text)?;
    let first = number::read(&mut rest)?;
    if let Some(mut behind) = rest.strip_prefix('-') {
        if behind.starts_with(['-', '+']) {
            return Err(Fault::TwoSigns(quoted(&text)));
        }
        // `6-1/2"` is six inches and a half, `6-1/2` could be that or feet.
        if first.plain && number::starts_with_fraction(behind) {
            let value = first
                .value
                .plus(number::read_fraction(&mut behind, &text)?)
                .ok_or_else(|| Fault::OutOfRange(quoted(&text)))?;
            if behind.trim().is_empty() {
                return Err(Fault::AmbiguousDash(quoted(&text)));
            }
            let unit = entry::unit(behind, kind, bare)?;
            let value = if negative { value.negated() } else { value };
            return entry::finish(&text, value, unit);
        }
        if behind.starts_with(|c: char| c.is_ascii_digit()) {
            return feet_and_inches(&text, negative, first, behind);
        }
    }
    if let Some(behind) = inches_behind_feet(rest) {
        return feet_and_inches(&text, negative, first, behind);
    }
    let unit = entry::unit(rest, kind, bare)?;
    entry::finish(&text, first.signed(negative), unit)
}

/// What follows a mark of feet, if a number follows it.
fn inches_behind_feet(rest: &str) -> Option<&str> {
    let rest = rest.trim_start();
    let end = rest
        .find(|c: char| c == ' ' || c == '-' || c == '.' || c == ',' || c.is_ascii_digit())
        .unwrap_or(rest.len());
    let (mark, behind) = rest.split_at(end);
    let behind =
        behind.strip_prefix('.').map_or(
            behind,
            |after_stop| {
                if mark == "'" { behind } else { after_stop }
            },
        );
    let behind = behind.strip_prefix(", ").unwrap_or(behind).trim_start();
    let behind = behind.strip_prefix('-').unwrap_or(behind).trim_start();
    (FOOT.is_called(mark)
        && behind.starts_with(|c: char| c.is_ascii_digit() || c == '.' || c == ','))
    .then_some(behind)
}

fn feet_and_inches(
    text: &str,
    negative: bool,
    feet: number::Number,
    behind: &str,
) -> Result<f64, Fault> {
    let mut rest = behind;
    if !feet.plain {
        return Err(Fault::BrokenFeet(quoted(behind)));
    }
    let inches = read_inches(&mut rest, text)?;
    if !rest.trim().is_empty() && !INCH.is_called(rest) {
        return Err(Fault::LeftOver(quoted(rest)));
    }
    if inches.at_least(Exact::whole(12)) {
        return Err(Fault::TooManyInches(quoted(behind)));
    }
    let value = feet
        .value
        .times(Factor::new(12, 1))
        .and_then(|feet| feet.plus(inches))
        .ok_or_else(|| Fault::OutOfRange(quoted(text)))?;
    let value = if negative { value.negated() } else { value };
    entry::finish(text, value, &INCH)
}

/// The inches: a number, also with a dash before its fraction (`6-1/2`).
fn read_inches(rest: &mut &str, text: &str) -> Result<Exact, Fault> {
    let inches = number::read(rest)?;
    match rest.strip_prefix('-') {
        Some(mut behind) if inches.plain && number::starts_with_fraction(behind) => {
            let fraction = number::read_fraction(&mut behind, text)?;
            *rest = behind;
            inches
                .value
                .plus(fraction)
                .ok_or_else(|| Fault::OutOfRange(quoted(text)))
        }
        _ => Ok(inches.value),
    }
}

/// Beyond this, m, feet and inches can no longer be read, and decimal feet are shown.
const LONGEST_M: f64 = 1e9;

/// Sixteenths of an inch where the length is a multiple of them, otherwise decimals
/// of an inch, as many as bring the very same length back.
pub(super) fn show(length_m: f64) -> Option<String> {
    if length_m.abs() > LONGEST_M {
        return None;
    }
    let inches = Exact::from_f64(length_m)?.per(Factor::INCH)?;
    let is_close = |inches: Exact| {
        inches
            .times(Factor::INCH)
            .is_some_and(|back| (back.to_f64() - length_m).abs() <= tolerance::TIDY_LENGTH)
    };
    let sixteenths = whole_parts(inches, 16, Rounding::Nearest)?;
    if is_close(Exact::fraction(sixteenths, 16)?) {
        return Some(with_fraction(sixteenths, 16));
    }
    let thousandths = inches.rounded(3, Rounding::Nearest)?;
    if is_close(thousandths) {
        return with_decimals(thousandths);
    }
    (15..=20)
        .filter_map(|digits| inches.to_digits(digits))
        .find(|inches| {
            inches
                .times(Factor::INCH)
                .is_some_and(|back| back.to_f64() == length_m)
        })
        .and_then(with_decimals)
}

/// To the nearest, next lower or next higher `1 / parts` of an inch.
pub(super) fn show_rounded(length_m: f64, parts: u8, rounding: Rounding) -> Option<String> {
    if length_m.abs() > LONGEST_M {
        return None;
    }
    let parts = i64::from(parts.max(1));
    let inches = Exact::from_f64(length_m)?.per(Factor::INCH)?;
    let nearest = whole_parts(inches, parts, Rounding::Nearest)?;
    let back_m = Exact::fraction(nearest, i128::from(parts))?
        .times(Factor::INCH)?
        .to_f64();
    if (back_m - length_m).abs() <= Slack::LENGTH.of(length_m) {
        return Some(with_fraction(nearest, parts));
    }
    Some(with_fraction(whole_parts(inches, parts, rounding)?, parts))
}

/// Inches as a whole number of parts.
fn whole_parts(inches: Exact, parts: i64, rounding: Rounding) -> Option<i128> {
    let inches = match rounding {
        // Floating-point noise must not decide which way a half goes.
        Rounding::Nearest => inches.rounded(9, Rounding::Nearest)?,
        Rounding::Down | Rounding::Up => inches,
    };
    inches
        .times(Factor::new(parts, 1))?
        .rounded(0, rounding)?
        .in_steps_of(0)
}

/// `n_parts / parts` inches, the fraction in lowest terms.
fn with_fraction(n_parts: i128, parts: i64) -> String {
    let parts = i128::from(parts);
    let sign = if n_parts < 0 { "-" } else { "" };
    let inches = n_parts.abs() / parts;
    let (mut above, mut below) = (n_parts.abs() % parts, parts);
    while above > 0 && above % 2 == 0 && below % 2 == 0 {
        (above, below) = (above / 2, below / 2);
    }
    let (feet, inches) = (inches / 12, inches % 12);
    let inches = match (inches, above) {
        (inches, 0) => inches.to_string(),
        (0, _) if feet == 0 => format!("{above}/{below}"),
        (inches, _) => format!("{inches} {above}/{below}"),
    };
    join(sign, feet, &inches)
}

/// A decimal number of inches.
fn with_decimals(inches: Exact) -> Option<String> {
    // As many places as there are, so that feet come off in whole numbers.
    let (places, steps) =
        (0..=38).find_map(|places| Some((places, inches.in_steps_of(places)?)))?;
    let foot = 10_i128
        .checked_pow(places.unsigned_abs())?
        .checked_mul(12)?;
    let sign = if steps < 0 { "-" } else { "" };
    let inches = Exact::decimal(steps.abs() % foot, -places).plain();
    Some(join(sign, steps.abs() / foot, &inches))
}

fn join(sign: &str, feet: i128, inches: &str) -> String {
    if feet == 0 {
        format!("{sign}{inches}\"")
    } else {
        format!("{sign}{feet}' {inches}\"")
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use super::*;
    use crate::units::LengthUnit::{self, FeetInches, Metres, Millimetres};
    use crate::units::{Length, Precision};

    const ALL: [LengthUnit; 3] = [Metres, Millimetres, FeetInches];

    fn check(text: &str, unit: LengthUnit, expected: Length) {
        let length = Length::parse_in(text, unit);
        assert_eq!(length, Ok(expected), "{text} in {unit:?}");
    }

    fn fault(text: &str) -> Fault {
        let faults = ALL.map(|unit| Length::parse_in(text, unit).unwrap_err().fault);
        assert!(faults.iter().all(|fault| *fault == faults[0]), "{text}");
        faults[0].clone()
    }

    #[test]
    fn bare_numbers_are_in_the_shown_unit() {
        check("3.2", Metres, Length::metres(3.2));
        check("3,2", Metres, Length::metres(3.2));
        check("1250", Metres, Length::metres(1250.0));
        check("1250", Millimetres, Length::metres(1.25));
        check("12", FeetInches, Length::feet(12.0));
        check("6 1/2", FeetInches, Length::feet(6.5));
        check("-5", Metres, Length::metres(-5.0));
    }

    #[test]
    fn written_units_are_understood_whatever_is_shown() {
        for unit in ALL {
            for text in [
                "3.2 m",
                "3,2 m",
                "320cm",
                "3200 mm",
                "3 200 MM",
                "+3.2 metres",
            ] {
                check(text, unit, Length::metres(3.2));
            }
            let twelve_six = Length::inches(150.0);
            for text in [
                "12-6",
                "12'6\"",
                "12' 6\"",
                "12'-6\"",
                "12' - 6",
                "12′ 6″",
                "12’6”",
                "12'6''",
                "12 ft 6 in",
                "12ft6in",
                "12 FT. 6 IN.",
                "12 feet, 6 inches",
                "12'6",
                "12.5 ft",
                "12.5'",
                "150\"",
                "150 in",
                "12½ ft",
                "12\u{a0}ft\u{a0}6\u{a0}in",
                "12–6",
            ] {
                check(text, unit, twelve_six);
                check(&format!("-{text}"), unit, -twelve_six);
            }
            let and_a_half = Length::inches(150.5);
            for text in [
                "12' 6 1/2\"",
                "12-6 1/2",
                "12-6 1/2\"",
                "12'-6-1/2\"",
                "12-6-1/2",
                "12' 6½\"",
                "12' 6.5\"",
                "12' 6,5 in",
            ] {
                check(text, unit, and_a_half);
            }
            check("6\"", unit, Length::inches(6.0));
            check("6 1/2 in", unit, Length::inches(6.5));
            check("6-1/2\"", unit, Length::inches(6.5));
            check("1/2\"", unit, Length::inches(0.5));
            check("3 ft", unit, Length::feet(3.0));
            check("12' 0 3/16\"", unit, Length::inches(144.1875));
            check("0", unit, Length::ZERO);
        }
    }

    #[test]
    fn feet_and_inches_that_follow_no_rule_are_refused() {
        let text = |text: &str| text.to_owned();
        assert_eq!(fault("12-14"), Fault::TooManyInches(text("14")));
        assert_eq!(fault("12' 12\""), Fault::TooManyInches(text("12\"")));
        assert_eq!(fault("12.5' 6\""), Fault::BrokenFeet(text("6\"")));
        assert_eq!(fault("1/2-6"), Fault::BrokenFeet(text("6")));
        assert_eq!(fault("12--6"), Fault::TwoSigns(text("12--6")));
        assert_eq!(fault("--12-6"), Fault::TwoSigns(text("--12-6")));
        assert_eq!(fault("6-1/2"), Fault::AmbiguousDash(text("6-1/2")));
        assert_eq!(fault("12 6"), Fault::LeftOver(text("6")));
        assert_eq!(fault("12 - 6"), Fault::LeftOver(text("- 6")));
        assert_eq!(fault("12-6 m"), Fault::LeftOver(text("m")));
        assert_eq!(fault("12' 6\" x"), Fault::LeftOver(text("\" x")));
        assert_eq!(fault("6\" 12'"), Fault::LeftOver(text("12'")));
        assert_eq!(fault("3 m 20 cm"), Fault::LeftOver(text("20 cm")));
        assert_eq!(fault("12' 6 3/2\""), Fault::NotANumber(text("6 3/2\"")));
        assert_eq!(fault("12' 1/0\""), Fault::NotANumber(text("1/0\"")));
        assert!(matches!(fault("3,200 m"), Fault::AmbiguousComma(_)));
        assert!(matches!(fault("1e999 m"), Fault::OutOfRange(_)));
        assert!(matches!(fault("NaN m"), Fault::NotANumber(_)));
        assert!(matches!(fault("3 yards"), Fault::UnknownUnit(_)));
    }

    #[test]
    fn every_sixteenth_of_an_inch_comes_back_exactly() {
        for n_parts in -1_600_i32..=200 * 12 * 16 {
            let length = Length::inches(f64::from(n_parts) / 16.0);
            let text = length.show_in(FeetInches);
            assert!(!text.contains('.'), "{text}");
            for unit in ALL {
                check(&text, unit, length);
            }
            let rounded = length.show_rounded_in(FeetInches, Precision::decimals(2), Rounding::Up);
            assert_eq!(rounded, text);
        }
    }

    #[test]
    fn shown_as_a_carpenter_writes_it() {
        let check = |inches: f64, expected: &str| {
            assert_eq!(Length::inches(inches).show_in(FeetInches), expected);
        };
        check(150.5, "12' 6 1/2\"");
        check(-150.5, "-12' 6 1/2\"");
        check(144.0, "12' 0\"");
        check(144.0625, "12' 0 1/16\"");
        check(11.0, "11\"");
        check(0.5, "1/2\"");
        check(0.0, "0\"");
        check(-0.0, "0\"");
        check(-0.75, "-3/4\"");
        check(150.37, "12' 6.37\"");
        check(0.1, "0.1\"");
        let shown = |length_m: f64| Length::metres(length_m).show_in(FeetInches);
        assert_eq!(shown(3.2), "10' 5.98425196850394\"");
        // Noise is left out, a real difference is not.
        assert_eq!(shown(150.5 * 0.0254 + 0.9e-9), "12' 6 1/2\"");
        assert!(shown(150.5 * 0.0254 + 2e-9).contains('.'));
        assert_eq!(shown(143.999_999_999 * 0.0254), "12' 0\"");
        assert_eq!(shown(f64::NAN), "no figure");
        assert_eq!(shown(f64::INFINITY), "no figure");
    }

    #[test]
    fn rounded_to_parts_on_the_asked_side() {
        let check = |inches: f64, parts: u8, rounding, expected: &str| {
            let precision = Precision {
                decimals: 0,
                inch_parts: parts,
            };
            let shown = Length::inches(inches).show_rounded_in(FeetInches, precision, rounding);
            assert_eq!(shown, expected, "{inches} {rounding:?}");
        };
        check(150.53, 16, Rounding::Nearest, "12' 6 1/2\"");
        check(150.531_25, 16, Rounding::Nearest, "12' 6 9/16\"");
        check(150.51, 16, Rounding::Up, "12' 6 9/16\"");
        check(150.56, 16, Rounding::Down, "12' 6 1/2\"");
        check(150.500_01, 16, Rounding::Up, "12' 6 1/2\"");
        check(150.499_99, 16, Rounding::Down, "12' 6 1/2\"");
        check(143.99, 2, Rounding::Nearest, "12' 0\"");
        check(143.4, 1, Rounding::Up, "12' 0\"");
        check(-0.01, 4, Rounding::Nearest, "0\"");
        check(-0.01, 4, Rounding::Down, "-1/4\"");
        check(5.0, 0, Rounding::Nearest, "5\"");
    }
}
