//! A suspension can't be made up to its length.

use crate::findings::limits::subjects;
use crate::findings::say::{down, up, words};
use crate::findings::{Context, Explanation, Finding, Phrase, Rule, Severity};
use crate::hanging::{NoMakeUp, Suspension};
use crate::site::policy::PolicyItem;
use crate::study::{LegHardware, RunStudy};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "suspension-not-made-up",
    title: "A suspension can't be made up to its length",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Whether each suspension reaches its length with the hardware chosen for it: end fittings, whole links of chain or cut rod or rope, and an adjuster that is strong enough; without one, whether what is cut comes as near as a hanger may be low.",
        why: "What can't be made up is improvised on the lift, with the wrong parts.",
        remedy: "Choose another kind of suspension, raise or lower the run, or add an adjuster of another length to the table.",
        source: "The hardware table, each entry with its source.",
        limits: "Lengths of the bundled hardware are generic. Pieces are never joined.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let faults = faults(run);
        let Some((which, suspension, leg, fault)) = faults.first().copied() else {
            continue;
        };
        let number = which + 1;
        let mut text = vec![
            words(format!(
                "The suspension of {}.{number}, {}, is to be ",
                run.run.id, leg.kind
            )),
            length(fault, suspension.length_m),
        ];
        let (says, made_m) = match fault {
            NoMakeUp::TooShort(made_m) => (" long; the shortest that can be made is ", made_m),
            NoMakeUp::TooLong(made_m) => (" long; the longest that can be made is ", made_m),
            NoMakeUp::Between(made_m) => (" long; without an adjuster the nearest is ", made_m),
        };
        text.push(words(says));
        text.push(match fault {
            NoMakeUp::TooLong(_) => down(made_m),
            NoMakeUp::TooShort(_) | NoMakeUp::Between(_) => up(made_m),
        });
        let mut hangers: Vec<usize> = faults.iter().map(|(which, ..)| *which).collect();
        hangers.dedup();
        text.push(words(match hangers.len() {
            1 => ".".to_owned(),
            n => format!("; {n} hangers of the run have this fault."),
        }));
        let source = match &leg.size {
            Some(size) => format!("{}: {}", size.part.name, size.part.source.document),
            None => context.policy_source(PolicyItem::DesignFactor),
        };
        let finding = context
            .finding(subjects(run, hangers), source, text)
            .at(suspension.attach);
        findings.push(finding);
    }
}

fn length(fault: NoMakeUp, length_m: f64) -> Phrase {
    match fault {
        NoMakeUp::TooLong(_) => up(length_m),
        NoMakeUp::TooShort(_) | NoMakeUp::Between(_) => down(length_m),
    }
}

/// Every suspension of a run that can't be made up, with its hanger.
fn faults(run: &RunStudy) -> Vec<(usize, &Suspension, &LegHardware, NoMakeUp)> {
    let hangers = run.hanging.hangers.iter().zip(&run.hardware).enumerate();
    hangers
        .flat_map(|(which, (hanger, hardware))| {
            let legs = hanger.suspensions.iter().zip(&hardware.legs);
            legs.filter_map(move |(suspension, leg)| match leg.made.as_ref()? {
                Ok(_) => None,
                Err(fault) => Some((which, suspension, leg, *fault)),
            })
        })
        .collect()
}
