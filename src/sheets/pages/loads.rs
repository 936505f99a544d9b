//! The loads table: what the building's engineer is asked to confirm.

use crate::hanging::Capacity;
use crate::site::WindExposure;
use crate::study::{LoadsTable, PlaceLoads, loads_table};
use crate::units::{AreaLoad, Force, Quantity};

use super::figures::{Figures, UNKNOWN_CAPACITY};
use super::table::{Column, Row, Table};
use super::table_page::{self, Section, TablePage};
use super::{Draft, PageInput, datum::Axes, wording};

/// Draws the table; no sheet where nothing hangs.
pub(super) fn table(input: &PageInput<'_>) -> Vec<Draft> {
    let table = loads_table(input.study);
    if table.places.is_empty() {
        return Vec::new();
    }
    let figures = Figures::of(input.site);
    let page = TablePage {
        name: "loads-table",
        title: "Loads on the structure",
        sections: vec![
            bays(input, &table, figures),
            spans(&table, figures),
            places(input, &table, figures),
        ],
        key: key(),
    };
    table_page::draw(input, &page)
}

fn bays(input: &PageInput<'_>, table: &LoadsTable, figures: Figures) -> Section {
    let columns = vec![
        Column::words("bay", 70.0),
        Column::figures("plan area", figures.area_unit()),
        Column::figures("hangs from it", figures.load_unit()),
        Column::figures("spread", AreaLoad::unit_label(figures.units())),
        Column::figures("roof may carry", AreaLoad::unit_label(figures.units())),
        Column::figures("of allowed", ""),
    ];
    let mut rows: Vec<Row> = table
        .bays
        .iter()
        .map(|it| {
            let spread = it.spread();
            let share = it.collateral.map(|collateral| {
                if collateral.as_pascals() > 0.0 {
                    spread / collateral
                } else {
                    f64::INFINITY
                }
            });
            Row::Cells {
                cells: vec![
                    it.bay.as_str().to_owned(),
                    figures.area(it.area_m2),
                    figures.load(it.load_n),
                    figures.area_load(spread),
                    it.collateral.map_or_else(
                        || UNKNOWN_CAPACITY.to_owned(),
                        |collateral| figures.area_load_allowed(collateral),
                    ),
                    share.map_or_else(|| "–".to_owned(), |share| figures.share(Some(share))),
                ],
                subject: Some(("bay-load", it.bay.as_str().to_owned())),
            }
        })
        .collect();
    let conditions = &input.site.conditions;
    let wind = match conditions.wind {
        WindExposure::Sheltered => "sheltered from wind",
        WindExposure::Open => "open to wind",
    };
    rows.push(Row::Remark(format!(
        "Seismic design category: {}. The hall is {wind}. {} hang from the structure in all.",
        conditions.seismic.label(),
        Force::with_unit(figures.load(table.total_n), figures.units()),
    )));
    Section {
        heading: "For review: the structure's capacity is for the building's engineer to confirm"
            .to_owned(),
        table: Table { columns, rows },
    }
}

fn spans(table: &LoadsTable, figures: Figures) -> Section {
    let columns = vec![
        Column::words("member span", 44.0),
        Column::figures("length", figures.place_unit()),
        Column::figures("loads", ""),
        Column::figures("load, level", figures.load_unit()),
        Column::figures("load, worst", figures.load_unit()),
        Column::figures("middle of loads, from its start", figures.place_unit()),
        Column::figures("allowed in all", figures.load_unit()),
        Column::figures("of allowed", ""),
    ];
    let rows = table
        .spans
        .iter()
        .map(|it| Row::Cells {
            cells: vec![
                it.member.as_str().to_owned(),
                figures.place(it.length_m),
                it.n_loads.to_string(),
                figures.load(it.load_n),
                figures.load(it.worst_n),
                it.centre_m
                    .map_or_else(|| "–".to_owned(), |centre_m| figures.place(centre_m)),
                figures.allowed(it.allowed),
                of_allowed(it.load_n, it.allowed, figures),
            ],
            subject: Some(("span-load", it.member.as_str().to_owned())),
        })
        .collect();
    Section {
        heading: "By member span".to_owned(),
        table: Table { columns, rows },
    }
}

fn places(input: &PageInput<'_>, table: &LoadsTable, figures: Figures) -> Section {
    let axes = Axes::of(input.site);
    let columns = vec![
        Column::words("member span", 44.0),
        Column::words("place", 50.0),
        Column::words("from grid", 40.0),
        Column::words("from grid", 40.0),
        Column::words("hangers, from the span's start", 70.0),
        Column::figures("load, level", figures.load_unit()),
        Column::figures("load, worst", figures.load_unit()),
        Column::figures("allowed", figures.load_unit()),
        Column::figures("of allowed", ""),
    ];
    let mut rows: Vec<Row> = table
        .places
        .iter()
        .map(|it| place(it, &axes, figures))
        .collect();
    let mut sum = vec![String::new(); columns.len()];
    sum[0] = wording::counted(table.places.len(), "place", "places");
    sum[5] = figures.load(table.total_n);
    rows.push(Row::Sum(sum));
    Section {
        heading: "By panel point, chord panel and attachment".to_owned(),
        table: Table { columns, rows },
    }
}

fn place(it: &PlaceLoads, axes: &Axes, figures: Figures) -> Row {
    let [one, other] = axes.located(it.at, figures);
    let parts: Vec<String> = it
        .parts
        .iter()
        .map(|part| {
            let at = figures.place(part.position_m);
            format!("{}.{} at {at}", part.run, part.number)
        })
        .collect();
    Row::Cells {
        cells: vec![
            it.member.as_str().to_owned(),
            wording::place(it.place),
            one,
            other,
            parts.join(", "),
            figures.load(it.load_n),
            figures.load(it.worst_n),
            figures.allowed(it.allowed),
            of_allowed(it.load_n, it.allowed, figures),
        ],
        subject: Some(("place-load", format!("{} {}", it.member, parts.join(", ")))),
    }
}

/// A load in part of what is allowed; a dash where nobody has said what is, as the
/// column before says.
fn of_allowed(load_n: f64, allowed: Capacity, figures: Figures) -> String {
    match allowed {
        Capacity::Known(allowed_n) if allowed_n <= 0.0 => figures.share(Some(f64::INFINITY)),
        Capacity::Known(allowed_n) => figures.share(Some(load_n / allowed_n)),
        Capacity::Unknown => "–".to_owned(),
    }
}

fn key() -> Vec<String> {
    vec![
        "Only what hangs from the heaters is counted, hardware and cross channels apart: not gas pipe, cable, exhaust, nor what hangs there already.".to_owned(),
        "Level: every suspension at its length. Worst: any one hanger of each run set low or gone slack; no run then puts more on a place than it weighs. Percentages are those of the level load.".to_owned(),
        "Between two panel points the loads within one chord panel are summed. A hanger on a cross channel comes to both of its members, each with its share.".to_owned(),
        "A span starts at its end nearer the lowest grid line. What is allowed is as entered from the building's engineer; where nobody has said, nothing is assumed.".to_owned(),
    ]
}
