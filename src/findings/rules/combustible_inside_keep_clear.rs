//! Something that burns, or may, is inside the volume that a heater must keep clear.

use crate::clearance::{Direction, Reach};
use crate::findings::nearby::{Nearby, if_unknown, is_hazard_zone, is_in_heater, nearby, towards};
use crate::findings::say::{down, makers_document, up, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Phrase, Rule, Severity};
use crate::geometry::tolerance;
use crate::study::RunStudy;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "combustible-inside-keep-clear",
    title: "Something that burns is too near a heater",
    severity: Severity::Breach,
    can_be_accepted: false,
    explain: Explanation {
        checks: "Everything that burns, or of which nobody has said that it does not, against the distances that the heater's maker asks for: obstructions with the goods on them, walls, roof decks, timber members. Measured in space, in six directions from the heater's outermost part, its exhaust end hot.",
        why: "Nearer than these distances a surface can get hot enough to char, melt or catch fire.",
        remedy: "Move the heater or the thing, stack lower, tilt or shield the heater where its maker gives distances for that, or find out that the thing does not burn. It can't be accepted.",
        source: "The keep-clear table of the heater's family, by tilt band and shields (ANSI Z83.20 / CSA 2.34 label).",
        limits: "The distances are minimums. They don't protect what little heat harms: plastics, foam, aerosols, cable jackets. Members of one framing are told of together, the worst first.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let inside = nearby(context, run, |near| {
            near.burns.counts_as_combustible()
                && near.measured.is_breach()
                // A heater within a hazard zone is the worse fault, and has its rule.
                && !(is_hazard_zone(near) && is_in_heater(near))
        });
        for near in inside {
            let Some(reach) = near.governing.measured.governing_reach() else {
                continue;
            };
            let text = text(context, run, &near, reach);
            let finding = context
                .finding(near.subjects(run), makers_document(&run.family), text)
                .at(near.governing.measured.place)
                .at_least(Dimension::Length, reach.available_m, reach.required_m);
            findings.push(finding);
        }
    }
}

fn text(context: &Context<'_>, run: &RunStudy, near: &Nearby<'_>, reach: &Reach) -> Vec<Phrase> {
    let id = &run.run.id;
    let name = near.name(context);
    let direction = towards(run, reach);
    let (mut text, there) = if is_in_heater(near.governing) {
        let text = vec![
            words(format!("{id} and {name} overlap by ")),
            up(near.governing.inside_body_m),
            words("; "),
        ];
        (text, direction.as_str())
    } else if reach.available_m <= tolerance::LIMIT {
        let text = words(format!("{id} has no room {direction} up to {name}; "));
        (vec![text], "there")
    } else {
        let text = vec![
            words(format!("{id} has ")),
            down(reach.available_m),
            words(format!(" {direction} up to {name}; ")),
        ];
        (text, "there")
    };
    // The maker's figure is for the cold tube; the reader would miss the difference.
    let growth = match reach.direction {
        Direction::FarEnd => ", its growth when hot included",
        _ => "",
    };
    let unknown = if_unknown(near.governing.burns);
    text.extend([
        up(reach.required_m),
        words(format!(
            " must stay clear of what burns {there}{growth}.{unknown}"
        )),
    ]);
    text
}
