//! The findings, with what was accepted and why.

use super::{CsvError, written};
use crate::findings::{Bound, Finding, rule};
use crate::sheets::pages::PageInput;
use crate::sheets::pages::findings::accepted_on;
use crate::site::Site;

const HEAD: [&str; 16] = [
    "no.",
    "severity",
    "rule",
    "title",
    "about",
    "east [m]",
    "north [m]",
    "height [m]",
    "measured",
    "required",
    "bound",
    "unit",
    "source",
    "text",
    "accepted because",
    "accepted on",
];

/// All findings, worst first, a line each, numbered as on the sheet. Figures are in the
/// SI unit that stands beside them, whatever units the site shows.
///
/// # Errors
/// If the writer fails, which memory does not.
pub fn findings(input: &PageInput<'_>) -> Result<String, CsvError> {
    let numbered = input.findings.iter().enumerate();
    let records = numbered.map(|(index, finding)| record(index + 1, finding, input.site));
    written(HEAD.map(str::to_owned).to_vec(), records.collect())
}

fn record(number: usize, finding: &Finding, site: &Site) -> Vec<String> {
    let subjects: Vec<String> = finding.subjects.iter().map(ToString::to_string).collect();
    let figure = |value: Option<f64>| value.map_or_else(String::new, |value| value.to_string());
    let place = finding.place;
    vec![
        number.to_string(),
        finding.severity.label().to_owned(),
        finding.rule.to_owned(),
        rule(finding.rule).map_or("", |rule| rule.title).to_owned(),
        subjects.join(" "),
        figure(place.map(|it| it.x)),
        figure(place.map(|it| it.y)),
        figure(place.map(|it| it.z)),
        figure(finding.measured),
        figure(finding.required),
        match finding.bound {
            Bound::Least => "least",
            Bound::Greatest => "greatest",
        }
        .to_owned(),
        finding.dimension.unit().to_owned(),
        finding.source.clone(),
        finding.text_in(site.units),
        finding.accepted.clone().unwrap_or_default(),
        accepted_on(finding, site).to_owned(),
    ]
}
