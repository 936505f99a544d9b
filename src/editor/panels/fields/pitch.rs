//! A roof's pitch as people say it: percent in a metric site, inches in twelve
//! otherwise; `8 %`, `0.08`, `1:12`, `1 in 12` and `4.5 deg` are understood in both.

use crate::geometry::math::sin_cos_degrees;
use crate::units::{Quantity, UnitSystem};

/// The pitch, rise over run, in a field.
pub(super) fn show(pitch: f64, system: UnitSystem) -> String {
    match system {
        UnitSystem::Metric => format!("{} %", tidy(pitch * 100.0).show(system)),
        UnitSystem::FeetInches => format!("{} in 12", tidy(pitch * 12.0).show(system)),
    }
}

/// A figure without the noise of having been multiplied.
fn tidy(figure: f64) -> f64 {
    (figure * 1e6).round() / 1e6
}

/// Reads a pitch. A bare number below 1 is rise over run, any other is in the way that
/// is shown.
pub(super) fn parse(text: &str, system: UnitSystem) -> Result<f64, String> {
    let refused = || {
        format!(
            "“{}” is no pitch; enter one such as 8 %, 1:12, 1 in 12 or 4.5 deg",
            text.trim()
        )
    };
    let number = |text: &str| f64::parse(text, system).map_err(|_not_a_number| refused());
    let text = text.trim();
    if let Some(percent) = text.strip_suffix('%') {
        return Ok(number(percent)? / 100.0);
    }
    for unit in ["degrees", "degree", "deg", "°"] {
        if let Some(degrees) = text.strip_suffix(unit) {
            let (sine, cosine) = sin_cos_degrees(number(degrees)?);
            return if cosine > 0.0 {
                Ok(sine / cosine)
            } else {
                Err(refused())
            };
        }
    }
    for between in [":", " in "] {
        if let Some((rise, run)) = text.split_once(between) {
            let run = number(run)?;
            return if run > 0.0 {
                Ok(number(rise)? / run)
            } else {
                Err(refused())
            };
        }
    }
    let bare = number(text)?;
    Ok(match system {
        _ if bare.abs() < 1.0 => bare,
        UnitSystem::Metric => bare / 100.0,
        UnitSystem::FeetInches => bare / 12.0,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, system: UnitSystem, expected: f64) {
        let found = parse(text, system);
        assert!(
            found
                .as_ref()
                .is_ok_and(|found| (found - expected).abs() < 1e-9),
            "{text}: {found:?}"
        );
    }

    #[test]
    fn pitches_are_read_as_people_say_them() {
        for system in UnitSystem::ALL {
            check("8 %", system, 0.08);
            check("0.08", system, 0.08);
            check("1:12", system, 1.0 / 12.0);
            check("1 in 12", system, 1.0 / 12.0);
            check("45 deg", system, 1.0);
            check("45°", system, 1.0);
        }
        check("8", UnitSystem::Metric, 0.08);
        check("1", UnitSystem::FeetInches, 1.0 / 12.0);
    }

    #[test]
    fn what_is_shown_is_read_back() {
        for system in UnitSystem::ALL {
            for pitch in [0.0, 0.02, 0.1, 0.25, 1.0, 1.5] {
                check(&show(pitch, system), system, pitch);
            }
        }
    }

    #[test]
    fn what_is_no_pitch_is_refused() {
        for text in ["", "steep", "1:0", "1 in", "90 deg", "%"] {
            assert!(parse(text, UnitSystem::Metric).is_err(), "{text}");
        }
    }
}
