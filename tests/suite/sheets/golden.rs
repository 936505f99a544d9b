//! Golden files: what the plan set of a small shed says, as text whose changes are read
//! like code. `UPDATE=1 cargo test` writes them anew.

use std::fmt::Write as _;
use std::path::PathBuf;

use rafterglow::sheets::{Mark, Sheet};
use rafterglow::units::UnitSystem;

use super::sites::Set;

fn check(name: &str, found: &str) {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("tests/expected")
        .join(name);
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(&path, found).unwrap();
        return;
    }
    let expected = std::fs::read_to_string(&path).unwrap_or_default();
    let first = expected
        .lines()
        .zip(found.lines())
        .position(|(a, b)| a != b);
    assert!(
        expected == found,
        "{} differs from line {:?} on; UPDATE=1 writes it anew",
        path.display(),
        first.map(|line| line + 1)
    );
}

/// What each text of a sheet says, about what, and where, to the tenth of a millimetre.
fn listed(sheet: &Sheet) -> String {
    let mut list = format!("# {} “{}”\n", sheet.id, sheet.title);
    for mark in &sheet.marks {
        for text in Mark::texts(mark) {
            let at = text.start();
            let turn = match text.turn_degrees() {
                0.0 => String::new(),
                degrees => format!(" turned {degrees:.0}"),
            };
            let subject = mark
                .subject
                .as_deref()
                .map_or_else(String::new, |it| format!(" [{it}]"));
            writeln!(
                list,
                "{:6.1} {:6.1}{turn}  {}{subject}",
                at.x,
                at.y,
                text.content()
            )
            .unwrap();
        }
    }
    list
}

#[test]
fn the_plan_and_the_schedule_of_a_small_shed_are_as_expected() {
    let sheets = Set::small().sheets();
    check("small-shed-plan.txt", &listed(&sheets[0]));
    check("small-shed-schedule.txt", &listed(&sheets[1]));
}

#[test]
fn the_schedule_as_values_is_as_expected() {
    let mut set = Set::small();
    check("small-shed-schedule.csv", &set.csv());
    set.change(|site| site.units = UnitSystem::FeetInches);
    check("small-shed-schedule-feet.csv", &set.csv());
}

#[test]
fn values_are_numbers_that_agree_with_the_study() {
    let set = Set::sample("freight-shed");
    let text = set.csv();
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let head = reader.headers().unwrap().clone();
    let column = |name: &str| head.iter().position(|it| it == name).unwrap();
    let hangers: Vec<_> = set
        .study()
        .runs
        .iter()
        .flat_map(|run| &run.hanging.hangers)
        .collect();
    let records: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    assert_eq!(records.len(), hangers.len());
    for (record, hanger) in records.iter().zip(hangers) {
        let number = |name: &str| record[column(name)].parse::<f64>().unwrap();
        assert!((number("station (m)") - hanger.at.station_m).abs() < 6e-4);
        assert!((number("suspension (mm)") - hanger.at.suspension_m * 1000.0).abs() < 0.51);
        assert!((number("load level (N)") - hanger.load.load_n).abs() < 0.051);
        assert!((number("load worst (N)") - hanger.cases.greatest_n()).abs() < 0.051);
        assert!((number("attach elevation (m)") - hanger.at.attach.z).abs() < 6e-4);
    }
}
