//! How hang points, and limits that are not kept, are said.

use crate::editor::figures;
use crate::hanging::{Bound, Candidate, Limit, LimitBreach, Place};
use crate::units::{Angle, Force, Length, Precision, Quantity, Rounding, UnitSystem};

/// What a hanger there hangs from: `J-07/AB panel point 4`.
fn hold_in_words(at: &Candidate) -> String {
    let first = &at.first;
    if let Some(second) = &at.second {
        return format!("cross channel {} to {}", first.member, second.member);
    }
    match first.place {
        Place::PanelPoint(number) => format!("{} panel point {number}", first.member),
        Place::ChordPanel(number) => {
            format!(
                "{} between panel points {number} and {}",
                first.member,
                number + 1
            )
        }
        Place::Line => first.member.to_string(),
    }
}

/// What it hangs from, and where on the tube.
pub(crate) fn said(units: UnitSystem, at: &Candidate) -> String {
    let from = figures::length(units, Length::metres(at.station_m));
    format!("{}, {from} from burner", hold_in_words(at))
}

/// A limit, as one says it on site.
pub(crate) const fn limit_in_words(limit: Limit) -> &'static str {
    match limit {
        Limit::FirstHanger => "where the first hanger may be",
        Limit::SecondHanger => "where the second hanger may be",
        Limit::LeastSpacing => "the least spacing",
        Limit::GreatestSpacing => "the greatest spacing",
        Limit::EndOverhang => "the end overhang",
        Limit::Joint => "the distance from tube joints",
        Limit::Suspension => "the least suspension",
        Limit::Lean => "the lean across the run",
        Limit::Swing => "the swing along the run",
        Limit::Load => "the allowed loads",
        Limit::ChannelBending => "the channel's strength",
        Limit::ChannelDeflection => "the channel's stiffness",
        Limit::Balance => "the balance on its hangers",
    }
}

/// What is wrong with the hanger at a place of the answer, each in a few words.
pub(crate) fn broken(units: UnitSystem, breaches: &[LimitBreach], place: usize) -> Vec<String> {
    breaches
        .iter()
        .filter(|breach| breach.hangers.contains(&place))
        .map(|breach| breach_in_words(units, breach))
        .collect()
}

fn breach_in_words(units: UnitSystem, breach: &LimitBreach) -> String {
    let what = match breach.limit {
        Limit::FirstHanger => "first hanger",
        Limit::SecondHanger => "second hanger",
        Limit::LeastSpacing | Limit::GreatestSpacing => "spacing",
        Limit::EndOverhang => "end overhang",
        Limit::Joint => "from a tube joint",
        Limit::Suspension => "suspension",
        Limit::Lean => "lean across",
        Limit::Swing => "swing along",
        Limit::Load => "load",
        Limit::ChannelBending => return "the channel would bend too far".to_owned(),
        Limit::ChannelDeflection => return "the channel would sag too far".to_owned(),
        Limit::Balance => return "the run would tip".to_owned(),
    };
    // What there is is rounded away from what is required, or both would read the same.
    let (word, away) = match breach.bound {
        Bound::Least => ("at least", Rounding::Down),
        Bound::Greatest => ("at most", Rounding::Up),
    };
    let figure = |value: f64, rounding: Rounding| figure(units, breach.limit, value, rounding);
    format!(
        "{what} {}, {word} {}",
        figure(breach.measured, away),
        figure(breach.required, Rounding::Nearest)
    )
}

fn figure(units: UnitSystem, limit: Limit, value: f64, rounding: Rounding) -> String {
    match limit {
        Limit::Lean | Limit::Swing => shown(
            units,
            Angle::degrees(value.to_degrees()),
            Precision::decimals(1),
            rounding,
        ),
        Limit::Load => shown(
            units,
            Force::newtons(value),
            Precision::decimals(0),
            rounding,
        ),
        _ => {
            let precision = Precision {
                decimals: 2,
                inch_parts: 4,
            };
            shown(units, Length::metres(value), precision, rounding)
        }
    }
}

fn shown<Q: Quantity>(
    units: UnitSystem,
    value: Q,
    precision: Precision,
    rounding: Rounding,
) -> String {
    Q::with_unit(value.show_rounded(units, precision, rounding), units)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_breaks_a_limit_never_reads_as_the_limit() {
        let breach = LimitBreach {
            limit: Limit::GreatestSpacing,
            hangers: vec![2, 3],
            place: None,
            measured: 3.050_1,
            required: 3.05,
            bound: Bound::Greatest,
        };
        let breaches = [breach];
        assert_eq!(
            broken(UnitSystem::Metric, &breaches, 3),
            ["spacing 3.06 m, at most 3.05 m"]
        );
        assert!(broken(UnitSystem::Metric, &breaches, 1).is_empty());
    }
}
