//! The channel list and its cutting plan.

use super::{CsvError, Units, number, written};
use crate::sheets::pages::PageInput;
use crate::sheets::pages::datum::Axes;
use crate::study;

/// The channel list: one line for each piece.
///
/// # Errors
/// If the writer fails, which memory does not.
pub fn channel_list(input: &PageInput<'_>) -> Result<String, CsvError> {
    let units = Units::of(input.site.units);
    let Units { cut, force, .. } = units;
    let axes = Axes::of(input.site);
    let head = vec![
        "channel".to_owned(),
        "first member".to_owned(),
        "first end from grid".to_owned(),
        "second member".to_owned(),
        "second end from grid".to_owned(),
        format!("between members ({cut})"),
        format!("cut ({cut})"),
        "hangers".to_owned(),
        format!("hangers from the first member ({cut})"),
        format!("load ({force})"),
        format!("on the first ({force})"),
        format!("on the second ({force})"),
        "bending of allowed (%)".to_owned(),
        format!("sag ({cut})"),
        format!("sag allowed ({cut})"),
    ];
    let figures = crate::sheets::pages::Figures::of(input.site);
    let record = |piece: &study::ChannelPiece| {
        let names: Vec<String> = piece
            .hangers
            .iter()
            .map(|on| format!("{}.{}", on.run, on.number))
            .collect();
        let places: Vec<String> = piece
            .hangers
            .iter()
            .map(|on| units.cut(on.to_first_m))
            .collect();
        vec![
            piece.name.clone(),
            piece.members[0].as_str().to_owned(),
            axes.place(piece.ends[0], figures),
            piece.members[1].as_str().to_owned(),
            axes.place(piece.ends[1], figures),
            units.cut(piece.span_m),
            units.cut(piece.length_m),
            names.join(" "),
            places.join(" "),
            units.force(piece.load_n()),
            units.force(piece.end_loads_n[0]),
            units.force(piece.end_loads_n[1]),
            number(piece.bending() * 100.0, 1),
            units.small(piece.check.deflection_m),
            units.small(piece.check.allowed_deflection_m),
        ]
    };
    let list = study::channel_list(input.study);
    written(head, list.iter().map(record).collect())
}

/// The cutting plan: one line for each piece, with the stock length that it is cut from.
///
/// # Errors
/// If the writer fails, which memory does not.
pub fn cutting_plan(input: &PageInput<'_>) -> Result<String, CsvError> {
    let units = Units::of(input.site.units);
    let cut = units.cut;
    let list = study::channel_list(input.study);
    let plan = study::channel_plan(input.study, &list);
    let head = vec![
        "stock length".to_owned(),
        format!("length ({cut})"),
        "channels, in the order of cutting".to_owned(),
        format!("pieces ({cut})"),
        format!("lost in cuts ({cut})"),
        format!("offcut ({cut})"),
    ];
    let records = (1..).zip(&plan.bars).map(|(number, bar): (usize, _)| {
        let pieces = || bar.pieces.iter().map(|&which| &list[which]);
        let names: Vec<&str> = pieces().map(|it| it.name.as_str()).collect();
        let lengths: Vec<String> = pieces().map(|it| units.cut(it.length_m)).collect();
        vec![
            number.to_string(),
            units.cut(plan.stock_m),
            names.join(" "),
            lengths.join(" "),
            units.cut(bar.kerf_m),
            units.cut(bar.offcut_m),
        ]
    });
    written(head, records.collect())
}
