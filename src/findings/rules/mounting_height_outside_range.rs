//! A run hangs lower or higher than its maker allows.

use crate::findings::limits::on_tube;
use crate::findings::say::{length_against, makers_document, words};
use crate::findings::{Bound, Context, Dimension, Explanation, Finding, Rule, Severity, Subject};
use crate::geometry::tolerance;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "mounting-height-outside-range",
    title: "A run hangs too low or too high",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The height of each run's lowest part above the finished floor against the least and greatest of its size.",
        why: "Too low, heads get hot and things are hit; too high, the warmth does not reach the floor evenly.",
        remedy: "Raise or lower the run, or choose another size or family.",
        source: "The mounting heights of the heater's family, or of its size.",
        limits: "Counted from the finished floor: over mezzanines there is a rule of its own; stairs, docks and vehicles are not looked at. Code heights over garage floors, vehicle doors and aircraft are not part of it.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let lowest_m = run.clearance.stacking.lowest_part_m;
        let mounting = run.family.mounting_of(&run.size);
        let (least_m, greatest_m) = (mounting.least.as_metres(), mounting.greatest.as_metres());
        let (bound, required_m) = if lowest_m < least_m - tolerance::LIMIT {
            (Bound::Least, least_m)
        } else if lowest_m > greatest_m + tolerance::LIMIT {
            (Bound::Greatest, greatest_m)
        } else {
            continue;
        };
        let mut text = vec![words(format!("The lowest part of {} is ", run.run.id))];
        text.extend(length_against(
            bound,
            lowest_m,
            " above the floor",
            required_m,
        ));
        let subjects = vec![Subject::Run(run.run.id.clone())];
        let finding = context
            .finding(subjects, makers_document(&run.family), text)
            .at(on_tube(run, run.geometry.tube_length_m / 2.0))
            .with_figures(Dimension::Length, bound, lowest_m, required_m);
        findings.push(finding);
    }
}
