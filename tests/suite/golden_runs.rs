//! Three runs worked by hand: the tables of `tests/golden-runs.md` against the program.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use rafterglow::site::RunId;
use rafterglow::store::{embedded_catalogue, samples::SAMPLES};
use rafterglow::study::study;
use std::sync::Arc;

/// One row of a table in the document.
struct Row {
    member: String,
    panel_point: Option<usize>,
    station_m: f64,
    attach_m: f64,
    suspension_m: f64,
    reaction_n: f64,
}

/// The table and the posted stacking height below a heading.
fn worked(heading: &str) -> (Vec<Row>, f64) {
    let document = include_str!("../golden-runs.md");
    let chapter = document
        .split("\n## ")
        .find(|chapter| chapter.starts_with(heading))
        .unwrap();
    let rows = chapter
        .lines()
        .filter(|line| line.starts_with("| ") && !line.contains("member"))
        .map(|line| {
            let cells: Vec<&str> = line.split('|').map(str::trim).collect();
            Row {
                member: cells[2].to_owned(),
                panel_point: cells[3].parse().ok(),
                station_m: cells[4].parse().unwrap(),
                attach_m: cells[5].parse().unwrap(),
                suspension_m: cells[6].parse().unwrap(),
                reaction_n: cells[7].parse().unwrap(),
            }
        })
        .collect();
    let posted = chapter
        .split("posted ")
        .nth(1)
        .unwrap()
        .split(' ')
        .next()
        .unwrap();
    (rows, posted.parse().unwrap())
}

fn check(sample: &str, heading: &str, cost: u64) {
    let known = SAMPLES.iter().find(|known| known.name == sample).unwrap();
    let study = study(
        &Arc::new(known.open().unwrap()),
        &Arc::new(embedded_catalogue()),
    );
    let run = study.run(&RunId::new("R1")).unwrap();
    let (rows, posted) = worked(heading);
    assert!(rows.len() >= 4);
    assert_eq!(run.hanging.hangers.len(), rows.len());
    for (hanger, row) in run.hanging.hangers.iter().zip(&rows) {
        let at = &hanger.at;
        assert_eq!(at.members().collect::<Vec<_>>(), [row.member.as_str()]);
        assert_eq!(at.first.place.panel_point(), row.panel_point);
        assert!(
            (at.station_m - row.station_m).abs() < 1e-3,
            "{} station {}",
            row.member,
            at.station_m
        );
        assert!(
            (at.attach.z - row.attach_m).abs() < 1e-3,
            "{} attach {}",
            row.member,
            at.attach.z
        );
        assert!(
            (at.suspension_m - row.suspension_m).abs() < 1e-3,
            "{} suspension {}",
            row.member,
            at.suspension_m
        );
        assert!(
            (hanger.load.load_n - row.reaction_n).abs() < 1.0,
            "{} load {}",
            row.member,
            hanger.load.load_n
        );
    }
    assert_eq!(run.hanging.cost, Some(cost));
    assert!((run.clearance.stacking.posted.as_metres() - posted).abs() < 1e-9);
}

#[test]
fn freight_shed_r1_is_as_worked_by_hand() {
    check("freight-shed", "Freight shed, R1", 7_000);
}

#[test]
fn boat_hall_r1_is_as_worked_by_hand() {
    check("boat-hall", "Boat hall, R1", 4_000);
}

#[test]
fn net_store_r1_is_as_worked_by_hand() {
    check("net-store", "Net store, R1", 4_000);
}
