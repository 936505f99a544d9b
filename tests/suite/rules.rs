//! Every rule on small sites: it fires where it should, stays quiet where it should, and
//! the whole report reads as expected.
//!
//! `tests/rules/<rule>/fires*.ron` and `quiet*.ron` are site files; what they are to say
//! stands beside them as `.txt`. `UPDATE=1 cargo test --test suite rules::` rewrites that,
//! and the change is reviewed like code.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use rafterglow::catalogue::Catalogue;
use rafterglow::findings::{Bound, Dimension, Finding, RULES, Severity, judge};
use rafterglow::site::Site;
use rafterglow::store;
use rafterglow::study::study;
use rafterglow::units::UnitSystem;
use std::collections::BTreeSet;
use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A place that just bears its level load never bears the load of a slack neighbour too,
/// so that fixtures about allowed loads can't avoid this caution.
const COMPANION: &str = "hang-point-overloaded-unlevel";

/// Where the fixtures are.
pub(crate) fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/rules")
}

/// The test families: one certified straight, one certified hairpin, one uncertified;
/// and the hardware that the program brings along.
pub(crate) fn catalogue() -> Arc<Catalogue> {
    let families = store::catalogue_file::open(&folder().join("family.ron")).unwrap();
    let mut catalogue = Catalogue::new(families);
    catalogue.hardware = store::embedded_hardware();
    Arc::new(catalogue)
}

/// A fixture's site.
pub(crate) fn open(path: &Path) -> Site {
    store::open(path).unwrap_or_else(|fault| panic!("{}: {fault}", path.display()))
}

/// What a site is told.
pub(crate) fn findings(site: &Site, catalogue: &Arc<Catalogue>) -> Vec<Finding> {
    let site = Arc::new(site.clone());
    judge(&site, catalogue, &study(&site, catalogue))
}

/// The fixtures of a rule, by name.
pub(crate) fn fixtures(rule: &str) -> Vec<PathBuf> {
    let folder = folder().join(rule);
    let entries = std::fs::read_dir(&folder).unwrap_or_else(|_| panic!("no {}", folder.display()));
    let mut paths: Vec<PathBuf> = entries
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "ron"))
        .collect();
    paths.sort();
    paths
}

fn is_named(path: &Path, start: &str) -> bool {
    path.file_name()
        .is_some_and(|name| name.to_string_lossy().starts_with(start))
}

fn report(findings: &[Finding], units: UnitSystem) -> String {
    let mut out = String::new();
    for finding in findings {
        let subjects: Vec<String> = finding.subjects.iter().map(ToString::to_string).collect();
        let severity = finding.severity.label();
        writeln!(out, "{severity} {}: {}", finding.rule, subjects.join(", ")).unwrap();
        writeln!(out, "    {}", finding.text_in(units)).unwrap();
        if let Some(place) = finding.place {
            let [x, y, z] = place.to_array().map(figure);
            writeln!(out, "    at {x}, {y}, {z}").unwrap();
        }
        if let Some(measured) = finding.measured {
            write!(out, "    {}", with_unit(measured, finding.dimension)).unwrap();
            if let Some(required) = finding.required {
                let bound = match finding.bound {
                    Bound::Least => "at least",
                    Bound::Greatest => "at most",
                };
                let required = with_unit(required, finding.dimension);
                write!(out, ", {bound} {required}").unwrap();
            }
            writeln!(out).unwrap();
        }
        writeln!(out, "    {}", finding.source).unwrap();
    }
    out
}

fn with_unit(value: f64, dimension: Dimension) -> String {
    format!("{} {}", figure(value), dimension.unit())
        .trim_end()
        .to_owned()
}

/// Three decimals, and no minus before nothing.
fn figure(value: f64) -> String {
    let text = format!("{value:.3}");
    match text.as_str() {
        "-0.000" => "0.000".to_owned(),
        _ => text,
    }
}

#[test]
fn every_rule_fires_and_stays_quiet_as_its_fixtures_say() {
    let catalogue = catalogue();
    let mut faults = String::new();
    for rule in RULES {
        let fixtures = fixtures(rule.name);
        for start in ["fires", "quiet"] {
            assert!(
                fixtures.iter().any(|path| is_named(path, start)),
                "{} has no {start} fixture",
                rule.name
            );
        }
        for path in fixtures {
            let site = open(&path);
            let found = findings(&site, &catalogue);
            let fires = found.iter().any(|finding| finding.rule == rule.name);
            if fires != is_named(&path, "fires") {
                writeln!(faults, "{}: fires is {fires}", path.display()).unwrap();
            }
            let others: BTreeSet<&str> = found
                .iter()
                .filter(|finding| finding.rule != rule.name && finding.severity != Severity::Note)
                .filter(|finding| finding.rule != COMPANION)
                // What comes with a fixture's subject may be accepted there, with a reason.
                .filter(|finding| finding.accepted.is_none())
                .map(|finding| finding.rule)
                .collect();
            if !others.is_empty() {
                writeln!(faults, "{}: {others:?} too", path.display()).unwrap();
            }
            compare(
                &path.with_extension("txt"),
                &report(&found, site.units),
                &mut faults,
            );
        }
    }
    assert!(faults.is_empty(), "\n{faults}");
}

fn compare(expected: &Path, found: &str, faults: &mut String) {
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(expected, found).unwrap();
        return;
    }
    let known = std::fs::read_to_string(expected).unwrap_or_default();
    if known != found {
        let path = expected.display();
        writeln!(
            faults,
            "{path} expects\n{known}but found\n{found}(UPDATE=1 rewrites it)"
        )
        .unwrap();
    }
}

#[test]
fn every_folder_of_fixtures_belongs_to_a_rule() {
    for entry in std::fs::read_dir(folder()).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if path.is_dir() {
            assert!(
                RULES.iter().any(|rule| rule.name == name),
                "{name} is no rule"
            );
        }
    }
}

#[test]
fn every_finding_has_a_source_a_text_and_a_sound_figure() {
    let catalogue = catalogue();
    for rule in RULES {
        for path in fixtures(rule.name) {
            for finding in findings(&open(&path), &catalogue) {
                let about = format!("{}: {}", path.display(), finding.rule);
                assert!(
                    !finding.source.is_empty() && !finding.subjects.is_empty(),
                    "{about}"
                );
                let text = finding.text_in(UnitSystem::Metric);
                assert!(
                    text.ends_with('.') && !text.contains("  "),
                    "{about}: {text}"
                );
                if let (Some(measured), Some(required)) = (finding.measured, finding.required) {
                    let beyond = match finding.bound {
                        Bound::Least => measured < required,
                        Bound::Greatest => measured > required,
                    };
                    assert!(beyond, "{about}: {measured} is not beyond {required}");
                }
                assert!(
                    finding.place.is_none_or(|place| place.is_finite()),
                    "{about}"
                );
            }
        }
    }
}

#[test]
fn the_list_of_what_is_covered_names_every_rule() {
    let covered = include_str!("../../src/findings/COVERAGE.md");
    for rule in RULES {
        let name = format!("`{}`", rule.name);
        assert!(covered.contains(&name), "COVERAGE.md does not name {name}");
    }
    // And it names no rule that is gone.
    for name in covered.split('`').skip(1).step_by(2) {
        assert!(RULES.iter().any(|rule| rule.name == name), "no rule {name}");
    }
}
