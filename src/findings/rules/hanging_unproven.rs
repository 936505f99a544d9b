//! The hangers of a run hold it, but may not be the cheapest.

use crate::findings::limits::on_tube;
use crate::findings::say::{list, words};
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject, bound_words};
use crate::hanging::Status;
use crate::site::RunId;
use crate::study::RunGroup;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "hanging-unproven",
    title: "A cheaper set of hangers may exist",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Whether the search for the cheapest hangers whose loads are allowed came to its end, for a run by itself and for runs that share hang points.",
        why: "Where loads forbid thousands of sets, the search stops and takes the best that it found: it holds, but a cheaper one may exist. What hangers cost at least is proven, and is said beside.",
        remedy: "Shift the run a little, or accept the set.",
        source: "Program: at most 10,000 sets are tried for a run, 100,000 for runs that share hang points.",
        limits: "The set keeps the maker's rule and the allowed loads. A run for which nothing was found has the rule on runs that can't be hung.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let study = context.study;
    for run in &study.runs {
        let hanging = &run.hanging;
        let Some(cost) = hanging.cost.filter(|_| hanging.status == Status::Unproven) else {
            continue;
        };
        let (text, subjects) = match study.group(&run.run.id) {
            // Said once, with the first that hangs.
            Some(group) => {
                let hung: Vec<&RunId> = hung(group).collect();
                if hung.first() != Some(&&run.run.id) {
                    continue;
                }
                let text = format!(
                    "The hangers of {} are allowed, but after {} sets for the group it is not proven that they are the best: {}.",
                    list(&hung),
                    group.sets_tried,
                    bound_words(group.cost, group.least_cost)
                );
                (text, hung.into_iter().cloned().map(Subject::Run).collect())
            }
            None => {
                let text = format!(
                    "The hangers of {} are allowed, but after {} sets it is not proven that they are the best: {}.",
                    run.run.id,
                    hanging.sets_tried,
                    bound_words(cost, hanging.least_cost.unwrap_or(0))
                );
                (text, vec![Subject::Run(run.run.id.clone())])
            }
        };
        let source = "the program's limit on sets tried".to_owned();
        findings.push(
            context
                .finding(subjects, source, vec![words(text)])
                .at(on_tube(run, 0.0)),
        );
    }
}

/// Those of a group that hang.
fn hung(group: &RunGroup) -> impl Iterator<Item = &RunId> {
    let hangs = |run: &&RunId| !group.left_out.contains(run);
    group.runs.iter().filter(hangs)
}
