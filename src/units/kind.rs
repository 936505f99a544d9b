//! What kinds of quantity there are, and by which units people know them.

use super::exact::Exact;
use super::factor::Factor;
use super::rounding::Slack;
use super::tolerance;

/// A unit that people type.
#[derive(Debug)]
pub(super) struct Unit {
    /// Its spellings after [`squeeze`]: lower case, without spaces.
    names: &'static [&'static str],
    factor: Factor,
    /// Where its scale begins, in the unit, in hundredths: 32 degF is 0 degC.
    zero_hundredths: i128,
}

impl Unit {
    const fn new(factor: Factor, names: &'static [&'static str]) -> Self {
        Self {
            names,
            factor,
            zero_hundredths: 0,
        }
    }

    /// Whether a spelling means this unit.
    pub(super) fn is_called(&self, name: &str) -> bool {
        self.names.contains(&squeeze(name).as_str())
    }

    /// From a figure in this unit to base units.
    pub(super) fn base_of(&self, value: Exact) -> Option<Exact> {
        value
            .plus(Exact::decimal(-self.zero_hundredths, -2))?
            .times(self.factor)
    }

    /// From base units to a figure in this unit.
    pub(super) fn figure_of(&self, value: Exact) -> Option<Exact> {
        value
            .per(self.factor)?
            .plus(Exact::decimal(self.zero_hundredths, -2))
    }

    /// The same in `f64`, for figures beyond all bounds.
    pub(super) fn figure_of_f64(&self, value: f64) -> f64 {
        self.factor.units_in(value) + Exact::decimal(self.zero_hundredths, -2).to_f64()
    }
}

/// Which figures are so tidy that a value near to one is meant to be it.
#[derive(Debug, Clone, Copy)]
pub(super) enum Tidy {
    /// Those of so many decimals, for lengths: within [`tolerance::TIDY_LENGTH`].
    Places(i32),
    /// Those of nine digits, at most nine decimals: within [`tolerance::TIDY`].
    Digits,
}

/// How a kind of quantity is shown in one unit system.
#[derive(Debug)]
pub(super) struct Shown {
    pub(super) unit: &'static Unit,
    pub(super) label: &'static str,
    /// Decimals on sheets and on the canvas.
    pub(super) decimals: u8,
    pub(super) tidy: Tidy,
}

impl Shown {
    const fn new(unit: &'static Unit, label: &'static str, decimals: u8) -> Self {
        Self {
            unit,
            label,
            decimals,
            tidy: Tidy::Digits,
        }
    }
}

/// A kind of quantity.
#[derive(Debug)]
pub(super) struct Kind {
    /// With its article, as a message says it.
    pub(super) name: &'static str,
    /// What a message offers as examples.
    pub(super) examples: &'static str,
    pub(super) units: &'static [&'static Unit],
    pub(super) metric: Shown,
    pub(super) feet_inches: Shown,
    pub(super) slack: Slack,
}

impl Kind {
    /// The unit of this kind that a spelling means.
    pub(super) fn unit(&self, name: &str) -> Option<&'static Unit> {
        self.units.iter().copied().find(|unit| unit.is_called(name))
    }

    /// The first kind that knows a spelling.
    pub(super) fn owner_of(name: &str) -> Option<&'static Self> {
        ALL.iter().copied().find(|kind| kind.unit(name).is_some())
    }
}

/// A spelling of a unit without what people write differently: spaces, capitals,
/// raised digits, multiplication dots, a closing full stop.
fn squeeze(name: &str) -> String {
    let squeezed: String = name
        .chars()
        .filter(|c| !matches!(c, ' ' | '·' | '⋅'))
        .map(|c| if c == '²' { '2' } else { c })
        .flat_map(char::to_lowercase)
        .collect();
    match squeezed.strip_suffix('.') {
        Some(stem) => stem.to_owned(),
        None => squeezed,
    }
}

pub(super) const METRE: Unit = Unit::new(Factor::ONE, &["m", "metre", "metres", "meter", "meters"]);
pub(super) const MILLIMETRE: Unit = Unit::new(
    Factor::MILLI,
    &[
        "mm",
        "millimetre",
        "millimetres",
        "millimeter",
        "millimeters",
    ],
);
const CENTIMETRE: Unit = Unit::new(
    Factor::CENTI,
    &[
        "cm",
        "centimetre",
        "centimetres",
        "centimeter",
        "centimeters",
    ],
);
pub(super) const FOOT: Unit = Unit::new(Factor::FOOT, &["'", "ft", "foot", "feet"]);
pub(super) const INCH: Unit = Unit::new(Factor::INCH, &["\"", "in", "inch", "inches"]);

/// Lengths shown in metres.
pub(super) const LENGTH: Kind = Kind {
    name: "a length",
    examples: "3.2 m, 320 cm, 1250 mm or 12' 6 1/2\"",
    units: &[&METRE, &MILLIMETRE, &CENTIMETRE, &FOOT, &INCH],
    metric: Shown {
        tidy: Tidy::Places(5),
        ..Shown::new(&METRE, "m", 2)
    },
    feet_inches: Shown {
        tidy: Tidy::Places(5),
        ..Shown::new(&FOOT, "ft in", 2)
    },
    slack: Slack::LENGTH,
};

/// Lengths shown in millimetres.
pub(super) const SMALL_LENGTH: Kind = Kind {
    metric: Shown {
        tidy: Tidy::Places(2),
        ..Shown::new(&MILLIMETRE, "mm", 0)
    },
    ..LENGTH
};

const WATT: Unit = Unit::new(Factor::ONE, &["w", "watt", "watts"]);
const KILOWATT: Unit = Unit::new(Factor::KILO, &["kw", "kilowatt", "kilowatts"]);
const BTU_PER_HOUR: Unit = Unit::new(
    Factor::BTU_PER_HOUR,
    &["btu/h", "btuh", "btu/hr", "btuhr", "btu/hour"],
);
const MBH: Unit = Unit::new(Factor::MBH, &["mbh", "kbtu/h", "kbtuh", "kbtu/hr"]);

pub(super) const POWER: Kind = Kind {
    name: "a power",
    examples: "40 kW, 40000 W, 140000 Btu/h or 140 MBH",
    units: &[&WATT, &KILOWATT, &BTU_PER_HOUR, &MBH],
    metric: Shown::new(&KILOWATT, "kW", 1),
    feet_inches: Shown::new(&BTU_PER_HOUR, "Btu/h", 0),
    slack: Slack::RELATIVE,
};

const KILOGRAM: Unit = Unit::new(Factor::ONE, &["kg", "kilogram", "kilograms"]);
const POUND: Unit = Unit::new(Factor::POUND, &["lb", "lbs", "lbm", "pound", "pounds"]);

pub(super) const MASS: Kind = Kind {
    name: "a mass",
    examples: "25 kg or 55 lb",
    units: &[&KILOGRAM, &POUND],
    metric: Shown::new(&KILOGRAM, "kg", 1),
    feet_inches: Shown::new(&POUND, "lb", 1),
    slack: Slack::RELATIVE,
};

const NEWTON: Unit = Unit::new(Factor::ONE, &["n", "newton", "newtons"]);
const KILONEWTON: Unit = Unit::new(Factor::KILO, &["kn", "kilonewton", "kilonewtons"]);
// Whoever asks what a joist carries is told pounds, and pounds-force are meant.
const POUND_FORCE: Unit = Unit::new(
    Factor::POUND_FORCE,
    &["lbf", "lb", "lbs", "pound", "pounds"],
);

pub(super) const FORCE: Kind = Kind {
    name: "a force",
    examples: "450 N, 0.45 kN or 100 lbf",
    units: &[&NEWTON, &KILONEWTON, &POUND_FORCE],
    metric: Shown::new(&NEWTON, "N", 0),
    feet_inches: Shown::new(&POUND_FORCE, "lbf", 0),
    slack: Slack::RELATIVE,
};

const DEGREE: Unit = Unit::new(Factor::ONE, &["°", "deg", "degree", "degrees"]);

pub(super) const ANGLE: Kind = Kind {
    name: "an angle",
    examples: "45 or 45 deg",
    units: &[&DEGREE],
    metric: Shown::new(&DEGREE, "°", 1),
    feet_inches: Shown::new(&DEGREE, "°", 1),
    slack: Slack::ANGLE,
};

const CELSIUS: Unit = Unit::new(Factor::ONE, &["c", "°c", "degc", "celsius"]);
const FAHRENHEIT: Unit = Unit {
    names: &["f", "°f", "degf", "fahrenheit"],
    factor: Factor::FAHRENHEIT_DEGREE,
    zero_hundredths: 3_200,
};
const KELVIN: Unit = Unit {
    names: &["k", "kelvin"],
    factor: Factor::ONE,
    zero_hundredths: 27_315,
};

pub(super) const TEMPERATURE: Kind = Kind {
    name: "a temperature",
    examples: "20 C or 68 F",
    units: &[&CELSIUS, &FAHRENHEIT, &KELVIN],
    metric: Shown::new(&CELSIUS, "°C", 1),
    feet_inches: Shown::new(&FAHRENHEIT, "°F", 1),
    slack: Slack {
        absolute: tolerance::ROUNDING_STEP,
        relative: 0.0,
    },
};

const KELVIN_STEP: Unit = Unit::new(Factor::ONE, &["k", "kelvin", "c", "°c", "degc"]);
const FAHRENHEIT_STEP: Unit = Unit::new(Factor::FAHRENHEIT_DEGREE, &["f", "°f", "degf"]);

pub(super) const TEMPERATURE_DIFFERENCE: Kind = Kind {
    name: "a temperature difference",
    examples: "10 K or 18 F",
    units: &[&KELVIN_STEP, &FAHRENHEIT_STEP],
    metric: Shown::new(&KELVIN_STEP, "K", 1),
    feet_inches: Shown::new(&FAHRENHEIT_STEP, "°F", 1),
    slack: Slack {
        absolute: tolerance::ROUNDING_STEP,
        relative: 0.0,
    },
};

const PASCAL: Unit = Unit::new(Factor::ONE, &["pa", "pascal", "pascals"]);
const KILOPASCAL: Unit = Unit::new(Factor::KILO, &["kpa"]);
const MILLIBAR: Unit = Unit::new(Factor::HECTO, &["mbar", "millibar", "millibars", "hpa"]);
const INCH_OF_WATER: Unit = Unit::new(
    Factor::INCH_OF_WATER,
    &[
        "inw.c", "inwc", "in.w.c", "in.wc", "\"w.c", "\"wc", "inh2o", "in.h2o",
    ],
);
const PSI: Unit = Unit::new(Factor::PSI, &["psi"]);

pub(super) const PRESSURE: Kind = Kind {
    name: "a pressure",
    examples: "20 mbar, 2000 Pa, 7 in w.c. or 1/2 psi",
    units: &[&PASCAL, &KILOPASCAL, &MILLIBAR, &INCH_OF_WATER, &PSI],
    metric: Shown::new(&MILLIBAR, "mbar", 1),
    feet_inches: Shown::new(&INCH_OF_WATER, "in w.c.", 2),
    slack: Slack::RELATIVE,
};

const NEWTON_PER_SQUARE_METRE: Unit = Unit::new(Factor::ONE, &["pa", "n/m2", "pascal", "pascals"]);
const KILONEWTON_PER_SQUARE_METRE: Unit = Unit::new(Factor::KILO, &["kn/m2", "kpa"]);
const POUND_PER_SQUARE_FOOT: Unit = Unit::new(
    Factor::PSF,
    &["psf", "lb/ft2", "lbf/ft2", "lbs/ft2", "lb/sqft"],
);

pub(super) const AREA_LOAD: Kind = Kind {
    name: "a load over an area",
    examples: "150 Pa, 0.15 kN/m2 or 3 psf",
    units: &[
        &NEWTON_PER_SQUARE_METRE,
        &KILONEWTON_PER_SQUARE_METRE,
        &POUND_PER_SQUARE_FOOT,
    ],
    metric: Shown::new(&NEWTON_PER_SQUARE_METRE, "Pa", 1),
    feet_inches: Shown::new(&POUND_PER_SQUARE_FOOT, "psf", 2),
    slack: Slack::RELATIVE,
};

const KILOGRAM_PER_METRE: Unit = Unit::new(Factor::ONE, &["kg/m"]);
const POUND_PER_FOOT: Unit = Unit::new(Factor::POUND_PER_FOOT, &["lb/ft", "lbs/ft"]);

pub(super) const LINEAR_DENSITY: Kind = Kind {
    name: "a mass per length",
    examples: "4.1 kg/m or 2.8 lb/ft",
    units: &[&KILOGRAM_PER_METRE, &POUND_PER_FOOT],
    metric: Shown::new(&KILOGRAM_PER_METRE, "kg/m", 2),
    feet_inches: Shown::new(&POUND_PER_FOOT, "lb/ft", 2),
    slack: Slack::RELATIVE,
};

const WATT_PER_SQUARE_METRE_KELVIN: Unit =
    Unit::new(Factor::ONE, &["w/m2k", "w/(m2k)", "w/m2/k", "w/m2°c"]);
const BTU_PER_HOUR_SQUARE_FOOT_FAHRENHEIT: Unit = Unit::new(
    Factor::BTU_PER_HOUR_SQUARE_FOOT_FAHRENHEIT,
    &[
        "btu/hft2f",
        "btu/hft2°f",
        "btu/(hft2f)",
        "btu/(hft2°f)",
        "btu/hrft2f",
        "btu/hrft2°f",
        "btu/h/ft2/f",
    ],
);

pub(super) const THERMAL_TRANSMITTANCE: Kind = Kind {
    name: "a U-value",
    examples: "0.35 W/m2K or 0.06 Btu/h ft2 F",
    units: &[
        &WATT_PER_SQUARE_METRE_KELVIN,
        &BTU_PER_HOUR_SQUARE_FOOT_FAHRENHEIT,
    ],
    metric: Shown::new(&WATT_PER_SQUARE_METRE_KELVIN, "W/m²K", 2),
    feet_inches: Shown::new(&BTU_PER_HOUR_SQUARE_FOOT_FAHRENHEIT, "Btu/h ft² °F", 3),
    slack: Slack::RELATIVE,
};

const UNITLESS: Unit = Unit::new(Factor::ONE, &[]);

pub(super) const NUMBER: Kind = Kind {
    name: "a number without unit",
    examples: "0.85 or 12",
    units: &[],
    metric: Shown::new(&UNITLESS, "", 2),
    feet_inches: Shown::new(&UNITLESS, "", 2),
    slack: Slack::RELATIVE,
};

pub(super) const COUNT: Kind = Kind {
    name: "a whole number",
    examples: "1 or 12",
    ..NUMBER
};

/// Every kind that has units, in the order in which a unit typed in the wrong field is
/// looked up: `C` there is a temperature, `lb` a mass.
const ALL: &[&Kind] = &[
    &LENGTH,
    &POWER,
    &MASS,
    &FORCE,
    &ANGLE,
    &TEMPERATURE,
    &TEMPERATURE_DIFFERENCE,
    &PRESSURE,
    &AREA_LOAD,
    &LINEAR_DENSITY,
    &THERMAL_TRANSMITTANCE,
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spellings_are_squeezed_and_unique_within_a_kind() {
        for kind in ALL {
            let mut names: Vec<&str> = kind.units.iter().flat_map(|u| u.names).copied().collect();
            for name in &names {
                assert_eq!(&squeeze(name), name, "{}", kind.name);
            }
            let n_names = names.len();
            names.sort_unstable();
            names.dedup();
            assert_eq!(names.len(), n_names, "{}", kind.name);
        }
    }

    #[test]
    fn every_label_can_be_typed() {
        for kind in ALL {
            for shown in [&kind.metric, &kind.feet_inches] {
                if shown.label != "ft in" {
                    assert!(kind.unit(shown.label).is_some(), "{}", shown.label);
                }
            }
        }
    }
}
