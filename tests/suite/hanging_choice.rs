//! The choice of hangers equals the best of all sets.

use rafterglow::hanging::{Kind, MOST_SETS, Status, candidates, hang};

use super::hanging_instances::small;
use super::hanging_oracle::{exhaustive, nm, spots};

/// Sets that are listed at most for one instance; with more, another is drawn.
const MOST_LISTED: usize = 30_000;

/// All of them with RAFTERGLOW_FULL set, a few in the ordinary run.
fn instances() -> usize {
    if std::env::var_os("RAFTERGLOW_FULL").is_some() {
        2_000
    } else {
        100
    }
}

#[test]
fn candidates_are_those_of_the_definition() {
    let mut random = fastrand::Rng::with_seed(1);
    let mut kinds = [0; 4];
    for _ in 0..instances() {
        let instance = small(&mut random);
        let case = instance.case();
        let ours = candidates(&case);
        let expected = spots(&case);
        assert_eq!(ours.len(), expected.len());
        for (ours, expected) in ours.iter().zip(&expected) {
            assert_eq!(nm(ours.station_m), expected.station_nm);
            assert_eq!(ours.kind, expected.kind);
            assert!(
                ours.members()
                    .eq(expected.members.iter().map(String::as_str))
            );
            assert!((ours.suspension_m - expected.suspension_m).abs() < 1e-9);
            assert!((ours.lean_rad - expected.lean_rad).abs() < 1e-9);
            kinds[ours.kind as usize] += 1;
        }
    }
    assert!(kinds.iter().all(|&of_kind| of_kind > 50), "{kinds:?}");
}

#[test]
fn choice_is_the_best_of_all_sets() {
    let mut random = fastrand::Rng::with_seed(4);
    let wanted = instances();
    let (mut hung, mut greedy_worse, mut by_loads, mut channels) = (0, 0, 0, 0);
    let mut judged = 0;
    let mut passed_over = 0;

    while judged < wanted {
        let instance = small(&mut random);
        let case = instance.case();
        let Some(verdict) = exhaustive(&case, MOST_LISTED) else {
            continue;
        };
        judged += 1;

        let ours = hang(&case);
        if verdict.tried > MOST_SETS && ours.status == Status::Unproven {
            continue;
        }
        let expected = match verdict.best {
            Some(_) => Status::Solved,
            None => Status::Impossible,
        };
        assert_eq!(ours.status, expected, "{instance:?}");
        // Sets that are sure to fail aren't tried; none else is left out.
        assert!(ours.sets_tried <= verdict.tried);
        passed_over += verdict.tried - ours.sets_tried;
        assert_eq!(ours.cost, verdict.cost, "{instance:?}");
        let gap_m = ours
            .hangers
            .windows(2)
            .map(|pair| pair[1].at.station_m - pair[0].at.station_m)
            .fold(0.0, f64::max);
        assert_eq!(nm(gap_m), verdict.gap_nm.unwrap_or(0), "{instance:?}");
        hung += usize::from(verdict.best.is_some());
        greedy_worse += usize::from(verdict.greedy_is_worse);
        by_loads +=
            usize::from(verdict.tried > 1 || (verdict.tried == 1 && verdict.best.is_none()));
        let best = verdict.best.unwrap_or_default();
        assert_eq!(ours.hangers.len(), best.len(), "{instance:?}");
        for (ours, best) in ours.hangers.iter().zip(&best) {
            assert_eq!(nm(ours.at.station_m), best.station_nm);
            assert!(
                ours.at
                    .members()
                    .eq(best.members.iter().map(String::as_str))
            );
            channels += usize::from(best.kind == Kind::Channel);
        }
    }
    assert!(
        passed_over > 100 * wanted / 10,
        "only {passed_over} were passed over"
    );
    let share = |count: usize| count * 100 / wanted;
    let shares = (share(hung), share(greedy_worse), share(by_loads));
    assert!(
        shares.0 >= 40 && shares.1 >= 30 && shares.2 >= 20,
        "{shares:?}"
    );
    assert!(
        channels * 10 >= wanted,
        "only {channels} channels were chosen"
    );
}
