//! Hangers as built against hangers as drawn.

use super::{SAME_LENGTH_M, SAME_LOAD};
use crate::geometry::DVec3;
use crate::hanging::{Hanger, Hanging, Kind, Loss, Status};
use crate::site::RunId;
use crate::study::Study;

/// How differently one run hangs.
#[derive(Debug, Clone, PartialEq)]
pub struct RunDifference {
    /// The run.
    pub run: RunId,
    /// What was known of its hanging as drawn.
    pub drawn: Status,
    /// What is known of it as built.
    pub built: Status,
    /// The hangers that differ, from burner to exhaust.
    pub hangers: Vec<HangerDifference>,
    /// Kept hangers that held as drawn and hold nothing as built.
    pub lost: Vec<LostHold>,
}

impl RunDifference {
    /// Whether it hung as drawn and can't be hung at all as built: then its hangers have
    /// gone for one reason, which is told once.
    #[must_use]
    pub fn is_unhung(&self) -> bool {
        self.built == Status::Impossible
            && !self.hangers.is_empty()
            && self.hangers.iter().all(|it| it.built.is_none())
    }
}

/// One hanger as drawn and as built: the same one moved, or one that has come or gone.
#[derive(Debug, Clone, PartialEq)]
pub struct HangerDifference {
    /// As drawn; nothing where the building asks for one more.
    pub drawn: Option<HungPlace>,
    /// As built; nothing where it is no longer wanted.
    pub built: Option<HungPlace>,
}

/// Where a hanger is and what it carries.
#[derive(Debug, Clone, PartialEq)]
pub struct HungPlace {
    /// Its number from the burner, from 1.
    pub number: usize,
    /// Station on the run, m.
    pub station_m: f64,
    /// How it gets its hold.
    pub kind: Kind,
    /// The member spans that it hangs from, one or two.
    pub members: Vec<String>,
    /// Where the suspension begins, in space.
    pub attach: DVec3,
    /// Suspension length, m.
    pub suspension_m: f64,
    /// What it carries, N.
    pub load_n: f64,
}

/// A kept hanger that lost its hold.
#[derive(Debug, Clone, PartialEq)]
pub struct LostHold {
    /// Its station, m.
    pub station_m: f64,
    /// The members that it was kept on.
    pub members: Vec<String>,
    /// Why it holds nothing.
    pub why: Loss,
}

impl HangerDifference {
    fn both(&self) -> Option<(&HungPlace, &HungPlace)> {
        self.drawn.as_ref().zip(self.built.as_ref())
    }

    /// The place that it has, or had.
    #[must_use]
    pub fn place(&self) -> Option<&HungPlace> {
        self.built.as_ref().or(self.drawn.as_ref())
    }

    /// How far it moved along its run, m; nothing where it came, went or stayed.
    #[must_use]
    pub fn shift_m(&self) -> Option<f64> {
        self.both()
            .map(|(drawn, built)| built.station_m - drawn.station_m)
            .filter(|shift_m| SAME_LENGTH_M < shift_m.abs())
    }

    /// Whether it is somewhere else in plan, hangs from other members, came or went.
    #[must_use]
    pub fn is_moved(&self) -> bool {
        self.both().is_none_or(|(drawn, built)| {
            let plan_m = drawn.attach.truncate().distance(built.attach.truncate());
            drawn.members != built.members || SAME_LENGTH_M < plan_m || self.shift_m().is_some()
        })
    }

    /// How much longer its suspension must be, m; nothing where it is as drawn, came or
    /// went.
    #[must_use]
    pub fn suspension_change_m(&self) -> Option<f64> {
        self.both()
            .map(|(drawn, built)| built.suspension_m - drawn.suspension_m)
            .filter(|change_m| SAME_LENGTH_M < change_m.abs())
    }

    /// How much more it carries, N; nothing where it came, went, or carries the same
    /// within [`SAME_LOAD`].
    #[must_use]
    pub fn load_change_n(&self) -> Option<f64> {
        let (drawn, built) = self.both()?;
        let change_n = built.load_n - drawn.load_n;
        let is_material = SAME_LOAD * drawn.load_n.max(built.load_n) < change_n.abs();
        is_material.then_some(change_n)
    }

    fn is_any(&self) -> bool {
        self.is_moved() || self.suspension_change_m().is_some() || self.load_change_n().is_some()
    }
}

pub(super) fn differences(drawn: &Study, built: &Study) -> Vec<RunDifference> {
    built
        .runs
        .iter()
        .filter_map(|run| {
            let before = drawn.run(&run.run.id)?;
            let difference = difference(&run.run.id, &before.hanging, &run.hanging);
            let is_any = difference.drawn != difference.built
                || !difference.hangers.is_empty()
                || !difference.lost.is_empty();
            is_any.then_some(difference)
        })
        .collect()
}

fn difference(run: &RunId, drawn: &Hanging, built: &Hanging) -> RunDifference {
    let mut hangers: Vec<HangerDifference> = pairs(&places(drawn), &places(built))
        .into_iter()
        .map(|(drawn, built)| HangerDifference { drawn, built })
        .collect();
    hangers.retain(HangerDifference::is_any);
    let lost = built
        .lost
        .iter()
        .filter(|lost| !drawn.lost.iter().any(|known| known.hanger == lost.hanger))
        .map(|lost| LostHold {
            station_m: lost.hanger.station_m,
            members: lost
                .hanger
                .members
                .iter()
                .map(ToString::to_string)
                .collect(),
            why: lost.why,
        })
        .collect();
    RunDifference {
        run: run.clone(),
        drawn: drawn.status,
        built: built.status,
        hangers,
        lost,
    }
}

fn places(hanging: &Hanging) -> Vec<HungPlace> {
    let place = |(k, hanger): (usize, &Hanger)| HungPlace {
        number: k + 1,
        station_m: hanger.at.station_m,
        kind: hanger.at.kind,
        members: hanger.at.members().map(str::to_owned).collect(),
        attach: hanger.at.attach,
        suspension_m: hanger.at.suspension_m,
        load_n: hanger.load.load_n,
    };
    hanging.hangers.iter().enumerate().map(place).collect()
}

type Pair = (Option<HungPlace>, Option<HungPlace>);

/// Which hanger became which: in their order along the run, all of the shorter list,
/// with the least sum of shifts. Of equal sums the pairs nearer the burner are kept.
fn pairs(drawn: &[HungPlace], built: &[HungPlace]) -> Vec<Pair> {
    if built.len() < drawn.len() {
        let swapped = pairs(built, drawn);
        return swapped.into_iter().map(|(a, b)| (b, a)).collect();
    }
    // least[i][j]: the least sum of shifts of the first i drawn among the first j built.
    let n = built.len();
    let mut least = vec![vec![0.0; n + 1]];
    for (i, hanger) in drawn.iter().enumerate() {
        let mut row = vec![f64::INFINITY; n + 1];
        for j in i..n {
            let shift_m = (hanger.station_m - built[j].station_m).abs();
            row[j + 1] = (least[i][j] + shift_m).min(row[j]);
        }
        least.push(row);
    }
    let mut pairs: Vec<Pair> = Vec::new();
    let (mut i, mut j) = (drawn.len(), n);
    while 0 < j {
        // Leaving the last one out costs nothing more: then it is one that came.
        let is_new = i == 0 || (i < j && least[i][j - 1] <= least[i][j]);
        j -= 1;
        if is_new {
            pairs.push((None, Some(built[j].clone())));
        } else {
            i -= 1;
            pairs.push((Some(drawn[i].clone()), Some(built[j].clone())));
        }
    }
    pairs.reverse();
    pairs
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(number: usize, station_m: f64) -> HungPlace {
        HungPlace {
            number,
            station_m,
            kind: Kind::Panel,
            members: vec!["J-01".to_owned()],
            attach: DVec3::new(station_m, 0.0, 6.0),
            suspension_m: 1.0,
            load_n: 200.0,
        }
    }

    fn list(stations_m: &[f64]) -> Vec<HungPlace> {
        let numbered = stations_m.iter().enumerate();
        numbered.map(|(k, s)| at(k + 1, *s)).collect()
    }

    fn check(drawn: &[f64], built: &[f64], expected: &[(usize, usize)]) {
        let number = |place: &Option<HungPlace>| place.as_ref().map_or(0, |it| it.number);
        let found: Vec<(usize, usize)> = pairs(&list(drawn), &list(built))
            .iter()
            .map(|(a, b)| (number(a), number(b)))
            .collect();
        assert_eq!(found, expected, "{drawn:?} {built:?}");
    }

    #[test]
    fn hangers_are_paired_in_order_with_the_least_shifts() {
        check(&[1.0, 4.0], &[1.2, 4.1], &[(1, 1), (2, 2)]);
        check(&[1.0, 4.0], &[1.0, 2.5, 4.0], &[(1, 1), (0, 2), (2, 3)]);
        check(&[1.0, 2.5, 4.0], &[1.1, 4.0], &[(1, 1), (2, 0), (3, 2)]);
        check(&[], &[1.0], &[(0, 1)]);
        check(&[1.0, 4.0], &[], &[(1, 0), (2, 0)]);
        // Crossing pairs would be nearer one by one; hangers keep their order.
        check(&[3.0, 3.2], &[0.5, 3.1, 6.0], &[(1, 1), (2, 2), (0, 3)]);
    }

    #[test]
    fn a_run_is_unhung_only_where_no_hanger_is_left() {
        let gone = HangerDifference {
            drawn: Some(at(1, 1.0)),
            built: None,
        };
        let left = HangerDifference {
            built: Some(at(1, 1.2)),
            ..gone.clone()
        };
        let run = |built, hangers: &[&HangerDifference]| RunDifference {
            run: RunId::new("R1"),
            drawn: Status::Solved,
            built,
            hangers: hangers.iter().copied().cloned().collect(),
            lost: Vec::new(),
        };
        assert!(run(Status::Impossible, &[&gone, &gone]).is_unhung());
        assert!(!run(Status::Solved, &[&gone]).is_unhung());
        assert!(!run(Status::Impossible, &[&gone, &left]).is_unhung());
        assert!(!run(Status::Impossible, &[]).is_unhung());
    }

    #[test]
    fn only_what_can_be_read_on_a_tape_is_a_difference() {
        let with = |change: fn(&mut HungPlace)| {
            let mut built = at(1, 1.0);
            change(&mut built);
            HangerDifference {
                drawn: Some(at(1, 1.0)),
                built: Some(built),
            }
        };
        assert!(!with(|it| it.station_m += 0.0004).is_any());
        assert!(with(|it| it.attach.y += 0.001).is_moved());
        assert!(with(|it| it.members = vec!["J-02".to_owned()]).is_moved());
        assert!(!with(|it| it.load_n += 3.0).is_any());
        assert_eq!(with(|it| it.load_n += 10.0).load_change_n(), Some(10.0));
        let longer = with(|it| it.suspension_m += 0.25);
        assert_eq!(longer.suspension_change_m(), Some(0.25));
        assert!(!longer.is_moved());
    }
}
