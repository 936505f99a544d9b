//! The hanging schedule: every hanger with its place, length and load.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::hanging::Kind;
use crate::structure::Member;
use crate::study::{RunStudy, Totals};

use super::figures::Figures;
use super::hangers::{HungAt, members_by_id, of_run};
use super::table::{Column, Row, Table};
use super::table_page::{self, Section, TablePage};
use super::{Draft, PageInput, channels, datum::Axes, wording};

/// Draws the schedule.
pub(super) fn hanging_schedule(input: &PageInput<'_>) -> Vec<Draft> {
    let figures = Figures::of(input.site);
    let axes = Axes::of(input.site);
    let members = members_by_id(input.study);
    let mut rows = Vec::new();
    for run in &input.study.runs {
        rows_of(input, run, &members, &axes, figures, &mut rows);
    }
    if input.study.runs.is_empty() {
        rows.push(Row::Remark("There are no runs.".to_owned()));
    } else {
        rows.extend(totals(&input.study.totals, figures));
    }
    let table = Table {
        columns: columns(figures),
        rows,
    };
    let schedule = Section { heading: "", table };
    let page = TablePage {
        name: "hanging-schedule",
        title: "Hanging schedule",
        sections: std::iter::once(schedule)
            .chain(channels::channel_list(input))
            .collect(),
        key: key(),
    };
    table_page::draw(input, &page)
}

fn columns(figures: Figures) -> Vec<Column> {
    vec![
        Column::words("hanger", 30.0),
        Column::words("from grid", 40.0),
        Column::words("from grid", 40.0),
        Column::words("member", 44.0),
        Column::words("panel point", 20.0),
        Column::words("kind", 40.0),
        Column::figures("station", figures.place_unit()),
        Column::figures("attach elevation", figures.place_unit()),
        Column::figures("suspension", figures.cut_unit()),
        Column::words("hardware", 40.0),
        Column::figures("load", figures.load_unit()),
        Column::figures("of allowed", ""),
        Column::figures("lean", "°"),
        Column::figures("moves when hot", figures.cut_unit()),
        Column::words("marks", 34.0),
    ]
}

fn rows_of(
    input: &PageInput<'_>,
    run: &Arc<RunStudy>,
    members: &BTreeMap<&str, &Arc<Member>>,
    axes: &Axes,
    figures: Figures,
    rows: &mut Vec<Row>,
) {
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
    let hung = of_run(input.study, run, members);
    for it in &hung {
        rows.push(row(it, axes, figures));
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

fn row(it: &HungAt<'_>, axes: &Axes, figures: Figures) -> Row {
    let at = &it.hanger.at;
    let [one, other] = axes.located(at.attach.truncate(), figures);
    Row::Cells {
        cells: vec![
            it.id.clone(),
            one,
            other,
            it.members(),
            it.panel_points(),
            wording::kind(at.kind).to_owned(),
            figures.place(at.station_m),
            figures.attach(at.attach.z),
            figures.cut(at.suspension_m),
            hardware(it, figures),
            figures.load(it.hanger.load.load_n),
            figures.share(it.share),
            figures.lean(at.lean_rad),
            figures.movement(it.hanger.movement_m),
            marks(it),
        ],
        subject: Some(("hanger", it.id.clone())),
    }
}

/// What is known of the hardware: a cross channel's length. The rest is left blank for
/// whoever chooses it.
fn hardware(it: &HungAt<'_>, figures: Figures) -> String {
    match (it.hanger.at.kind, it.hanger.at.channel) {
        (Kind::Channel, Some(lay)) => format!("channel {}", figures.cut(lay.span_m)),
        _ => String::new(),
    }
}

fn marks(it: &HungAt<'_>) -> String {
    let mut marks = Vec::new();
    if it.must_be_verified() {
        marks.push("v");
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

fn totals(totals: &Totals, figures: Figures) -> Vec<Row> {
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
    let lengths = format!(
        "Suspension {}, cross channel {} between members, tube {}; {} hang from the structure; installed input {}.",
        figures.cut_in_all(totals.suspension.as_metres()),
        figures.cut_in_all(totals.channel.as_metres()),
        figures.place_with_unit(totals.tube.as_metres()),
        figures.mass(totals.mass),
        figures.input(totals.input_net),
    );
    vec![
        Row::Heading("All runs".to_owned()),
        Row::Remark(sums),
        Row::Remark(lengths),
    ]
}

fn key() -> Vec<String> {
    vec![
        "Places are those of the point on the steel from which the suspension hangs, from the nearest grid line of each direction. Stations are along the tube from the burner flange.".to_owned(),
        "Suspension is the straight length from the attach point to the hanger's eye, cold. Hanger R3.2 moves so far towards the exhaust when hot; a minus is towards the burner.".to_owned(),
        "“Of allowed” is the greater of the hanger's own load and that of all runs at the same place, against what the building's engineer allows there.".to_owned(),
        "A cross channel's share on the first is the part of the hanger's load that comes to the member named first. Add to its length what clamps and fittings need at both ends.".to_owned(),
        "v: verify on site before hanging. slack: carries nothing when cold. fixed: the tube grows from here. as built: the member differs from the drawing. Blank hardware: not chosen yet.".to_owned(),
    ]
}
