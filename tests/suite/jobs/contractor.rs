//! A contractor checks hanging points against the joists that are really there.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use super::desk::{Desk, folder};
use rafterglow::editor::Command;
use rafterglow::hanging::{Kind, Status};
use rafterglow::site::{Hanging, Site};

/// How far a joist was found east of its place, and above it, m.
const MOVED_M: f64 = 0.05;
const RAISED_M: f64 = 0.04;

#[test]
fn from_a_measured_joist_to_the_cutting_list() {
    let mut desk = Desk::with_sample("freight-shed");
    desk.enter("Runs");
    desk.pick(&["R1"]);
    measured(&mut desk);
    kept(&mut desk);
    saved_and_opened(&mut desk);
    schedule(&mut desk);
}

/// A joist is not where the drawing says: its hanger follows.
fn measured(desk: &mut Desk) {
    let before = desk.studied("R1").hanging.hangers.clone();
    let member = before[1].at.first.member.to_string();
    assert_eq!(before[1].at.kind, Kind::Panel);
    let joist = member.split('/').next().unwrap().to_owned();

    desk.enter("Steel");
    desk.fill(&format!("measured position of {joist}"), "by 50 mm");
    desk.fill(&format!("measured height of {joist}"), "by 40 mm");
    assert_eq!(desk.site().framings[0].as_built.len(), 1);

    let after = desk.studied("R1").hanging.hangers.clone();
    assert_eq!(after.len(), before.len());
    for (k, (before, after)) in before.iter().zip(&after).enumerate() {
        assert_eq!(before.at.first.member, after.at.first.member);
        let moved_m = after.at.station_m - before.at.station_m;
        let longer_m = after.at.suspension_m - before.at.suspension_m;
        let raised_m = after.at.attach.z - before.at.attach.z;
        if k == 1 {
            // The run points east, and falls 4 mm a metre.
            assert!((moved_m - MOVED_M).abs() < 1e-6, "{moved_m}");
            assert!((raised_m - RAISED_M).abs() < 1e-9, "{raised_m}");
            let fall_m = 0.004 * MOVED_M;
            assert!((longer_m - RAISED_M - fall_m).abs() < 1e-4, "{longer_m}");
        } else {
            assert_eq!((moved_m, longer_m, raised_m), (0.0, 0.0, 0.0));
        }
    }
}

/// Hangers that are bought already stay where they are.
fn kept(desk: &mut Desk) {
    let is_locked = |desk: &Desk| matches!(desk.run("R1").hanging, Hanging::Locked(_));
    desk.enter("Runs");
    desk.pick(&["R1"]);
    let chosen = desk.studied("R1").hanging.hangers.clone();
    desk.click("Lock or free the hangers");
    assert!(is_locked(desk));
    assert_eq!(desk.studied("R1").hanging.status, Status::Locked);
    assert_eq!(desk.studied("R1").hanging.hangers, chosen);
    assert!(desk.has("kept where they are"));
    desk.click_button("Undo “");
    assert!(!is_locked(desk));
    desk.click_button("Redo “");
    assert!(is_locked(desk));

    // Three steps back the joist is as drawn; three forward it is as measured.
    for _ in 0..3 {
        desk.click_button("Undo “");
    }
    let drawn_m = desk.studied("R1").hanging.hangers[1].at.suspension_m;
    assert!((chosen[1].at.suspension_m - drawn_m - RAISED_M).abs() < 1e-3);
    for _ in 0..3 {
        desk.click_button("Redo “");
    }
    assert!(is_locked(desk));
    assert_eq!(desk.studied("R1").hanging.hangers, chosen);

    // Measured again: what is kept stays at its station and is cut longer.
    desk.enter("Steel");
    let joist = chosen[1].at.first.member.split('/').next().unwrap();
    desk.fill(&format!("measured height of {joist}"), "by 60 mm");
    let measured = desk.studied("R1");
    assert_eq!(measured.hanging.status, Status::Locked);
    let (before, after) = (&chosen[1].at, &measured.hanging.hangers[1].at);
    assert_eq!(after.station_m, before.station_m);
    let longer_m = after.suspension_m - before.suspension_m;
    assert!((longer_m - (0.06 - RAISED_M)).abs() < 1e-4, "{longer_m}");
}

fn saved_and_opened(desk: &mut Desk) {
    let folder = folder("contractor-site");
    let path = folder.file("measured.ron");
    let before = Site::clone(desk.site());
    let hangers = desk.studied("R1").hanging.hangers.clone();
    desk.press(Command::Save);
    desk.type_path(&path);
    desk.press(Command::New);
    assert!(desk.has("An empty site"));
    desk.press(Command::Open);
    desk.type_path(&path);
    assert_eq!(*desk.site(), before);
    assert_eq!(desk.editor().title(), "measured - Rafterglow");
    let reopened = desk.studied("R1");
    assert_eq!(reopened.hanging.status, Status::Locked);
    assert_eq!(reopened.hanging.hangers, hangers);
}

fn schedule(desk: &mut Desk) {
    let folder = folder("contractor-papers");
    desk.enter("Sheets");
    desk.click("PDF");
    desk.write_set(folder.path(), "2031-04-11");
    assert_eq!(
        folder.names(),
        [
            "channel-cutting-plan.csv",
            "channel-list.csv",
            "cut-list.csv",
            "findings.csv",
            "hanging-schedule.csv",
            "loads-table.csv",
            "survey-checklist.csv"
        ]
    );

    let mut reader = csv::Reader::from_path(folder.file("hanging-schedule.csv")).unwrap();
    let head = reader.headers().unwrap().clone();
    let records: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let study = desk.editor().study().unwrap();
    assert_eq!(records.len(), study.totals.n_hangers());
    let hanging = &desk.studied("R1").hanging;
    let of_run: Vec<_> = records.iter().filter(|it| &it[0] == "R1").collect();
    assert_eq!(of_run.len(), hanging.hangers.len());
    for (k, (record, hanger)) in of_run.iter().zip(&hanging.hangers).enumerate() {
        let cell = |heading: &str| {
            let column = head.iter().position(|it| it == heading);
            &record[column.unwrap_or_else(|| panic!("no column “{heading}” in {head:?}"))]
        };
        assert_eq!(cell("hanger"), format!("R1.{}", k + 1));
        assert_eq!(cell("members"), &*hanger.at.first.member);
        assert_eq!(cell("station (m)"), format!("{:.3}", hanger.at.station_m));
        let suspension = format!("{:.0}", hanger.at.suspension_m * 1000.0);
        assert_eq!(cell("suspension (mm)"), suspension);
        assert_eq!(cell("load level (N)"), format!("{:.1}", hanger.load.load_n));
        let remark = if k == 1 { "member as built" } else { "" };
        assert_eq!(cell("remark"), remark);
    }
}
