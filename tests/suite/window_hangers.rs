//! Single hangers in the window: dragged, moved by keys, added, removed, kept.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use super::window_canvas::Window;
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Modifiers, Vec2};
use egui_kittest::kittest::Queryable as _;
use rafterglow::site::{Hanging, LockedHanger, Run, RunId, Site};
use rafterglow::study::RunStudy;
use std::sync::Arc;

fn studied(window: &Window, id: &RunId) -> Arc<RunStudy> {
    let study = window.editor().study().unwrap();
    Arc::clone(study.run(id).unwrap())
}

fn run(window: &Window, id: &RunId) -> Arc<Run> {
    Arc::clone(window.editor().committed().scheme().run(id).unwrap())
}

/// Where a hanger at a station is on the plan.
fn plan_at(study: &RunStudy, station_m: f64) -> (f64, f64) {
    let at = study.geometry.axis().point(station_m);
    (at.x, at.y)
}

/// Where the run crosses a member that nothing hangs from yet: station and member.
fn free_member(window: &Window, study: &RunStudy) -> (f64, String) {
    let all = window.editor().study().unwrap().considered(study);
    let taken: Vec<f64> = study
        .hanging
        .hangers
        .iter()
        .map(|it| it.at.station_m)
        .collect();
    let found = all
        .iter()
        .filter(|it| it.channel.is_none() && it.refused.is_none())
        .find(|it| taken.iter().all(|other| 0.5 < (other - it.station_m).abs()))
        .unwrap();
    (found.station_m, found.first.member.to_string())
}

fn kept(run: &Run) -> &[LockedHanger] {
    match &run.hanging {
        Hanging::Locked(hangers) => hangers,
        Hanging::Solved => panic!("its hangers are not kept"),
    }
}

/// The freight shed with a run picked and in view that passes a member without a hanger.
fn picked() -> (Window, RunId, Site) {
    let mut window = Window::on_sample("freight-shed");
    window.key(Key::PageDown);
    window.key_with(Modifiers::SHIFT, Key::Home);
    let id = window.editor().selection().run().unwrap().clone();
    let before = Site::clone(window.editor().committed());
    (window, id, before)
}

fn undo_all(window: &mut Window, before: &Site) {
    for _ in 0..20 {
        window.key_with(Modifiers::COMMAND, Key::Z);
    }
    assert_eq!(*window.editor().committed(), *before);
}

#[test]
fn a_hanger_is_dragged_to_another_joist_and_kept_there() {
    let (mut window, id, before) = picked();
    // Its last hanger away leaves a joist free.
    window.key_with(Modifiers::SHIFT, Key::H);
    window.key(Key::Delete);
    let study = studied(&window, &id);
    let (station, member) = free_member(&window, &study);
    let place = study.hanging.hangers.len() - 1;
    let from = plan_at(&study, study.hanging.hangers[place].at.station_m);
    let to = plan_at(&study, station);

    window.drag(from, to);
    // Shown, said and studied before the hand lets go.
    let shown = Arc::clone(window.site().scheme().run(&id).unwrap());
    assert_eq!(kept(&shown).last().unwrap().members[0].as_str(), member);
    assert_ne!(*run(&window, &id), *shown);
    let now = studied(&window, &id);
    assert_eq!(
        &*now.hanging.hangers[place].at.first.member,
        member.as_str()
    );
    assert!(now.hanging.hangers[place].load.load_n != study.hanging.hangers[place].load.load_n);

    window.drop(to.0, to.1);
    assert_eq!(*run(&window, &id), *shown);
    assert_eq!(window.editor().selection().hanger(), Some((&id, place)));
    let step = format!("Undo “Move hanger {} of {id}", place + 1);
    window.harness.get_by_label_contains(&step);

    undo_all(&mut window, &before);
}

#[test]
fn escape_leaves_a_dragged_hanger_where_it_was() {
    let (mut window, id, before) = picked();
    let study = studied(&window, &id);
    let from = plan_at(&study, study.hanging.hangers[2].at.station_m);
    let to = (from.0 + 0.7, from.1);
    window.drag(from, to);
    assert!(matches!(
        window.site().scheme().run(&id).unwrap().hanging,
        Hanging::Locked(_)
    ));
    window.key(Key::Escape);
    window.drop(to.0, to.1);
    assert_eq!(*window.editor().committed(), before);
    assert_eq!(*window.site(), before);
    // Dragged and brought back is no step either.
    window.drag(from, to);
    window.point(from.0, from.1);
    window.drop(from.0, from.1);
    assert_eq!(*window.editor().committed(), before);
}

#[test]
fn kept_hangers_stay_through_the_runs_other_changes() {
    let (mut window, id, before) = picked();
    window.key(Key::K);
    let held = kept(&run(&window, &id)).to_vec();
    window.harness.get_by_label("kept where they are");
    window.harness.get_by_label("Solve again");
    // Lifted in the profile, moved on the plan: the hangers stay on their members.
    window.key(Key::ArrowUp);
    window.key(Key::ArrowRight);
    let moved = run(&window, &id);
    assert_ne!(moved.burner, before.scheme().run(&id).unwrap().burner);
    assert_eq!(kept(&moved), held);
    let members: Vec<String> = studied(&window, &id)
        .hanging
        .hangers
        .iter()
        .map(|it| it.at.first.member.to_string())
        .collect();
    let named: Vec<String> = held.iter().map(|it| it.members[0].to_string()).collect();
    assert_eq!(members, named);
    // Solved again.
    window.harness.get_by_label("Solve again").click_accesskit();
    window.harness.run();
    assert_eq!(run(&window, &id).hanging, Hanging::Solved);
    undo_all(&mut window, &before);
}

#[test]
fn hangers_are_picked_moved_added_and_removed_by_keys_alone() {
    let (mut window, id, before) = picked();
    let n_hangers = studied(&window, &id).hanging.hangers.len();
    window.key(Key::H);
    window.key(Key::H);
    assert_eq!(window.editor().selection().hanger(), Some((&id, 1)));
    let was = studied(&window, &id).hanging.hangers[1].at.station_m;
    // In small steps through every place, channels included; the run stays where it is.
    window.key_with(Modifiers::SHIFT, Key::ArrowRight);
    let now = studied(&window, &id).hanging.hangers[1].at.station_m;
    assert!(was < now && now < was + 0.12, "{was} to {now}");
    assert_eq!(
        run(&window, &id).burner,
        before.scheme().run(&id).unwrap().burner
    );
    window.key(Key::ArrowLeft);
    let back = studied(&window, &id).hanging.hangers[1].at.station_m;
    assert!((back - was).abs() < 1e-9);
    window.key(Key::Delete);
    assert_eq!(kept(&run(&window, &id)).len(), n_hangers - 1);
    assert!(window.editor().selection().run().is_some());
    window.key(Key::Insert);
    let again = studied(&window, &id);
    assert_eq!(again.hanging.hangers.len(), n_hangers);
    assert!((again.hanging.hangers[1].at.station_m - was).abs() < 1e-9);
    // Escape lets go of the hanger, then of the run.
    window.key(Key::Escape);
    assert!(window.editor().selection().hanger().is_none());
    assert!(window.editor().selection().run().is_some());
    undo_all(&mut window, &before);
}

#[test]
fn a_hanger_is_dragged_in_the_profile_and_worked_from_the_panel() {
    let (mut window, id, before) = picked();
    let last = studied(&window, &id).hanging.hangers.len();
    let name = format!("Hanger {last} of {id}");
    let rect = window.harness.get_by_label(&name).rect();
    let from = rect.center();
    window.harness.hover_at(from);
    window.harness.run();
    window.harness.drag_at(from);
    window.harness.run();
    for step in 1..=6_u8 {
        let by = Vec2::new(-5.0 * f32::from(step), 0.0);
        window.harness.hover_at(from + by);
        window.harness.step();
    }
    window.release(from + Vec2::new(-30.0, 0.0));
    let was = Arc::clone(before.scheme().run(&id).unwrap());
    let now = run(&window, &id);
    assert_eq!(now.burner, was.burner);
    assert_eq!(now.tube_height, was.tube_height);
    assert_eq!(kept(&now).len(), last);

    // The panel's rows pick and its buttons move.
    let row = "Hanger 2, ";
    let (station, _) = {
        let hanger = &studied(&window, &id).hanging.hangers[1];
        (hanger.at.station_m, hanger.at.first.member.clone())
    };
    window.harness.get_by_label_contains(row).click_accesskit();
    window.harness.run();
    assert_eq!(window.editor().selection().hanger(), Some((&id, 1)));
    window
        .harness
        .get_by_label("Toward exhaust")
        .click_accesskit();
    window.harness.run();
    assert!(station < kept(&run(&window, &id))[1].station.as_metres());
    window
        .harness
        .get_by_label("Remove hanger 2")
        .click_accesskit();
    window.harness.run();
    assert_eq!(kept(&run(&window, &id)).len(), last - 1);
    window
        .harness
        .get_by_label("Add a hanger")
        .click_accesskit();
    window.harness.run();
    assert_eq!(kept(&run(&window, &id)).len(), last);
    undo_all(&mut window, &before);
}

#[test]
fn a_suggested_shift_is_seen_taken_by_one_click_and_undone() {
    let mut window = Window::on_sample("freight-shed");
    let before = Site::clone(window.editor().committed());
    // The run that needs cross channels.
    let study = Arc::clone(window.editor().study().unwrap());
    let id = study
        .runs
        .iter()
        .find(|run| run.hanging.hangers.iter().any(|it| it.at.second.is_some()))
        .map(|run| run.run.id.clone())
        .unwrap();
    while window.editor().selection().run() != Some(&id) {
        window.key(Key::PageUp);
    }
    let cost = |window: &Window| studied(window, &id).hanging.cost.unwrap();
    let was = cost(&window);
    // Seen while the button has the focus, and gone when it loses it.
    let apply = |window: &Window| {
        let found = window.harness.query_all_by_label_contains("Apply: ").next();
        found.unwrap().focus();
    };
    apply(&window);
    window.harness.run();
    assert!(cost(&window) < was);
    assert_eq!(*window.editor().committed(), before);
    window.key(Key::Escape);
    assert_eq!(cost(&window), was);
    // Taken: one step, cheaper than before, and one step back.
    let apply = window.harness.query_all_by_label_contains("Apply: ").next();
    apply.unwrap().click_accesskit();
    window.harness.run();
    assert!(cost(&window) < was);
    let moved = run(&window, &id);
    assert_ne!(*moved, **before.scheme().run(&id).unwrap());
    let step = format!("Undo “Shift {id}");
    window.harness.get_by_label_contains(&step);
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(*window.editor().committed(), before);
}

#[test]
fn small_shifts_of_all_runs_are_sought_and_taken_as_one_step() {
    let mut window = Window::on_sample("freight-shed");
    let before = Site::clone(window.editor().committed());
    let channels = |window: &Window| {
        let study = window.editor().study().unwrap();
        let hangers = study.runs.iter().flat_map(|run| &run.hanging.hangers);
        hangers.filter(|it| it.at.second.is_some()).count()
    };
    let was = channels(&window);
    window
        .harness
        .get_by_role_and_label(Role::TextInput, "Shift each run at most")
        .focus();
    window.harness.run();
    window.key_with(Modifiers::COMMAND, Key::A);
    window.text("1.2 m");
    window.key(Key::Enter);
    window.harness.run();
    assert_eq!(*window.editor().committed(), before);
    window.harness.get_by_label("Shift 1 run").click_accesskit();
    window.harness.run();
    assert!(channels(&window) < was);
    window.harness.get_by_label_contains("Undo “Shift 1 run");
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(*window.editor().committed(), before);
}
