//! The as-built table, worked as a contractor works it: a figure, Enter, the next.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use eframe::egui::accesskit::Role;
use eframe::egui::{Key, vec2};
use egui_kittest::kittest::Queryable as _;
use egui_kittest::{Harness, Node};
use rafterglow::editor::theme::Theme;
use rafterglow::editor::{Command, Editor, Stage};
use rafterglow::site::{Framing, HeightAt, MeasuredAt, Site};
use rafterglow::store;
use rafterglow::units::{Length, UnitSystem};
use std::sync::Arc;

fn m(metres: f64) -> Length {
    Length::metres(metres)
}

fn window(site: Site) -> Harness<'static, Editor> {
    let catalogue = Arc::new(store::embedded_catalogue());
    let mut harness = Harness::builder()
        .with_size(vec2(1280.0, 800.0))
        // The figure is taken, studied, told under its row, and the next field is gone to.
        .with_max_steps(12)
        .with_context_setup(Theme::install)
        .build_ui_state(
            |ui, editor: &mut Editor| editor.show(ui),
            Editor::for_test(site, catalogue),
        );
    harness.run();
    press(&mut harness, Command::Enter(Stage::Steel));
    harness
}

fn freight_shed() -> Harness<'static, Editor> {
    window(store::samples::SAMPLES[0].open().unwrap())
}

fn press(harness: &mut Harness<'_, Editor>, command: Command) {
    let key = command.key().unwrap();
    harness.key_press_modifiers(key.modifiers, key.logical_key);
    harness.run();
}

fn field<'a>(harness: &'a Harness<'_, Editor>, name: &'a str) -> Node<'a> {
    harness.get_by_role_and_label(Role::TextInput, name)
}

fn type_into(harness: &mut Harness<'_, Editor>, name: &str, text: &str, leave: Key) {
    field(harness, name).focus();
    harness.run();
    field(harness, name).type_text(text);
    harness.run();
    harness.key_press(leave);
    harness.run();
}

fn framing(harness: &Harness<'_, Editor>) -> Arc<Framing> {
    Arc::clone(&harness.state().committed().framings[0])
}

/// Station and suspension of the first hanger of R1, and its member's number.
fn first_hanger(harness: &Harness<'_, Editor>) -> (f64, f64, usize) {
    let study = harness.state().study().unwrap();
    let at = &study.run(&"R1".into()).unwrap().hanging.hangers[0].at;
    let member = study.structure.member(&at.first.member).unwrap();
    (at.station_m, at.suspension_m, member.number)
}

/// Where a joist of the freight shed is drawn, from grid line 1.
fn drawn_m(number: usize) -> f64 {
    1.83 * f64::from(u32::try_from(number).unwrap())
}

#[test]
fn a_typed_position_moves_its_hanger_within_one_more_frame_and_is_undone() {
    let mut harness = freight_shed();
    let (station_m, suspension_m, joist) = first_hanger(&harness);
    let name = format!("measured position of J-{joist:02}");
    field(&harness, &name).focus();
    harness.run();
    field(&harness, &name).type_text(&format!("{:.3}", drawn_m(joist) + 0.02));
    harness.run();
    let before = Arc::clone(harness.state().study().unwrap());
    harness.key_press(Key::Enter);
    // The frame that takes the figure, and the one that shows what came of it.
    harness.step();
    harness.step();
    let after = Arc::clone(harness.state().study().unwrap());
    assert!(!Arc::ptr_eq(&before, &after));
    let (moved_m, ..) = first_hanger(&harness);
    assert!(
        (moved_m - station_m - 0.02).abs() < 1e-6,
        "{moved_m} {station_m}"
    );
    harness.run();
    let measured = framing(&harness).as_built[0].measured_at.clone();
    let from = "1".into();
    assert_eq!(measured.map(|it| it.from), Some(from));
    harness.get_by_label_contains("20 mm east, as high as drawn");
    harness.get_by_label_contains("R1.1 at");

    press(&mut harness, Command::Undo);
    let (back_m, back_suspension_m, _) = first_hanger(&harness);
    assert_eq!((back_m, back_suspension_m), (station_m, suspension_m));
    assert!(framing(&harness).as_built.is_empty());
}

#[test]
fn enter_goes_down_the_column_and_tab_along_the_row() {
    let mut harness = freight_shed();
    type_into(
        &mut harness,
        "measured position of J-01",
        "1.85",
        Key::Enter,
    );
    assert!(field(&harness, "measured position of J-02").is_focused());
    field(&harness, "measured position of J-02").type_text("3.7");
    harness.run();
    harness.key_press(Key::Tab);
    harness.run();
    assert!(field(&harness, "measured height of J-02").is_focused());
    field(&harness, "measured height of J-02").type_text("7.78");
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    assert!(field(&harness, "measured height of J-03").is_focused());
    let as_built = framing(&harness).as_built.clone();
    assert_eq!(as_built.len(), 2);
    let at = |distance: f64| {
        Some(MeasuredAt {
            from: "1".into(),
            distance: m(distance),
        })
    };
    assert_eq!(as_built[0].measured_at, at(1.85));
    assert_eq!(as_built[1].measured_at, at(3.7));
    let height = as_built[1].measured_height.as_ref().unwrap();
    assert_eq!((height.height, &height.at), (m(7.78), &HeightAt::LowEnd));
    harness.get_by_label_contains("40 mm east, 20 mm lower");
}

#[test]
fn what_cannot_be_is_told_under_its_row_and_a_measurement_is_taken_back() {
    let mut harness = freight_shed();
    type_into(&mut harness, "measured position of J-02", "3.7", Key::Enter);
    let known = framing(&harness);
    type_into(&mut harness, "measured position of J-03", "3.6", Key::Tab);
    harness.get_by_label_contains("at or before J-02");
    type_into(
        &mut harness,
        "measured position of J-04",
        "a hand",
        Key::Tab,
    );
    harness.get_by_label_contains("“a hand”");
    assert_eq!(framing(&harness), known);
    // Off by so much, where there is nothing to measure from.
    type_into(
        &mut harness,
        "measured position of J-05",
        "by -30 mm",
        Key::Tab,
    );
    assert_eq!(
        framing(&harness).as_built[1].moved,
        Length::millimetres(-30.0)
    );
    type_into(&mut harness, "measured position of J-05", "9.2", Key::Tab);
    assert_eq!(framing(&harness).as_built[1].moved, Length::ZERO);
    // An empty field, or the cross, takes it back.
    field(&harness, "measured position of J-05").focus();
    harness.run();
    harness.key_press(Key::Backspace);
    harness.run();
    harness.key_press(Key::Tab);
    harness.run();
    assert_eq!(framing(&harness), known);
    harness.get_by_label("J-02 is not there").click();
    harness.run();
    assert!(framing(&harness).as_built[0].missing);
    type_into(
        &mut harness,
        "note on J-02",
        "cut out for the crane",
        Key::Tab,
    );
    assert_eq!(framing(&harness).as_built[0].notes, "cut out for the crane");
    harness.get_by_label("J-02 is as drawn").click();
    harness.run();
    assert!(framing(&harness).as_built.is_empty());
}

#[test]
fn the_line_and_the_place_that_are_measured_from_are_chosen() {
    let mut site = store::samples::SAMPLES[0].open().unwrap();
    site.units = UnitSystem::FeetInches;
    let mut harness = window(site);
    harness.get_by_label("Positions measured from").click();
    harness.run();
    harness.get_by_label("east of grid line 2").click();
    harness.run();
    harness.get_by_label("Heights measured").click();
    harness.run();
    harness.get_by_label("from grid line B").click();
    harness.run();
    type_into(
        &mut harness,
        "Heights measured so far from the line",
        "3' 6",
        Key::Enter,
    );
    type_into(
        &mut harness,
        "measured position of J-07",
        "2' 8 3/4",
        Key::Enter,
    );
    type_into(&mut harness, "measured height of J-07", "26' 2", Key::Enter);
    let adjustment = framing(&harness).as_built[0].clone();
    assert_eq!(adjustment.member, 7);
    let measured = adjustment.measured_at.unwrap();
    assert_eq!(measured.from.as_str(), "2");
    assert!((measured.distance.as_inches() - 32.75).abs() < 1e-9);
    let height = adjustment.measured_height.unwrap();
    let HeightAt::FromLine { line, distance } = height.at else {
        panic!("{height:?}");
    };
    assert_eq!(line.as_str(), "B");
    assert!((distance.as_inches() - 42.0).abs() < 1e-9);
    harness.check_accessibility();
}
