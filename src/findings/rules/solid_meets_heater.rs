//! A solid is where the heater itself is to be.

use crate::findings::nearby::{is_hazard_zone, is_in_heater, nearby};
use crate::findings::say::{up, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "solid-meets-heater",
    title: "Something is where the heater is to be",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Everything that does not burn against the boxes round each heater's burner, tube with reflector, bend and exhaust fitting.",
        why: "Two things can't be in one place: on site the heater, the duct or the pipe would have to give way.",
        remedy: "Move the heater or the thing.",
        source: "Geometry of the heater's family and of the thing as drawn.",
        limits: "A body is measured as the box along its axes, so that a corner of a tilted reflector's box may be empty. Of what burns, the rule on what burns says that it reaches in. Members of one framing are told of together, the worst first.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let met = nearby(context, run, |near| {
            !near.burns.counts_as_combustible() && is_in_heater(near) && !is_hazard_zone(near)
        });
        for near in met {
            let depth_m = near.governing.inside_body_m;
            let text = vec![
                words(format!(
                    "{} and {} overlap by ",
                    run.run.id,
                    near.name(context)
                )),
                up(depth_m),
                words("."),
            ];
            let source = "as drawn: two solids can't be in one place".to_owned();
            let finding = context
                .finding(near.subjects(run), source, text)
                .at(near.governing.measured.place)
                .at_most(Dimension::Length, depth_m, 0.0);
            findings.push(finding);
        }
    }
}
