//! `survey`: take up what was measured on site, or print what is still to be measured.

use super::arguments::Survey;
use super::check::studied;
use super::{Failure, Outcome, answer};
use crate::findings::{Finding, judge};
use crate::site::Framing;
use crate::site::as_built::compass;
use crate::store;
use crate::store::survey_list::{self, COLUMNS, INFORMING};
use crate::study::survey::{Unmeasured, unmeasured};
use crate::study::{Study, study};
use crate::units::{Length, Precision, Quantity, Rounding};
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
    let mut head: Vec<&str> = COLUMNS.to_vec();
    head.extend(INFORMING);
    let rows: Vec<Vec<String>> = unmeasured(&studied.study)
        .iter()
        .filter_map(|it| row(&studied.study, it))
        .collect();
    let table = survey_list::table(&head, &rows)
        .map_err(|error| Failure(format!("the checklist could not be written: {error}")))?;
    answer(&table);
    Ok(Outcome::Clean)
}

fn row(study: &Study, it: &Unmeasured) -> Option<Vec<String>> {
    let site = &study.site;
    let framing: &Framing = site.framings.iter().find(|known| known.id == it.framing)?;
    // The line nearest to where the member is drawn.
    let nearest = site
        .grid
        .iter()
        .filter_map(|line| Some((line, it.offset_m - framing.line_offset_m(line)?)))
        .min_by(|a, b| a.1.abs().total_cmp(&b.1.abs()));
    let shown = |metres: f64| {
        let precision = Precision {
            decimals: 3,
            inch_parts: 16,
        };
        let length = Length::metres(metres);
        let text = length.show_rounded(site.units, precision, Rounding::Nearest);
        Length::with_unit(text, site.units)
    };
    let (from, distance) = nearest.map_or_else(
        || (String::new(), String::new()),
        |(line, distance_m)| (line.id.to_string(), shown(distance_m)),
    );
    let positive = compass(framing.right()).to_owned();
    let mut cells = vec![it.id.to_string(), from];
    // Distance, height, where, missing and note are for whoever measures.
    cells.resize(COLUMNS.len(), String::new());
    cells.extend([
        positive,
        distance,
        shown(it.low_end_m),
        it.hangers.join(" "),
    ]);
    Some(cells)
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
