//! The cut list.

use super::{CsvError, Units, written};
use crate::sheets::pages::{PageInput, wording};
use crate::study::{self, CutPiece};

/// The cut list: one line for each suspension.
///
/// # Errors
/// If the writer fails, which memory does not.
pub fn cut_list(input: &PageInput<'_>) -> Result<String, CsvError> {
    let units = Units::of(input.site.units);
    let Units { cut, force, .. } = units;
    let head = vec![
        "run".to_owned(),
        "hanger".to_owned(),
        "suspension".to_owned(),
        "members".to_owned(),
        "kind".to_owned(),
        "size".to_owned(),
        format!("attach to eye ({cut})"),
        format!("cut ({cut})"),
        "links".to_owned(),
        "adjuster".to_owned(),
        format!("adjuster set at ({cut})"),
        format!("can be set from ({cut})"),
        format!("to ({cut})"),
        "clamp or bracket".to_owned(),
        format!("pull ({force})"),
        format!("allowed ({force})"),
        "verify on site".to_owned(),
    ];
    let record = |piece: &CutPiece| {
        let members: Vec<&str> = piece.members.iter().map(|it| it.as_str()).collect();
        let verify: Vec<&str> = piece.verify.iter().map(|it| it.label()).collect();
        let text = |name: &Option<String>| name.clone().unwrap_or_default();
        vec![
            piece.run.as_str().to_owned(),
            format!("{}.{}", piece.run, piece.hanger),
            format!("{}.{}{}", piece.run, piece.hanger, piece.leg.mark()),
            members.join(", "),
            piece.kind.label().to_owned(),
            wording::size(piece),
            units.cut(piece.length_m),
            units.cut_if(piece.cut_m),
            piece.links.map_or_else(String::new, |it| it.to_string()),
            text(&piece.adjuster),
            units.cut_if(piece.adjuster_set_m),
            units.cut_if(piece.range_m.map(|(least_m, _)| least_m)),
            units.cut_if(piece.range_m.map(|(_, greatest_m)| greatest_m)),
            text(&piece.clamp),
            units.force(piece.pull_n),
            piece
                .allowed_n
                .map_or_else(String::new, |allowed_n| units.force(allowed_n)),
            verify.join("; "),
        ]
    };
    let list = study::cut_list(input.study);
    written(head, list.pieces.iter().map(record).collect())
}
