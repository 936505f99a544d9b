//! Hangers that carry nothing.

use crate::findings::limits::subjects;
use crate::findings::say::{list, words};
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::hanging::{Hanger, Limit};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "hanger-slack",
    title: "A hanger carries nothing",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Whether every hanger carries something, with the tube level: a stiff beam on its hangers that can pull but not push.",
        why: "The burner's weight beyond the first hanger lifts the tube off the second. Its neighbours carry what it does not, and the tube can rattle.",
        remedy: "Bring the first hanger nearer the burner, or the second farther from the first.",
        source: "Statics: a continuous beam on supports that only pull.",
        limits: "All hangers are taken as set to their exact length. What a hanger set a few millimetres low does to its neighbours is another rule's.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let hanging = &run.hanging;
        // Of a run that would tip no load is known, and that it tips is said already.
        if hanging
            .breaches
            .iter()
            .any(|breach| breach.limit == Limit::Balance)
        {
            continue;
        }
        let slack: Vec<(usize, &Hanger)> = hanging
            .hangers
            .iter()
            .enumerate()
            .filter(|(_, hanger)| hanger.load.slack)
            .collect();
        let Some((_, first)) = slack.first() else {
            continue;
        };
        let subjects = subjects(run, slack.iter().map(|(which, _)| *which));
        let names: Vec<&Subject> = subjects.iter().skip(1).collect();
        let (carries, neighbours) = match names.len() {
            1 => ("carries", "its neighbours carry"),
            _ => ("carry", "their neighbours carry"),
        };
        let text = format!(
            "{} {carries} nothing: {neighbours} more instead.",
            list(&names)
        );
        let place = first.at.attach;
        let source = "statics of the level run".to_owned();
        findings.push(
            context
                .finding(subjects, source, vec![words(text)])
                .at(place),
        );
    }
}
