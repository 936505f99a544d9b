//! What rules share that say of a thing how far it is from a run, and how far it should
//! be, or that tell of sprinkler heads by sprinkler.

use super::nearby::{name, obstruction_name, towards};
use super::say::{down, list, up, words, worst};
use super::{Context, Dimension, Finding, Subject};
use crate::site::policy::PolicyItem;
use crate::site::{ObstructionId, RunId, SprinklerRating};
use crate::study::{Clearance, NearHeads, RunStudy};
use std::collections::BTreeMap;

/// The words round a thing and the distance to it.
pub(super) struct Says {
    /// Before the thing's name.
    pub(super) what: &'static str,
    /// Between it and the required distance.
    pub(super) then: &'static str,
    /// After that.
    pub(super) end: &'static str,
}

/// A thing nearer than policy wants, in the direction that governs; none where it lies
/// in no direction.
pub(super) fn nearer_than_wanted(
    context: &Context<'_>,
    run: &RunStudy,
    near: &Clearance,
    item: PolicyItem,
    says: &Says,
) -> Option<Finding> {
    let reach = near.measured.governing_reach()?;
    let text = vec![
        words(format!("{} has ", run.run.id)),
        down(reach.available_m.max(0.0)),
        words(format!(
            " {} up to {}{}{}",
            towards(run, reach),
            says.what,
            name(context, &near.thing),
            says.then
        )),
        up(reach.required_m),
        words(says.end),
    ];
    let subjects = vec![Subject::Run(run.run.id.clone()), Subject::from(&near.thing)];
    let finding = context
        .finding(subjects, context.policy_source(item), text)
        .at(near.measured.place)
        .at_least(Dimension::Length, reach.available_m, reach.required_m);
    Some(finding)
}

/// One finding for each sprinkler whose heads pass a test near any run, with the runs.
/// `text` gets its name, the rating that is needed at the hottest place, and the runs.
pub(super) fn by_sprinkler(
    context: &Context<'_>,
    findings: &mut Vec<Finding>,
    is_told: impl Fn(&NearHeads) -> bool,
    text: impl Fn(&str, &str, &str) -> String,
) {
    let mut sprinklers: BTreeMap<&ObstructionId, Vec<(&RunStudy, &NearHeads)>> = BTreeMap::new();
    for run in &context.study.runs {
        for heads in run
            .clearance
            .neighbours
            .heads
            .iter()
            .filter(|it| is_told(it))
        {
            sprinklers.entry(&heads.id).or_default().push((run, heads));
        }
    }
    for (id, runs) in sprinklers {
        let hottest = worst(runs.iter(), |(_, heads)| match heads.needed() {
            SprinklerRating::High => 2.0,
            SprinklerRating::Intermediate => 1.0,
            SprinklerRating::Ordinary => 0.0,
        });
        let Some((_, heads)) = hottest else { continue };
        let ids: Vec<&RunId> = runs.iter().map(|(run, _)| &run.run.id).collect();
        let said = text(
            &obstruction_name(context, id),
            heads.needed().label(),
            &list(&ids),
        );
        let subjects = ids
            .iter()
            .map(|run| Subject::Run((*run).clone()))
            .chain([Subject::Obstruction(id.clone())])
            .collect();
        let source = "NFPA 13 (2019), table 9.4.2.5(a)".to_owned();
        let finding = context.finding(subjects, source, vec![words(said)]);
        findings.push(finding.at(heads.place.nearest.extend(heads.deflector_m)));
    }
}
