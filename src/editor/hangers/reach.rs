//! Which hang point a hand or a key means.

use crate::geometry::DVec2;
use crate::hanging::{Candidate, Kind, RunAxis};
use crate::site::RunId;
use crate::study::{RunStudy, Study};
use std::cmp::Ordering;
use std::sync::Arc;

/// Two hang points nearer than this along the tube are at the same station, m: a hand
/// can't tell them apart, and two hangers there would be one.
const SAME_STATION: f64 = 1e-3;

/// Nearer to another hanger than this a hand never means to put one, m.
const CLEAR_OF_OTHERS: f64 = 0.3;

/// The hang points that the picked run could use; worked out again when its study is
/// another one.
#[derive(Debug, Default)]
pub(crate) struct HangPoints {
    of: Option<Arc<RunStudy>>,
    all: Arc<[Candidate]>,
}

impl HangPoints {
    /// Follows the picked run's study.
    pub(crate) fn follow(&mut self, study: Option<&Arc<Study>>, run: Option<&RunId>) {
        let now = study.and_then(|study| Some((study, study.run(run?)?)));
        match (now, &self.of) {
            (Some((_, run)), Some(known)) if Arc::ptr_eq(run, known) => {}
            (Some((study, run)), _) => {
                self.all = study.considered(run).into();
                self.of = Some(Arc::clone(run));
            }
            (None, Some(_)) => *self = Self::default(),
            (None, None) => {}
        }
    }

    /// Those of a run, by station; none of a run that is not the picked one.
    pub(crate) fn of(&self, run: &RunId) -> &[Candidate] {
        match &self.of {
            Some(known) if known.run.id == *run => &self.all,
            _ => &[],
        }
    }

    /// Those of the picked run, to be kept.
    pub(crate) fn shared(&self) -> Arc<[Candidate]> {
        Arc::clone(&self.all)
    }
}

/// Where a hand points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Aim {
    /// How far along the tube, m.
    pub(crate) station_m: f64,
    /// How far left of it, m; 0 where the hand sees the run from the side.
    pub(crate) left_m: f64,
    /// From how far a hang point without a channel draws the hand to itself, m.
    pub(crate) reach_m: f64,
}

impl Aim {
    /// At a plan point.
    pub(crate) fn at(axis: &RunAxis, point: DVec2, reach_m: f64) -> Self {
        Self {
            station_m: axis.station_abreast(point),
            left_m: axis.offset_left(point),
            reach_m,
        }
    }
}

/// The hang point that is meant: a direct one that is near enough, else the nearest of
/// all; of several at one station the one on the hand's side, then the cheapest. Never
/// one beside another hanger.
pub(crate) fn aimed<'a>(
    all: &'a [Candidate],
    taken: &[f64],
    axis: &RunAxis,
    aim: &Aim,
) -> Option<&'a Candidate> {
    let off = |it: &Candidate| (it.station_m - aim.station_m).abs();
    let nearer = |a: &&Candidate, b: &&Candidate| {
        let by_station = off(a) - off(b);
        if SAME_STATION < by_station.abs() {
            return by_station.total_cmp(&0.0);
        }
        let side = |it: &Candidate| (axis.offset_left(it.attach.truncate()) - aim.left_m).abs();
        (side(a).total_cmp(&side(b))).then(a.cost.cmp(&b.cost))
    };
    let free = || all.iter().filter(|it| is_free(taken, it.station_m));
    free()
        .filter(|it| it.kind != Kind::Channel && off(it) <= aim.reach_m)
        .min_by(nearer)
        .or_else(|| free().min_by(nearer))
}

fn is_free(taken: &[f64], station_m: f64) -> bool {
    taken
        .iter()
        .all(|other| CLEAR_OF_OTHERS < (other - station_m).abs())
}

/// A way along the tube.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Toward {
    Burner,
    Exhaust,
}

/// How far a key moves a hanger.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Stride {
    /// To the next hang point that needs no channel, if there is one.
    Direct,
    /// To the next of all.
    Any,
}

/// The next hang point along the tube that is not taken, before the next hanger if there
/// is any.
pub(crate) fn next<'a>(
    all: &'a [Candidate],
    taken: &[f64],
    from: &Candidate,
    toward: Toward,
    stride: Stride,
) -> Option<&'a Candidate> {
    let ahead = |it: &Candidate| match toward {
        Toward::Exhaust => it.station_m - from.station_m,
        Toward::Burner => from.station_m - it.station_m,
    };
    let beyond = || {
        all.iter()
            .filter(|it| SAME_STATION < ahead(it) && is_free(taken, it.station_m))
    };
    let sooner = |a: &&Candidate, b: &&Candidate| -> Ordering {
        let by_station = ahead(a) - ahead(b);
        if SAME_STATION < by_station.abs() {
            by_station.total_cmp(&0.0)
        } else {
            (a.cost.cmp(&b.cost)).then(a.lean_rad.total_cmp(&b.lean_rad))
        }
    };
    // Over its neighbour only where there is nothing left before it.
    let until = taken
        .iter()
        .map(|station| match toward {
            Toward::Exhaust => station - from.station_m,
            Toward::Burner => from.station_m - station,
        })
        .filter(|ahead_m| 0.0 < *ahead_m)
        .fold(f64::INFINITY, f64::min);
    let before = || beyond().filter(|it| ahead(it) < until);
    let direct = before()
        .filter(|it| stride == Stride::Direct && it.kind != Kind::Channel)
        .min_by(sooner);
    direct
        .or_else(|| before().min_by(sooner))
        .or_else(|| beyond().min_by(sooner))
}

/// Another hang point at the same station: the next one to the left of the run, or to its
/// right.
pub(crate) fn across<'a>(
    all: &'a [Candidate],
    axis: &RunAxis,
    from: &Candidate,
    left: f64,
) -> Option<&'a Candidate> {
    let offset = |it: &Candidate| axis.offset_left(it.attach.truncate()) * left.signum();
    let here = offset(from);
    all.iter()
        .filter(|it| (it.station_m - from.station_m).abs() <= SAME_STATION)
        .filter(|it| here + SAME_STATION < offset(it))
        .min_by(|a, b| offset(a).total_cmp(&offset(b)))
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test fails by panicking")]
mod tests {
    use super::*;
    use crate::geometry::DVec3;
    use crate::hanging::{Eyes, Hold, Place, RunGeometry, TemperatureRise};

    fn axis() -> RunAxis {
        RunGeometry {
            flange: DVec3::new(0.0, 0.0, 5.0),
            heading: DVec2::X,
            slope: 0.0,
            tube_length_m: 10.0,
            eye_rise_m: 0.1,
            eyes: Eyes::One,
            rise: TemperatureRise::even(280.0),
        }
        .axis()
    }

    fn candidate(station_m: f64, left_m: f64, kind: Kind) -> Candidate {
        Candidate {
            station_m,
            kind,
            first: Hold {
                member: "J-01".into(),
                span: 0,
                place: Place::PanelPoint(1),
                position_m: 0.0,
                share: 1.0,
            },
            second: None,
            channel: None,
            attach: DVec3::new(station_m, left_m, 7.0),
            suspension_m: 1.9,
            lean_rad: left_m.abs(),
            ahead_m: 0.0,
            cost: if kind == Kind::Channel { 4000 } else { 1000 },
            refused: None,
        }
    }

    fn all() -> Vec<Candidate> {
        let mut all = vec![
            candidate(1.5, 0.1, Kind::Panel),
            candidate(1.5, -0.1, Kind::Panel),
            candidate(3.0, 0.0, Kind::Panel),
            candidate(4.5, 0.0, Kind::Panel),
        ];
        all.extend((0..100).map(|k| candidate(f64::from(k) * 0.05, 0.0, Kind::Channel)));
        all
    }

    #[test]
    fn a_direct_hang_point_draws_the_hand_and_a_channel_takes_it_elsewhere() {
        let (all, axis) = (all(), axis());
        let aim = |station_m: f64, left_m: f64| Aim {
            station_m,
            left_m,
            reach_m: 0.2,
        };
        let at = |aim: Aim| aimed(&all, &[3.0], &axis, &aim).unwrap();
        assert_eq!(at(aim(1.35, 0.0)).kind, Kind::Panel);
        assert_eq!(at(aim(1.35, -0.3)).attach.y, -0.1);
        assert_eq!(at(aim(2.26, 0.0)).kind, Kind::Channel);
        assert!((at(aim(2.26, 0.0)).station_m - 2.25).abs() < 1e-9);
        // Another hanger is there already.
        let beside = at(aim(3.0, 0.0));
        assert!(0.3 < (beside.station_m - 3.0).abs());
        assert_eq!(beside.kind, Kind::Channel);
    }

    #[test]
    fn keys_go_from_direct_point_to_direct_point_or_through_all() {
        let (all, axis) = (all(), axis());
        let from = &all[0];
        let past = next(&all, &[3.0], from, Toward::Exhaust, Stride::Direct).unwrap();
        assert!(past.station_m < 3.0, "over its neighbour");
        let go = |toward, stride| next(&all, &[], from, toward, stride).unwrap();
        assert_eq!(go(Toward::Exhaust, Stride::Direct).station_m, 3.0);
        assert!((go(Toward::Exhaust, Stride::Any).station_m - 1.55).abs() < 1e-9);
        // Where no direct one follows, a channel will do.
        assert!((go(Toward::Burner, Stride::Direct).station_m - 1.45).abs() < 1e-9);
        assert_eq!(across(&all, &axis, from, -1.0).unwrap().kind, Kind::Channel);
        assert!(across(&all, &axis, from, 1.0).is_none());
    }
}
