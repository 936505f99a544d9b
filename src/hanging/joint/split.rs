//! An overloaded place, split into cases one of which every answer is.

use crate::geometry::tolerance;

/// One run's load at an overloaded place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Part {
    /// Its load there, N, not negative.
    pub(super) load_n: f64,
    /// Which run could bring less; none where hangers are kept.
    pub(super) yields: Option<usize>,
}

/// The sum of loads as it is held against the limit: run after run in the scheme's order.
pub(super) fn sum_n(loads_n: impl Iterator<Item = f64>) -> f64 {
    loads_n.fold(0.0, |sum_n, load_n| sum_n + load_n)
}

/// How far one of the runs must go down: for each that could bring less, the most that it
/// brings in the case in which it is the one that yields.
///
/// With loads a whose sum is beyond the limit, and any t that are each less than a and sum
/// up to the limit, every allowed answer has some run at or below its t: if all were above
/// theirs, so were their sum above the limit. Rounded sums don't spoil that, because adding
/// in one order never falls when a part grows: it is enough that the sum of the numbers
/// just above the t is beyond the limit, which is tested here.
///
/// The excess is shared out evenly, as far as loads go, so that each case is about as
/// narrow as the others. A run that comes down to nothing is not there at all, or slack.
pub(super) fn split(parts: &[Part], limit_n: f64) -> Vec<(usize, f64)> {
    let excess_n = sum_n(parts.iter().map(|part| part.load_n)) - limit_n;
    let giving = |part: &&Part| part.yields.is_some() && part.load_n > 0.0;
    let mut by_load: Vec<f64> = parts
        .iter()
        .filter(giving)
        .map(|part| part.load_n)
        .collect();
    by_load.sort_by(f64::total_cmp);
    let each_n = even_share(&by_load, excess_n);
    let top = |load_n: f64| load_n.next_down();
    let aimed = |load_n: f64| (load_n - each_n).max(0.0).min(top(load_n));
    let nudged = |load_n: f64| (aimed(load_n) + limit_n * tolerance::LOAD_SUM).min(top(load_n));
    let holds = |most: &dyn Fn(f64) -> f64| {
        let just_above = |part: &Part| {
            if giving(&part) {
                most(part.load_n).next_up()
            } else {
                part.load_n
            }
        };
        sum_n(parts.iter().map(just_above)) > limit_n
    };
    let most: &dyn Fn(f64) -> f64 = if holds(&aimed) {
        &aimed
    } else if holds(&nudged) {
        &nudged
    } else {
        // Just above this are the loads themselves, whose sum is beyond the limit.
        &top
    };
    parts
        .iter()
        .filter(giving)
        .filter_map(|part| Some((part.yields?, most(part.load_n))))
        .collect()
}

/// What each of the ascending loads gives, where the lesser give all they have, so that
/// together they give `excess_n`.
fn even_share(ascending: &[f64], excess_n: f64) -> f64 {
    let mut open_n = excess_n;
    for (done, &load_n) in ascending.iter().enumerate() {
        #[expect(clippy::cast_precision_loss, reason = "runs at one place are few")]
        let each_n = open_n / (ascending.len() - done) as f64;
        if each_n <= load_n {
            return each_n;
        }
        open_n -= load_n;
    }
    f64::INFINITY
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parts(loads_n: &[f64], kept_n: f64) -> Vec<Part> {
        let kept = Part {
            load_n: kept_n,
            yields: None,
        };
        let giving = loads_n.iter().enumerate().map(|(which, &load_n)| Part {
            load_n,
            yields: Some(which),
        });
        giving.chain((kept_n > 0.0).then_some(kept)).collect()
    }

    fn most(loads_n: &[f64], kept_n: f64, limit_n: f64) -> Vec<f64> {
        let cases = split(&parts(loads_n, kept_n), limit_n);
        cases.into_iter().map(|(_, most_n)| most_n).collect()
    }

    /// To rounding: a share may have to be a hair above the even one.
    fn check(loads_n: &[f64], kept_n: f64, limit_n: f64, expected: &[f64]) {
        let found = most(loads_n, kept_n, limit_n);
        let is_near = |(found, expected): (&f64, &f64)| (found - expected).abs() < 1e-9;
        let all_near = found.iter().zip(expected).all(is_near);
        assert!(found.len() == expected.len() && all_near, "{found:?}");
    }

    #[test]
    fn the_excess_is_shared_out_evenly() {
        check(&[300.0, 300.0], 0.0, 450.0, &[225.0, 225.0]);
        check(&[400.0, 100.0], 0.0, 450.0, &[375.0, 75.0]);
        check(&[400.0, 50.0], 0.0, 200.0, &[200.0, 0.0]);
        check(&[300.0], 200.0, 400.0, &[200.0]);
    }

    #[test]
    fn where_kept_hangers_take_all_the_others_go() {
        check(&[300.0, 20.0], 500.0, 400.0, &[0.0, 0.0]);
    }

    /// Whatever the loads, each case excludes them, and no allowed loads are outside all
    /// cases, however rounding falls.
    #[test]
    fn every_case_is_narrower_and_none_is_missing() {
        let mut random = fastrand::Rng::with_seed(41);
        for round in 0..20_000 {
            let n = random.usize(1..5);
            let loads_n: Vec<f64> = (0..n).map(|_| random.f64() * 500.0).collect();
            let kept_n = [0.0, random.f64() * 300.0][round % 2];
            let whole = parts(&loads_n, kept_n);
            let sum = sum_n(whole.iter().map(|part| part.load_n));
            // Often beyond by a rounding only.
            let limit_n = match round % 3 {
                0 => sum.next_down(),
                1 => sum * (1.0 - 1e-12),
                _ => sum * random.f64(),
            };
            let cases = split(&whole, limit_n);
            assert_eq!(cases.len(), n);
            let mut above = whole.clone();
            for (part, &(which, most_n)) in above.iter_mut().zip(&cases) {
                assert!(0.0 <= most_n && most_n < loads_n[which]);
                part.load_n = most_n.next_up();
            }
            assert!(sum_n(above.iter().map(|part| part.load_n)) > limit_n);
        }
    }
}
