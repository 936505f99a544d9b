//! What the survey changes against the drawing, and what is still to be measured.
//!
//! Drawn only where a member is said to be otherwise than drawn. Measures are between
//! drawing and building, so both stand beside each other and nothing is a remainder.

use crate::findings::{Finding, Severity, SurveyReport, rule, survey_report};
use crate::geometry::DVec2;
use crate::hanging::Loss;
use crate::site::as_built::compass;
use crate::site::{Framing, FramingId, Site};
use crate::study::survey::{
    HangerDifference, HungPlace, MemberDifference, MemberState, RunDifference, SAME_LENGTH_M,
    Unmeasured, unmeasured,
};

use super::datum::Axes;
use super::figures::Figures;
use super::table::{Column, Row, Table};
use super::table_page::{self, Section, TablePage};
use super::{Draft, PageInput};

/// Draws the differences; nothing where every member is as drawn.
pub(super) fn survey_differences(input: &PageInput<'_>) -> Vec<Draft> {
    let Some((report, _)) = survey_report(input.study, input.findings, None) else {
        return Vec::new();
    };
    let words = Words {
        input,
        axes: Axes::of(input.site),
        figures: Figures::of(input.site),
    };
    let sections = [
        Some(words.members(&report)),
        Some(words.hangers(&report)),
        words.findings(&report),
        words.to_measure(&unmeasured(input.study)),
    ];
    let page = TablePage {
        name: "survey-differences",
        title: "Survey differences",
        sections: sections.into_iter().flatten().collect(),
        key: key(),
    };
    table_page::draw(input, &page)
}

fn key() -> Vec<String> {
    [
        "Members are told by their number on the framing plan; where they were measured from a grid line, that line and distance stand beside the drawn one.",
        "A height is of the surface that suspensions hang from, without the clamp.",
        "Verify on site: the place of the member is taken from the drawing alone.",
        "A joist that is not where it is drawn, or not there, is for the building's engineer to know.",
    ]
    .map(str::to_owned)
    .to_vec()
}

struct Words<'a> {
    input: &'a PageInput<'a>,
    axes: Axes,
    figures: Figures,
}

const NOTHING: &str = "–";

impl Words<'_> {
    fn site(&self) -> &Site {
        self.input.site
    }

    fn framing(&self, id: &FramingId) -> Option<&Framing> {
        let framing = self.site().framings.iter().find(|it| it.id == *id)?;
        Some(framing)
    }

    fn members(&self, report: &SurveyReport) -> Section {
        let columns = vec![
            Column::words("member", 24.0),
            Column::words("drawn at", 36.0),
            Column::words("found at", 36.0),
            Column::words("moved", 40.0),
            Column::words("raised", 40.0),
            Column::words("remark", 120.0),
        ];
        let rows = report
            .survey
            .members
            .iter()
            .map(|it| self.member(it))
            .collect();
        Section {
            heading: "Members as found".to_owned(),
            table: Table { columns, rows },
        }
    }

    fn member(&self, it: &MemberDifference) -> Row {
        let framing = self.framing(&it.framing);
        let right = framing.map_or(DVec2::X, Framing::right);
        let drawn = it.at.map(|at| at - right * it.moved_m);
        let is_found = it.state == MemberState::Found;
        let mut remarks = Vec::new();
        match it.state {
            MemberState::Found => {}
            MemberState::Missing => remarks.push("not there".to_owned()),
            MemberState::NotInBay => remarks.push("no such member under this roof".to_owned()),
        }
        if let Some(beyond) = it.beyond {
            remarks.push(format!("beyond {}-{beyond:02} as drawn", it.framing));
        }
        if !it.notes.trim().is_empty() {
            remarks.push(it.notes.trim().to_owned());
        }
        let shown = |found: Option<DVec2>| {
            found.map_or_else(|| NOTHING.to_owned(), |at| self.across(at, right))
        };
        let (left, far) = (compass(-right), compass(right));
        Row::Cells {
            cells: vec![
                it.id.to_string(),
                shown(drawn),
                shown(it.at.filter(|_| is_found)),
                self.by(it.moved_m, left, far, is_found),
                self.by(it.raised_m, "lower", "higher", is_found),
                remarks.join("; "),
            ],
            subject: Some(("member", it.id.to_string())),
        }
    }

    /// Where a point lies across the members, from the nearest grid line along them.
    fn across(&self, at: DVec2, right: DVec2) -> String {
        let is_across_paper = self.axes.is_level(right);
        let [one, other] = self.axes.located(at, self.figures);
        if is_across_paper { other } else { one }
    }

    fn by(&self, metres: f64, less: &str, more: &str, is_found: bool) -> String {
        if !is_found {
            return NOTHING.to_owned();
        }
        if metres.abs() < SAME_LENGTH_M {
            return "as drawn".to_owned();
        }
        let way = if metres < 0.0 { less } else { more };
        format!("{} {way}", self.cut(metres.abs()))
    }

    /// With its unit.
    fn cut(&self, metres: f64) -> String {
        let unit = self.figures.cut_unit();
        let figure = self.figures.cut(metres);
        if unit.is_empty() {
            figure
        } else {
            format!("{figure} {unit}")
        }
    }

    fn hangers(&self, report: &SurveyReport) -> Section {
        let figures = self.figures;
        let columns = vec![
            Column::words("hanger", 20.0),
            Column::words("drawn on", 60.0),
            Column::words("now on", 60.0),
            Column::words("now from grid", 36.0),
            Column::words("now from grid", 36.0),
            Column::figures("station drawn", figures.place_unit()),
            Column::figures("station now", figures.place_unit()),
            Column::figures("suspension drawn", figures.cut_unit()),
            Column::figures("suspension now", figures.cut_unit()),
            Column::figures("load drawn", figures.load_unit()),
            Column::figures("load now", figures.load_unit()),
            Column::words("what changed", 60.0),
        ];
        let mut rows = Vec::new();
        for run in &report.survey.runs {
            if run.is_unhung() {
                rows.push(Row::Remark(format!(
                    "{} can't be hung from the building as built: the {} hangers of the drawing are gone.",
                    run.run,
                    run.hangers.len()
                )));
            } else {
                for hanger in &run.hangers {
                    rows.push(self.hanger(run, hanger));
                }
            }
            for lost in &run.lost {
                let why = match lost.why {
                    Loss::OffTube => "it is beyond the tube's end",
                    Loss::NoSuchMember => "its member is not there",
                    Loss::NoHold => "its members offer no place for it",
                    Loss::NotAbove => "the steel is not above the tube there",
                };
                rows.push(Row::Remark(format!(
                    "{}: the hanger kept at {} on {} holds nothing: {why}.",
                    run.run,
                    figures.place_with_unit(lost.station_m),
                    lost.members.join(", ")
                )));
            }
        }
        if rows.is_empty() {
            let text = "Every hanger is where it was on the drawing, with the same suspension.";
            rows.push(Row::Remark(text.to_owned()));
        }
        Section {
            heading: "Hangers that differ".to_owned(),
            table: Table { columns, rows },
        }
    }

    fn hanger(&self, run: &RunDifference, it: &HangerDifference) -> Row {
        let figures = self.figures;
        let (drawn, built) = (it.drawn.as_ref(), it.built.as_ref());
        let nothing = || NOTHING.to_owned();
        let place = built.map(|it| self.axes.located(it.attach.truncate(), figures));
        let [one, other] = place.unwrap_or_else(|| [nothing(), nothing()]);
        let number = it.place().map_or(0, |it| it.number);
        let id = format!("{}.{number}", run.run);
        let mut changed = Vec::new();
        match (drawn, built) {
            (Some(_), None) => changed.push("no longer there"),
            (None, Some(_)) => changed.push("new"),
            _ => {
                if it.is_moved() {
                    changed.push("moved");
                }
                if it.suspension_change_m().is_some() {
                    changed.push("suspension");
                }
                if it.load_change_n().is_some() {
                    changed.push("load");
                }
            }
        }
        let on = |place: Option<&HungPlace>| place.map_or_else(nothing, |it| it.members.join(", "));
        let shown = |place: Option<&HungPlace>, show: &dyn Fn(&HungPlace) -> String| {
            place.map_or_else(nothing, show)
        };
        Row::Cells {
            cells: vec![
                id.clone(),
                on(drawn),
                on(built),
                one,
                other,
                shown(drawn, &|it| figures.place(it.station_m)),
                shown(built, &|it| figures.place(it.station_m)),
                shown(drawn, &|it| figures.cut(it.suspension_m)),
                shown(built, &|it| figures.cut(it.suspension_m)),
                shown(drawn, &|it| figures.load(it.load_n)),
                shown(built, &|it| figures.load(it.load_n)),
                changed.join(", "),
            ],
            subject: Some(("survey difference", id)),
        }
    }

    /// What fails because of the survey, and what no longer does; notes are left out.
    fn findings(&self, report: &SurveyReport) -> Option<Section> {
        let says = |it: &&Finding| it.severity != Severity::Note;
        let row = |finding: &Finding, what: &str| {
            let subjects: Vec<String> = finding.subjects.iter().map(ToString::to_string).collect();
            let title = rule(finding.rule).map_or(finding.rule, |rule| rule.title);
            Row::Cells {
                cells: vec![
                    what.to_owned(),
                    finding.severity.label().to_owned(),
                    subjects.join(", "),
                    format!("{title}: {}", finding.text_in(self.figures.units())),
                ],
                subject: None,
            }
        };
        let new = report.findings.new.iter().filter(says);
        let gone = report.findings.gone.iter().filter(says);
        let rows: Vec<Row> = new
            .map(|it| row(it, "now"))
            .chain(gone.map(|it| row(it, "no longer")))
            .collect();
        let columns = vec![
            Column::words("when", 20.0),
            Column::words("severity", 20.0),
            Column::words("about", 50.0),
            Column::words("what is found", 180.0),
        ];
        (!rows.is_empty()).then_some(Section {
            heading: "Findings that came or went with the survey".to_owned(),
            table: Table { columns, rows },
        })
    }

    fn to_measure(&self, list: &[Unmeasured]) -> Option<Section> {
        let figures = self.figures;
        let columns = vec![
            Column::words("member", 24.0),
            Column::words("drawn at", 36.0),
            Column::figures("low end drawn", figures.place_unit()),
            Column::words("carries", 90.0),
            Column::words("found at", 40.0),
            Column::words("height found", 40.0),
            Column::words("", 40.0),
        ];
        let rows: Vec<Row> = list
            .iter()
            .filter_map(|it| {
                let framing = self.framing(&it.framing)?;
                let at = framing.anchor + framing.right() * it.offset_m;
                Some(Row::Cells {
                    cells: vec![
                        it.id.to_string(),
                        self.across(at, framing.right()),
                        figures.elevation(it.low_end_m),
                        it.hangers.join(", "),
                        String::new(),
                        String::new(),
                        "verify on site".to_owned(),
                    ],
                    subject: Some(("member to measure", it.id.to_string())),
                })
            })
            .collect();
        (!rows.is_empty()).then_some(Section {
            heading: "Members that hangers use and nobody has measured".to_owned(),
            table: Table { columns, rows },
        })
    }
}
