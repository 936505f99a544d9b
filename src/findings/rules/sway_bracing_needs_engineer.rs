//! Something asks for bracing against sway, which an engineer details.

use crate::findings::say::{count, list, words};
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::site::obstruction::ObstructionKind;
use crate::site::{SeismicCategory, WindExposure};
use std::sync::Arc;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "sway-bracing-needs-engineer",
    title: "Bracing against sway: engineer",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Whether something hangs in a building of seismic design category D, E or F, or of a category that nobody has said, in one with a crane, or in a hall that is open to wind.",
        why: "What hangs on chain swings: against its neighbours, off its gas connector, out of its exhaust. In an earthquake a suspension that is not braced can fail.",
        remedy: "Enter the building's seismic design category. Have an engineer detail the bracing, or confirm that none is needed: cables to four sides that still let the tube grow.",
        source: "ASCE 7, chapter 13: mechanical components are exempt in categories A and B, in C with an importance factor of 1.0. Crane and wind: trade practice.",
        limits: "Forces and bracing are not computed. Category C with a greater importance factor is not known here. Any crane travel that is drawn makes a crane building.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let conditions = &context.site.conditions;
    let hung = || {
        let runs = context.study.runs.iter();
        runs.filter(|run| !run.hanging.hangers.is_empty())
    };
    let mut reasons = Vec::new();
    match conditions.seismic {
        SeismicCategory::Unknown => {
            reasons.push("the seismic design category is unknown".to_owned());
        }
        SeismicCategory::D | SeismicCategory::E | SeismicCategory::F => {
            let category = conditions.seismic.label();
            reasons.push(format!("the seismic design category is {category}"));
        }
        SeismicCategory::A | SeismicCategory::B | SeismicCategory::C => {}
    }
    let cranes: Vec<_> = context
        .site
        .obstructions
        .iter()
        .map(Arc::as_ref)
        .filter(|it| it.kind == ObstructionKind::CraneTravel)
        .map(|it| it.id.clone())
        .collect();
    if !cranes.is_empty() {
        reasons.push(format!(
            "a crane travels in the building ({})",
            list(&cranes)
        ));
    }
    if conditions.wind == WindExposure::Open {
        reasons.push("the hall is open to wind".to_owned());
    }
    let n_hung = hung().count();
    if reasons.is_empty() || n_hung == 0 {
        return;
    }
    let bays = context.site.bays.iter().map(|bay| &bay.id);
    let subjects = bays
        .filter(|bay| hung().any(|run| run.clearance.bay.as_ref() == Some(bay)))
        .map(|bay| Subject::Bay(bay.clone()))
        .chain(cranes.into_iter().map(Subject::Obstruction));
    let mut subjects: Vec<Subject> = subjects.collect();
    if subjects.is_empty() {
        // Every one of them hangs outside the bays.
        subjects.extend(hung().map(|run| Subject::Run(run.run.id.clone())));
    }
    let text = format!(
        "Whether and how {} must be braced against sway is for an engineer: {}.",
        count(n_hung, "run"),
        list(&reasons)
    );
    findings.push(context.finding(
        subjects,
        "ASCE 7, chapter 13; seismic design category and wind as entered".to_owned(),
        vec![words(text)],
    ));
}
