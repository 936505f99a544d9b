//! The hangers of a run hold it, but may not be the cheapest.

use crate::findings::limits::on_tube;
use crate::findings::say::words;
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::hanging::Status;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "hanging-unproven",
    title: "A cheaper set of hangers may exist",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Whether the search for the cheapest set of hangers whose loads are allowed came to its end.",
        why: "Where loads forbid thousands of sets, the search stops and takes the best that it found: it holds, but a cheaper one may exist.",
        remedy: "Shift the run a little, or accept the set.",
        source: "Program: at most 10,000 sets are tried.",
        limits: "The set keeps the maker's rule and the allowed loads. A run for which nothing was found has the rule on runs that can't be hung.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let hanging = &run.hanging;
        if hanging.status != Status::Unproven || hanging.hangers.is_empty() {
            continue;
        }
        let text = format!(
            "The hangers of {} are allowed, but after {} sets it is not proven that none is cheaper.",
            run.run.id, hanging.sets_tried
        );
        let subjects = vec![Subject::Run(run.run.id.clone())];
        let source = "the program's limit on sets tried".to_owned();
        findings.push(
            context
                .finding(subjects, source, vec![words(text)])
                .at(on_tube(run, 0.0)),
        );
    }
}
