//! Runs that share places of members hang together as the best of all combinations of
//! their sets does.

use std::collections::BTreeMap;
use std::sync::Arc;

use fastrand::Rng;
use rafterglow::geometry::DVec2;
use rafterglow::hanging::{
    Beside, Capacity, Case, HangPoints, Hanging, HoldLoad, LockedHanger, MOST_SETS_TOGETHER,
    Settled, SpanInSpace, Status, Together, check_locked, hang, hang_together, settle,
};

use super::hanging_instances::{Instance, between, family_weight, small_group};
use super::hanging_oracle::{Listed, Place, Spot, allowed_sets, nm};
use super::hanging_properties::{placed, same};

/// Sets that are listed at most for one run, and combinations that are looked at for one
/// instance; with more, another is drawn.
const MOST_LISTED: usize = 1_500;
const MOST_COMBINED: usize = 60_000;

/// All of them with RAFTERGLOW_FULL set, a few hundred in the ordinary run.
fn instances() -> usize {
    if std::env::var_os("RAFTERGLOW_FULL").is_some() {
        1_000
    } else {
        60
    }
}

/// Some runs, hung as the study hangs them.
fn hung(cases: &[Case<'_>], kept: &[(usize, Arc<Hanging>)]) -> Settled<Arc<Hanging>, Together> {
    let kept_at = |run: usize| kept.iter().find(|&&(at, _)| at == run).map(|(_, it)| it);
    let alone: Vec<Arc<Hanging>> = cases
        .iter()
        .enumerate()
        .map(|(run, case)| match kept_at(run) {
            Some(hanging) => Arc::clone(hanging),
            None => Arc::new(hang(case)),
        })
        .collect();
    settle(&alone, |runs| {
        let asked: Vec<usize> = (0..cases.len())
            .filter(|run| kept_at(*run).is_some() || runs.contains(run))
            .collect();
        let beside: Vec<Beside<'_>> = asked
            .iter()
            .map(|&run| match kept_at(run) {
                Some(hanging) => Beside::Kept(hanging),
                None => Beside::Chosen {
                    case: &cases[run],
                    alone: &alone[run],
                },
            })
            .collect();
        let together = hang_together(&beside);
        let hangings = together.hangings.iter().flatten().cloned().map(Arc::new);
        (hangings.collect(), together)
    })
}

/// The least combination, by looking at all of them: for each run the number of its set.
struct Least<'a> {
    lists: Vec<&'a [Listed]>,
    looked_at: usize,
    best: Option<(u64, Vec<usize>)>,
}

impl Least<'_> {
    /// None if there are too many.
    fn look(
        &mut self,
        begun: &mut Vec<usize>,
        spent: u64,
        loads: &BTreeMap<Place, f64>,
    ) -> Option<()> {
        let Some(list) = self.lists.get(begun.len()) else {
            if self.best.as_ref().is_none_or(|&(cost, _)| spent < cost) {
                self.best = Some((spent, begun.clone()));
            }
            return Some(());
        };
        for (which, set) in list.iter().enumerate() {
            // Combinations come in the order of the definition but for their cost.
            let rest: u64 = self.lists[begun.len() + 1..]
                .iter()
                .map(|list| list[0].cost)
                .sum();
            let is_dearer = |&(cost, _): &(u64, _)| spent + set.cost + rest >= cost;
            if self.best.as_ref().is_some_and(is_dearer) {
                break;
            }
            self.looked_at += 1;
            if self.looked_at > MOST_COMBINED {
                return None;
            }
            let Some(loads) = added(loads, set) else {
                continue;
            };
            begun.push(which);
            self.look(begun, spent + set.cost, &loads)?;
            begun.pop();
        }
        Some(())
    }
}

/// Loads with those of one more set; none if that is too much anywhere it adds something.
fn added(loads: &BTreeMap<Place, f64>, set: &Listed) -> Option<BTreeMap<Place, f64>> {
    let mut loads = loads.clone();
    for (place, load, limit) in &set.loads {
        let sum = loads.entry(place.clone()).or_insert(0.0);
        *sum += load;
        if *load > 0.0 && limit.is_some_and(|limit| *sum > limit) {
            return None;
        }
    }
    Some(loads)
}

/// Which set each run has; none where it is left out.
type Sets = Vec<Option<usize>>;

/// The answer by definition; none if too many combinations would have to be looked at.
fn by_definition(lists: &[Vec<Listed>], kept: &BTreeMap<Place, f64>) -> Option<Sets> {
    let least = |runs: &[usize]| -> Option<Option<Vec<usize>>> {
        let mut least = Least {
            lists: runs.iter().map(|&run| &lists[run][..]).collect(),
            looked_at: 0,
            best: None,
        };
        least.look(&mut Vec::new(), 0, kept)?;
        Some(least.best.map(|(_, sets)| sets))
    };
    let mut taken: Vec<usize> = Vec::new();
    let mut sets = Vec::new();
    for run in (0..lists.len()).filter(|&run| !lists[run].is_empty()) {
        let more: Vec<usize> = taken.iter().copied().chain([run]).collect();
        if let Some(found) = least(&more)? {
            (taken, sets) = (more, found);
        }
    }
    let mut answer = vec![None; lists.len()];
    for (run, set) in taken.into_iter().zip(sets) {
        answer[run] = Some(set);
    }
    Some(answer)
}

fn agrees(ours: &Hanging, spots: &[Spot]) {
    assert_eq!(ours.hangers.len(), spots.len());
    for (hanger, spot) in ours.hangers.iter().zip(spots) {
        assert_eq!(nm(hanger.at.station_m), spot.station_nm);
        assert!(
            hanger
                .at
                .members()
                .eq(spot.members.iter().map(String::as_str))
        );
        assert_eq!(hanger.at.kind, spot.kind);
    }
}

/// What must hold of any answer, proven or not.
fn is_sound(ours: &Settled<Arc<Hanging>, Together>) {
    for place in ours.loads.values() {
        let is_kept = |run: usize| ours.hangings[run].status == Status::Locked;
        let mut parts = place.parts.iter();
        assert!(place.passes() || parts.all(|part| part.load_n == 0.0 || is_kept(part.run)));
    }
    for group in &ours.groups {
        let answer = &group.answer;
        let hangings = || group.runs.iter().map(|&run| &ours.hangings[run]);
        let cost: u64 = hangings().filter_map(|hanging| hanging.cost).sum();
        assert_eq!(cost, answer.cost);
        assert!(answer.least_cost <= cost && !answer.contested.is_empty());
        assert!(!answer.proven || answer.least_cost == cost);
        for hanging in hangings() {
            let proven = matches!(hanging.status, Status::Solved | Status::Impossible);
            assert_eq!(proven, answer.proven);
            assert_eq!(hanging.obstacle.is_some(), hanging.hangers.is_empty());
            assert!(
                hanging
                    .hangers
                    .iter()
                    .all(|hanger| hanger.load.holds.iter().all(HoldLoad::passes))
            );
        }
    }
}

#[derive(Debug, Default)]
struct Tally {
    judged: usize,
    grouped: usize,
    dearer: usize,
    left_out: usize,
    channels: usize,
}

/// Draws instances with this many runs and holds the engine against the definition;
/// the first `n_kept` runs have kept hangers, of any allowed set.
fn compare(random: &mut Rng, (runs, n_kept): (usize, usize), wanted: usize) -> Tally {
    let mut tally = Tally::default();
    while tally.judged < wanted {
        let instances = small_group(random, runs);
        let cases: Vec<Case<'_>> = instances.iter().map(Instance::case).collect();
        // Most that are drawn don't get in each other's way: some of those are enough.
        if hung(&cases, &[]).groups.is_empty() && random.u8(0..9) > 0 {
            continue;
        }
        let lists: Option<Vec<Vec<Listed>>> = cases
            .iter()
            .map(|case| allowed_sets(case, MOST_LISTED))
            .collect();
        let Some(lists) = lists.filter(|lists| lists[..n_kept].iter().all(|list| !list.is_empty()))
        else {
            continue;
        };
        let mut kept = Vec::new();
        let mut taken = BTreeMap::new();
        for (run, list) in lists[..n_kept].iter().enumerate() {
            let set = &list[random.usize(..list.len())];
            let hangers: Vec<LockedHanger> = set.spots.iter().map(Spot::kept).collect();
            kept.push((run, Arc::new(check_locked(&cases[run], &hangers))));
            for (place, load, _) in &set.loads {
                *taken.entry(place.clone()).or_insert(0.0) += load;
            }
        }
        let ours = hung(&cases, &kept);
        let Some(expected) = by_definition(&lists[n_kept..], &taken) else {
            continue;
        };
        tally.judged += 1;
        tally.grouped += usize::from(!ours.groups.is_empty());
        is_sound(&ours);
        for (run, hanging) in &kept {
            assert!(Arc::ptr_eq(&ours.hangings[*run], hanging));
        }
        let (mut cost, mut alone_cost) = (0, 0);
        for ((set, list), hanging) in expected
            .iter()
            .zip(&lists[n_kept..])
            .zip(&ours.hangings[n_kept..])
        {
            if let Some(set) = set {
                let set = &list[*set];
                assert_eq!(hanging.status, Status::Solved);
                agrees(hanging, &set.spots);
                assert_eq!(hanging.cost, Some(set.cost));
                cost += set.cost;
                alone_cost += list[0].cost;
                tally.channels += set
                    .spots
                    .iter()
                    .filter(|spot| spot.members.len() == 2)
                    .count();
            } else {
                assert_eq!(hanging.status, Status::Impossible);
                let together = hanging
                    .obstacle
                    .iter()
                    .flat_map(|obstacle| &obstacle.together);
                assert_eq!(together.count() == 0, list.is_empty());
                tally.left_out += usize::from(!list.is_empty());
            }
        }
        tally.dearer += usize::from(cost > alone_cost);
    }
    assert!(tally.grouped * 3 >= wanted, "{tally:?}");
    tally
}

/// Enough of a kind came up to say something.
fn is_telling(tally: &Tally) {
    let judged = tally.judged;
    let telling = tally.dearer * 20 >= judged && tally.left_out * 30 >= judged;
    assert!(telling && tally.channels > 0, "{tally:?}");
}

#[test]
fn two_runs_hang_as_the_best_of_all_combinations() {
    is_telling(&compare(&mut Rng::with_seed(51), (2, 0), instances()));
}

#[test]
fn three_runs_hang_as_the_best_of_all_combinations() {
    is_telling(&compare(&mut Rng::with_seed(52), (3, 0), instances()));
}

#[test]
fn runs_beside_kept_hangers_hang_as_the_best_of_all_combinations() {
    for (seed, runs, n_kept) in [(53, 2, 1), (54, 3, 1), (55, 3, 2)] {
        compare(&mut Rng::with_seed(seed), (runs, n_kept), instances() / 4);
    }
}

#[test]
fn four_and_five_runs_hang_as_the_best_of_all_combinations() {
    compare(&mut Rng::with_seed(56), (4, 0), instances() / 4);
    compare(&mut Rng::with_seed(57), (5, 0), instances() / 10);
}

/// A long run with a light burner each half metre, now farther along and now less, under
/// beams that bear so much each, N.
fn crowd(runs: u8, bears: f64) -> Vec<Instance> {
    let mut first = Instance::bare(12.0);
    first.weight = family_weight(5.0);
    first.spans = (0..24)
        .map(|row| {
            let x = -0.4 + 0.6 * f64::from(row);
            Arc::new(SpanInSpace {
                id: Arc::from(format!("B-{row:02}")),
                framing: 0,
                // Neighbours a row apart have no channel between them.
                row: 2 * usize::try_from(row).unwrap_or(0),
                start: DVec2::new(x, -20.0),
                direction: DVec2::Y,
                usable_m: (0.0, 40.0),
                attach_m: vec![(0.0, 6.0)],
                hang_points: HangPoints::Anywhere {
                    allowed: Capacity::Unknown,
                    in_all: Some(Capacity::Known(bears)),
                },
            })
        })
        .collect();
    (0..runs)
        .map(|run| {
            let mut instance = first.clone();
            instance.run.flange.y = 0.5 * f64::from(run);
            instance.run.flange.x = 0.6 * f64::from(run % 5);
            instance
        })
        .collect()
}

/// Many runs: what is answered holds, and where too many sets would have to be tried, what
/// they cost at least is said.
#[test]
fn a_crowd_hangs_with_a_bound_beside_its_cost() {
    let answer = |runs, bears| {
        let instances = crowd(runs, bears);
        let cases: Vec<Case<'_>> = instances.iter().map(Instance::case).collect();
        let ours = hung(&cases, &[]);
        is_sound(&ours);
        assert_eq!(ours.groups.len(), 1);
        ours.groups[0].answer.clone()
    };
    let proven = answer(8, 350.0);
    assert!(
        proven.proven
            && proven
                .hangings
                .iter()
                .flatten()
                .all(|it| it.cost == Some(6_000))
    );
    let open = answer(20, 700.0);
    assert!(!open.proven && 19 * 6_000 <= open.least_cost && open.least_cost < open.cost);
    assert!(open.sets_tried > MOST_SETS_TOGETHER / 4 && open.sets_tried < 3 * MOST_SETS_TOGETHER);
}

/// No direction is special, and without anyone left out the sum of costs doesn't depend on
/// who comes first.
#[test]
fn turning_moving_mirroring_or_another_order_changes_nothing() {
    let mut random = Rng::with_seed(58);
    let (mut judged, mut reversed) = (0, 0);
    while judged < 30 {
        let instances = small_group(&mut random, 3);
        let cases: Vec<Case<'_>> = instances.iter().map(Instance::case).collect();
        let before = hung(&cases, &[]);
        if before.groups.is_empty() {
            continue;
        }
        judged += 1;
        let angle_rad = between(&mut random, 0.0, 6.3);
        let by = DVec2::new(1_000.0, -700.0) * f64::from(random.u8(0..2));
        let mirror = [1.0, -1.0][random.usize(0..2)];
        let others: Vec<Instance> = instances
            .iter()
            .map(|instance| placed(instance, angle_rad, by, mirror))
            .collect();
        let cases: Vec<Case<'_>> = others.iter().map(Instance::case).collect();
        let after = hung(&cases, &[]);
        for (a, b) in before.hangings.iter().zip(&after.hangings) {
            same(a, b);
        }
        for (a, b) in before.groups.iter().zip(&after.groups) {
            assert_eq!(a.runs, b.runs);
            assert_eq!(a.answer.contested, b.answer.contested);
        }
        let cases: Vec<Case<'_>> = instances.iter().rev().map(Instance::case).collect();
        let after = hung(&cases, &[]);
        let cost = |it: &Settled<Arc<Hanging>, Together>| -> u64 {
            it.hangings.iter().filter_map(|hanging| hanging.cost).sum()
        };
        let nobody_is_out = |it: &Settled<Arc<Hanging>, Together>| {
            it.hangings
                .iter()
                .all(|hanging| !hanging.hangers.is_empty())
        };
        assert_eq!(nobody_is_out(&before), nobody_is_out(&after));
        if nobody_is_out(&before) {
            assert_eq!(cost(&before), cost(&after));
            reversed += 1;
        }
    }
    assert!(reversed > 8, "only {reversed} had all their runs");
}
