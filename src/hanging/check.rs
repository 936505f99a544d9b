//! Holds hangers against every limit.

use super::candidate::Place;
use super::case::Case;
use super::limit::{Bound, Limit, LimitBreach};
use super::loads::{HoldLoad, LoadPlace};
use super::outcome::Hanger;
use super::run::Window;
use super::steel::Capacity;
use crate::geometry::tolerance;

/// Every limit that the hangers, ascending by station, don't keep.
pub(super) fn breaches(case: &Case<'_>, hangers: &[Hanger]) -> Vec<LimitBreach> {
    let mut found = Findings::default();
    positions(case, hangers, &mut found);
    for (which, hanger) in hangers.iter().enumerate() {
        suspension(case, which, hanger, &mut found);
        channel(which, hanger, &mut found);
    }
    loads(hangers, &mut found);
    spans(hangers, &mut found);
    balance(case, hangers, &mut found);
    found.list
}

#[derive(Default)]
struct Findings {
    list: Vec<LimitBreach>,
}

impl Findings {
    fn note(
        &mut self,
        limit: Limit,
        hangers: &[usize],
        bound: Bound,
        measured: f64,
        required: f64,
    ) {
        self.list.push(LimitBreach {
            limit,
            hangers: hangers.to_vec(),
            place: None,
            measured,
            required,
            bound,
        });
    }

    fn at_least(&mut self, limit: Limit, hangers: &[usize], measured: f64, required: f64) {
        if measured < required - tolerance::LIMIT {
            self.note(limit, hangers, Bound::Least, measured, required);
        }
    }

    fn at_most(&mut self, limit: Limit, hangers: &[usize], measured: f64, required: f64) {
        if measured > required + tolerance::LIMIT {
            self.note(limit, hangers, Bound::Greatest, measured, required);
        }
    }

    fn within(&mut self, limits: (Limit, Limit), hangers: &[usize], measured: f64, in_: Window) {
        self.at_least(limits.0, hangers, measured, in_.least_m);
        self.at_most(limits.1, hangers, measured, in_.greatest_m);
    }
}

/// First, second, further spacings, overhang.
fn positions(case: &Case<'_>, hangers: &[Hanger], found: &mut Findings) {
    let rule = case.rule;
    if let Some(first) = hangers.first() {
        let limits = (Limit::FirstHanger, Limit::FirstHanger);
        found.within(limits, &[0], first.at.station_m, rule.first);
    }
    for (which, pair) in hangers.windows(2).enumerate() {
        let apart_m = pair[1].at.station_m - pair[0].at.station_m;
        let (limits, window) = if which == 0 {
            ((Limit::SecondHanger, Limit::SecondHanger), rule.second)
        } else {
            ((Limit::LeastSpacing, Limit::GreatestSpacing), rule.spacing)
        };
        found.within(limits, &[which, which + 1], apart_m, window);
    }
    let last_m = hangers.last().map_or(0.0, |last| last.at.station_m);
    found.at_most(
        Limit::EndOverhang,
        hangers.len().checked_sub(1).as_slice(),
        case.run.tube_length_m - last_m,
        rule.greatest_overhang_m,
    );
}

/// Joint, suspension length, lean, swing.
fn suspension(case: &Case<'_>, which: usize, hanger: &Hanger, found: &mut Findings) {
    let rule = case.rule;
    let at = &hanger.at;
    let joint_m = rule
        .joints_m
        .iter()
        .map(|joint_m| (joint_m - at.station_m).abs())
        .fold(f64::INFINITY, f64::min);
    found.at_least(Limit::Joint, &[which], joint_m, rule.joint_keep_off_m);
    let least_m = rule.least_suspension_m;
    found.at_least(Limit::Suspension, &[which], at.suspension_m, least_m);
    found.at_most(Limit::Lean, &[which], at.lean_rad, rule.greatest_lean_rad);
    let greatest_rad = rule.greatest_swing_rad;
    found.at_most(Limit::Swing, &[which], hanger.swing_rad, greatest_rad);
}

fn channel(which: usize, hanger: &Hanger, found: &mut Findings) {
    let Some(check) = hanger.load.channel else {
        return;
    };
    for (limit, measured, allowed) in [
        (
            Limit::ChannelBending,
            check.moment_n_m,
            check.allowed_moment_n_m,
        ),
        (
            Limit::ChannelDeflection,
            check.deflection_m,
            check.allowed_deflection_m,
        ),
    ] {
        if measured > allowed * (1.0 + tolerance::LIMIT) {
            found.note(limit, &[which], Bound::Greatest, measured, allowed);
        }
    }
}

/// Each joist or truss that carries too much in all, once. Of a beam or a purlin its
/// place says the same.
fn spans(hangers: &[Hanger], found: &mut Findings) {
    let holds = all_holds(hangers);
    for (nth, &(_, hold)) in holds.iter().enumerate() {
        let same = |&&(_, other): &&(usize, &HoldLoad)| {
            other.place.member == hold.place.member && other.place.place != Place::Line
        };
        let Some(Capacity::Known(required)) = hold
            .allowed_in_all
            .filter(|all| hold.place.place != Place::Line && !all.allows(hold.span_sum_n))
        else {
            continue;
        };
        if holds[..nth].iter().any(|other| same(&other)) {
            continue;
        }
        found.list.push(LimitBreach {
            limit: Limit::Load,
            hangers: holds.iter().filter(same).map(|&(which, _)| which).collect(),
            place: Some(LoadPlace {
                member: hold.place.member.clone(),
                place: Place::Line,
            }),
            measured: hold.span_sum_n,
            required,
            bound: Bound::Greatest,
        });
    }
}

fn all_holds(hangers: &[Hanger]) -> Vec<(usize, &HoldLoad)> {
    hangers
        .iter()
        .enumerate()
        .flat_map(|(which, hanger)| hanger.load.holds.iter().map(move |hold| (which, hold)))
        .collect()
}

/// Each overloaded attachment, and each overloaded sum once.
fn loads(hangers: &[Hanger], found: &mut Findings) {
    let holds = all_holds(hangers);
    for (nth, &(which, hold)) in holds.iter().enumerate() {
        let sum_fails = hold.allowed_sum.filter(|sum| !sum.allows(hold.sum_n));
        let (measured, allowed, about) = if let Some(sum) = sum_fails {
            let same = |&&(_, other): &&(usize, &HoldLoad)| other.place == hold.place;
            if holds[..nth].iter().any(|other| same(&other)) {
                continue;
            }
            let about = holds.iter().filter(same).map(|&(which, _)| which).collect();
            (hold.sum_n, sum, about)
        } else if !hold.allowed_single.allows(hold.load_n) {
            (hold.load_n, hold.allowed_single, vec![which])
        } else {
            continue;
        };
        if let Capacity::Known(required) = allowed {
            found.list.push(LimitBreach {
                limit: Limit::Load,
                hangers: about,
                place: Some(hold.place.clone()),
                measured,
                required,
                bound: Bound::Greatest,
            });
        }
    }
}

/// The weight must be between the outermost hangers, or the run tips.
fn balance(case: &Case<'_>, hangers: &[Hanger], found: &mut Findings) {
    let (Some(first), Some(last)) = (hangers.first(), hangers.last()) else {
        return;
    };
    let load = case.weight.beam_load(case.run.tube_length_m);
    let centre_m = load.moment_n_m() / load.total_n();
    let end = hangers.len() - 1;
    found.at_least(Limit::Balance, &[0], centre_m, first.at.station_m);
    found.at_most(Limit::Balance, &[end], centre_m, last.at.station_m);
}
