//! Files written and read back: sites, recovery copies, recent files, sets of sheets.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use crate::folder::Folder;
use crate::sound::{m, site};
use rafterglow::geometry::DVec2;
use rafterglow::site::{Run, Site};
use rafterglow::store::recovery::Slot;
use rafterglow::store::{self, OutputFile, StoreError, recent, recovery};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

#[test]
fn a_saved_site_is_the_same_when_opened() {
    let folder = Folder::new("same");
    let path = folder.file("shed.ron");
    store::save(&path, &site()).unwrap();
    assert_eq!(store::open(&path).unwrap(), site());
    store::save(&path, &Site::default()).unwrap();
    assert_eq!(store::open(&path).unwrap(), Site::default());
    assert_eq!(folder.names(), ["shed.ron"], "nothing is left beside it");
}

#[test]
fn every_bit_of_a_number_survives() {
    let mut random = fastrand::Rng::with_seed(5);
    for _ in 0..200 {
        let mut drawn = site();
        let scheme = Arc::make_mut(&mut drawn.schemes[0]);
        let mut number = || (random.f64() - 0.5) * 10f64.powi(random.i32(-12..3));
        let run = Run {
            burner: DVec2::new(number(), number()),
            tube_height: m(number().abs() / 4.0 + 0.001),
            ..Run::clone(&scheme.runs[0])
        };
        scheme.runs[0] = Arc::new(run);
        let path = Path::new("shed.ron");
        let text = store::text_of(path, &drawn).unwrap();
        let read = store::parse(path, &text).unwrap();
        let (was, is) = (&drawn.schemes[0].runs[0], &read.schemes[0].runs[0]);
        assert_eq!(was.burner.x.to_bits(), is.burner.x.to_bits());
        assert_eq!(was.burner.y.to_bits(), is.burner.y.to_bits());
        assert_eq!(read, drawn);
        assert_eq!(store::text_of(path, &read).unwrap(), text);
    }
}

#[test]
fn people_can_read_the_file_and_compare_two() {
    let text = store::text_of(Path::new("shed.ron"), &site()).unwrap();
    for line in [
        "Rafterglow(",
        "    format: 1,",
        "            (id: \"A\", from: (-2.0, 0.0), to: (32.0, 0.0)),",
        "                outline: [(0.0, 0.0), (30.0, 0.0), (30.0, 24.0), (0.0, 24.0)],",
        "                roof: SingleSlope(rises_toward: 0.0, pitch: 0.05),",
        "                        burner: (3.0, 6.0),",
        "                        shape: Hairpin(return_leg: Right),",
    ] {
        assert!(
            text.lines().any(|it| it == line),
            "{line:?} is no line of\n{text}"
        );
    }
    let notes = |line: &str| line.contains("notes: ");
    let long = text
        .lines()
        .filter(|it| 100 < it.chars().count() && !notes(it));
    assert_eq!(long.collect::<Vec<_>>(), Vec::<&str>::new());
    // Moving a run changes one line.
    let mut moved = site();
    let scheme = Arc::make_mut(&mut moved.schemes[0]);
    Arc::make_mut(&mut scheme.runs[0]).burner.x += 0.25;
    let moved = store::text_of(Path::new("shed.ron"), &moved).unwrap();
    let n_changed = text
        .lines()
        .zip(moved.lines())
        .filter(|(a, b)| a != b)
        .count();
    assert_eq!(
        (n_changed, text.lines().count()),
        (1, moved.lines().count())
    );
}

#[test]
fn bearings_of_a_file_come_into_one_turn() {
    let path = Path::new("shed.ron");
    let text = store::text_of(path, &site()).unwrap();
    let text = text.replace("bearing: 12.5", "bearing: -347.5");
    assert_eq!(store::parse(path, &text).unwrap(), site());
}

#[test]
fn what_cannot_be_read_is_not_saved_over() {
    let folder = Folder::new("over");
    let path = folder.file("shed.ron");
    let newer = "Rafterglow(format: 2, site: ())";
    for there in [newer, "a letter to the harbour master", ""] {
        fs::write(&path, there).unwrap();
        let refused = store::save(&path, &site()).unwrap_err();
        assert!(
            matches!(refused, StoreError::WouldReplace { .. }),
            "{refused}"
        );
        assert_eq!(fs::read_to_string(&path).unwrap(), there);
    }
    store::save_over(&path, &site()).unwrap();
    assert_eq!(store::open(&path).unwrap(), site());
}

#[test]
fn a_save_that_fails_leaves_the_old_file() {
    let folder = Folder::new("fails");
    let path = folder.file("not-there/shed.ron");
    let refused = store::save(&path, &site()).unwrap_err();
    assert!(matches!(refused, StoreError::System { .. }), "{refused}");
    assert!(refused.to_string().contains("shed.ron"));
    assert_eq!(folder.names(), Vec::<String>::new());
}

#[cfg(unix)]
#[test]
fn permissions_and_links_are_kept() {
    use std::os::unix::fs::PermissionsExt;
    let folder = Folder::new("links");
    let path = folder.file("shed.ron");
    store::save(&path, &Site::default()).unwrap();
    fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
    let link = folder.file("link.ron");
    std::os::unix::fs::symlink(&path, &link).unwrap();
    store::save(&link, &site()).unwrap();
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    assert_eq!(store::open(&path).unwrap(), site());
    let mode = fs::metadata(&path).unwrap().permissions().mode();
    assert_eq!(mode & 0o777, 0o640);
}

#[test]
fn a_copy_is_found_only_once_its_program_is_gone() {
    let folder = Folder::new("recovery");
    let dir = folder.file("state");
    let original = PathBuf::from("/srv/harbour/shed.ron");
    assert!(recovery::find(&dir).is_empty());
    let crashed = Slot::claim(&dir).unwrap();
    let running = Slot::claim(&dir).unwrap();
    crashed.write(&Site::default(), None).unwrap();
    crashed.write(&site(), Some(&original)).unwrap();
    running.write(&Site::default(), None).unwrap();
    assert!(recovery::find(&dir).is_empty(), "both still run");
    drop(crashed);
    let left = recovery::find(&dir);
    assert_eq!(left.len(), 1);
    assert_eq!(left[0].original.as_ref(), Some(&original));
    assert_eq!(*left[0].site.as_ref().unwrap(), site());
    assert!(left[0].written.is_some());
    // The next program does not write over it.
    let next = Slot::claim(&dir).unwrap();
    next.write(&Site::default(), None).unwrap();
    assert_eq!(recovery::find(&dir).len(), 1);
    recovery::remove(&left[0]).unwrap();
    recovery::remove(&left[0]).unwrap();
    assert!(recovery::find(&dir).is_empty());
    for slot in [running, next] {
        slot.clear().unwrap();
        slot.clear().unwrap();
    }
    assert!(recovery::find(&dir).is_empty(), "all was saved");
}

#[test]
fn a_damaged_copy_is_reported_and_left() {
    let folder = Folder::new("damaged");
    let slot = Slot::claim(folder.path()).unwrap();
    slot.write(&site(), None).unwrap();
    drop(slot);
    let copy = folder.file("recovery-0.ron");
    let text = fs::read_to_string(&copy).unwrap();
    fs::write(&copy, &text[..text.len() / 2]).unwrap();
    let left = recovery::find(folder.path());
    assert!(matches!(left[0].site, Err(StoreError::Malformed { .. })));
    assert!(copy.exists());
}

#[test]
fn recent_files_stand_newest_first_and_once() {
    let folder = Folder::new("recent");
    let dir = folder.file("state");
    assert!(recent::read(&dir).is_empty());
    for name in ["a", "b", "a", "c"] {
        recent::note(&dir, &Path::new("/srv").join(name)).unwrap();
    }
    let expected = ["/srv/c", "/srv/a", "/srv/b"].map(PathBuf::from);
    assert_eq!(recent::read(&dir), expected);
    recent::forget(&dir, Path::new("/srv/a")).unwrap();
    assert_eq!(recent::read(&dir).len(), 2);
    for i in 0..50 {
        recent::note(&dir, Path::new(&format!("/srv/{i}"))).unwrap();
    }
    assert_eq!(recent::read(&dir).len(), recent::MOST);
    fs::write(dir.join("recent.txt"), b"\xff\xfe").unwrap();
    assert!(
        recent::read(&dir).is_empty(),
        "a damaged list is an empty one"
    );
    recent::note(&dir, Path::new("/srv/z")).unwrap();
    assert_eq!(recent::read(&dir), [PathBuf::from("/srv/z")]);
}

fn file(name: &str, bytes: &str) -> OutputFile {
    OutputFile {
        name: name.to_owned(),
        bytes: bytes.as_bytes().to_vec(),
    }
}

#[test]
fn a_set_of_files_is_written_whole() {
    let folder = Folder::new("set");
    let dir = folder.file("sheets");
    store::write_all(&dir, &[file("plan.svg", "one"), file("plan.csv", "two")]).unwrap();
    store::write_all(&dir, &[file("plan.svg", "three")]).unwrap();
    assert_eq!(fs::read_to_string(dir.join("plan.svg")).unwrap(), "three");
    assert_eq!(fs::read_to_string(dir.join("plan.csv")).unwrap(), "two");
}

#[test]
fn a_set_of_files_is_written_whole_or_not_at_all() {
    let folder = Folder::new("whole");
    fs::write(folder.file("plan.svg"), "old").unwrap();
    fs::create_dir(folder.file("plan.csv")).unwrap();
    let set = [
        file("plan.svg", "new"),
        file("first.pdf", "new"),
        file("plan.csv", "new"),
    ];
    assert!(store::write_all(folder.path(), &set).is_err());
    assert_eq!(folder.names(), ["plan.csv", "plan.svg"]);
    assert_eq!(fs::read_to_string(folder.file("plan.svg")).unwrap(), "old");
    for name in ["../plan.svg", "a/b", "", "..", "a\\b", "c:plan"] {
        let refused = store::write_all(folder.path(), &[file("first.pdf", "x"), file(name, "x")]);
        assert!(
            matches!(refused, Err(StoreError::NotAName { .. })),
            "{name}"
        );
    }
    assert_eq!(folder.names(), ["plan.csv", "plan.svg"]);
    assert!(
        store::write_all(&folder.file("plan.svg"), &set).is_err(),
        "no folder"
    );
}
