//! Suspensions are shorter than the maker allows.

use crate::findings::limits::{beyond, breaches, hangers, subjects};
use crate::findings::say::{down, makers_document, up, words, worst};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity};
use crate::hanging::Limit;
use crate::site::policy::PolicyItem;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "suspension-too-short",
    title: "A suspension is too short",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The length of each suspension, from the attach point to the hanger's eye, cold, against the maker's least for a tube of this length, and the site's least whatever the maker allows. One finding a run, about its shortest suspension.",
        why: "The hot tube grows by centimetres. On a short suspension it swings far, pulls sideways at the steel and lifts off its level.",
        remedy: "Lower the run, or hang it from higher steel.",
        source: "The hanging rule of the heater's family; no less than 280 mm by trade practice.",
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
        let mut text = vec![
            words(format!("The suspension of {id}.{number} is ")),
            down(breach.measured),
            words(" long, at least "),
            up(breach.required),
            words(format!(" is needed{}.", beyond(of_run.len()))),
        ];
        if hanger.least_suspension.growth_governs() {
            text.push(words(" Its movement when hot asks for "));
            text.push(up(hanger.least_suspension.by_growth_m));
            text.push(words("."));
        }
        let makers_m = run.family.least_suspension(&run.size).as_metres();
        let source = if makers_m < breach.required {
            context.policy_source(PolicyItem::LeastSuspension)
        } else {
            makers_document(&run.family)
        };
        let about = of_run
            .iter()
            .flat_map(|breach| breach.hangers.iter().copied());
        let finding = context
            .finding(subjects(run, about), source, text)
            .at(hanger.at.attach)
            .at_least(Dimension::Length, breach.measured, breach.required);
        findings.push(finding);
    }
}
