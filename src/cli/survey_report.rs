//! What the survey changes, as `check` says it: in text and in JSON.

use super::json::{Detail, FindingReport, finding_report, kind_word, status_word};
use crate::findings::{Finding, Severity, SurveyReport, survey_report};
use crate::hanging::Loss;
use crate::study::Study;
use crate::study::survey::{
    HangerDifference, HungPlace, MemberDifference, MemberState, SAME_LENGTH_M, Unmeasured,
    unmeasured,
};
use crate::units::{Length, Precision, Quantity, Rounding, UnitSystem};
use serde::Serialize;
use std::fmt::Write;

/// The differences in words; nothing where every member is as drawn.
pub(super) fn text(study: &Study, findings: &[Finding]) -> String {
    let mut out = String::new();
    if let Some((report, _)) = survey_report(study, findings, None) {
        // Writing to a String can't fail.
        let _ok = write(&mut out, &report, study.site.units);
    }
    out
}

fn write(out: &mut String, report: &SurveyReport, units: UnitSystem) -> std::fmt::Result {
    let survey = &report.survey;
    writeln!(
        out,
        "\nSURVEY ({} members; {} hangers moved, {} suspensions changed)",
        survey.members.len(),
        survey.n_moved(),
        survey.n_recut()
    )?;
    for member in &survey.members {
        writeln!(out, "  {}", member_words(member, units))?;
    }
    for run in &survey.runs {
        if run.drawn != run.built {
            let (drawn, built) = (status_word(run.drawn), status_word(run.built));
            writeln!(out, "  {}: {built}, as drawn {drawn}", run.run)?;
        }
        if run.is_unhung() {
            writeln!(
                out,
                "  {}: {} hangers of the drawing are gone",
                run.run,
                run.hangers.len()
            )?;
        } else {
            for hanger in &run.hangers {
                writeln!(out, "  {}.{}", run.run, hanger_words(hanger, units))?;
            }
        }
        for lost in &run.lost {
            writeln!(
                out,
                "  {}: hanger kept at {} on {} is lost: {}",
                run.run,
                shown(lost.station_m, units),
                lost.members.join(" + "),
                loss_word(lost.why)
            )?;
        }
    }
    let told = |list: &[Finding], when: &str| -> Vec<String> {
        list.iter()
            .filter(|finding| finding.severity != Severity::Note)
            .map(|finding| {
                let subjects: Vec<String> =
                    finding.subjects.iter().map(ToString::to_string).collect();
                format!("  {when}: {} [{}]", subjects.join(", "), finding.rule)
            })
            .collect()
    };
    for line in told(&report.findings.new, "fails now")
        .into_iter()
        .chain(told(&report.findings.gone, "no longer fails"))
    {
        writeln!(out, "{line}")?;
    }
    Ok(())
}

fn shown(metres: f64, units: UnitSystem) -> String {
    let precision = Precision {
        decimals: 3,
        inch_parts: 16,
    };
    let text = Length::metres(metres).show_rounded(units, precision, Rounding::Nearest);
    Length::with_unit(text, units)
}

fn member_words(it: &MemberDifference, units: UnitSystem) -> String {
    let what = match it.state {
        MemberState::Missing => "not there".to_owned(),
        MemberState::NotInBay => "no such member under this roof".to_owned(),
        MemberState::Found => {
            let by = |metres: f64, less: &str, more: &str| {
                let way = if metres < 0.0 { less } else { more };
                (SAME_LENGTH_M < metres.abs())
                    .then(|| format!("{} {way}", shown(metres.abs(), units)))
            };
            let said: Vec<String> = [
                by(it.moved_m, "to the left", "to the right"),
                by(it.raised_m, "lower", "higher"),
            ]
            .into_iter()
            .flatten()
            .collect();
            if said.is_empty() {
                "as drawn".to_owned()
            } else {
                said.join(", ")
            }
        }
    };
    format!("{}: {what}", it.id)
}

fn hanger_words(it: &HangerDifference, units: UnitSystem) -> String {
    let place = |it: &HungPlace| {
        format!(
            "at {} on {}, suspension {}",
            shown(it.station_m, units),
            it.members.join(" + "),
            shown(it.suspension_m, units)
        )
    };
    match (&it.drawn, &it.built) {
        (Some(drawn), Some(built)) => {
            format!("{} {}; drawn {}", built.number, place(built), place(drawn))
        }
        (None, Some(built)) => format!("{} {}; new", built.number, place(built)),
        (Some(drawn), None) => format!("{} of the drawing is gone", drawn.number),
        (None, None) => String::new(),
    }
}

const fn loss_word(loss: Loss) -> &'static str {
    match loss {
        Loss::OffTube => "off-tube",
        Loss::NoSuchMember => "no-such-member",
        Loss::NoHold => "no-hold",
        Loss::NotAbove => "not-above",
    }
}

/// The differences as JSON.
#[derive(Debug, Serialize)]
pub(super) struct SurveyJson {
    members: Vec<MemberJson>,
    hangers_moved: usize,
    suspensions_changed: usize,
    runs: Vec<RunJson>,
    new_findings: Vec<FindingReport>,
    gone_findings: Vec<FindingReport>,
    /// With `--full`.
    #[serde(skip_serializing_if = "Option::is_none")]
    unmeasured: Option<Vec<UnmeasuredJson>>,
}

#[derive(Debug, Serialize)]
struct MemberJson {
    id: String,
    framing: String,
    number: usize,
    state: &'static str,
    moved_m: f64,
    raised_m: f64,
    beyond: Option<usize>,
    notes: String,
}

#[derive(Debug, Serialize)]
struct RunJson {
    id: String,
    drawn_status: &'static str,
    status: &'static str,
    hangers: Vec<HangerJson>,
    lost: Vec<LostJson>,
}

#[derive(Debug, Serialize)]
struct HangerJson {
    drawn: Option<PlaceJson>,
    built: Option<PlaceJson>,
    is_moved: bool,
    suspension_change_m: Option<f64>,
    load_change_n: Option<f64>,
}

#[derive(Debug, Serialize)]
struct PlaceJson {
    number: usize,
    station_m: f64,
    kind: &'static str,
    members: Vec<String>,
    point_m: [f64; 3],
    suspension_m: f64,
    load_n: f64,
}

#[derive(Debug, Serialize)]
struct LostJson {
    station_m: f64,
    members: Vec<String>,
    why: &'static str,
}

#[derive(Debug, Serialize)]
struct UnmeasuredJson {
    id: String,
    drawn_offset_m: f64,
    drawn_low_end_m: f64,
    hangers: Vec<String>,
}

impl SurveyJson {
    /// Of a study; nothing where every member is as drawn.
    pub(super) fn new(study: &Study, findings: &[Finding], detail: Detail) -> Option<Self> {
        let (report, _) = survey_report(study, findings, None)?;
        let survey = &report.survey;
        let runs = survey.runs.iter().map(|run| RunJson {
            id: run.run.to_string(),
            drawn_status: status_word(run.drawn),
            status: status_word(run.built),
            hangers: run.hangers.iter().map(hanger).collect(),
            lost: run
                .lost
                .iter()
                .map(|lost| LostJson {
                    station_m: lost.station_m,
                    members: lost.members.clone(),
                    why: loss_word(lost.why),
                })
                .collect(),
        });
        Some(Self {
            members: survey.members.iter().map(member).collect(),
            hangers_moved: survey.n_moved(),
            suspensions_changed: survey.n_recut(),
            runs: runs.collect(),
            new_findings: report.findings.new.iter().map(finding_report).collect(),
            gone_findings: report.findings.gone.iter().map(finding_report).collect(),
            unmeasured: (detail == Detail::Full)
                .then(|| unmeasured(study).iter().map(to_measure).collect()),
        })
    }
}

fn member(it: &MemberDifference) -> MemberJson {
    MemberJson {
        id: it.id.to_string(),
        framing: it.framing.to_string(),
        number: it.number,
        state: match it.state {
            MemberState::Found => "found",
            MemberState::Missing => "missing",
            MemberState::NotInBay => "not-in-bay",
        },
        moved_m: it.moved_m,
        raised_m: it.raised_m,
        beyond: it.beyond,
        notes: it.notes.clone(),
    }
}

fn hanger(it: &HangerDifference) -> HangerJson {
    let place = |it: &HungPlace| PlaceJson {
        number: it.number,
        station_m: it.station_m,
        kind: kind_word(it.kind),
        members: it.members.clone(),
        point_m: [it.attach.x, it.attach.y, it.attach.z],
        suspension_m: it.suspension_m,
        load_n: it.load_n,
    };
    HangerJson {
        drawn: it.drawn.as_ref().map(place),
        built: it.built.as_ref().map(place),
        is_moved: it.is_moved(),
        suspension_change_m: it.suspension_change_m(),
        load_change_n: it.load_change_n(),
    }
}

fn to_measure(it: &Unmeasured) -> UnmeasuredJson {
    UnmeasuredJson {
        id: it.id.to_string(),
        drawn_offset_m: it.offset_m,
        drawn_low_end_m: it.low_end_m,
        hangers: it.hangers.clone(),
    }
}
