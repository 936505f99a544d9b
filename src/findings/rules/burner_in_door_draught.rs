//! A burner is so near to a door that gusts reach it.

use crate::clearance::Part;
use crate::findings::nearby::opening_name;
use crate::findings::say::{down, up, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity, Subject};
use crate::geometry::pieces::convex_hull;
use crate::geometry::segment::{distance_to_segment, nearest_on_segment};
use crate::geometry::{DVec2, DVec3, Polygon, tolerance};
use crate::site::policy::PolicyItem;
use crate::site::{Opening, Site};
use crate::study::RunStudy;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "burner-in-door-draught",
    title: "A burner is in the draught of a door",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The distance in plan of each burner from the openings of doors, against 1 m.",
        why: "Gusts through an open door blow the pressure switch out, and the burner stops when it is needed most.",
        remedy: "Move the run, or turn it end for end so that its burner is away from the door.",
        source: "Trade practice; site policy burner_from_opening.",
        limits: "Windows are taken to be shut. Wind over wide open hangar doors reaches farther: you must check.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let required_m = context.site.policy.value(PolicyItem::DoorAside);
    for run in &context.study.runs {
        let Some((hull, middle)) = burner(run) else {
            continue;
        };
        for opening in &context.site.openings {
            let Some((a, b)) = jambs(context.site, opening) else {
                continue;
            };
            let distance_m = apart_m(&hull, a, b);
            if required_m - tolerance::LIMIT <= distance_m {
                continue;
            }
            let text = vec![
                words(format!("The burner of {} is ", run.run.id)),
                down(distance_m),
                words(format!(
                    " in plan from the opening of {}; ",
                    opening_name(context, &opening.id)
                )),
                up(required_m),
                words(" keeps it out of the draught."),
            ];
            let subjects = vec![
                Subject::Run(run.run.id.clone()),
                Subject::Opening(opening.id.clone()),
            ];
            let place = nearest_on_segment(middle.truncate(), a, b).extend(middle.z);
            let finding = context
                .finding(subjects, context.policy_source(PolicyItem::DoorAside), text)
                .at(place)
                .at_least(Dimension::Length, distance_m, required_m);
            findings.push(finding);
        }
    }
}

/// The burner's outline in plan, and its middle in space.
fn burner(run: &RunStudy) -> Option<(Polygon, DVec3)> {
    let bodies = &run.clearance.bodies;
    let mut parts = bodies.bodies.iter();
    let burner = parts.find(|it| it.part == Part::Burner)?;
    let corners = bodies.frame.corners(&burner.local);
    Some((
        Polygon::new(convex_hull(&corners.map(DVec3::truncate))),
        bodies.frame.site_from_local(burner.local.centre()),
    ))
}

/// How far an outline is from the segment a-b, m; 0 where they meet.
fn apart_m(outline: &Polygon, a: DVec2, b: DVec2) -> f64 {
    if !outline.clip_segment(a, b).is_empty() {
        return 0.0;
    }
    let from_corners = outline
        .outline
        .iter()
        .map(|p| distance_to_segment(*p, a, b));
    let from_jambs = [a, b].map(|p| outline.distance_to_boundary(p));
    from_corners.chain(from_jambs).fold(f64::INFINITY, f64::min)
}

/// The jambs of a door; none of a window.
fn jambs(site: &Site, opening: &Opening) -> Option<(DVec2, DVec2)> {
    opening.kind.motion()?;
    let bay = site.bays.iter().find(|bay| bay.id == opening.bay)?;
    let from = *bay.outline.get(opening.edge)?;
    let to = bay.outline[(opening.edge + 1) % bay.outline.len()];
    let along = (to - from).try_normalize()?;
    let near = from + along * opening.from_corner.as_metres();
    Some((near, near + along * opening.width.as_metres()))
}
