//! Tables as comma-separated values: numbers as numbers, the unit in each heading.

use crate::hanging::Capacity;
use crate::site::grid::GridOffset;
use crate::units::{Force, Length, UnitSystem};

use super::datum::Axes;
use super::hangers::{self, HungAt};
use super::{PageInput, figures, wording};

/// The hanging schedule: one line for each hanger, one for each run without hangers.
///
/// Metric sites give metres, millimetres and newtons; others decimal feet, inches and
/// pounds-force. Places are from the nearest grid line of each direction, signed
/// toward later letters.
///
/// # Errors
/// If the writer fails, which memory does not.
pub fn hanging_schedule(input: &PageInput<'_>) -> Result<String, CsvError> {
    let units = Units::of(input.site.units);
    let axes = Axes::of(input.site);
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    writer.write_record(units.head())?;
    let hung = hangers::all(input.study);
    for run in &input.study.runs {
        let of_run: Vec<&HungAt<'_>> = hung
            .iter()
            .filter(|it| it.run.run.id == run.run.id)
            .collect();
        for it in &of_run {
            writer.write_record(units.record(&axes, it))?;
        }
        if let Some(why) = wording::why_not_hung(run, super::Figures::of(input.site)) {
            let mut record = vec![String::new(); units.head().len()];
            record[0] = run.run.id.as_str().to_owned();
            if let Some(last) = record.last_mut() {
                *last = why;
            }
            writer.write_record(record)?;
        }
    }
    let bytes = writer
        .into_inner()
        .map_err(|error| CsvError::Unwritten(error.to_string()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// Why a table could not be written.
#[derive(Debug, thiserror::Error)]
pub enum CsvError {
    /// A record was refused.
    #[error("a line of the table could not be written: {0}")]
    Refused(#[from] csv::Error),
    /// The end was not reached.
    #[error("the table could not be finished: {0}")]
    Unwritten(String),
}

/// The units of the numbers.
#[derive(Debug, Clone, Copy)]
struct Units {
    system: UnitSystem,
    place: &'static str,
    cut: &'static str,
    force: &'static str,
}

impl Units {
    const fn of(system: UnitSystem) -> Self {
        let (place, cut, force) = match system {
            UnitSystem::Metric => ("m", "mm", "N"),
            UnitSystem::FeetInches => ("ft", "in", "lbf"),
        };
        Self {
            system,
            place,
            cut,
            force,
        }
    }

    fn head(self) -> Vec<String> {
        let Self {
            place, cut, force, ..
        } = self;
        vec![
            "run".to_owned(),
            "hanger".to_owned(),
            "grid line 1".to_owned(),
            format!("offset 1 ({place})"),
            "grid line 2".to_owned(),
            format!("offset 2 ({place})"),
            "members".to_owned(),
            "panel points".to_owned(),
            "kind".to_owned(),
            format!("station ({place})"),
            format!("attach elevation ({place})"),
            format!("suspension ({cut})"),
            format!("channel between members ({cut})"),
            format!("load ({force})"),
            format!("allowed ({force})"),
            "of allowed (%)".to_owned(),
            "lean (deg)".to_owned(),
            format!("movement hot ({cut})"),
            "verify on site".to_owned(),
            "remark".to_owned(),
        ]
    }

    fn record(self, axes: &Axes, it: &HungAt<'_>) -> Vec<String> {
        let at = &it.hanger.at;
        let offset = |found: Option<GridOffset>| match found {
            Some(found) => (found.line.as_str().to_owned(), self.place(found.offset_m)),
            None => (String::new(), String::new()),
        };
        let [one, other] = axes.offsets(at.attach.truncate());
        let ((line_1, offset_1), (line_2, offset_2)) = (offset(one), offset(other));
        let allowed = match it.hanger.load.allowed {
            Capacity::Known(allowed_n) => self.force(allowed_n),
            Capacity::Unknown => String::new(),
        };
        let unknown = it.must_be_verified();
        let remark = [
            unknown.then(|| format!("capacity {}", figures::UNKNOWN_CAPACITY)),
            it.hanger.load.slack.then(|| "slack".to_owned()),
            it.is_as_built.then(|| "member as built".to_owned()),
        ];
        vec![
            it.run.run.id.as_str().to_owned(),
            it.id.clone(),
            line_1,
            offset_1,
            line_2,
            offset_2,
            it.members(),
            it.panel_points(),
            wording::kind(at.kind).to_owned(),
            self.place(at.station_m),
            self.place(at.attach.z),
            self.cut(at.suspension_m),
            at.channel
                .map_or_else(String::new, |lay| self.cut(lay.span_m)),
            self.force(it.hanger.load.load_n),
            allowed,
            it.share
                .map_or_else(String::new, |share| number(share * 100.0, 1)),
            number(at.lean_rad.to_degrees(), 2),
            self.cut(it.hanger.movement_m),
            if unknown { "yes" } else { "" }.to_owned(),
            remark.into_iter().flatten().collect::<Vec<_>>().join("; "),
        ]
    }

    fn place(self, metres: f64) -> String {
        match self.system {
            UnitSystem::Metric => number(metres, 3),
            UnitSystem::FeetInches => number(Length::metres(metres).as_feet(), 3),
        }
    }

    fn cut(self, metres: f64) -> String {
        match self.system {
            UnitSystem::Metric => number(metres * 1000.0, 0),
            UnitSystem::FeetInches => number(Length::metres(metres).as_inches(), 2),
        }
    }

    fn force(self, newtons: f64) -> String {
        match self.system {
            UnitSystem::Metric => number(newtons, 1),
            UnitSystem::FeetInches => number(Force::newtons(newtons).as_pounds_force(), 1),
        }
    }
}

/// A number of so many decimals, without a sign on zero.
fn number(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| c == '0' || c == '.') => rest.to_owned(),
        _ => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_plain() {
        assert_eq!(number(-0.0001, 3), "0.000");
        assert_eq!(number(-0.5, 3), "-0.500");
        assert_eq!(number(1234.5, 0), "1234");
    }
}
