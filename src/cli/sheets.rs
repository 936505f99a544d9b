//! `sheets`: write the plan set.

use super::arguments::Sheets;
use super::check::{issue_date, studied};
use super::{Failure, Outcome, answer};
use crate::findings::Finding;
use crate::sheets::files::{Format, files};
use crate::store::{OutputFile, write_all};

pub(super) fn run(sheets: &Sheets) -> Result<Outcome, Failure> {
    let date = issue_date(&sheets.date)?;
    let studied = studied(&sheets.choice)?;
    let input = studied.input(date);
    let made: Vec<OutputFile> = files(&input, &wanted(sheets))
        .map_err(|error| Failure(error.to_string()))?
        .into_iter()
        .map(|(name, bytes)| OutputFile { name, bytes })
        .collect();
    write_all(&sheets.out, &made).map_err(|error| Failure(error.to_string()))?;
    let list: String = made
        .iter()
        .map(|file| format!("{}\n", sheets.out.join(&file.name).display()))
        .collect();
    answer(&list);
    Ok(if studied.findings.iter().any(Finding::is_open_breach) {
        Outcome::Breach
    } else {
        Outcome::Clean
    })
}

/// The formats that were named; all of them where none was.
fn wanted(sheets: &Sheets) -> Vec<Format> {
    let named: Vec<Format> = [
        (sheets.pdf, Format::Pdf),
        (sheets.svg, Format::Svg),
        (sheets.png, Format::Png),
        (sheets.dxf, Format::Dxf),
        (sheets.csv, Format::Csv),
    ]
    .into_iter()
    .filter_map(|(is_named, format)| is_named.then_some(format))
    .collect();
    if named.is_empty() {
        Format::ALL.to_vec()
    } else {
        named
    }
}
