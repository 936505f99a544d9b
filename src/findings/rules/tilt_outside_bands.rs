//! A run is tilted, or shielded, as its maker gives no distances for.

use crate::catalogue::{KeepClearBand, ShieldSet};
use crate::findings::limits::on_tube;
use crate::findings::say::{list, makers_document, words};
use crate::findings::{Context, Dimension, Explanation, Finding, Phrase, Rule, Severity, Subject};
use crate::geometry::tolerance;
use crate::units::{Angle, Quantity, UnitSystem};

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "tilt-outside-bands",
    title: "A tilt or shield that the maker does not allow",
    severity: Severity::Breach,
    can_be_accepted: false,
    explain: Explanation {
        checks: "Whether the heater's family has keep-clear distances for each run's tilt with its shields.",
        why: "A heater may only be used as it was tested. Without the maker's distances nobody knows what must stay clear.",
        remedy: "Tilt and shield the run as one of the bands says. It can't be accepted.",
        source: "The keep-clear table of the heater's family, by tilt band and shields.",
        limits: "Until it is cured, the greatest distance of all bands stands in for each direction.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        if run.clearance.keep_clear.is_some() {
            continue;
        }
        let tilt = run.run.tilt.as_degrees().abs();
        let of_size = run.family.keep_clear_of(&run.size);
        let bands = bands(of_size);
        let text = vec![
            words(format!("{} is tilted by ", run.run.id)),
            Phrase::Angle(Angle::degrees(tilt)),
            words(format!(
                " with {}; its maker gives distances for {}.",
                shields(run.run.shields),
                list(&bands)
            )),
        ];
        let subjects = vec![Subject::Run(run.run.id.clone())];
        let finding = context
            .finding(subjects, makers_document(&run.family), text)
            .at(on_tube(run, run.geometry.tube_length_m / 2.0));
        let ends = of_size.iter().map(|band| band.tilt_to.as_degrees());
        let greatest = ends.fold(0.0, f64::max);
        findings.push(
            if tilt.to_radians() > greatest.to_radians() + tolerance::LIMIT {
                finding.at_most(Dimension::Angle, tilt, greatest)
            } else {
                finding
            },
        );
    }
}

fn shields(shields: crate::site::Shields) -> &'static str {
    use crate::site::Shields;
    match shields {
        Shields::None => "no shields",
        Shields::Left => "a shield on the left",
        Shields::Right => "a shield on the right",
        Shields::Both => "shields on both sides",
    }
}

/// What there are distances for, in words: `0° to 40° with no shields`. Bands that follow
/// each other are said as one.
fn bands(rows: &[KeepClearBand]) -> Vec<String> {
    let mut sorted: Vec<&KeepClearBand> = rows.iter().collect();
    sorted.sort_by(|a, b| {
        let from = |band: &KeepClearBand| band.tilt_from.as_degrees();
        a.shields.cmp(&b.shields).then(from(a).total_cmp(&from(b)))
    });
    let mut joined: Vec<(ShieldSet, Angle, Angle)> = Vec::new();
    for band in sorted {
        match joined.last_mut() {
            Some((shields, _, to)) if *shields == band.shields && band.tilt_from <= *to => {
                *to = if band.tilt_to > *to {
                    band.tilt_to
                } else {
                    *to
                };
            }
            _ => joined.push((band.shields, band.tilt_from, band.tilt_to)),
        }
    }
    joined
        .into_iter()
        .map(|(shields, from, to)| {
            let shields = match shields {
                ShieldSet::None => "no shields",
                ShieldSet::Front => "a shield on the aimed side",
                ShieldSet::Rear => "a shield on the rear",
                ShieldSet::Both => "shields on both sides",
            };
            // Degrees read the same in every system of units.
            let shown = |angle: Angle| angle.show_with_unit(UnitSystem::Metric);
            format!("{} to {} with {shields}", shown(from), shown(to))
        })
        .collect()
}
