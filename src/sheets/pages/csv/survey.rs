//! The survey checklist: to be filled in on site, and taken up again as it is.

use super::{CsvError, written};
use crate::site::Framing;
use crate::site::as_built::{COLUMNS, INFORMING, compass};
use crate::study::Study;
use crate::study::survey::{Unmeasured, unmeasured};
use crate::units::{Length, Precision, Quantity, Rounding};

/// The members that hangers use and that nobody has measured, a line each.
///
/// Lengths are with their units, as they are typed in the window and read from a table,
/// not bare numbers: whoever measures writes them the same way.
///
/// # Errors
/// If the writer fails, which memory does not.
pub fn survey_checklist(study: &Study) -> Result<String, CsvError> {
    let head = COLUMNS.iter().chain(&INFORMING);
    let rows = unmeasured(study)
        .into_iter()
        .filter_map(|it| row(study, &it));
    written(head.map(|it| (*it).to_owned()).collect(), rows.collect())
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
