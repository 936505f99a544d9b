//! A heater hangs in the wet air of a wash bay.

use crate::findings::heights::runs_over;
use crate::findings::limits::on_tube;
use crate::findings::say::{list, words};
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::site::{Bay, BayUse, RunId};
use crate::study::RunStudy;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "wet-air-round-heater",
    title: "Heaters hang in wet air",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Runs that hang over a wash bay. One finding for each bay, with its runs.",
        why: "Spray, road salt and detergents corrode burner and tube, and wet air trips the burner.",
        remedy: "Take combustion air from outside, and heaters whose maker allows wash bays: corrosion-proof, made for wash-down, with protected circuits.",
        source: "NFPA 54, combustion air; trade practice; the heater's manual.",
        limits: "Only bays whose use is entered as a wash bay. Dust, chlorine, solvents and welding fume elsewhere: you must check.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let mut bays: Vec<(&Bay, Vec<&RunStudy>)> = Vec::new();
    for (run, bay) in runs_over(context, |used_as| used_as == BayUse::WashBay) {
        match bays.iter_mut().find(|(known, _)| known.id == bay.id) {
            Some((_, runs)) => runs.push(run),
            None => bays.push((bay, vec![run])),
        }
    }
    for (bay, runs) in bays {
        let ids: Vec<&RunId> = runs.iter().map(|run| &run.run.id).collect();
        let text = format!(
            "{} is a wash bay: {} must have combustion air from outside, and be made for wet air and wash-down.",
            bay.id,
            list(&ids)
        );
        let subjects = ids
            .iter()
            .map(|id| Subject::Run((*id).clone()))
            .chain([Subject::Bay(bay.id.clone())])
            .collect();
        let source = "NFPA 54, combustion air; the heater's manual".to_owned();
        let finding = context.finding(subjects, source, vec![words(text)]);
        let first = runs.first();
        findings
            .extend(first.map(|run| finding.at(on_tube(run, run.geometry.tube_length_m / 2.0))));
    }
}
