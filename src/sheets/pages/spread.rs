//! Places along a line, moved apart until each has room.

/// Something that wants a place along a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Wish {
    /// Where it would like to be, mm along the line.
    pub at_mm: f64,
    /// How much it resists being moved, against others; greater than zero.
    pub weight: f64,
}

/// Places for wishes that are in order, at least `pitch_mm` apart and within the
/// stretch, with the least weighted sum of squared moves. None if the stretch is too
/// short for that many.
///
/// Counting each place from i pitches on turns "at least a pitch apart" into "not in
/// falling order", so that this is isotonic regression, solved by pooling neighbours
/// that are in falling order (Barlow, Bartholomew, Bremner, Brunk: Statistical
/// Inference under Order Restrictions, 1972, 1.2).
pub(super) fn spread(wishes: &[Wish], pitch_mm: f64, from_mm: f64, to_mm: f64) -> Option<Vec<f64>> {
    /// Neighbours that are moved as one.
    struct Pool {
        mean: f64,
        weight: f64,
        n_places: usize,
    }
    let Some(n_gaps) = wishes.len().checked_sub(1) else {
        return Some(Vec::new());
    };
    let last_mm = to_mm - steps(n_gaps) * pitch_mm;
    if last_mm < from_mm {
        return None;
    }
    let mut pools: Vec<Pool> = Vec::new();
    for (index, wish) in wishes.iter().enumerate() {
        pools.push(Pool {
            mean: wish.at_mm - steps(index) * pitch_mm,
            weight: wish.weight,
            n_places: 1,
        });
        while let [.., before, after] = &mut pools[..] {
            if before.mean <= after.mean {
                break;
            }
            let weight = before.weight + after.weight;
            before.mean = (before.mean * before.weight + after.mean * after.weight) / weight;
            before.weight = weight;
            before.n_places += after.n_places;
            pools.pop();
        }
    }
    let counted = pools
        .iter()
        .flat_map(|pool| std::iter::repeat_n(pool.mean.clamp(from_mm, last_mm), pool.n_places));
    Some(
        counted
            .enumerate()
            .map(|(index, place)| place + steps(index) * pitch_mm)
            .collect(),
    )
}

/// How many fit a stretch at a pitch.
pub(super) fn room_for(from_mm: f64, to_mm: f64, pitch_mm: f64) -> usize {
    let mut n = 0;
    while n < MOST && from_mm + steps(n) * pitch_mm <= to_mm {
        n += 1;
    }
    n
}

/// More than fit along any sheet.
const MOST: usize = 2_000;

/// A count as a factor.
fn steps(n: usize) -> f64 {
    u32::try_from(n).map_or(f64::INFINITY, f64::from)
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

    use super::*;

    fn wishes(at: &[f64]) -> Vec<Wish> {
        at.iter()
            .map(|&at_mm| Wish { at_mm, weight: 1.0 })
            .collect()
    }

    fn cost(wishes: &[Wish], places: &[f64]) -> f64 {
        wishes
            .iter()
            .zip(places)
            .map(|(wish, place)| wish.weight * (wish.at_mm - place).powi(2))
            .sum()
    }

    #[test]
    fn what_has_room_stays_where_it_is() {
        let at = [3.0, 8.0, 20.0];
        assert_eq!(spread(&wishes(&at), 4.0, 0.0, 30.0).unwrap(), at);
        assert_eq!(spread(&[], 4.0, 0.0, 30.0).unwrap(), Vec::<f64>::new());
    }

    #[test]
    fn neighbours_give_way_alike_and_the_heavy_one_stays() {
        let pair = spread(&wishes(&[10.0, 10.0]), 4.0, 0.0, 30.0).unwrap();
        assert_eq!(pair, [8.0, 12.0]);
        let mut uneven = wishes(&[10.0, 10.0]);
        uneven[0].weight = 1e9;
        let places = spread(&uneven, 4.0, 0.0, 30.0).unwrap();
        assert!((places[0] - 10.0).abs() < 1e-6 && (places[1] - 14.0).abs() < 1e-6);
    }

    #[test]
    fn ends_hold() {
        assert_eq!(
            spread(&wishes(&[1.0, 1.0, 2.0]), 4.0, 0.0, 9.0).unwrap(),
            [0.0, 4.0, 8.0]
        );
        assert!(spread(&wishes(&[1.0, 1.0, 2.0]), 4.0, 0.0, 7.0).is_none());
        assert_eq!(room_for(0.0, 9.0, 4.0), 3);
        assert_eq!(room_for(0.0, -1.0, 4.0), 0);
    }

    #[test]
    fn no_nearby_arrangement_is_cheaper() {
        let mut random = fastrand::Rng::with_seed(5);
        for _ in 0..200 {
            let mut at: Vec<f64> = (0..7).map(|_| random.f64() * 40.0).collect();
            at.sort_by(f64::total_cmp);
            let mut wished = wishes(&at);
            wished[3].weight = 50.0;
            let places = spread(&wished, 4.0, 0.0, 40.0).unwrap();
            let fits = |p: &[f64]| {
                p.windows(2).all(|pair| pair[1] - pair[0] >= 4.0 - 1e-9)
                    && 0.0 <= p[0]
                    && p[6] <= 40.0
            };
            assert!(fits(&places), "{places:?}");
            for _ in 0..200 {
                let moved: Vec<f64> = places
                    .iter()
                    .map(|p| p + (random.f64() - 0.5) * 0.2)
                    .collect();
                assert!(!fits(&moved) || cost(&wished, &places) <= cost(&wished, &moved) + 1e-9);
            }
        }
    }
}
