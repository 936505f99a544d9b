//! The list of cross channels: between which members, how long, where the hanger is.

use crate::hanging::Kind;

use super::figures::Figures;
use super::hangers::{self, HungAt};
use super::table::{Column, Row, Table};
use super::table_page::Section;
use super::{PageInput, datum::Axes, wording};

/// The list; none where there is no cross channel.
pub(super) fn channel_list(input: &PageInput<'_>) -> Option<Section> {
    let figures = Figures::of(input.site);
    let axes = Axes::of(input.site);
    let mut hung = hangers::all(input.study);
    hung.retain(|it| it.hanger.at.kind == Kind::Channel);
    if hung.is_empty() {
        return None;
    }
    let columns = vec![
        Column::words("hanger", 30.0),
        Column::words("members", 70.0),
        Column::figures("between members", figures.cut_unit()),
        Column::figures("hanger from the first", figures.cut_unit()),
        Column::words("first end, from grid", 70.0),
        Column::words("second end, from grid", 70.0),
        Column::figures("load", figures.load_unit()),
        Column::figures("share on the first", ""),
    ];
    let mut rows: Vec<Row> = hung.iter().map(|it| row(it, &axes, figures)).collect();
    let total_m: f64 = hung
        .iter()
        .filter_map(|it| it.hanger.at.channel)
        .map(|lay| lay.span_m)
        .sum();
    let n = wording::counted(hung.len(), "channel", "channels");
    rows.push(Row::Sum(vec![
        n,
        String::new(),
        figures.cut(total_m),
        String::new(),
        String::new(),
        String::new(),
        String::new(),
        String::new(),
    ]));
    Some(Section {
        heading: "Cross channels, between the middles of their members",
        table: Table { columns, rows },
    })
}

fn row(it: &HungAt<'_>, axes: &Axes, figures: Figures) -> Row {
    let (span_m, to_first_m) = it
        .hanger
        .at
        .channel
        .map_or((0.0, 0.0), |lay| (lay.span_m, lay.to_first_m));
    let end = |index: usize| {
        it.holds
            .get(index)
            .map_or_else(String::new, |&point| axes.place(point, figures))
    };
    Row::Cells {
        cells: vec![
            it.id.clone(),
            it.members(),
            figures.cut(span_m),
            figures.cut(to_first_m),
            end(0),
            end(1),
            figures.load(it.hanger.load.load_n),
            figures.share(Some(it.hanger.at.first.share)),
        ],
        subject: Some(("channel", it.id.clone())),
    }
}
