//! `survey`: take up what was measured on site, or print what is still to be measured.

use super::arguments::Survey;
use super::check::studied;
use super::{Failure, Outcome, answer};
use crate::findings::{Finding, judge};
use crate::sheets::pages::csv::survey_checklist;
use crate::store;
use crate::store::survey_list;
use crate::study::study;
use crate::study::survey::unmeasured;
use std::fmt::Write;
use std::path::Path;
use std::sync::Arc;

pub(super) fn run(survey: &Survey) -> Result<Outcome, Failure> {
    match &survey.file {
        None => print(survey),
        Some(file) => take_up(survey, file),
    }
}

/// The checklist: a table to be filled in and taken up again.
fn print(survey: &Survey) -> Result<Outcome, Failure> {
    let studied = studied(&survey.choice)?;
    let table = survey_checklist(&studied.study)
        .map_err(|error| Failure(format!("the checklist could not be written: {error}")))?;
    answer(&table);
    Ok(Outcome::Clean)
}

fn take_up(survey: &Survey, file: &Path) -> Result<Outcome, Failure> {
    let failed = |error: &dyn std::fmt::Display| Failure(error.to_string());
    let site = store::open(&survey.choice.site).map_err(|error| failed(&error))?;
    let text = store::read_table(file).map_err(|error| failed(&error))?;
    let (_, next) = survey_list::taken_up(&site, &text)
        .map_err(|error| Failure(format!("{}: nothing was taken up\n{error}", file.display())))?;
    let target = survey.output.as_ref().unwrap_or(&survey.choice.site);
    store::save(target, &next).map_err(|error| failed(&error))?;
    // The study is of the scheme that was asked for; what is written keeps its own.
    let before = studied(&survey.choice)?;
    let mut shown = next.clone();
    shown.shown_scheme = before.site.shown_scheme.clone();
    let (shown, catalogue) = (Arc::new(shown), before.catalogue);
    let after = study(&shown, &catalogue);
    let findings = judge(&shown, &catalogue, &after);
    let n_members: usize = next.framings.iter().map(|it| it.as_built.len()).sum();
    let mut lines = String::new();
    // Writing to a String can't fail.
    let _ok = writeln!(
        lines,
        "as built: {n_members}; still to be measured, of those that hangers use: {}",
        unmeasured(&after).len()
    );
    lines += &super::survey_report::text(&after, &findings);
    answer(&lines);
    Ok(if findings.iter().any(Finding::is_open_breach) {
        Outcome::Breach
    } else {
        Outcome::Clean
    })
}
