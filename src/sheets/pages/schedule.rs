//! The hanging schedule: every hanger with its place, length and load.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::hanging::Kind;
use crate::site::RunId;
use crate::structure::Member;
use crate::study::{ChannelPiece, CutPiece, Leg, RunStudy, Totals, channel_list, cut_list};

use super::figures::Figures;
use super::hangers::{HungAt, members_by_id, of_run};
use super::table::{Column, Row, Table};
use super::table_page::{self, Section, TablePage};
use super::{Draft, PageInput, datum::Axes, wording};

/// Draws the schedule.
pub(super) fn hanging_schedule(input: &PageInput<'_>) -> Vec<Draft> {
    let figures = Figures::of(input.site);
    let (channels, pieces) = (channel_list(input.study), cut_list(input.study).pieces);
    let said = Said {
        members: members_by_id(input.study),
        axes: Axes::of(input.site),
        figures,
        channels: names_of_channels(&channels),
        pieces: by_hanger(&pieces),
    };
    let mut rows = Vec::new();
    for run in &input.study.runs {
        rows_of(input, run, &said, &mut rows);
    }
    if input.study.runs.is_empty() {
        rows.push(Row::Remark("There are no runs.".to_owned()));
    } else {
        rows.extend(totals(&input.study.totals, &channels, figures));
    }
    let table = Table {
        columns: columns(figures),
        rows,
    };
    let schedule = Section {
        heading: String::new(),
        table,
    };
    let page = TablePage {
        name: "hanging-schedule",
        title: "Hanging schedule",
        sections: vec![schedule],
        key: key(),
    };
    table_page::draw(input, &page)
}

/// What rows say of hangers beyond their own study.
struct Said<'a> {
    members: BTreeMap<&'a str, &'a Arc<Member>>,
    axes: Axes,
    figures: Figures,
    channels: BTreeMap<(&'a RunId, usize), &'a str>,
    pieces: BTreeMap<(&'a RunId, usize), Vec<&'a CutPiece>>,
}

/// The name of the channel of each hanger that has one.
fn names_of_channels(list: &[ChannelPiece]) -> BTreeMap<(&RunId, usize), &str> {
    list.iter()
        .flat_map(|piece| {
            let hangers = piece.hangers.iter();
            hangers.map(|it| ((&it.run, it.number), piece.name.as_str()))
        })
        .collect()
}

/// The suspensions of each hanger.
fn by_hanger(pieces: &[CutPiece]) -> BTreeMap<(&RunId, usize), Vec<&CutPiece>> {
    let mut all: BTreeMap<(&RunId, usize), Vec<&CutPiece>> = BTreeMap::new();
    for piece in pieces {
        all.entry((&piece.run, piece.hanger))
            .or_default()
            .push(piece);
    }
    all
}

fn columns(figures: Figures) -> Vec<Column> {
    vec![
        Column::words("hanger", 30.0),
        Column::places("from grid"),
        Column::places("from grid"),
        Column::words("member", 44.0),
        Column::words("panel point", 20.0),
        Column::words("kind", 40.0),
        Column::figures("station", figures.place_unit()),
        Column::figures("attach elevation", figures.place_unit()),
        Column::figures("suspension", figures.cut_unit()),
        Column::words("hardware", 64.0),
        Column::figures("cut", figures.cut_unit()),
        Column::figures("load, level", figures.load_unit()),
        Column::figures("load, worst", figures.load_unit()),
        Column::figures("of allowed", ""),
        Column::figures("moves hot", figures.cut_unit()),
        Column::figures("swing hot", "°"),
        Column::words("verify", 16.0),
        Column::words("marks", 30.0),
    ]
}

fn rows_of(input: &PageInput<'_>, run: &Arc<RunStudy>, said: &Said<'_>, rows: &mut Vec<Row>) {
    let figures = said.figures;
    rows.push(Row::Heading(heading(run, figures)));
    if let Some(why) = wording::why_not_hung(run, figures) {
        rows.push(Row::Remark(why));
    }
    for lost in &run.hanging.lost {
        rows.push(Row::Remark(format!(
            "A kept hanger at station {} has lost its hold on {}.",
            figures.place_with_unit(lost.hanger.station_m),
            lost.hanger.members.join(", ")
        )));
    }
    for it in &of_run(input.study, run, &said.members) {
        rows_of_hanger(it, said, rows);
    }
}

/// What identifies a run and how it is placed, in one line.
fn heading(run: &RunStudy, figures: Figures) -> String {
    let it = &run.run;
    let mut parts = vec![
        format!("{}: {} {}", it.id, run.family.name, run.size.id),
        wording::shape(&run.family).to_owned(),
        figures.input(run.size.input_net),
        format!("tube {}", figures.elevation(it.tube_height.as_metres())),
        format!(
            "lowest part {}",
            figures.elevation(run.clearance.stacking.lowest_part_m)
        ),
        wording::tilt(it, figures),
    ];
    if it.shields != crate::site::Shields::None {
        parts.push(format!("side shields {}", wording::shields(it)));
    }
    if !it.zone.trim().is_empty() {
        parts.push(format!("zone {}", it.zone));
    }
    parts.push(format!(
        "greatest stacking height {}",
        figures.stacking(run.clearance.stacking.posted)
    ));
    parts.join(", ")
}

/// One row, and one more for the second suspension of a hanger that has two.
fn rows_of_hanger(it: &HungAt<'_>, said: &Said<'_>, rows: &mut Vec<Row>) {
    let (at, figures) = (&it.hanger.at, said.figures);
    let key = (&it.run.run.id, it.index + 1);
    let [one, other] = said.axes.located(at.attach.truncate(), figures);
    let kind = match said.channels.get(&key) {
        Some(name) => format!("{} {name}", wording::kind(at.kind)),
        None => wording::kind(at.kind).to_owned(),
    };
    let nothing = Vec::new();
    let pieces = said.pieces.get(&key).unwrap_or(&nothing);
    let first = pieces.first().copied();
    let length_m = first.map_or(at.suspension_m, |piece| piece.length_m);
    rows.push(Row::Cells {
        cells: vec![
            it.id.clone(),
            one,
            other,
            it.members(),
            it.panel_points(),
            kind,
            figures.place(at.station_m),
            figures.attach(at.attach.z),
            with_leg(figures.cut(length_m), first),
            wording::hardware(first),
            cut(first, figures),
            figures.load(it.hanger.load.load_n),
            figures.load(it.hanger.cases.greatest_n()),
            figures.share(it.share),
            figures.movement(it.hanger.movement_m),
            figures.lean(it.hanger.swing_rad),
            wording::verify(first, it.must_be_verified()),
            marks(it),
        ],
        subject: Some(("hanger", it.id.clone())),
    });
    for &piece in pieces.iter().skip(1) {
        let mut cells = vec![String::new(); N_COLUMNS];
        cells[SUSPENSION] = with_leg(figures.cut(piece.length_m), Some(piece));
        cells[SUSPENSION + 1] = wording::hardware(Some(piece));
        cells[SUSPENSION + 2] = cut(Some(piece), figures);
        rows.push(Row::Cells {
            cells,
            subject: None,
        });
    }
}

const N_COLUMNS: usize = 18;
/// Where suspension, hardware and cut stand among the columns.
const SUSPENSION: usize = 8;

/// A length with its leg's letter, of a hanger with two: `845 L`.
fn with_leg(length: String, piece: Option<&CutPiece>) -> String {
    match piece.map(|piece| piece.leg) {
        Some(leg @ (Leg::Left | Leg::Right)) => format!("{length} {}", leg.mark()),
        Some(Leg::Only) | None => length,
    }
}

/// What is cut; a dash where nothing can be.
fn cut(piece: Option<&CutPiece>, figures: Figures) -> String {
    let cut_m = piece.and_then(|piece| piece.cut_m);
    cut_m.map_or_else(|| "–".to_owned(), |cut_m| figures.cut(cut_m))
}

fn marks(it: &HungAt<'_>) -> String {
    let mut marks = Vec::new();
    if it.is_overloaded() {
        marks.push("overloaded");
    }
    if it.hanger.load.slack {
        marks.push("slack");
    }
    if it.is_fixed {
        marks.push("fixed");
    }
    if it.is_as_built {
        marks.push("as built");
    }
    marks.join(", ")
}

fn totals(totals: &Totals, channels: &[ChannelPiece], figures: Figures) -> Vec<Row> {
    let kinds = [
        (totals.n_panel, Kind::Panel),
        (totals.n_line, Kind::Line),
        (totals.n_off_panel, Kind::OffPanel),
        (totals.n_channel, Kind::Channel),
    ];
    let kinds: Vec<String> = kinds
        .into_iter()
        .filter(|(n, _)| 0 < *n)
        .map(|(n, kind)| format!("{n} {}", wording::kind(kind)))
        .collect();
    let mut sums = format!(
        "{}, {} hung; {}",
        wording::counted(totals.n_runs, "run", "runs"),
        totals.n_hung,
        wording::counted(totals.n_hangers(), "hanger", "hangers"),
    );
    if !kinds.is_empty() {
        sums += &format!(" ({})", kinds.join(", "));
    }
    let mut lengths = format!(
        "Suspension {} from attach points to eyes, tube {}; {} hang from the structure; installed input {}.",
        figures.cut_in_all(totals.suspension.as_metres()),
        figures.place_with_unit(totals.tube.as_metres()),
        figures.mass(totals.mass),
        figures.input(totals.input_net),
    );
    if !channels.is_empty() {
        let cut_m: f64 = channels.iter().map(|piece| piece.length_m).sum();
        lengths += &format!(
            " {}, together {}: channel list.",
            wording::counted(channels.len(), "cross channel", "cross channels"),
            figures.cut_in_all(cut_m)
        );
    }
    vec![
        Row::Heading("All runs".to_owned()),
        Row::Remark(sums),
        Row::Remark(lengths),
    ]
}

fn key() -> Vec<String> {
    vec![
        "Places are those of the point on the steel from which the suspension hangs, from the nearest grid line of each direction. Stations are along the tube from the burner flange.".to_owned(),
        "Suspension is the straight length from the attach point to the hanger's eye, cold; L and R are the left and right one of two, seen from the burner. Cut is the chain, rod or rope itself: clamp and adjuster make up the rest, see the cut list.".to_owned(),
        "Load, worst: with any one hanger of the run set low or gone slack; hardware is chosen for it. “Of allowed” is the level load's: the greater of the hanger's own and that of all runs at the same place and on the same member, against what the building's engineer allows.".to_owned(),
        "Hanger R3.2 moves so far towards the exhaust when hot; a minus is towards the burner. Swing is its suspension's lean along the run then.".to_owned(),
        wording::VERIFY_KEY.to_owned(),
        "Marks: slack carries nothing when cold; fixed: the tube grows from here; as built: the member differs from the drawing; overloaded: more than is allowed.".to_owned(),
    ]
}
