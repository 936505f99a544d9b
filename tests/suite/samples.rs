//! The sample sites: as the program itself would write them, and as the README tells of them.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use rafterglow::catalogue::Catalogue;
use rafterglow::findings::{Severity, judge};
use rafterglow::store::samples::{SAMPLES, Sample};
use rafterglow::store::{embedded_catalogue, open, text_of};
use rafterglow::study::{Study, study};
use std::path::{Path, PathBuf};
use std::sync::Arc;

fn path_of(sample: &Sample) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("sample-sites")
        .join(sample.name)
        .with_extension("ron")
}

fn catalogue() -> Arc<Catalogue> {
    Arc::new(embedded_catalogue())
}

fn studied(name: &str) -> Study {
    let sample = SAMPLES.iter().find(|sample| sample.name == name).unwrap();
    study(&Arc::new(sample.open().unwrap()), &catalogue())
}

/// `UPDATE=1` rewrites them.
#[test]
fn samples_are_written_as_a_save_would_write_them() {
    for sample in &SAMPLES {
        let path = path_of(sample);
        let site = open(&path).unwrap();
        let wanted = text_of(&path, &site).unwrap();
        if std::env::var_os("UPDATE").is_some() {
            std::fs::write(&path, &wanted).unwrap();
        }
        assert!(
            std::fs::read_to_string(&path).unwrap() == wanted,
            "{} is not as saved",
            sample.name
        );
    }
}

#[test]
fn the_freight_shed_hangs_mostly_from_panel_points() {
    let study = studied("freight-shed");
    assert!((10..=14).contains(&study.totals.n_runs));
    assert_eq!(study.totals.n_hung, study.totals.n_runs);
    assert!(study.totals.n_channel > 0 && study.totals.n_channel * 5 < study.totals.n_hangers());
}

#[test]
fn the_boat_hall_hangs_its_hairpins_from_trusses() {
    let study = studied("boat-hall");
    assert_eq!(study.totals.n_hung, study.totals.n_runs);
    assert!(study.totals.n_channel > 0 && study.totals.n_channel * 5 < study.totals.n_hangers());
    assert!(study.totals.tube > study.totals.suspension);
}

#[test]
fn the_first_two_samples_have_no_breach_in_any_scheme() {
    let catalogue = catalogue();
    for sample in &SAMPLES[..2] {
        let mut site = sample.open().unwrap();
        for scheme in site.schemes.clone() {
            site.shown_scheme = scheme.id.clone();
            let site = Arc::new(site.clone());
            let study = study(&site, &catalogue);
            let breaches: Vec<String> = judge(&site, &catalogue, &study)
                .iter()
                .filter(|finding| finding.severity == Severity::Breach)
                .map(|finding| {
                    format!(
                        "{} {:?} {}",
                        finding.rule,
                        finding.subjects,
                        finding.text_in(site.units)
                    )
                })
                .collect();
            assert!(
                breaches.is_empty(),
                "{} scheme {}: {breaches:#?}",
                sample.name,
                scheme.id
            );
        }
    }
}

#[test]
fn the_net_store_breaks_each_main_rule_once() {
    let catalogue = catalogue();
    let site = Arc::new(SAMPLES[2].open().unwrap());
    let study = study(&site, &catalogue);
    let mut broken: Vec<&str> = judge(&site, &catalogue, &study)
        .iter()
        .map(|finding| finding.rule)
        .collect();
    broken.dedup();
    for rule in [
        "combustible-inside-keep-clear",
        "cross-channel-needed",
        "family-uncertified",
        "first-hanger-outside-window",
        "hang-point-load-unknown",
        "hang-point-overloaded",
        "hanger-gap-outside-limits",
        "hanger-on-tube-joint",
        "hanger-slack",
        "mounting-height-outside-range",
        "non-combustible-too-near",
        "overhang-too-long",
        "run-outside-bay",
        "runs-crossing",
        "second-hanger-outside-window",
        "suspension-too-short",
        "tilt-outside-bands",
    ] {
        assert!(broken.contains(&rule), "{rule} is quiet");
    }
}
