//! Cross channels as pieces of stock: which hangers share one, how long each is.

use super::candidate::{Candidate, Hold};
use super::channel::{ChannelCheck, ChannelLoad};
use super::outcome::Hanging;
use super::steel::ChannelStock;
use crate::geometry::tolerance;

/// What cross channels are cut from, and how.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChannelCutting {
    /// Stock length, m.
    pub stock_m: f64,
    /// Length beyond each member, m.
    pub overhang_m: f64,
    /// Step that lengths are rounded up to, m.
    pub step_m: f64,
    /// What one cut takes away, m.
    pub kerf_m: f64,
}

impl ChannelCutting {
    /// Length to cut for a distance between members, m: with both overhangs, rounded up.
    #[must_use]
    pub fn length_m(&self, span_m: f64) -> f64 {
        let needed_m = span_m + 2.0 * self.overhang_m;
        ((needed_m - tolerance::LIMIT) / self.step_m).ceil() * self.step_m
    }

    /// The greatest distance between members that one stock length bridges, m.
    #[must_use]
    pub fn greatest_span_m(&self) -> f64 {
        let steps = ((self.stock_m + tolerance::LIMIT) / self.step_m).floor();
        steps * self.step_m - 2.0 * self.overhang_m
    }
}

/// One piece of channel across two member spans.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Its two ends, as its first hanger holds on them; the shares are that hanger's.
    pub ends: [Hold; 2],
    /// Where it lies on each of its spans, m from the span's start: the middle of where
    /// its hangers ask for it.
    pub positions_m: [f64; 2],
    /// Distance between its members, m.
    pub span_m: f64,
    /// Length to cut, m.
    pub length_m: f64,
    /// What hangs from it.
    pub hangers: Vec<PieceHanger>,
    /// What it puts on each of its members, N.
    pub end_loads_n: [f64; 2],
    /// Bending and deflection under all of its hangers.
    pub check: ChannelCheck,
}

/// One hanger on a piece of channel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PieceHanger {
    /// The run, by its place in what was handed over.
    pub run: usize,
    /// Its hanger, from the burner.
    pub hanger: usize,
    /// Where on the channel, m from its first end, and how much.
    pub load: ChannelLoad,
}

/// A hanger that wants a channel.
struct Wanted<'a> {
    at: &'a Candidate,
    ends: [&'a Hold; 2],
    span_m: f64,
    hanger: PieceHanger,
}

/// The pieces of channel of all runs, by members and position.
///
/// Hangers whose channels lie on the same two member spans, at the same places of both
/// and within [`tolerance::SAME_CHANNEL`] along them, share one piece as far as it
/// bears them together; beyond that, pieces lie side by side.
#[must_use]
pub fn pieces<'a>(
    stock: &ChannelStock,
    cutting: &ChannelCutting,
    runs: impl IntoIterator<Item = &'a Hanging>,
) -> Vec<Piece> {
    let mut wanted: Vec<Wanted<'_>> = runs
        .into_iter()
        .enumerate()
        .flat_map(|(run, hanging)| {
            let hangers = hanging.hangers.iter().enumerate();
            hangers.filter_map(move |(which, hanger)| {
                let lay = hanger.at.channel?;
                Some(Wanted {
                    at: &hanger.at,
                    ends: [&hanger.at.first, hanger.at.second.as_ref()?],
                    span_m: lay.span_m,
                    hanger: PieceHanger {
                        run,
                        hanger: which,
                        load: ChannelLoad {
                            to_first_m: lay.to_first_m,
                            load_n: hanger.load.load_n,
                        },
                    },
                })
            })
        })
        .collect();
    wanted.sort_by(|one, other| {
        let key = |it: &Wanted<'_>| (it.hanger.run, it.hanger.hanger);
        one.at
            .members()
            .cmp(other.at.members())
            .then(one.ends[0].position_m.total_cmp(&other.ends[0].position_m))
            .then(key(one).cmp(&key(other)))
    });
    let mut groups: Vec<Vec<&Wanted<'_>>> = Vec::new();
    for one in &wanted {
        let is_near = |group: &&mut Vec<&Wanted<'_>>| shares(stock, group, one);
        // Sorted, so that only the last few groups can be near enough.
        match groups
            .iter_mut()
            .rev()
            .take(MOST_SIDE_BY_SIDE)
            .rev()
            .find(is_near)
        {
            Some(group) => group.push(one),
            None => groups.push(vec![one]),
        }
    }
    groups
        .iter()
        .filter_map(|group| piece(stock, cutting, group))
        .collect()
}

/// Pieces at one place that are looked at for a hanger to share: more than fit side by
/// side between two hangers' clamps.
const MOST_SIDE_BY_SIDE: usize = 8;

/// Whether one more hanger can hang from the channel of a group.
fn shares(stock: &ChannelStock, group: &[&Wanted<'_>], one: &Wanted<'_>) -> bool {
    let Some(first) = group.first() else {
        return false;
    };
    let same = first.ends.iter().zip(one.ends).all(|(known, end)| {
        known.member == end.member
            && known.place == end.place
            && (known.position_m - end.position_m).abs() <= tolerance::SAME_CHANNEL
    });
    if !same {
        return false;
    }
    let together: Vec<ChannelLoad> = group
        .iter()
        .copied()
        .chain([one])
        .map(|it| it.hanger.load)
        .collect();
    ChannelCheck::under(stock, first.span_m, &together).passes()
}

fn piece(stock: &ChannelStock, cutting: &ChannelCutting, group: &[&Wanted<'_>]) -> Option<Piece> {
    let first = group.first()?;
    let loads: Vec<ChannelLoad> = group.iter().map(|it| it.hanger.load).collect();
    let middle = |end: usize| {
        let at = group.iter().map(|it| it.ends[end].position_m);
        let least = at.clone().fold(f64::INFINITY, f64::min);
        f64::midpoint(least, at.fold(f64::NEG_INFINITY, f64::max))
    };
    let on_end = |end: usize| {
        let parts = group
            .iter()
            .map(|it| it.hanger.load.load_n * it.ends[end].share);
        parts.sum()
    };
    Some(Piece {
        ends: first.ends.map(Hold::clone),
        positions_m: [middle(0), middle(1)],
        span_m: first.span_m,
        length_m: cutting.length_m(first.span_m),
        hangers: group.iter().map(|it| it.hanger).collect(),
        end_loads_n: [on_end(0), on_end(1)],
        check: ChannelCheck::under(stock, first.span_m, &loads),
    })
}
