//! A survey as a table of comma-separated values: what was measured of which member.

use crate::problem::Problem;
use crate::site::as_built::{COLUMNS, INFORMING};
use crate::site::{
    Edit, Framing, GridId, HeightAt, MeasuredAt, MeasuredHeight, MemberAdjustment, MemberId,
    Object, Site,
};
use crate::units::{Length, Quantity};
use std::collections::BTreeMap;
use std::fmt;
use std::sync::Arc;

/// Why a survey was not taken up; nothing of it was.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub struct SurveyListError(pub Vec<Problem>);

impl fmt::Display for SurveyListError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, problem) in self.0.iter().enumerate() {
            if i > 0 {
                writeln!(f)?;
            }
            write!(f, "{problem}")?;
        }
        Ok(())
    }
}

/// The edit that takes a survey up. Lengths are read as they are typed in the window, in
/// the units that the site shows. An empty cell leaves what is known; a line without
/// figures says nothing.
///
/// # Errors
/// Every line that can't be used, by its number, with what would be accepted.
pub fn taken_up(site: &Site, text: &str) -> Result<(Edit, Site), SurveyListError> {
    let lines = read(site, text)?;
    let mut framings: BTreeMap<usize, Framing> = BTreeMap::new();
    for line in &lines {
        let framing = framings
            .entry(line.framing)
            .or_insert_with(|| site.framings[line.framing].as_ref().clone());
        line.take_up(framing);
    }
    let puts = framings
        .into_values()
        .map(|framing| Edit::Put(Object::Framing(Arc::new(framing))));
    let edit = Edit::All(puts.collect());
    match edit.apply(site) {
        Ok(next) => Ok((edit, next)),
        Err(refused) => {
            let numbered = refused
                .kept()
                .iter()
                .map(|problem| numbered(site, &lines, problem));
            Err(SurveyListError(numbered.collect()))
        }
    }
}

/// A refusal with the line that it is about in place of the path in the file.
fn numbered(site: &Site, lines: &[Line], problem: &Problem) -> Problem {
    let is_about = |line: &&Line, word: &str| {
        let framing = site.framings[line.framing].id.as_str();
        problem.subject.as_deref() == Some(framing)
            && word == format!("{framing}-{:02}", line.number)
    };
    // The member that is refused is named before the one that it clashes with.
    let about = problem
        .found
        .split([' ', ','])
        .find_map(|word| lines.iter().find(|line| is_about(line, word)));
    about.map_or_else(
        || problem.clone(),
        |line| Problem {
            path: format!("line {}", line.line),
            subject: None,
            ..problem.clone()
        },
    )
}

/// What one line says.
#[derive(Debug, Clone, PartialEq)]
struct Line {
    line: u64,
    framing: usize,
    number: usize,
    at: Option<MeasuredAt>,
    height: Option<MeasuredHeight>,
    missing: Option<bool>,
    note: String,
}

impl Line {
    fn take_up(&self, framing: &mut Framing) {
        let known = framing
            .as_built
            .iter()
            .position(|it| it.member == self.number);
        let mut adjustment = known.map_or_else(
            || MemberAdjustment::as_drawn(self.number),
            |k| framing.as_built.remove(k),
        );
        if let Some(at) = &self.at {
            adjustment.moved = Length::ZERO;
            adjustment.measured_at = Some(at.clone());
        }
        if let Some(height) = &self.height {
            adjustment.raised = Length::ZERO;
            adjustment.measured_height = Some(height.clone());
        }
        if let Some(missing) = self.missing {
            adjustment.missing = missing;
        }
        if !self.note.is_empty() {
            adjustment.notes.clone_from(&self.note);
        }
        if !adjustment.says_nothing() {
            framing.as_built.push(adjustment);
            framing.as_built.sort_by_key(|it| it.member);
        }
    }
}

fn read(site: &Site, text: &str) -> Result<Vec<Line>, SurveyListError> {
    let text = text.trim_start_matches('\u{feff}');
    let head = text.lines().next().unwrap_or_default();
    // A desk where the comma is the decimal sign writes semicolons.
    let delimiter = if head.contains(';') && !head.contains(',') {
        b';'
    } else {
        b','
    };
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(delimiter)
        .flexible(true)
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let columns = columns(&mut reader)?;
    let mut lines: Vec<Line> = Vec::new();
    let mut problems = Vec::new();
    for record in reader.records() {
        let record = match record {
            Ok(record) => record,
            Err(error) => {
                let line = error.position().map_or(0, csv::Position::line);
                problems.push(problem(
                    line,
                    "",
                    &error.to_string(),
                    "comma-separated values",
                ));
                continue;
            }
        };
        if record.iter().all(str::is_empty) {
            continue;
        }
        let line = record.position().map_or(0, csv::Position::line);
        let cells = Cells {
            site,
            line,
            columns: &columns,
            record: &record,
        };
        match cells.read() {
            Ok(read) => {
                let same = |it: &&Line| (it.framing, it.number) == (read.framing, read.number);
                if let Some(known) = lines.iter().find(same) {
                    let found = format!("{} again", cells.cell("member"));
                    let accepted = format!("each member once: it stands in line {}", known.line);
                    problems.push(problem(line, "member", &found, &accepted));
                } else {
                    lines.push(read);
                }
            }
            Err(wrong) => problems.extend(wrong),
        }
    }
    if problems.is_empty() {
        Ok(lines)
    } else {
        Err(SurveyListError(problems))
    }
}

/// Which column is which.
fn columns(
    reader: &mut csv::Reader<&[u8]>,
) -> Result<BTreeMap<&'static str, usize>, SurveyListError> {
    let one = |found: &str| {
        let accepted = format!("a first line with the headings {}", COLUMNS.join(", "));
        SurveyListError(vec![problem(1, "", found, &accepted)])
    };
    let head = reader
        .headers()
        .map_err(|error| one(&error.to_string()))?
        .clone();
    let mut columns = BTreeMap::new();
    for (at, name) in head.iter().enumerate() {
        let name = name.to_lowercase();
        if name.is_empty() || INFORMING.contains(&name.as_str()) {
            continue;
        }
        let Some(known) = COLUMNS.iter().find(|known| **known == name) else {
            return Err(one(&format!("a column headed “{name}”")));
        };
        if columns.insert(*known, at).is_some() {
            return Err(one(&format!("two columns headed “{name}”")));
        }
    }
    if columns.contains_key("member") {
        Ok(columns)
    } else {
        Err(one("no column headed “member”"))
    }
}

fn problem(line: u64, column: &str, found: &str, accepted: &str) -> Problem {
    let path = if column.is_empty() {
        format!("line {line}")
    } else {
        format!("line {line}, {column}")
    };
    Problem {
        path,
        subject: None,
        found: found.to_owned(),
        accepted: accepted.to_owned(),
    }
}

/// The cells of one line.
struct Cells<'a> {
    site: &'a Site,
    line: u64,
    columns: &'a BTreeMap<&'static str, usize>,
    record: &'a csv::StringRecord,
}

impl Cells<'_> {
    fn cell(&self, column: &str) -> &str {
        let at = self.columns.get(column);
        at.and_then(|at| self.record.get(*at)).unwrap_or_default()
    }

    fn wrong(&self, column: &str, accepted: &str) -> Problem {
        let found = match self.cell(column) {
            "" => "nothing".to_owned(),
            text => format!("“{text}”"),
        };
        problem(self.line, column, &found, accepted)
    }

    fn read(&self) -> Result<Line, Vec<Problem>> {
        let mut problems = Vec::new();
        let mut noted = |wrong: Problem| problems.push(wrong);
        let member = self.member().map_err(&mut noted).ok();
        let at = self.place().map_err(&mut noted).ok();
        let height = self.height().map_err(&mut noted).ok();
        let missing = self.missing().map_err(&mut noted).ok();
        match (member, at, height, missing) {
            (Some((framing, number)), Some(at), Some(height), Some(missing)) => Ok(Line {
                line: self.line,
                framing,
                number,
                at,
                height,
                missing,
                note: self.cell("note").to_owned(),
            }),
            _ => Err(problems),
        }
    }

    /// `J-07`, and `J-07/AB` for those who copy a span's name.
    fn member(&self) -> Result<(usize, usize), Problem> {
        let text = self.cell("member");
        let id = MemberId::from(text);
        let framings = &self.site.framings;
        let found = framings
            .iter()
            .position(|it| id.is_of(&it.id))
            .and_then(|k| {
                let rest = text
                    .strip_prefix(framings[k].id.as_str())?
                    .strip_prefix('-')?;
                let digits = rest.split('/').next()?;
                Some((k, digits.parse().ok().filter(|number| 0 < *number)?))
            });
        found.ok_or_else(|| {
            let example = framings.first().map_or("J", |it| it.id.as_str());
            let accepted = format!("a member of a framing of this site, such as {example}-07");
            self.wrong("member", &accepted)
        })
    }

    fn length(&self, column: &str) -> Result<Option<Length>, Problem> {
        match self.cell(column) {
            "" => Ok(None),
            text => Length::parse(text, self.site.units)
                .map(Some)
                .map_err(|error| {
                    problem(self.line, column, &format!("“{text}”"), &error.to_string())
                }),
        }
    }

    fn line_named(&self, text: &str) -> Option<&GridId> {
        let line = self.site.grid.iter().find(|it| it.id.as_str() == text)?;
        Some(&line.id)
    }

    fn place(&self) -> Result<Option<MeasuredAt>, Problem> {
        let Some(distance) = self.length("distance")? else {
            // A checklist names the line to measure from in every row.
            return Ok(None);
        };
        let from = self
            .line_named(self.cell("from"))
            .ok_or_else(|| self.wrong("from", "the grid line that the distance is measured from"))?
            .clone();
        Ok(Some(MeasuredAt { from, distance }))
    }

    fn height(&self) -> Result<Option<MeasuredHeight>, Problem> {
        let Some(height) = self.length("height")? else {
            return Ok(None);
        };
        let text = self.cell("height at");
        if text.is_empty() || text.eq_ignore_ascii_case("low end") {
            let at = HeightAt::LowEnd;
            return Ok(Some(MeasuredHeight { height, at }));
        }
        let at = self.beside_line(text).ok_or_else(|| {
            self.wrong(
                "height at",
                "low end, or a crossing grid line and how far beyond it: B + 3.2 m",
            )
        })?;
        Ok(Some(MeasuredHeight { height, at }))
    }

    /// `B`, `B + 3.2 m`, `B - 3.2 m`.
    fn beside_line(&self, text: &str) -> Option<HeightAt> {
        let split = text.find([' ', '+', '-', '\u{2212}']).unwrap_or(text.len());
        let (name, rest) = text.split_at(split);
        let line = self.line_named(name)?.clone();
        let rest: String = rest.replace('\u{2212}', "-");
        let rest = rest.trim();
        let (is_before, figure) = match rest.strip_prefix('-') {
            Some(figure) => (true, figure),
            None => (false, rest.strip_prefix('+').unwrap_or(rest)),
        };
        let distance = if figure.trim().is_empty() {
            Length::ZERO
        } else {
            let distance = Length::parse(figure.trim(), self.site.units).ok()?;
            if is_before { -distance } else { distance }
        };
        Some(HeightAt::FromLine { line, distance })
    }

    fn missing(&self) -> Result<Option<bool>, Problem> {
        match self.cell("missing").to_lowercase().as_str() {
            "" => Ok(None),
            "yes" | "x" | "true" | "1" => Ok(Some(true)),
            "no" | "false" | "0" => Ok(Some(false)),
            _ => Err(self.wrong("missing", "yes, no, or nothing")),
        }
    }
}
