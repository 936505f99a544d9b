//! Bad files given to the program itself: exit code 2, one message, nothing on standard
//! output, nothing written.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use crate::folder::Folder;
use crate::sound::site;
use rafterglow::store;
use std::path::Path;
use std::process::{Command, Output};
use std::time::{Duration, Instant};

/// As in the tests of the files themselves: what takes this long hangs.
const AT_ONCE: Duration = Duration::from_secs(300);

fn rafterglow(arguments: &[&Path]) -> Output {
    let start = Instant::now();
    let output = Command::new(env!("CARGO_BIN_EXE_rafterglow"))
        .args(arguments)
        .output()
        .unwrap();
    assert!(start.elapsed() < AT_ONCE, "took {:?}", start.elapsed());
    output
}

fn check(folder: &Folder, bytes: &[u8], expected: &str) {
    let path = folder.file("bad.ron");
    std::fs::write(&path, bytes).unwrap();
    let hung = folder.file("hung.ron");
    let commands: [&[&Path]; 3] = [
        &["check".as_ref(), &path],
        &["check".as_ref(), &path, "--json".as_ref()],
        &["hang".as_ref(), &path, "-o".as_ref(), &hung],
    ];
    for command in commands {
        let output = rafterglow(command);
        let message = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(2), "{command:?}: {message}");
        assert!(output.stdout.is_empty(), "{command:?}");
        assert_eq!(message.matches("rafterglow: ").count(), 1, "{message}");
        assert!(message.contains("bad.ron"), "{message}");
        assert!(
            message.contains(expected),
            "{expected:?} is not in: {message}"
        );
        assert!(!message.contains("panicked"), "{message}");
    }
    assert_eq!(folder.names(), ["bad.ron"], "nothing is written");
    assert_eq!(std::fs::read(&path).unwrap(), bytes, "it is left as it is");
}

#[test]
fn every_command_refuses_an_unusable_site() {
    let folder = Folder::new("cli");
    let text = store::text_of(Path::new("site.ron"), &site()).unwrap();
    let with = |piece: &str, bad: &str| {
        assert!(text.contains(piece), "{piece}");
        text.replacen(piece, bad, 1).into_bytes()
    };
    check(&folder, b"", "is empty");
    check(&folder, &text.as_bytes()[..text.len() / 2], "line ");
    check(&folder, &with("eave: 7.0", "eave: \"high\""), "float");
    check(
        &folder,
        &with("eave: 7.0", "eave: NaN"),
        "bays[0].eave (B1)",
    );
    check(
        &folder,
        &with("(-2.0, 0.0)", "(1e300, 0.0)"),
        "grid[0].from.x",
    );
    let crossing = with("[(0.0, 0.0), (30.0, 0.0),", "[(30.0, 0.0), (0.0, 0.0),");
    check(&folder, &crossing, "bays[0].outline");
    check(
        &folder,
        &with("bay: \"B1\"", "bay: \"B7\""),
        "openings[0].bay (D1)",
    );
    check(
        &folder,
        &with("id: \"R2\"", "id: \"R1\""),
        "schemes[0].runs[1].id",
    );
    check(
        &folder,
        &with("spacing: 1.83", "spacing: 1e-300"),
        "framings[0].spacing",
    );
    check(&folder, &with("generic-straight", "north-9"), "north-9");
    check(&folder, &with("format: 1", "format: 2"), "newer version");
    let mut random = fastrand::Rng::with_seed(3);
    let noise: Vec<u8> = (0..50_000_000).map(|_| random.u8(..)).collect();
    check(&folder, &noise, "50000000 bytes");
    check(&folder, &noise[..100_000], "UTF-8");
    check(&folder, "(".repeat(1_000_000).as_bytes(), "Rafterglow(");
}

#[test]
fn a_missing_file_and_a_folder_are_told_apart() {
    let folder = Folder::new("cli-missing");
    for (path, expected) in [
        (folder.file("missing.ron"), "can't be read"),
        (folder.path().to_owned(), "is no file"),
    ] {
        let output = rafterglow(&["check".as_ref(), &path]);
        assert_eq!(output.status.code(), Some(2));
        let message = String::from_utf8(output.stderr).unwrap();
        assert!(message.contains(expected), "{message}");
    }
}

#[test]
fn an_unusable_catalogue_is_refused_too() {
    let folder = Folder::new("cli-catalogue");
    let path = folder.file("bad.ron");
    let good = std::fs::read_to_string("assets/catalogue/generic-hairpin.ron").unwrap();
    for (bytes, expected) in [
        (String::new(), "is empty"),
        (
            good.replacen("above: 0.35", "above: inf", 1),
            "distances.above",
        ),
        (good.replacen("format: 1", "format: 9", 1), "newer version"),
    ] {
        std::fs::write(&path, bytes).unwrap();
        let output = rafterglow(&["catalogue".as_ref(), &path]);
        assert_eq!(output.status.code(), Some(2));
        let message = String::from_utf8(output.stderr).unwrap();
        assert!(message.contains(expected), "{message}");
    }
}
