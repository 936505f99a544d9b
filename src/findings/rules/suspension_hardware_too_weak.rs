//! No hardware of the wanted kind is strong enough for a hanger.

use crate::catalogue::Strength;
use crate::findings::limits::subjects;
use crate::findings::say::{allowed, load, words, worst};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity};
use crate::site::policy::PolicyItem;
use crate::study::{HangerHardware, RunStudy};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "suspension-hardware-too-weak",
    title: "No hardware is strong enough for a hanger",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Whether the hardware table has a size of the wanted kind, and a clamp or bracket for the member, whose allowed load is at least the greatest pull of each hanger: level, with any hanger low, with any other one slack.",
        why: "Hardware is what fails first when a neighbour goes slack, and people stand below.",
        remedy: "Choose another kind of suspension, add stronger hardware to the table, or hang the run from more hangers.",
        source: "The hardware table, each entry with its source; design factor from the site's policy.",
        limits: "Pulls are those of still hangers: no impact, wind or earthquake. The program chooses the weakest size that is strong enough, so what it chose never breaks this rule.",
    },
    check,
};

/// A part that is too weak: what it is, its load, and the most that any bears.
struct Weak {
    which: usize,
    what: String,
    load_n: f64,
    allowed_n: f64,
}

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let all = run.hardware.iter().enumerate();
        let weak: Vec<Weak> = all
            .filter_map(|(which, hardware)| weak(context, run, which, hardware))
            .collect();
        let Some(most) = worst(&weak, |weak| weak.load_n) else {
            continue;
        };
        let mut text = vec![
            words(format!("{}.{} pulls ", run.run.id, most.which + 1)),
            load(most.load_n),
        ];
        if most.allowed_n > 0.0 {
            text.push(words(format!("; the strongest {} bears ", most.what)));
            text.push(allowed(most.allowed_n));
        } else {
            text.push(words(format!("; no {} is in the table", most.what)));
        }
        text.push(words(match weak.len() {
            1 => ".".to_owned(),
            n => format!("; so do {n} hangers of the run."),
        }));
        let place = run.hanging.hangers.get(most.which);
        let finding = Finding {
            place: place.map(|hanger| hanger.at.attach),
            ..context.finding(
                subjects(run, weak.iter().map(|weak| weak.which)),
                context.policy_source(PolicyItem::DesignFactor),
                text,
            )
        };
        findings.push(finding.at_most(Dimension::Force, most.load_n, most.allowed_n));
    }
}

fn weak(
    context: &Context<'_>,
    run: &RunStudy,
    which: usize,
    hardware: &HangerHardware,
) -> Option<Weak> {
    let table = &context.catalogue.hardware;
    let factor = context.site.policy.value(PolicyItem::DesignFactor);
    let most = |strengths: &mut dyn Iterator<Item = Strength>| {
        strengths
            .map(|strength| strength.allowed(factor).as_newtons())
            .fold(0.0, f64::max)
    };
    let leg = hardware.legs.iter().filter(|leg| leg.size.is_none());
    if let Some(leg) = worst(leg, |leg| leg.pull_n) {
        let sizes = table.sizes.iter();
        let offered = sizes.filter(|size| size.offered && size.kind() == leg.kind);
        return Some(Weak {
            which,
            what: leg.kind.label().to_owned(),
            load_n: leg.pull_n,
            allowed_n: most(&mut offered.map(|size| size.strength)),
        });
    }
    if hardware.attachment.is_some() {
        return None;
    }
    let to = hardware.holds_to?;
    let attachments = table.attachments.iter();
    let fitting = attachments.filter(|attachment| attachment.holds_to.contains(&to));
    let hanger = run.hanging.hangers.get(which)?;
    Some(Weak {
        which,
        what: format!("clamp for a {}", to.label()),
        load_n: hanger.cases.greatest_n(),
        allowed_n: most(&mut fitting.map(|attachment| attachment.strength)),
    })
}
