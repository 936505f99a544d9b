//! The cut list: every suspension as it is cut and made up, and what to buy.

use crate::study::{CutList, CutPiece, RunStudy, cut_list};

use super::figures::Figures;
use super::table::{Column, Row, Table};
use super::table_page::{self, Section, TablePage};
use super::{Draft, PageInput, wording};

/// Draws the list; no sheet where nothing hangs, or no hardware is at hand.
pub(super) fn list(input: &PageInput<'_>) -> Vec<Draft> {
    let list = cut_list(input.study);
    if list.pieces.is_empty() {
        return Vec::new();
    }
    let figures = Figures::of(input.site);
    let page = TablePage {
        name: "cut-list",
        title: "Cut list",
        sections: vec![pieces(input, &list, figures), to_buy(&list, figures)],
        key: key(),
    };
    table_page::draw(input, &page)
}

fn pieces(input: &PageInput<'_>, list: &CutList, figures: Figures) -> Section {
    let columns = vec![
        Column::words("suspension", 30.0),
        Column::words("member", 44.0),
        Column::words("chain, rod or rope", 60.0),
        Column::figures("attach to eye", figures.cut_unit()),
        Column::figures("cut", figures.cut_unit()),
        Column::figures("links", ""),
        Column::words("adjuster", 60.0),
        Column::figures("set at", figures.cut_unit()),
        Column::figures("can be set from", figures.cut_unit()),
        Column::figures("to", figures.cut_unit()),
        Column::words("clamp or bracket", 60.0),
        Column::figures("pull", figures.load_unit()),
        Column::figures("allowed", figures.load_unit()),
        Column::words("verify", 16.0),
    ];
    let mut rows = Vec::new();
    for run in &input.study.runs {
        let mut of_run = list
            .pieces
            .iter()
            .filter(|piece| piece.run == run.run.id)
            .peekable();
        if of_run.peek().is_some() {
            rows.push(Row::Heading(heading(run)));
        }
        rows.extend(of_run.map(|piece| row(piece, figures)));
    }
    Section {
        heading: "Suspensions".to_owned(),
        table: Table { columns, rows },
    }
}

fn heading(run: &RunStudy) -> String {
    format!("{}: {} {}", run.run.id, run.family.name, run.size.id)
}

fn row(piece: &CutPiece, figures: Figures) -> Row {
    let id = format!("{}.{}{}", piece.run, piece.hanger, piece.leg.mark());
    let or_dash = |length_m: Option<f64>| {
        length_m.map_or_else(|| "–".to_owned(), |length_m| figures.cut(length_m))
    };
    let members: Vec<&str> = piece.members.iter().map(|it| it.as_str()).collect();
    let adjuster = piece.adjuster.as_deref().unwrap_or("–");
    // A bridle's clamp stands with its left suspension.
    let clamp = piece.clamp.as_deref().unwrap_or("–");
    Row::Cells {
        cells: vec![
            id.clone(),
            members.join(", "),
            wording::size(piece),
            figures.cut(piece.length_m),
            or_dash(piece.cut_m),
            piece
                .links
                .map_or_else(|| "–".to_owned(), |links| links.to_string()),
            adjuster.to_owned(),
            or_dash(piece.adjuster_set_m),
            or_dash(piece.range_m.map(|(least_m, _)| least_m)),
            or_dash(piece.range_m.map(|(_, greatest_m)| greatest_m)),
            clamp.to_owned(),
            figures.load(piece.pull_n),
            piece.allowed_n.map_or_else(
                || "–".to_owned(),
                |allowed_n| figures.allowed_load(allowed_n),
            ),
            wording::verify(Some(piece), false),
        ],
        subject: Some(("suspension", id)),
    }
}

fn to_buy(list: &CutList, figures: Figures) -> Section {
    let columns = vec![
        Column::words("what", 90.0),
        Column::figures("pieces", ""),
        Column::figures("cut in all", ""),
    ];
    let stock = list.stock.iter().map(|it| Row::Cells {
        cells: vec![
            it.size.clone(),
            it.n_pieces.to_string(),
            figures.cut_in_all(it.cut_m),
        ],
        subject: Some(("stock", it.size.clone())),
    });
    let parts = list.parts.iter().map(|it| Row::Cells {
        cells: vec![it.name.clone(), it.count.to_string(), String::new()],
        subject: Some(("part", it.name.clone())),
    });
    Section {
        heading: "In all".to_owned(),
        table: Table {
            columns,
            rows: stock.chain(parts).collect(),
        },
    }
}

fn key() -> Vec<String> {
    vec![
        "Attach to eye is the straight length, cold. Cut is the chain, rod or rope itself, of a rope with its loops; the clamp and the adjuster, set as stated, make up the rest. L and R are the left and right one of two, seen from the burner.".to_owned(),
        "Pull is the greatest with any one hanger of the run set low or gone slack. Allowed is what the weakest part bears at the site's design factor.".to_owned(),
        "Lengths in all are those of the pieces as cut; offcuts, spare links and quick links are for whoever buys.".to_owned(),
        wording::VERIFY_KEY.to_owned(),
    ]
}
