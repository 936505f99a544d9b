//! A member span carries more in all than is allowed.

use crate::findings::loads::on_member;
use crate::findings::nearby::framing_of;
use crate::findings::say::{allowed, list, load, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity, Subject};
use crate::hanging::{Capacity, Place};
use crate::site::MemberId;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "member-overloaded",
    title: "A member carries more in all than is allowed",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "What all runs together put on each member span, wherever on it, against what the building's engineer allows on one span in all. Of a hanger on a cross channel each member gets its share.",
        why: "Each hang point may be strong enough while the joist or purlin as a whole has too little to spare.",
        remedy: "Move a run so that other members carry it, or have the engineer allow more.",
        source: "The framing's allowed load in all, as entered from the building's engineer.",
        limits: "Only what hangs from the runs is counted, level: not gas pipe, cable or exhaust, nor what hangs there already. Where on the span the loads are is for the engineer. Without an entered figure nothing is checked.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (place, sum) in &context.study.loads {
        let limited = sum.allowed.filter(|_| place.place == Place::Line);
        let Some(Capacity::Known(allowed_n)) = limited.filter(|_| !sum.passes()) else {
            continue;
        };
        let hangers = on_member(context.study, sum);
        let member = MemberId::new(&place.member);
        let mut text = vec![words(format!("{member} carries ")), load(sum.sum_n)];
        if allowed_n > 0.0 {
            text.extend([
                words(" in all where "),
                allowed(allowed_n),
                words(" is allowed"),
            ]);
        } else {
            text.push(words(" where nothing may be hung"));
        }
        text.push(words(format!(": {}.", list(&hangers))));
        let source = framing_of(context, &member).map_or_else(
            || "allowed load in all of the framing, as entered".to_owned(),
            |framing| format!("allowed load in all of framing {}, as entered", framing.id),
        );
        let middle = context
            .study
            .structure
            .members
            .iter()
            .find(|known| known.id == member)
            .map(|known| {
                let middle_m = known.length_m / 2.0;
                known.plan_at(middle_m).extend(known.attach_at(middle_m))
            });
        let subjects = std::iter::once(Subject::Member(member))
            .chain(hangers)
            .collect();
        let finding =
            context
                .finding(subjects, source, text)
                .at_most(Dimension::Force, sum.sum_n, allowed_n);
        findings.push(match middle {
            Some(place) => finding.at(place),
            None => finding,
        });
    }
}
