//! Exact conversion factors.

/// How many base units one unit is, as a ratio of whole numbers. Both are below
/// 2^53, so that multiplying by one and dividing by the other rounds a figure of
/// a few digits only once: 6 1/2 in is the very number that 0.1651 m is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Factor {
    pub(super) numerator: i64,
    pub(super) denominator: i64,
}

impl Factor {
    /// The base unit itself.
    pub(super) const ONE: Self = Self::new(1, 1);
    /// A thousand base units.
    pub(super) const KILO: Self = Self::new(1_000, 1);
    /// A hundred base units.
    pub(super) const HECTO: Self = Self::new(100, 1);
    /// A hundredth.
    pub(super) const CENTI: Self = Self::new(1, 100);
    /// A thousandth.
    pub(super) const MILLI: Self = Self::new(1, 1_000);
    /// Metres in an international inch: 0.0254, exact.
    pub(super) const INCH: Self = Self::new(127, 5_000);
    /// Metres in an international foot: 12 inches.
    pub(super) const FOOT: Self = Self::new(381, 1_250);
    /// Kilograms in a pound avoirdupois: 0.453 592 37, exact.
    pub(super) const POUND: Self = Self::new(45_359_237, 100_000_000);
    /// Newtons in a pound-force: a pound under standard gravity, 9.806 65 m/s2
    /// (3rd General Conference on Weights and Measures, 1901), exact.
    pub(super) const POUND_FORCE: Self = Self::new(8_896_443_230_521, 2_000_000_000_000);
    /// Watts in a Btu (International Table) per hour: 1055.055 852 62 J in 3600 s, exact.
    pub(super) const BTU_PER_HOUR: Self = Self::new(52_752_792_631, 180_000_000_000);
    /// Watts in a thousand Btu per hour.
    pub(super) const MBH: Self = Self::new(52_752_792_631, 180_000_000);
    /// Pascals in an inch of water column at 4 degC: 249.088 91.
    pub(super) const INCH_OF_WATER: Self = Self::new(24_908_891, 100_000);
    /// Pascals in a pound-force per square inch, exact.
    pub(super) const PSI: Self = Self::new(8_896_443_230_521, 1_290_320_000);
    /// Pascals in a pound-force per square foot, exact.
    pub(super) const PSF: Self = Self::new(8_896_443_230_521, 185_806_080_000);
    /// Kilograms per metre in a pound per foot, exact.
    pub(super) const POUND_PER_FOOT: Self = Self::new(45_359_237, 30_480_000);
    /// Kelvins in a degree of the Fahrenheit scale.
    pub(super) const FAHRENHEIT_DEGREE: Self = Self::new(5, 9);
    /// W/(m2 K) in a Btu/(h ft2 degF), exact.
    pub(super) const BTU_PER_HOUR_SQUARE_FOOT_FAHRENHEIT: Self =
        Self::new(52_752_792_631, 9_290_304_000);

    /// `numerator` base units are `denominator` units; both above zero.
    pub(super) const fn new(numerator: i64, denominator: i64) -> Self {
        Self {
            numerator,
            denominator,
        }
    }

    /// Base units in `value` units.
    pub(super) const fn base_of(self, value: f64) -> f64 {
        value * self.numerator as f64 / self.denominator as f64
    }

    /// Units in `value` base units.
    pub(super) const fn units_in(self, value: f64) -> f64 {
        value * self.denominator as f64 / self.numerator as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Checks a factor against its definition as a product and quotient of others.
    fn check(factor: Factor, above: &[i128], below: &[i128]) {
        let left = i128::from(factor.numerator) * below.iter().product::<i128>();
        let right = i128::from(factor.denominator) * above.iter().product::<i128>();
        assert_eq!(left, right, "{factor:?}");
    }

    #[test]
    fn factors_are_their_definitions() {
        check(Factor::INCH, &[254], &[10_000]);
        check(Factor::FOOT, &[12, 254], &[10_000]);
        check(
            Factor::POUND_FORCE,
            &[45_359_237, 980_665],
            &[100_000_000, 100_000],
        );
        check(
            Factor::BTU_PER_HOUR,
            &[105_505_585_262],
            &[100_000_000, 3_600],
        );
        check(
            Factor::MBH,
            &[105_505_585_262, 1_000],
            &[100_000_000, 3_600],
        );
        // lbf / in2, the inch squared being 0.000 645 16 m2.
        check(
            Factor::PSI,
            &[45_359_237, 980_665, 100_000_000],
            &[100_000_000, 100_000, 64_516],
        );
        // lbf / ft2.
        check(
            Factor::PSF,
            &[45_359_237, 980_665, 100_000_000],
            &[100_000_000, 100_000, 9_290_304],
        );
        check(
            Factor::POUND_PER_FOOT,
            &[45_359_237, 10_000],
            &[100_000_000, 3_048],
        );
        // Btu/h over ft2 (0.092 903 04 m2) and 5/9 K.
        check(
            Factor::BTU_PER_HOUR_SQUARE_FOOT_FAHRENHEIT,
            &[105_505_585_262, 9],
            &[3_600, 9_290_304, 5],
        );
    }
}
