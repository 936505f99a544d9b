//! Runs made by hand, each for one thing that the engine has to say.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
#![expect(
    clippy::disallowed_methods,
    reason = "an expected value of its own; nothing depends on its last digit"
)]

use std::sync::Arc;

use rafterglow::geometry::DVec2;
use rafterglow::hanging::{
    Bound, Capacity, HangPoints, Kind, Limit, LockedHanger, Loss, MOST_SETS, Place, SpanInSpace,
    Status, candidates, check_locked, hang, total,
};

use super::hanging_instances::{Instance, family_weight};

/// A beam across the run at a station, each of a framing of its own, so that no
/// channel fits between two.
fn beam(which: usize, station_m: f64) -> SpanInSpace {
    SpanInSpace {
        id: Arc::from(format!("B-{which}")),
        framing: which,
        row: 0,
        start: DVec2::new(station_m, -5.0),
        direction: DVec2::Y,
        usable_m: (0.0, 10.0),
        attach_m: vec![(0.0, 6.0), (10.0, 6.0)],
        hang_points: HangPoints::Anywhere {
            allowed: Capacity::Unknown,
            in_all: None,
        },
    }
}

/// A joist across the run with one panel point, `aside_m` left of the run.
fn joist(which: usize, station_m: f64, aside_m: f64) -> SpanInSpace {
    SpanInSpace {
        hang_points: HangPoints::Panels {
            points_m: vec![5.0 + aside_m],
            allowed: Capacity::Known(900.0),
            off_panel: None,
            in_all: None,
        },
        ..beam(which, station_m)
    }
}

/// A run of 8 m, burner to the east, under the given spans.
fn under(spans: impl IntoIterator<Item = SpanInSpace>) -> Instance {
    let mut instance = Instance::bare(8.0);
    instance.spans = spans.into_iter().map(Arc::new).collect();
    instance
}

fn beams(stations_m: &[f64]) -> Vec<SpanInSpace> {
    stations_m
        .iter()
        .enumerate()
        .map(|(which, &station_m)| beam(which, station_m))
        .collect()
}

/// Stations that obey the family's rule for 8 m of tube.
const GOOD: [f64; 5] = [0.3, 2.0, 4.0, 5.8, 7.4];

fn check_obstacle(instance: &Instance, helps: &[Limit], stretch_m: (f64, f64)) {
    let hanging = hang(&instance.case());
    assert_eq!(hanging.status, Status::Impossible);
    let obstacle = hanging.obstacle.unwrap();
    assert_eq!(obstacle.helps, helps);
    let (from_m, to_m) = obstacle.longest_stretch_m;
    assert!((from_m - stretch_m.0).abs() < 1e-9, "{from_m}");
    assert!((to_m - stretch_m.1).abs() < 1e-9, "{to_m}");
}

#[test]
fn every_beam_is_used_where_none_can_be_spared() {
    let instance = under(beams(&GOOD));
    let hanging = hang(&instance.case());
    assert_eq!(hanging.status, Status::Solved);
    let stations: Vec<f64> = hanging.hangers.iter().map(|it| it.at.station_m).collect();
    assert_eq!(stations, GOOD);
    assert_eq!(hanging.cost, Some(5_000));
}

#[test]
fn an_obstacle_names_each_limit_that_would_help() {
    let one = |stations_m: &[f64]| under(beams(stations_m));
    check_obstacle(
        &one(&[0.8, 2.4, 4.4, 6.7]),
        &[Limit::FirstHanger],
        (4.4, 6.7),
    );
    check_obstacle(
        &one(&[0.3, 2.8, 4.4, 6.7]),
        &[Limit::SecondHanger],
        (0.3, 2.8),
    );
    check_obstacle(
        &one(&[0.3, 2.0, 5.1, 7.1]),
        // Without a window for the second hanger, the one at 2.0 isn't needed.
        &[Limit::SecondHanger, Limit::GreatestSpacing],
        (2.0, 5.1),
    );
    check_obstacle(
        &one(&[0.3, 2.4, 3.2, 5.9, 7.0]),
        &[
            Limit::SecondHanger,
            Limit::LeastSpacing,
            Limit::GreatestSpacing,
        ],
        (3.2, 5.9),
    );
    check_obstacle(
        &one(&[0.3, 2.0, 4.0, 6.2]),
        &[Limit::EndOverhang],
        (4.0, 6.2),
    );
    check_obstacle(
        &one(&[0.3, 2.0, 4.4, 6.05, 8.0]),
        &[
            Limit::SecondHanger,
            Limit::GreatestSpacing,
            Limit::EndOverhang,
            Limit::Joint,
        ],
        (4.4, 8.0),
    );
    check_obstacle(&one(&[]), &[], (0.0, 8.0));
}

#[test]
fn an_obstacle_names_suspension_lean_and_load() {
    let mut spans = beams(&GOOD);
    spans[2].attach_m = vec![(0.0, 5.3), (10.0, 5.3)];
    let helps = [
        Limit::SecondHanger,
        Limit::GreatestSpacing,
        Limit::Suspension,
    ];
    check_obstacle(&under(spans), &helps, (2.0, 5.8));

    let mut spans = beams(&GOOD);
    spans[2] = joist(2, 4.0, 0.2);
    let helps = [Limit::SecondHanger, Limit::GreatestSpacing, Limit::Lean];
    check_obstacle(&under(spans), &helps, (2.0, 5.8));

    let mut spans = beams(&GOOD);
    spans[0].hang_points = HangPoints::Anywhere {
        allowed: Capacity::Known(100.0),
        in_all: None,
    };
    let instance = under(spans);
    let obstacle = hang(&instance.case()).obstacle.unwrap();
    // Without a window for the first hanger, the weak beam isn't needed.
    assert_eq!(obstacle.helps, [Limit::FirstHanger, Limit::Load]);
    let [overload] = &obstacle.overloads[..] else {
        panic!("{:?}", obstacle.overloads);
    };
    assert_eq!(
        (overload.limit, &overload.hangers[..]),
        (Limit::Load, &[0][..])
    );
    assert_eq!(&*overload.place.as_ref().unwrap().member, "B-0");
    assert_eq!(
        (overload.required, overload.bound),
        (100.0, Bound::Greatest)
    );
    assert!(overload.measured > 300.0);
}

/// codes.json `hang.sji`: 125 lb is too much between panel points where 100 lb is
/// allowed in one chord panel, and all right at a panel point that carries it.
#[test]
fn a_load_between_panel_points_is_judged_by_its_chord_panel() {
    const POUND_N: f64 = 4.448_221_615_260_5;
    let joist_with = |which: usize, station_m: f64, aside_m: f64| SpanInSpace {
        hang_points: HangPoints::Panels {
            points_m: vec![3.0 + aside_m, 5.0 + aside_m],
            allowed: Capacity::Known(200.0 * POUND_N),
            off_panel: Some(Capacity::Known(100.0 * POUND_N)),
            in_all: None,
        },
        ..beam(which, station_m)
    };
    // The first hanger may be off a panel point at 0.30, or, dearer here, at one at 0.35.
    let mut spans = beams(&GOOD);
    spans[0] = joist_with(0, 0.30, 0.7);
    spans.push(joist_with(9, 0.35, 0.0));
    let mut instance = under(spans);
    instance.costs.off_panel = 500;
    let mut first_with = |burner_kg: f64| {
        instance.weight = family_weight(burner_kg);
        let first = hang(&instance.case()).hangers.swap_remove(0);
        (first.at.kind, first.load.load_n / POUND_N)
    };
    let mut mass_for = |wanted_lb: f64| {
        let (mut light, mut heavy) = (0.0, 100.0);
        for _ in 0..60 {
            let middle = (light + heavy) / 2.0;
            if first_with(middle).1 < wanted_lb {
                light = middle;
            } else {
                heavy = middle;
            }
        }
        heavy
    };
    let (just_below, above) = (mass_for(99.9), mass_for(125.0));
    assert_eq!(first_with(just_below).0, Kind::OffPanel);
    let (kind, load_lb) = first_with(above);
    assert_eq!(kind, Kind::Panel);
    assert!((load_lb - 125.0).abs() < 1e-6, "{load_lb}");
}

/// codes.json `hang.slope`: a level tube with its hanging points at 5.2 m under a roof
/// of 1 in 12 with 0.2 m of structure.
#[test]
fn suspensions_follow_the_roof() {
    let mut spans = beams(&[1.5, 4.5, 7.5, 10.5, 13.5]);
    for span in &mut spans {
        span.attach_m = vec![(0.0, 6.0 + span.start.x / 12.0 - 0.2)];
    }
    let mut instance = under(spans);
    instance.run.tube_length_m = 15.0;
    instance.run.flange.z = 5.2 - instance.run.eye_rise_m;
    let lengths: Vec<f64> = candidates(&instance.case())
        .iter()
        .map(|candidate| candidate.suspension_m)
        .collect();
    for (length, expected) in lengths.iter().zip([0.725, 0.975, 1.225, 1.475, 1.725]) {
        assert!((length - expected).abs() < 1e-9, "{lengths:?}");
    }
    assert_eq!(lengths.len(), 5);
}

fn kept(station_m: f64, member: &str) -> LockedHanger {
    LockedHanger {
        station_m,
        members: vec![Arc::from(member)],
        at: None,
    }
}

fn kept_beams(stations_m: &[f64]) -> Vec<LockedHanger> {
    stations_m
        .iter()
        .enumerate()
        .map(|(which, &station_m)| kept(station_m, &format!("B-{which}")))
        .collect()
}

#[test]
fn kept_hangers_tell_each_limit_that_they_break() {
    let stations = [0.7, 3.1, 3.6, 6.5];
    let instance = under(beams(&stations));
    let hanging = check_locked(&instance.case(), &kept_beams(&stations));
    assert_eq!(hanging.status, Status::Locked);
    let broken: Vec<(Limit, Vec<usize>, f64, f64)> = hanging
        .breaches
        .iter()
        .map(|it| (it.limit, it.hangers.clone(), it.measured, it.required))
        .collect();
    let expected = [
        (Limit::FirstHanger, vec![0], 0.7, 0.6),
        (Limit::SecondHanger, vec![0, 1], 2.4, 2.2),
        (Limit::LeastSpacing, vec![1, 2], 0.5, 0.9),
        (Limit::GreatestSpacing, vec![2, 3], 2.9, 2.8),
        (Limit::EndOverhang, vec![3], 1.5, 1.35),
    ];
    for (broken, expected) in broken.iter().zip(&expected) {
        assert_eq!((broken.0, &broken.1), (expected.0, &expected.1));
        assert!((broken.2 - expected.2).abs() < 1e-9 && broken.3 == expected.3);
    }
    assert_eq!(broken.len(), expected.len(), "{broken:?}");
}

#[test]
fn kept_hangers_tell_joint_suspension_lean_and_load() {
    let stations = [0.3, 2.0, 3.05, 5.8, 7.4];
    let mut spans = beams(&stations);
    spans[1].attach_m = vec![(0.0, 5.2)];
    spans[3] = joist(3, 5.8, 0.4);
    spans[0].hang_points = HangPoints::Anywhere {
        allowed: Capacity::Known(200.0),
        in_all: Some(Capacity::Unknown),
    };
    let instance = under(spans);
    let mut locked = kept_beams(&stations);
    locked[3].members = vec![Arc::from("B-3")];
    let hanging = check_locked(&instance.case(), &locked);
    let limits: Vec<(Limit, usize)> = hanging
        .breaches
        .iter()
        .map(|it| (it.limit, it.hangers[0]))
        .collect();
    let expected = [
        (Limit::Suspension, 1),
        (Limit::Joint, 2),
        (Limit::Lean, 3),
        (Limit::Load, 0),
    ];
    assert_eq!(limits, expected);
    let leaning = &hanging.hangers[3];
    assert_eq!(leaning.at.kind, Kind::Panel);
    assert!((leaning.at.lean_rad - (0.4_f64 / 0.9).atan()).abs() < 1e-9);
    let cosine = leaning.at.lean_rad.cos();
    assert!((leaning.suspensions[0].pull_n * cosine - leaning.load.load_n).abs() < 1e-9);
    assert_eq!(hanging.hangers[0].load.allowed, Capacity::Unknown);
}

#[test]
fn kept_hangers_that_lost_their_hold_carry_nothing() {
    let mut spans = beams(&GOOD);
    spans[1].attach_m = vec![(0.0, 4.0)];
    let instance = under(spans);
    let mut locked = kept_beams(&GOOD);
    locked[2].members = vec![Arc::from("gone")];
    locked[3].members = vec![Arc::from("B-3"), Arc::from("B-4")];
    locked.push(kept(8.5, "B-4"));
    let hanging = check_locked(&instance.case(), &locked);
    let lost: Vec<Loss> = hanging.lost.iter().map(|lost| lost.why).collect();
    let expected = [
        Loss::NotAbove,
        Loss::NoSuchMember,
        Loss::NoHold,
        Loss::OffTube,
    ];
    assert_eq!(lost, expected);
    assert_eq!(hanging.hangers.len(), 2);
    // Nothing left at all: only the overhang, and no division by nothing.
    let none = check_locked(&instance.case(), &[]);
    assert_eq!(none.breaches.len(), 1);
    assert_eq!(none.breaches[0].limit, Limit::EndOverhang);
    assert_eq!((none.breaches[0].measured, none.cost), (8.0, None));
}

/// One hanger under the middle of the tube balances it; one at its end does not.
#[test]
fn a_kept_run_that_tips_says_so() {
    let mut instance = under(beams(&[2.0]));
    let hanging = check_locked(&instance.case(), &kept_beams(&[2.0]));
    let tips = hanging
        .breaches
        .iter()
        .find(|breach| breach.limit == Limit::Balance)
        .unwrap();
    assert_eq!((tips.required, tips.bound), (2.0, Bound::Greatest));
    instance.weight = family_weight(0.0);
    let middle = under(beams(&[4.0]));
    instance.spans = middle.spans;
    let hanging = check_locked(&instance.case(), &kept_beams(&[4.0]));
    assert!(hanging.breaches.iter().all(|it| it.limit != Limit::Balance));
    assert!(hanging.hangers[0].load.load_n > 400.0);
}

#[test]
fn a_moved_joist_leaves_its_hanger_swung() {
    let mut instance = under(beams(&GOOD));
    let still = check_locked(&instance.case(), &kept_beams(&GOOD));
    Arc::make_mut(&mut instance.spans[2]).start.x += 0.04;
    let moved = check_locked(&instance.case(), &kept_beams(&GOOD));
    assert_eq!(still.hangers[2].at.ahead_m, 0.0);
    assert!((moved.hangers[2].at.ahead_m - 0.04).abs() < 1e-12);
    // The tube grows towards the moved beam, so that the suspension swings less.
    let growth_m = moved.hangers[2].movement_m;
    assert!(growth_m > 0.0);
    let expected = ((growth_m - 0.04).abs() / moved.hangers[2].at.suspension_m).atan();
    assert!((moved.hangers[2].swing_rad - expected).abs() < 1e-12);
}

#[test]
fn growth_starts_from_the_fixed_hanger() {
    let instance = under(beams(&GOOD));
    let mut case = instance.case();
    for (number, fixed_m) in [(1, 0.3), (3, 4.0), (9, 7.4)] {
        case.fixed_hanger = number;
        let hanging = hang(&case);
        assert_eq!(hanging.growth.fixed_station_m, fixed_m);
        let per_m = hanging.growth.total_m / 8.0;
        for hanger in &hanging.hangers {
            let expected = per_m * (hanger.at.station_m - fixed_m);
            assert!((hanger.movement_m - expected).abs() < 1e-12);
        }
        assert!((hanging.growth.exhaust_end_m - per_m * (8.0 - fixed_m)).abs() < 1e-12);
    }
}

#[test]
fn loads_of_several_runs_add_up_by_place() {
    let mut spans = beams(&GOOD);
    spans[2] = joist(2, 4.0, 0.0);
    let instance = under(spans);
    let one = hang(&instance.case());
    let places = total([&one, &one, &one]);
    assert_eq!(places.len(), 5);
    for (place, load) in &places {
        let single = one
            .hangers
            .iter()
            .flat_map(|hanger| &hanger.load.holds)
            .find(|hold| hold.place == *place)
            .unwrap();
        assert!((load.sum_n - 3.0 * single.load_n).abs() < 1e-9);
        assert_eq!(load.parts.len(), 3);
        assert_eq!(load.parts[2].run, 2);
        let is_joist = place.place == Place::PanelPoint(1);
        assert_eq!(load.allowed, is_joist.then_some(Capacity::Known(900.0)));
        assert!(load.passes());
    }
}

/// Beams at even steps, in framings of their own, that bear what is told.
fn thicket(step_m: f64, allowed: impl Fn(usize) -> f64) -> Instance {
    let stations: Vec<f64> = (1..200)
        .map(|n| step_m * f64::from(n))
        .take_while(|&station_m| station_m < 8.0)
        .collect();
    let mut spans = beams(&stations);
    for (which, span) in spans.iter_mut().enumerate() {
        span.hang_points = HangPoints::Anywhere {
            allowed: Capacity::Known(allowed(which)),
            in_all: None,
        };
    }
    under(spans)
}

/// Where too many sets would have to be tried, the answer says so: without hangers, or
/// with ones that bear their loads but needn't be the cheapest.
#[test]
fn too_many_sets_are_not_tried_to_the_end() {
    // The first hanger can be borne; a further one hardly, and never all of them.
    let hopeless = thicket(0.06, |which| if which < 12 { 900.0 } else { 40.0 });
    let hanging = hang(&hopeless.case());
    assert_eq!(hanging.status, Status::Unproven);
    assert!(hanging.hangers.is_empty() && hanging.cost.is_none());
    assert_eq!(hanging.sets_tried, MOST_SETS);
    let obstacle = hanging.obstacle.unwrap();
    assert!(obstacle.helps.contains(&Limit::Load));
    assert!(!obstacle.overloads.is_empty());

    // A strong beam now and then: few of the cheapest sets are made of them alone.
    let strong = |which: usize| which < 12 || which % 17 == 3;
    let scattered = thicket(0.06, |which| if strong(which) { 900.0 } else { 40.0 });
    let hanging = hang(&scattered.case());
    assert_eq!(hanging.status, Status::Unproven);
    assert!(hanging.breaches.is_empty() && hanging.hangers.len() >= 4);
    assert_eq!(hanging.obstacle, None);
}

/// A burner that no first hanger can bear is known at once, however many sets there are.
#[test]
fn a_burner_too_heavy_for_every_first_hanger_is_proven_at_once() {
    let instance = thicket(0.2, |which| if which < 3 { 200.0 } else { 900.0 });
    let hanging = hang(&instance.case());
    assert_eq!(hanging.status, Status::Impossible);
    assert_eq!(hanging.sets_tried, 0);
    let obstacle = hanging.obstacle.unwrap();
    assert!(obstacle.helps.contains(&Limit::Load));
    assert_eq!(obstacle.overloads[0].hangers, [0]);
}
