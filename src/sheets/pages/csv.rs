//! Tables as comma-separated values: numbers as numbers, the unit in each heading.

use crate::hanging::Capacity;
use crate::site::grid::GridOffset;
use crate::study::{self, Assumption, ChannelPiece, CutPiece};
use crate::units::{AreaLoad, Force, Length, UnitSystem};

mod channels;
mod cut_list;
mod findings;
mod loads;
mod survey;

pub use channels::{channel_list, cutting_plan};
pub use cut_list::cut_list;
pub use findings::findings;
pub use loads::loads_table;
pub use survey::survey_checklist;

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
    let channels = study::channel_list(input.study);
    let pieces = study::cut_list(input.study).pieces;
    let hung = hangers::all(input.study);
    let mut records = Vec::new();
    for run in &input.study.runs {
        for it in hung.iter().filter(|it| it.run.run.id == run.run.id) {
            let of_hanger =
                |piece: &&CutPiece| piece.run == run.run.id && piece.hanger == it.index + 1;
            let pieces: Vec<&CutPiece> = pieces.iter().filter(of_hanger).collect();
            let is_on = |piece: &&ChannelPiece| {
                let mut hangers = piece.hangers.iter();
                hangers.any(|on| on.run == run.run.id && on.number == it.index + 1)
            };
            records.push(units.record(&axes, it, channels.iter().find(is_on), &pieces));
        }
        if let Some(why) = wording::why_not_hung(run, super::Figures::of(input.site)) {
            let mut record = vec![String::new(); units.head().len()];
            record[0] = run.run.id.as_str().to_owned();
            if let Some(last) = record.last_mut() {
                *last = why;
            }
            records.push(record);
        }
    }
    written(units.head(), records)
}

/// A table as text.
fn written(head: Vec<String>, records: Vec<Vec<String>>) -> Result<String, CsvError> {
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    writer.write_record(head)?;
    for record in records {
        writer.write_record(record)?;
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
    area: &'static str,
    spread: &'static str,
}

impl Units {
    const fn of(system: UnitSystem) -> Self {
        let [place, cut, force, area, spread] = match system {
            UnitSystem::Metric => ["m", "mm", "N", "m2", "Pa"],
            UnitSystem::FeetInches => ["ft", "in", "lbf", "ft2", "psf"],
        };
        Self {
            system,
            place,
            cut,
            force,
            area,
            spread,
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
            "channel".to_owned(),
            format!("channel between members ({cut})"),
            "hardware".to_owned(),
            format!("cut ({cut})"),
            format!("second suspension ({cut})"),
            format!("second cut ({cut})"),
            format!("load level ({force})"),
            format!("load worst ({force})"),
            format!("allowed ({force})"),
            "of allowed (%)".to_owned(),
            "lean (deg)".to_owned(),
            format!("movement hot ({cut})"),
            "swing hot (deg)".to_owned(),
            "verify on site".to_owned(),
            "remark".to_owned(),
        ]
    }

    fn record(
        self,
        axes: &Axes,
        it: &HungAt<'_>,
        channel: Option<&ChannelPiece>,
        pieces: &[&CutPiece],
    ) -> Vec<String> {
        let at = &it.hanger.at;
        let [one, other] = axes.offsets(at.attach.truncate());
        let ((line_1, offset_1), (line_2, offset_2)) = (self.offset(one), self.offset(other));
        let allowed = match it.hanger.load.allowed {
            Capacity::Known(allowed_n) => self.force(allowed_n),
            Capacity::Unknown => String::new(),
        };
        let unknown = it.must_be_verified();
        let verify = [
            unknown.then(|| format!("capacity {}", figures::UNKNOWN_CAPACITY)),
            assumed(pieces.first().copied()),
        ];
        let remark = [
            it.hanger.load.slack.then(|| "slack".to_owned()),
            it.is_as_built.then(|| "member as built".to_owned()),
            it.is_overloaded().then(|| "overloaded".to_owned()),
        ];
        let listed = |parts: &[Option<String>]| {
            let said: Vec<&str> = parts.iter().flatten().map(String::as_str).collect();
            said.join("; ")
        };
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
            self.cut(pieces.first().map_or(at.suspension_m, |it| it.length_m)),
            channel.map_or_else(String::new, |piece| piece.name.clone()),
            at.channel
                .map_or_else(String::new, |lay| self.cut(lay.span_m)),
            wording::hardware(pieces.first().copied()),
            self.cut_if(pieces.first().and_then(|it| it.cut_m)),
            self.cut_if(pieces.get(1).map(|it| it.length_m)),
            self.cut_if(pieces.get(1).and_then(|it| it.cut_m)),
            self.force(it.hanger.load.load_n),
            self.force(it.hanger.cases.greatest_n()),
            allowed,
            it.share
                .map_or_else(String::new, |share| number(share * 100.0, 1)),
            number(at.lean_rad.to_degrees(), 2),
            self.cut(it.hanger.movement_m),
            number(it.hanger.swing_rad.to_degrees(), 2),
            listed(&verify),
            listed(&remark),
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

    /// The line that a place is measured from, and how far it is from it.
    fn offset(self, found: Option<GridOffset>) -> (String, String) {
        match found {
            Some(found) => (found.line.as_str().to_owned(), self.place(found.offset_m)),
            None => (String::new(), String::new()),
        }
    }

    /// A deflection.
    fn small(self, metres: f64) -> String {
        match self.system {
            UnitSystem::Metric => number(metres * 1000.0, 1),
            UnitSystem::FeetInches => number(Length::metres(metres).as_inches(), 3),
        }
    }

    fn area(self, square_metres: f64) -> String {
        let foot = Length::feet(1.0).as_metres();
        match self.system {
            UnitSystem::Metric => number(square_metres, 1),
            UnitSystem::FeetInches => number(square_metres / (foot * foot), 0),
        }
    }

    fn spread(self, load: AreaLoad) -> String {
        match self.system {
            UnitSystem::Metric => number(load.as_pascals(), 2),
            UnitSystem::FeetInches => number(load.as_pounds_per_square_foot(), 3),
        }
    }

    fn cut_if(self, metres: Option<f64>) -> String {
        metres.map_or_else(String::new, |metres| self.cut(metres))
    }

    fn force(self, newtons: f64) -> String {
        match self.system {
            UnitSystem::Metric => number(newtons, 1),
            UnitSystem::FeetInches => number(Force::newtons(newtons).as_pounds_force(), 1),
        }
    }
}

/// What of a suspension must be looked at on site, capacity apart.
fn assumed(piece: Option<&CutPiece>) -> Option<String> {
    let verify = piece?.verify.iter();
    let labels: Vec<&str> = verify
        .filter(|&&it| it != Assumption::CapacityUnknown)
        .map(|it| it.label())
        .collect();
    (!labels.is_empty()).then(|| labels.join("; "))
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
