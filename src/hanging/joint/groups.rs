//! Which runs must be hung together.
//!
//! Runs are hung alone first. As long as some place is overloaded, the runs that load it,
//! with the groups that they are in, become one group, and are hung together.
//!
//! In the end no place is overloaded, and that is the least answer for all runs. First,
//! what any allowed answer gives the runs of one group is allowed for that group by
//! itself, loads being positive; so it costs no less than the group's own answer, and all
//! groups together no less than theirs. Second, where an answer costs just as much, it
//! does so in each group. Take the first run in the scheme's order whose set isn't the
//! same in both: it is the first such run of its group too, and there the group's own
//! answer comes first. Third, the runs left out are the same: a run that is left out of its
//! group can't be hung beside those taken before it in its group, let alone all; one that
//! is taken hangs beside all that are taken.

use std::collections::BTreeMap;
use std::ops::Deref;

use crate::hanging::loads::LoadPlace;
use crate::hanging::outcome::{Hanging, Status};
use crate::hanging::totals::{LoadPart, PlaceLoad, total};

/// Runs that must be hung together, and what came of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Group<A> {
    /// The runs, by their places in what was handed over, ascending; none with kept
    /// hangers.
    pub runs: Vec<usize>,
    /// What hanging them together gave.
    pub answer: A,
}

/// All runs, hung so that no place is overloaded but by kept hangers.
#[derive(Debug, Clone, PartialEq)]
pub struct Settled<H, A> {
    /// How each run hangs.
    pub hangings: Vec<H>,
    /// What they put on each place.
    pub loads: BTreeMap<LoadPlace, PlaceLoad>,
    /// The groups, by their first run.
    pub groups: Vec<Group<A>>,
}

/// Makes groups of runs, each hung as if it were alone, until no place is overloaded.
///
/// `hang` hangs the runs of a group together, beside all kept hangers, and says how each of
/// them hangs.
pub fn settle<H, A>(alone: &[H], mut hang: impl FnMut(&[usize]) -> (Vec<H>, A)) -> Settled<H, A>
where
    H: Deref<Target = Hanging> + Clone,
{
    let mut settled = Settled {
        hangings: alone.to_vec(),
        loads: total(alone.iter().map(|hanging| &**hanging)),
        groups: Vec::new(),
    };
    loop {
        let merged = merged(&settled);
        if merged.is_empty() {
            return settled;
        }
        let is_merged = |group: &Group<A>| merged.iter().any(|runs| runs.contains(&group.runs[0]));
        settled.groups.retain(|group| !is_merged(group));
        for runs in merged {
            let (hung, answer) = hang(&runs);
            for (&run, hanging) in runs.iter().zip(hung) {
                settled.hangings[run] = hanging;
            }
            settled.groups.push(Group { runs, answer });
        }
        settled.groups.sort_by_key(|group| group.runs[0]);
        settled.loads = total(settled.hangings.iter().map(|hanging| &**hanging));
    }
}

/// The groups that overloaded places make of runs and groups.
fn merged<H, A>(settled: &Settled<H, A>) -> Vec<Vec<usize>>
where
    H: Deref<Target = Hanging>,
{
    let is_kept = |run: usize| settled.hangings[run].status == Status::Locked;
    let mut merged: Vec<Vec<usize>> = Vec::new();
    for place in settled.loads.values().filter(|place| !place.passes()) {
        let to_blame = |part: &&LoadPart| part.load_n > 0.0 && !is_kept(part.run);
        let mut runs: Vec<usize> = place
            .parts
            .iter()
            .filter(to_blame)
            .map(|part| part.run)
            .collect();
        for group in &settled.groups {
            if group.runs.iter().any(|run| runs.contains(run)) {
                runs.extend(&group.runs);
            }
        }
        let touching = merged.extract_if(.., |known: &mut Vec<usize>| {
            known.iter().any(|run| runs.contains(run))
        });
        let touching: Vec<usize> = touching.flatten().collect();
        runs.extend(touching);
        runs.sort_unstable();
        runs.dedup();
        // A group that hangs together already is the best that can be had.
        if !runs.is_empty() && settled.groups.iter().all(|group| group.runs != runs) {
            merged.push(runs);
        }
    }
    merged
}
