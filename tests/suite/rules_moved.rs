//! Moving, turning and mirroring a whole site changes no finding.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use crate::rules::{catalogue, findings, fixtures, open};
use rafterglow::catalogue::Catalogue;
use rafterglow::findings::{Finding, RULES};
use rafterglow::geometry::DVec2;
use rafterglow::site::Site;
use rafterglow::site::place::{MirrorLine, Motion};
use rafterglow::store::embedded_catalogue;
use rafterglow::store::samples::SAMPLES;
use rafterglow::units::Angle;
use std::sync::Arc;

fn motions() -> [Motion; 6] {
    let mirror = |x: f64, y: f64, degrees: f64| {
        Motion::Mirror(MirrorLine {
            through: DVec2::new(x, y),
            bearing: Angle::degrees(degrees),
        })
    };
    let turn = |degrees: f64| Motion::Turn {
        about: DVec2::new(7.3, -2.1),
        by: Angle::degrees(degrees),
    };
    [
        Motion::Move(DVec2::new(800.0, -600.0)),
        turn(90.0),
        turn(37.0),
        turn(211.7),
        mirror(3.0, 0.0, 0.0),
        mirror(-4.0, 9.0, 63.0),
    ]
}

/// Left and right of a run change places in a mirror, in words too.
fn swapped(text: &str) -> String {
    let other = |word: &str| match word {
        "left" => "right".to_owned(),
        "right" => "left".to_owned(),
        word => word.to_owned(),
    };
    text.split_inclusive(|letter: char| !letter.is_alphabetic())
        .map(|piece| {
            let word = piece.trim_end_matches(|letter: char| !letter.is_alphabetic());
            other(word) + &piece[word.len()..]
        })
        .collect()
}

/// What says the same of both: rule and subjects.
fn about(finding: &Finding) -> (&'static str, Vec<String>) {
    let subjects = finding.subjects.iter().map(ToString::to_string).collect();
    (finding.rule, subjects)
}

fn close(one: Option<f64>, other: Option<f64>, scale: f64) -> bool {
    match (one, other) {
        (Some(one), Some(other)) => (one - other).abs() <= 1e-6 * scale,
        (one, other) => one == other,
    }
}

fn check(name: &str, site: &Site, catalogue: &Arc<Catalogue>) {
    let before = findings(site, catalogue);
    for motion in motions() {
        let after = findings(&motion.site(site), catalogue);
        let told = format!("{name} {motion:?}");
        let abouts = |all: &[Finding]| all.iter().map(about).collect::<Vec<_>>();
        assert_eq!(abouts(&before), abouts(&after), "{told}");
        for (one, other) in before.iter().zip(&after) {
            let told = format!("{told}: {one:#?} became {other:#?}");
            // Loads are compared as a share, everything else as it is.
            let scale = one.measured.map_or(1.0, |measured| measured.abs().max(1.0));
            assert!(close(one.measured, other.measured, scale), "{told}");
            assert!(close(one.required, other.required, scale), "{told}");
            let moved = one
                .place
                .map(|place| motion.point(place.truncate()).extend(place.z));
            match (moved, other.place) {
                (Some(moved), Some(place)) => assert!((moved - place).length() <= 1e-6, "{told}"),
                (moved, place) => assert_eq!(moved, place, "{told}"),
            }
            let text = one.text_in(site.units);
            let expected = if motion.swaps_sides() {
                swapped(&text)
            } else {
                text
            };
            assert_eq!(expected, other.text_in(site.units), "{told}");
        }
    }
}

#[test]
fn no_fixture_is_told_anything_else_elsewhere() {
    let catalogue = catalogue();
    for rule in RULES {
        for path in fixtures(rule.name) {
            check(&path.display().to_string(), &open(&path), &catalogue);
        }
    }
}

#[test]
fn no_sample_is_told_anything_else_elsewhere() {
    let catalogue = Arc::new(embedded_catalogue());
    for sample in &SAMPLES {
        check(sample.name, &sample.open().unwrap(), &catalogue);
    }
}
