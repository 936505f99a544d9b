//! Why a run can't be hung.

use super::candidate::Gathering;
use super::case::Case;
use super::limit::{Limit, LimitBreach};
use super::outcome::{Status, finish};
use super::search::{SETS_FOR_A_YES, preferred, search};

/// What stands in the way of hanging a run.
#[derive(Debug, Clone, PartialEq)]
pub struct Obstacle {
    /// Every limit that, lifted alone, would let the run hang: each is proven by a set
    /// that was found without it. Where loads narrow the choice, one may be missed.
    pub helps: Vec<Limit>,
    /// The longest stretch of the tube without a usable candidate, from and to, m.
    pub longest_stretch_m: (f64, f64),
    /// How far the run must come down until it could hang, m, a whole number of
    /// millimetres; none where coming down doesn't help.
    pub come_down_m: Option<f64>,
    /// What is overloaded in the set that would be chosen if loads didn't count;
    /// empty if there is none.
    pub overloads: Vec<LimitBreach>,
    /// What it would overload together with other runs, if it hung as it does where no
    /// other run is: measured are the loads of all. Empty where the others leave it room.
    pub together: Vec<LimitBreach>,
}

/// Finds what blocks a run for which no set was found.
pub(super) fn obstacle(all: &Gathering<'_>) -> Obstacle {
    let case = all.case;
    let preferred = preferred(all);
    let helps: Vec<Limit> = Limit::LIFTED_ALONE
        .into_iter()
        .filter(|&limit| match limit {
            Limit::Load => preferred.is_some(),
            _ => hangs_without(case, limit),
        })
        .collect();
    let overloads = preferred.map_or_else(Vec::new, |set| {
        let set = finish(case, Status::Impossible, set, 0, None);
        set.breaches
            .into_iter()
            .filter(|breach| {
                matches!(
                    breach.limit,
                    Limit::Load | Limit::ChannelBending | Limit::ChannelDeflection | Limit::Balance
                )
            })
            .collect()
    });
    Obstacle {
        come_down_m: come_down(case, &helps),
        helps,
        longest_stretch_m: longest_stretch(all),
        overloads,
        together: Vec::new(),
    }
}

fn hangs_without(case: &Case<'_>, limit: Limit) -> bool {
    let rule = case.rule.without(limit);
    let freer = Case {
        rule: &rule,
        ..*case
    };
    search(&Gathering::done(&freer), SETS_FOR_A_YES)
        .chosen
        .is_some()
}

/// How far the run must come down until it could hang, m: the least that does, up to a
/// millimetre, as far as coming down farther never makes it worse.
///
/// Looked for only where suspensions are what blocks, or where no single limit does,
/// as for a tube above the steel.
fn come_down(case: &Case<'_>, helps: &[Limit]) -> Option<f64> {
    if !helps.is_empty() && !helps.contains(&Limit::Suspension) {
        return None;
    }
    let axis = case.run.axis();
    let highest_eye_m = axis
        .highest_eye_m(0.0)
        .max(axis.highest_eye_m(case.run.tube_length_m));
    let attach = case.spans.iter().flat_map(|span| &span.attach_m);
    let lowest_m = attach.map(|&(_, z)| z).fold(f64::INFINITY, f64::min);
    // So far down, every suspension is long enough.
    let enough_m = highest_eye_m + case.rule.least_suspension_m - lowest_m;
    let enough = (enough_m * MILLIMETRES).ceil();
    if !(enough > 0.0 && enough_m <= case.run.flange.z && hangs_lower(case, enough)) {
        return None;
    }
    let (mut too_high, mut low_enough) = (0.0, enough);
    while low_enough - too_high > 1.0 {
        let between = f64::midpoint(too_high, low_enough).floor();
        if hangs_lower(case, between) {
            low_enough = between;
        } else {
            too_high = between;
        }
    }
    Some(low_enough / MILLIMETRES)
}

/// Millimetres in a metre.
const MILLIMETRES: f64 = 1000.0;

/// Whether the run could hang so many millimetres lower.
fn hangs_lower(case: &Case<'_>, by_mm: f64) -> bool {
    let mut run = case.run.clone();
    run.flange.z -= by_mm / MILLIMETRES;
    let lower = Case { run: &run, ..*case };
    search(&Gathering::done(&lower), SETS_FOR_A_YES)
        .chosen
        .is_some()
}

/// The longest stretch without a usable candidate; the tube's ends count as ends.
fn longest_stretch(all: &Gathering<'_>) -> (f64, f64) {
    let usable = all
        .spots
        .iter()
        .filter(|spot| spot.refused.is_none())
        .map(|spot| spot.station_m);
    let mut from_m = 0.0;
    let mut longest = (0.0, 0.0);
    for to_m in usable.chain([all.case.run.tube_length_m]) {
        if to_m - from_m > longest.1 - longest.0 {
            longest = (from_m, to_m);
        }
        from_m = to_m;
    }
    longest
}
