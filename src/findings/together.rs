//! Runs that are hung together, in words.

use super::say::{cost_words, list};
use crate::site::RunId;
use crate::study::RunGroup;

/// What a run's neighbours have to do with its hangers, as one sentence:
/// `Chosen together with R2 and R3, which share hang points with it.`
#[must_use]
pub fn together_words(group: &RunGroup, run: &RunId) -> String {
    let hung: Vec<&RunId> = group
        .runs
        .iter()
        .filter(|other| *other != run && !group.left_out.contains(other))
        .collect();
    let kept = format!("the kept hangers of {}", list(&group.kept));
    match (hung.is_empty(), group.kept.is_empty()) {
        (true, true) => "Chosen before the runs that share hang points with it.".to_owned(),
        (true, false) => format!("Chosen beside {kept}, which share hang points with it."),
        (false, true) => format!("Chosen together with {}, sharing hang points.", list(&hung)),
        (false, false) => format!(
            "Chosen together with {} beside {kept}, sharing hang points.",
            list(&hung)
        ),
    }
}

/// What is proven of a cost where the search stopped early:
/// `they cost 10.5, and none can cost less than 9, counted in hangers at panel points`.
#[must_use]
pub fn bound_words(cost: u64, least_cost: u64) -> String {
    let counted = "counted in hangers at panel points";
    if least_cost >= cost {
        format!("none cost less than their {}, {counted}", cost_words(cost))
    } else {
        format!(
            "they cost {}, and none can cost less than {}, {counted}",
            cost_words(cost),
            cost_words(least_cost)
        )
    }
}
