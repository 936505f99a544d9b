//! A heater is so close under sprinkler heads that it breaks their spray.

use super::sprinkler_rating_too_low::{finding, place};
use crate::findings::say::{up, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity};
use crate::geometry::tolerance;
use crate::site::policy::PolicyItem;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "reflector-too-near-sprinkler",
    title: "A heater is close under sprinkler heads",
    severity: Severity::Caution,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The top of each heater against 0.46 m (18 in) below the deflectors of sprinkler heads within 2.1 m (7 ft) to its side.",
        why: "A reflector close under a head shadows the floor below from its water.",
        remedy: "Lower the run, move it aside, or have the sprinkler contractor add heads.",
        source: "NFPA 13; site policy sprinkler_clear. Large-drop heads over storage take 36 in.",
        limits: "Heads beside or below the heater's top are not looked at: their obstruction rules depend on the head. Objects wider than 4 ft need heads below them: you must check.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let item = PolicyItem::SprinklerClear;
    let required_m = context.site.policy.value(item);
    for run in &context.study.runs {
        for heads in &run.clearance.neighbours.heads {
            let above_m = heads.place.above_highest_m;
            let is_beside = heads.place.aside_m > crate::clearance::heads::NEAR_ZONE_M;
            let is_clear = required_m - tolerance::LIMIT <= above_m;
            if is_beside || is_clear || heads.place.above_top_m < 0.0 {
                continue;
            }
            let mut text = place(context, run, heads);
            text.extend([
                words("; "),
                up(required_m),
                words(" above it keep the spray whole."),
            ]);
            let finding = Finding {
                source: context.policy_source(item),
                ..finding(context, run, heads, text)
            };
            findings.push(finding.at_least(Dimension::Length, above_m, required_m));
        }
    }
}
