//! What the survey changed: hangers that moved, suspensions to cut anew, what fails.

use crate::editor::Editor;
use crate::editor::figures::{force, length};
use crate::editor::intent::Intent;
use crate::editor::theme::STEP;
use crate::editor::widgets::{AtFirst, fold_ui, hint_ui, link_ui};
use crate::findings::{Finding, Severity, SurveyReport, rule};
use crate::geometry::DVec3;
use crate::site::{FramingId, ObjectId};
use crate::study::survey::{HangerDifference, RunDifference};
use crate::units::{Force, Length, UnitSystem};
use eframe::egui::Ui;
use std::collections::BTreeSet;

/// Lines shown before the rest is only counted.
const MOST_LINES: usize = 40;

/// The list, quiet: each line is a link to the place that it is about.
pub(super) fn changed_ui(
    ui: &mut Ui,
    editor: &Editor,
    intents: &mut Vec<Intent>,
    report: &SurveyReport,
) {
    let units = editor.site().units;
    let lines = lines(report, units);
    let state = match lines.len() {
        0 => "nothing".to_owned(),
        count => count.to_string(),
    };
    fold_ui(ui, "What that changed", &state, AtFirst::Unfolded, |ui| {
        if lines.is_empty() {
            hint_ui(ui, "Every hanger stays as it is on the drawing.");
        }
        // The framing stays picked, so that its table stays open.
        let shown: Option<FramingId> = report.survey.members.first().map(|it| it.framing.clone());
        let picked = &editor.selection.ids;
        let subjects: BTreeSet<ObjectId> = if picked.is_empty() {
            shown.map(ObjectId::Framing).into_iter().collect()
        } else {
            picked.clone()
        };
        ui.spacing_mut().item_spacing.y = STEP / 2.0;
        for (text, place) in lines.iter().take(MOST_LINES) {
            if link_ui(ui, text).clicked() {
                intents.push(Intent::GoTo {
                    place: *place,
                    subjects: subjects.clone(),
                });
            }
        }
        if MOST_LINES < lines.len() {
            let rest = lines.len() - MOST_LINES;
            hint_ui(
                ui,
                &format!("and {rest} more: see the sheet of survey differences."),
            );
        }
    });
}

type Line = (String, Option<DVec3>);

fn lines(report: &SurveyReport, units: UnitSystem) -> Vec<Line> {
    let mut lines: Vec<Line> = Vec::new();
    for finding in &report.findings.new {
        if finding.severity != Severity::Note {
            lines.push(finding_line(finding, "now"));
        }
    }
    for finding in &report.findings.gone {
        if finding.severity != Severity::Note {
            lines.push(finding_line(finding, "no longer"));
        }
    }
    for run in &report.survey.runs {
        for lost in &run.lost {
            let text = format!(
                "{}: the hanger kept at {} holds nothing",
                run.run,
                length(units, Length::metres(lost.station_m))
            );
            lines.push((text, None));
        }
        if run.is_unhung() {
            lines.push(unhung_line(run));
            continue;
        }
        for hanger in &run.hangers {
            lines.push((hanger_line(run, hanger, units), place_of(hanger)));
        }
    }
    lines
}

fn finding_line(finding: &Finding, when: &str) -> Line {
    let subjects: Vec<String> = finding.subjects.iter().map(ToString::to_string).collect();
    let title = rule(finding.rule).map_or(finding.rule, |rule| rule.title);
    let text = format!("{} {when}: {title}", subjects.join(", "));
    (text, finding.place)
}

fn place_of(hanger: &HangerDifference) -> Option<DVec3> {
    hanger.place().map(|it| it.attach)
}

fn unhung_line(run: &RunDifference) -> Line {
    let text = format!(
        "{} can't be hung as built; drawn with {} hangers",
        run.run,
        run.hangers.len()
    );
    (text, run.hangers.first().and_then(place_of))
}

fn hanger_line(run: &RunDifference, hanger: &HangerDifference, units: UnitSystem) -> String {
    let shown = |metres: f64| length(units, Length::metres(metres));
    let (drawn, built) = match (&hanger.drawn, &hanger.built) {
        (Some(drawn), Some(built)) => (drawn, built),
        (None, Some(built)) => {
            let members = built.members.join(" · ");
            return format!("{}.{} is new, on {members}", run.run, built.number);
        }
        (Some(drawn), None) => {
            return format!("{}.{} of the drawing is gone", run.run, drawn.number);
        }
        (None, None) => return run.run.to_string(),
    };
    let mut said = Vec::new();
    if drawn.members != built.members {
        said.push(format!("to {}", built.members.join(" · ")));
    }
    if hanger.is_moved() {
        said.push(format!(
            "at {}, drawn {}",
            shown(built.station_m),
            shown(drawn.station_m)
        ));
    }
    if hanger.suspension_change_m().is_some() {
        said.push(format!(
            "suspension {}, drawn {}",
            shown(built.suspension_m),
            shown(drawn.suspension_m)
        ));
    }
    if let Some(change_n) = hanger.load_change_n() {
        let by = force(units, Force::newtons(change_n.abs()));
        let way = if change_n < 0.0 { "less" } else { "more" };
        said.push(format!("carries {by} {way}"));
    }
    format!("{}.{} {}", run.run, built.number, said.join("; "))
}
