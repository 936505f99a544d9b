//! How much the hot tube grows.

/// Expansion of the tube's steel, 1/K: the lower end of the 12 to 13 millionths that
/// tube steels have (CODES.md 4.6).
pub const EXPANSION_PER_K: f64 = 1.2e-5;

/// Mean rise of the tube over its cold state by tube length, (m, K): CODES.md 4.6.
const MEAN_RISE: [(f64, f64); 4] = [(6.1, 300.0), (12.2, 280.0), (15.2, 270.0), (21.3, 240.0)];

/// Mean rise of a tube's temperature, K: straight between the known lengths,
/// constant outside them.
#[must_use]
pub fn mean_rise_k(tube_length_m: f64) -> f64 {
    let after = MEAN_RISE.partition_point(|&(length_m, _)| length_m < tube_length_m);
    match (
        after.checked_sub(1).map(|before| MEAN_RISE[before]),
        MEAN_RISE.get(after),
    ) {
        (Some((from_m, from_k)), Some(&(to_m, to_k))) => {
            from_k + (to_k - from_k) * (tube_length_m - from_m) / (to_m - from_m)
        }
        (Some((_, rise_k)), None) => rise_k,
        (None, _) => MEAN_RISE[0].1,
    }
}

/// A run's growth, and where it goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Growth {
    /// Mean rise of the tube's temperature, K.
    pub mean_rise_k: f64,
    /// The station that stays where it is, m.
    pub fixed_station_m: f64,
    /// Growth of the whole tube, m.
    pub total_m: f64,
    /// How far the exhaust end (hairpin: the bend) moves away, m.
    pub exhaust_end_m: f64,
    /// How far the burner flange moves the other way, m.
    pub burner_end_m: f64,
}

impl Growth {
    /// The growth of a tube held at one station: expansion times length times rise.
    #[must_use]
    pub fn new(tube_length_m: f64, fixed_station_m: f64) -> Self {
        let mean_rise_k = mean_rise_k(tube_length_m);
        let per_m = EXPANSION_PER_K * mean_rise_k;
        Self {
            mean_rise_k,
            fixed_station_m,
            total_m: per_m * tube_length_m,
            exhaust_end_m: per_m * (tube_length_m - fixed_station_m),
            burner_end_m: per_m * fixed_station_m,
        }
    }

    /// How far the tube moves at a station, m, positive towards the exhaust.
    #[must_use]
    pub fn movement_m(&self, station_m: f64) -> f64 {
        EXPANSION_PER_K * self.mean_rise_k * (station_m - self.fixed_station_m)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::math::sin;

    /// codes.json `expand.*`, and CODES.md 4.6 for the two lengths between.
    #[test]
    fn growth_is_that_of_the_table() {
        for (length_m, growth_mm, suspension_mm) in [
            (6.1, 22.0, Some(126.0)),
            (12.2, 41.0, Some(236.0)),
            (15.2, 49.2, Some(284.0)),
            (21.3, 61.3, Some(353.0)),
        ] {
            let growth = Growth::new(length_m, 0.0);
            let total_mm = growth.total_m * 1000.0;
            assert!(
                (total_mm - growth_mm).abs() < 0.01 * growth_mm,
                "{total_mm}"
            );
            if let Some(expected) = suspension_mm {
                let least = total_mm / sin(10.0_f64.to_radians());
                assert!((least - expected).abs() < 0.01 * expected, "{least}");
            }
        }
    }

    #[test]
    fn rise_is_level_outside_the_table_and_straight_within() {
        for (length_m, rise_k) in [
            (1.0, 300.0),
            (6.1, 300.0),
            (9.15, 290.0),
            (21.3, 240.0),
            (24.0, 240.0),
        ] {
            let rise = mean_rise_k(length_m);
            assert!((rise - rise_k).abs() < 1e-9, "{length_m} m: {rise}");
        }
    }

    #[test]
    fn both_ends_move_away_from_the_fixed_point() {
        let growth = Growth::new(12.0, 3.0);
        let sum = growth.exhaust_end_m + growth.burner_end_m;
        assert!((sum - growth.total_m).abs() < 1e-15);
        assert!(growth.movement_m(0.0) < 0.0);
        assert_eq!(growth.movement_m(3.0), 0.0);
        assert!((growth.movement_m(12.0) - growth.exhaust_end_m).abs() < 1e-15);
    }
}
