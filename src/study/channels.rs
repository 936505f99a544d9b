//! The cross channels of a study as a list to cut from.

use super::{Study, steel};
use crate::geometry::DVec2;
use crate::hanging::{ChannelCheck, CuttingPlan, Piece, cutting_plan, pieces};
use crate::site::id::natural_order;
use crate::site::{MemberId, RunId};
use crate::structure::Member;
use std::collections::BTreeMap;
use std::sync::Arc;

/// One piece of channel across two member spans.
#[derive(Debug, Clone, PartialEq)]
pub struct ChannelPiece {
    /// `C1`, `C2`, ... in the order of members and of places along them.
    pub name: String,
    /// The members that it lies on.
    pub members: [MemberId; 2],
    /// Where it lies on each of them: plan points on their axes, m.
    pub ends: [DVec2; 2],
    /// Distance between its members, m.
    pub span_m: f64,
    /// Length to cut, with both overhangs, m.
    pub length_m: f64,
    /// What hangs from it, from its first end.
    pub hangers: Vec<OnChannel>,
    /// What it puts on each of its members, N.
    pub end_loads_n: [f64; 2],
    /// Bending and deflection under all of its hangers.
    pub check: ChannelCheck,
}

/// One hanger on a piece of channel.
#[derive(Debug, Clone, PartialEq)]
pub struct OnChannel {
    /// Its run.
    pub run: RunId,
    /// Its number, from 1 at the burner.
    pub number: usize,
    /// Distance from the channel's first member, m.
    pub to_first_m: f64,
    /// Its load, N.
    pub load_n: f64,
}

impl ChannelPiece {
    /// All that hangs from it, N.
    #[must_use]
    pub fn load_n(&self) -> f64 {
        self.hangers.iter().map(|hanger| hanger.load_n).sum()
    }

    /// Its bending moment in part of what is allowed.
    #[must_use]
    pub fn bending(&self) -> f64 {
        self.check.moment_n_m / self.check.allowed_moment_n_m
    }

    /// The middle between its two members, in plan.
    #[must_use]
    pub fn middle(&self) -> DVec2 {
        self.ends[0].midpoint(self.ends[1])
    }
}

/// The cross channels of all runs, each with its name.
#[must_use]
pub fn channel_list(study: &Study) -> Vec<ChannelPiece> {
    let stock = steel::channel(&study.site);
    let cutting = steel::cutting(&study.site.policy);
    let hangings = study.runs.iter().map(|run| run.hanging.as_ref());
    let mut all = pieces(&stock, &cutting, hangings);
    if all.is_empty() {
        return Vec::new();
    }
    let members: BTreeMap<&str, &Arc<Member>> = study
        .structure
        .members
        .iter()
        .map(|member| (member.id.as_str(), member))
        .collect();
    // Stable, so that pieces on the same members stay in the order of their places.
    all.sort_by(|one, other| {
        let by = |end: usize| natural_order(&one.ends[end].member, &other.ends[end].member);
        by(0).then_with(|| by(1))
    });
    (1..)
        .zip(all)
        .map(|(number, piece)| named(study, &members, format!("C{number}"), &piece))
        .collect()
}

/// From which stock lengths the pieces are cut; pieces by their place in the list.
#[must_use]
pub fn channel_plan(study: &Study, list: &[ChannelPiece]) -> CuttingPlan {
    let lengths: Vec<f64> = list.iter().map(|piece| piece.length_m).collect();
    cutting_plan(&steel::cutting(&study.site.policy), &lengths)
}

fn named(
    study: &Study,
    members: &BTreeMap<&str, &Arc<Member>>,
    name: String,
    piece: &Piece,
) -> ChannelPiece {
    let end = |which: usize| {
        let member = members.get(&*piece.ends[which].member);
        member.map_or(DVec2::ZERO, |member| {
            member.plan_at(piece.positions_m[which])
        })
    };
    let mut hangers: Vec<OnChannel> = piece
        .hangers
        .iter()
        .map(|it| OnChannel {
            run: study.runs[it.run].run.id.clone(),
            number: it.hanger + 1,
            to_first_m: it.load.to_first_m,
            load_n: it.load.load_n,
        })
        .collect();
    hangers.sort_by(|one, other| one.to_first_m.total_cmp(&other.to_first_m));
    ChannelPiece {
        name,
        members: [0, 1].map(|which| MemberId::new(&piece.ends[which].member)),
        ends: [end(0), end(1)],
        span_m: piece.span_m,
        length_m: piece.length_m,
        hangers,
        end_loads_n: piece.end_loads_n,
        check: piece.check,
    }
}
