//! What is typed becomes a quantity, or a sentence that says why not.

use thiserror::Error;

use super::exact::Exact;
use super::kind::{Kind, Unit};
use super::number::{self, Number};

/// Why a typed text is not a quantity. Printed, it is one sentence that stands under
/// the field: what was found, and what would be accepted.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("{fault}; enter {wanted} such as {examples}")]
pub struct EntryError {
    /// What is wrong.
    pub fault: Fault,
    wanted: &'static str,
    examples: &'static str,
}

impl EntryError {
    pub(super) fn new(fault: Fault, kind: &Kind) -> Self {
        Self {
            fault,
            wanted: kind.name,
            examples: kind.examples,
        }
    }
}

/// What is wrong with a typed text. The parts quoted are shortened, and characters
/// that can't be printed are replaced.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Fault {
    /// Nothing but spaces.
    #[error("nothing is entered")]
    Empty,
    /// Longer than any quantity.
    #[error("“{0}” is too long")]
    TooLong(String),
    /// No number where one was expected.
    #[error("“{0}” is not a number")]
    NotANumber(String),
    /// More than one sign before a number.
    #[error("“{0}” has two signs")]
    TwoSigns(String),
    /// One comma, three digits behind it: thousands to one reader, a decimal comma to another.
    #[error(
        "“{0}” can be read with a decimal comma or with thousands set apart, so write it with a point or without"
    )]
    AmbiguousComma(String),
    /// `6-1/2`: six and a half, or six feet and half an inch.
    #[error(
        "“{0}” can be read as feet and a part of an inch or as one number, so add marks of feet or inches"
    )]
    AmbiguousDash(String),
    /// Too large or too small to be kept.
    #[error("“{0}” is beyond what can be kept")]
    OutOfRange(String),
    /// A unit that the program does not know.
    #[error("“{0}” is not a known unit")]
    UnknownUnit(String),
    /// A unit of another kind of quantity.
    #[error("“{unit}” is a unit of {kind}")]
    OtherKind {
        /// The unit found.
        unit: String,
        /// The kind of quantity that it belongs to, with its article.
        kind: &'static str,
    },
    /// Something follows a complete quantity.
    #[error("“{0}” is left over at the end")]
    LeftOver(String),
    /// Inches follow feet that are not whole.
    #[error("the feet before “{0}” are not whole")]
    BrokenFeet(String),
    /// Twelve or more inches, or fewer than none, follow feet.
    #[error("“{0}” after feet is not less than 12 inches")]
    TooManyInches(String),
    /// A part where only whole ones make sense.
    #[error("“{0}” is not a whole number")]
    NotWhole(String),
}

/// The longest text that is looked at, in characters. A quantity with all its digits
/// has a third of that.
const LONGEST: usize = 80;

/// Reads a number and its unit; a bare number is in `bare`.
pub(super) fn parse(text: &str, kind: &Kind, bare: &Unit) -> Result<f64, EntryError> {
    read(text, kind, bare).map_err(|fault| EntryError::new(fault, kind))
}

fn read(text: &str, kind: &Kind, bare: &Unit) -> Result<f64, Fault> {
    let text = normalise(text)?;
    let (negative, mut rest) = sign(&text)?;
    let number = number::read(&mut rest)?;
    let unit = unit(rest, kind, bare)?;
    finish(&text, number.signed(negative), unit)
}

/// The unit that a whole rest means: `bare` where there is none.
pub(super) fn unit<'a>(rest: &str, kind: &Kind, bare: &'a Unit) -> Result<&'a Unit, Fault> {
    let name = rest.trim();
    if name.is_empty() {
        return Ok(bare);
    }
    if let Some(unit) = kind.unit(name) {
        return Ok(unit);
    }
    if let Some(owner) = Kind::owner_of(name) {
        return Err(Fault::OtherKind {
            unit: quoted(name),
            kind: owner.name,
        });
    }
    // Not a unit as a whole. Perhaps its beginning is one and the rest is too much.
    let first_end = name
        .find(|c: char| c == ' ' || c == '-' || c.is_ascii_digit())
        .unwrap_or(name.len());
    let (first, left_over) = name.split_at(first_end);
    if first.is_empty() || kind.unit(first).is_some() {
        return Err(Fault::LeftOver(quoted(left_over)));
    }
    match Kind::owner_of(first) {
        Some(owner) => Err(Fault::OtherKind {
            unit: quoted(first),
            kind: owner.name,
        }),
        None => Err(Fault::UnknownUnit(quoted(name))),
    }
}

/// The figure in base units; the only place where a typed figure is rounded.
pub(super) fn finish(text: &str, value: Exact, unit: &Unit) -> Result<f64, Fault> {
    unit.base_of(value)
        .map(Exact::to_f64)
        .filter(|base| base.is_finite())
        .ok_or_else(|| Fault::OutOfRange(quoted(text)))
}

/// Takes the sign, if any, off the front.
pub(super) fn sign(text: &str) -> Result<(bool, &str), Fault> {
    let unsigned = text.strip_prefix(['-', '+']).unwrap_or(text).trim_start();
    if unsigned.starts_with(['-', '+']) {
        return Err(Fault::TwoSigns(quoted(text)));
    }
    Ok((text.starts_with('-'), unsigned))
}

/// The text as if typed on the plainest keyboard: primes, dashes, fractions, spaces
/// and degree signs of every sort become one sort.
pub(super) fn normalise(text: &str) -> Result<String, Fault> {
    let text = text.trim();
    if text.chars().count() > LONGEST {
        return Err(Fault::TooLong(quoted(text)));
    }
    let mut plain = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            c if c.is_whitespace() => plain.push(' '),
            // Spaces and joiners without width.
            '\u{200b}'..='\u{200d}' | '\u{2060}' | '\u{feff}' => {}
            '′' | '’' | '‘' | 'ʹ' | '`' | '´' => plain.push('\''),
            '″' | '”' | '“' | '„' | 'ʺ' => plain.push('"'),
            '−' | '‐' | '‑' | '–' | '—' => plain.push('-'),
            '⁄' => plain.push('/'),
            'º' | '˚' => plain.push('°'),
            '℃' => plain.push_str("°C"),
            '℉' => plain.push_str("°F"),
            '½' => plain.push_str(" 1/2"),
            '¼' => plain.push_str(" 1/4"),
            '¾' => plain.push_str(" 3/4"),
            '⅛' => plain.push_str(" 1/8"),
            '⅜' => plain.push_str(" 3/8"),
            '⅝' => plain.push_str(" 5/8"),
            '⅞' => plain.push_str(" 7/8"),
            c => plain.push(c),
        }
    }
    let plain = plain.replace("''", "\"");
    let plain = plain.trim();
    if plain.is_empty() {
        return Err(Fault::Empty);
    }
    Ok(plain.to_owned())
}

/// A part of the text as a message quotes it: short, and printable.
pub(super) fn quoted(part: &str) -> String {
    const MOST: usize = 24;
    let part = part.trim();
    let mut quoted: String = part
        .chars()
        .take(MOST)
        .map(|c| if c.is_control() { '\u{fffd}' } else { c })
        .collect();
    if part.chars().count() > MOST {
        quoted.push('…');
    }
    quoted
}

impl Number {
    /// The value with the sign that stood before it.
    pub(super) fn signed(self, negative: bool) -> Exact {
        if negative {
            self.value.negated()
        } else {
            self.value
        }
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use crate::units::UnitSystem::{FeetInches, Metric};
    use crate::units::{
        Angle, AreaLoad, Force, Length, LinearDensity, Mass, Power, Pressure, Quantity,
        Temperature, TemperatureDifference, ThermalTransmittance, UnitSystem,
    };

    fn check<Q: Quantity + std::fmt::Debug>(text: &str, system: UnitSystem, expected: Q) {
        assert_eq!(Q::parse(text, system), Ok(expected), "{text} in {system:?}");
    }

    fn refused<Q: Quantity + std::fmt::Debug>(text: &str) -> String {
        let metric = Q::parse(text, Metric).unwrap_err();
        let feet_inches = Q::parse(text, FeetInches).unwrap_err();
        assert_eq!(metric, feet_inches, "{text}");
        metric.to_string()
    }

    #[test]
    fn bare_numbers_are_in_the_shown_unit() {
        check("40", Metric, Power::kilowatts(40.0));
        check("140000", FeetInches, Power::btu_per_hour(140_000.0));
        check("20", Metric, Temperature::celsius(20.0));
        check("68", FeetInches, Temperature::celsius(20.0));
        check("-5", Metric, Temperature::celsius(-5.0));
        check("-40", FeetInches, Temperature::celsius(-40.0));
        check("25", Metric, Mass::kilograms(25.0));
        check("55", FeetInches, Mass::pounds(55.0));
        check("450", Metric, Force::newtons(450.0));
        check("100", FeetInches, Force::pounds_force(100.0));
        check("45", FeetInches, Angle::degrees(45.0));
        check("20", Metric, Pressure::millibars(20.0));
        check("7", FeetInches, Pressure::inches_of_water(7.0));
        check("150", Metric, AreaLoad::pascals(150.0));
        check("3", FeetInches, AreaLoad::pounds_per_square_foot(3.0));
        check("4.1", Metric, LinearDensity::kilograms_per_metre(4.1));
        check("2.8", FeetInches, LinearDensity::pounds_per_foot(2.8));
        check("10", Metric, TemperatureDifference::kelvins(10.0));
        check("18", FeetInches, TemperatureDifference::kelvins(10.0));
        check("0,85", Metric, 0.85);
        check("1e-3", FeetInches, 0.001);
        check("12", Metric, 12_u32);
    }

    #[test]
    fn written_units_decide_whatever_is_shown() {
        for system in UnitSystem::ALL {
            check("40 kW", system, Power::kilowatts(40.0));
            check("40000W", system, Power::kilowatts(40.0));
            check("140000 Btu/h", system, Power::btu_per_hour(140_000.0));
            check("140 MBH", system, Power::btu_per_hour(140_000.0));
            check("140 mbh", system, Power::btu_per_hour(140_000.0));
            check("140\u{a0}000 BTUH", system, Power::btu_per_hour(140_000.0));
            check("68 F", system, Temperature::celsius(20.0));
            check("68°F", system, Temperature::celsius(20.0));
            check("20 °c", system, Temperature::celsius(20.0));
            check("20 degC", system, Temperature::celsius(20.0));
            check("20\u{202f}℃", system, Temperature::celsius(20.0));
            check("293.15 K", system, Temperature::celsius(20.0));
            check("−5 C", system, Temperature::celsius(-5.0));
            check("5 lb", system, Mass::pounds(5.0));
            check("5 LBS.", system, Mass::pounds(5.0));
            check("5 lb", system, Force::pounds_force(5.0));
            check("5 lbf", system, Force::pounds_force(5.0));
            check("0,45 kN", system, Force::newtons(450.0));
            check("45°", system, Angle::degrees(45.0));
            check("45 deg", system, Angle::degrees(45.0));
            check("+45 Degrees", system, Angle::degrees(45.0));
            check("22 ½ °", system, Angle::degrees(22.5));
            check("7 in w.c.", system, Pressure::inches_of_water(7.0));
            check("7 in. W.C.", system, Pressure::inches_of_water(7.0));
            check("7\" wc", system, Pressure::inches_of_water(7.0));
            check("2000 Pa", system, Pressure::millibars(20.0));
            check("3 psf", system, AreaLoad::pounds_per_square_foot(3.0));
            check("0.15 kN/m²", system, AreaLoad::pascals(150.0));
            check("4.1 kg/m", system, LinearDensity::kilograms_per_metre(4.1));
            check("18 F", system, TemperatureDifference::kelvins(10.0));
            for text in ["0.35 W/m2K", "0.35 W/(m²·K)", "0,35 w/m² k"] {
                let expected = ThermalTransmittance::watts_per_square_metre_kelvin(0.35);
                check(text, system, expected);
            }
            for text in [
                "0.06 Btu/h ft2 F",
                "0.06 Btu/(h·ft²·°F)",
                "0.06 btu/hr ft² °F",
            ] {
                let expected = ThermalTransmittance::btu_per_hour_square_foot_fahrenheit(0.06);
                check(text, system, expected);
            }
        }
        let half_psi = Pressure::parse("1/2 psi", Metric).unwrap();
        assert!((half_psi.as_pascals() - 3_447.378_646_584_181).abs() < 1e-9);
    }

    #[test]
    fn what_is_not_the_quantity_is_refused_with_a_reason() {
        let power = |text: &str, fault: &str| {
            let expected =
                format!("{fault}; enter a power such as 40 kW, 40000 W, 140000 Btu/h or 140 MBH");
            assert_eq!(refused::<Power>(text), expected, "{text}");
        };
        power("", "nothing is entered");
        power(" \u{a0}\t", "nothing is entered");
        power("\u{feff}", "nothing is entered");
        power("NaN", "“NaN” is not a number");
        power("inf", "“inf” is not a number");
        power("-infinity", "“infinity” is not a number");
        power("kW", "“kW” is not a number");
        power("1e999", "“1e999” is beyond what can be kept");
        power("--5", "“--5” has two signs");
        power("+-5 kW", "“+-5 kW” has two signs");
        power("- - 5", "“- - 5” has two signs");
        power("40 furlongs", "“furlongs” is not a known unit");
        power("40 %", "“%” is not a known unit");
        power("3.2 m", "“m” is a unit of a length");
        power("12' 6\"", "“'” is a unit of a length");
        power("20 C", "“C” is a unit of a temperature");
        power("40 lb", "“lb” is a unit of a mass");
        power("40 kW extra", "“extra” is left over at the end");
        power("40 kW 2", "“2” is left over at the end");
        power("40 50", "“50” is left over at the end");
        power("40 - 50", "“- 50” is left over at the end");
        power("1/0 kW", "“1/0 kW” is not a number");
        power(
            "140,000 Btu/h",
            "“140,000” can be read with a decimal comma or with thousands set apart, so write it with a point or without",
        );
        power(&"9".repeat(100), "“999999999999999999999999…” is too long");
        power("4\u{7}0", "“\u{fffd}0” is not a known unit");
        assert_eq!(
            refused::<Length>("40 kW"),
            "“kW” is a unit of a power; enter a length such as 3.2 m, 320 cm, 1250 mm or 12' 6 1/2\""
        );
        assert_eq!(
            refused::<f64>("5 m"),
            "“m” is a unit of a length; enter a number without unit such as 0.85 or 12"
        );
        assert_eq!(
            refused::<u32>("2.5"),
            "“2.5” is not a whole number; enter a whole number such as 1 or 12"
        );
        refused::<u32>("-1");
        refused::<u32>("4294967296");
        refused::<Angle>("45 F");
        refused::<Temperature>("20 K C");
    }

    #[test]
    fn no_text_makes_entry_panic() {
        const PIECES: &[&str] = &[
            "1",
            "12",
            "0",
            "250",
            " ",
            "-",
            "+",
            ".",
            ",",
            "/",
            "'",
            "\"",
            "ft",
            "in",
            "mm",
            "m",
            "e",
            "E9",
            "½",
            "°",
            "kW",
            "F",
            "''",
            "\u{a0}",
            "é",
            "²",
            "999999999999999999999999",
            "1/2",
            "e-99",
            "\u{0}",
            "″",
            "(",
            "%",
        ];
        let mut random = fastrand::Rng::with_seed(11);
        for _ in 0..60_000 {
            let text: String = (0..random.usize(0..9))
                .map(|_| PIECES[random.usize(0..PIECES.len())])
                .collect();
            for system in UnitSystem::ALL {
                if let Ok(length) = Length::parse(&text, system) {
                    assert!(length.is_finite(), "{text}");
                }
                if let Ok(temperature) = Temperature::parse(&text, system) {
                    assert!(temperature.is_finite(), "{text}");
                }
            }
        }
    }
}
