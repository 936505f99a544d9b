//! Nothing to stand a lift on below a burner.

use crate::clearance::Part;
use crate::findings::nearby::obstruction_name;
use crate::findings::say::words;
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::geometry::{ConvexSolid, DVec3};
use crate::site::ObstructionKind;
use crate::study::{RunStudy, Thing};

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
        let mut upright = context.study.surroundings.upright(middle.truncate());
        let below = upright.find_map(|(thing, solid)| match &thing.thing {
            Thing::Obstruction(id) if stands(thing.kind, solid, middle.z) => Some(id),
            _ => None,
        });
        let Some(below) = below else { continue };
        let text = format!(
            "The burner of {} is over {}: a lift can't stand below it.",
            run.run.id,
            obstruction_name(context, below)
        );
        let subjects = vec![
            Subject::Run(run.run.id.clone()),
            Subject::Obstruction(below.clone()),
        ];
        let source = "service practice".to_owned();
        let finding = context.finding(subjects, source, vec![words(text)]);
        findings.push(finding.at(middle));
    }
}

/// Whether an obstruction stands under a burner on the floor for good, so that no lift can.
fn stands(kind: Option<ObstructionKind>, solid: &ConvexSolid, burner_m: f64) -> bool {
    /// Higher than this a lift's deck passes under it.
    const LOW_M: f64 = 1.0;
    use ObstructionKind as Kind;
    solid.bounds().low.z < LOW_M.min(burner_m)
        && matches!(
            kind,
            Some(Kind::Racking | Kind::StoredGoods | Kind::Stairs | Kind::Partition | Kind::Other)
        )
}

/// The middle of the burner's body.
fn burner_middle(run: &RunStudy) -> Option<DVec3> {
    let bodies = &run.clearance.bodies;
    let mut parts = bodies.bodies.iter();
    let burner = parts.find(|body| body.part == Part::Burner)?;
    Some(bodies.frame.site_from_local(burner.local.centre()))
}
