//! The panels of the window, worked as a user works them: by the names of things.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use eframe::egui::accesskit::Role;
use eframe::egui::{Event, Key, Modifiers, Vec2, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use egui_kittest::{Harness, Node};
use rafterglow::editor::chooser::{FileChooser, Wanted};
use rafterglow::editor::theme::Theme;
use rafterglow::editor::{Command, Editor, Stage};
use rafterglow::findings::Severity;
use rafterglow::geometry::DVec2;
use rafterglow::site::{
    Bay, Combustibility, Construction, Edit, GridLine, Hanging, Object, ObjectId, Obstruction,
    ObstructionKind, Roof, Run, RunShape, Shields, Site,
};
use rafterglow::store;
use rafterglow::units::{Angle, Length, ThermalTransmittance, UnitSystem};
use std::path::PathBuf;
use std::sync::{Arc, Mutex};

const SMALL: Vec2 = vec2(1280.0, 800.0);

/// A shed with a grid, three runs and a rack.
fn shed() -> Site {
    let construction = Construction {
        name: "sheet".to_owned(),
        u_value: ThermalTransmittance::watts_per_square_metre_kelvin(0.5),
        burns: Combustibility::NonCombustible,
        facing: None,
    };
    let bay = Bay {
        id: "B1".into(),
        name: "shed".to_owned(),
        outline: [(0.0, 0.0), (36.0, 0.0), (36.0, 24.0), (0.0, 24.0)]
            .map(DVec2::from)
            .to_vec(),
        holes: Vec::new(),
        eave: Length::metres(7.0),
        roof: Roof::Flat,
        wall: construction.clone(),
        deck: construction,
        open_edges: Vec::new(),
        collateral: None,
        used_as: Default::default(),
        notes: String::new(),
    };
    let line = |id: &str, from: (f64, f64), to: (f64, f64)| {
        Edit::Put(Object::GridLine(Arc::new(GridLine {
            id: id.into(),
            from: from.into(),
            to: to.into(),
            notes: String::new(),
        })))
    };
    let catalogue = store::embedded_catalogue();
    let family = &catalogue.families()[0];
    let run = |id: &str, y: f64, height: f64| {
        Edit::Put(Object::Run(Arc::new(Run {
            id: id.into(),
            family: family.id.clone(),
            size: family.sizes[0].id.clone(),
            burner: DVec2::new(3.0, y),
            tube_height: Length::metres(height),
            bearing: Angle::degrees(90.0),
            shape: RunShape::Straight,
            tilt: Angle::ZERO,
            shields: Shields::None,
            hanging: Hanging::Solved,
            fixed_hanger: None,
            suspension: None,
            exhaust: Default::default(),
            zone: String::new(),
            notes: String::new(),
        })))
    };
    let (bottom, top, burns) = ObstructionKind::Racking.usual();
    let rack = Edit::Put(Object::Obstruction(Arc::new(Obstruction {
        id: "O1".into(),
        name: "net rack".to_owned(),
        kind: ObstructionKind::Racking,
        footprint: rafterglow::site::Footprint::Area {
            outline: [(10.0, 18.0), (20.0, 18.0), (20.0, 20.0), (10.0, 20.0)]
                .map(DVec2::from)
                .to_vec(),
            holes: Vec::new(),
        },
        bottom,
        top,
        upright_top: None,
        burns,
        temperature_limit: None,
        particulars: Default::default(),
        notes: String::new(),
    })));
    Edit::All(vec![
        Edit::Name("net shed".to_owned()),
        Edit::Put(Object::Bay(Arc::new(bay))),
        line("1", (0.0, 27.0), (0.0, -3.0)),
        line("2", (12.0, 27.0), (12.0, -3.0)),
        line("A", (-3.0, 0.0), (39.0, 0.0)),
        line("B", (-3.0, 12.0), (39.0, 12.0)),
        run("R1", 4.0, 5.2),
        run("R2", 8.0, 5.2),
        run("R3", 16.0, 5.6),
        rack,
    ])
    .apply(&Site::default())
    .unwrap()
}

fn window_on(editor: Editor, size: Vec2) -> Harness<'static, Editor> {
    let mut harness = Harness::builder()
        .with_size(size)
        .with_context_setup(Theme::install)
        .build_ui_state(|ui, editor: &mut Editor| editor.show(ui), editor);
    harness.run();
    harness
}

fn window(site: Site) -> Harness<'static, Editor> {
    let catalogue = Arc::new(store::embedded_catalogue());
    window_on(Editor::for_test(site, catalogue), SMALL)
}

fn press(harness: &mut Harness<'_, Editor>, command: Command) {
    let key = command.key().unwrap();
    harness.key_press_modifiers(key.modifiers, key.logical_key);
    harness.run();
}

fn enter_stage(harness: &mut Harness<'_, Editor>, stage: Stage) {
    press(harness, Command::Enter(stage));
    assert_eq!(harness.state().stage(), stage);
}

fn field<'a>(harness: &'a Harness<'_, Editor>, name: &'a str) -> Node<'a> {
    harness.get_by_role_and_label(Role::TextInput, name)
}

/// Types into a field, leaving it by a key.
fn type_into(harness: &mut Harness<'_, Editor>, name: &str, text: &str, leave: Key) {
    field(harness, name).focus();
    harness.run();
    field(harness, name).type_text(text);
    harness.run();
    harness.key_press(leave);
    harness.run();
}

/// Clicks rows of a list, the later ones in addition.
fn pick(harness: &mut Harness<'_, Editor>, ids: &[&str]) {
    for (k, id) in ids.iter().enumerate() {
        let modifiers = if k == 0 {
            Modifiers::NONE
        } else {
            Modifiers::COMMAND
        };
        let id = format!("{id} ");
        harness
            .get_by(|node| {
                node.role() == Role::ListBoxOption
                    && node.label().is_some_and(|label| label.starts_with(&id))
            })
            .click_modifiers(modifiers);
        harness.run();
    }
}

fn run_of(harness: &Harness<'_, Editor>, id: &str) -> Arc<Run> {
    let site = harness.state().committed();
    Arc::clone(site.scheme().run(&id.into()).unwrap())
}

fn undo(harness: &mut Harness<'_, Editor>) {
    press(harness, Command::Undo);
}

#[test]
fn a_height_is_typed_in_any_unit_and_undone_by_name() {
    let mut harness = window(shed());
    enter_stage(&mut harness, Stage::Runs);
    pick(&mut harness, &["R1"]);
    // The form of the next run stands before that of the picked one.
    let before = run_of(&harness, "R1");
    type_last(&mut harness, "Tube height", "18' 6", Key::Enter);
    let height = run_of(&harness, "R1").tube_height;
    assert!((height.as_metres() - 18.5 * 0.3048).abs() < 1e-9);
    harness.get_by_label_contains("Undo “Set tube height of R1”");
    undo(&mut harness);
    assert_eq!(run_of(&harness, "R1"), before);
}

/// Types into the last field of a name: of two forms, the picked object's.
fn type_last(harness: &mut Harness<'_, Editor>, name: &str, text: &str, leave: Key) {
    let last = |harness: &Harness<'_, Editor>| {
        harness
            .query_all_by_role_and_label(Role::TextInput, name)
            .count()
            - 1
    };
    let index = last(harness);
    let nth = |harness: &Harness<'_, Editor>| {
        harness
            .query_all_by_role_and_label(Role::TextInput, name)
            .nth(index)
            .map(|node| {
                node.focus();
            })
    };
    nth(harness).unwrap();
    harness.run();
    harness.event(Event::Text(text.to_owned()));
    harness.run();
    harness.key_press(leave);
    harness.run();
}

#[test]
fn what_the_site_refuses_stays_in_its_field_with_the_reason() {
    let mut harness = window(shed());
    enter_stage(&mut harness, Stage::Runs);
    pick(&mut harness, &["R1"]);
    let before = Site::clone(harness.state().committed());
    for text in ["high", "-3 m", "4000 m"] {
        type_last(&mut harness, "Tube height", text, Key::Tab);
        assert_eq!(*harness.state().committed(), before, "{text}");
        let kept = harness
            .query_all_by_role_and_label(Role::TextInput, "Tube height")
            .last()
            .and_then(|node| node.value());
        assert_eq!(kept.as_deref(), Some(text));
        let described = harness
            .query_all_by_role_and_label(Role::TextInput, "Tube height")
            .last()
            .and_then(|node| {
                node.accesskit_node()
                    .data()
                    .description()
                    .map(str::to_owned)
            });
        assert!(described.is_some_and(|reason| reason.len() > 10), "{text}");
    }
}

#[test]
fn many_runs_are_edited_at_once_as_one_step() {
    let mut harness = window(shed());
    enter_stage(&mut harness, Stage::Runs);
    pick(&mut harness, &["R1", "R2", "R3"]);
    assert_eq!(harness.state().selection().ids.len(), 3);
    harness.get_by_label("edited together");
    let heights = harness
        .query_all_by_role_and_label(Role::TextInput, "Tube height")
        .last()
        .and_then(|node| node.accesskit_node().placeholder().map(str::to_owned));
    assert_eq!(heights.as_deref(), Some("several"));
    type_last(&mut harness, "Tube height", "6.1 m", Key::Enter);
    for id in ["R1", "R2", "R3"] {
        let height = run_of(&harness, id).tube_height.as_metres();
        assert!((height - 6.1).abs() < 1e-12, "{id}");
    }
    undo(&mut harness);
    assert!((run_of(&harness, "R3").tube_height.as_metres() - 5.6).abs() < 1e-12);
}

#[test]
fn a_place_is_typed_from_the_grid_lines() {
    let mut harness = window(shed());
    enter_stage(&mut harness, Stage::Runs);
    pick(&mut harness, &["R3"]);
    type_into(&mut harness, "From B", "2.5", Key::Enter);
    let burner = run_of(&harness, "R3").burner;
    assert!((burner - DVec2::new(3.0, 14.5)).length() < 1e-9, "{burner}");
}

#[test]
fn a_bay_is_made_by_typing_its_size() {
    let mut harness = window(Site::default());
    harness.get_by_label("An empty site");
    type_into(&mut harness, "Width, east", "72 m", Key::Tab);
    type_into(&mut harness, "Depth, north", "36", Key::Tab);
    type_into(&mut harness, "Eave height", "21' 4", Key::Enter);
    harness.get_by_label("Add this bay").click();
    harness.run();
    let bay = Arc::clone(&harness.state().committed().bays[0]);
    assert_eq!(bay.outline[2], DVec2::new(72.0, 36.0));
    assert!((bay.eave.as_metres() - 21.0 * 0.3048 - 4.0 * 0.0254).abs() < 1e-9);
    assert!(harness.query_by_label("An empty site").is_none());
    assert!(
        harness
            .state()
            .selection()
            .has(&ObjectId::Bay(bay.id.clone()))
    );
}

#[test]
fn grid_lines_are_laid_by_their_spacings_and_slips_are_told() {
    let mut harness = window(shed());
    enter_stage(&mut harness, Stage::Shell);
    type_into(&mut harness, "Numbered", "3 x 12 m", Key::Enter);
    let names = |harness: &Harness<'_, Editor>| {
        let site = harness.state().committed();
        let mut names: Vec<String> = site.grid.iter().map(|line| line.id.to_string()).collect();
        names.sort();
        names.join(" ")
    };
    assert_eq!(names(&harness), "1 2 3 4 A B");
    type_into(&mut harness, "Lettered", "six by twelve", Key::Tab);
    assert_eq!(names(&harness), "1 2 3 4 A B");
    assert_eq!(
        field(&harness, "Lettered").value().as_deref(),
        Some("six by twelve")
    );
}

#[test]
fn units_are_switched_and_every_field_follows_without_changing_anything() {
    let mut harness = window(shed());
    enter_stage(&mut harness, Stage::Runs);
    pick(&mut harness, &["R1"]);
    let before = run_of(&harness, "R1");
    harness.get_by_label("Units: ft-in").click();
    harness.run();
    assert_eq!(harness.state().committed().units, UnitSystem::FeetInches);
    let shown = harness
        .query_all_by_role_and_label(Role::TextInput, "Tube height")
        .last()
        .and_then(|node| node.value());
    assert!(shown.is_some_and(|shown| shown.contains('\'')));
    assert_eq!(run_of(&harness, "R1"), before);
}

#[test]
fn schemes_are_copied_shown_named_and_removed() {
    let mut harness = window(shed());
    let open = |harness: &mut Harness<'_, Editor>, label: &str| {
        harness.get_by_role_and_label(Role::Button, label).click();
        harness.run();
    };
    open(&mut harness, "Scheme A");
    harness.get_by_label("Copy this scheme").click();
    harness.run();
    let site = harness.state().committed();
    assert_eq!(site.shown_scheme.as_str(), "B");
    assert_eq!(site.scheme().runs.len(), 3);

    open(&mut harness, "Scheme B · from A");
    type_into(&mut harness, "Name of this scheme", "two rows", Key::Enter);
    assert_eq!(harness.state().committed().scheme().name, "two rows");
    harness.get_by_label("Remove this scheme").click();
    harness.run();
    assert_eq!(harness.state().committed().shown_scheme.as_str(), "A");
    assert_eq!(harness.state().committed().schemes.len(), 1);
}

#[test]
fn the_id_of_an_object_is_typed_anew_unless_it_is_taken() {
    let mut harness = window(shed());
    enter_stage(&mut harness, Stage::Runs);
    pick(&mut harness, &["R1"]);
    type_into(&mut harness, "Id", "R2", Key::Tab);
    assert!(
        harness
            .state()
            .committed()
            .scheme()
            .run(&"R1".into())
            .is_some()
    );
    type_into(&mut harness, "Id", "R9", Key::Enter);
    assert!(
        harness
            .state()
            .committed()
            .scheme()
            .run(&"R9".into())
            .is_some()
    );
    assert!(harness.state().selection().has(&ObjectId::Run("R9".into())));
}

fn net_store() -> Harness<'static, Editor> {
    window(store::samples::SAMPLES[2].open().unwrap())
}

#[test]
fn findings_are_listed_worst_first_and_shown_where_they_are() {
    let mut harness = net_store();
    let findings = harness.state().findings();
    assert!(findings.is_sorted_by_key(|finding| finding.severity));
    let first = findings[0].subjects[0].to_string();
    harness.get_all_by_label("Show").next().unwrap().click();
    harness.run();
    assert!(
        harness
            .state()
            .selection()
            .has(&ObjectId::Run(first.as_str().into()))
    );
    // What is listed can be narrowed to what is picked.
    harness
        .get_by(|node| {
            let label = node.label().unwrap_or_default();
            label.starts_with("Findings: ") && label.contains("about")
        })
        .click();
    harness.run();
    let shown = harness.get_all_by_label("Show").count();
    assert!(shown < harness.state().findings().len());
}

#[test]
fn a_finding_is_accepted_with_a_written_reason_and_taken_back() {
    let mut harness = window(store::samples::SAMPLES[0].open().unwrap());
    let open = |harness: &Harness<'_, Editor>| harness.state().count_findings(Severity::Caution);
    let before = open(&harness);
    assert!(before > 0);
    harness.get_all_by_label("Accept…").next().unwrap().click();
    harness.run();
    type_into(&mut harness, "Reason for accepting", "no", Key::Tab);
    assert_eq!(open(&harness), before, "a reason says something");
    type_into(
        &mut harness,
        "Reason for accepting",
        "certified figures follow, harbour engineer",
        Key::Enter,
    );
    assert_eq!(open(&harness), before - 1);
    assert_eq!(harness.state().committed().acceptances.len(), 1);
    harness.get_by_label_contains("Accepted: certified figures follow");
    harness.get_by_label("Take back").click();
    harness.run();
    assert_eq!(open(&harness), before);
    assert!(harness.state().committed().acceptances.is_empty());
}

#[test]
fn the_hanging_table_says_what_each_hanger_holds() {
    let mut harness = window(store::samples::SAMPLES[0].open().unwrap());
    enter_stage(&mut harness, Stage::Runs);
    pick(&mut harness, &["R1"]);
    let study = Arc::clone(harness.state().study().unwrap());
    let hanging = &study.run(&"R1".into()).unwrap().hanging;
    harness.get_by_label("exact, cheapest");
    for hanger in &hanging.hangers {
        let from = format!(
            "{} p{}",
            hanger.at.first.member,
            hanger.at.first.place.panel_point().unwrap()
        );
        harness.get_by_label(&from);
        harness
            .get_all_by_label(&format!("{:.2}", hanger.at.suspension_m))
            .next()
            .unwrap();
    }
    // Where nobody has said what is allowed there is no percentage.
    let mut harness = net_store();
    let unknown = harness
        .state()
        .study()
        .unwrap()
        .runs
        .iter()
        .find(|run| {
            run.hanging
                .hangers
                .iter()
                .any(|hanger| hanger.load.allowed == rafterglow::hanging::Capacity::Unknown)
        })
        .map(|run| run.run.id.to_string())
        .unwrap();
    enter_stage(&mut harness, Stage::Runs);
    pick(&mut harness, &[&unknown]);
    harness.get_all_by_label("unknown").next().unwrap();
    let said = harness.get_all_by_label_contains("unknown: engineer");
    assert!(1 < said.count());
}

#[test]
fn hundreds_of_findings_are_all_listed_and_only_those_in_sight_are_drawn() {
    let site = store::samples::SAMPLES[2].open().unwrap();
    let runs = site.scheme().runs.clone();
    let copies = (0..40).map(|k| {
        let mut run = Run::clone(&runs[k % runs.len()]);
        run.id = format!("R{}", k + 10).as_str().into();
        Edit::Put(Object::Run(Arc::new(run)))
    });
    let site = Edit::All(copies.collect()).apply(&site).unwrap();
    let mut harness = window(site);
    harness.run();
    let count = harness.state().findings().len();
    assert!(count > 400, "{count}");
    let drawn = harness.get_all_by_label("Why?").count();
    assert!(0 < drawn && drawn < 20, "{drawn}");
    let breaches = harness.state().count_findings(Severity::Breach);
    harness.get_by_label_contains(&format!("{breaches} breaches · "));
}

#[test]
fn a_sample_opens_from_the_menu() {
    let mut harness = window(Site::default());
    harness.get_by_label("File").click();
    harness.run();
    harness.get_by_label("boat-hall").click();
    harness.run();
    assert!(!harness.state().committed().bays.is_empty());
    assert!(harness.query_by_label("An empty site").is_none());
}

#[test]
fn a_length_that_is_long_in_feet_is_shown_briefly_and_typed_exactly() {
    let mut harness = window(shed());
    harness.get_by_label("Units: ft-in").click();
    harness.run();
    enter_stage(&mut harness, Stage::Runs);
    pick(&mut harness, &["R1"]);
    let before = run_of(&harness, "R1");
    let shown = |harness: &Harness<'_, Editor>| {
        harness
            .query_all_by_role_and_label(Role::TextInput, "Tube height")
            .last()
            .and_then(|node| node.value())
            .unwrap()
    };
    assert!(shown(&harness).starts_with('≈'), "{}", shown(&harness));
    harness
        .query_all_by_role_and_label(Role::TextInput, "Tube height")
        .last()
        .unwrap()
        .focus();
    harness.run();
    assert!(!shown(&harness).starts_with('≈'));
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(run_of(&harness, "R1"), before, "looking changes nothing");
}

/// A file chooser that gives an answer prepared beforehand.
#[derive(Default)]
struct Prepared {
    answer: Option<PathBuf>,
    asked: Mutex<Vec<Wanted>>,
}

impl FileChooser for Prepared {
    fn choose(&self, wanted: &Wanted) -> Option<PathBuf> {
        self.asked.lock().unwrap().push(wanted.clone());
        self.answer.clone()
    }
}

fn folder(name: &str) -> PathBuf {
    let dir = std::env::temp_dir().join(format!("rafterglow-panels-{}-{name}", std::process::id()));
    std::fs::create_dir_all(&dir).unwrap();
    dir
}

fn settle(harness: &mut Harness<'_, Editor>) {
    // The chooser answers on a thread of its own.
    for _ in 0..50 {
        std::thread::sleep(std::time::Duration::from_millis(4));
        harness.step();
    }
    harness.run();
}

#[test]
fn a_site_is_saved_and_opened_with_the_desktops_dialog() {
    let dir = folder("dialog");
    let path = dir.join("net-shed.ron");
    let chooser = Arc::new(Prepared {
        answer: Some(path.clone()),
        ..Prepared::default()
    });
    let catalogue = Arc::new(store::embedded_catalogue());
    let editor = Editor::for_test(shed(), catalogue).with_chooser(chooser.clone());
    let mut harness = window_on(editor, SMALL);
    press(&mut harness, Command::Save);
    settle(&mut harness);
    assert_eq!(store::open(&path).unwrap(), shed());
    assert_eq!(chooser.asked.lock().unwrap().len(), 1);
    assert!(harness.query_by_label("Save the site").is_none());

    press(&mut harness, Command::New);
    assert!(harness.state().committed().bays.is_empty());
    press(&mut harness, Command::Open);
    settle(&mut harness);
    assert_eq!(*harness.state().committed(), shed());
    std::fs::remove_dir_all(&dir).unwrap();
}

#[test]
fn without_a_dialog_the_path_is_typed() {
    let dir = folder("typed");
    let path = dir.join("shed");
    let catalogue = Arc::new(store::embedded_catalogue());
    let editor = Editor::for_test(shed(), catalogue).with_chooser(Arc::new(Prepared::default()));
    let mut harness = window_on(editor, SMALL);
    press(&mut harness, Command::SaveAs);
    settle(&mut harness);
    harness.get_by_label("Save the site");
    replace_in(&mut harness, "Path", path.to_str().unwrap());
    harness.key_press(Key::Enter);
    harness.run();
    // The ending is supplied.
    assert_eq!(store::open(&dir.join("shed.ron")).unwrap(), shed());
    std::fs::remove_dir_all(&dir).unwrap();
}

/// Replaces the whole text of a question's field.
fn replace_in(harness: &mut Harness<'_, Editor>, name: &str, text: &str) {
    field(harness, name).focus();
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    harness.event(Event::Text(text.to_owned()));
    harness.run();
}

#[test]
fn a_file_that_cannot_be_used_is_told_and_left_alone() {
    let dir = folder("unusable");
    let path = dir.join("broken.ron");
    std::fs::write(&path, "Rafterglow(format: 1, site: (").unwrap();
    let mut harness = window(shed());
    press(&mut harness, Command::Open);
    replace_in(&mut harness, "Path", path.to_str().unwrap());
    harness.get_by_label("Open").click();
    harness.run();
    harness.get_by_label_contains("broken.ron: line 1");
    assert_eq!(*harness.state().committed(), shed());
    // Saving over it needs a word.
    harness.key_press(Key::Escape);
    harness.run();
    press(&mut harness, Command::SaveAs);
    replace_in(&mut harness, "Path", path.to_str().unwrap());
    harness.key_press(Key::Enter);
    harness.run();
    assert!(store::open(&path).is_err());
    harness.get_by_label("Replace what is there").click();
    harness.run();
    assert_eq!(store::open(&path).unwrap(), shed());
    std::fs::remove_dir_all(&dir).unwrap();
}

#[test]
fn unsaved_work_is_asked_about_before_it_would_be_lost() {
    let mut harness = window(Site::default());
    type_into(&mut harness, "Name", "boat hall", Key::Enter);
    press(&mut harness, Command::New);
    harness.get_by_label("Save what you changed in boat hall?");
    harness.get_by_label("Cancel").click();
    harness.run();
    assert_eq!(harness.state().committed().name, "boat hall");
    press(&mut harness, Command::New);
    harness.get_by_label("Don't save").click();
    harness.run();
    assert_eq!(harness.state().committed().name, "");
}

#[test]
fn a_crash_leaves_a_copy_that_is_offered_and_taken_up() {
    let dir = folder("crash");
    let catalogue = Arc::new(store::embedded_catalogue());
    {
        let slot = store::recovery::Slot::claim(&dir).unwrap();
        slot.write(&shed(), None).unwrap();
    }
    let editor = Editor::for_test(Site::default(), catalogue).with_state_dir(dir.clone());
    let mut harness = window_on(editor, SMALL);
    harness.get_by_label("There is work that was not saved");
    harness.get_by_label("Restore").click();
    harness.run();
    assert_eq!(*harness.state().committed(), shed());
    // It is unsaved still.
    press(&mut harness, Command::New);
    harness.get_by_label("Save what you changed in net shed?");
    drop(harness);
    std::fs::remove_dir_all(&dir).unwrap();
}

#[test]
fn the_safety_words_are_shown_once() {
    let dir = folder("words");
    let catalogue = Arc::new(store::embedded_catalogue());
    let open = || {
        let editor = Editor::for_test(shed(), Arc::clone(&catalogue)).with_state_dir(dir.clone());
        window_on(editor, SMALL)
    };
    let mut harness = open();
    harness.key_press(Key::Escape);
    harness.run();
    harness.get_by_label("I have read this").click();
    harness.run();
    assert!(harness.query_by_label("I have read this").is_none());
    drop(harness);
    assert!(open().query_by_label("I have read this").is_none());
    std::fs::remove_dir_all(&dir).unwrap();
}

#[test]
fn a_number_of_the_policy_is_overridden_with_a_reason_and_taken_back() {
    let mut harness = window(shed());
    enter_stage(&mut harness, Stage::Sheets);
    harness
        .get_by_label("Numbers and their sources…")
        .scroll_to_me();
    harness.run();
    harness.get_by_label("Numbers and their sources…").click();
    harness.run();
    let item = rafterglow::site::PolicyItem::RunToRun;
    let name = item.facts().label;
    type_into(&mut harness, name, "0.5 m", Key::Enter);
    let value = |harness: &Harness<'_, Editor>| harness.state().committed().policy.value(item);
    assert!((value(&harness) - 0.5).abs() < 1e-12);
    type_into(
        &mut harness,
        &format!("Reason for: {name}"),
        "service lift",
        Key::Enter,
    );
    let given = harness.state().committed().policy.given(item).cloned();
    assert_eq!(
        given.map(|given| given.reason).as_deref(),
        Some("service lift")
    );
    type_into(&mut harness, name, "90 m", Key::Tab);
    assert!((value(&harness) - 0.5).abs() < 1e-12, "beyond its bounds");
    replace_in(&mut harness, name, " ");
    harness.key_press(Key::Enter);
    harness.run();
    assert!((value(&harness) - 0.3).abs() < 1e-12);
}

#[test]
fn every_control_of_every_stage_has_a_name_and_nothing_is_cut_off() {
    for size in [SMALL, vec2(960.0, 640.0)] {
        for stage in Stage::ALL {
            let catalogue = Arc::new(store::embedded_catalogue());
            let mut harness = window_on(Editor::for_test(shed(), catalogue), size);
            enter_stage(&mut harness, stage);
            harness.check_accessibility();
            check_sides(&harness, size, &format!("{stage:?} at {size:?}"));
        }
    }
}

/// Panels scroll downward; nothing may reach over the window's sides.
fn check_sides(harness: &Harness<'_, Editor>, size: Vec2, place: &str) {
    for node in harness.root().children_recursive() {
        let accesskit = node.accesskit_node();
        let is_control = matches!(
            accesskit.role(),
            Role::Button | Role::TextInput | Role::RadioButton | Role::ComboBox | Role::Tab
        );
        if is_control && !accesskit.is_hidden() {
            let rect = node.rect();
            let name = accesskit.label().unwrap_or_default();
            assert!(
                rect.left() >= 0.0 && rect.right() <= size.x,
                "{place}: {name} reaches {rect:?}"
            );
        }
    }
}

#[test]
fn the_buttons_of_the_top_bar_never_lie_on_each_other() {
    for width in [960.0, 1100.0, 1280.0, 1600.0] {
        let catalogue = Arc::new(store::embedded_catalogue());
        let site = Edit::Name("a name that is longer than any bar has room for".to_owned())
            .apply(&shed())
            .unwrap();
        let harness = window_on(Editor::for_test(site, catalogue), vec2(width, 800.0));
        let mut spans: Vec<(f32, f32)> = harness
            .root()
            .children_recursive()
            .filter(|node| {
                let role = node.accesskit_node().role();
                matches!(role, Role::Button | Role::RadioButton) && node.rect().bottom() < 50.0
            })
            .map(|node| (node.rect().left(), node.rect().right()))
            .collect();
        assert!(spans.len() >= 9, "{}", spans.len());
        spans.sort_by(|one, other| one.0.total_cmp(&other.0));
        for pair in spans.windows(2) {
            assert!(pair[0].1 <= pair[1].0 + 0.5, "{width}: {pair:?}");
        }
    }
}
