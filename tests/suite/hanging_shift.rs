//! The search for a better place, against trying every place.

use fastrand::Rng;
use rafterglow::geometry::DVec2;
use rafterglow::hanging::{
    Aim, Area, Case, FoundPlace, Order, Outcome, SETS_PER_PLACE, Seek, Shift, Status, Turn, hang,
};

use super::hanging_instances::{Instance, family_weight, small};

/// Random runs: more of them with RAFTERGLOW_FULL set.
fn n_runs() -> usize {
    if std::env::var_os("RAFTERGLOW_FULL").is_some() {
        1_500
    } else {
        60
    }
}

fn area(random: &mut Rng, heading: DVec2) -> Area {
    // Long one way, so that large rectangles are bounded too, or a few steps both ways.
    let (along, across) = [(40, 1), (1, 40), (6, 4), (20, 2)][random.usize(0..4)];
    let turns = [2.0_f64, -2.0, 0.5, -0.5]
        .into_iter()
        .map(|clockwise_deg| Turn {
            clockwise_deg,
            heading: DVec2::from_angle(-clockwise_deg.to_radians()).rotate(heading),
        })
        .collect();
    Area {
        along,
        across,
        turns,
    }
}

fn outcome_at(instance: &Instance, area: &Area, shift: Shift) -> Outcome {
    let run = area.run_at(&instance.run, shift);
    Outcome::of_case(&Case {
        run: &run,
        ..instance.case()
    })
}

/// Every place with what it comes to.
fn everywhere(instance: &Instance, area: &Area) -> Vec<FoundPlace> {
    let mut shifts: Vec<Shift> = (1..=area.turns.len())
        .map(|turn| Shift {
            along: 0,
            across: 0,
            turn,
        })
        .collect();
    for along in -area.along..=area.along {
        for across in -area.across..=area.across {
            shifts.push(Shift {
                along,
                across,
                turn: 0,
            });
        }
    }
    shifts
        .into_iter()
        .map(|shift| FoundPlace {
            shift,
            outcome: outcome_at(instance, area, shift),
        })
        .collect()
}

/// Turned or not, how far (for trims by the angle), along before across before both.
fn distance(area: &Area, shift: Shift) -> (bool, i64, u8) {
    let (along, across) = (i64::from(shift.along), i64::from(shift.across));
    let turned = area.turn(shift.turn);
    #[expect(clippy::cast_possible_truncation, reason = "a few degrees")]
    let thousandths = turned.map_or(0, |turn| (turn.clockwise_deg.abs() * 1e3) as i64);
    let ways = match (along, across) {
        (_, 0) => 0,
        (0, _) => 1,
        _ => 2,
    };
    let size = along * along + across * across + thousandths;
    (turned.is_some(), size, ways)
}

type Rank = (u64, (bool, i64, u8), u64, i64);

fn rank(area: &Area, order: Order, place: &FoundPlace) -> Rank {
    let cost = place.outcome.cost.unwrap_or(u64::MAX);
    let distance = distance(area, place.shift);
    let gap_nm = place.outcome.greatest_gap_nm;
    match order {
        Order::Nearest => (0, distance, cost, gap_nm),
        Order::Cheapest => (cost, distance, 0, gap_nm),
    }
}

#[test]
fn places_come_as_if_every_one_had_been_tried() {
    let mut random = Rng::with_seed(61);
    let (mut found_some, mut left_out, mut cut_short, mut n_checked) = (0, 0, 0, 0);
    for _ in 0..n_runs() {
        let mut instance = small(&mut random);
        // Mostly light, so that loads seldom forbid thousands of sets at every place.
        if random.u8(0..5) > 0 {
            instance.weight = family_weight(12.0);
            instance.weight.spread_kg_per_m = 3.0;
        }
        let area = area(&mut random, instance.run.heading);
        let all = everywhere(&instance, &area);
        let now = Outcome::of_case(&instance.case()).cost;
        for (order, below) in [
            (Order::Nearest, now.unwrap_or(u64::MAX)),
            (Order::Cheapest, now.unwrap_or(u64::MAX)),
            (Order::Nearest, u64::MAX),
        ] {
            let mut expected: Vec<&FoundPlace> = all
                .iter()
                .filter(|place| place.outcome.cost.is_some_and(|cost| cost < below))
                .collect();
            expected.sort_by_key(|place| rank(&area, order, place));
            let mut seek = Seek::new(instance.case(), &area, Aim { below, order });
            // The first few, then, of some, all of them.
            let wanted = if random.u8(0..8) == 0 { usize::MAX } else { 3 };
            for place in expected.iter().take(wanted) {
                let Some(next) = seek.next_place() else {
                    assert!(!seek.has_looked_everywhere());
                    break;
                };
                assert_eq!(rank(&area, order, &next), rank(&area, order, place));
                assert_eq!(next.outcome, outcome_at(&instance, &area, next.shift));
                n_checked += 1;
            }
            if wanted >= expected.len() {
                assert_eq!(seek.next_place(), None);
            }
            // Where loads forbid thousands of sets at each place, the search ends early.
            let has_ended = wanted >= expected.len() && !seek.has_looked_everywhere();
            cut_short += usize::from(has_ended);
            found_some += usize::from(!expected.is_empty());
            left_out += usize::from(seek.counts().0 * 2 < all.len());
        }
    }
    // Neither all hopeless nor all tried.
    assert!(found_some > n_runs() / 2, "{found_some}");
    assert!(left_out > n_runs() / 2, "{left_out}");
    // Of three searches a run.
    assert!(cut_short * 20 < 3 * n_runs(), "{cut_short}");
    assert!(n_checked > n_runs(), "{n_checked}");
}

#[test]
fn an_outcome_is_what_hanging_comes_to() {
    let mut random = Rng::with_seed(62);
    let mut n_equal = 0;
    for _ in 0..n_runs() {
        let instance = small(&mut random);
        let hanging = hang(&instance.case());
        let outcome = Outcome::of_case(&instance.case());
        if hanging.sets_tried > SETS_PER_PLACE || outcome.status == Status::Unproven {
            continue;
        }
        assert_eq!(outcome, Outcome::of_hanging(&hanging));
        assert_eq!(outcome.cost, hanging.cost);
        assert_eq!(outcome.n_hangers, hanging.hangers.len());
        n_equal += 1;
    }
    assert!(n_equal * 5 > n_runs() * 4, "{n_equal}");
}

#[test]
fn a_turn_is_about_the_middle_and_keeps_the_burner_s_height() {
    let instance = Instance::bare(8.0);
    let area = Area {
        along: 5,
        across: 5,
        turns: vec![Turn {
            clockwise_deg: 90.0,
            heading: DVec2::NEG_Y,
        }],
    };
    let shift = Shift {
        along: 0,
        across: 0,
        turn: 1,
    };
    let run = area.run_at(&instance.run, shift);
    assert!((run.flange.truncate() - DVec2::new(4.0, 4.0)).length() < 1e-12);
    assert_eq!(run.flange.z, instance.run.flange.z);
    let moved = area.run_at(
        &instance.run,
        Shift {
            along: 3,
            across: -2,
            turn: 0,
        },
    );
    assert_eq!(moved.flange.truncate(), DVec2::new(0.03, -0.02));
}
