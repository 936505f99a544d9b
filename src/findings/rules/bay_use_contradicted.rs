//! What stands in a bay is not what its use says.

use crate::findings::heights::runs_over;
use crate::findings::limits::on_tube;
use crate::findings::nearby::{obstruction_name, obstructions_in};
use crate::findings::say::words;
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::site::{BayId, BayUse, ObstructionKind};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "bay-use-contradicted",
    title: "A bay holds what its use does not say",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Whether aircraft are drawn in a bay under runs whose use is not a hangar, or vehicles on lifts in one whose use is neither a garage nor a wash bay.",
        why: "The code heights over garage floors, vehicles and aircraft are checked only where the bay's use says that they hold.",
        remedy: "Enter the use of the bay, or accept it where the authority agrees that it is none.",
        source: "IMC 304.6, NFPA 30A, NFPA 409 and IBC 412 as adopted.",
        limits: "Only what is drawn is known. Parked vehicles alone make no garage of a loading bay: you must check.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let mut told: Vec<&BayId> = Vec::new();
    for (run, bay) in runs_over(context, |_| true) {
        if told.contains(&&bay.id) {
            continue;
        }
        told.push(&bay.id);
        let (is_hangar, is_garage) = (
            matches!(bay.used_as, BayUse::Hangar | BayUse::HangarShop),
            bay.used_as.is_driven_in(),
        );
        for (kind, use_is_entered, as_what) in [
            (ObstructionKind::Aircraft, is_hangar, "a hangar"),
            (ObstructionKind::LiftedVehicle, is_garage, "a garage"),
        ] {
            let first = obstructions_in(context, bay, kind).next();
            let Some(first) = first.filter(|_| !use_is_entered) else {
                continue;
            };
            let text = format!(
                "{} is drawn in {}, a {}: the heights over {as_what} are not checked there.",
                crate::findings::say::capital(&obstruction_name(context, &first.id)),
                bay.id,
                bay.used_as.label()
            );
            let subjects = vec![
                Subject::Bay(bay.id.clone()),
                Subject::Obstruction(first.id.clone()),
            ];
            let source = "the bay's use as entered".to_owned();
            let finding = context.finding(subjects, source, vec![words(text)]);
            findings.push(finding.at(on_tube(run, run.geometry.tube_length_m / 2.0)));
        }
    }
}
