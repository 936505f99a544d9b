//! Numbers in files.

/// The value with at most this many decimals, without trailing zeros; never `-0`.
pub(super) fn decimal(value: f64, places: usize) -> String {
    let long = format!("{value:.places$}");
    let short = if long.contains('.') {
        long.trim_end_matches('0').trim_end_matches('.')
    } else {
        &long
    };
    if short == "-0" {
        "0".to_owned()
    } else {
        short.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short_and_plain() {
        for (value, places, expected) in [
            (0.0, 4, "0"),
            (-0.000_01, 4, "0"),
            (12.5, 4, "12.5"),
            (100.0, 4, "100"),
            (100.0, 0, "100"),
            (-1.0 / 3.0, 4, "-0.3333"),
            (1e8, 4, "100000000"),
        ] {
            assert_eq!(decimal(value, places), expected);
        }
    }
}
