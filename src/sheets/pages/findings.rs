//! The findings: what was measured, what is required, whence, and what was accepted why.

use crate::findings::{Finding, RULES, Severity, Subject, rule};

use crate::site::{Acceptance, Site};

use super::figures::Figures;
use super::table::{Column, Row, Table};
use super::table_page::{self, Section, TablePage};
use super::{Draft, PageInput, datum::Axes, wording};

/// Draws the table of all findings, worst first; says so where there are none.
pub(super) fn findings(input: &PageInput<'_>) -> Vec<Draft> {
    let figures = Figures::of(input.site);
    let axes = Axes::of(input.site);
    let columns = vec![
        Column::figures("no.", ""),
        Column::words("about", 32.0),
        Column::words("what is found", 150.0),
        Column::words("from grid", 36.0),
        Column::words("from grid", 36.0),
        Column::figures("measured", ""),
        Column::figures("required", ""),
        Column::words("source", 70.0),
        Column::words("accepted because", 60.0),
    ];
    let mut rows = Vec::new();
    for severity in [Severity::Breach, Severity::Caution, Severity::Note] {
        let numbered = input.findings.iter().enumerate();
        let of_severity: Vec<(usize, &Finding)> = numbered
            .filter(|(_, finding)| finding.severity == severity)
            .collect();
        if !of_severity.is_empty() {
            rows.push(Row::Heading(heading(severity, of_severity.len())));
        }
        rows.extend(
            of_severity
                .into_iter()
                .map(|(n, finding)| row(n, finding, &axes, figures, input)),
        );
    }
    if rows.is_empty() {
        rows.push(Row::Remark(
            "Nothing was found by the rules below.".to_owned(),
        ));
    }
    let mut sections = vec![Section {
        heading: String::new(),
        table: Table { columns, rows },
    }];
    sections.extend(numbers(input, figures));
    let page = TablePage {
        name: "findings",
        title: "Findings",
        sections,
        key: key(),
    };
    table_page::draw(input, &page)
}

fn heading(severity: Severity, n: usize) -> String {
    let (one, many) = match severity {
        Severity::Breach => ("breach", "breaches: it must not be built like this"),
        Severity::Caution => ("caution", "cautions: somebody must look at it"),
        Severity::Note => ("note", "notes"),
    };
    wording::counted(n, one, many)
}

/// The numbers that the site sets otherwise than the program, with their reasons: what
/// was judged by them reads differently. None where all are as they come.
fn numbers(input: &PageInput<'_>, figures: Figures) -> Option<Section> {
    let rows: Vec<Row> = input
        .site
        .policy
        .overrides()
        .map(|(item, given)| {
            let facts = item.facts();
            Row::Cells {
                cells: vec![
                    facts.label.to_owned(),
                    number(given.value, facts.unit, figures),
                    number(facts.default, facts.unit, figures),
                    given.reason.clone(),
                    facts.source.to_owned(),
                ],
                subject: None,
            }
        })
        .collect();
    let columns = vec![
        Column::words("number", 110.0),
        Column::figures("in force", ""),
        Column::figures("default", ""),
        Column::words("set because", 110.0),
        Column::words("source of the default", 110.0),
    ];
    (!rows.is_empty()).then(|| Section {
        heading: "Numbers that this site sets otherwise".to_owned(),
        table: Table { columns, rows },
    })
}

/// A number of the policy with its unit: lengths in the units shown, everything else as it
/// is entered.
fn number(value: f64, unit: &str, figures: Figures) -> String {
    match unit {
        "m" => figures.place_with_unit(value),
        "" => format!("{value}"),
        _ => format!("{value} {unit}"),
    }
}

/// Why a finding is accepted, and since when; empty where it isn't.
fn accepted(finding: &Finding, input: &PageInput<'_>) -> String {
    let Some(reason) = &finding.accepted else {
        return String::new();
    };
    match accepted_on(finding, input.site) {
        "" => reason.clone(),
        date => format!("{reason} ({date})"),
    }
}

/// The day on which a finding was accepted, as the user wrote it; empty where nobody did.
pub(super) fn accepted_on<'a>(finding: &Finding, site: &'a Site) -> &'a str {
    let is_it = |known: &&Acceptance| {
        known.rule == finding.rule
            && finding.accepted.as_ref() == Some(&known.reason)
            && finding
                .subjects
                .iter()
                .all(|subject| known.subjects.contains(&subject.to_string()))
    };
    let mut known = site.acceptances.iter().filter(is_it);
    known.next().map_or("", |it| it.date.as_str())
}

fn row(
    index: usize,
    finding: &Finding,
    axes: &Axes,
    figures: Figures,
    input: &PageInput<'_>,
) -> Row {
    let subjects = subjects(finding);
    let nowhere = || ["–".to_owned(), "–".to_owned()];
    let place = finding
        .place
        .map(|place| axes.located(place.truncate(), figures));
    let [one, other] = place.unwrap_or_else(nowhere);
    let title = rule(finding.rule).map_or(finding.rule, |rule| rule.title);
    let shown = |value: Option<f64>, show: &dyn Fn(f64) -> String| {
        value.map_or_else(|| "–".to_owned(), show)
    };
    Row::Cells {
        cells: vec![
            (index + 1).to_string(),
            subjects.join(", "),
            format!("{title}: {}", finding.text_in(figures.units())),
            one,
            other,
            shown(finding.measured, &|value| {
                figures.measured(value, finding.dimension, finding.bound)
            }),
            shown(finding.required, &|value| {
                figures.required(value, finding.dimension, finding.bound)
            }),
            finding.source.clone(),
            accepted(finding, input),
        ],
        subject: Some(("finding", (index + 1).to_string())),
    }
}

/// What a finding is about; a run whose hanger is named goes without saying.
fn subjects(finding: &Finding) -> Vec<String> {
    let is_told = |subject: &&Subject| match subject {
        Subject::Run(run) => {
            let mut others = finding.subjects.iter();
            others.any(|other| matches!(other, Subject::Hanger(of, _) if of == run))
        }
        _ => false,
    };
    let named = finding.subjects.iter().filter(|subject| !is_told(subject));
    named.map(ToString::to_string).collect()
}

fn key() -> Vec<String> {
    let titles: Vec<&str> = RULES.iter().map(|rule| rule.title).collect();
    let mut key = vec![
        "A finding is accepted only with a written reason, and only where its rule lets it be.".to_owned(),
        "What is measured is rounded to the unsafe side, what is required to the safe one: rounding never makes a breach read as a pass.".to_owned(),
    ];
    if !titles.is_empty() {
        key.push(format!("Looked for: {}.", titles.join("; ")));
    }
    key
}
