//! A run can only be hung with cross channels.

use crate::findings::limits::subjects;
use crate::findings::say::{count, list, up, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity, Subject};
use crate::hanging::{Hanger, Kind, Status};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "cross-channel-needed",
    title: "Cross channels are needed",
    severity: Severity::Note,
    can_be_accepted: true,
    explain: Explanation {
        checks: "How many hangers of each run hang from a channel laid across two members.",
        why: "A cross channel is steel to buy, cut and clamp at height.",
        remedy: "A small shift of the run along or across its axis often brings its hangers under hang points.",
        source: "The choice of hangers, by the costs of the site's policy.",
        limits: "Length is between the members' lines: add what the clamps need at both ends.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let on_channels: Vec<(usize, &Hanger)> = run
            .hanging
            .hangers
            .iter()
            .enumerate()
            .filter(|(_, hanger)| hanger.at.kind == Kind::Channel)
            .collect();
        let Some((_, first)) = on_channels.first() else {
            continue;
        };
        let subjects = subjects(run, on_channels.iter().map(|(which, _)| *which));
        let names: Vec<&Subject> = subjects.iter().skip(1).collect();
        let length_m: f64 = on_channels
            .iter()
            .filter_map(|(_, hanger)| hanger.at.channel)
            .map(|lay| lay.span_m)
            .sum();
        let text = vec![
            words(format!(
                "{} needs {}, together ",
                run.run.id,
                count(names.len(), "cross channel")
            )),
            up(length_m),
            words(format!(" long between their members: {}.", list(&names))),
        ];
        let place = first.at.attach;
        let source = match run.hanging.status {
            Status::Locked => "the run's kept hangers",
            Status::Solved | Status::Impossible | Status::Unproven => {
                "the cheapest set of hangers by the site's costs"
            }
        };
        #[expect(
            clippy::cast_precision_loss,
            reason = "a run has far fewer hangers than 2^52"
        )]
        let n_channels = names.len() as f64;
        let finding = Finding {
            measured: Some(n_channels),
            dimension: Dimension::Number,
            ..context.finding(subjects, source.to_owned(), text)
        };
        findings.push(finding.at(place));
    }
}
