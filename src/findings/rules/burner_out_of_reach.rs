//! Nothing to stand a lift on below a burner.

use crate::clearance::Part;
use crate::findings::nearby::obstruction_name;
use crate::findings::say::words;
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::geometry::{DVec2, DVec3, Polygon};
use crate::site::{Obstruction, ObstructionKind};
use crate::study::{RunStudy, footprint_outlines};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "burner-out-of-reach",
    title: "A burner is over something that a lift can't stand on",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Whether racking, stored goods, stairs, partitions or other things that stand on the floor cover the place straight below a burner's middle.",
        why: "The burner is serviced from a lift below it. Over a rack it is emptied and climbed, or the burner is not serviced.",
        remedy: "Move the run, turn it end for end so that its burner is over an aisle, or accept it where another way up exists.",
        source: "Service practice.",
        limits: "Looks straight down. How far the site's lift reaches aside, and whether it fits between things: you must check.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let Some(middle) = burner_middle(run) else {
            continue;
        };
        let below = context.site.obstructions.iter().find(|it| {
            stands(it)
                && it.bottom.as_metres() < middle.z
                && footprint_outlines(&it.footprint)
                    .iter()
                    .any(|outline| covers(outline, middle.truncate()))
        });
        let Some(below) = below else { continue };
        let text = format!(
            "The burner of {} is over {}: a lift can't stand below it.",
            run.run.id,
            obstruction_name(context, &below.id)
        );
        let subjects = vec![
            Subject::Run(run.run.id.clone()),
            Subject::Obstruction(below.id.clone()),
        ];
        let source = "service practice".to_owned();
        let finding = context.finding(subjects, source, vec![words(text)]);
        findings.push(finding.at(middle));
    }
}

/// Whether a thing stands on the floor for good, so that no lift can.
fn stands(it: &Obstruction) -> bool {
    /// Higher than this a lift's deck passes under it.
    const LOW_M: f64 = 1.0;
    use ObstructionKind as Kind;
    it.bottom.as_metres() < LOW_M
        && matches!(
            it.kind,
            Kind::Racking | Kind::StoredGoods | Kind::Stairs | Kind::Partition | Kind::Other
        )
}

fn covers(outline: &Polygon, point: DVec2) -> bool {
    outline.contains(point)
}

/// The middle of the burner's body.
fn burner_middle(run: &RunStudy) -> Option<DVec3> {
    let bodies = &run.clearance.bodies;
    let mut parts = bodies.bodies.iter();
    let burner = parts.find(|body| body.part == Part::Burner)?;
    Some(bodies.frame.site_from_local(burner.local.centre()))
}
