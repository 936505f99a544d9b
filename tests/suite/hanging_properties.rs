//! What must hold for any run: balance, uniqueness, and that no direction is special.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::sync::Arc;

use fastrand::Rng;
use rafterglow::geometry::{DVec2, DVec3};
use rafterglow::hanging::{
    BeamLoad, GRAVITY, Hanging, Kind, LockedAt, LockedHanger, PointLoad, SpanInSpace, Status,
    Support, check_locked, hang,
};

use super::hanging_instances::{Instance, between, small};
use super::hanging_statics::eliminate;

/// A tube with a burner and a few hangers, some of them out of level.
fn random_beam(random: &mut Rng, greatest_error_m: f64) -> (BeamLoad, Vec<Support>) {
    let length_m = between(random, 4.0, 20.0);
    let load = BeamLoad {
        length_m,
        spread_n_per_m: between(random, 20.0, 110.0),
        points: vec![
            PointLoad {
                station_m: -0.25,
                force_n: between(random, 0.0, 400.0),
            },
            PointLoad {
                station_m: length_m + 0.2,
                force_n: between(random, 0.0, 150.0),
            },
        ],
        stiffness_n_m2: between(random, 2e4, 2e5),
    };
    let mut supports = Vec::new();
    let mut station_m = between(random, 0.1, 0.6);
    while station_m < length_m - 0.3 {
        supports.push(Support {
            station_m,
            offset_m: between(random, -greatest_error_m, greatest_error_m),
        });
        station_m += between(random, 0.6, 3.0);
    }
    (load, supports)
}

#[test]
fn pulls_balance_weight_and_moment_and_never_push() {
    let mut random = Rng::with_seed(21);
    let mut slack = 0;
    for round in 0..3_000 {
        let error_m = [0.0, 0.005, 0.02][round % 3];
        let (load, supports) = random_beam(&mut random, error_m);
        let Some(held) = load.held_by(&supports) else {
            continue;
        };
        let sum: f64 = held.pull_n.iter().sum();
        let turn: f64 = held
            .pull_n
            .iter()
            .zip(&supports)
            .map(|(pull_n, support)| pull_n * support.station_m)
            .sum();
        assert!((sum - load.total_n()).abs() <= 1e-9 * load.total_n());
        let size = load.total_n() * load.length_m;
        assert!((turn - load.moment_n_m()).abs() <= 1e-9 * size);
        for (&pull_n, &lift_m) in held.pull_n.iter().zip(&held.lift_m) {
            assert!(pull_n >= 0.0 && lift_m >= 0.0);
            assert!(pull_n == 0.0 || lift_m == 0.0);
            slack += usize::from(pull_n == 0.0);
        }
    }
    assert!(slack > 300, "only {slack} slack hangers were tried");
}

/// The same balance found from displacements: beam elements between all supports and
/// loads, everything but the supports' heights eliminated, then each height in turn
/// set to what its own balance asks for, but not below its taut length.
fn pulls_by_projection(load: &BeamLoad, supports: &[Support]) -> Vec<f64> {
    let mut nodes: Vec<f64> = supports
        .iter()
        .map(|support| support.station_m)
        .chain(load.points.iter().map(|point| point.station_m))
        .chain([0.0, load.length_m])
        .collect();
    nodes.sort_by(f64::total_cmp);
    nodes.dedup();
    let n = nodes.len();
    // Unknowns: height and slope of each node; forces upward.
    let mut stiffness = vec![vec![0.0; 2 * n]; 2 * n];
    let mut force = vec![0.0; 2 * n];
    for e in 0..n - 1 {
        let h = nodes[e + 1] - nodes[e];
        let k = load.stiffness_n_m2 / (h * h * h);
        let element = [
            [12.0, 6.0 * h, -12.0, 6.0 * h],
            [6.0 * h, 4.0 * h * h, -6.0 * h, 2.0 * h * h],
            [-12.0, -6.0 * h, 12.0, -6.0 * h],
            [6.0 * h, 2.0 * h * h, -6.0 * h, 4.0 * h * h],
        ];
        for (r, row) in element.iter().enumerate() {
            for (c, value) in row.iter().enumerate() {
                stiffness[2 * e + r][2 * e + c] += k * value;
            }
        }
        if 0.0 <= nodes[e] && nodes[e + 1] <= load.length_m {
            let q = load.spread_n_per_m;
            let ends = [h / 2.0, h * h / 12.0, h / 2.0, -h * h / 12.0];
            for (r, part) in ends.iter().enumerate() {
                force[2 * e + r] -= q * part;
            }
        }
    }
    let node_of = |station_m: f64| nodes.iter().position(|&node| node == station_m).unwrap();
    for point in &load.points {
        force[2 * node_of(point.station_m)] -= point.force_n;
    }
    let held: Vec<usize> = supports
        .iter()
        .map(|support| 2 * node_of(support.station_m))
        .collect();
    let free: Vec<usize> = (0..2 * n).filter(|i| !held.contains(i)).collect();
    // What each held height and the loads do to the free unknowns.
    let solve_free = |right: &dyn Fn(usize) -> f64| {
        let rows = free
            .iter()
            .map(|&i| {
                let mut row: Vec<f64> = free.iter().map(|&j| stiffness[i][j]).collect();
                row.push(right(i));
                row
            })
            .collect();
        eliminate(rows).unwrap()
    };
    let by_load = solve_free(&|i| force[i]);
    let by_height: Vec<Vec<f64>> = held
        .iter()
        .map(|&j| solve_free(&|i| -stiffness[i][j]))
        .collect();
    let of_free = |row: usize, solution: &[f64]| -> f64 {
        free.iter()
            .zip(solution)
            .map(|(&j, value)| stiffness[row][j] * value)
            .sum()
    };
    let condensed: Vec<Vec<f64>> = held
        .iter()
        .map(|&i| {
            held.iter()
                .zip(&by_height)
                .map(|(&j, solution)| stiffness[i][j] + of_free(i, solution))
                .collect()
        })
        .collect();
    let loads: Vec<f64> = held
        .iter()
        .map(|&i| force[i] - of_free(i, &by_load))
        .collect();
    let pull = |heights: &[f64], i: usize| -> f64 {
        let row: f64 = condensed[i].iter().zip(heights).map(|(k, v)| k * v).sum();
        row - loads[i]
    };
    let mut heights: Vec<f64> = supports.iter().map(|support| support.offset_m).collect();
    for _ in 0..100_000 {
        let mut moved: f64 = 0.0;
        for i in 0..heights.len() {
            let wanted = heights[i] - 1.5 * pull(&heights, i) / condensed[i][i];
            let height = wanted.max(supports[i].offset_m);
            moved = moved.max((height - heights[i]).abs());
            heights[i] = height;
        }
        if moved < 1e-15 {
            break;
        }
    }
    (0..heights.len()).map(|i| pull(&heights, i)).collect()
}

#[test]
fn balance_is_that_of_a_projected_solver() {
    let mut random = Rng::with_seed(22);
    let mut slack = 0;
    for round in 0..60 {
        let (load, mut supports) = random_beam(&mut random, [0.0, 0.006][round % 2]);
        supports.truncate(6);
        // Two hangers bend nothing: there is no stiffness between them to solve with.
        let Some(held) = load.held_by(&supports).filter(|_| supports.len() > 2) else {
            continue;
        };
        let projected = pulls_by_projection(&load, &supports);
        for (pull_n, projected_n) in held.pull_n.iter().zip(&projected) {
            let apart = (pull_n - projected_n).abs();
            assert!(
                apart <= 1e-5 * load.total_n(),
                "{held:?}, not {projected:?}"
            );
            slack += usize::from(*pull_n == 0.0);
        }
    }
    assert!(slack > 5, "only {slack} slack hangers were tried");
}

/// The instance turned, moved, and mirrored if wanted.
pub(crate) fn placed(instance: &Instance, angle_rad: f64, by: DVec2, mirror: f64) -> Instance {
    let turn = |v: DVec2| DVec2::from_angle(angle_rad).rotate(DVec2::new(v.x * mirror, v.y));
    let mut other = instance.clone();
    let flange = instance.run.flange;
    other.run.flange = (turn(flange.truncate()) + by).extend(flange.z);
    other.run.heading = turn(instance.run.heading);
    for span in &mut other.spans {
        let span: &mut SpanInSpace = Arc::make_mut(span);
        span.start = turn(span.start) + by;
        span.direction = turn(span.direction);
    }
    other
}

pub(crate) fn same(a: &Hanging, b: &Hanging) {
    assert_eq!(a.status, b.status);
    assert_eq!(a.cost, b.cost);
    assert_eq!(a.sets_tried, b.sets_tried);
    assert_eq!(a.hangers.len(), b.hangers.len());
    for (a, b) in a.hangers.iter().zip(&b.hangers) {
        assert!((a.at.station_m - b.at.station_m).abs() < 1e-6);
        assert!((a.at.suspension_m - b.at.suspension_m).abs() < 1e-6);
        assert!((a.at.lean_rad - b.at.lean_rad).abs() < 1e-6);
        assert!((a.load.load_n - b.load.load_n).abs() < 1e-6);
        assert!((a.swing_rad - b.swing_rad).abs() < 1e-6);
        assert!(a.at.members().eq(b.at.members()));
        assert_eq!(a.at.kind, b.at.kind);
    }
    let helps = |it: &Hanging| it.obstacle.as_ref().map(|obstacle| obstacle.helps.clone());
    assert_eq!(helps(a), helps(b));
}

#[test]
fn turning_moving_or_mirroring_changes_nothing() {
    let mut random = Rng::with_seed(23);
    for _ in 0..60 {
        let instance = small(&mut random);
        let before = hang(&instance.case());
        for mirror in [1.0, -1.0] {
            let angle_rad = between(&mut random, 0.0, 6.3);
            let by = DVec2::new(1_000.0, -700.0) * f64::from(random.u8(0..2));
            let other = placed(&instance, angle_rad, by, mirror);
            same(&before, &hang(&other.case()));
        }
    }
}

/// A solved run breaks nothing but perhaps the swing, its hangers carry it whole, and
/// kept where they are, they hang as they did.
#[test]
fn solved_hangers_keep_every_limit_and_can_be_kept() {
    let mut random = Rng::with_seed(24);
    let mut solved = 0;
    for _ in 0..150 {
        let instance = small(&mut random);
        let case = instance.case();
        let hanging = hang(&case);
        assert_eq!(hanging.hangers.is_empty(), hanging.cost.is_none());
        assert_eq!(hanging.obstacle.is_some(), hanging.hangers.is_empty());
        if hanging.status != Status::Solved {
            continue;
        }
        solved += 1;
        assert!(hanging.breaches.is_empty(), "{:?}", hanging.breaches);
        let weight = &instance.weight;
        let mass = weight.spread_kg_per_m * instance.run.tube_length_m
            + weight.single.iter().map(|it| it.mass_kg).sum::<f64>();
        let carried: f64 = hanging.hangers.iter().map(|it| it.load.load_n).sum();
        assert!((carried - mass * GRAVITY).abs() < 1e-9 * carried);
        for hanger in &hanging.hangers {
            let parts: f64 = hanger.load.holds.iter().map(|hold| hold.load_n).sum();
            assert!((parts - hanger.load.load_n).abs() < 1e-9 * carried);
        }
        let kept: Vec<LockedHanger> = hanging
            .hangers
            .iter()
            .map(|hanger| LockedHanger {
                station_m: hanger.at.station_m,
                members: hanger.at.holds().map(|hold| hold.member.clone()).collect(),
                at: match hanger.at.kind {
                    Kind::Panel => hanger
                        .at
                        .first
                        .place
                        .panel_point()
                        .map(LockedAt::PanelPoint),
                    Kind::OffPanel => Some(LockedAt::OffPanel),
                    Kind::Line | Kind::Channel => None,
                },
            })
            .collect();
        let again = check_locked(&case, &kept);
        assert_eq!(again.status, Status::Locked);
        assert!(again.breaches.is_empty() && again.lost.is_empty());
        assert_eq!(again.hangers, hanging.hangers);
    }
    assert!(solved > 60, "only {solved} were solved");
}

/// A tube lies where its slope says, whichever way it heads.
#[test]
fn stations_and_points_turn_into_each_other() {
    let mut random = Rng::with_seed(25);
    for _ in 0..200 {
        let mut instance = small(&mut random);
        instance.run.slope = between(&mut random, -0.05, 0.05);
        let axis = instance.run.axis();
        let station_m = between(&mut random, -1.0, 20.0);
        let point = axis.point(station_m);
        assert!((point.distance(instance.run.flange) - station_m.abs()).abs() < 1e-12);
        assert!((axis.station_abreast(point.truncate()) - station_m).abs() < 1e-12);
        assert!(axis.offset_left(point.truncate()).abs() < 1e-12);
        let fall_m = instance.run.slope * axis.plan_length(station_m);
        assert!((instance.run.flange.z - fall_m - point.z).abs() < 1e-12);
        let eye = point + DVec3::new(0.0, 0.0, instance.run.eye_rise_m);
        assert!(axis.eye(station_m).distance(eye) < 1e-12);
    }
}
