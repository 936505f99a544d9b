//! Nobody has drawn the aircraft that a hangar is for.

use crate::findings::heights::runs_over;
use crate::findings::limits::on_tube;
use crate::findings::nearby::obstructions_in;
use crate::findings::say::words;
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::site::{BayId, BayUse, ObstructionKind};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "hangar-without-aircraft",
    title: "No aircraft is drawn in a hangar",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Whether a hangar that runs hang over has any aircraft drawn in it.",
        why: "The height of heaters is counted from the highest aircraft that may be housed.",
        remedy: "Draw the aircraft with its top and the top of its wings and engines.",
        source: "NFPA 409 and IBC 412 as adopted.",
        limits: "Whether the one that is drawn is the highest, nobody but the owner knows.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let mut told: Vec<&BayId> = Vec::new();
    for (run, bay) in runs_over(context, |used_as| used_as == BayUse::Hangar) {
        let mut aircraft = obstructions_in(context, bay, ObstructionKind::Aircraft);
        if told.contains(&&bay.id) || aircraft.next().is_some() {
            continue;
        }
        told.push(&bay.id);
        let text = format!(
            "No aircraft is drawn in {}, so the height of the heaters over wings and engines is not checked. Draw the highest that may be housed.",
            bay.id
        );
        let source = "NFPA 409 and IBC 412 as adopted".to_owned();
        let subjects = vec![Subject::Bay(bay.id.clone())];
        let finding = context.finding(subjects, source, vec![words(text)]);
        findings.push(finding.at(on_tube(run, run.geometry.tube_length_m / 2.0)));
    }
}
