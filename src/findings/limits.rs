//! Limits of a maker's hanging rule as rules speak of them.

use super::say::{angle_up, length_against, makers_document, words, worst};
use super::{Context, Dimension, Finding, Phrase, Subject};
use crate::geometry::DVec3;
use crate::hanging::{Hanger, Limit, LimitBreach};
use crate::study::RunStudy;
use crate::units::Angle;

/// Everything that breaks one of some limits, by run.
pub(super) fn breaches<'a>(
    context: &Context<'a>,
    limits: &'a [Limit],
) -> impl Iterator<Item = (&'a RunStudy, Vec<&'a LimitBreach>)> {
    context.study.runs.iter().filter_map(move |run| {
        let of_run: Vec<&LimitBreach> = run
            .hanging
            .breaches
            .iter()
            .filter(|breach| limits.contains(&breach.limit))
            .collect();
        (!of_run.is_empty()).then(|| (run.as_ref(), of_run))
    })
}

/// A finding about a length between hangers, joints or ends that a limit forbids:
/// `<what> 2.95 m<between>, at most 2.80 m is allowed.`
pub(super) fn length_finding(
    context: &Context<'_>,
    run: &RunStudy,
    breach: &LimitBreach,
    what: String,
    between: &str,
) -> Finding {
    let bound = breach.bound.into();
    let mut text: Vec<Phrase> = vec![words(what)];
    text.extend(length_against(
        bound,
        breach.measured,
        between,
        breach.required,
    ));
    context
        .finding(
            subjects(run, breach.hangers.iter().copied()),
            makers_document(&run.family),
            text,
        )
        .with_figures(Dimension::Length, bound, breach.measured, breach.required)
}

/// The run, then its hangers, given by their place in the answer.
pub(super) fn subjects(run: &RunStudy, hangers: impl IntoIterator<Item = usize>) -> Vec<Subject> {
    let run_id = &run.run.id;
    std::iter::once(Subject::Run(run_id.clone()))
        .chain(
            hangers
                .into_iter()
                .map(|which| Subject::Hanger(run_id.clone(), which + 1)),
        )
        .collect()
}

/// The tube's axis at a station.
pub(super) fn on_tube(run: &RunStudy, station_m: f64) -> DVec3 {
    run.geometry.axis().point(station_m)
}

/// The hangers that a breach is about. The places in a breach are those of the answer.
pub(super) fn hangers<'a>(run: &'a RunStudy, breach: &LimitBreach) -> Vec<&'a Hanger> {
    breach
        .hangers
        .iter()
        .filter_map(|&which| run.hanging.hangers.get(which))
        .collect()
}

/// A limit in words, as the object of "without".
pub(super) const fn limit_words(limit: Limit) -> &'static str {
    match limit {
        Limit::FirstHanger => "the window of the first hanger",
        Limit::SecondHanger => "the window of the second hanger",
        Limit::LeastSpacing => "the least gap between hangers",
        Limit::GreatestSpacing => "the greatest gap between hangers",
        Limit::EndOverhang => "the greatest overhang at the end",
        Limit::Joint => "the distance from tube joints",
        Limit::Suspension => "the least suspension",
        Limit::Lean => "the greatest lean",
        Limit::Swing => "the greatest swing",
        Limit::Load => "the allowed loads",
        Limit::ChannelBending => "the strength of cross channels",
        Limit::ChannelDeflection => "the stiffness of cross channels",
        Limit::Balance => "the balance on its hangers",
    }
}

/// How many suspensions break a limit, if it is more than the one spoken of.
pub(super) fn beyond(n_suspensions: usize) -> String {
    match n_suspensions {
        0 | 1 => String::new(),
        n => format!("; {n} suspensions of the run break this limit"),
    }
}

/// One finding a run about the hanger that is farthest beyond a greatest angle:
/// `The suspension of R1.5 leans 7.2° across the run, at most 6° is allowed.`, and what
/// more there is to say of that hanger.
pub(super) fn angle_findings(
    context: &Context<'_>,
    limit: Limit,
    (does, how): (&str, &str),
    more: fn(&Hanger) -> Vec<Phrase>,
    findings: &mut Vec<Finding>,
) {
    for (run, of_run) in breaches(context, &[limit]) {
        let farthest = worst(of_run.iter().copied(), |breach| breach.measured);
        let Some((breach, hanger)) =
            farthest.and_then(|breach| Some((breach, *hangers(run, breach).first()?)))
        else {
            continue;
        };
        let (measured, required) = (breach.measured.to_degrees(), breach.required.to_degrees());
        let number = breach.hangers.first().map_or(1, |which| which + 1);
        let others = beyond(of_run.len());
        let mut text = vec![
            words(format!("The suspension of {}.{number} {does} ", run.run.id)),
            angle_up(measured),
            words(format!(" {how}, at most ")),
            Phrase::Angle(Angle::degrees(required)),
            words(format!(" is allowed{others}.")),
        ];
        text.extend(more(hanger));
        let about = of_run
            .iter()
            .flat_map(|breach| breach.hangers.iter().copied());
        let finding = context
            .finding(subjects(run, about), makers_document(&run.family), text)
            .at(hanger.at.attach)
            .at_most(Dimension::Angle, measured, required);
        findings.push(finding);
    }
}
