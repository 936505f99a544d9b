//! Two hangers are too near to each other, or too far apart.

use crate::findings::limits::{breaches, hangers, length_finding, on_tube};
use crate::findings::{Context, Explanation, Finding, Rule, Severity};
use crate::hanging::Limit;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "hanger-gap-outside-limits",
    title: "A gap between hangers is too small or too great",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The distance along the tube between neighbouring hangers, from the second on, against the maker's least and greatest spacing.",
        why: "Over too great a gap the tube sags and its joints open; hangers too close together share the load badly, and one goes slack.",
        remedy: "Let the program choose the hangers, move the hanger to another member, or add a cross channel.",
        source: "The hanging rule of the heater's family.",
        limits: "The gap between the first and the second hanger has its own rule. Hangers that the program chose never break it.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (run, of_run) in breaches(context, &[Limit::LeastSpacing, Limit::GreatestSpacing]) {
        for breach in of_run {
            let [Some(from), Some(to)] = [0, 1].map(|n| hangers(run, breach).get(n).copied())
            else {
                continue;
            };
            let id = &run.run.id;
            let numbers: Vec<String> = breach
                .hangers
                .iter()
                .map(|which| format!("{id}.{}", which + 1))
                .collect();
            let what = format!("{} are ", numbers.join(" and "));
            let middle_m = f64::midpoint(from.at.station_m, to.at.station_m);
            let finding = length_finding(context, run, breach, what, " apart along the tube");
            findings.push(finding.at(on_tube(run, middle_m)));
        }
    }
}
