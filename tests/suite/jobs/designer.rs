//! A designer takes a bare building to a plan set.

use super::desk::{Desk, folder, words_of};
use eframe::egui::Key;
use rafterglow::findings::Severity;
use rafterglow::geometry::DVec2;
use rafterglow::hanging::{Kind, Status};
use rafterglow::site::{Allowance, MemberKind, ObjectId, Site};
use rafterglow::units::{Force, UnitSystem};

#[test]
fn from_the_size_of_a_building_to_its_plan_set() {
    let mut desk = Desk::new();
    building(&mut desk);
    joists(&mut desk);
    rack(&mut desk);
    run(&mut desk);
    raised_until_clear(&mut desk);
    units_there_and_back(&mut desk);
    papers(&mut desk);
}

fn building(desk: &mut Desk) {
    assert!(desk.has("An empty site"));
    desk.fill("Width, east", "36");
    desk.fill("Depth, north", "24 m");
    desk.fill("Eave height", "8.2 m");
    desk.click("Add this bay");
    assert!(!desk.has("An empty site"));
    let bay = &desk.site().bays[0];
    assert_eq!(bay.outline[2], DVec2::new(36.0, 24.0));
    assert_eq!(bay.eave.as_metres(), 8.2);

    desk.enter("Shell");
    desk.fill("Numbered", "4 x 9 m");
    desk.fill("Lettered", "2 x 12 m");
    desk.fill("Name", "Net loft");
    let site = desk.site();
    let lines: Vec<&str> = site.grid.iter().map(|line| line.id.as_str()).collect();
    assert_eq!(lines.len(), 8);
    assert!(["1", "5", "A", "C"].iter().all(|id| lines.contains(id)));
    assert_eq!(site.name, "Net loft");
}

fn joists(desk: &mut Desk) {
    desk.enter("Steel");
    desk.click("Lay framing");
    desk.fill("Spacing", "1.8 m");
    desk.fill("Depth", "600 mm");
    desk.fill("First panel", "1.2 m");
    desk.fill("Panel spacing", "1.2 m");
    desk.fill("At panel point", "900 N");
    desk.fill("Off panel", "445 N");
    // One stroke along a joist, three spacings in.
    desk.draw((5.4, 3.0), (5.4, 20.0));
    let framing = desk.site().framings[0].clone();
    assert_eq!(framing.kind, MemberKind::OpenWebJoist);
    assert_eq!(framing.bearing.as_degrees(), 0.0);
    assert_eq!(framing.spacing.as_metres(), 1.8);
    let panels = framing.panels.expect("joists have panel points");
    assert_eq!(panels.first.as_metres(), 1.2);
    assert_eq!(panels.spacing.as_metres(), 1.2);
    let at_point = Allowance::Known(Force::newtons(900.0));
    assert_eq!(framing.allowed_at_point, at_point);
    let off_panel = Allowance::Known(Force::newtons(445.0));
    assert_eq!(framing.allowed_off_panel, off_panel);
    // Line B carries them in the middle; A and C, along the walls, name their ends.
    let lines: Vec<&str> = framing.bears_on.iter().map(|id| id.as_str()).collect();
    assert_eq!(lines, ["A", "B", "C"]);

    // A hand that draws is not exact; the number is.
    desk.fill("First at", "1.8 m");
    assert_eq!(desk.site().framings[0].first.as_metres(), 1.8);
    // As many as fit puts none into the east wall, where there is none.
    let study = desk.editor().study().expect("the study is there");
    assert_eq!(study.structure.members.len(), 2 * 19);
}

fn rack(desk: &mut Desk) {
    desk.enter("Obstructions");
    desk.click("Draw an obstruction");
    desk.draw((6.0, 12.8), (18.0, 15.0));
    desk.fill("Name", "net rack");
    desk.fill("Top of load", "4.4 m");
    let rack = &desk.site().obstructions[0];
    assert_eq!(rack.name, "net rack");
    assert_eq!(rack.top.as_metres(), 4.4);
}

fn run(desk: &mut Desk) {
    desk.enter("Runs");
    desk.click("Place a run");
    desk.click_plan(7.0, 14.4);
    desk.click_plan(12.0, 14.4);
    assert!(desk.is_picked(&ObjectId::Run("R1".into())));
    desk.key(Key::Escape);
    assert_eq!(desk.run("R1").bearing.as_degrees(), 90.0);
    // It is solved at once. Clicked under a joist, it was drawn back so far that its
    // first hanger comes under that joist.
    let run = desk.studied("R1");
    assert_eq!(run.hanging.status, Status::Solved);
    assert_eq!(run.hanging.hangers[0].at.kind, Kind::Panel);
    assert!(desk.run("R1").burner.x < 7.2 - 0.1);
    // 300 mm back, and under the second panel points beyond line B.
    desk.fill("From 2", "-2.1 m");
    desk.fill("From B", "2.4 m");
    let burner = desk.run("R1").burner;
    assert!((burner - DVec2::new(6.9, 14.4)).length() < 1e-9);
    let run = desk.studied("R1");
    assert_eq!(run.hanging.status, Status::Solved);
    assert!(3 <= run.hanging.hangers.len());
    for hanger in &run.hanging.hangers {
        assert_eq!(hanger.at.kind, Kind::Panel);
        assert!(hanger.at.first.member.ends_with("/BC"));
        assert_eq!(hanger.at.first.place.panel_point(), Some(2));
    }
    assert!(desk.has("exact, cheapest"));
}

fn raised_until_clear(desk: &mut Desk) {
    let breaches = |desk: &Desk| desk.editor().count_findings(Severity::Breach);
    assert!(0 < breaches(desk), "a low run is too near the rack");
    let mut height_m = desk.run("R1").tube_height.as_metres();
    while 0 < breaches(desk) {
        height_m += 0.1;
        assert!(height_m < 7.2, "it must come clear below the joists");
        desk.fill("Tube height", &format!("{height_m:.1} m"));
    }
    assert!((desk.run("R1").tube_height.as_metres() - height_m).abs() < 0.05);
    assert_eq!(desk.studied("R1").hanging.status, Status::Solved);
}

fn units_there_and_back(desk: &mut Desk) {
    let before = Site::clone(desk.site());
    desk.click("Units: ft-in");
    assert_eq!(desk.site().units, UnitSystem::FeetInches);
    assert!(desk.value("Tube height").contains('\''));
    desk.click("Units: m");
    assert_eq!(*desk.site(), before);
}

fn papers(desk: &mut Desk) {
    let folder = folder("designer");
    desk.write_set(folder.path(), "2031-03-02");
    assert_eq!(
        folder.names(),
        [
            "channel-cutting-plan.csv",
            "channel-list.csv",
            "cut-list.csv",
            "findings.csv",
            "hanging-schedule.csv",
            "loads-table.csv",
            "plan-set.pdf",
            "survey-checklist.csv"
        ]
    );
    let words = words_of(&folder.file("plan-set.pdf"));
    assert!(words.contains("NOT FOR CONSTRUCTION"), "{words}");
    assert!(words.contains("2031-03-02"), "{words}");
    // Each hanger's line of the schedule has its suspension to the millimetre.
    for (k, hanger) in desk.studied("R1").hanging.hangers.iter().enumerate() {
        let id = format!("R1.{}", k + 1);
        let suspension = format!("{:.0}", hanger.at.suspension_m * 1000.0);
        let is_said = words.lines().any(|line| {
            let mut cells = line.split_whitespace();
            cells.next() == Some(id.as_str()) && cells.any(|cell| cell == suspension)
        });
        assert!(is_said, "{id} of {suspension} mm in:\n{words}");
    }
}
