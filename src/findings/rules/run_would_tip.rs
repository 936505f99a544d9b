//! A run's weight lies beyond its outermost hangers.

use crate::findings::limits::{breaches, on_tube, subjects};
use crate::findings::say::{down, up, words};
use crate::findings::{Bound, Context, Dimension, Explanation, Finding, Rule, Severity};
use crate::hanging::Limit;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "run-would-tip",
    title: "A run would tip off its hangers",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The centre of a run's weight against its outermost hangers.",
        why: "A chain can't push: a run whose weight lies beyond its outermost hanger tips.",
        remedy: "Let the program choose the hangers, or add one beyond the centre of weight.",
        source: "Statics.",
        limits: "Hangers that the program chose never break it. While a run would tip, its loads can't be stated.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (run, of_run) in breaches(context, &[Limit::Balance]) {
        for breach in of_run {
            let id = &run.run.id;
            let number = breach.hangers.first().map_or(1, |which| which + 1);
            let bound = breach.bound.into();
            let (side, centre, outermost) = match bound {
                Bound::Least => ("before", down(breach.measured), up(breach.required)),
                Bound::Greatest => ("beyond", up(breach.measured), down(breach.required)),
            };
            let text = vec![
                words(format!("The centre of weight of {id} is ")),
                centre,
                words(format!(" from the burner flange, {side} {id}.{number} at ")),
                outermost,
                words(": it would tip."),
            ];
            let about = breach.hangers.iter().copied();
            let finding = context
                .finding(subjects(run, about), "statics".to_owned(), text)
                .at(on_tube(run, breach.measured))
                .with_figures(Dimension::Length, bound, breach.measured, breach.required);
            findings.push(finding);
        }
    }
}
