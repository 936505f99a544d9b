//! House rules that the compiler can't keep.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::path::{Path, PathBuf};

/// The modules in import order, each with those above it that it may import.
const LAYERS: &[(&str, &[&str])] = &[
    ("units", &[]),
    ("geometry", &["units"]),
    ("problem", &[]),
    ("catalogue", &["units", "geometry", "problem"]),
    ("site", &["units", "geometry", "problem", "catalogue"]),
    ("structure", &["units", "geometry", "site"]),
    ("hanging", &["units", "geometry"]),
    ("warmth", &["units", "geometry"]),
    ("clearance", &["units", "geometry"]),
    (
        "study",
        &[
            "units",
            "geometry",
            "catalogue",
            "site",
            "structure",
            "hanging",
            "clearance",
        ],
    ),
    (
        "findings",
        &[
            "units",
            "geometry",
            "catalogue",
            "site",
            "structure",
            "hanging",
            "clearance",
            "study",
        ],
    ),
    (
        "views",
        &[
            "units",
            "geometry",
            "catalogue",
            "site",
            "structure",
            "hanging",
            "clearance",
            "study",
            "findings",
        ],
    ),
    (
        "remedies",
        &[
            "units",
            "geometry",
            "catalogue",
            "site",
            "structure",
            "hanging",
            "clearance",
            "study",
            "findings",
        ],
    ),
    (
        "sheets",
        &[
            "views",
            "units",
            "geometry",
            "catalogue",
            "site",
            "structure",
            "hanging",
            "clearance",
            "study",
            "findings",
        ],
    ),
    (
        "store",
        &["units", "geometry", "problem", "site", "catalogue"],
    ),
];

/// A file with more lines than this has two subjects.
const LONGEST: usize = 600;

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn rust_files(folder: &Path, into: &mut Vec<PathBuf>) {
    let mut entries: Vec<PathBuf> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            rust_files(&path, into);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            into.push(path);
        }
    }
}

/// The module of a file under `src/`: `src/hanging/choice.rs` and `src/hanging.rs` are `hanging`.
fn module_of(path: &Path) -> String {
    let inside = path.strip_prefix(root().join("src")).unwrap();
    let first = inside
        .components()
        .next()
        .unwrap()
        .as_os_str()
        .to_string_lossy()
        .into_owned();
    first.trim_end_matches(".rs").to_owned()
}

fn sources() -> Vec<(PathBuf, String)> {
    let mut files = Vec::new();
    rust_files(&root().join("src"), &mut files);
    files
        .into_iter()
        .map(|path| (path.clone(), std::fs::read_to_string(path).unwrap()))
        .collect()
}

/// Code lines with their numbers: comments say `crate::x` without importing it, and
/// what a file tests itself against is nobody's dependency.
fn code_lines(text: &str) -> impl Iterator<Item = (usize, &str)> {
    text.lines()
        .enumerate()
        .take_while(|(_, line)| !line.starts_with("#[cfg(test)]"))
        .filter(|(_, line)| !line.trim_start().starts_with("//"))
}

#[test]
fn imports_point_one_way() {
    let mut faults = Vec::new();
    for (path, text) in sources() {
        let module = module_of(&path);
        let Some((_, allowed)) = LAYERS.iter().find(|(name, _)| *name == module) else {
            continue;
        };
        for (number, line) in code_lines(&text) {
            if line.contains("super::super::super::") {
                faults.push(format!(
                    "{}:{}: climbs three modules up",
                    path.display(),
                    number + 1
                ));
            }
            for after in line.split("crate::").skip(1) {
                let used: String = after
                    .chars()
                    .take_while(|c| c.is_ascii_alphanumeric() || *c == '_')
                    .collect();
                let is_module = LAYERS.iter().any(|(name, _)| *name == used)
                    || ["cli", "editor"].contains(&used.as_str());
                if is_module && used != module && !allowed.contains(&used.as_str()) {
                    faults.push(format!(
                        "{}:{}: {module} uses {used}",
                        path.display(),
                        number + 1
                    ));
                }
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn only_the_editor_knows_the_window_toolkit_and_only_the_store_touches_files() {
    let mut faults = Vec::new();
    for (path, text) in sources() {
        let module = module_of(&path);
        for (number, line) in code_lines(&text) {
            let names = |word: &str| line.contains(word);
            if (names("egui::") || names("eframe::"))
                && !["editor", "main"].contains(&module.as_str())
            {
                faults.push(format!("{}:{}: names egui", path.display(), number + 1));
            }
            if names("std::fs") && module != "store" {
                faults.push(format!("{}:{}: touches files", path.display(), number + 1));
            }
            if (names("println!") || names("print!("))
                && !["cli", "main"].contains(&module.as_str())
            {
                faults.push(format!("{}:{}: prints", path.display(), number + 1));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn no_file_has_two_subjects() {
    let long: Vec<String> = sources()
        .iter()
        .filter(|(_, text)| text.lines().count() > LONGEST)
        .map(|(path, text)| format!("{}: {} lines", path.display(), text.lines().count()))
        .collect();
    assert!(long.is_empty(), "{}", long.join("\n"));
}

#[test]
fn every_path_named_in_the_guides_exists() {
    for guide in ["README.md", "DEVELOPERS.md"] {
        let text = std::fs::read_to_string(root().join(guide)).unwrap();
        for quoted in text.split('`').skip(1).step_by(2) {
            let looks_like_path = [
                "src/",
                "tests/",
                "assets/",
                "benches/",
                "sample-sites/",
                ".ci/",
            ]
            .iter()
            .any(|start| quoted.starts_with(start));
            let is_pattern = quoted.contains(['<', '*', ' ', '{']);
            if looks_like_path && !is_pattern {
                assert!(
                    root().join(quoted).exists(),
                    "{guide} names {quoted}, which is not there"
                );
            }
        }
    }
}
