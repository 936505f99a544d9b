//! Members as found against members as drawn, and those that nobody has looked at.

use crate::geometry::DVec2;
use crate::site::{Framing, FramingId, MemberAdjustment, MemberId};
use crate::structure::Member;
use crate::study::Study;
use std::collections::BTreeMap;
use std::sync::Arc;

/// How one member differs from the drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct MemberDifference {
    /// Its framing.
    pub framing: FramingId,
    /// Its number: 7 for `J-07`.
    pub number: usize,
    /// What it is called: `J-07`, whatever its spans are called.
    pub id: MemberId,
    /// What became of it.
    pub state: MemberState,
    /// Moved to the right of the framing's bearing, m; 0 where it is missing.
    pub moved_m: f64,
    /// Raised, m: higher than the drawing has it at the place where it was found.
    pub raised_m: f64,
    /// The middle of it in plan, as built or else as drawn.
    pub at: Option<DVec2>,
    /// The number of the member that it was found beyond, where it passed one.
    pub beyond: Option<usize>,
    /// What the user noted.
    pub notes: String,
}

/// What became of a member that the survey names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MemberState {
    /// It is there.
    Found,
    /// It is not there.
    Missing,
    /// The framing has no such member under its bay's roof.
    NotInBay,
}

pub(super) fn differences(drawn: &Study, built: &Study) -> Vec<MemberDifference> {
    let (as_drawn, as_built) = (by_number(drawn), by_number(built));
    let mut all = Vec::new();
    for (index, framing) in built.site.framings.iter().enumerate() {
        let mut survey: Vec<&MemberAdjustment> = framing.as_built.iter().collect();
        survey.sort_by_key(|it| it.member);
        for adjustment in survey {
            let key = (index, adjustment.member);
            let (was, is) = (as_drawn.get(&key), as_built.get(&key));
            let state = match is {
                Some(_) => MemberState::Found,
                None if adjustment.missing && was.is_some() => MemberState::Missing,
                None => MemberState::NotInBay,
            };
            let moved_m = is.map_or(0.0, |it| {
                it[0].offset_m - framing.drawn_offset_m(adjustment.member)
            });
            all.push(MemberDifference {
                framing: framing.id.clone(),
                number: adjustment.member,
                id: member_id(framing, adjustment.member),
                state,
                moved_m,
                raised_m: is.map_or(0.0, |it| it[0].raised_m),
                at: is.or(was).map(|it| middle(it)),
                beyond: is.and_then(|it| passed(index, it[0], moved_m, &as_built)),
                notes: adjustment.notes.clone(),
            });
        }
    }
    all
}

/// Its name, without those of its spans.
fn member_id(framing: &Framing, number: usize) -> MemberId {
    MemberId::new(format!("{}-{number:02}", framing.id))
}

type ByNumber<'a> = BTreeMap<(usize, usize), Vec<&'a Arc<Member>>>;

/// The spans of each member, by framing and number.
fn by_number(study: &Study) -> ByNumber<'_> {
    let mut all = ByNumber::new();
    for member in &study.structure.members {
        let key = (member.framing_index, member.number);
        all.entry(key).or_default().push(member);
    }
    all
}

fn middle(spans: &[&Arc<Member>]) -> DVec2 {
    let longest = spans
        .iter()
        .max_by(|a, b| a.length_m.total_cmp(&b.length_m));
    longest.map_or(DVec2::ZERO, |span| span.plan_at(span.length_m / 2.0))
}

/// The farthest member that lies on the wrong side of one that was moved.
fn passed(framing: usize, member: &Member, moved_m: f64, as_built: &ByNumber<'_>) -> Option<usize> {
    let is_passed = |(number, other): (usize, f64)| {
        let is_wrong = if 0.0 < moved_m {
            member.number < number && other <= member.offset_m
        } else {
            number < member.number && member.offset_m <= other
        };
        is_wrong.then_some(number)
    };
    let others = as_built
        .range((framing, 0)..=(framing, usize::MAX))
        .map(|((_, number), spans)| (*number, spans[0].offset_m));
    let passed = others.filter_map(is_passed);
    if 0.0 < moved_m {
        passed.max()
    } else {
        passed.min()
    }
}

/// A member that hangers hang from and that nobody has measured yet: its place is taken
/// from the drawing, which must be verified on site.
#[derive(Debug, Clone, PartialEq)]
pub struct Unmeasured {
    /// Its framing.
    pub framing: FramingId,
    /// Its number: 7 for `J-07`.
    pub number: usize,
    /// What it is called: `J-07`.
    pub id: MemberId,
    /// Where the drawing has it: distance to the right of the framing's anchor, m.
    pub offset_m: f64,
    /// The lowest end of the surface that it is hung from, as drawn, m above floor.
    pub low_end_m: f64,
    /// The hangers that it carries, by run and number from the burner: `R3.2`.
    pub hangers: Vec<String>,
}

/// The members that a study's hangers use and that nobody has measured, in the order of
/// framings and numbers.
#[must_use]
pub fn unmeasured(study: &Study) -> Vec<Unmeasured> {
    let spans: BTreeMap<&str, &Arc<Member>> = study
        .structure
        .members
        .iter()
        .map(|it| (it.id.as_str(), it))
        .collect();
    let mut used: BTreeMap<(usize, usize), Vec<String>> = BTreeMap::new();
    for run in &study.runs {
        for (k, hanger) in run.hanging.hangers.iter().enumerate() {
            for member in hanger.at.members().filter_map(|id| spans.get(id)) {
                let key = (member.framing_index, member.number);
                let hangers = used.entry(key).or_default();
                let name = format!("{}.{}", run.run.id, k + 1);
                if !hangers.contains(&name) {
                    hangers.push(name);
                }
            }
        }
    }
    let members = by_number(study);
    used.into_iter()
        .filter_map(|(key, hangers)| {
            let framing = study.site.framings.get(key.0)?;
            let adjustment = framing.as_built.iter().find(|it| it.member == key.1);
            if adjustment.is_some_and(MemberAdjustment::is_surveyed) {
                return None;
            }
            let clamp_m = framing.clamp_drop.as_metres();
            let ends = members.get(&key)?.iter().flat_map(|it| {
                [
                    it.attach_at(0.0) + clamp_m,
                    it.attach_at(it.length_m) + clamp_m,
                ]
            });
            Some(Unmeasured {
                framing: framing.id.clone(),
                number: key.1,
                id: member_id(framing, key.1),
                offset_m: framing.drawn_offset_m(key.1),
                low_end_m: ends.reduce(f64::min)?,
                hangers,
            })
        })
        .collect()
}
