//! Suspensions are shorter than the maker allows.

use crate::findings::limits::{beyond, breaches, hangers, subjects};
use crate::findings::say::{down, makers_document, up, words, worst};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity};
use crate::hanging::Limit;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "suspension-too-short",
    title: "A suspension is too short",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The length of each suspension, from the attach point to the hanger's eye, cold, against the maker's least for a tube of this length. One finding a run, about its shortest suspension.",
        why: "The hot tube grows by centimetres. On a short suspension it swings far, pulls sideways at the steel and lifts off its level.",
        remedy: "Lower the run, or hang it from higher steel.",
        source: "The hanging rule of the heater's family.",
        limits: "Hangers that the program chose never break it. Swing has its own rule.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (run, of_run) in breaches(context, &[Limit::Suspension]) {
        let shortest = worst(of_run.iter().copied(), |breach| {
            breach.required - breach.measured
        });
        let Some((breach, hanger)) =
            shortest.and_then(|breach| Some((breach, hangers(run, breach).first().copied()?)))
        else {
            continue;
        };
        let id = &run.run.id;
        let number = breach.hangers.first().map_or(1, |which| which + 1);
        let text = vec![
            words(format!("The suspension of {id}.{number} is ")),
            down(breach.measured),
            words(" long, at least "),
            up(breach.required),
            words(format!(" is needed{}.", beyond(of_run.len()))),
        ];
        let about = of_run
            .iter()
            .flat_map(|breach| breach.hangers.iter().copied());
        let finding = context
            .finding(subjects(run, about), makers_document(&run.family), text)
            .at(hanger.at.attach)
            .at_least(Dimension::Length, breach.measured, breach.required);
        findings.push(finding);
    }
}
