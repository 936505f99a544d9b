//! The plan, worked on as a user does: by mouse and by keys, with names where a screen
//! reader would look for them.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use super::folder::Folder;
use eframe::egui::accesskit::Role;
use eframe::egui::{Event, Key, Modifiers, Pos2, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use rafterglow::editor::chooser::{FileChooser, Wanted};
use rafterglow::editor::theme::Theme;
use rafterglow::editor::{Editor, Stage, ToolKind};
use rafterglow::geometry::DVec2;
use rafterglow::site::{Footprint, Hanging, ObjectId, Site};
use rafterglow::store;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A desktop without a file dialog: paths are typed.
struct NoDialog;

impl FileChooser for NoDialog {
    fn choose(&self, _: &Wanted) -> Option<PathBuf> {
        None
    }
}

/// A window on a site, with a hand for mouse and keys.
pub(super) struct Window {
    pub(super) harness: Harness<'static, Editor>,
}

impl Window {
    pub(super) fn on(site: Site) -> Self {
        let editor = Editor::for_test(site, Arc::new(store::embedded_catalogue()))
            .with_chooser(Arc::new(NoDialog));
        let mut harness = Harness::builder()
            .with_size(Vec2::new(1280.0, 800.0))
            .with_max_steps(12)
            .with_context_setup(Theme::install)
            .build_ui_state(|ui, editor: &mut Editor| editor.show(ui), editor);
        harness.run();
        Self { harness }
    }

    pub(super) fn on_sample(name: &str) -> Self {
        let path = format!("{}/sample-sites/{name}.ron", env!("CARGO_MANIFEST_DIR"));
        Self::on(store::open(path.as_ref()).unwrap())
    }

    pub(super) fn editor(&self) -> &Editor {
        self.harness.state()
    }

    pub(super) fn site(&self) -> &Site {
        self.editor().site()
    }

    pub(super) fn screen(&self, x: f64, y: f64) -> Pos2 {
        self.editor().camera().screen_from_site(DVec2::new(x, y))
    }

    pub(super) fn key(&mut self, key: Key) {
        self.harness.key_press(key);
        self.harness.run();
    }

    pub(super) fn key_with(&mut self, modifiers: Modifiers, key: Key) {
        self.harness.key_press_modifiers(modifiers, key);
        self.harness.run();
    }

    pub(super) fn text(&mut self, text: &str) {
        self.harness.event(Event::Text(text.to_owned()));
        self.harness.run();
    }

    /// Moves the mouse to a site point and stays there.
    pub(super) fn point(&mut self, x: f64, y: f64) {
        self.harness.hover_at(self.screen(x, y));
        self.harness.run();
    }

    pub(super) fn click(&mut self, x: f64, y: f64) {
        self.point(x, y);
        let at = self.screen(x, y);
        self.harness.drag_at(at);
        self.harness.step();
        self.release(at);
    }

    /// Lets the button go, and the pointer stay.
    pub(super) fn release(&mut self, at: Pos2) {
        self.harness.event(Event::PointerButton {
            pos: at,
            button: eframe::egui::PointerButton::Primary,
            pressed: false,
            modifiers: Modifiers::NONE,
        });
        self.harness.run();
    }

    /// Presses at one site point, moves to another, and holds there.
    pub(super) fn drag(&mut self, from: (f64, f64), to: (f64, f64)) {
        self.point(from.0, from.1);
        self.harness.drag_at(self.screen(from.0, from.1));
        self.harness.run();
        // A hand does not jump.
        for part in 1..=4 {
            let part = f64::from(part) / 4.0;
            let x = from.0 + (to.0 - from.0) * part;
            let y = from.1 + (to.1 - from.1) * part;
            self.harness.hover_at(self.screen(x, y));
            self.harness.step();
        }
        self.harness.run();
    }

    pub(super) fn drop(&mut self, x: f64, y: f64) {
        let at = self.screen(x, y);
        self.release(at);
    }

    pub(super) fn drag_and_drop(&mut self, from: (f64, f64), to: (f64, f64)) {
        self.drag(from, to);
        self.drop(to.0, to.1);
    }

    /// Answers the question for a path.
    fn type_path(&mut self, path: &Path) {
        let field = |window: &Self| {
            window
                .harness
                .get_by_role_and_label(Role::TextInput, "Path")
                .focus();
        };
        field(self);
        self.harness.run();
        self.harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
        self.harness
            .event(Event::Text(path.to_str().unwrap().to_owned()));
        self.harness.run();
        self.key(Key::Enter);
    }

    /// Whether a rule has found something.
    fn found(&self, rule: &str) -> bool {
        let mut findings = self.editor().findings().iter();
        findings.any(|finding| finding.rule == rule)
    }

    /// How many breaches there are between a run and what is near it.
    fn breaches_near(&self, run: &str) -> usize {
        let study = self.editor().study().unwrap();
        let run = study.run(&run.into()).unwrap();
        let near = run.clearance.near.iter();
        near.filter(|it| it.measured.is_breach()).count()
    }
}

fn outline_size(site: &Site) -> DVec2 {
    let outline = &site.bays[0].outline;
    let least = outline.iter().copied().reduce(DVec2::min).unwrap();
    let most = outline.iter().copied().reduce(DVec2::max).unwrap();
    most - least
}

#[test]
fn from_an_empty_plan_to_a_breach_and_back() {
    let mut window = Window::on(Site::default());

    // A bay, from corner to corner.
    window.key(Key::B);
    assert_eq!(window.editor().tool(), ToolKind::Bay);
    window.drag_and_drop((2.0, 2.0), (38.0, 20.0));
    assert_eq!(window.site().bays.len(), 1);
    assert!((outline_size(window.site()) - DVec2::new(36.0, 18.0)).length() < 0.2);

    // Framing, with one stroke the way its members run.
    window.key(Key::F);
    window.drag_and_drop((20.0, 4.0), (20.0, 17.0));
    assert_eq!(window.site().framings.len(), 1);
    let members = window.editor().study().unwrap().structure.members.len();
    assert!((17..=20).contains(&members), "{members} members");

    // A rack.
    window.key(Key::O);
    window.drag_and_drop((8.0, 14.0), (28.0, 16.5));
    let rack = &window.site().obstructions[0];
    assert!(matches!(&rack.footprint, Footprint::Area { outline, .. } if outline.len() == 4));

    // A run beside it: the burner, then the direction.
    window.key(Key::R);
    window.click(8.0, 6.0);
    window.point(20.0, 6.1);
    window.click(20.0, 6.1);
    let run = window.site().scheme().runs[0].clone();
    assert_eq!(run.bearing.as_degrees(), 90.0);
    let study = window.editor().study().unwrap().clone();
    assert!(!study.run(&run.id).unwrap().hanging.hangers.is_empty());
    assert_eq!(window.breaches_near("R1"), 0);

    // Dragged over the rack, the breach is there while the button is still down.
    window.key(Key::P);
    window.drag((10.0, 6.0), (12.0, 15.0));
    assert!(0 < window.breaches_near("R1"));
    assert_eq!(
        window.editor().committed().scheme().runs[0].burner,
        run.burner
    );
    window.drop(12.0, 15.0);
    assert!(0 < window.breaches_near("R1"));
    assert_ne!(
        window.editor().committed().scheme().runs[0].burner,
        run.burner
    );

    // It is said, in the trade's words, and gone to by a key.
    let fault = "combustible-inside-keep-clear";
    assert!(window.found(fault));
    let said = "Something that burns is too near a heater";
    assert!(window.harness.query_all_by_label_contains(said).count() > 0);
    window.key(Key::Escape);
    window.key(Key::F8);
    assert!(window.editor().selection().has(&ObjectId::Run("R1".into())));

    // One step back, and all is well; one forward, and it isn't.
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.site().scheme().runs[0].burner, run.burner);
    assert_eq!(window.breaches_near("R1"), 0);
    assert!(!window.found(fault));
    window.key_with(Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    assert!(window.found(fault));

    // Saved by a typed path, given up, opened again: the same site, the same breach.
    let folder = Folder::new("window-path");
    let path = folder.file("harbour.ron");
    let site = window.site().clone();
    window.key_with(Modifiers::COMMAND, Key::S);
    window.type_path(&path);
    assert_eq!(store::open(&path).unwrap(), site);
    window.key_with(Modifiers::COMMAND, Key::N);
    assert!(window.site().bays.is_empty());
    window.key_with(Modifiers::COMMAND, Key::O);
    window.type_path(&path);
    assert_eq!(*window.site(), site);
    assert!(window.found(fault));
}

#[test]
fn escape_leaves_a_dragged_run_where_it_was() {
    let mut window = Window::on_sample("net-store");
    let run = window.site().scheme().runs[0].clone();
    let on = run.burner + rafterglow::site::bay::along(run.bearing) * 2.0;
    let (x, y) = (on.x, on.y);
    window.drag((x, y), (x + 1.0, y + 0.5));
    assert_ne!(window.site().scheme().runs[0].burner, run.burner);
    window.key(Key::Escape);
    window.drop(x + 1.0, y + 0.5);
    assert_eq!(window.site().scheme().runs[0].burner, run.burner);
}

#[test]
fn numbers_typed_while_drawing_are_the_dimensions() {
    let mut window = Window::on(Site::default());
    window.key(Key::B);
    window.click(4.0, 4.0);
    window.point(20.0, 12.0);
    window.text("24 x 12.5");
    window.key(Key::Enter);
    assert!((outline_size(window.site()) - DVec2::new(24.0, 12.5)).length() < 1e-9);

    // Corner after corner, each side as long as typed; Enter closes.
    window.key_with(Modifiers::COMMAND, Key::Z);
    window.click(4.0, 4.0);
    window.point(20.0, 4.0);
    window.text("10");
    window.key(Key::Enter);
    window.point(14.0, 20.0);
    window.text("5m");
    window.key(Key::Enter);
    window.key(Key::Enter);
    let outline = window.site().bays[0].outline.clone();
    assert_eq!(outline.len(), 3);
    assert!((outline[1] - outline[0]).length() - 10.0 < 1e-9);
    assert!(((outline[2] - outline[1]).length() - 5.0).abs() < 1e-9);
}

#[test]
fn what_cannot_be_read_makes_nothing() {
    let mut window = Window::on(Site::default());
    window.key(Key::B);
    window.click(4.0, 4.0);
    window.point(20.0, 12.0);
    window.text("12 parrots");
    window.key(Key::Enter);
    assert!(window.site().bays.is_empty());
    // Escape drops the text and the corner, then the tool.
    window.key(Key::Escape);
    assert_eq!(window.editor().tool(), ToolKind::Bay);
    window.key(Key::Escape);
    assert_eq!(window.editor().tool(), ToolKind::Pick);
}

/// Every tool, without a mouse: arrows lead the pointer, Space sets a point, Enter ends.
#[test]
fn every_tool_works_by_keys_alone() {
    let mut window = Window::on(Site::default());
    let walk = |window: &mut Window, key: Key, steps: usize| {
        for _ in 0..steps {
            window.key(key);
        }
    };
    window.key(Key::B);
    walk(&mut window, Key::ArrowLeft, 8);
    walk(&mut window, Key::ArrowDown, 6);
    window.key(Key::Space);
    walk(&mut window, Key::ArrowRight, 1);
    window.text("24x12");
    window.key(Key::Enter);
    assert_eq!(window.site().bays.len(), 1);

    window.key(Key::G);
    window.key(Key::Space);
    walk(&mut window, Key::ArrowRight, 6);
    window.key(Key::Space);
    assert_eq!(window.site().grid[0].id.as_str(), "A");
    window.text("4");
    window.key(Key::Enter);
    assert_eq!(window.site().grid[1].id.as_str(), "B");

    window.key(Key::D);
    walk(&mut window, Key::ArrowUp, 1);
    let middle = window.site().bays[0].outline[0];
    while window.site().openings.is_empty() {
        // Down to the south wall, wherever the pointer was left.
        window.key(Key::ArrowDown);
        window.key(Key::Space);
        assert!(middle.y - 20.0 < window.site().bays[0].outline[0].y);
    }

    window.key(Key::F);
    walk(&mut window, Key::ArrowUp, 4);
    window.key(Key::Space);
    walk(&mut window, Key::ArrowUp, 3);
    window.key(Key::Space);
    assert_eq!(window.site().framings.len(), 1);

    window.key(Key::O);
    window.key(Key::Space);
    walk(&mut window, Key::ArrowRight, 1);
    window.text("6x1.2");
    window.key(Key::Enter);
    assert_eq!(window.site().obstructions.len(), 1);

    window.key(Key::W);
    window.key(Key::Space);
    assert_eq!(window.site().work_spots.len(), 1);

    window.key(Key::R);
    window.key(Key::Space);
    window.text("270");
    window.key(Key::Enter);
    assert_eq!(window.site().scheme().runs[0].bearing.as_degrees(), 270.0);

    // Picking, moving and removing.
    window.key(Key::P);
    let before = window.site().scheme().runs[0].burner;
    window.key(Key::PageDown);
    assert!(window.editor().selection().has(&ObjectId::Run("R1".into())));
    window.key(Key::ArrowUp);
    window.key_with(Modifiers::SHIFT, Key::ArrowUp);
    let after = window.site().scheme().runs[0].burner;
    assert!((after - before - DVec2::new(0.0, 0.11)).length() < 1e-9);
    window.key(Key::Delete);
    assert!(window.site().scheme().runs.is_empty());
}

#[test]
fn a_click_picks_by_shape_and_a_box_what_lies_in_it() {
    let mut window = Window::on_sample("freight-shed");
    let runs = window.site().scheme().runs.clone();
    let on = runs[0].burner + DVec2::new(2.0, 0.0);
    window.click(on.x, on.y);
    assert_eq!(
        window.editor().selection().single(),
        Some(&ObjectId::Run(runs[0].id.clone()))
    );
    window.drag_and_drop((-3.0, -3.0), (75.0, 39.0));
    assert_eq!(window.editor().selection().ids.len(), runs.len());
    window.click(-3.0, -3.0);
    assert!(window.editor().selection().ids.is_empty());
}

#[test]
fn a_duplicate_is_picked_and_has_a_name_of_its_own() {
    let mut window = Window::on_sample("freight-shed");
    let n_runs = window.site().scheme().runs.len();
    window.key(Key::PageDown);
    window.key_with(Modifiers::COMMAND, Key::D);
    assert_eq!(window.site().scheme().runs.len(), n_runs + 1);
    let picked = window.editor().selection().single().unwrap().to_string();
    assert_eq!(picked, format!("R{}", n_runs + 1));
}

#[test]
fn turning_end_for_end_twice_changes_nothing() {
    let mut window = Window::on_sample("boat-hall");
    let before = window.site().scheme().runs[0].clone();
    window.key(Key::PageDown);
    window.key(Key::T);
    let turned = window.site().scheme().runs[0].clone();
    assert_ne!(turned.burner, before.burner);
    window.key(Key::T);
    let again = window.site().scheme().runs[0].clone();
    assert!((again.burner - before.burner).length() < 1e-9);
    assert_eq!(again.bearing, before.bearing);
    assert_eq!(again.shape, before.shape);
}

#[test]
fn every_object_on_the_plan_can_be_found_by_its_name() {
    let window = Window::on_sample("freight-shed");
    window.harness.get_by_label("Plan");
    for id in window.site().object_ids() {
        let name = match &id {
            ObjectId::Obstruction(id) => {
                let known = window.site().obstructions.iter();
                let it = known.into_iter().find(|it| it.id == *id).unwrap();
                format!("{} {id}", it.kind.label())
            }
            _ => format!("{} {id}", id.kind_label()),
        };
        window.harness.get_by_label(&name);
    }
}

#[test]
fn the_profile_names_each_hanger_and_lifts_the_run() {
    let mut window = Window::on_sample("freight-shed");
    window.key(Key::PageDown);
    let run = window.site().scheme().runs[0].clone();
    let study = window
        .editor()
        .study()
        .unwrap()
        .run(&run.id)
        .unwrap()
        .clone();
    for number in 1..=study.hanging.hangers.len() {
        let name = format!("Hanger {number} of {}", run.id);
        window.harness.get_by_label(&name);
    }
    let profile = window
        .harness
        .get_by_label(&format!("{} from the side", run.id))
        .rect();
    let from = profile.center();
    window.harness.hover_at(from);
    window.harness.run();
    window.harness.drag_at(from);
    window.harness.run();
    for step in 1..=4 {
        let by = Vec2::new(0.0, -8.0 * f32::from(u8::try_from(step).unwrap()));
        window.harness.hover_at(from + by);
        window.harness.step();
    }
    window.release(from + Vec2::new(0.0, -32.0));
    let lifted = window.site().scheme().runs[0].clone();
    assert!(run.tube_height.as_metres() + 0.1 < lifted.tube_height.as_metres());
    assert_eq!(lifted.burner, run.burner);
}

#[test]
fn every_stage_has_only_named_controls() {
    let mut window = Window::on_sample("freight-shed");
    for key in [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5] {
        window.key_with(Modifiers::COMMAND, key);
        window.harness.check_accessibility();
    }
    assert_eq!(window.editor().stage(), Stage::Sheets);
}

#[test]
fn zooming_goes_to_the_pointer_and_home_brings_all_back() {
    let mut window = Window::on_sample("freight-shed");
    let before = window.editor().camera().scale();
    let at = window.screen(10.0, 10.0);
    window.point(10.0, 10.0);
    window.harness.event(Event::MouseWheel {
        unit: eframe::egui::MouseWheelUnit::Line,
        delta: Vec2::new(0.0, 4.0),
        modifiers: Modifiers::NONE,
        phase: eframe::egui::TouchPhase::Move,
        source: eframe::egui::MouseWheelSource::Unknown,
    });
    window.harness.run_steps(20);
    assert!(1.1 * before < window.editor().camera().scale());
    assert!((window.screen(10.0, 10.0) - at).length() < 0.5);
    window.key(Key::Home);
    assert!((window.editor().camera().scale() - before).abs() < 1e-9);
}

#[test]
fn locked_hangers_stay_when_the_run_moves_and_are_chosen_again_when_freed() {
    let mut window = Window::on_sample("freight-shed");
    window.key(Key::PageDown);
    let id = window.site().scheme().runs[0].id.clone();
    let hanging = |window: &Window| window.site().scheme().run(&id).unwrap().hanging.clone();
    window.key(Key::K);
    let Hanging::Locked(kept) = hanging(&window) else {
        panic!("the hangers are kept");
    };
    let study = window.editor().study().unwrap().run(&id).unwrap().clone();
    assert_eq!(kept.len(), study.hanging.hangers.len());
    window.key(Key::ArrowUp);
    assert_eq!(hanging(&window), Hanging::Locked(kept));
    window.key(Key::K);
    assert_eq!(hanging(&window), Hanging::Solved);
}

#[test]
fn the_second_button_opens_a_menu_about_what_is_under_it() {
    let mut window = Window::on_sample("freight-shed");
    let run = window.site().scheme().runs[2].clone();
    let on = run.burner + DVec2::new(2.0, 0.0);
    window.point(on.x, on.y);
    let at = window.screen(on.x, on.y);
    for pressed in [true, false] {
        window.harness.event(Event::PointerButton {
            pos: at,
            button: eframe::egui::PointerButton::Secondary,
            pressed,
            modifiers: Modifiers::NONE,
        });
        window.harness.run();
    }
    let picked = ObjectId::Run(run.id.clone());
    assert_eq!(window.editor().selection().single(), Some(&picked));
    // The stage's panel has the command too; the menu comes after it.
    let entries = window
        .harness
        .get_all_by_label_contains("Turn by a quarter");
    entries.last().unwrap().click();
    window.harness.run();
    let turned = window.site().scheme().run(&run.id).unwrap().clone();
    assert_eq!(turned.bearing.as_degrees(), 180.0);
}
