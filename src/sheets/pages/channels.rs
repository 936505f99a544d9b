//! The channel list: which piece lies where, what it carries, and from which stock
//! length it is cut.

use crate::study::{ChannelPiece, channel_list, channel_plan};

use super::figures::Figures;
use super::table::{Column, Row, Table};
use super::table_page::{self, Section, TablePage};
use super::{Draft, PageInput, datum::Axes, wording};

/// Draws the list; no sheet where there is no cross channel.
pub(super) fn list(input: &PageInput<'_>) -> Vec<Draft> {
    let list = channel_list(input.study);
    if list.is_empty() {
        return Vec::new();
    }
    let figures = Figures::of(input.site);
    let page = TablePage {
        name: "channel-list",
        title: "Channel list",
        sections: vec![
            pieces(input, &list, figures),
            cutting(input, &list, figures),
        ],
        key: key(),
    };
    table_page::draw(input, &page)
}

fn pieces(input: &PageInput<'_>, list: &[ChannelPiece], figures: Figures) -> Section {
    let axes = Axes::of(input.site);
    let columns = vec![
        Column::words("channel", 20.0),
        Column::words("first member", 40.0),
        Column::words("from grid", 50.0),
        Column::words("second member", 40.0),
        Column::words("from grid", 50.0),
        Column::figures("between members", figures.cut_unit()),
        Column::figures("cut", figures.cut_unit()),
        Column::words("hangers, from the first member", 60.0),
        Column::figures("load", figures.load_unit()),
        Column::figures("on the first", figures.load_unit()),
        Column::figures("on the second", figures.load_unit()),
        Column::figures("bending, of allowed", ""),
        Column::figures("sag", figures.cut_unit()),
        Column::figures("sag allowed", figures.cut_unit()),
    ];
    let mut rows: Vec<Row> = list.iter().map(|it| row(it, &axes, figures)).collect();
    let mut sum = vec![String::new(); columns.len()];
    sum[0] = wording::counted(list.len(), "piece", "pieces");
    sum[6] = figures.cut(list.iter().map(|it| it.length_m).sum());
    sum[8] = figures.load(list.iter().map(ChannelPiece::load_n).sum());
    rows.push(Row::Sum(sum));
    Section {
        heading: "Cross channels".to_owned(),
        table: Table { columns, rows },
    }
}

fn row(it: &ChannelPiece, axes: &Axes, figures: Figures) -> Row {
    let hangers: Vec<String> = it
        .hangers
        .iter()
        .map(|on| format!("{}.{} at {}", on.run, on.number, figures.cut(on.to_first_m)))
        .collect();
    Row::Cells {
        cells: vec![
            it.name.clone(),
            it.members[0].as_str().to_owned(),
            axes.place(it.ends[0], figures),
            it.members[1].as_str().to_owned(),
            axes.place(it.ends[1], figures),
            figures.cut(it.span_m),
            figures.cut(it.length_m),
            hangers.join(", "),
            figures.load(it.load_n()),
            figures.load(it.end_loads_n[0]),
            figures.load(it.end_loads_n[1]),
            figures.share(Some(it.bending())),
            figures.sag(it.check.deflection_m),
            figures.sag_allowed(it.check.allowed_deflection_m),
        ],
        subject: Some(("channel", it.name.clone())),
    }
}

fn cutting(input: &PageInput<'_>, list: &[ChannelPiece], figures: Figures) -> Section {
    let plan = channel_plan(input.study, list);
    let columns = vec![
        Column::words("stock length", 24.0),
        Column::words("cut from it, in this order", 200.0),
        Column::figures("lost in cuts", figures.cut_unit()),
        Column::figures("offcut", figures.cut_unit()),
    ];
    let mut rows: Vec<Row> = (1..)
        .zip(&plan.bars)
        .map(|(number, bar)| {
            let pieces: Vec<String> = bar
                .pieces
                .iter()
                .map(|&which| {
                    let piece = &list[which];
                    format!("{} {}", piece.name, figures.cut(piece.length_m))
                })
                .collect();
            Row::Cells {
                cells: vec![
                    format!("{number}"),
                    pieces.join(", "),
                    figures.cut(bar.kerf_m),
                    figures.cut(bar.offcut_m),
                ],
                subject: Some(("bar", format!("{number}"))),
            }
        })
        .collect();
    rows.push(Row::Sum(vec![
        wording::counted(plan.bars.len(), "length", "lengths"),
        String::new(),
        figures.cut(plan.bars.iter().map(|bar| bar.kerf_m).sum()),
        figures.cut(plan.bars.iter().map(|bar| bar.offcut_m).sum()),
    ]));
    Section {
        heading: format!(
            "Cutting plan: stock lengths of {}",
            figures.place_with_unit(plan.stock_m)
        ),
        table: Table { columns, rows },
    }
}

fn key() -> Vec<String> {
    vec![
        "A channel lies square to its two members, on their hang points; its ends reach beyond each of them as site policy says. Places are those of its ends on the middles of their members.".to_owned(),
        "Two hangers at one place share a channel as long as it bears both; where two channels stand at one place they lie side by side.".to_owned(),
        "Loads are level. Bending and sag are those of a simple beam between the members under all of its hangers; what is allowed is the site's policy. The steel at both ends takes its load off or at panel points: loads table.".to_owned(),
    ]
}
