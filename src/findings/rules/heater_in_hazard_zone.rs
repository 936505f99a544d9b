//! A heater reaches into a zone where none may be.

use crate::findings::nearby::{is_hazard_zone, is_in_heater, nearby};
use crate::findings::say::{up, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "heater-in-hazard-zone",
    title: "A heater is in a hazard zone",
    severity: Severity::Breach,
    can_be_accepted: false,
    explain: Explanation {
        checks: "Each heater's burner, tube with reflector, bend and exhaust fitting against the hazard zones drawn: spray booths, solvent stores, classified air, pits.",
        why: "A burner and a hot tube light flammable vapour, gas or dust.",
        remedy: "Move the heater out of the zone, or have the zone's bounds drawn as the specialist who classified it states them. It can't be accepted.",
        source: "NEC 500, 501, 513 and NFPA 30A as adopted; the bounds are those that the site's classification gives.",
        limits: "Only zones that somebody has drawn are known. A zone that burns must also stay out of the keep-clear envelope, under the rule on what burns.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let entered = nearby(context, run, |near| {
            is_hazard_zone(near) && is_in_heater(near)
        });
        for near in entered {
            let depth_m = near.governing.inside_body_m;
            let text = vec![
                words(format!("{} reaches ", run.run.id)),
                up(depth_m),
                words(format!(
                    " into {}: no heater may be there.",
                    near.name(context)
                )),
            ];
            let source =
                "the site's hazard zones, NEC 500 to 513 and NFPA 30A as adopted".to_owned();
            let finding = context
                .finding(near.subjects(run), source, text)
                .at(near.governing.measured.place)
                .at_most(Dimension::Length, depth_m, 0.0);
            findings.push(finding);
        }
    }
}
