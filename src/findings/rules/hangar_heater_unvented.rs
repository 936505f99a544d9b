//! A heater in a hangar sends its exhaust into the hall.

use crate::findings::heights::runs_over;
use crate::findings::limits::on_tube;
use crate::findings::say::words;
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::site::{BayUse, Exhaust};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "hangar-heater-unvented",
    title: "A heater in a hangar is not vented",
    severity: Severity::Breach,
    can_be_accepted: false,
    explain: Explanation {
        checks: "Every run over a hangar whose exhaust is entered as going into the hall.",
        why: "Hangars allow suspended heaters only where they are vented: the exhaust of one that is not is another hot place in air that may hold fuel.",
        remedy: "Vent the run to the outside, or heat the hangar from another room. It can't be accepted.",
        source: "NFPA 409 and IBC 412 as adopted.",
        limits: "Only bays whose use is entered as a hangar, and exhausts as entered. Whether the heater is of a kind that the code allows: you must check.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (run, bay) in runs_over(context, |used_as| used_as == BayUse::Hangar) {
        if run.run.exhaust == Exhaust::Vented {
            continue;
        }
        let text = format!(
            "{} hangs over {}, a hangar, and its exhaust goes into the hall: only vented heaters may hang there.",
            run.run.id, bay.id
        );
        let subjects = vec![
            Subject::Run(run.run.id.clone()),
            Subject::Bay(bay.id.clone()),
        ];
        let source = "NFPA 409 and IBC 412 as adopted".to_owned();
        let finding = context.finding(subjects, source, vec![words(text)]);
        findings.push(finding.at(on_tube(run, run.geometry.tube_length_m / 2.0)));
    }
}
