//! Sections and the site in 3-D, worked on as a user does.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use super::folder::Folder;
use super::window_canvas::Window;
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT, Queryable};
use rafterglow::site::{ObjectId, Side};

fn described(window: &Window, label: &str) -> String {
    let node = window.harness.get_by_label(label);
    node.accesskit_node()
        .data()
        .description()
        .unwrap_or_default()
        .to_owned()
}

#[test]
fn a_section_line_is_drawn_with_typed_dimensions_and_can_be_undone() {
    let mut window = Window::on_sample("boat-hall");
    window.key(Key::S);
    let burner = window.site().scheme().runs[0].burner;
    let at = (burner.x + 3.0, burner.y - 4.0);
    window.click(at.0, at.1);
    window.point(at.0, at.1 + 3.0);
    window.text("9");
    window.key(Key::Enter);
    assert!(
        window.site().sections.is_empty(),
        "the side is still to be said"
    );
    window.point(at.0 - 2.0, at.1 + 2.0);
    window.text("4.5");
    window.key(Key::Enter);
    let line = window.site().sections[0].clone();
    assert_eq!(line.id.as_str(), "A");
    assert!((line.from.distance(line.to) - 9.0).abs() < 1e-9);
    assert!((line.depth.as_metres() - 4.5).abs() < 1e-9);
    assert_eq!(line.looks, Side::Left);
    window.harness.get_by_label("section line A");

    // It is picked; its section shows the heater with its envelope.
    window.key(Key::F6);
    let said = described(&window, "Section A-A");
    let run = window.site().scheme().runs[0].id.to_string();
    assert!(
        said.contains(&format!("keep-clear envelope of {run}")),
        "{said}"
    );

    window.key(Key::F5);
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert!(window.site().sections.is_empty());
}

#[test]
fn a_heater_is_dragged_in_the_section_and_the_measures_follow() {
    let mut window = Window::on_sample("boat-hall");
    window.key(Key::F6);
    let before = described(&window, "Section A-A");
    let node = window.harness.get_by_label("Section A-A").rect();
    let scheme = window.site().scheme();
    let run = scheme
        .runs
        .iter()
        .find(|run| before.starts_with(&format!("{},", run.id)));
    let run = run.unwrap().clone();
    let from = window.editor().section_point(&run.id).unwrap();
    assert!(node.contains(from));
    window.harness.hover_at(from);
    window.harness.run();
    window.harness.drag_at(from);
    window.harness.run();
    for step in [4.0, 12.0, 20.0] {
        window
            .harness
            .hover_at(from - eframe::egui::vec2(0.0, step));
        window.harness.step();
    }
    let during = described(&window, "Section A-A");
    assert_ne!(before, during, "live");
    window.release(from - eframe::egui::vec2(0.0, 20.0));
    let moved = window.site().scheme().run(&run.id).cloned().unwrap();
    assert!(run.tube_height < moved.tube_height);
    assert!((moved.burner - run.burner).length() < 1e-9);
    assert!(
        window
            .editor()
            .selection()
            .has(&ObjectId::Run(run.id.clone()))
    );
    window.key_with(Modifiers::COMMAND, Key::Z);
    let back = window.site().scheme().run(&run.id).cloned().unwrap();
    assert_eq!(back.tube_height, run.tube_height);
}

#[test]
fn the_arrows_walk_round_the_site_and_move_no_run() {
    let mut window = Window::on_sample("net-store");
    window.key(Key::PageDown);
    let runs = window.site().scheme().runs.clone();
    window.key(Key::F7);
    assert!(described(&window, "Site in 3-D").starts_with("seen from 215°, 28° above level"));
    window.key(Key::ArrowRight);
    window.key(Key::ArrowUp);
    assert!(described(&window, "Site in 3-D").starts_with("seen from 210°, 33° above level"));
    let away = |window: &Window| {
        let said = described(window, "Site in 3-D");
        let figure = said.split(", ").nth(2).unwrap();
        let figure = figure.split(" m away").next().unwrap();
        figure.parse::<f64>().unwrap()
    };
    let before = away(&window);
    window.key(Key::Plus);
    assert!(away(&window) < before);
    window.key(Key::Home);
    window.harness.run();
    assert!((away(&window) - before).abs() < 3.0);
    assert_eq!(window.site().scheme().runs, runs);
    // Beside the plan the arrows are the plan's again.
    window.key(Key::F9);
    window.harness.get_by_label("Plan");
    window.harness.get_by_label("Site in 3-D");
}

#[test]
fn the_switch_and_saving_are_reached_by_name() {
    let folder = Folder::new("window-views");
    let mut window = Window::on_sample("freight-shed");
    window.harness.get_by_label("Look at: Section").click();
    window.harness.run();
    window.harness.get_by_label("Section A-A");
    for (aspect, name, begins) in [
        ("Look at: Section", "cut.pdf", &b"%PDF"[..]),
        ("Look at: 3-D", "space.png", b"\x89PNG"),
    ] {
        if let Some(node) = window.harness.query_by_label(aspect) {
            node.click();
        }
        window.harness.run();
        window.key_with(Modifiers::COMMAND, Key::E);
        let file = folder.file(name);
        window
            .harness
            .get_by_role_and_label(Role::TextInput, "Path")
            .focus();
        window.harness.run();
        window
            .harness
            .key_press_modifiers(Modifiers::COMMAND, Key::A);
        window
            .harness
            .get_by_role_and_label(Role::TextInput, "Path")
            .type_text(&file.display().to_string());
        window.harness.run();
        window.key(Key::Enter);
        let bytes = std::fs::read(&file).unwrap();
        assert!(bytes.starts_with(begins), "{name}");
    }
}
