//! Sprinkler heads near a heater would open from its heat.

use crate::findings::nearby::obstruction_name;
use crate::findings::say::{down, words};
use crate::findings::{Context, Explanation, Finding, Phrase, Rule, Severity, Subject};
use crate::study::{NearHeads, RunStudy};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "sprinkler-rating-too-low",
    title: "Sprinkler heads near a heater would open from its heat",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The temperature rating of the heads of every sprinkler drawn against that of the zone that they are in. High, 121 to 149 degC: within 2.1 m (7 ft) to the side and from the top of the heater up to 2.1 m above it. Intermediate, 79 to 107 degC: within 2.1 m to the side and higher; and 2.1 to 6.1 m (20 ft) to the side that a tilted reflector throws to, from 0.6 m (2 ft) below its top to 2.1 m above. Ordinary, 57 to 77 degC: elsewhere.",
        why: "A head that opens without a fire drowns the hall; one that is rated too high opens late.",
        remedy: "Move the run, or have the sprinkler contractor change the heads.",
        source: "NFPA 13 (2019), table 9.4.2.5(a).",
        limits: "Distances to the side count from the outline of tube and reflector, and a line of pipe counts as if it had a head everywhere. Heads are where they are drawn: the sprinkler contractor must be told of the heaters.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        for heads in &run.clearance.neighbours.heads {
            let too_low = heads.rating.filter(|rating| *rating < heads.needed());
            let Some(rating) = too_low else { continue };
            let mut text = place(context, run, heads);
            text.push(words(format!(
                ": {} temperature heads are needed, {} ones are drawn.",
                heads.needed().label(),
                rating.label()
            )));
            findings.push(finding(context, run, heads, text));
        }
    }
}

/// A finding about heads near a run.
pub(in crate::findings) fn finding(
    context: &Context<'_>,
    run: &RunStudy,
    heads: &NearHeads,
    text: Vec<Phrase>,
) -> Finding {
    let subjects = vec![
        Subject::Run(run.run.id.clone()),
        Subject::Obstruction(heads.id.clone()),
    ];
    let source = "NFPA 13 (2019), table 9.4.2.5(a)".to_owned();
    context
        .finding(subjects, source, text)
        .at(heads.place.nearest.extend(heads.deflector_m))
}

/// Where heads are from a run: `Sprinkler O1 is 1.20 m to the side of R1 and 0.50 m
/// above its top`.
pub(in crate::findings) fn place(
    context: &Context<'_>,
    run: &RunStudy,
    heads: &NearHeads,
) -> Vec<Phrase> {
    let above_m = heads.place.above_top_m;
    let name = crate::findings::say::capital(&obstruction_name(context, &heads.id));
    vec![
        words(format!("{name} is ")),
        down(heads.place.aside_m),
        words(format!(" to the side of {} and ", run.run.id)),
        down(above_m.abs()),
        words(if above_m < 0.0 {
            " below its top"
        } else {
            " above its top"
        }),
    ]
}
