//! How fast is hanging? Medians of plain time, on the machine that it is run on; the
//! ratios travel, the absolute figures don't.
//!
//! - the choice alone, 21 m of tube and 75 candidates, against a plain quadratic
//!   dynamic program and against listing every set (checked to agree);
//! - candidates, choice and loads of 200 runs under joists;
//! - 400 trial positions of one run, against all candidates and a quadratic program;
//! - the search for the nearest and the cheapest better place among 90,601, against
//!   trying every place;
//! - the shift of a whole site;
//! - a run whose loads forbid every set.

#![expect(clippy::print_stdout, reason = "a bench reports on standard output")]

use std::hint::black_box;
use std::sync::Arc;
use std::time::{Duration, Instant};

use rafterglow::findings::judge;
use rafterglow::geometry::{DVec2, DVec3};
use rafterglow::hanging::{
    Aim, Area, Capacity, Case, ChannelStock, Choice, Eyes, HangPoints, HangingRule, KindCosts,
    Order, Outcome, PointMass, RunGeometry, RunWeight, Rung, Seek, Shift, SpanInSpace, Status,
    TemperatureRise, Window, candidates, hang,
};

use rafterglow::remedies::Base;
use rafterglow::remedies::hanging::site_suggestion;
use rafterglow::store;
use rafterglow::study::study;

#[path = "../tests/suite/made.rs"]
mod made;

const TUBE_M: f64 = 21.0;
/// A tube whose sets can be listed, with as many candidates to a metre.
const SHORT_M: f64 = 11.2;

fn main() {
    choice_alone();
    many_runs();
    shift_search();
    site_shift();
    loads_forbid_all();
}

/// Least cost and greatest gap (nm) of the best set.
type Best = Option<(u64, i64)>;

fn choice_alone() {
    let rule = rule();
    let mut random = fastrand::Rng::with_seed(11);
    let first = |rungs: &[Rung], tube_m: f64| -> Best {
        let mut choice = Choice::new(&rule, tube_m, rungs.to_vec());
        let set = choice.next_set()?;
        Some((set.cost, set.greatest_gap_nm))
    };
    let long: Vec<Vec<Rung>> = (0..1_000).map(|_| rungs(&mut random, 75, TUBE_M)).collect();
    let hung = long.iter().filter(|it| first(it, TUBE_M).is_some()).count();
    println!("choice alone, 75 candidates, 21 m, mean of 1,000 instances ({hung} can be hung)");
    let ours = sum_of_medians(&long, |rungs| black_box(first(rungs, TUBE_M))) / 1_000;
    let other = sum_of_medians(&long, |it| black_box(quadratic(it, &rule, TUBE_M))) / 1_000;
    println!(
        "  ours {ours:?}; quadratic program {other:?}, {:.1} times",
        ratio(other, ours)
    );
    for rungs in &long {
        assert_eq!(first(rungs, TUBE_M), quadratic(rungs, &rule, TUBE_M));
    }
    let short: Vec<Vec<Rung>> = (0..20).map(|_| rungs(&mut random, 40, SHORT_M)).collect();
    println!("choice alone, 40 candidates, {SHORT_M} m, mean of 20 instances");
    let ours = sum_of_medians(&short, |rungs| black_box(first(rungs, SHORT_M))) / 20;
    let other = sum_of_medians(&short, |it| black_box(listed(it, &rule, SHORT_M))) / 20;
    println!(
        "  ours {ours:?}; every set listed {other:?}, {:.0} times",
        ratio(other, ours)
    );
    for rungs in &short {
        assert_eq!(first(rungs, SHORT_M), listed(rungs, &rule, SHORT_M));
    }
}

fn ratio(other: Duration, ours: Duration) -> f64 {
    other.as_secs_f64() / ours.as_secs_f64()
}

/// Windows of the first, the second and further hangers, and where the last may be, nm.
fn limits(rule: &HangingRule, tube_m: f64) -> ([(i64, i64); 3], i64) {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "metres of a tube fit easily"
    )]
    let nm = |metres: f64| (metres * 1e9).round() as i64;
    let windows = [rule.first, rule.second, rule.spacing]
        .map(|window| (nm(window.least_m) - 1_000, nm(window.greatest_m) + 1_000));
    (windows, nm(tube_m) - nm(rule.greatest_overhang_m) - 1_000)
}

/// The best by looking from every rung at every other one.
fn quadratic(rungs: &[Rung], rule: &HangingRule, tube_m: f64) -> Best {
    let ([first, second, further], last_from) = limits(rule, tube_m);
    let mut rest: Vec<Best> = vec![None; rungs.len()];
    let mut best: Best = None;
    for i in (0..rungs.len()).rev() {
        let beyond = |window: (i64, i64), rest: &[Best]| {
            let mut least: Best = (rungs[i].station_nm >= last_from).then_some((0, 0));
            for (j, rung) in rungs.iter().enumerate() {
                let gap = rung.station_nm - rungs[i].station_nm;
                if window.0 <= gap
                    && gap <= window.1
                    && let Some((cost, widest)) = rest[j]
                {
                    let total = (cost + u64::from(rung.cost), widest.max(gap));
                    least = Some(least.map_or(total, |least| least.min(total)));
                }
            }
            least
        };
        if first.0 <= rungs[i].station_nm
            && rungs[i].station_nm <= first.1
            && let Some((cost, gap)) = beyond(second, &rest)
        {
            let total = (cost + u64::from(rungs[i].cost), gap);
            best = Some(best.map_or(total, |best| best.min(total)));
        }
        rest[i] = beyond(further, &rest);
    }
    best
}

/// The best by walking every set.
fn listed(rungs: &[Rung], rule: &HangingRule, tube_m: f64) -> Best {
    fn walk(
        rungs: &[Rung],
        (windows, last_from): &([(i64, i64); 3], i64),
        (at, nth): (usize, usize),
        so_far: (u64, i64),
        best: &mut Best,
    ) {
        if rungs[at].station_nm >= *last_from {
            *best = Some(best.map_or(so_far, |best| best.min(so_far)));
        }
        let window = windows[nth.min(2)];
        for (next, rung) in rungs.iter().enumerate().skip(at + 1) {
            let gap = rung.station_nm - rungs[at].station_nm;
            if gap > window.1 {
                break;
            }
            if gap >= window.0 {
                let total = (so_far.0 + u64::from(rung.cost), so_far.1.max(gap));
                walk(rungs, &(*windows, *last_from), (next, nth + 1), total, best);
            }
        }
    }
    let limits = limits(rule, tube_m);
    let first = limits.0[0];
    let mut best = None;
    for (at, rung) in rungs.iter().enumerate() {
        if first.0 <= rung.station_nm && rung.station_nm <= first.1 {
            walk(
                rungs,
                &limits,
                (at, 1),
                (u64::from(rung.cost), 0),
                &mut best,
            );
        }
    }
    best
}

fn rungs(random: &mut fastrand::Rng, count: usize, tube_m: f64) -> Vec<Rung> {
    let mut rungs: Vec<Rung> = (0..count)
        .map(|_| {
            let cost = [1_000, 1_000, 1_500, 4_000][random.usize(0..4)];
            Rung::new(tube_m * random.f64(), cost)
        })
        .collect();
    rungs.sort_by_key(|rung| rung.station_nm);
    rungs
}

fn many_runs() {
    let spans = joists(Capacity::Known(900.0), Some(Capacity::Known(445.0)));
    let (rule, weight) = (rule(), weight());
    let place = |n: u32| RunGeometry {
        flange: DVec3::new(
            5.0 + 0.37 * f64::from(n % 20),
            2.0 + 0.21 * f64::from(n / 20),
            5.5,
        ),
        heading: if n.is_multiple_of(3) {
            DVec2::Y
        } else {
            DVec2::X
        },
        slope: 0.004,
        tube_length_m: TUBE_M,
        eye_rise_m: 0.1,
        eyes: Eyes::One,
        rise: TemperatureRise::even(280.0),
    };
    let runs: Vec<RunGeometry> = (0..200).map(place).collect();
    let all = |runs: &[RunGeometry]| {
        let hung = |run: &RunGeometry| hang(&case(run, &rule, &weight, &spans));
        let solved = runs.iter().filter(|run| hung(run).status == Status::Solved);
        (
            sum_of_medians(runs, |run| black_box(hung(run))),
            solved.count(),
        )
    };
    let (taken, solved) = all(&runs);
    println!("candidates, choice and loads, 200 runs of 21 m: {taken:?} ({solved} solved)");
    let shifts: Vec<RunGeometry> = (0..400)
        .map(|n| {
            let mut run = place(1);
            run.flange += DVec3::new(0.01 * f64::from(n % 20), 0.01 * f64::from(n / 20), 0.0);
            run
        })
        .collect();
    let (taken, solved) = all(&shifts);
    println!("400 trial positions of one run, with loads: {taken:?} ({solved} solved)");
    let ours = sum_of_medians(&shifts, |run| {
        black_box(Outcome::of_case(&case(run, &rule, &weight, &spans)))
    });
    let plain = sum_of_medians(&shifts, |run| {
        let all = candidates(&case(run, &rule, &weight, &spans));
        let rungs: Vec<Rung> = all
            .iter()
            .filter(|it| it.refused.is_none())
            .map(|it| Rung::new(it.station_m, it.cost))
            .collect();
        black_box(quadratic(&rungs, &rule, TUBE_M))
    });
    println!(
        "  as the search tries them {ours:?}; all candidates and a quadratic program {plain:?}, {:.1} times",
        ratio(plain, ours)
    );
}

/// The nearest and the cheapest better place within 1.5 m either way, 90,601 places,
/// from wherever runs of a grid of places stand; against trying every place.
fn shift_search() {
    let spans = joists(Capacity::Known(900.0), Some(Capacity::Known(445.0)));
    let (rule, weight) = (rule(), weight());
    let starts: Vec<RunGeometry> = (0_u8..24)
        .map(|n| RunGeometry {
            flange: DVec3::new(
                5.0 + 0.23 * f64::from(n % 8),
                1.9 + 0.31 * f64::from(n / 8),
                5.5,
            ),
            heading: if n < 16 { DVec2::X } else { DVec2::Y },
            ..plain_run()
        })
        .collect();
    for (name, order, reach) in [
        ("nearest", Order::Nearest, 150),
        ("cheapest", Order::Cheapest, 150),
        ("nearest, 0.3 m", Order::Nearest, 30),
    ] {
        let area = Area {
            along: reach,
            across: reach,
            turns: Vec::new(),
        };
        let seek = |run: &RunGeometry| {
            let here = case(run, &rule, &weight, &spans);
            let below = Outcome::of_case(&here).cost.unwrap_or(u64::MAX);
            let mut seek = Seek::new(here, &area, Aim { below, order });
            let found = seek.next_place();
            (found, seek.counts(), seek.has_looked_everywhere())
        };
        let ours = sum_of_medians(&starts, |run| black_box(seek(run)));
        let worst = starts
            .iter()
            .map(|run| sum_of_medians(std::slice::from_ref(run), |run| black_box(seek(run))))
            .max()
            .unwrap_or_default();
        let all: Vec<_> = starts.iter().map(seek).collect();
        let found = all.iter().filter(|it| it.0.is_some()).count();
        let tried: usize = all.iter().map(|it| it.1.0).sum();
        let looked_at: usize = all.iter().map(|it| it.1.1).sum();
        println!(
            "shift search, {name}: mean {:?}, longest {worst:?} ({found} of {} found, {tried} places tried and {looked_at} looked at in all)",
            ours / 24,
            starts.len()
        );
        if reach == 30 {
            every_place(&starts, &area, ours, &rule, &weight, &spans);
        }
    }
}

/// The same by trying every place exactly.
fn every_place(
    starts: &[RunGeometry],
    area: &Area,
    ours: Duration,
    rule: &HangingRule,
    weight: &RunWeight,
    spans: &[Arc<SpanInSpace>],
) {
    let start = Instant::now();
    for run in starts {
        for along in -area.along..=area.along {
            for across in -area.across..=area.across {
                let shift = Shift {
                    along,
                    across,
                    turn: 0,
                };
                let there = area.run_at(run, shift);
                black_box(Outcome::of_case(&case(&there, rule, weight, spans)));
            }
        }
    }
    println!(
        "  trying each of its 3,721 places: {:?}, {:.0} times",
        start.elapsed() / 24,
        ratio(start.elapsed(), ours)
    );
}

fn loads_forbid_all() {
    let spans = joists(Capacity::Known(150.0), Some(Capacity::Known(150.0)));
    let (rule, weight) = (rule(), weight());
    let run = plain_run();
    let hanging = hang(&case(&run, &rule, &weight, &spans));
    let each = sum_of_medians(&[run], |run| {
        black_box(hang(&case(run, &rule, &weight, &spans)))
    });
    println!(
        "a run whose loads forbid every set: {each:?} ({:?}, {} sets tried)",
        hanging.status, hanging.sets_tried
    );
}

/// Shifts of a whole site of 20 runs that stand off their panel points, each proven by a
/// study of the site and its findings.
fn site_shift() {
    let mut site = made::shed(made::Shed {
        runs_along: 5,
        rows: 4,
        stacks_per_row: 20,
    });
    for run in &mut Arc::make_mut(&mut site.schemes[0]).runs {
        Arc::make_mut(run).burner += DVec2::new(0.2, 0.23);
    }
    let study = study(&Arc::new(site), &Arc::new(store::embedded_catalogue()));
    let findings = judge(&study.site, &study.catalogue, &study);
    let base = Base {
        study: &study,
        findings: &findings,
    };
    let start = Instant::now();
    let found = site_suggestion(&base, 0.3);
    println!(
        "shift of a site of 20 runs by 0.3 m at most: {:?} ({} runs moved, cost {} to {})",
        start.elapsed(),
        found.moved.len(),
        found.before.cost,
        found.after.cost
    );
}

fn plain_run() -> RunGeometry {
    RunGeometry {
        flange: DVec3::new(5.0, 8.0, 5.5),
        heading: DVec2::X,
        slope: 0.004,
        tube_length_m: TUBE_M,
        eye_rise_m: 0.1,
        eyes: Eyes::One,
        rise: TemperatureRise::even(280.0),
    }
}

fn case<'a>(
    run: &'a RunGeometry,
    rule: &'a HangingRule,
    weight: &'a RunWeight,
    spans: &'a [Arc<SpanInSpace>],
) -> Case<'a> {
    Case {
        run,
        rule,
        weight,
        spans,
        costs: KindCosts::default(),
        channel: ChannelStock::default(),
        fixed_hanger: 1,
        room: &[],
        level_error_m: 0.005,
    }
}

fn rule() -> HangingRule {
    let window = |least_m, greatest_m| Window {
        least_m,
        greatest_m,
    };
    HangingRule {
        first: window(0.10, 0.60),
        second: window(1.1, 2.2),
        spacing: window(0.9, 2.8),
        greatest_overhang_m: 1.35,
        joints_m: (1..7).map(|n| 3.0 * f64::from(n)).collect(),
        joint_keep_off_m: 0.10,
        least_suspension_m: 0.52,
        greatest_lean_rad: 6.0_f64.to_radians(),
        greatest_swing_rad: 9.0_f64.to_radians(),
    }
}

fn weight() -> RunWeight {
    RunWeight {
        spread_kg_per_m: 5.4,
        single: vec![PointMass {
            station_m: -0.25,
            mass_kg: 28.0,
        }],
        stiffness_n_m2: 106_841.0,
    }
}

/// Joists along y every 1.83 m, two spans of 18 m each, panel points every 1.22 m.
fn joists(allowed: Capacity, off_panel: Option<Capacity>) -> Vec<Arc<SpanInSpace>> {
    (0_u8..30)
        .flat_map(|row| (0_u8..2).map(move |bay| (row, bay)))
        .map(|(row, bay)| {
            Arc::new(SpanInSpace {
                id: Arc::from(format!("J-{row}/{bay}")),
                framing: 0,
                row: usize::from(row),
                start: DVec2::new(1.83 * f64::from(row), 18.0 * f64::from(bay)),
                direction: DVec2::Y,
                usable_m: (1.2, 16.8),
                attach_m: vec![(0.0, 6.4), (18.0, 6.8)],
                hang_points: HangPoints::Panels {
                    points_m: (0..13).map(|n| 1.2 + 1.22 * f64::from(n)).collect(),
                    allowed,
                    off_panel,
                    in_all: None,
                },
            })
        })
        .collect()
}

/// The time that some work takes on all items: the median of a few goes at each, so
/// that what else the machine does falls out.
fn sum_of_medians<T, R>(items: &[T], mut work: impl FnMut(&T) -> R) -> Duration {
    items
        .iter()
        .map(|item| {
            let mut taken: Vec<Duration> = (0..15)
                .map(|_| {
                    let start = Instant::now();
                    work(item);
                    start.elapsed()
                })
                .collect();
            taken.sort();
            taken[taken.len() / 2]
        })
        .sum()
}
