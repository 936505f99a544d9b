//! `section`: draw a section of the site, to scale.

use super::arguments::Section;
use super::check::{issue_date, studied};
use super::{Failure, Outcome, answer};
use crate::sheets::files::{SheetFormat, one_file};
use crate::sheets::pages::{metadata, section_sheet};
use crate::site::{SectionLine, Site};
use crate::store::{OutputFile, write_all};
use crate::views::section::default_line;
use std::path::Path;
use std::sync::Arc;

pub(super) fn run(order: &Section) -> Result<Outcome, Failure> {
    let format = format_of(&order.output, "svg, pdf, png or dxf")?;
    let date = issue_date(&order.date)?;
    let studied = studied(&order.choice)?;
    let input = studied.input(date);
    let line = match chosen(&studied.site, order.name.as_deref())? {
        Some(line) => line.as_ref().clone(),
        None => default_line(&studied.site, &studied.catalogue).ok_or_else(|| {
            Failure("the site has neither a section line nor a bay to cut".to_owned())
        })?,
    };
    let sheet = section_sheet(&input, &line);
    let about = metadata(&input);
    let bytes = one_file(&sheet, &about, format, studied.site.units, order.dpi)
        .map_err(|error| Failure(error.to_string()))?;
    write_one(&order.output, bytes)?;
    answer(&format!("{}\n", order.output.display()));
    Ok(Outcome::Clean)
}

/// The line with a letter; the first where none is named. None where none is drawn.
fn chosen<'a>(site: &'a Site, name: Option<&str>) -> Result<Option<&'a Arc<SectionLine>>, Failure> {
    let Some(name) = name else {
        return Ok(site.sections.first());
    };
    let is_it = |line: &&Arc<SectionLine>| line.id.as_str() == name || line.label() == name;
    site.sections.iter().find(is_it).map(Some).ok_or_else(|| {
        let known: Vec<&str> = site.sections.iter().map(|it| it.id.as_str()).collect();
        let known = if known.is_empty() {
            "none is drawn".to_owned()
        } else {
            format!("there are {}", known.join(", "))
        };
        Failure(format!("the site has no section line {name}: {known}"))
    })
}

/// The format that a file's ending asks for.
pub(super) fn format_of(path: &Path, offered: &str) -> Result<SheetFormat, Failure> {
    path.extension()
        .and_then(|ending| SheetFormat::of_ending(&ending.to_string_lossy()))
        .ok_or_else(|| {
            Failure(format!(
                "{}: the ending says how it is written; take {offered}",
                path.display()
            ))
        })
}

/// Writes one file, whole or not at all.
pub(super) fn write_one(path: &Path, bytes: Vec<u8>) -> Result<(), Failure> {
    let name = path
        .file_name()
        .ok_or_else(|| Failure(format!("{} names no file", path.display())))?;
    let file = OutputFile {
        name: name.to_string_lossy().into_owned(),
        bytes,
    };
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    write_all(folder, &[file]).map_err(|error| Failure(error.to_string()))
}
