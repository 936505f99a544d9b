//! Doors and kinds of obstructions in the window: drawn, changed, told of.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use super::window_canvas::Window;
use eframe::egui::Event;
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use egui_kittest::kittest::Queryable;
use rafterglow::editor::{Stage, ToolKind};
use rafterglow::findings::Subject;
use rafterglow::geometry::DVec2;
use rafterglow::site::{Combustibility, Exhaust, Footprint, ObjectId, ObstructionKind, Site};
use rafterglow::store;
use rafterglow::units::Length;
use std::sync::Arc;

/// The freight shed, its first dock door on a track that is lifted higher.
fn lifted_track() -> Site {
    let path = format!(
        "{}/sample-sites/freight-shed.ron",
        env!("CARGO_MANIFEST_DIR")
    );
    let mut site = store::open(path.as_ref()).unwrap();
    let door = Arc::make_mut(&mut site.openings[0]);
    door.door.track_height = Some(Length::metres(1.6));
    site
}

/// Whether a breach names the first door and the first run.
fn names_door(window: &Window) -> Option<String> {
    let about = [Subject::Run("R1".into()), Subject::Opening("D1".into())];
    let mut findings = window.editor().findings().iter();
    findings
        .find(|it| {
            it.rule == "combustible-inside-keep-clear"
                && about.iter().all(|subject| it.subjects.contains(subject))
        })
        .map(|it| it.text_in(window.site().units))
}

#[test]
fn a_run_dragged_over_an_open_door_is_told_so_until_it_is_undone() {
    let mut window = Window::on(lifted_track());
    assert_eq!(names_door(&window), None);
    let run = window.site().scheme().runs[0].clone();
    let on = run.burner + DVec2::new(3.0, 0.0);
    window.click(on.x, on.y);
    // Its tube over the middle of the dock door's open leaf.
    window.drag_and_drop((on.x, on.y), (on.x + 3.0, 2.2));
    assert_ne!(window.site().scheme().runs[0].burner, run.burner);
    let told = names_door(&window).unwrap();
    assert!(told.contains("open dock door D1"), "{told}");
    window.key_with(eframe::egui::Modifiers::COMMAND, Key::Z);
    assert_eq!(window.site().scheme().runs[0], run);
    assert_eq!(names_door(&window), None);
}

/// Types into the last field of a name: of two forms, the picked object's.
fn type_last(window: &mut Window, name: &str, text: &str) {
    let fields = window
        .harness
        .query_all_by_role_and_label(Role::TextInput, name);
    fields.last().unwrap().focus();
    window.harness.run();
    window.harness.event(Event::Text(text.to_owned()));
    window.harness.run();
    window.key(Key::Enter);
}

/// Chooses a position of a switch: of two forms, the picked object's.
fn switch_last(window: &mut Window, position: &str) {
    let positions = window
        .harness
        .query_all_by_role_and_label(Role::RadioButton, position);
    positions.last().unwrap().click();
    window.harness.run();
}

/// Chooses from the last list of a name.
fn choose_last(window: &mut Window, name: &str, option: &str) {
    let lists = window
        .harness
        .query_all_by_role_and_label(Role::ComboBox, name);
    lists.last().unwrap().click();
    window.harness.run();
    let options = window
        .harness
        .query_all_by_role_and_label(Role::Button, option);
    options.last().unwrap().click();
    window.harness.run();
}

/// Picks an object on the plan by its name.
fn pick(window: &mut Window, name: &str) {
    window.harness.get_by_label(name).click();
    window.harness.run();
}

#[test]
fn how_a_door_moves_is_entered_for_its_kind() {
    let mut window = Window::on_sample("freight-shed");
    window.key_with(eframe::egui::Modifiers::COMMAND, Key::Num1);
    pick(&mut window, "opening D1");
    type_last(&mut window, "Track above head", "0.55");
    switch_last(&mut window, "Leaf burns: no");
    let door = window.site().openings[0].door.clone();
    assert_eq!(door.track_height, Some(Length::metres(0.55)));
    assert_eq!(door.burns, Combustibility::NonCombustible);
    choose_last(&mut window, "Kind", "swing door");
    assert_eq!(window.site().openings[0].door.track_height, None);
    switch_last(&mut window, "Hinged at: near jamb");
    switch_last(&mut window, "Swings: outside");
    let door = window.site().openings[0].door.clone();
    assert_eq!(door.leaves, Some(rafterglow::site::Leaves::Near));
    assert_eq!(door.side, rafterglow::site::DoorSide::Outside);
    window.harness.check_accessibility();
}

#[test]
fn a_duct_is_drawn_along_its_middle_and_falls_as_typed() {
    let mut window = Window::on_sample("freight-shed");
    window.key_with(eframe::egui::Modifiers::COMMAND, Key::Num3);
    window.key(Key::O);
    assert_eq!(window.editor().tool(), ToolKind::Obstruction);
    choose_last(&mut window, "Kind of the next obstruction", "duct");
    type_last(
        &mut window,
        "Bottom at end of the next obstruction",
        "4.7 m",
    );
    let n_before = window.site().obstructions.len();
    window.click(20.3, 30.1);
    window.click(28.3, 30.1);
    window.key(Key::Enter);
    let duct = window.site().obstructions[n_before].clone();
    assert_eq!(duct.kind, ObstructionKind::Duct);
    assert!(matches!(&duct.footprint, Footprint::Line { points, .. } if points.len() == 2));
    assert_eq!(duct.lowest(), Length::metres(4.7));
    window.harness.check_accessibility();
}

#[test]
fn a_bay_says_what_it_is_used_for_and_a_run_where_its_exhaust_goes() {
    let mut window = Window::on_sample("freight-shed");
    window.key_with(eframe::egui::Modifiers::COMMAND, Key::Num1);
    // On the plan everything lies over it; its row in the list does not.
    let row = window.harness.get_by(|node| {
        node.role() == Role::ListBoxOption
            && node.label().is_some_and(|label| label.starts_with("B1 "))
    });
    row.click();
    window.harness.run();
    choose_last(&mut window, "Used as", "garage for gas-fuelled vehicles");
    let rule = "heater-over-gas-vehicles";
    let told = |window: &Window| window.editor().findings().iter().any(|it| it.rule == rule);
    assert!(told(&window));
    window.key_with(eframe::egui::Modifiers::COMMAND, Key::Z);
    assert!(!told(&window));
    window.key_with(eframe::egui::Modifiers::COMMAND, Key::Num4);
    assert_eq!(window.editor().stage(), Stage::Runs);
    window.key(Key::PageDown);
    let id = window.editor().selection().single().cloned();
    assert!(matches!(id, Some(ObjectId::Run(_))));
    switch_last(&mut window, "Exhaust goes: into the hall");
    assert_eq!(window.site().scheme().runs[0].exhaust, Exhaust::Unvented);
}

#[test]
fn a_hole_is_cut_into_what_is_drawn_and_filled_again() {
    let mut window = Window::on_sample("freight-shed");
    let before = window.site().clone();
    window.key_with(eframe::egui::Modifiers::COMMAND, Key::Num3);
    window.key(Key::O);
    switch_last(&mut window, "Drawn as: hole");
    // The sorting floor: an area of goods that nothing else lies on.
    let goods = window
        .site()
        .obstructions
        .iter()
        .find(|it| it.name.contains("sorting floor"))
        .unwrap()
        .clone();
    let Footprint::Area { outline, .. } = &goods.footprint else {
        panic!("{goods:?}");
    };
    let middle = outline.iter().sum::<DVec2>() / 4.0;
    window.drag_and_drop(
        (middle.x - 1.0, middle.y - 1.0),
        (middle.x + 1.0, middle.y + 1.0),
    );
    let holes = |window: &Window| {
        let cut = window
            .site()
            .obstructions
            .iter()
            .find(|it| it.id == goods.id);
        match &cut.unwrap().footprint {
            Footprint::Area { holes, .. } => holes.len(),
            Footprint::Line { .. } => 0,
        }
    };
    assert_eq!(holes(&window), 1);
    assert_eq!(window.site().obstructions.len(), before.obstructions.len());
    // Where nothing is drawn nothing is cut, and it is said why.
    window.drag_and_drop((-9.0, -9.0), (-8.0, -8.0));
    let told = window
        .harness
        .query_all_by_label_contains("nothing was cut");
    assert!(0 < told.count());

    window.key(Key::Escape);
    window.key(Key::Escape);
    window.click(middle.x - 2.5, middle.y - 1.8);
    assert_eq!(
        window.editor().selection().single(),
        Some(&ObjectId::Obstruction(goods.id.clone()))
    );
    pick(&mut window, "Fill 1 hole");
    assert_eq!(holes(&window), 0);
    window.key_with(eframe::egui::Modifiers::COMMAND, Key::Z);
    window.key_with(eframe::egui::Modifiers::COMMAND, Key::Z);
    assert_eq!(*window.site(), before);
}
