//! A family in use has figures that are not those of a certified manual.

use crate::findings::say::{list, makers_document, words};
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::study::RunStudy;
use std::sync::Arc;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "family-uncertified",
    title: "Not for construction: a family's figures are not certified",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Whether the figures of every family in use are those of the heater's certified manual.",
        why: "Distances, hanging and heights are only as good as the figures behind them, and invented figures fit no heater.",
        remedy: "Enter the figures of the certified manual of the heater that will be bought, and place that family.",
        source: "The family's own statement of where its figures come from.",
        limits: "Whether a family that is marked certified states its manual rightly is for whoever entered it. Accepting it does not take the mark off the sheets.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for family in context.catalogue.families() {
        let runs: Vec<&RunStudy> = context
            .study
            .runs
            .iter()
            .map(Arc::as_ref)
            .filter(|run| run.family.id == family.id && !run.family.source.certified)
            .collect();
        if runs.is_empty() {
            continue;
        }
        let ids: Vec<_> = runs.iter().map(|run| &run.run.id).collect();
        let text = format!(
            "The figures of {} are not those of a certified manual: not for construction. Placed as {}.",
            family.name,
            list(&ids)
        );
        let subjects = vec![Subject::Family(family.id.clone())];
        findings.push(context.finding(subjects, makers_document(family), vec![words(text)]));
    }
}
