//! A window with somebody at it.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use crate::drawing::tools;
use crate::folder::Folder;
use eframe::egui::accesskit::Role;
use eframe::egui::{Event, Key, Modifiers, PointerButton, vec2};
use egui_kittest::kittest::{AccessKitNode, NodeT as _, Queryable as _};
use egui_kittest::{Harness, Node};
use rafterglow::editor::chooser::{FileChooser, Wanted};
use rafterglow::editor::theme::Theme;
use rafterglow::editor::{Command, Editor};
use rafterglow::geometry::DVec2;
use rafterglow::site::{ObjectId, Run, Site};
use rafterglow::store;
use rafterglow::study::RunStudy;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

/// A desktop without a file dialog: paths are typed.
struct NoDialog;

impl FileChooser for NoDialog {
    fn choose(&self, _: &Wanted) -> Option<PathBuf> {
        None
    }
}

/// A window of the size that it has when it is first opened, on an empty site.
pub(super) struct Desk {
    harness: Harness<'static, Editor>,
}

impl Desk {
    pub(super) fn new() -> Self {
        let catalogue = Arc::new(store::embedded_catalogue());
        let editor = Editor::for_test(Site::default(), catalogue).with_chooser(Arc::new(NoDialog));
        let mut harness = Harness::builder()
            .with_size(vec2(1440.0, 900.0))
            .with_max_steps(16)
            .with_context_setup(Theme::install)
            .build_ui_state(|ui, editor: &mut Editor| editor.show(ui), editor);
        harness.run();
        Self { harness }
    }

    /// A window on a sample, taken from those that an empty site offers.
    pub(super) fn with_sample(name: &str) -> Self {
        let mut desk = Self::new();
        desk.click(&format!("Sample: {name}"));
        desk
    }

    pub(super) fn editor(&self) -> &Editor {
        self.harness.state()
    }

    pub(super) fn site(&self) -> &Site {
        self.editor().committed()
    }

    pub(super) fn run(&self, id: &str) -> Arc<Run> {
        Arc::clone(self.site().scheme().run(&id.into()).unwrap())
    }

    pub(super) fn studied(&self, id: &str) -> Arc<RunStudy> {
        Arc::clone(self.editor().study().unwrap().run(&id.into()).unwrap())
    }

    pub(super) fn is_picked(&self, id: &ObjectId) -> bool {
        self.editor().selection().has(id)
    }

    /// Whether something with exactly this name is there.
    pub(super) fn has(&self, name: &str) -> bool {
        self.harness.query_by_label(name).is_some()
    }

    /// The whole name of what is there with a name that contains this.
    pub(super) fn said(&self, part: &str) -> String {
        let node = self.harness.get_by_label_contains(part);
        let said = node.accesskit_node();
        said.label()
            .unwrap_or_else(|| said.value().unwrap_or_default())
    }

    pub(super) fn key(&mut self, key: Key) {
        self.harness.key_press(key);
        self.harness.run();
    }

    pub(super) fn press(&mut self, command: Command) {
        let key = command.key().unwrap();
        self.harness
            .key_press_modifiers(key.modifiers, key.logical_key);
        self.harness.run();
    }

    /// Clicks what has this name.
    pub(super) fn click(&mut self, name: &str) {
        self.click_on(|desk| desk.harness.get_by(named(name)));
    }

    /// Clicks the button whose name begins like this.
    pub(super) fn click_button(&mut self, beginning: &str) {
        self.click_on(|desk| desk.beginning(Role::Button, beginning));
    }

    /// Opens a stage by its place in the rail.
    pub(super) fn enter(&mut self, stage: &str) {
        self.click_on(|desk| desk.beginning(Role::Tab, stage));
        assert_eq!(self.editor().stage().label(), stage);
    }

    fn beginning(&self, role: Role, beginning: &str) -> Node<'_> {
        let beginning = beginning.to_owned();
        self.harness.get_by(move |node| {
            let name = node.label().unwrap_or_default();
            node.role() == role && name.starts_with(&beginning)
        })
    }

    /// What is out of sight in a panel is brought into sight first.
    fn click_on(&mut self, find: impl for<'a> Fn(&'a Self) -> Node<'a>) {
        find(self).scroll_to_me();
        self.harness.run();
        find(self).click();
        self.harness.run();
    }

    /// Picks objects by their rows in the stage's list.
    pub(super) fn pick(&mut self, ids: &[&str]) {
        for (k, id) in ids.iter().enumerate() {
            let modifiers = if k == 0 {
                Modifiers::NONE
            } else {
                Modifiers::COMMAND
            };
            self.row(id).scroll_to_me();
            self.harness.run();
            self.row(id).click_modifiers(modifiers);
            self.harness.run();
        }
        assert_eq!(self.editor().selection().ids.len(), ids.len());
    }

    fn row(&self, id: &str) -> Node<'_> {
        self.beginning(Role::ListBoxOption, &format!("{id} "))
    }

    fn field(&self, name: &str) -> Node<'_> {
        // The picked object's field, else that of the next object.
        let found = |name: &str| {
            let is_named = named(name);
            self.harness
                .query_all_by(move |node| node.role() == Role::TextInput && is_named(node))
                .last()
        };
        let kinds = [
            "bay",
            "opening",
            "framing",
            "obstruction",
            "work spot",
            "run",
        ];
        found(name)
            .or_else(|| {
                let mut names = kinds
                    .iter()
                    .map(|kind| format!("{name} of the next {kind}"));
                names.find_map(|name| found(&name))
            })
            .unwrap_or_else(|| panic!("there is no field “{name}”"))
    }

    pub(super) fn value(&self, field: &str) -> String {
        self.field(field).value().unwrap_or_default()
    }

    /// Types a value into a field in place of what was there.
    pub(super) fn fill(&mut self, name: &str, text: &str) {
        self.field(name).focus();
        self.harness.run();
        self.harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
        self.harness.event(Event::Text(text.to_owned()));
        self.harness.run();
        self.key(Key::Enter);
    }

    /// Answers the question for a path.
    pub(super) fn type_path(&mut self, path: &Path) {
        self.fill("Path", tools::text(path));
    }

    fn point(&mut self, x: f64, y: f64) {
        let at = self.editor().camera().screen_from_site(DVec2::new(x, y));
        self.harness.hover_at(at);
        self.harness.run();
    }

    fn button(&mut self, x: f64, y: f64, pressed: bool) {
        let at = self.editor().camera().screen_from_site(DVec2::new(x, y));
        self.harness.event(Event::PointerButton {
            pos: at,
            button: PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        });
        self.harness.run();
    }

    /// Clicks a point of the plan, m.
    pub(super) fn click_plan(&mut self, x: f64, y: f64) {
        self.point(x, y);
        self.button(x, y, true);
        self.button(x, y, false);
    }

    /// Draws from one point of the plan to another, m.
    pub(super) fn draw(&mut self, from: (f64, f64), to: (f64, f64)) {
        self.point(from.0, from.1);
        self.button(from.0, from.1, true);
        for part in [0.25, 0.5, 0.75, 1.0] {
            let x = from.0 + (to.0 - from.0) * part;
            let y = from.1 + (to.1 - from.1) * part;
            self.point(x, y);
        }
        self.button(to.0, to.1, false);
    }

    /// Types folder and date, presses the button, and waits until the set is written.
    pub(super) fn write_set(&mut self, folder: &Path, date: &str) {
        self.enter("Sheets");
        self.fill("Into folder", tools::text(folder));
        self.fill("Date of issue", date);
        self.click("Write the plan set");
        // The set is written on a thread of its own; a minute is more than any machine needs.
        for _ in 0..2400 {
            if self.has("Write the plan set") {
                self.harness.run();
                self.said("written into");
                return;
            }
            std::thread::sleep(Duration::from_millis(25));
            self.harness.step();
        }
        panic!("the plan set was not written within a minute");
    }
}

/// Whether something has exactly this name.
fn named(name: &str) -> impl Fn(&AccessKitNode<'_>) -> bool + use<> {
    let name = name.to_owned();
    move |node| node.label().is_some_and(|label| label == name)
}

/// A folder of a test's own, among what the build throws away.
pub(super) fn folder(test: &str) -> Folder {
    Folder::within(Path::new(env!("CARGO_TARGET_TMPDIR")), test)
}

/// What stands on the sheets of a PDF.
pub(super) fn words_of(pdf: &Path) -> String {
    let bytes = std::fs::read(pdf).unwrap();
    assert!(bytes.starts_with(b"%PDF"));
    let arguments = ["-layout", tools::text(pdf), "-"];
    tools::run("pdftotext", "poppler-utils", &arguments)
}
