//! Breaches in the window: named while a run is dragged, cured by a way out, or accepted
//! with a reason that is printed.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use super::window_canvas::Window;
use eframe::egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use rafterglow::findings::{Finding, Severity, Subject};
use rafterglow::geometry::DVec2;
use rafterglow::sheets::pages::{PageInput, plan_set};
use rafterglow::site::{OpeningKind, Run, Site};
use rafterglow::store;
use rafterglow::units::Length;
use std::sync::Arc;

/// The freight shed, its first door a sectional one whose track rises over the lintel.
fn with_sectional_door() -> Site {
    let mut site = freight_shed();
    let door = Arc::make_mut(&mut site.openings[0]);
    door.kind = OpeningKind::SectionalDoor;
    door.door.track_height = Some(Length::metres(1.6));
    site
}

fn freight_shed() -> Site {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-sites/freight-shed.ron");
    store::open(path.as_ref()).unwrap()
}

fn first_run(site: &mut Site) -> &mut Run {
    Arc::make_mut(&mut Arc::make_mut(&mut site.schemes[0]).runs[0])
}

/// The breach between the first run and the first door.
fn door_breach(window: &Window) -> Option<&Finding> {
    let about = [Subject::Run("R1".into()), Subject::Opening("D1".into())];
    let mut findings = window.editor().findings().iter();
    findings.find(|it| {
        it.severity == Severity::Breach && about.iter().all(|subject| it.subjects.contains(subject))
    })
}

fn focus_containing(window: &mut Window, label: &str) {
    let found = window.harness.query_all_by_label_contains(label).next();
    found.unwrap().focus();
    window.harness.run();
}

fn click_containing(window: &mut Window, label: &str) {
    let found = window.harness.query_all_by_label_contains(label).next();
    found.unwrap().click_accesskit();
    window.harness.run();
}

#[test]
fn a_run_dragged_under_an_open_sectional_door_finds_its_way_out() {
    let mut window = Window::on(with_sectional_door());
    assert_eq!(door_breach(&window), None);
    let at_first = window.site().scheme().runs[0].clone();
    let on = at_first.burner + DVec2::new(3.0, 0.0);
    window.click(on.x, on.y);
    window.drag_and_drop((on.x, on.y), (on.x + 3.0, 2.2));
    let dragged = Site::clone(window.editor().committed());
    let breach = door_breach(&window).unwrap();
    let told = breach.text_in(window.site().units);
    assert!(told.contains("sectional door D1"), "{told}");

    let n_before = window.editor().count_findings(Severity::Breach);

    // Asked for from the panel of the picked run.
    click_containing(&mut window, "Ways out of ");
    // A preview is seen everywhere and changes nothing.
    focus_containing(&mut window, "Apply: ");
    assert_eq!(door_breach(&window), None);
    assert_ne!(*window.site(), dragged);
    assert_eq!(*window.editor().committed(), dragged);
    window.harness.check_accessibility();
    // Escape leaves it, and the run stays picked with its ways out.
    window.key(Key::Escape);
    assert!(door_breach(&window).is_some());
    assert_eq!(*window.site(), dragged);

    click_containing(&mut window, "Apply: ");
    assert_eq!(door_breach(&window), None);
    assert_ne!(*window.editor().committed(), dragged);
    // Nothing else is broken for it.
    assert!(window.editor().count_findings(Severity::Breach) < n_before);
    window.harness.get_by_label_contains(", as offered");

    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(*window.editor().committed(), dragged);
    assert!(door_breach(&window).is_some());
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.site().scheme().runs[0], at_first);
}

#[test]
fn ways_out_are_asked_for_from_a_finding_and_say_what_stands_in_the_way() {
    let mut site = freight_shed();
    // Lower than its maker has it.
    first_run(&mut site).tube_height = Length::metres(3.0);
    let mut window = Window::on(site);
    assert!(window.editor().selection().run().is_none());
    click_containing(&mut window, "Ways out");
    assert_eq!(window.editor().selection().run(), Some(&"R1".into()));
    window.harness.get_by_label_contains("Apply: Raise R1 by ");
    window.harness.get_by_label_contains("No cure: ");
    // Let go, nothing is offered any more.
    window.key(Key::Escape);
    assert!(window.editor().selection().run().is_none());
    let offers = window.harness.query_all_by_label_contains("Apply: ");
    assert_eq!(offers.count(), 0);
}

#[test]
fn a_breach_is_accepted_with_a_reason_that_the_findings_sheet_prints() {
    let mut site = freight_shed();
    // Lower than its maker has it, over nothing that burns.
    first_run(&mut site).tube_height = Length::metres(3.0);
    let mut window = Window::on(site);
    let n_open = |window: &Window| window.editor().count_findings(Severity::Breach);
    let before = n_open(&window);
    assert!(0 < before);
    click_containing(&mut window, "Accept…");
    let field = window.harness.get_by_label("Reason for accepting");
    field.focus();
    window.harness.run();
    let reason = "fenced lane, the harbour's engineer agreed";
    window.text(reason);
    window.key(Key::Enter);
    assert_eq!(n_open(&window), before - 1);
    let accepted = window.editor().committed().acceptances.clone();
    assert_eq!(accepted.len(), 1);

    let editor = window.editor();
    let study = editor.study().unwrap();
    let input = PageInput {
        site: &study.site,
        catalogue: &study.catalogue,
        study,
        findings: editor.findings(),
        date: None,
    };
    let sheets = plan_set(&input);
    let printed: Vec<String> = sheets
        .iter()
        .filter(|sheet| sheet.id.contains("findings"))
        .flat_map(|sheet| sheet.texts().map(|(_, text)| text.content().to_owned()))
        .collect();
    let all = printed.join(" ");
    assert!(all.contains("the harbour's engineer"), "{all}");
}

#[test]
fn nothing_moves_under_the_pointer_when_a_way_out_cures_other_breaches_too() {
    let mut window = Window::on_sample("net-store");
    while window.editor().selection().run() != Some(&"R4".into()) {
        window.key(Key::PageUp);
    }
    // Too low, in another run, tilted too far: the last is asked about.
    window.harness.get_by_label("3 breaches");
    window
        .harness
        .get_by_label_contains("2.88 m, at least 3.00 m");
    window
        .harness
        .get_by_label_contains("Ways out of A tilt")
        .click_accesskit();
    window.harness.run();
    window.harness.run();
    let top = |window: &Window| {
        let apply = window
            .harness
            .query_all_by_label_contains("Apply: Tilt the reflector of R4")
            .next();
        apply.unwrap().rect().top()
    };
    let before = top(&window);
    let n_before = window.editor().count_findings(Severity::Breach);
    focus_containing(&mut window, "Apply: Tilt the reflector of R4");
    window.harness.run();
    assert!(window.editor().count_findings(Severity::Breach) < n_before);
    window.harness.get_by_label("3 breaches");
    assert_eq!(top(&window), before);
}
