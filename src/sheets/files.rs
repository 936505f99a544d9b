//! The plan set as files: names and bytes, for whoever writes them.

use super::dxf::{ModelUnit, dxf};
use super::error::SheetError;
use super::mark::Sheet;
use super::metadata::Metadata;
use super::pages::csv::{self, CsvError};
use super::pages::{PageInput, metadata, plan_set};
use super::pdf::pdf;
use super::png::png;
use super::svg::svg;
use crate::units::UnitSystem;

/// A format of the plan set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Format {
    /// One file with every sheet.
    Pdf,
    /// A file a sheet.
    Svg,
    /// A file a sheet, 150 dots an inch.
    Png,
    /// A file for each sheet that has a drawing to scale.
    Dxf,
    /// The tables.
    Csv,
}

impl Format {
    /// All of them, as offered.
    pub const ALL: [Self; 5] = [Self::Pdf, Self::Svg, Self::Png, Self::Dxf, Self::Csv];

    /// Its name, as people write it.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Pdf => "PDF",
            Self::Svg => "SVG",
            Self::Png => "PNG",
            Self::Dxf => "DXF",
            Self::Csv => "CSV",
        }
    }

    /// Its name, also the ending of its files.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Pdf => "pdf",
            Self::Svg => "svg",
            Self::Png => "png",
            Self::Dxf => "dxf",
            Self::Csv => "csv",
        }
    }
}

/// One sheet as a file in a format; so many dots an inch where that is an image.
///
/// # Errors
/// If the sheet can't be written so.
pub fn one_file(
    sheet: &Sheet,
    about: &Metadata,
    format: SheetFormat,
    units: UnitSystem,
    dots_per_inch: f64,
) -> Result<Vec<u8>, SheetError> {
    Ok(match format {
        SheetFormat::Pdf => pdf(std::slice::from_ref(sheet), about)?,
        SheetFormat::Svg => svg(sheet, about)?.into_bytes(),
        SheetFormat::Png => png(sheet, about, dots_per_inch)?,
        SheetFormat::Dxf => dxf(sheet, about, model_unit(units))?.into_bytes(),
    })
}

/// A format of one sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SheetFormat {
    /// PDF.
    Pdf,
    /// SVG.
    Svg,
    /// PNG.
    Png,
    /// DXF.
    Dxf,
}

impl SheetFormat {
    /// The format that a file's ending asks for, with or without capitals.
    #[must_use]
    pub fn of_ending(ending: &str) -> Option<Self> {
        match ending.to_ascii_lowercase().as_str() {
            "pdf" => Some(Self::Pdf),
            "svg" => Some(Self::Svg),
            "png" => Some(Self::Png),
            "dxf" => Some(Self::Dxf),
            _ => None,
        }
    }
}

const fn model_unit(units: UnitSystem) -> ModelUnit {
    match units {
        UnitSystem::Metric => ModelUnit::Metres,
        UnitSystem::FeetInches => ModelUnit::Inches,
    }
}

/// Sharp enough to read 2.5 mm text on a screen and on a desk printer.
const PNG_DPI: f64 = 150.0;

/// Why a plan set could not be made.
#[derive(Debug, thiserror::Error)]
pub enum FileError {
    /// A sheet could not be turned into a format.
    #[error(transparent)]
    Sheet(#[from] SheetError),
    /// A table could not be written.
    #[error(transparent)]
    Table(#[from] CsvError),
}

/// A table as text.
type Written = fn(&PageInput<'_>) -> Result<String, CsvError>;

/// The tables: name and what writes it.
const TABLES: [(&str, Written); 7] = [
    ("hanging-schedule", csv::hanging_schedule),
    ("channel-list", csv::channel_list),
    ("channel-cutting-plan", csv::cutting_plan),
    ("cut-list", csv::cut_list),
    ("loads-table", csv::loads_table),
    ("survey-checklist", |input| {
        csv::survey_checklist(input.study)
    }),
    ("findings", csv::findings),
];

/// The files of a plan set in the wanted formats: name and content, in the order of
/// the set. The same input gives the same bytes.
///
/// # Errors
/// The first sheet or table that can't be written.
pub fn files(
    input: &PageInput<'_>,
    wanted: &[Format],
) -> Result<Vec<(String, Vec<u8>)>, FileError> {
    let sheets = plan_set(input);
    let about = metadata(input);
    let unit = model_unit(input.site.units);
    let mut files = Vec::new();
    for format in Format::ALL
        .into_iter()
        .filter(|format| wanted.contains(format))
    {
        let mut put =
            |stem: &str, bytes: Vec<u8>| files.push((format!("{stem}.{}", format.name()), bytes));
        match format {
            Format::Pdf => put("plan-set", pdf(&sheets, &about)?),
            Format::Csv => {
                for (stem, table) in TABLES {
                    put(stem, table(input)?.into_bytes());
                }
            }
            Format::Svg | Format::Png | Format::Dxf => {
                for sheet in &sheets {
                    let made = match format {
                        Format::Svg => svg(sheet, &about).map(String::into_bytes),
                        Format::Png => png(sheet, &about, PNG_DPI),
                        _ if sheet.viewports.is_empty() => continue,
                        _ => dxf(sheet, &about, unit).map(String::into_bytes),
                    };
                    put(&sheet.id, made?);
                }
            }
        }
    }
    Ok(files)
}
