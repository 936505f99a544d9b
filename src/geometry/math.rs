//! Transcendental functions that give the same bits on every machine.
//!
//! The standard library hands these to the platform's C library, whose last digit
//! differs between systems; golden files would differ with it.

/// Sine of an angle in radians.
#[must_use]
pub fn sin(x: f64) -> f64 {
    libm::sin(x)
}

/// Cosine of an angle in radians.
#[must_use]
pub fn cos(x: f64) -> f64 {
    libm::cos(x)
}

/// Tangent of an angle in radians.
#[must_use]
pub fn tan(x: f64) -> f64 {
    libm::tan(x)
}

/// Arc tangent, radians in -pi/2..pi/2.
#[must_use]
pub fn atan(x: f64) -> f64 {
    libm::atan(x)
}

/// Angle of the point (x, y) from the x axis, radians in -pi..pi.
#[must_use]
pub fn atan2(y: f64, x: f64) -> f64 {
    libm::atan2(y, x)
}

/// The exponential function.
#[must_use]
pub fn exp(x: f64) -> f64 {
    libm::exp(x)
}

/// Arc sine, radians; not a number outside -1..1.
#[must_use]
pub fn asin(x: f64) -> f64 {
    libm::asin(x)
}

/// Sine and cosine of an angle in degrees, exact at the quarter turns, so that a
/// run at bearing 90 has no drift of 1e-17 across.
#[must_use]
pub fn sin_cos_degrees(degrees: f64) -> (f64, f64) {
    let turned = degrees.rem_euclid(360.0);
    if turned == 0.0 {
        (0.0, 1.0)
    } else if turned == 90.0 {
        (1.0, 0.0)
    } else if turned == 180.0 {
        (0.0, -1.0)
    } else if turned == 270.0 {
        (-1.0, 0.0)
    } else {
        let radians = turned.to_radians();
        (sin(radians), cos(radians))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quarter_turns_are_exact() {
        for (degrees, expected) in [
            (0.0, (0.0, 1.0)),
            (90.0, (1.0, 0.0)),
            (-90.0, (-1.0, 0.0)),
            (540.0, (0.0, -1.0)),
            (-360.0, (0.0, 1.0)),
        ] {
            assert_eq!(sin_cos_degrees(degrees), expected, "at {degrees}");
        }
    }

    #[test]
    fn other_angles_follow_the_circle() {
        for tenth in 0..3600 {
            let (s, c) = sin_cos_degrees(f64::from(tenth) / 10.0);
            assert!((s * s + c * c - 1.0).abs() < 1e-15);
        }
    }
}
