//! Too much tube reaches out beyond the last hanger.

use crate::findings::limits::{breaches, length_finding, on_tube};
use crate::findings::{Context, Explanation, Finding, Rule, Severity};
use crate::hanging::Limit;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "overhang-too-long",
    title: "Too much tube hangs out beyond the last hanger",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The length of tube beyond the last hanger against the maker's greatest overhang.",
        why: "The free end droops, takes the slope away and strains the last joint and the exhaust.",
        remedy: "Add a hanger nearer the end, on a cross channel if no member is there, or shift the run along its axis.",
        source: "The hanging rule of the heater's family.",
        limits: "Hangers that the program chose never break it. The bend of a hairpin is not counted as tube.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (run, of_run) in breaches(context, &[Limit::EndOverhang]) {
        for breach in of_run {
            // Where all kept hangers are lost, that is said already.
            let Some(last) = breach.hangers.first() else {
                continue;
            };
            let id = &run.run.id;
            let what = format!("The tube of {id} reaches ");
            let between = format!(" beyond {id}.{}", last + 1);
            let finding = length_finding(context, run, breach, what, &between);
            findings.push(finding.at(on_tube(run, run.geometry.tube_length_m)));
        }
    }
}
