//! A heater hangs too low over people on a mezzanine.

use crate::findings::limits::on_tube;
use crate::findings::nearby::obstruction_name;
use crate::findings::say::{length_against, makers_document, words};
use crate::findings::{Bound, Context, Dimension, Explanation, Finding, Rule, Severity, Subject};
use crate::geometry::tolerance;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "mezzanine-below-low-heater",
    title: "A run hangs too low over a mezzanine",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The height of each run's lowest part above every mezzanine that is below the heater against the least mounting height of its size.",
        why: "People up there have no more between their heads and the hot tube than what is left above that floor.",
        remedy: "Raise the run, move it aside, or accept it where nobody stays up there while the heater burns.",
        source: "The mounting heights of the heater's family, or of its size.",
        limits: "Counted from the highest of the mezzanine. Stairs, docks and platforms drawn as another kind are not looked at.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let required_m = run.family.mounting_of(&run.size).least.as_metres();
        let floors = run.clearance.neighbours.floors.iter();
        for floor in floors.filter(|floor| floor.is_below_heater) {
            let left_m = run.clearance.stacking.lowest_part_m - floor.surface_m;
            if required_m - tolerance::LIMIT <= left_m {
                continue;
            }
            let mut text = vec![words(format!("The lowest part of {} is ", run.run.id))];
            let between = format!(" above {}", obstruction_name(context, &floor.id));
            text.extend(length_against(Bound::Least, left_m, &between, required_m));
            let subjects = vec![
                Subject::Run(run.run.id.clone()),
                Subject::Obstruction(floor.id.clone()),
            ];
            let finding = context
                .finding(subjects, makers_document(&run.family), text)
                .at(on_tube(run, run.geometry.tube_length_m / 2.0))
                .at_least(Dimension::Length, left_m, required_m);
            findings.push(finding);
        }
    }
}
