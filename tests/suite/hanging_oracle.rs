//! The hanging choice by listing every set: written from the definitions alone, so it
//! shares no code with the engine beyond the types of its input.
#![expect(
    clippy::disallowed_methods,
    reason = "the oracle shares nothing with the engine, its trigonometry included"
)]

use std::collections::BTreeMap;

use rafterglow::geometry::DVec2;
use rafterglow::hanging::{Capacity, Case, HangPoints, Kind, LockedAt, LockedHanger, SpanInSpace};

use super::hanging_statics::pulls;

/// Equal passes; beyond by more than this is a breach.
const SLACK: f64 = 1e-6;

/// A candidate by definition.
#[derive(Debug, Clone)]
pub(crate) struct Spot {
    pub(crate) station_nm: i64,
    pub(crate) kind: Kind,
    pub(crate) members: Vec<String>,
    pub(crate) suspension_m: f64,
    pub(crate) lean_rad: f64,
    cost: u32,
    /// What is loaded: (span, panel point or chord panel, share).
    ends: Vec<(usize, Grip, f64)>,
    channel: Option<(f64, f64)>,
    usable: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Grip {
    Point(usize),
    Panel(usize),
    Anywhere,
}

/// Whole nanometres.
#[expect(
    clippy::cast_possible_truncation,
    reason = "metres of a tube fit easily"
)]
pub(crate) fn nm(length_m: f64) -> i64 {
    (length_m * 1e9).round() as i64
}

impl Spot {
    fn station_m(&self) -> f64 {
        self.station_nm as f64 / 1e9
    }

    /// The spot as a hanger that is kept there.
    pub(crate) fn kept(&self) -> LockedHanger {
        LockedHanger {
            station_m: self.station_m(),
            members: self.members.iter().map(|id| id.as_str().into()).collect(),
            at: match &self.ends[..] {
                [(_, Grip::Point(number), _)] => Some(LockedAt::PanelPoint(*number)),
                [(_, Grip::Panel(_), _)] => Some(LockedAt::OffPanel),
                _ => None,
            },
        }
    }
}

/// What the list of all sets says.
#[derive(Debug)]
pub(crate) struct Verdict {
    /// The chosen spots of the best allowed set.
    pub(crate) best: Option<Vec<Spot>>,
    /// Sets tried before it, itself included.
    pub(crate) tried: usize,
    /// The greedy choice costs more, or finds nothing where something is.
    pub(crate) greedy_is_worse: bool,
    pub(crate) cost: Option<u64>,
    pub(crate) gap_nm: Option<i64>,
}

/// One allowed set of a run.
#[derive(Debug, Clone)]
pub(crate) struct Listed {
    pub(crate) spots: Vec<Spot>,
    pub(crate) cost: u64,
    /// What it puts on each place, and what all runs may put there; none if nobody said.
    pub(crate) loads: Vec<(Place, f64, Option<f64>)>,
}

/// A member and the part of it that takes a load.
pub(crate) type Place = (String, Grip);

/// All sets of a case that are allowed by themselves, in order; none if there are too many
/// sets to list.
pub(crate) fn allowed_sets(case: &Case<'_>, most_sets: usize) -> Option<Vec<Listed>> {
    let (spots, ranked) = ranked(case, most_sets)?;
    let listed = |(figures, set): &(Figures, Vec<usize>)| Listed {
        spots: set.iter().map(|&at| spots[at].clone()).collect(),
        cost: figures.0,
        loads: loads(case, &spots, set)
            .into_iter()
            .flatten()
            .filter_map(|((span, grip), load)| {
                let limit = match limit(case, span, grip)? {
                    Capacity::Known(limit) => Some(limit * (1.0 + SLACK)),
                    Capacity::Unknown => None,
                };
                Some(((case.spans[span].id.to_string(), grip), load, limit))
            })
            .collect(),
    };
    let allowed = ranked.iter().filter(|(_, set)| allowed(case, &spots, set));
    Some(allowed.map(listed).collect())
}

/// All sets of a case in order; none if there are too many of them to list.
pub(crate) fn exhaustive(case: &Case<'_>, most_sets: usize) -> Option<Verdict> {
    let (spots, ranked) = ranked(case, most_sets)?;
    let first_allowed = ranked
        .iter()
        .position(|(_, set)| allowed(case, &spots, set));
    let best = first_allowed.map(|at| &ranked[at]);
    let cost = best.map(|(figures, _)| figures.0);
    let greedy_cost = greedy(case, &spots)
        .filter(|set| allowed(case, &spots, set))
        .map(|set| figures(&spots, &set).0);
    Some(Verdict {
        tried: first_allowed.map_or(ranked.len(), |at| at + 1),
        greedy_is_worse: cost.is_some_and(|cost| greedy_cost.is_none_or(|greedy| greedy > cost)),
        cost,
        gap_nm: best.map(|(figures, _)| figures.1),
        best: best.map(|(_, set)| set.iter().map(|&at| spots[at].clone()).collect()),
    })
}

/// The usable spots and all sets of them, in order.
fn ranked(case: &Case<'_>, most_sets: usize) -> Option<(Vec<Spot>, Vec<Ranked>)> {
    let spots: Vec<Spot> = spots(case).into_iter().filter(|spot| spot.usable).collect();
    let mut sets = Vec::new();
    let mut begun = Vec::new();
    list_sets(case, &spots, &mut begun, &mut sets, most_sets)?;
    let mut ranked: Vec<(Figures, Vec<usize>)> = sets
        .into_iter()
        .map(|set| (figures(&spots, &set), set))
        .collect();
    ranked.sort_by(|(figures_a, a), (figures_b, b)| {
        let stations =
            |set: &Vec<usize>| -> Vec<i64> { set.iter().map(|&at| spots[at].station_nm).collect() };
        let members = |set: &Vec<usize>| -> Vec<Vec<String>> {
            set.iter().map(|&at| spots[at].members.clone()).collect()
        };
        figures_a
            .cmp(figures_b)
            .then_with(|| stations(a).cmp(&stations(b)))
            .then_with(|| members(a).cmp(&members(b)))
            // Two places of one member at one station: the order of the list.
            .then_with(|| a.cmp(b))
    });
    Some((spots, ranked))
}

/// A set with its figures.
type Ranked = (Figures, Vec<usize>);

/// Cost, greatest gap, number.
type Figures = (u64, i64, usize);

fn figures(spots: &[Spot], set: &[usize]) -> Figures {
    let gaps = set
        .windows(2)
        .map(|pair| spots[pair[1]].station_nm - spots[pair[0]].station_nm);
    (
        set.iter().map(|&at| u64::from(spots[at].cost)).sum(),
        gaps.max().unwrap_or(0),
        set.len(),
    )
}

/// Every spot that may follow those begun with.
fn may_follow(case: &Case<'_>, spots: &[Spot], begun: &[usize], next: usize) -> bool {
    let rule = case.rule;
    let station_m = spots[next].station_m();
    let (measured, window) = match begun {
        [] => (station_m, rule.first),
        [only] => (station_m - spots[*only].station_m(), rule.second),
        [.., last] => (station_m - spots[*last].station_m(), rule.spacing),
    };
    window.least_m - SLACK <= measured && measured <= window.greatest_m + SLACK
}

fn may_end(case: &Case<'_>, spots: &[Spot], set: &[usize]) -> bool {
    set.last().is_some_and(|&last| {
        case.run.tube_length_m - spots[last].station_m() <= case.rule.greatest_overhang_m + SLACK
    })
}

fn list_sets(
    case: &Case<'_>,
    spots: &[Spot],
    begun: &mut Vec<usize>,
    sets: &mut Vec<Vec<usize>>,
    most: usize,
) -> Option<()> {
    if may_end(case, spots, begun) {
        sets.push(begun.clone());
        if sets.len() > most {
            return None;
        }
    }
    for next in 0..spots.len() {
        let further = begun
            .last()
            .is_none_or(|&last| spots[last].station_nm < spots[next].station_nm);
        if further && may_follow(case, spots, begun, next) {
            begun.push(next);
            list_sets(case, spots, begun, sets, most)?;
            begun.pop();
        }
    }
    Some(())
}

/// Always the cheapest of the next window, the farthest of those.
fn greedy(case: &Case<'_>, spots: &[Spot]) -> Option<Vec<usize>> {
    let mut set = Vec::new();
    while !may_end(case, spots, &set) {
        let next = (0..spots.len())
            .filter(|&next| {
                let further = set
                    .last()
                    .is_none_or(|&last: &usize| spots[last].station_nm < spots[next].station_nm);
                further && may_follow(case, spots, &set, next)
            })
            .min_by_key(|&next| (spots[next].cost, -spots[next].station_nm))?;
        set.push(next);
    }
    Some(set)
}

/// What a set puts on each place; none where the run would tip, a single attachment or a
/// channel is overloaded.
fn loads(case: &Case<'_>, spots: &[Spot], set: &[usize]) -> Option<BTreeMap<(usize, Grip), f64>> {
    const G: f64 = 9.80665;
    let weight = case.weight;
    let points: Vec<(f64, f64)> = weight
        .single
        .iter()
        .map(|mass| (mass.station_m, mass.mass_kg * G))
        .collect();
    let stations: Vec<f64> = set.iter().map(|&at| spots[at].station_m()).collect();
    let even = (case.run.tube_length_m, weight.spread_kg_per_m * G);
    let pulls = pulls(even, &points, &stations)?;
    let mut sums: BTreeMap<(usize, Grip), f64> = BTreeMap::new();
    let mut whole: BTreeMap<usize, f64> = BTreeMap::new();
    for (&at, &pull) in set.iter().zip(&pulls) {
        for &(span, grip, share) in &spots[at].ends {
            let load = pull * share;
            if let HangPoints::Anywhere { allowed, .. } = &case.spans[span].hang_points
                && !passes(*allowed, load)
            {
                return None;
            }
            *sums.entry((span, grip)).or_insert(0.0) += load;
            *whole.entry(span).or_insert(0.0) += load;
        }
        if let Some((a, b)) = spots[at].channel {
            let stock = &case.channel;
            let s = a + b;
            let c = a.min(b);
            let deflection = pull * c * (s * s - c * c).powf(1.5)
                / (15.588457268119896 * stock.elasticity_pa * stock.second_moment_m4 * s);
            let bending = pull * a * b / s;
            if bending > stock.allowed_stress_pa * stock.section_modulus_m3 * (1.0 + SLACK)
                || deflection > s / 240.0 * (1.0 + SLACK)
            {
                return None;
            }
        }
    }
    for (span, sum) in whole {
        sums.entry((span, Grip::Anywhere)).or_insert(sum);
    }
    Some(sums)
}

/// What may be put on a place in all; none where nothing is said of sums there.
fn limit(case: &Case<'_>, span: usize, grip: Grip) -> Option<Capacity> {
    match (&case.spans[span].hang_points, grip) {
        (HangPoints::Panels { allowed, .. }, Grip::Point(_)) => Some(*allowed),
        (HangPoints::Panels { off_panel, .. }, Grip::Panel(_)) => {
            Some(off_panel.unwrap_or(Capacity::Known(0.0)))
        }
        (HangPoints::Panels { in_all, .. } | HangPoints::Anywhere { in_all, .. }, _) => *in_all,
    }
}

fn allowed(case: &Case<'_>, spots: &[Spot], set: &[usize]) -> bool {
    let passes_at = |(&(span, grip), &sum): (&(usize, Grip), &f64)| match limit(case, span, grip) {
        Some(limit) => passes(limit, sum),
        None => true,
    };
    loads(case, spots, set).is_some_and(|sums| sums.iter().all(passes_at))
}

fn passes(capacity: Capacity, load: f64) -> bool {
    match capacity {
        Capacity::Unknown => true,
        Capacity::Known(allowed) => load <= allowed * (1.0 + SLACK),
    }
}

/// Every candidate by definition, in the order of station and member ids.
pub(crate) fn spots(case: &Case<'_>) -> Vec<Spot> {
    let mut found = Vec::new();
    for span in 0..case.spans.len() {
        direct_spots(case, span, &mut found);
    }
    for a in 0..case.spans.len() {
        for b in 0..case.spans.len() {
            channel_spots(case, a, b, &mut found);
        }
    }
    // What the definition leaves open (two places of one member at one station) goes
    // by kind, then lean, as the engine says it does.
    found.sort_by(|a, b| {
        (a.station_nm, &a.members, a.kind)
            .cmp(&(b.station_nm, &b.members, b.kind))
            .then(a.lean_rad.total_cmp(&b.lean_rad))
    });
    found
}

/// The run's slope angle by its cosine: plan length of a metre of tube.
fn plan_per_tube(case: &Case<'_>) -> f64 {
    1.0 / (1.0 + case.run.slope * case.run.slope).sqrt()
}

fn axis_plan(case: &Case<'_>, station_m: f64) -> DVec2 {
    case.run.flange.truncate() + case.run.heading * (station_m * plan_per_tube(case))
}

fn eye_z(case: &Case<'_>, station_m: f64) -> f64 {
    let fall = station_m * plan_per_tube(case) * case.run.slope;
    case.run.flange.z - fall + case.run.eye_rise_m
}

fn height(span: &SpanInSpace, at: f64) -> f64 {
    let line = &span.attach_m;
    for pair in line.windows(2) {
        let ((x0, z0), (x1, z1)) = (pair[0], pair[1]);
        if x0 <= at && at <= x1 && x0 < x1 {
            return z0 + (z1 - z0) * (at - x0) / (x1 - x0);
        }
    }
    if at < line[0].0 {
        line[0].1
    } else {
        line[line.len() - 1].1
    }
}

/// Notes a spot that hangs from `attach` (plan and z), if it leans little enough.
fn note(
    case: &Case<'_>,
    found: &mut Vec<Spot>,
    station_nm: i64,
    kind: Kind,
    attach: (DVec2, f64),
    ends: Vec<(usize, Grip, f64)>,
    channel: Option<(f64, f64)>,
) {
    let station_m = station_nm as f64 / 1e9;
    if station_nm < 0 || station_nm > nm(case.run.tube_length_m) {
        return;
    }
    let drop = attach.1 - eye_z(case, station_m);
    if drop <= 0.0 {
        return;
    }
    let away = attach.0 - axis_plan(case, station_m);
    let across = away.dot(DVec2::new(-case.run.heading.y, case.run.heading.x));
    let lean_rad = (across.abs() / drop).atan();
    if lean_rad > case.rule.greatest_lean_rad + SLACK {
        return;
    }
    let suspension_m = (drop * drop + away.length_squared()).sqrt();
    let on_joint = case
        .rule
        .joints_m
        .iter()
        .any(|joint_m| (joint_m - station_m).abs() < case.rule.joint_keep_off_m - SLACK);
    found.push(Spot {
        station_nm,
        kind,
        members: ends
            .iter()
            .map(|&(span, ..)| case.spans[span].id.to_string())
            .collect(),
        suspension_m,
        lean_rad,
        cost: match kind {
            Kind::Panel => case.costs.panel,
            Kind::Line => case.costs.line,
            Kind::OffPanel => case.costs.off_panel,
            Kind::Channel => case.costs.channel,
        },
        ends,
        channel,
        usable: !on_joint && suspension_m >= case.rule.least_suspension_m - SLACK,
    });
}

fn direct_spots(case: &Case<'_>, index: usize, found: &mut Vec<Spot>) {
    let span = &case.spans[index];
    let heading = case.run.heading;
    let flange = case.run.flange.truncate();
    let abreast_nm = |plan: DVec2| nm((plan - flange).dot(heading) / plan_per_tube(case));
    let (kind, points) = match &span.hang_points {
        HangPoints::Panels {
            points_m,
            off_panel,
            ..
        } => {
            for (j, &at) in points_m.iter().enumerate() {
                if span.usable_m.0 - SLACK <= at && at <= span.usable_m.1 + SLACK {
                    let plan = span.start + span.direction * at;
                    let ends = vec![(index, Grip::Point(j + 1), 1.0)];
                    let attach = (plan, height(span, at));
                    note(
                        case,
                        found,
                        abreast_nm(plan),
                        Kind::Panel,
                        attach,
                        ends,
                        None,
                    );
                }
            }
            if off_panel.is_none() {
                return;
            }
            (Kind::OffPanel, &points_m[..])
        }
        HangPoints::Anywhere { .. } => (Kind::Line, &[][..]),
    };
    let mut try_at = |station_nm: i64, at: f64| {
        let near_point = points
            .iter()
            .any(|point| (point - at).abs() <= 0.025 + SLACK);
        if at < span.usable_m.0 - SLACK || span.usable_m.1 + SLACK < at || near_point {
            return;
        }
        let plan = span.start + span.direction * at;
        let attach = (plan, height(span, at));
        let ends = vec![(index, grip(span, at), 1.0)];
        note(case, found, station_nm, kind, attach, ends, None);
    };
    let cross = heading.x * span.direction.y - heading.y * span.direction.x;
    let angle = heading.dot(span.direction).abs().min(1.0).acos();
    if angle >= 15.0_f64.to_radians() - SLACK {
        let from = span.start - flange;
        let plan_m = (from.x * span.direction.y - from.y * span.direction.x) / cross;
        let crossing = flange + heading * plan_m;
        let station_nm = abreast_nm(crossing);
        try_at(station_nm, (crossing - span.start).dot(span.direction));
    } else {
        for n in 0..=last_step(case) {
            let station_m = f64::from(n) * 0.05;
            let foot = (axis_plan(case, station_m) - span.start).dot(span.direction);
            try_at(i64::from(n) * 50_000_000, foot);
        }
    }
}

fn grip(span: &SpanInSpace, at: f64) -> Grip {
    match &span.hang_points {
        HangPoints::Anywhere { .. } => Grip::Anywhere,
        HangPoints::Panels { points_m, .. } => points_m
            .iter()
            .position(|point| (point - at).abs() <= 0.025 + SLACK)
            .map_or_else(
                || Grip::Panel(points_m.iter().filter(|&&point| point < at).count()),
                |j| Grip::Point(j + 1),
            ),
    }
}

/// The last 50 mm step on the tube, and one more.
#[expect(clippy::cast_possible_truncation, reason = "a tube has few steps")]
fn last_step(case: &Case<'_>) -> i32 {
    (case.run.tube_length_m / 0.05) as i32 + 1
}

fn channel_spots(case: &Case<'_>, a: usize, b: usize, found: &mut Vec<Spot>) {
    let (from, to) = (&case.spans[a], &case.spans[b]);
    if from.framing != to.framing || from.row + 1 != to.row {
        return;
    }
    let stock = &case.channel;
    for n in 0..=last_step(case) {
        let station_m = f64::from(n) * 0.05;
        let plan = axis_plan(case, station_m);
        let mut ends = Vec::new();
        for (index, span) in [(a, from), (b, to)] {
            let at = (plan - span.start).dot(span.direction);
            let to_member = span.start + span.direction * at - plan;
            let inside = span.usable_m.0 - SLACK <= at && at <= span.usable_m.1 + SLACK;
            let grip = grip(span, at);
            let refused = matches!(
                (&span.hang_points, grip),
                (
                    HangPoints::Panels {
                        off_panel: None,
                        ..
                    },
                    Grip::Panel(_)
                )
            );
            if inside && !refused {
                ends.push((index, grip, to_member, height(span, at)));
            }
        }
        let [(_, grip_a, to_a, z_a), (_, grip_b, to_b, z_b)] = ends[..] else {
            continue;
        };
        let (away_a, away_b) = (to_a.length(), to_b.length());
        let s = away_a + away_b;
        let fits = to_a.dot(to_b) < 0.0
            && away_a >= 0.05 - SLACK
            && away_b >= 0.05 - SLACK
            && s <= 3.0 + SLACK
            && (z_a - z_b).abs() <= 0.10 + SLACK;
        if fits {
            let z = z_a * away_b / s + z_b * away_a / s - stock.depth_m;
            let ends = vec![(a, grip_a, away_b / s), (b, grip_b, away_a / s)];
            let station_nm = i64::from(n) * 50_000_000;
            let channel = Some((away_a, away_b));
            note(
                case,
                found,
                station_nm,
                Kind::Channel,
                (plan, z),
                ends,
                channel,
            );
        }
    }
}
