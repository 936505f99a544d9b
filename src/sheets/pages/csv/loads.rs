//! The loads table.

use super::{CsvError, Units, figures, number, written};
use crate::hanging::Capacity;
use crate::sheets::pages::datum::Axes;
use crate::sheets::pages::{PageInput, wording};
use crate::study;

/// The loads table: a line for each place, then for each member span, then for each bay.
///
/// # Errors
/// If the writer fails, which memory does not.
pub fn loads_table(input: &PageInput<'_>) -> Result<String, CsvError> {
    let units = Units::of(input.site.units);
    let Units { place, force, .. } = units;
    let axes = Axes::of(input.site);
    let head = vec![
        "sum over".to_owned(),
        "member span or bay".to_owned(),
        "place".to_owned(),
        "grid line 1".to_owned(),
        format!("offset 1 ({place})"),
        "grid line 2".to_owned(),
        format!("offset 2 ({place})"),
        "hangers".to_owned(),
        format!("from the span's start ({place})"),
        format!("load level ({force})"),
        format!("load worst ({force})"),
        format!("allowed ({force})"),
        "of allowed (%)".to_owned(),
        format!("area ({})", units.area),
        format!("spread ({})", units.spread),
        format!("roof may carry ({})", units.spread),
        "remark".to_owned(),
    ];
    let table = study::loads_table(input.study);
    let mut records = Vec::new();
    for it in &table.places {
        let [one, other] = axes.offsets(it.at).map(|offset| units.offset(offset));
        let names: Vec<String> = it
            .parts
            .iter()
            .map(|part| format!("{}.{}", part.run, part.number))
            .collect();
        let places: Vec<String> = it
            .parts
            .iter()
            .map(|part| units.place(part.position_m))
            .collect();
        let [allowed, share, remark] = judged(units, it.load_n, it.allowed);
        records.push(vec![
            "place".to_owned(),
            it.member.as_str().to_owned(),
            wording::place(it.place),
            one.0,
            one.1,
            other.0,
            other.1,
            names.join(" "),
            places.join(" "),
            units.force(it.load_n),
            units.force(it.worst_n),
            allowed,
            share,
            String::new(),
            String::new(),
            String::new(),
            remark,
        ]);
    }
    for it in &table.spans {
        let [allowed, share, remark] = judged(units, it.load_n, it.allowed);
        let mut record = vec![String::new(); head.len()];
        record[0] = "member span".to_owned();
        record[1] = it.member.as_str().to_owned();
        record[8] = it
            .centre_m
            .map_or_else(String::new, |centre_m| units.place(centre_m));
        record[9] = units.force(it.load_n);
        record[10] = units.force(it.worst_n);
        (record[11], record[12], record[16]) = (allowed, share, remark);
        records.push(record);
    }
    for it in &table.bays {
        let mut record = vec![String::new(); head.len()];
        record[0] = "bay".to_owned();
        record[1] = it.bay.as_str().to_owned();
        record[9] = units.force(it.load_n);
        record[13] = units.area(it.area_m2);
        record[14] = units.spread(it.spread());
        match it.collateral {
            Some(collateral) => {
                record[15] = units.spread(collateral);
                if collateral.as_pascals() > 0.0 {
                    record[12] = number(100.0 * (it.spread() / collateral), 1);
                }
            }
            None => record[16] = format!("allowance {}", figures::UNKNOWN_CAPACITY),
        }
        records.push(record);
    }
    written(head, records)
}

/// What is allowed, the percentage of it, and a remark where nobody has said.
fn judged(units: Units, load_n: f64, allowed: Capacity) -> [String; 3] {
    match allowed {
        Capacity::Known(allowed_n) => [
            units.force(allowed_n),
            if allowed_n > 0.0 {
                number(100.0 * load_n / allowed_n, 1)
            } else {
                String::new()
            },
            String::new(),
        ],
        Capacity::Unknown => [
            String::new(),
            String::new(),
            format!("capacity {}", figures::UNKNOWN_CAPACITY),
        ],
    }
}
