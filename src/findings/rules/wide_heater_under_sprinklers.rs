//! A wide heater keeps the water of the sprinklers above it from the floor below.

use crate::clearance::Part;
use crate::findings::nearby::obstruction_name;
use crate::findings::say::{list, up, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity, Subject};
use crate::geometry::tolerance;
use crate::site::policy::PolicyItem;
use crate::study::{NearHeads, RunStudy};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "wide-heater-under-sprinklers",
    title: "A wide heater shadows the floor from sprinklers",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Heaters wider than 1.2 m (4 ft) across tube and reflector, over which or within 2.1 m (7 ft) beside which sprinkler heads are drawn: whether heads are drawn below them too.",
        why: "The floor under something wide stays dry, and a fire there grows.",
        remedy: "Have the sprinkler contractor add heads below the heater, or hang a narrower one.",
        source: "NFPA 13, obstructions to discharge; site policy sprinkler_wide_object.",
        limits: "Each heater by itself: two that hang close beside each other may be one wide object. Whether the heads below cover the whole shadow: you must check.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let item = PolicyItem::WideHeater;
    let greatest_m = context.site.policy.value(item);
    for run in &context.study.runs {
        let width_m = width_m(run);
        let heads = &run.clearance.neighbours.heads;
        let lowest_m = run.clearance.stacking.lowest_part_m;
        let is_below = |near: &NearHeads| near.deflector_m < lowest_m && near.place.aside_m <= 0.0;
        if width_m <= greatest_m + tolerance::LIMIT || heads.iter().any(is_below) {
            continue;
        }
        let above: Vec<&NearHeads> = heads
            .iter()
            .filter(|near| 0.0 <= near.place.above_top_m)
            .collect();
        if above.is_empty() {
            continue;
        }
        let names: Vec<String> = above
            .iter()
            .map(|near| obstruction_name(context, &near.id))
            .collect();
        let text = vec![
            words(format!("{} is ", run.run.id)),
            up(width_m),
            words(format!(" wide below {}; from ", list(&names))),
            up(greatest_m),
            words(" on, heads are needed below it."),
        ];
        let subjects = std::iter::once(Subject::Run(run.run.id.clone()))
            .chain(
                above
                    .iter()
                    .map(|near| Subject::Obstruction(near.id.clone())),
            )
            .collect();
        let place = above[0].place.nearest.extend(above[0].deflector_m);
        let finding = context
            .finding(subjects, context.policy_source(item), text)
            .at(place)
            .at_most(Dimension::Length, width_m, greatest_m);
        findings.push(finding);
    }
}

/// Across tube and reflector, m.
fn width_m(run: &RunStudy) -> f64 {
    let bodies = run.clearance.bodies.bodies.iter();
    bodies
        .filter(|body| body.part == Part::Tube)
        .map(|body| body.local.high.y - body.local.low.y)
        .fold(0.0, f64::max)
}
