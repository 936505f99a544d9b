//! What a set of hangers puts on each place, and whether that is allowed.

use std::sync::Arc;

use super::beam::{BeamLoad, BeamSolver, PointLoad, Support};
use super::candidate::{Candidate, Place};
use super::case::Case;
use super::channel::ChannelCheck;
use super::run::RunWeight;
use super::steel::Capacity;
use crate::geometry::tolerance;

/// Standard gravity, m/s2 (3rd General Conference on Weights and Measures, 1901).
pub const GRAVITY: f64 = 9.806_65;

impl RunWeight {
    /// The masses as forces on a tube of the given length.
    #[must_use]
    pub fn beam_load(&self, tube_length_m: f64) -> BeamLoad {
        BeamLoad {
            length_m: tube_length_m,
            spread_n_per_m: self.spread_kg_per_m * GRAVITY,
            points: self
                .single
                .iter()
                .map(|mass| PointLoad {
                    station_m: mass.station_m,
                    force_n: mass.mass_kg * GRAVITY,
                })
                .collect(),
            stiffness_n_m2: self.stiffness_n_m2,
        }
    }
}

/// One place on one member, as loads are summed there.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct LoadPlace {
    /// The member's id.
    pub member: Arc<str>,
    /// The part of it.
    pub place: Place,
}

/// What one hold of a hanger carries.
#[derive(Debug, Clone, PartialEq)]
pub struct HoldLoad {
    /// Where.
    pub place: LoadPlace,
    /// This hanger's load there, N.
    pub load_n: f64,
    /// All that this run's hangers put there, N.
    pub sum_n: f64,
    /// What one attachment may carry there.
    pub allowed_single: Capacity,
    /// What the sum may be; none where each attachment is judged alone.
    pub allowed_sum: Option<Capacity>,
    /// All that this run's hangers put on the whole member span, N.
    pub span_sum_n: f64,
    /// What the whole member span may carry; none where nobody has said.
    pub allowed_in_all: Option<Capacity>,
}

impl HoldLoad {
    /// Whether attachment and sums are allowed.
    #[must_use]
    pub fn passes(&self) -> bool {
        self.allowed_single.allows(self.load_n)
            && self.allowed_sum.is_none_or(|sum| sum.allows(self.sum_n))
            && self
                .allowed_in_all
                .is_none_or(|all| all.allows(self.span_sum_n))
    }

    /// The places where this hold counts in a sum that is limited: what this run's hangers
    /// put there, N, and what all may.
    pub(super) fn limited_sums(&self) -> impl Iterator<Item = (LoadPlace, f64, Capacity)> {
        let own = self
            .allowed_sum
            .map(|allowed| (self.place.clone(), self.sum_n, allowed));
        let whole = self
            .span_place()
            .zip(self.allowed_in_all)
            .map(|(place, allowed)| (place, self.span_sum_n, allowed));
        own.into_iter().chain(whole)
    }

    /// The span as a whole, where this hold's place is only a part of it and both are
    /// limited.
    #[must_use]
    pub fn span_place(&self) -> Option<LoadPlace> {
        let counts = self.place.place != Place::Line && self.allowed_in_all.is_some();
        counts.then(|| LoadPlace {
            member: Arc::clone(&self.place.member),
            place: Place::Line,
        })
    }
}

/// One hanger's part in carrying the run.
#[derive(Debug, Clone, PartialEq)]
pub struct HangerLoad {
    /// Its pull, N, never negative.
    pub load_n: f64,
    /// The tube lies higher than its taut length here: it carries nothing.
    pub slack: bool,
    /// How much higher, m.
    pub lift_m: f64,
    /// The greatest load that it may carry, as far as it hangs there alone: that of
    /// its hold, or the least that a channel, its shares and its ends allow.
    pub allowed: Capacity,
    /// Its one or two holds.
    pub holds: Vec<HoldLoad>,
    /// Its channel, if it has one.
    pub channel: Option<ChannelCheck>,
}

/// Judges the sets of one run by their loads.
pub(super) struct Judge<'a> {
    case: Case<'a>,
    load: &'a BeamLoad,
    solver: BeamSolver<'a>,
    supports: Vec<Support>,
    sums: Vec<Sum>,
}

impl<'a> Judge<'a> {
    /// A judge for a run whose weight is already turned to forces.
    #[must_use]
    pub(super) fn new(case: Case<'a>, load: &'a BeamLoad) -> Self {
        Self {
            case,
            load,
            solver: BeamSolver::new(load),
            supports: Vec::new(),
            sums: Vec::new(),
        }
    }

    /// Whether all loads of a set are allowed. False too where it would tip.
    pub(super) fn allows(&mut self, set: &[Candidate]) -> bool {
        self.supports.clear();
        self.supports.extend(set.iter().map(level));
        if !self.solver.solve(&self.supports) {
            return false;
        }
        self.sums.clear();
        for (candidate, &load_n) in set.iter().zip(self.solver.pull_n()) {
            for hold in candidate.holds() {
                let part_n = load_n * hold.share;
                let span = &self.case.spans[hold.span];
                if !span.allowed_single(hold.place).allows(part_n) {
                    return false;
                }
                for place in span.counted_at(hold.place) {
                    add(&mut self.sums, hold.span, place, part_n);
                }
            }
            if let Some(lay) = candidate.channel
                && !ChannelCheck::new(&self.case.channel, lay, load_n).passes()
            {
                return false;
            }
        }
        self.sums.iter().all(|&(span, place, sum_n)| {
            self.case.spans[span]
                .allowed_sum(place)
                .is_none_or(|allowed| allowed.allows(sum_n))
                && self.case.room_at(span, place) >= sum_n
        })
    }

    /// Every load of a set; none where it would tip.
    #[must_use]
    pub(super) fn loads(&self, set: &[Candidate]) -> Option<Vec<HangerLoad>> {
        let supports: Vec<Support> = set.iter().map(level).collect();
        let held = self.load.held_by(&supports)?;
        let (mut sums, mut whole) = (Vec::new(), Vec::new());
        for (candidate, &load_n) in set.iter().zip(&held.pull_n) {
            for hold in candidate.holds() {
                add(&mut sums, hold.span, hold.place, load_n * hold.share);
                add(&mut whole, hold.span, Place::Line, load_n * hold.share);
            }
        }
        let slack_below_n = self.load.total_n().abs() * tolerance::BEAM;
        let one = |(candidate, which): (&Candidate, usize)| {
            let load_n = held.pull_n[which];
            HangerLoad {
                load_n,
                slack: load_n <= slack_below_n,
                lift_m: held.lift_m[which],
                allowed: self.greatest_load(candidate),
                holds: self.hold_loads(candidate, load_n, (&sums, &whole)),
                channel: candidate
                    .channel
                    .map(|lay| ChannelCheck::new(&self.case.channel, lay, load_n)),
            }
        };
        Some(set.iter().zip(0..).map(one).collect())
    }

    /// What a hanger without loads shows where the run would tip.
    pub(super) fn without_load(&self, candidate: &Candidate) -> HangerLoad {
        HangerLoad {
            load_n: 0.0,
            slack: true,
            lift_m: 0.0,
            allowed: self.greatest_load(candidate),
            holds: self.hold_loads(candidate, 0.0, (&[], &[])),
            channel: candidate
                .channel
                .map(|lay| ChannelCheck::new(&self.case.channel, lay, 0.0)),
        }
    }

    fn hold_loads(
        &self,
        candidate: &Candidate,
        load_n: f64,
        (sums, whole): (&[Sum], &[Sum]),
    ) -> Vec<HoldLoad> {
        candidate
            .holds()
            .map(|hold| {
                let span = &self.case.spans[hold.span];
                HoldLoad {
                    place: LoadPlace {
                        member: span.id.clone(),
                        place: hold.place,
                    },
                    load_n: load_n * hold.share,
                    sum_n: sum_at(sums, hold.span, hold.place),
                    allowed_single: span.allowed_single(hold.place),
                    allowed_sum: span.allowed_sum(hold.place),
                    span_sum_n: sum_at(whole, hold.span, Place::Line),
                    allowed_in_all: span.allowed_in_all(),
                }
            })
            .collect()
    }

    fn greatest_load(&self, candidate: &Candidate) -> Capacity {
        let of_channel = candidate.channel.map_or(f64::INFINITY, |lay| {
            ChannelCheck::greatest_load_n(&self.case.channel, lay)
        });
        candidate
            .holds()
            .fold(Capacity::Known(of_channel), |least, hold| {
                match self.case.spans[hold.span].allowed_alone(hold.place) {
                    Capacity::Known(allowed_n) => {
                        least.lesser(Capacity::Known(allowed_n / hold.share))
                    }
                    Capacity::Unknown => Capacity::Unknown,
                }
            })
    }
}

/// A hanger of the right length.
fn level(candidate: &Candidate) -> Support {
    Support {
        station_m: candidate.station_m,
        offset_m: 0.0,
    }
}

/// What comes to a place of a span, N.
type Sum = (usize, Place, f64);

fn sum_at(sums: &[Sum], span: usize, place: Place) -> f64 {
    sums.iter()
        .find(|known| known.0 == span && known.1 == place)
        .map_or(0.0, |&(.., sum_n)| sum_n)
}

fn add(sums: &mut Vec<Sum>, span: usize, place: Place, load_n: f64) {
    match sums
        .iter_mut()
        .find(|(known_span, known_place, _)| *known_span == span && *known_place == place)
    {
        Some((.., sum_n)) => *sum_n += load_n,
        None => sums.push((span, place, load_n)),
    }
}
