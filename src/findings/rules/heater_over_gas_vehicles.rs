//! A heater hangs where gas of gas-fuelled vehicles can collect.

use crate::findings::heights::runs_over;
use crate::findings::limits::on_tube;
use crate::findings::say::words;
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::site::BayUse;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "heater-over-gas-vehicles",
    title: "A heater is over gas-fuelled vehicles",
    severity: Severity::Breach,
    can_be_accepted: false,
    explain: Explanation {
        checks: "Every run that hangs over a bay whose use is a garage for gas-fuelled vehicles.",
        why: "Natural gas and hydrogen rise and collect under the roof, just where a burner and a tube hotter than 400 degC (750 degF) would be.",
        remedy: "Heat the bay from a source without flame or hot surface there, or have a specialist ventilate and classify it; then enter its use as a garage and draw what stays classified as hazard zones. It can't be accepted.",
        source: "NFPA 30A, repair garages for gas-fuelled vehicles.",
        limits: "Only bays whose use is entered so.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let is_meant = |used_as| used_as == BayUse::GasVehicleGarage;
    for (run, bay) in runs_over(context, is_meant) {
        let text = format!(
            "{} hangs over {}, a {}: no open flame and no surface above 400 °C (750 °F) may be where gas can collect. Ask a specialist.",
            run.run.id,
            bay.id,
            bay.used_as.label()
        );
        let subjects = vec![
            Subject::Run(run.run.id.clone()),
            Subject::Bay(bay.id.clone()),
        ];
        let source = "NFPA 30A as adopted".to_owned();
        let finding = context.finding(subjects, source, vec![words(text)]);
        findings.push(finding.at(on_tube(run, run.geometry.tube_length_m / 2.0)));
    }
}
