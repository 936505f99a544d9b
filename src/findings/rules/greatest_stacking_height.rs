//! How high goods may be stacked under each run.

use crate::findings::limits::on_tube;
use crate::findings::nearby::obstruction_name;
use crate::findings::say::{down, makers_document, up, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Rule, Severity, Subject};
use crate::geometry::DVec2;
use crate::study::{FloorBelow, RunStudy};
use crate::units::Length;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "greatest-stacking-height",
    title: "The stacking height to post",
    severity: Severity::Note,
    can_be_accepted: true,
    explain: Explanation {
        checks: "The height to which goods may be stacked under each run: its lowest part, less the level error, less the maker's distance below, rounded down to 0.1 m or 4 in.",
        why: "A sign with this height must be posted where goods are stored, beside the thermostat or where everybody sees it.",
        remedy: "Post it. A higher run allows more.",
        source: "The keep-clear table of the heater's family; NFPA 54, infrared heaters (sign).",
        limits: "It holds over the whole footprint of the envelope, for goods that stand on the finished floor, and once more for each mezzanine below it. Docks and pits: you must check. Goods that are already drawn higher breach the rule on what burns.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        let stacking = &run.clearance.stacking;
        let posted_m = stacking.posted.as_metres();
        let (long_m, wide_m) = footprint(run);
        let id = &run.run.id;
        let mut text = if stacking.posted > Length::ZERO {
            vec![
                words(format!("Under {id}, goods no higher than ")),
                down(posted_m),
                words(" above the floor"),
            ]
        } else {
            vec![words(format!("Under {id}, no goods at all"))]
        };
        text.extend([
            words(", over an area of "),
            up(long_m),
            words(" along the run by "),
            up(wide_m),
            words(" across."),
        ]);
        let subjects = vec![Subject::Run(id.clone())];
        let finding = Finding {
            measured: Some(posted_m),
            dimension: Dimension::Length,
            ..context.finding(subjects, makers_document(&run.family), text)
        };
        findings.push(finding.at(on_tube(run, run.geometry.tube_length_m / 2.0)));
        let floors = &run.clearance.neighbours.floors;
        findings.extend(floors.iter().map(|floor| on_floor(context, run, floor)));
    }
}

/// How high goods may be stacked on a raised floor under a run.
fn on_floor(context: &Context<'_>, run: &RunStudy, floor: &FloorBelow) -> Finding {
    let id = &run.run.id;
    let name = obstruction_name(context, &floor.id);
    let posted_m = floor.posted.as_metres();
    let text = if floor.posted > Length::ZERO {
        vec![
            words(format!("On {name} under {id}, goods no higher than ")),
            down(posted_m),
            words(" above it."),
        ]
    } else {
        vec![words(format!("On {name} under {id}, no goods at all."))]
    };
    let subjects = vec![
        Subject::Run(id.clone()),
        Subject::Obstruction(floor.id.clone()),
    ];
    let finding = Finding {
        measured: Some(posted_m),
        dimension: Dimension::Length,
        ..context.finding(subjects, makers_document(&run.family), text)
    };
    finding.at(on_tube(run, run.geometry.tube_length_m / 2.0))
}

/// Length and width in plan of the area that the height holds over, m.
fn footprint(run: &RunStudy) -> (f64, f64) {
    let corners = &run.clearance.stacking.footprint;
    let extent = |axis: DVec2| {
        let along = corners.iter().map(|corner| axis.dot(*corner));
        let (low, high) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
            (low.min(at), high.max(at))
        });
        (high - low).max(0.0)
    };
    let heading = run.geometry.heading;
    (extent(heading), extent(heading.perp()))
}
