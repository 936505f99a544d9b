//! What hangs where, summed as the building's engineer asks for it: by place, by
//! member span, by bay.

use super::Study;
use crate::geometry::{DVec2, Polygon};
use crate::hanging::{Capacity, Place};
use crate::site::id::natural_order;
use crate::site::{BayId, MemberId, RunId};
use crate::structure::Member;
use crate::units::AreaLoad;
use std::collections::BTreeMap;
use std::sync::Arc;

/// All loads on the building's structure: level, each suspension at its length, and the
/// worst, one hanger of each run set low or gone slack.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LoadsTable {
    /// Each panel point, each chord panel, and each attachment to a beam or purlin, by
    /// member and along it.
    pub places: Vec<PlaceLoads>,
    /// Each member span from which something hangs.
    pub spans: Vec<SpanLoad>,
    /// Each bay from whose members something hangs.
    pub bays: Vec<BayLoad>,
    /// Everything that hangs, N.
    pub total_n: f64,
}

/// What one place of a member carries.
#[derive(Debug, Clone, PartialEq)]
pub struct PlaceLoads {
    /// The member span.
    pub member: MemberId,
    /// The place on it.
    pub place: Place,
    /// Where it is: the first load's plan point, m.
    pub at: DVec2,
    /// The sum, level, N.
    pub load_n: f64,
    /// The most that it can become, N.
    pub worst_n: f64,
    /// What is allowed there.
    pub allowed: Capacity,
    /// Who puts it there, along the span.
    pub parts: Vec<LoadHere>,
}

/// One hanger's load on a member.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadHere {
    /// Its run.
    pub run: RunId,
    /// Its number, from 1 at the burner.
    pub number: usize,
    /// Where along the span, m from the span's start.
    pub position_m: f64,
    /// What comes here, level, N: of a hanger on a cross channel its share.
    pub load_n: f64,
    /// The most that it can become, N.
    pub worst_n: f64,
}

/// What one member span carries in all.
#[derive(Debug, Clone, PartialEq)]
pub struct SpanLoad {
    /// The member span.
    pub member: MemberId,
    /// The sum, level, N.
    pub load_n: f64,
    /// The most that it can become, N.
    pub worst_n: f64,
    /// Distance from the span's start to the middle of its loads, m; none where all of
    /// them are slack.
    pub centre_m: Option<f64>,
    /// Its length, m.
    pub length_m: f64,
    /// Loads on it.
    pub n_loads: usize,
    /// What is allowed in all; unknown where nobody has said.
    pub allowed: Capacity,
}

/// What one bay's structure carries in all.
#[derive(Debug, Clone, PartialEq)]
pub struct BayLoad {
    /// The bay.
    pub bay: BayId,
    /// The sum, N.
    pub load_n: f64,
    /// Its plan area without its holes, m2.
    pub area_m2: f64,
    /// The roof's collateral allowance, if anybody has said.
    pub collateral: Option<AreaLoad>,
}

impl BayLoad {
    /// The sum spread over the bay.
    #[must_use]
    pub fn spread(&self) -> AreaLoad {
        AreaLoad::pascals(self.load_n / self.area_m2)
    }
}

/// One attachment to a member, as it is gathered.
struct Attached<'a> {
    member: &'a Member,
    place: Place,
    allowed: Capacity,
    here: LoadHere,
    /// The part of the hanger's load that comes here.
    share: f64,
    /// All that the run weighs, N.
    of_run_n: f64,
}

/// Sums the loads of all runs.
#[must_use]
pub fn loads_table(study: &Study) -> LoadsTable {
    let all = attached(study);
    LoadsTable {
        places: places(&all),
        spans: spans(&all),
        bays: bays(study, &all),
        total_n: all.iter().map(|it| it.here.load_n).sum(),
    }
}

/// Every attachment, by member, along it.
fn attached(study: &Study) -> Vec<Attached<'_>> {
    let members: BTreeMap<&str, &Arc<Member>> = study
        .structure
        .members
        .iter()
        .map(|member| (member.id.as_str(), member))
        .collect();
    let mut all = Vec::new();
    for run in &study.runs {
        let carried = run.hanging.hangers.iter().map(|it| it.load.load_n);
        let of_run_n: f64 = carried.sum();
        for (number, hanger) in (1..).zip(&run.hanging.hangers) {
            for (hold, load) in hanger.at.holds().zip(&hanger.load.holds) {
                let Some(member) = members.get(&*hold.member) else {
                    continue;
                };
                let allowed = match hold.place {
                    Place::Line => load.allowed_single,
                    Place::PanelPoint(_) | Place::ChordPanel(_) => {
                        load.allowed_sum.unwrap_or(load.allowed_single)
                    }
                };
                all.push(Attached {
                    member,
                    place: hold.place,
                    allowed,
                    here: LoadHere {
                        run: run.run.id.clone(),
                        number,
                        position_m: hold.position_m,
                        load_n: load.load_n,
                        worst_n: hanger.cases.greatest_n() * hold.share,
                    },
                    share: hold.share,
                    of_run_n,
                });
            }
        }
    }
    all.sort_by(|one, other| {
        natural_order(one.member.id.as_str(), other.member.id.as_str())
            .then(one.here.position_m.total_cmp(&other.here.position_m))
    });
    all
}

/// The most that loads can sum to when one hanger of each run is low or slack: never
/// more of a run than its weight at its greatest share, however many of its hangers
/// are counted, since no hanger pushes.
fn worst_n(group: &[Attached<'_>]) -> f64 {
    let mut by_run: BTreeMap<&str, (f64, f64)> = BTreeMap::new();
    for it in group {
        let (sum_n, most_n) = by_run.entry(it.here.run.as_str()).or_default();
        *sum_n += it.here.worst_n;
        *most_n = most_n.max(it.share * it.of_run_n);
    }
    by_run
        .values()
        .map(|&(sum_n, most_n)| sum_n.min(most_n))
        .sum()
}

/// Neighbours at one panel point or within one chord panel are one row; each attachment
/// to a beam or a purlin is its own.
fn places(all: &[Attached<'_>]) -> Vec<PlaceLoads> {
    all.chunk_by(|one, other| {
        one.place != Place::Line && one.place == other.place && one.member.id == other.member.id
    })
    .filter_map(|group| {
        let first = group.first()?;
        Some(PlaceLoads {
            member: first.member.id.clone(),
            place: first.place,
            at: first.member.plan_at(first.here.position_m),
            load_n: group.iter().map(|it| it.here.load_n).sum(),
            worst_n: worst_n(group),
            allowed: first.allowed,
            parts: group.iter().map(|it| it.here.clone()).collect(),
        })
    })
    .collect()
}

fn spans(all: &[Attached<'_>]) -> Vec<SpanLoad> {
    all.chunk_by(|one, other| one.member.id == other.member.id)
        .filter_map(|group| {
            let member = group.first()?.member;
            let load_n: f64 = group.iter().map(|it| it.here.load_n).sum();
            let moment: f64 = group
                .iter()
                .map(|it| it.here.load_n * it.here.position_m)
                .sum();
            Some(SpanLoad {
                member: member.id.clone(),
                load_n,
                worst_n: worst_n(group),
                centre_m: (load_n > 0.0).then(|| moment / load_n),
                length_m: member.length_m,
                n_loads: group.len(),
                allowed: member.allowed_in_all.map_or(Capacity::Unknown, |force| {
                    Capacity::Known(force.as_newtons())
                }),
            })
        })
        .collect()
}

/// The bays in the site's order.
fn bays(study: &Study, all: &[Attached<'_>]) -> Vec<BayLoad> {
    let framings = &study.site.framings;
    study
        .site
        .bays
        .iter()
        .filter_map(|bay| {
            let of_bay = |it: &&Attached<'_>| {
                let framing = framings.get(it.member.framing_index);
                framing.is_some_and(|framing| framing.bay == bay.id)
            };
            let mut here = all.iter().filter(of_bay).peekable();
            here.peek()?;
            let outline = Polygon {
                outline: bay.outline.clone(),
                holes: bay.holes.clone(),
            };
            Some(BayLoad {
                bay: bay.id.clone(),
                load_n: here.map(|it| it.here.load_n).sum(),
                area_m2: outline.area(),
                collateral: bay.collateral,
            })
        })
        .collect()
}
