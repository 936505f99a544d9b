//! The door of the document: each field that can't be used is named, and only that one.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use crate::sound::{deg, m, site};
use rafterglow::catalogue::Catalogue;
use rafterglow::geometry::DVec2;
use rafterglow::site::{
    Acceptance, Bay, Footprint, Framing, HangFrom, Hanging, MemberKind, Obstruction, Opening, Roof,
    Run, RunShape, Scheme, Site, WorkSpot,
};
use rafterglow::store;
use rafterglow::units::Length;
use std::path::Path;
use std::sync::Arc;

/// A site with one thing changed must be refused for just this field.
fn check_door(change: impl FnOnce(&mut Site), path: &str, accepted: &str) {
    let mut site = site();
    change(&mut site);
    let refused = site.validate().unwrap_err();
    let found: Vec<&str> = refused.kept().iter().map(|it| it.path.as_str()).collect();
    assert_eq!(found, [path], "{refused}");
    let problem = &refused.kept()[0];
    assert!(problem.accepted.contains(accepted), "{problem}");
}

fn bay(site: &mut Site) -> &mut Bay {
    Arc::make_mut(&mut site.bays[0])
}

fn joists(site: &mut Site) -> &mut Framing {
    Arc::make_mut(&mut site.framings[0])
}

fn door(site: &mut Site) -> &mut Opening {
    Arc::make_mut(&mut site.openings[0])
}

fn rack(site: &mut Site) -> &mut Obstruction {
    Arc::make_mut(&mut site.obstructions[0])
}

fn spot(site: &mut Site) -> &mut WorkSpot {
    Arc::make_mut(&mut site.work_spots[0])
}

fn scheme(site: &mut Site) -> &mut Scheme {
    Arc::make_mut(&mut site.schemes[0])
}

fn run(site: &mut Site) -> &mut Run {
    Arc::make_mut(&mut scheme(site).runs[0])
}

const FAR: f64 = 1e300;

#[test]
fn numbers_must_be_numbers_and_sane() {
    for bad in [
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        FAR,
        -FAR,
        10_000.1,
    ] {
        let to = "-10000 to 10000 m";
        check_door(|it| bay(it).outline[3].x = bad, "bays[0].outline[3].x", to);
        check_door(
            |it| bay(it).holes[0][2].y = bad,
            "bays[0].holes[0][2].y",
            to,
        );
        check_door(
            |it| run(it).burner.y = bad,
            "schemes[0].runs[0].burner.y",
            to,
        );
        check_door(|it| spot(it).at.x = bad, "work_spots[0].at.x", to);
        check_door(|it| joists(it).anchor.x = bad, "framings[0].anchor.x", to);
        check_door(
            |it| Arc::make_mut(&mut it.grid[1]).to.y = bad,
            "grid[1].to.y",
            to,
        );
        check_door(|it| bay(it).eave = m(bad), "bays[0].eave", "0.1 to 200 m");
        check_door(
            |it| rack(it).top = m(bad.abs()),
            "obstructions[0].top",
            "0 to 200 m",
        );
        check_door(
            |it| spot(it).height = m(bad),
            "work_spots[0].height",
            "0 to 200 m",
        );
        check_door(
            |it| joists(it).spacing = m(bad),
            "framings[0].spacing",
            "0.1 to 10000 m",
        );
        check_door(
            |it| joists(it).depth = m(bad),
            "framings[0].depth",
            "0.001 to 20 m",
        );
        check_door(
            |it| run(it).tilt = deg(bad),
            "schemes[0].runs[0].tilt",
            "-90 to 90",
        );
        check_door(
            |it| door(it).width = m(bad),
            "openings[0].width",
            "0.001 to 10000 m",
        );
        check_door(
            |it| run(it).tube_height = m(bad),
            "schemes[0].runs[0].tube_height",
            "200 m",
        );
    }
    for bad in [f64::NAN, f64::INFINITY, FAR] {
        check_door(
            |it| run(it).bearing = deg(bad),
            "schemes[0].runs[0].bearing",
            "degrees",
        );
        check_door(
            |it| joists(it).bearing = deg(bad),
            "framings[0].bearing",
            "degrees",
        );
        check_door(
            |it| spot(it).activity_met = bad,
            "work_spots[0].activity_met",
            "0.8 to 4 met",
        );
    }
    for bad in [0.0, -1.0, 1e-300, 0.099] {
        check_door(
            |it| joists(it).spacing = m(bad),
            "framings[0].spacing",
            "0.1 to",
        );
    }
    let pitch = |pitch: f64| Roof::SingleSlope {
        rises_toward: deg(0.0),
        pitch,
    };
    check_door(
        |it| bay(it).roof = pitch(-0.1),
        "bays[0].roof.pitch",
        "0 to 2",
    );
    check_door(
        |it| bay(it).roof = pitch(2.1),
        "bays[0].roof.pitch",
        "0 to 2",
    );
}

#[test]
fn outlines_must_be_simple() {
    let simple = "a simple polygon";
    check_door(
        |it| bay(it).outline.swap(1, 2),
        "bays[0].outline[2]",
        simple,
    );
    check_door(|it| bay(it).outline.truncate(2), "bays[0].outline", simple);
    let again = |it: &mut Site| bay(it).outline.push(DVec2::new(0.0, 24.0));
    check_door(again, "bays[0].outline[4]", simple);
    let outside = |it: &mut Site| bay(it).holes[0].iter_mut().for_each(|p| p.x += 50.0);
    check_door(outside, "bays[0].holes[0]", simple);
    let flat = |it: &mut Site| bay(it).holes[0].iter_mut().for_each(|p| p.x = 10.0);
    let mut bad = site();
    flat(&mut bad);
    assert!(bad.validate().is_err());
    let line = |it: &mut Site, points: Vec<DVec2>, width: Length| {
        rack(it).footprint = Footprint::Line { points, width };
    };
    let (a, b) = (DVec2::ZERO, DVec2::X);
    check_door(
        |it| line(it, vec![a], m(0.2)),
        "obstructions[0].points",
        "2 to",
    );
    check_door(
        |it| line(it, vec![a, b, b], m(0.2)),
        "obstructions[0].points[2]",
        "apart",
    );
    check_door(
        |it| line(it, vec![a, b], m(0.0)),
        "obstructions[0].width",
        "0.001 to",
    );
    check_door(
        |it| rack(it).top = m(0.0),
        "obstructions[0].top",
        "more than its bottom",
    );
    let back = |it: &mut Site| Arc::make_mut(&mut it.grid[0]).to = DVec2::new(-2.0, 0.0);
    check_door(back, "grid[0].to", "a second point");
}

#[test]
fn ids_must_be_known_given_and_unique() {
    let known = "the id of a";
    check_door(|it| door(it).bay = "B9".into(), "openings[0].bay", known);
    check_door(|it| joists(it).bay = "B9".into(), "framings[0].bay", known);
    check_door(
        |it| joists(it).bears_on[1] = "Z".into(),
        "framings[0].bears_on[1]",
        known,
    );
    check_door(
        |it| joists(it).bears_on[1] = "A".into(),
        "framings[0].bears_on[1]",
        "once",
    );
    check_door(|it| it.shown_scheme = "Z".into(), "shown_scheme", known);
    check_door(
        |it| spot(it).id = "".into(),
        "work_spots[0].id",
        "a short name",
    );
    check_door(
        |it| spot(it).id = " W1".into(),
        "work_spots[0].id",
        "without blanks",
    );
    check_door(
        |it| spot(it).id = "W\n1".into(),
        "work_spots[0].id",
        "control",
    );
    let long = "W".repeat(41);
    check_door(
        |it| spot(it).id = long.as_str().into(),
        "work_spots[0].id",
        "40 bytes",
    );
    let unique = "that nothing else has";
    check_door(|it| spot(it).id = "O2".into(), "work_spots[0].id", unique);
    check_door(
        |it| run(it).id = "R2".into(),
        "schemes[0].runs[1].id",
        unique,
    );
    check_door(
        |it| run(it).id = "J".into(),
        "schemes[0].runs[0].id",
        unique,
    );
    check_door(
        |it| Arc::make_mut(&mut it.grid[3]).id = "10".into(),
        "grid[4].id",
        unique,
    );
    check_door(
        |it| Arc::make_mut(&mut it.schemes[1]).id = "A".into(),
        "schemes[1].id",
        unique,
    );
    check_door(
        |it| run(it).family.clear(),
        "schemes[0].runs[0].family",
        "says something",
    );
    let lost = |it: &mut Site| {
        let run = Arc::make_mut(&mut scheme(it).runs[1]);
        let Hanging::Locked(hangers) = &mut run.hanging else {
            panic!("the hangers were locked");
        };
        hangers[1].members[0] = "K-04/BC".into();
    };
    let path = "schemes[0].runs[1].hanging.Locked[1].members";
    check_door(lost, path, "a member of a framing");
}

#[test]
fn openings_must_fit_their_wall() {
    check_door(|it| door(it).edge = 4, "openings[0].edge", "less than 4");
    check_door(|it| door(it).edge = 1, "openings[0].edge", "has a wall");
    check_door(
        |it| door(it).from_corner = m(26.5),
        "openings[0].width",
        "the 30.000 m",
    );
    check_door(
        |it| door(it).height = m(7.1),
        "openings[0].height",
        "under the roof",
    );
    check_door(
        |it| bay(it).open_edges = vec![4],
        "bays[0].open_edges[0]",
        "less than 4",
    );
    check_door(
        |it| bay(it).open_edges = vec![1, 1],
        "bays[0].open_edges[1]",
        "once",
    );
}

#[test]
fn members_must_suit_their_kind_and_number() {
    check_door(
        |it| joists(it).panels = None,
        "framings[0].panels",
        "where the panel points",
    );
    check_door(
        |it| joists(it).hang_from = HangFrom::Flange,
        "framings[0].hang_from",
        "Chord",
    );
    let as_beams = |it: &mut Site| {
        joists(it).kind = MemberKind::Beam;
        joists(it).hang_from = HangFrom::Flange;
    };
    check_door(as_beams, "framings[0].panels", "None");
    let beams_on_chords = |it: &mut Site| {
        joists(it).kind = MemberKind::Beam;
        joists(it).panels = None;
    };
    check_door(beams_on_chords, "framings[0].hang_from", "Flange");
    let many = |it: &mut Site| {
        bay(it).outline[1].x = 9_000.0;
        bay(it).outline[2].x = 9_000.0;
        joists(it).spacing = m(0.5);
    };
    check_door(many, "framings[0].spacing", "at most 20000");
    let twice = |it: &mut Site| {
        let first = joists(it).as_built[0].clone();
        joists(it).as_built.push(first);
    };
    check_door(twice, "framings[0].as_built[3].member", "once");
    let dense = |it: &mut Site| {
        for corner in &mut bay(it).outline {
            *corner *= 100.0;
        }
        let panels = joists(it).panels.as_mut().unwrap();
        panels.spacing = m(0.1);
    };
    check_door(dense, "framings[0].panels.spacing", "at most 500000");
}

/// The cap counts members before any is built: 20,000 pass and one more does not.
#[test]
fn twenty_thousand_members_pass_and_one_more_does_not() {
    let with = |count: usize| {
        let mut site = site();
        bay(&mut site).outline[1].x = 4_000.0;
        bay(&mut site).outline[2].x = 4_000.0;
        site.framings.truncate(1);
        let joists = joists(&mut site);
        joists.bears_on.clear();
        joists.as_built.clear();
        joists.first = m(0.1);
        joists.spacing = m(0.1);
        joists.count = Some(count);
        site.validate()
    };
    assert_eq!(with(20_000), Ok(()));
    let refused = with(20_001).unwrap_err();
    assert!(
        refused.to_string().contains("framings[0].count"),
        "{refused}"
    );
}

#[test]
fn lists_have_caps() {
    let many_runs = |n: usize| {
        let mut site = site();
        let first = scheme(&mut site).runs[0].clone();
        scheme(&mut site).runs = (0..n)
            .map(|i| {
                Arc::new(Run {
                    id: format!("R{i}").as_str().into(),
                    ..Run::clone(&first)
                })
            })
            .collect();
        site.validate()
    };
    // Scheme B has one.
    assert_eq!(many_runs(4_999), Ok(()));
    assert!(
        many_runs(5_000)
            .unwrap_err()
            .to_string()
            .contains("0 to 5000")
    );
    check_door(|it| it.schemes.clear(), "schemes", "1 to 100");
    let long = "x".repeat(20_001);
    check_door(|it| bay(it).notes = long, "bays[0].notes", "20000");
}

#[test]
fn every_problem_is_told_not_only_the_first() {
    let mut bad = site();
    bay(&mut bad).eave = m(-1.0);
    joists(&mut bad).spacing = m(0.0);
    run(&mut bad).tilt = deg(100.0);
    bad.conditions.altitude = m(1e9);
    bad.sheets.scale = Some(0);
    bad.acceptances.push(Acceptance {
        rule: "some-rule".to_owned(),
        subjects: Vec::new(),
        reason: " ".to_owned(),
        date: String::new(),
    });
    let refused = bad.validate().unwrap_err();
    let paths: Vec<&str> = refused.kept().iter().map(|it| it.path.as_str()).collect();
    assert_eq!(
        paths,
        [
            "conditions.altitude",
            "sheets.scale",
            "acceptances[2].reason",
            "bays[0].eave",
            "framings[0].spacing",
            "schemes[0].runs[0].tilt",
        ]
    );
}

#[test]
fn heaters_must_be_in_the_catalogue() {
    let catalogue = store::embedded_catalogue();
    let check = |change: fn(&mut Run), path: &str, accepted: &str| {
        let mut site = site();
        change(run(&mut site));
        let refused = store::check_against(Path::new("shed.ron"), &site, &catalogue).unwrap_err();
        let message = refused.to_string();
        assert!(
            message.contains(path) && message.contains(accepted),
            "{message}"
        );
    };
    assert!(store::check_against(Path::new("shed.ron"), &site(), &catalogue).is_ok());
    let family = "schemes[0].runs[0].family (R1)";
    check(
        |it| it.family = "north-9".to_owned(),
        family,
        "a catalogue file that holds \"north-9\"",
    );
    check(
        |it| it.size = "99-9".to_owned(),
        "schemes[0].runs[0].size (R1)",
        "36-12",
    );
    let hairpin: fn(&mut Run) = |it| {
        it.shape = RunShape::Hairpin {
            return_leg: rafterglow::site::Side::Left,
        };
    };
    check(hairpin, "schemes[0].runs[0].shape (R1)", "Straight");
    let nothing = rafterglow::site::validate_against(&site(), &Catalogue::default());
    assert_eq!(nothing.unwrap_err().n_all(), 3);
}
