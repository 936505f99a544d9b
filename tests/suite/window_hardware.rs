//! What suspensions are made of, chosen and read in the window.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use super::window_canvas::Window;
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Modifiers, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use rafterglow::catalogue::{Catalogue, SuspensionKind};
use rafterglow::editor::theme::Theme;
use rafterglow::editor::{Command, Editor, Stage};
use rafterglow::site::{RunId, Site};
use rafterglow::store::{embedded_catalogue, samples::SAMPLES};
use rafterglow::study::RunStudy;
use std::sync::Arc;

fn freight_shed() -> Site {
    let sample = SAMPLES.iter().find(|it| it.name == "freight-shed");
    sample.unwrap().open().unwrap()
}

fn window(site: Site, catalogue: Catalogue) -> Window {
    let mut harness = Harness::builder()
        .with_size(Vec2::new(1280.0, 800.0))
        .with_max_steps(12)
        .with_context_setup(Theme::install)
        .build_ui_state(
            |ui, editor: &mut Editor| editor.show(ui),
            Editor::for_test(site, Arc::new(catalogue)),
        );
    harness.run();
    Window { harness }
}

/// With the first hanger of a run picked.
fn on_first_hanger(site: Site, catalogue: Catalogue) -> (Window, RunId) {
    let mut window = window(site, catalogue);
    window.key(Key::PageDown);
    window.key(Key::H);
    let (id, place) = window.editor().selection().hanger().unwrap();
    assert_eq!(place, 0);
    let id = id.clone();
    (window, id)
}

fn choose(window: &mut Window, list: &str, option: &str) {
    let find = |window: &Window| {
        let mut found = window
            .harness
            .query_all_by_role_and_label(Role::Button, option);
        found.next().map(|node| node.click_accesskit())
    };
    // A list that was chosen from without the pointer stays open.
    if find(window).is_none() {
        let list = window.harness.get_by_role_and_label(Role::ComboBox, list);
        list.click_accesskit();
        window.harness.run();
        find(window).unwrap();
    }
    window.harness.run();
}

fn studied(window: &Window, id: &RunId) -> Arc<RunStudy> {
    Arc::clone(window.editor().study().unwrap().run(id).unwrap())
}

fn kinds(window: &Window) -> Vec<SuspensionKind> {
    let study = window.editor().study().unwrap();
    let first = |run: &Arc<RunStudy>| run.hardware.first().map(|it| it.legs[0].kind);
    study.runs.iter().filter_map(first).collect()
}

#[test]
fn the_sites_suspensions_are_chosen_with_its_steel_and_undone() {
    let mut window = window(freight_shed(), embedded_catalogue());
    let key = Command::Enter(Stage::Steel).key().unwrap();
    window.key_with(key.modifiers, key.logical_key);
    let before = Site::clone(window.editor().committed());
    choose(&mut window, "Suspensions", "threaded rod");
    let site = window.editor().committed();
    assert_eq!(site.conditions.suspension, SuspensionKind::Rod);
    let all = kinds(&window);
    assert!(!all.is_empty() && all.iter().all(|kind| *kind == SuspensionKind::Rod));
    window
        .harness
        .get_by_label_contains("Undo “Set suspensions”");
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(*window.editor().committed(), before);
}

#[test]
fn a_run_has_suspensions_of_its_own_and_gives_them_up_again() {
    let (mut window, id) = on_first_hanger(freight_shed(), embedded_catalogue());
    let before = Site::clone(window.editor().committed());
    let own = |window: &Window| {
        let site = window.editor().committed();
        site.scheme().run(&id).unwrap().suspension
    };
    choose(&mut window, "Suspension", "wire rope");
    assert_eq!(own(&window), Some(SuspensionKind::Rope));
    let n_ropes = kinds(&window)
        .iter()
        .filter(|kind| **kind == SuspensionKind::Rope)
        .count();
    assert_eq!(n_ropes, 1, "the other runs stay as they are");
    choose(&mut window, "Suspension", "as the site: chain");
    assert_eq!(own(&window), None);
    for _ in 0..2 {
        window.key_with(Modifiers::COMMAND, Key::Z);
    }
    assert_eq!(*window.editor().committed(), before);
}

#[test]
fn the_picked_hanger_says_what_it_is_made_of_and_what_it_carries() {
    let (mut window, id) = on_first_hanger(freight_shed(), embedded_catalogue());
    for place in 0..2 {
        let run = studied(&window, &id);
        let hanger = &run.hanging.hangers[place];
        let leg = &run.hardware[place].legs[0];
        let size = leg.size.as_ref().unwrap();
        let made = leg.made.as_ref().unwrap().as_ref().unwrap();
        let worst = hanger.cases.worst();
        let mm = |metres: f64| format!("{:.0} mm", metres * 1000.0);
        let governs = if hanger.least_suspension.growth_governs() {
            "growth governs"
        } else {
            "figure governs"
        };
        for said in [
            format!("{:.0} N level", hanger.cases.level_n),
            format!(
                "{:.0} N at worst: hanger {} ",
                worst.load_n,
                worst.by.unwrap() + 1
            ),
            format!(
                "{:.0} N level, {:.0} N at worst",
                hanger.suspensions[0].pull_n, leg.pull_n
            ),
            size.part.name.clone(),
            format!("{:.0} % of what it may carry", (size.used() * 100.0).ceil()),
            format!(
                "{}, {} links",
                mm(made.make_up.cut_m),
                made.make_up.links.unwrap()
            ),
            made.adjuster.as_ref().unwrap().part.name.clone(),
            format!(
                "in all {} to {}",
                mm(made.make_up.range_m.0),
                mm(made.make_up.range_m.1)
            ),
            run.hardware[place]
                .attachment
                .as_ref()
                .unwrap()
                .part
                .name
                .clone(),
            format!("{:.1}°", hanger.swing_rad.to_degrees()),
            governs.to_owned(),
            "generic hardware: enter what is bought".to_owned(),
        ] {
            let found = window.harness.query_all_by_label_contains(&said).count();
            assert!(found > 0, "hanger {}: no “{said}”", place + 1);
        }
        window.key(Key::H);
    }
}

#[test]
fn what_nobody_knows_is_for_the_engineer() {
    let mut catalogue = embedded_catalogue();
    catalogue.hardware.sizes.clear();
    let (window, _) = on_first_hanger(freight_shed(), catalogue);
    let unknown = window.harness.query_all_by_label("unknown: engineer");
    // Hardware, cut, adjuster and clamp.
    assert_eq!(unknown.count(), 4);
}

#[test]
fn a_long_name_goes_on_in_the_next_line() {
    let mut catalogue = embedded_catalogue();
    let long = "chain of long welded links as kept in the stores of the ferry port, galvanised, cut by the storekeeper only";
    for size in &mut catalogue.hardware.sizes {
        Arc::make_mut(size).name = long.to_owned();
    }
    let (window, _) = on_first_hanger(freight_shed(), catalogue);
    let rect = window.harness.get_by_label(long).rect();
    assert!(rect.right() <= 1280.0, "{rect:?}");
    assert!(rect.height() > 30.0, "{rect:?}");
}
