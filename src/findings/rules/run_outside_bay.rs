//! A run reaches out of every bay.

use crate::findings::limits::on_tube;
use crate::findings::say::{up, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity, Subject};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "run-outside-bay",
    title: "A run is not inside the building",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The plan outline of each run's bodies against the outlines of all bays together, their holes taken out.",
        why: "Outside there is no roof to hang from, and a wall in between is no place for a hot tube.",
        remedy: "Move the run, or correct the bay's outline.",
        source: "Site: the outlines of the bays.",
        limits: "Side by side, bays count as one. Exhaust and air pipes are not part of the run.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let clearance = &run.clearance;
        if clearance.outside_m <= 0.0 {
            continue;
        }
        // Over a notch, both its ends may be inside.
        let at = clearance.outside_at.map_or_else(
            || on_tube(run, run.geometry.tube_length_m / 2.0),
            |corner| corner.extend(run.geometry.flange.z),
        );
        let text = vec![
            up(clearance.outside_m),
            words(format!(
                " of the outline of {} lies outside every bay.",
                run.run.id
            )),
        ];
        let subjects = vec![Subject::Run(run.run.id.clone())];
        let finding = context
            .finding(subjects, "the outlines of the bays".to_owned(), text)
            .at(at)
            .at_most(Dimension::Length, clearance.outside_m, 0.0);
        findings.push(finding);
    }
}
