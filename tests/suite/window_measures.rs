//! The room on all sides of a run, findings shown in a section, and the list of section
//! lines, worked on as a user does.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use super::window_canvas::Window;
use eframe::egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use rafterglow::editor::Aspect;
use rafterglow::site::{ObjectId, Side};
use rafterglow::study::{rooms, worst_rooms};
use rafterglow::views::section::words;

#[test]
fn the_picked_run_tells_the_room_on_all_its_sides() {
    let mut window = Window::on_sample("freight-shed");
    window.key(Key::PageDown);
    let picked = window.editor().selection().run().unwrap().clone();
    let study = window.editor().study().unwrap().clone();
    let run = study.run(&picked).unwrap();
    let all = rooms(&study, run);
    let mut n_told = 0;
    for room in worst_rooms(&all).into_iter().flatten() {
        let to = words::thing(window.site(), &room.thing);
        let available = words::available(window.site().units, room);
        let figure = available.trim_end_matches(" m");
        let said = format!("{figure} to {to}, needs");
        window.harness.get_by_label_contains(&said);
        n_told += 1;
    }
    assert!(4 <= n_told, "{n_told}");
}

#[test]
fn a_finding_is_shown_in_the_section_that_one_looks_at() {
    let mut window = Window::on_sample("net-store");
    window.key(Key::F6);
    assert_eq!(window.editor().aspect(), Aspect::Section);
    let places: Vec<usize> = (0..window.editor().findings().len())
        .filter(|place| window.editor().findings()[*place].place.is_some())
        .collect();
    assert!(2 <= places.len());
    for place in places.into_iter().take(3) {
        let finding = window.editor().findings()[place].clone();
        window.key_with(Modifiers::NONE, Key::F8);
        assert_eq!(
            window.editor().aspect(),
            Aspect::Section,
            "{}",
            finding.rule
        );
    }
    // Whatever is shown last is of the run that is picked, cut where it hangs.
    let picked = window.editor().selection().run().cloned();
    if let Some(run) = picked {
        assert!(window.editor().section_point(&run).is_some(), "{run}");
    }
}

#[test]
fn section_lines_are_listed_turned_round_and_removed() {
    let mut window = Window::on_sample("boat-hall");
    window.key(Key::S);
    window.point(3.0, 2.0);
    window.click(3.0, 2.0);
    window.point(3.0, 6.0);
    window.text("9");
    window.key(Key::Enter);
    window.point(1.0, 4.0);
    window.text("4");
    window.key(Key::Enter);
    window.key(Key::Escape);
    let before = window.site().sections[0].clone();
    window.harness.get_by_label_contains("Sheets").click();
    window.harness.run();
    window.harness.get_by_label_contains("A looks west").click();
    window.harness.run();
    let id = ObjectId::SectionLine(before.id.clone());
    assert!(window.editor().selection().has(&id));
    window.harness.get_by_label("Look the other way").click();
    window.harness.run();
    let turned = window.site().sections[0].clone();
    assert_eq!((before.looks, turned.looks), (Side::Left, Side::Right));
    window.harness.get_by_label_contains("A looks east");
    window.harness.get_by_label("Remove").click();
    window.harness.run();
    assert!(window.site().sections.is_empty());
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.site().sections[0], turned);
}
