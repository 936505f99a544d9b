//! Files that can't be used: each gets one clear message, at once, and no panic.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use crate::folder::Folder;
use crate::sound::site;
use rafterglow::store::{self, StoreError};
use std::path::Path;
use std::time::{Duration, Instant};

/// Longer than any bad file takes on the slowest machine: what takes this long hangs.
/// How fast it really is, is no matter for a test that shares its machine.
const AT_ONCE: Duration = Duration::from_secs(300);

fn sound_text() -> String {
    store::text_of(Path::new("site.ron"), &site()).unwrap()
}

/// The message for a text, which must come at once and name the file.
fn message(text: &str) -> String {
    let start = Instant::now();
    let refused = store::parse(Path::new("shed.ron"), text).unwrap_err();
    assert!(start.elapsed() < AT_ONCE, "took {:?}", start.elapsed());
    let message = refused.to_string();
    assert!(message.starts_with("shed.ron: "), "{message}");
    message
}

/// The message for the sound text with one piece replaced.
fn message_with(piece: &str, bad: &str) -> String {
    let sound = sound_text();
    assert!(
        sound.contains(piece),
        "{piece:?} is not in the file:\n{sound}"
    );
    message(&sound.replacen(piece, bad, 1))
}

fn check(piece: &str, bad: &str, expected: &[&str]) {
    let message = message_with(piece, bad);
    for part in expected {
        assert!(message.contains(part), "{part:?} is not in: {message}");
    }
}

#[test]
fn a_file_cut_short_anywhere_is_refused_with_its_place() {
    let text = sound_text();
    let end = text.trim_end().len();
    for cut in (0..end).step_by(64).chain(end - 40..end) {
        let Some(part) = text.get(..cut) else {
            continue;
        };
        let message = message(part);
        let has_place = message.contains("line ") && message.contains("column ");
        assert!(has_place || cut == 0, "cut at {cut}: {message}");
    }
    assert!(message("").contains("is empty"));
    assert!(message(" \n\t").contains("is empty"));
}

#[test]
fn wrong_types_and_unknown_fields_are_refused_with_their_place() {
    check(
        "eave: 7.0",
        "eave: \"high\"",
        &["line ", "column ", "float"],
    );
    check("eave: 7.0", "eave: ()", &["line "]);
    check(
        "fixed_hanger: Some(2)",
        "fixed_hanger: Some(-2)",
        &["line "],
    );
    check("edge: 0", "edge: 0.5", &["line "]);
    check(
        "kind: SectionalDoor",
        "kind: TrapDoor",
        &["TrapDoor", "SectionalDoor"],
    );
    check("eave: 7.0", "eaves: 7.0", &["eaves", "eave"]);
    check("eave: 7.0", "eave: 7.0, eave: 8.0", &["eave"]);
    check(
        "    format: 1,",
        "    format: 1, extra: 2,",
        &["extra", "site"],
    );
    check("eave: 7.0,", "", &["eave"]);
    check("(-2.0, 0.0)", "(-2.0)", &["line "]);
    check("(-2.0, 0.0)", "(-2.0, 0.0, 1.0)", &["line "]);
}

#[test]
fn a_newer_format_is_refused_for_what_it_is() {
    check(
        "format: 1",
        "format: 2",
        &["format 2", "newer version", "left as it is"],
    );
    // Whatever else is new in it comes after.
    let text = "Rafterglow(format: 7, building: (shape: Dome))";
    assert!(message(text).contains("format 7"));
    check("format: 1", "format: 0", &["format 0", "accepted: 1 to 1"]);
    check("format: 1", "format: -1", &["line 2"]);
    check("format: 1,", "", &["`format`"]);
    check(
        "format: 1",
        "format: 99999999999999999999999999",
        &["line 2"],
    );
}

#[test]
fn other_files_are_named_as_such() {
    for text in [
        "hello",
        "{\"name\": \"a site\"}",
        "<svg/>",
        "RafterglowCatalogue(format: 1, families: [])",
        "Rafterglow",
        "()",
        "[]",
        "\u{feff}",
    ] {
        let message = message(text);
        assert!(
            message.contains("Rafterglow") || message.contains("`format`"),
            "{text}: {message}"
        );
    }
    assert!(store::parse(Path::new("x"), &format!("\u{feff}{}", sound_text())).is_ok());
}

#[test]
fn noise_is_refused_at_once() {
    let mut random = fastrand::Rng::with_seed(7);
    for n in [1, 10, 1_000, 100_000] {
        let noise: String = (0..n).map(|_| random.char(' '..='~')).collect();
        message(&noise);
    }
    for open in ["(", "[", "{", "Some(", "/*", "\"", "r#\"", "\\", "//"] {
        message(&open.repeat(200_000));
        message(&format!(
            "Rafterglow(format: 1, site: {}",
            open.repeat(200_000)
        ));
        let nested = open.repeat(200_000);
        message_with("notes: \"measured\"", &format!("notes: {nested}"));
        message_with("outline: [", &format!("outline: [{nested}"));
    }
}

#[test]
fn damaged_bytes_never_panic() {
    let text = sound_text();
    let mut random = fastrand::Rng::with_seed(11);
    for _ in 0..3_000 {
        let mut bytes = text.clone().into_bytes();
        for _ in 0..random.usize(1..4) {
            let at = random.usize(..bytes.len());
            match random.u32(..4) {
                0 => bytes[at] = random.u8(..),
                1 => {
                    let end = (at + random.usize(..30)).min(bytes.len());
                    bytes.drain(at..end);
                }
                2 => bytes[at] = *random.choice(b"0123456789-.e(),:[]\"").unwrap(),
                _ => {
                    let piece = bytes[at..(at + 20).min(bytes.len())].to_vec();
                    let to = random.usize(..bytes.len());
                    bytes.splice(to..to, piece);
                }
            }
            if bytes.is_empty() {
                bytes.push(b'x');
            }
        }
        let Ok(text) = String::from_utf8(bytes) else {
            continue;
        };
        match store::parse(Path::new("damaged.ron"), &text) {
            Ok(site) => assert_eq!(site.validate(), Ok(())),
            Err(refused) => assert!(!refused.to_string().is_empty()),
        }
    }
}

#[test]
fn bytes_that_are_no_site_are_refused_before_they_are_read() {
    let folder = Folder::new("bytes");
    let path = folder.file("noise.ron");
    let open = |bytes: &[u8]| {
        std::fs::write(&path, bytes).unwrap();
        let start = Instant::now();
        let refused = store::open(&path).unwrap_err();
        assert!(start.elapsed() < AT_ONCE, "took {:?}", start.elapsed());
        assert_eq!(
            std::fs::read(&path).unwrap(),
            bytes,
            "the file is left as it is"
        );
        refused
    };
    let mut random = fastrand::Rng::with_seed(3);
    let noise: Vec<u8> = (0..50_000_000).map(|_| random.u8(..)).collect();
    assert!(matches!(
        open(&noise),
        StoreError::TooLarge {
            n_bytes: 50_000_000,
            ..
        }
    ));
    assert!(matches!(
        open(&noise[..1_000_000]),
        StoreError::NotText { .. }
    ));
    assert!(matches!(open(&[b' '; 1_000]), StoreError::Empty { .. }));
    let refused = open(b"Rafterglow(\n  format: 1,\n  \xff\xfe)").to_string();
    assert!(refused.contains("line 3, column 3"), "{refused}");
    assert!(matches!(
        store::open(folder.path()).unwrap_err(),
        StoreError::NotAFile { .. }
    ));
    let missing = store::open(&folder.file("missing.ron")).unwrap_err();
    assert!(matches!(missing, StoreError::System { .. }), "{missing}");
}

/// As large as is accepted, and full of one thing: none of it takes its time.
#[test]
fn files_full_of_one_thing_are_refused_at_once() {
    let text = sound_text();
    let fill = |before: &str, filling: &str, n_bytes: usize, expected: &str| {
        let (head, tail) = text.split_once(before).unwrap();
        let mut full = format!("{head}{before}");
        while full.len() + tail.len() + filling.len() < n_bytes {
            full.push_str(filling);
        }
        full.push_str(tail);
        let message = message(&full);
        assert!(message.contains(expected), "{filling:?}: {message}");
    };
    let most = 32 * 1024 * 1024;
    fill("outline: [", "(0,1),", most, "brackets and commas");
    // The most corners that are read at all.
    fill("outline: [", "(0,1),", 2_900_000, "corners of all outlines");
    fill("open_edges: [", "1,", 2_900_000, "open_edges");
    fill("bears_on: [", "\"A\",", 5_900_000, "bears_on");
    fill("notes: \"", "a long story ", most, "notes");
    fill("notes: \"", "\\x41", most, "notes");
    // Comments and blanks, however many, make no file bad.
    for filling in ["/**/", "\n"] {
        let (head, tail) = text.split_at("Rafterglow(".len());
        let full = format!("{head}{}{tail}", filling.repeat(8_000_000));
        assert!(store::parse(Path::new("shed.ron"), &full).is_ok());
    }
}

#[test]
fn the_same_numbers_are_refused_in_a_file() {
    for (bad, found) in [
        ("NaN", "not a number"),
        ("inf", "inf m"),
        ("1e300", "1e300 m"),
        ("1e999", "inf m"),
    ] {
        check(
            "from: (-2.0, 0.0)",
            &format!("from: ({bad}, 0.0)"),
            &["grid[0].from.x (A)", found],
        );
    }
    let spacing = ["framings[0].spacing (J)", "1e-300 m", "0.1 to 10000 m"];
    check("spacing: 1.83", "spacing: 1e-300", &spacing);
}

#[test]
fn a_self_crossing_outline_in_a_file_names_the_edges() {
    check(
        "outline: [(0.0, 0.0), (30.0, 0.0), (30.0, 24.0), (0.0, 24.0)]",
        "outline: [(0.0, 0.0), (30.0, 24.0), (30.0, 0.0), (0.0, 24.0)]",
        &[
            "bays[0].outline[2] (B1)",
            "edges 1 and 3 of the outline meet",
        ],
    );
}

#[test]
fn catalogue_files_have_a_door_too() {
    let path = Path::new("assets/catalogue/generic-straight.ron");
    let text = std::fs::read_to_string(path).unwrap();
    let check = |piece: &str, bad: &str, expected: &[&str]| {
        assert!(text.contains(piece), "{piece}");
        let bad = text.replacen(piece, bad, 1);
        let message = store::catalogue_file::parse(path, &bad)
            .unwrap_err()
            .to_string();
        for part in expected {
            assert!(message.contains(part), "{part:?} is not in: {message}");
        }
    };
    check(
        "first_least: 0.1",
        "first_least: 0.7",
        &["hanging.first_greatest", "no less than"],
    );
    check(
        "second_least: 1.1",
        "second_least: 0.0",
        &["hanging.second_least", "0.05 to"],
    );
    check(
        "joint_keep_off: 0.1",
        "joint_keep_off: 1.6",
        &["joint_keep_off", "0 to 1.5 m"],
    );
    check(
        "tilt_from: 20.0",
        "tilt_from: 19.0",
        &["keep_clear[1].tilt_from", "an overlap"],
    );
    check(
        "tilt_from: 20.0",
        "tilt_from: 21.0",
        &["keep_clear[1].tilt_from", "a gap"],
    );
    check(
        "above: 0.3",
        "above: NaN",
        &["keep_clear[0].distances.above", "not a number"],
    );
    // A size's own table and heights pass the same door.
    let of_size = |own: &str| format!("burner_mass: 22.0, {own}),");
    check(
        "burner_mass: 22.0),",
        &of_size("mounting: Some((least: 6.0, greatest: 5.0))"),
        &["sizes[0].mounting.greatest", "no less than the least"],
    );
    let band = |above: &str| {
        of_size(&format!(
            "keep_clear: [(tilt_from: 0.0, tilt_to: 20.0, shields: Without, distances: (above: {above}, below: 2.0, front: 1.0, rear: 1.0, burner_end: 0.6, exhaust_end: 0.6))]"
        ))
    };
    check(
        "burner_mass: 22.0),",
        &band("-0.1"),
        &["sizes[0].keep_clear[0].distances.above", "0 to 20 m"],
    );
    check(
        "id: \"22-9\"",
        "id: \"18-6\"",
        &["sizes[1].id", "no other size"],
    );
    check(
        "tube_up_to: 12.0",
        "tube_up_to: 9.0",
        &["least_suspension[1]", "before it"],
    );
    check(
        "thermal_efficiency: 0.9",
        "thermal_efficiency: 0.5",
        &["radiant_factor"],
    );
    check(
        "input_net: 18000.0",
        "input_net: 18.0",
        &["sizes[0].input_net", "500 to"],
    );
    check("format: 1", "format: 3", &["format 3", "newer"]);
    check(
        "RafterglowCatalogue",
        "Rafterglow",
        &["RafterglowCatalogue("],
    );
    for cut in (0..text.trim_end().len()).step_by(64) {
        assert!(store::catalogue_file::parse(path, &text[..cut]).is_err());
    }
}
