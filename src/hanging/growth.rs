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

/// How much warmer the tube gets than it is hung, along its length: straight between
/// the known stations, constant outside them.
#[derive(Debug, Clone, PartialEq)]
pub struct TemperatureRise {
    /// (station in m, rise in K), stations ascending, at least one.
    points: Vec<(f64, f64)>,
}

impl TemperatureRise {
    /// The same rise along the whole tube.
    #[must_use]
    pub fn even(rise_k: f64) -> Self {
        Self {
            points: vec![(0.0, rise_k)],
        }
    }

    /// The mean rise of a tube of this length along all of it: what is assumed until a
    /// tube's temperatures are known.
    #[must_use]
    pub fn assumed(tube_length_m: f64) -> Self {
        Self::even(mean_rise_k(tube_length_m))
    }

    /// A rise that is known at some stations, in any order; none without any.
    #[must_use]
    pub fn profile(mut points: Vec<(f64, f64)>) -> Option<Self> {
        points.sort_by(|a, b| a.0.total_cmp(&b.0));
        (!points.is_empty()).then_some(Self { points })
    }

    /// The rise at a station, K.
    #[must_use]
    pub fn at_k(&self, station_m: f64) -> f64 {
        let after = self.points.partition_point(|&(at_m, _)| at_m < station_m);
        let before = after
            .checked_sub(1)
            .and_then(|which| self.points.get(which));
        match (before, self.points.get(after)) {
            (Some(&(from_m, from_k)), Some(&(to_m, to_k))) => {
                from_k + (to_k - from_k) * ((station_m - from_m) / (to_m - from_m))
            }
            (Some(&(_, rise_k)), None) | (None, Some(&(_, rise_k))) => rise_k,
            (None, None) => 0.0,
        }
    }

    /// The integral of the rise from one station to another, K m; negative backwards.
    #[must_use]
    pub fn between_k_m(&self, from_m: f64, to_m: f64) -> f64 {
        if to_m < from_m {
            return -self.between_k_m(to_m, from_m);
        }
        let inner = self.points.iter().map(|&(at_m, _)| at_m);
        let inner = inner.filter(|&at_m| from_m < at_m && at_m < to_m);
        let (mut sum, mut last_m) = (0.0, from_m);
        for next_m in inner.chain([to_m]) {
            let mean_k = f64::midpoint(self.at_k(last_m), self.at_k(next_m));
            sum += mean_k * (next_m - last_m);
            last_m = next_m;
        }
        sum
    }
}

/// A run's growth, and where it goes.
#[derive(Debug, Clone, PartialEq)]
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
    rise: TemperatureRise,
}

impl Growth {
    /// The growth of a tube held at one station: expansion times the integral of the
    /// rise.
    #[must_use]
    pub fn new(rise: &TemperatureRise, tube_length_m: f64, fixed_station_m: f64) -> Self {
        let grown = |from_m, to_m| EXPANSION_PER_K * rise.between_k_m(from_m, to_m);
        Self {
            mean_rise_k: rise.between_k_m(0.0, tube_length_m) / tube_length_m,
            fixed_station_m,
            total_m: grown(0.0, tube_length_m),
            exhaust_end_m: grown(fixed_station_m, tube_length_m),
            burner_end_m: grown(0.0, fixed_station_m),
            rise: rise.clone(),
        }
    }

    /// How far the tube moves at a station, m, positive towards the exhaust.
    #[must_use]
    pub fn movement_m(&self, station_m: f64) -> f64 {
        EXPANSION_PER_K * self.rise.between_k_m(self.fixed_station_m, station_m)
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

    use super::*;
    use crate::geometry::math::sin;

    fn assumed(length_m: f64, fixed_m: f64) -> Growth {
        Growth::new(&TemperatureRise::assumed(length_m), length_m, fixed_m)
    }

    /// codes.json `expand.*`, and CODES.md 4.6 for the two lengths between.
    #[test]
    fn growth_is_that_of_the_table() {
        for (length_m, growth_mm, suspension_mm) in [
            (6.1, 22.0, Some(126.0)),
            (12.2, 41.0, Some(236.0)),
            (15.2, 49.2, Some(284.0)),
            (21.3, 61.3, Some(353.0)),
        ] {
            let growth = assumed(length_m, 0.0);
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
        let growth = assumed(12.0, 3.0);
        let sum = growth.exhaust_end_m + growth.burner_end_m;
        assert!((sum - growth.total_m).abs() < 1e-15);
        assert!(growth.movement_m(0.0) < 0.0);
        assert_eq!(growth.movement_m(3.0), 0.0);
        assert!((growth.movement_m(12.0) - growth.exhaust_end_m).abs() < 1e-15);
    }

    /// Hot at the burner, cooler towards the exhaust, known at random stations: every
    /// movement is the integral of the rise, taken in small steps.
    #[test]
    fn movement_is_the_integral_of_the_rise() {
        let mut random = fastrand::Rng::with_seed(11);
        for _ in 0..300 {
            let length_m = 3.0 + 21.0 * random.f64();
            let points: Vec<(f64, f64)> = (0..random.usize(1..8))
                .map(|_| (length_m * (1.2 * random.f64() - 0.1), 500.0 * random.f64()))
                .collect();
            let rise = TemperatureRise::profile(points).unwrap();
            let fixed_m = length_m * random.f64();
            let growth = Growth::new(&rise, length_m, fixed_m);
            let sum = growth.burner_end_m + growth.exhaust_end_m;
            assert!(
                (sum - growth.total_m).abs() < 1e-12,
                "ends make up the whole"
            );
            assert_eq!(growth.movement_m(fixed_m), 0.0);
            assert!((growth.movement_m(length_m) - growth.exhaust_end_m).abs() < 1e-12);
            assert!((growth.movement_m(0.0) + growth.burner_end_m).abs() < 1e-12);
            let mean_m = EXPANSION_PER_K * growth.mean_rise_k * length_m;
            assert!((mean_m - growth.total_m).abs() < 1e-12);
            let station_m = length_m * random.f64();
            let steps = 20_000;
            let step_m = (station_m - fixed_m) / f64::from(steps);
            let stepped: f64 = (0..steps)
                .map(|n| rise.at_k(fixed_m + step_m * (f64::from(n) + 0.5)) * step_m)
                .sum();
            let movement_m = growth.movement_m(station_m);
            assert!(
                (movement_m - EXPANSION_PER_K * stepped).abs() < 1e-7,
                "{movement_m}"
            );
        }
    }

    #[test]
    fn a_rise_known_nowhere_is_none() {
        assert_eq!(TemperatureRise::profile(Vec::new()), None);
        assert_eq!(TemperatureRise::even(200.0).at_k(-3.0), 200.0);
    }
}
