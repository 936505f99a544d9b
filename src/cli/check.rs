//! `check`: the study and its findings.

use super::arguments::{Check, SiteChoice};
use super::json::{Detail, Report};
use super::{Failure, Outcome, answer, report, shifts, ways_out};
use crate::catalogue::Catalogue;
use crate::findings::{Finding, judge};
use crate::sheets::metadata::IssueDate;
use crate::sheets::pages::PageInput;
use crate::site::Site;
use crate::store;
use crate::study::{Study, study};
use std::path::PathBuf;
use std::sync::Arc;

/// A site that was opened, studied and judged.
pub(super) struct Studied {
    pub(super) site: Arc<Site>,
    pub(super) catalogue: Arc<Catalogue>,
    pub(super) study: Study,
    pub(super) findings: Vec<Finding>,
}

impl Studied {
    /// What pages are made of, with the date of issue to print.
    pub(super) fn input(&self, date: Option<IssueDate>) -> PageInput<'_> {
        PageInput {
            site: &self.site,
            catalogue: &self.catalogue,
            study: &self.study,
            findings: &self.findings,
            date,
        }
    }
}

/// The date of issue as it was typed; none where nothing was.
///
/// # Errors
/// What is wrong with it.
pub(super) fn issue_date(typed: &str) -> Result<Option<IssueDate>, Failure> {
    if typed.is_empty() {
        return Ok(None);
    }
    let read = typed.parse::<IssueDate>().map(Some);
    read.map_err(|error| Failure(format!("--date: {error}")))
}

/// Opens, studies and judges what the user chose.
pub(super) fn studied(choice: &SiteChoice) -> Result<Studied, Failure> {
    let catalogue = Arc::new(catalogue(&choice.catalogues)?);
    let mut site = store::open(&choice.site).map_err(|error| Failure(error.to_string()))?;
    if let Some(wanted) = &choice.scheme {
        let known = site
            .schemes
            .iter()
            .find(|scheme| scheme.id.as_str() == wanted)
            .or_else(|| site.schemes.iter().find(|scheme| scheme.name == *wanted));
        let Some(scheme) = known else {
            let offered: Vec<String> = site
                .schemes
                .iter()
                .map(|scheme| format!("{} ({})", scheme.id, scheme.name))
                .collect();
            return Err(Failure(format!(
                "{}: no scheme \"{wanted}\"; it has {}",
                choice.site.display(),
                offered.join(", ")
            )));
        };
        site.shown_scheme = scheme.id.clone();
    }
    store::check_against(&choice.site, &site, &catalogue)
        .map_err(|error| Failure(error.to_string()))?;
    let site = Arc::new(site);
    let study = study(&site, &catalogue);
    let findings = judge(&site, &catalogue, &study);
    Ok(Studied {
        site,
        catalogue,
        study,
        findings,
    })
}

/// The embedded catalogue and what the user's files hold.
///
/// # Errors
/// The first file that can't be used.
pub fn catalogue(files: &[PathBuf]) -> Result<Catalogue, Failure> {
    store::catalogue_with(files.iter().map(PathBuf::as_path))
        .map_err(|error| Failure(error.to_string()))
}

pub(super) fn run(check: &Check) -> Result<Outcome, Failure> {
    let studied = studied(&check.choice)?;
    if check.json {
        let detail = if check.full {
            Detail::Full
        } else {
            Detail::Answer
        };
        let mut report = Report::new(&studied.study, &studied.findings, detail);
        if check.remedies {
            report.add_remedies(&ways_out::all(&studied));
        }
        report.add_survey(&studied.study, &studied.findings, detail);
        if check.remedies || check.full {
            report.add_shifts(&shifts::all(&studied));
        }
        let text = serde_json::to_string_pretty(&report).map_err(|error| {
            Failure(format!("the report could not be written as JSON: {error}"))
        })?;
        answer(&(text + "\n"));
    } else {
        let remedies = check.remedies.then(|| report::Remedies {
            ways_out: ways_out::all(&studied),
            shifts: shifts::all(&studied),
        });
        answer(&report::text(&studied, check.full, remedies.as_ref()));
    }
    Ok(if studied.findings.iter().any(Finding::is_open_breach) {
        Outcome::Breach
    } else {
        Outcome::Clean
    })
}
