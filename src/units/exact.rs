//! Numbers without rounding, for the way between text and `f64`.
//!
//! Feet and inches, degrees Fahrenheit and Btu are ratios of SI units. Worked out
//! in `f64`, `10' 6"` would be shown, typed again and come back a last digit
//! off. Here a typed figure stays a ratio of whole numbers until it is rounded
//! to `f64` once, so that what is shown always comes back as what was kept.

use super::factor::Factor;
use super::rounding::Rounding;

/// `numerator / denominator * 10^exponent`, the denominator above zero.
///
/// Operations answer `None` where 127 bits don't hold the result; figures that
/// buildings have stay far below that.
#[derive(Debug, Clone, Copy)]
pub(super) struct Exact {
    numerator: i128,
    denominator: i128,
    exponent: i32,
}

impl Exact {
    /// A whole number.
    pub(super) const fn whole(value: i128) -> Self {
        Self::decimal(value, 0)
    }

    /// `digits * 10^exponent`.
    pub(super) const fn decimal(digits: i128, exponent: i32) -> Self {
        Self {
            numerator: digits,
            denominator: 1,
            exponent,
        }
    }

    /// `numerator / denominator`; none where the denominator is not above zero.
    pub(super) fn fraction(numerator: i128, denominator: i128) -> Option<Self> {
        (denominator > 0).then_some(Self {
            numerator,
            denominator,
            exponent: 0,
        })
    }

    /// The value of an `f64` to 23 digits, six more than tell any two of them apart.
    /// None where it is not finite.
    pub(super) fn from_f64(value: f64) -> Option<Self> {
        if !value.is_finite() {
            return None;
        }
        let text = format!("{value:.22e}");
        let (mantissa, exponent) = text.split_once('e')?;
        let digits = mantissa.replace('.', "").parse().ok()?;
        Some(Self::decimal(digits, exponent.parse::<i32>().ok()? - 22))
    }

    /// With the other sign.
    pub(super) const fn negated(self) -> Self {
        Self {
            numerator: -self.numerator,
            ..self
        }
    }

    /// From units to base units.
    pub(super) fn times(self, factor: Factor) -> Option<Self> {
        self.scaled(factor.numerator, factor.denominator)
    }

    /// From base units to units.
    pub(super) fn per(self, factor: Factor) -> Option<Self> {
        self.scaled(factor.denominator, factor.numerator)
    }

    /// The sum.
    pub(super) fn plus(self, other: Self) -> Option<Self> {
        if self.numerator == 0 {
            return Some(other);
        }
        if other.numerator == 0 {
            return Some(self);
        }
        let exponent = self.exponent.min(other.exponent);
        let left = self
            .numerator_at(exponent)?
            .checked_mul(other.denominator)?;
        let right = other
            .numerator_at(exponent)?
            .checked_mul(self.denominator)?;
        Some(Self {
            numerator: left.checked_add(right)?,
            denominator: denominator_product(self.denominator, other.denominator)?,
            exponent,
        })
    }

    /// Whether the number is at least `other`, both of a size that buildings have.
    pub(super) fn at_least(self, other: Self) -> bool {
        self.plus(other.negated())
            .is_some_and(|difference| difference.numerator >= 0)
    }

    /// Rounded to a multiple of `10^-places`. The result is a decimal.
    pub(super) fn rounded(self, places: i32, rounding: Rounding) -> Option<Self> {
        let shift = self.exponent.checked_add(places)?;
        let power = 10_i128.checked_pow(shift.unsigned_abs());
        let (numerator, denominator) = if shift >= 0 {
            (self.numerator.checked_mul(power?)?, self.denominator)
        } else if let Some(below) = power.and_then(|power| self.denominator.checked_mul(power)) {
            (self.numerator, below)
        } else {
            // So small that only its sign counts: less than half a step.
            (self.numerator.signum(), 3)
        };
        let floor = numerator.div_euclid(denominator);
        let above_floor = numerator.rem_euclid(denominator);
        let below_ceiling = denominator - above_floor;
        let raise = match rounding {
            Rounding::Down => false,
            Rounding::Up => above_floor > 0,
            Rounding::Nearest if numerator < 0 => above_floor > below_ceiling,
            Rounding::Nearest => above_floor >= below_ceiling,
        };
        Some(Self::decimal(floor + i128::from(raise), -places))
    }

    /// The power of ten of the first significant digit; 0 for zero.
    pub(super) fn magnitude(self) -> i32 {
        format!("{:e}", self.to_f64())
            .split_once('e')
            .and_then(|(_, exponent)| exponent.parse().ok())
            .unwrap_or(0)
    }

    /// Rounded to so many significant digits (at least one).
    pub(super) fn to_digits(self, digits: i32) -> Option<Self> {
        self.rounded(digits - 1 - self.magnitude(), Rounding::Nearest)
    }

    /// The digits before and behind the point of a decimal: whole `10^-places`.
    /// None where the number is not a multiple of that.
    pub(super) fn in_steps_of(self, places: i32) -> Option<i128> {
        (self.denominator == 1 && self.exponent >= -places)
            .then(|| self.numerator_at(-places))
            .flatten()
    }

    /// The nearest `f64`, correctly rounded; infinite beyond its range.
    pub(super) fn to_f64(self) -> f64 {
        let below = self.denominator.unsigned_abs();
        let above = self.numerator.unsigned_abs();
        let mut text = format!(
            "{}{}",
            if self.numerator < 0 { "-" } else { "" },
            above / below
        );
        let mut exponent = self.exponent;
        let mut left_over = above % below;
        // Forty digits behind the last zero are enough: a tie of two neighbouring
        // f64 values is broken by the digit that stands for the rest.
        let mut n_digits = if above >= below { 1 } else { 0 };
        while left_over > 0 && n_digits < 40 {
            left_over *= 10;
            let digit = left_over / below;
            left_over %= below;
            text.push_str(&digit.to_string());
            exponent -= 1;
            if n_digits > 0 || digit > 0 {
                n_digits += 1;
            }
        }
        if left_over > 0 {
            text.push('1');
            exponent -= 1;
        }
        format!("{text}e{exponent}")
            .parse()
            .expect("digits with an exponent are always a number")
    }

    /// A decimal as text: no more digits than it has, no exponent unless it is huge.
    pub(super) fn plain(self) -> String {
        let fixed = self.fixed();
        if fixed.contains('.') {
            fixed.trim_end_matches('0').trim_end_matches('.').to_owned()
        } else {
            fixed
        }
    }

    /// A decimal as text with all its places, zeros included.
    pub(super) fn fixed(self) -> String {
        if self.numerator == 0 && self.exponent >= 0 {
            return "0".to_owned();
        }
        // Beyond this a row of zeros can no longer be read.
        if self.exponent > 21 {
            let (mut digits, mut exponent) = (self.numerator, self.exponent);
            while digits % 10 == 0 {
                (digits, exponent) = (digits / 10, exponent + 1);
            }
            return format!("{digits}e{exponent}");
        }
        let places = usize::try_from(-self.exponent).unwrap_or(0);
        let zeros = usize::try_from(self.exponent).unwrap_or(0);
        let sign = if self.numerator < 0 { "-" } else { "" };
        let digits = format!(
            "{:0>width$}{}",
            self.numerator.unsigned_abs(),
            "0".repeat(zeros),
            width = places + 1
        );
        let (whole, behind) = digits.split_at(digits.len() - places);
        if behind.is_empty() {
            format!("{sign}{whole}")
        } else {
            format!("{sign}{whole}.{behind}")
        }
    }

    fn numerator_at(self, exponent: i32) -> Option<i128> {
        let power = u32::try_from(self.exponent.checked_sub(exponent)?).ok()?;
        self.numerator.checked_mul(10_i128.checked_pow(power)?)
    }

    fn scaled(self, above: i64, below: i64) -> Option<Self> {
        Some(Self {
            numerator: self.numerator.checked_mul(i128::from(above))?,
            denominator: denominator_product(self.denominator, i128::from(below))?,
            exponent: self.exponent,
        })
    }
}

/// A tenth of the range is kept free for the next digit of a long division.
fn denominator_product(left: i128, right: i128) -> Option<i128> {
    left.checked_mul(right)
        .filter(|product| *product <= i128::MAX / 10)
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use super::*;

    #[test]
    fn f64_survives_the_detour_through_every_factor() {
        let mut random = fastrand::Rng::with_seed(3);
        let factors = [
            Factor::ONE,
            Factor::MILLI,
            Factor::INCH,
            Factor::BTU_PER_HOUR,
            Factor::POUND_FORCE,
            Factor::FAHRENHEIT_DEGREE,
            Factor::BTU_PER_HOUR_SQUARE_FOOT_FAHRENHEIT,
        ];
        for _ in 0..20_000 {
            let exponent = random.i32(-12..12);
            let value = (random.f64() - 0.5) * libm::exp2(f64::from(exponent) * 3.0);
            let factor = factors[random.usize(0..factors.len())];
            let there = Exact::from_f64(value).unwrap().per(factor).unwrap();
            let back = there.to_digits(20).unwrap().times(factor).unwrap().to_f64();
            assert_eq!(back.to_bits(), value.to_bits(), "{value} in {factor:?}");
        }
    }

    #[test]
    fn division_is_correctly_rounded() {
        for (above, below) in [(1, 3), (2, 3), (-7, 9), (1, 1_000_003), (10, 7)] {
            let quotient = Exact::fraction(above, below).unwrap().to_f64();
            assert_eq!(quotient, above as f64 / below as f64, "{above}/{below}");
        }
        assert_eq!(Exact::decimal(1, 400).to_f64(), f64::INFINITY);
        assert_eq!(Exact::decimal(1, -400).to_f64(), 0.0);
        assert!(Exact::fraction(1, 0).is_none());
    }

    #[test]
    fn rounding_takes_the_asked_side() {
        let check = |digits, places, rounding, expected: &str| {
            let rounded = Exact::decimal(digits, -3).rounded(places, rounding);
            assert_eq!(rounded.unwrap().fixed(), expected, "{digits} {rounding:?}");
        };
        check(2_675, 2, Rounding::Nearest, "2.68");
        check(-2_675, 2, Rounding::Nearest, "-2.68");
        check(2_674, 2, Rounding::Nearest, "2.67");
        check(2_671, 2, Rounding::Up, "2.68");
        check(2_679, 2, Rounding::Down, "2.67");
        check(-2_671, 2, Rounding::Down, "-2.68");
        check(-2_679, 2, Rounding::Up, "-2.67");
        check(2_679, 0, Rounding::Down, "2");
        check(-2, 2, Rounding::Nearest, "0.00");
        let tiny = Exact::decimal(-1, -300);
        assert_eq!(tiny.rounded(2, Rounding::Nearest).unwrap().fixed(), "0.00");
        assert_eq!(tiny.rounded(2, Rounding::Down).unwrap().fixed(), "-0.01");
    }

    #[test]
    fn decimals_print_plainly() {
        let check = |digits, exponent, expected: &str| {
            assert_eq!(Exact::decimal(digits, exponent).plain(), expected);
        };
        check(3_200, -3, "3.2");
        check(-5, -2, "-0.05");
        check(12, 2, "1200");
        check(0, -4, "0");
        check(1, 30, "1e30");
        check(-100, 30, "-1e32");
    }
}
