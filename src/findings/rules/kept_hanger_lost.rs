//! A hanger that was to stay where it was holds nothing any more.

use crate::findings::limits::on_tube;
use crate::findings::say::{down, list, words};
use crate::findings::{Context, Explanation, Finding, Rule, Severity, Subject};
use crate::hanging::Loss;
use crate::site::MemberId;

/// The rule.
pub(in crate::findings) const RULE: Rule = Rule {
    name: "kept-hanger-lost",
    title: "A kept hanger holds nothing any more",
    severity: Severity::Breach,
    can_be_accepted: true,
    explain: Explanation {
        checks: "Whether each hanger that was to stay where it is still has its members and a place on them.",
        why: "A member was moved, renamed or found missing, or the run moved away: what the crew was told to drill is no longer there, and the other hangers carry the load.",
        remedy: "Let the program choose the hangers of this run again, or put this one on another member.",
        source: "Site: the run's kept hangers and the framing as built.",
        limits: "A lost hanger carries nothing; the loads of the others are computed without it.",
    },
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for run in &context.study.runs {
        for lost in &run.hanging.lost {
            let station_m = lost.hanger.station_m;
            let members: Vec<MemberId> = lost.hanger.members.iter().map(MemberId::new).collect();
            let why = match lost.why {
                Loss::OffTube => "its place is not on the tube",
                Loss::NoSuchMember => "there is no such member within reach",
                Loss::NoHold => "the member has no place for it there",
                Loss::NotAbove => "the steel is not above its eye",
            };
            let text = vec![
                words(format!("The hanger kept on {} at ", list(&members))),
                down(station_m),
                words(format!(" of {} holds nothing: {why}.", run.run.id)),
            ];
            let subjects = std::iter::once(Subject::Run(run.run.id.clone()))
                .chain(members.into_iter().map(Subject::Member))
                .collect();
            let source = "the run's kept hangers against the framing as built".to_owned();
            let finding = context.finding(subjects, source, text);
            findings.push(finding.at(on_tube(run, station_m)));
        }
    }
}
