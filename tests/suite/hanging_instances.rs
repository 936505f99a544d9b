//! Random runs under random steel, for the hanging tests.

use std::f64::consts::TAU;
use std::sync::Arc;

use fastrand::Rng;
use rafterglow::geometry::{DVec2, DVec3};
use rafterglow::hanging::{
    Capacity, Case, ChannelStock, Eyes, HangPoints, Hanging, HangingRule, KindCosts, LoadPart,
    LoadPlace, Place, PointMass, RunGeometry, RunWeight, SpanInSpace, TemperatureRise, Window,
    hang, total,
};

/// One run and its steel, owned.
#[derive(Debug, Clone)]
pub(crate) struct Instance {
    pub(crate) run: RunGeometry,
    pub(crate) rule: HangingRule,
    pub(crate) weight: RunWeight,
    pub(crate) spans: Vec<Arc<SpanInSpace>>,
    pub(crate) costs: KindCosts,
    pub(crate) channel: ChannelStock,
}

impl Instance {
    pub(crate) fn case(&self) -> Case<'_> {
        Case {
            run: &self.run,
            rule: &self.rule,
            weight: &self.weight,
            spans: &self.spans,
            costs: self.costs,
            channel: self.channel,
            fixed_hanger: 1,
            room: &[],
            level_error_m: 0.005,
        }
    }

    /// A run at a simple place without any steel: heading east, 5 m up, level.
    pub(crate) fn bare(tube_length_m: f64) -> Self {
        Self {
            run: RunGeometry {
                flange: DVec3::new(0.0, 0.0, 5.0),
                heading: DVec2::X,
                slope: 0.0,
                tube_length_m,
                eye_rise_m: 0.1,
                eyes: Eyes::One,
                rise: TemperatureRise::even(280.0),
            },
            rule: family_rule(tube_length_m),
            weight: family_weight(25.0),
            spans: Vec::new(),
            costs: KindCosts::default(),
            channel: ChannelStock::default(),
        }
    }
}

/// The rule of the bundled families for a tube with joints every 3 m.
pub(crate) fn family_rule(tube_length_m: f64) -> HangingRule {
    let window = |least_m, greatest_m| Window {
        least_m,
        greatest_m,
    };
    HangingRule {
        first: window(0.10, 0.60),
        second: window(1.1, 2.2),
        spacing: window(0.9, 2.8),
        greatest_overhang_m: 1.35,
        joints_m: (1..100)
            .map(|n| 3.0 * f64::from(n))
            .take_while(|&joint_m| joint_m < tube_length_m)
            .collect(),
        joint_keep_off_m: 0.10,
        least_suspension_m: 0.28,
        greatest_lean_rad: 6.0_f64.to_radians(),
        greatest_swing_rad: 9.0_f64.to_radians(),
    }
}

pub(crate) fn family_weight(burner_kg: f64) -> RunWeight {
    RunWeight {
        spread_kg_per_m: 5.4,
        single: vec![PointMass {
            station_m: -0.25,
            mass_kg: burner_kg,
        }],
        stiffness_n_m2: 106_841.0,
    }
}

/// A small instance of which all sets can be listed.
pub(crate) fn small(random: &mut Rng) -> Instance {
    let length_m = between(random, 2.6, 6.5);
    let angle = match random.u8(0..3) {
        0 => TAU / 4.0 * f64::from(random.u8(0..4)),
        _ => TAU * random.f64(),
    };
    let mut instance = Instance::bare(length_m);
    instance.run = RunGeometry {
        flange: DVec3::new(
            between(random, -50.0, 50.0),
            between(random, -50.0, 50.0),
            5.0,
        ),
        heading: DVec2::from_angle(angle),
        slope: *pick(random, &[0.0, 0.004, 0.004, -0.01]),
        tube_length_m: length_m,
        eye_rise_m: between(random, 0.05, 0.15),
        eyes: Eyes::One,
        rise: TemperatureRise::even(280.0),
    };
    vary_rule(random, &mut instance.rule, length_m);
    instance.weight = family_weight(between(random, 15.0, 32.0));
    if random.bool() {
        instance.weight.single.push(PointMass {
            station_m: length_m + 0.2,
            mass_kg: between(random, 1.0, 8.0),
        });
    }
    let framings = 1 + usize::from(random.bool());
    for framing in 0..framings {
        add_framing(random, &mut instance, framing);
    }
    random.shuffle(&mut instance.spans);
    if random.u8(0..4) == 0 {
        instance.costs.off_panel = *pick(random, &[1_000, 1_250, 2_000, 4_000]);
    }
    instance
}

/// A few runs near each other under steel that bears each of them, but hardly all.
pub(crate) fn small_group(random: &mut Rng, runs: usize) -> Vec<Instance> {
    let first = small(random);
    let mut instances: Vec<Instance> = (0..runs)
        .map(|which| {
            let mut instance = first.clone();
            if which > 0 {
                beside(random, &mut instance);
            }
            instance
        })
        .collect();
    for _ in 0..random.usize(1..4) {
        make_scarce(random, &mut instances);
    }
    instances
}

/// Lets the steel bear less than what several runs, each hung by itself, put on one of the
/// places that they share, but as much as each of them does.
fn make_scarce(random: &mut Rng, instances: &mut [Instance]) {
    let alone: Vec<Hanging> = instances.iter().map(|it| hang(&it.case())).collect();
    let shared: Vec<(LoadPlace, f64, f64)> = total(&alone)
        .into_iter()
        .filter_map(|(place, load)| {
            let own = |part: &LoadPart| -> f64 {
                let same = load.parts.iter().filter(|other| other.run == part.run);
                same.map(|part| part.load_n).sum()
            };
            let most = load.parts.iter().map(own).fold(0.0, f64::max);
            (most + 1.0 < load.sum_n).then_some((place, most, load.sum_n))
        })
        .collect();
    if shared.is_empty() {
        return;
    }
    let (place, least_n, most_n) = pick(random, &shared).clone();
    let known = instances[0]
        .spans
        .iter()
        .find(|span| span.id == place.member);
    let framing = known.map(|span| span.framing);
    let enough = Capacity::Known(between(random, least_n, most_n));
    let spans: Vec<Arc<SpanInSpace>> = instances[0]
        .spans
        .iter()
        .map(|span| {
            let mut span = SpanInSpace::clone(span);
            if Some(span.framing) == framing {
                match (&mut span.hang_points, place.place) {
                    (HangPoints::Anywhere { in_all, .. }, _) => *in_all = Some(enough),
                    (HangPoints::Panels { allowed, .. }, Place::PanelPoint(_)) => *allowed = enough,
                    (HangPoints::Panels { off_panel, .. }, Place::ChordPanel(_)) => {
                        *off_panel = Some(enough);
                    }
                    (HangPoints::Panels { in_all, .. }, Place::Line) => *in_all = Some(enough),
                }
            }
            Arc::new(span)
        })
        .collect();
    for instance in instances {
        instance.spans.clone_from(&spans);
    }
}

/// Moves a run a little, and perhaps turns it: end for end, or by any angle.
fn beside(random: &mut Rng, instance: &mut Instance) {
    let run = &mut instance.run;
    let across_m = between(random, 0.1, 1.0) * *pick(random, &[1.0, -1.0]);
    let along_m = between(random, -0.8, 0.8) * f64::from(random.u8(0..2));
    let by = run.heading.perp() * across_m + run.heading * along_m;
    run.flange += by.extend(between(random, -0.1, 0.1));
    match random.u8(0..6) {
        0 => {
            run.flange += (run.heading * run.tube_length_m).extend(0.0);
            run.heading = -run.heading;
        }
        1 => run.heading = DVec2::from_angle(TAU * random.f64()),
        _ => {}
    }
    if random.bool() {
        instance.weight = family_weight(between(random, 15.0, 32.0));
        instance.rule.spacing.greatest_m = between(random, 2.0, 2.8);
        instance.rule.greatest_overhang_m = between(random, 0.7, 1.35);
    }
}

fn vary_rule(random: &mut Rng, rule: &mut HangingRule, length_m: f64) {
    rule.first.greatest_m = between(random, 0.6, 1.2);
    rule.second.greatest_m = between(random, 1.9, 2.6);
    rule.spacing.greatest_m = between(random, 2.0, 2.8);
    rule.greatest_overhang_m = between(random, 0.7, 1.35);
    let joint_m = between(random, 1.0, 3.0);
    rule.joints_m = (1..20)
        .map(|n| joint_m * f64::from(n))
        .take_while(|&station_m| station_m < length_m)
        .collect();
    rule.joint_keep_off_m = between(random, 0.05, 0.12);
    rule.least_suspension_m = between(random, 0.2, 0.5);
    rule.greatest_lean_rad = between(random, 2.0, 9.0).to_radians();
}

/// One framing of parallel members over the run: mostly across it, sometimes along.
fn add_framing(random: &mut Rng, instance: &mut Instance, framing: usize) {
    let along = random.u8(0..5) == 0;
    let turn = if along {
        between(random, -20.0, 20.0).to_radians() * f64::from(random.u8(0..2))
    } else {
        (90.0 + between(random, -50.0, 50.0) * f64::from(random.u8(0..2))).to_radians()
    };
    let direction = DVec2::from_angle(turn).rotate(instance.run.heading);
    let across = -direction.perp();
    let start = instance.run.flange.truncate();
    let spacing_m = if along {
        between(random, 0.3, 2.5)
    } else {
        between(random, 0.45, 1.3)
    };
    let level_m = instance.run.flange.z + between(random, 0.7, 1.5);
    let points = random_points(random);
    let first_m = -between(random, 0.0, spacing_m);
    let rows = 16_u8;
    for row in 0..rows {
        // Some members are missing; their neighbours stay neighbours only by row.
        if random.u8(0..12) == 0 {
            continue;
        }
        // Members stand on both sides of the run's start, whichever way it goes.
        let middle = if along { f64::from(rows) / 2.0 } else { 4.0 };
        let offset_m = first_m + spacing_m * (f64::from(row) - middle);
        let back_m = between(random, 6.0, 9.0);
        let length_m = back_m + between(random, 6.0, 9.0);
        let own_m = level_m + between(random, -0.06, 0.06) * f64::from(random.u8(0..2));
        let ridge = between(random, 0.0, length_m);
        instance.spans.push(Arc::new(SpanInSpace {
            id: Arc::from(format!("{}-{row:02}", ["J", "P"][framing])),
            framing,
            row: usize::from(row),
            start: start + across * offset_m - direction * back_m,
            direction,
            usable_m: (0.3, length_m - 0.3),
            attach_m: vec![
                (0.0, own_m),
                (ridge, own_m + between(random, 0.0, 0.3)),
                (length_m, own_m),
            ],
            hang_points: shifted(random, &points, length_m),
        }));
    }
}

/// What all members of a framing have in common.
enum Points {
    Panels(f64, Capacity, Option<Capacity>, Option<Capacity>),
    Anywhere(Capacity, Option<Capacity>),
}

fn random_points(random: &mut Rng) -> Points {
    let some = random_capacity(random);
    if random.u8(0..3) < 2 {
        let off_panel = *pick(
            random,
            &[
                None,
                Some(Capacity::Unknown),
                Some(Capacity::Known(200.0)),
                Some(Capacity::Known(330.0)),
                Some(Capacity::Known(400.0)),
                Some(Capacity::Known(445.0)),
            ],
        );
        let in_all = (random.u8(0..3) == 0).then(|| random_capacity(random));
        Points::Panels(between(random, 0.3, 1.3), some, off_panel, in_all)
    } else {
        let in_all = random.bool().then(|| random_capacity(random));
        Points::Anywhere(some, in_all)
    }
}

fn random_capacity(random: &mut Rng) -> Capacity {
    *pick(
        random,
        &[
            Capacity::Unknown,
            Capacity::Known(250.0),
            Capacity::Known(300.0),
            Capacity::Known(350.0),
            Capacity::Known(450.0),
            Capacity::Known(600.0),
            Capacity::Known(900.0),
        ],
    )
}

fn shifted(random: &mut Rng, points: &Points, length_m: f64) -> HangPoints {
    match *points {
        Points::Panels(spacing_m, allowed, off_panel, in_all) => {
            let first_m = between(random, 0.2, 1.0);
            HangPoints::Panels {
                points_m: (0..60)
                    .map(|n| first_m + spacing_m * f64::from(n))
                    .take_while(|&at| at < length_m)
                    .collect(),
                allowed,
                off_panel,
                in_all,
            }
        }
        Points::Anywhere(allowed, in_all) => HangPoints::Anywhere { allowed, in_all },
    }
}

pub(crate) fn between(random: &mut Rng, least: f64, greatest: f64) -> f64 {
    least + (greatest - least) * random.f64()
}

fn pick<'a, T>(random: &mut Rng, from: &'a [T]) -> &'a T {
    &from[random.usize(0..from.len())]
}
