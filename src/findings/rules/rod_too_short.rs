//! A long tube hangs on short rods.

use crate::catalogue::SuspensionKind;
use crate::findings::limits::subjects;
use crate::findings::say::{down, up, words, worst};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity};
use crate::geometry::tolerance;
use crate::hanging::Suspension;
use crate::site::policy::PolicyItem;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "rod-too-short",
    title: "A long tube hangs on a short rod",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The length of every threaded rod of a run whose tube is long by the site's policy, against the policy's least length of such rods. One finding a run, about its shortest rod.",
        why: "A rod does not give way like chain: the growing tube bends a short one at its thread until it breaks.",
        remedy: "Hang the run on chain or wire rope, lower it, or use longer rods.",
        source: "Trade practice: rods swivel at both ends, and are no shorter than 0.6 m on long tubes.",
        limits: "Rods are taken to have a swivel at both ends: that is for the fitter to see to.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let value = |item| context.site.policy.value(item);
    let (long_m, least_m) = (
        value(PolicyItem::RodLongTube),
        value(PolicyItem::RodLeastSuspension),
    );
    for run in &context.study.runs {
        let usual = context.site.conditions.suspension;
        let kind = run.run.suspension.unwrap_or(usual);
        let is_long = long_m <= run.geometry.tube_length_m + tolerance::LIMIT;
        if kind != SuspensionKind::Rod || !is_long {
            continue;
        }
        let hangers = run.hanging.hangers.iter().enumerate();
        let short: Vec<(usize, &Suspension)> = hangers
            .flat_map(|(which, hanger)| hanger.suspensions.iter().map(move |it| (which, it)))
            .filter(|(_, it)| it.length_m < least_m - tolerance::LIMIT)
            .collect();
        let Some((which, shortest)) = worst(short.iter().copied(), |(_, it)| -it.length_m) else {
            continue;
        };
        let mut hangers: Vec<usize> = short.iter().map(|(which, _)| *which).collect();
        hangers.dedup();
        let others = match hangers.len() {
            1 => String::new(),
            n => format!("; {n} hangers of the run hang on short rods"),
        };
        let text = vec![
            words(format!("The rod of {}.{} is ", run.run.id, which + 1)),
            down(shortest.length_m),
            words(" long, at least "),
            up(least_m),
            words(format!(" is needed on a long tube{others}.")),
        ];
        let finding = context
            .finding(
                subjects(run, hangers),
                context.policy_source(PolicyItem::RodLeastSuspension),
                text,
            )
            .at(shortest.attach)
            .at_least(Dimension::Length, shortest.length_m, least_m);
        findings.push(finding);
    }
}
