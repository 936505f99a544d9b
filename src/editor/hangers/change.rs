//! A run with one hanger moved, added or taken away, and the others kept where they are.

use super::reach::{Aim, aimed};
use crate::geometry::tolerance;
use crate::hanging::Candidate;
use crate::site::{Hanging, LockedHanger, Run};
use crate::study::{RunStudy, kept_hanger};

/// The hangers of a run as the document keeps them, in the order of the answer, and those
/// that have lost their hold.
fn kept(study: &RunStudy) -> (Vec<LockedHanger>, Vec<LockedHanger>) {
    let hangers = &study.hanging.hangers;
    if let Hanging::Locked(listed) = &study.run.hanging {
        let (lost, mut held): (Vec<_>, Vec<_>) =
            listed.iter().cloned().partition(|it| is_lost(study, it));
        held.sort_by(|a, b| a.station.as_metres().total_cmp(&b.station.as_metres()));
        if held.len() == hangers.len() {
            return (held, lost);
        }
    }
    let held = hangers.iter().map(|it| kept_hanger(&it.at)).collect();
    (held, Vec::new())
}

fn is_lost(study: &RunStudy, hanger: &LockedHanger) -> bool {
    study.hanging.lost.iter().any(|lost| {
        let lost = &lost.hanger;
        (lost.station_m - hanger.station.as_metres()).abs() <= tolerance::LIMIT
            && lost
                .members
                .iter()
                .map(AsRef::as_ref)
                .eq(hanger.members.iter().map(|member| member.as_str()))
    })
}

fn with(study: &RunStudy, hangers: Vec<LockedHanger>) -> Run {
    Run {
        hanging: Hanging::Locked(hangers),
        ..Run::clone(&study.run)
    }
}

/// In order along the tube, as a reader of the file expects them.
fn in_order(mut held: Vec<LockedHanger>, lost: Vec<LockedHanger>) -> Vec<LockedHanger> {
    held.extend(lost);
    held.sort_by(|a, b| a.station.as_metres().total_cmp(&b.station.as_metres()));
    held
}

/// The run with the hanger at a place of its answer moved to another hang point.
pub(crate) fn moved(study: &RunStudy, place: usize, to: &Candidate) -> Option<Run> {
    let (mut held, lost) = kept(study);
    *held.get_mut(place)? = kept_hanger(to);
    Some(with(study, in_order(held, lost)))
}

/// The run with one hanger more.
pub(crate) fn added(study: &RunStudy, at: &Candidate) -> Run {
    let (mut held, lost) = kept(study);
    held.push(kept_hanger(at));
    with(study, in_order(held, lost))
}

/// The run without the hanger at a place of its answer.
pub(crate) fn without(study: &RunStudy, place: usize) -> Option<Run> {
    let (mut held, lost) = kept(study);
    if held.len() <= place {
        return None;
    }
    held.remove(place);
    Some(with(study, in_order(held, lost)))
}

/// Which hanger of the answer one at a station will be, once it is there and the one at
/// `but` is not.
pub(crate) fn place_of(study: &RunStudy, station_m: f64, but: Option<usize>) -> usize {
    let hangers = study.hanging.hangers.iter().enumerate();
    hangers
        .filter(|(place, it)| Some(*place) != but && it.at.station_m < station_m)
        .count()
}

/// The hang point nearest to the middle of the longest stretch of tube without a hanger.
pub(crate) fn widest_gap<'a>(study: &RunStudy, all: &'a [Candidate]) -> Option<&'a Candidate> {
    let taken: Vec<f64> = stations(study);
    let mut marks = vec![0.0];
    marks.extend(&taken);
    marks.push(study.geometry.tube_length_m);
    let widest = marks
        .windows(2)
        .max_by(|a, b| (a[1] - a[0]).total_cmp(&(b[1] - b[0])))?;
    let half_m = (widest[1] - widest[0]) / 2.0;
    let aim = Aim {
        station_m: widest[0] + half_m,
        left_m: 0.0,
        reach_m: half_m,
    };
    aimed(all, &taken, &study.geometry.axis(), &aim)
}

/// The stations of a run's hangers, m.
pub(crate) fn stations(study: &RunStudy) -> Vec<f64> {
    let hangers = study.hanging.hangers.iter();
    hangers.map(|it| it.at.station_m).collect()
}
