//! Members as built: what a tape says, and what becomes of it.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use crate::made::{Shed, shed};
use crate::sound;
use rafterglow::findings::{Changes, Finding, SurveyReport, judge, survey_report};
use rafterglow::geometry::DVec2;
use rafterglow::hanging::Loss;
use rafterglow::site::place::{MirrorLine, Motion};
use rafterglow::site::{
    Edit, Framing, HeightAt, MeasuredAt, MeasuredHeight, MemberAdjustment, Object, ObjectId, Site,
};
use rafterglow::store::{embedded_catalogue, parse, text_of};
use rafterglow::structure::members;
use rafterglow::study::survey::{MemberState, unmeasured};
use rafterglow::study::{Study, study};
use rafterglow::units::{Angle, Length};
use std::sync::Arc;

fn m(metres: f64) -> Length {
    Length::metres(metres)
}

fn at(from: &str, distance_m: f64) -> Option<MeasuredAt> {
    Some(MeasuredAt {
        from: from.into(),
        distance: m(distance_m),
    })
}

fn height(height_m: f64, at: HeightAt) -> Option<MeasuredHeight> {
    Some(MeasuredHeight {
        height: m(height_m),
        at,
    })
}

fn from_line(line: &str, distance_m: f64) -> HeightAt {
    HeightAt::FromLine {
        line: line.into(),
        distance: m(distance_m),
    }
}

fn surveyed(site: &Site, as_built: Vec<MemberAdjustment>) -> Site {
    let mut site = site.clone();
    Arc::make_mut(&mut site.framings[0]).as_built = as_built;
    site
}

/// Joists of the made shed: drawn at 0.915 + 1.83 k, the roof rising 0.005 to the north.
fn small() -> Site {
    shed(Shed::SMALL)
}

fn assert_same_steel(one: &Site, other: &Site) {
    let (one, other) = (members(one), members(other));
    assert_eq!(one.len(), other.len());
    for (a, b) in one.iter().zip(&other) {
        assert_eq!(a.id, b.id);
        assert!(a.start.distance(b.start) < 1e-9, "{}: {a:?} {b:?}", a.id);
        assert!((a.length_m - b.length_m).abs() < 1e-9);
        for ((x, z), (there_x, there_z)) in a.attach_m.iter().zip(&b.attach_m) {
            let off = (x - there_x).abs().max((z - there_z).abs());
            assert!(off < 1e-9, "{}: {a:?} {b:?}", a.id);
        }
    }
}

#[test]
fn what_was_measured_equals_what_was_moved_by_hand() {
    // Member 4 is drawn 6.405 east of line 1; member 13 22.875 east of it, 4.575 of 2.
    let by_hand = surveyed(
        &small(),
        vec![
            MemberAdjustment {
                moved: m(0.31),
                raised: m(-0.04),
                ..MemberAdjustment::as_drawn(4)
            },
            MemberAdjustment {
                moved: m(-0.2),
                raised: m(0.02),
                ..MemberAdjustment::as_drawn(13)
            },
        ],
    );
    let measured = surveyed(
        &small(),
        vec![
            MemberAdjustment {
                measured_at: at("1", 6.715),
                measured_height: height(7.2 - 0.6 - 0.04, HeightAt::LowEnd),
                ..MemberAdjustment::as_drawn(4)
            },
            MemberAdjustment {
                measured_at: at("2", 4.375),
                // 15 m north of A, 3 m of B.
                measured_height: height(7.2 + 0.005 * 15.0 - 0.6 + 0.02, from_line("B", 3.0)),
                ..MemberAdjustment::as_drawn(13)
            },
        ],
    );
    measured.validate().unwrap();
    assert_same_steel(&by_hand, &measured);
    let catalogue = Arc::new(embedded_catalogue());
    let (one, other) = (
        study(&Arc::new(by_hand), &catalogue),
        study(&Arc::new(measured), &catalogue),
    );
    for (a, b) in one.runs.iter().zip(&other.runs) {
        assert_eq!(a.hanging.hangers.len(), b.hanging.hangers.len());
        for (a, b) in a.hanging.hangers.iter().zip(&b.hanging.hangers) {
            let (ours, theirs) = (&a.at, &b.at);
            assert!((ours.station_m - theirs.station_m).abs() < 1e-9);
            assert!((ours.attach - theirs.attach).length() < 1e-9);
        }
    }
}

#[test]
fn a_measurement_stays_where_it_is_when_the_drawing_changes() {
    let site = surveyed(
        &small(),
        vec![MemberAdjustment {
            measured_at: at("1", 6.715),
            measured_height: height(6.5, from_line("A", 4.0)),
            ..MemberAdjustment::as_drawn(4)
        }],
    );
    let mut framing = Framing::clone(&site.framings[0]);
    framing.first = m(0.8);
    framing.depth = m(0.7);
    let edit = Edit::Put(Object::Framing(Arc::new(framing)));
    let corrected = edit.apply(&site).unwrap();
    for site in [&site, &corrected] {
        let all = members(site);
        let found = all.iter().find(|it| it.id.as_str() == "J-04/AB").unwrap();
        assert!((found.start.x - 6.715).abs() < 1e-9);
        // The clamp is 0.05 below the surface.
        assert!((found.attach_at(4.0) - 6.45).abs() < 1e-9);
    }
}

#[test]
fn a_removed_line_leaves_its_members_where_they_were_found() {
    let site = sound::site();
    for line in ["1", "10"] {
        let after = Edit::Remove(ObjectId::GridLine(line.into()))
            .apply(&site)
            .unwrap();
        assert!(!after.framings[0].is_measured_from(&line.into()));
        after.validate().unwrap();
        assert_same_steel(&site, &after);
    }
    // B cuts the spans, but what was measured beside it stays so high.
    let after = Edit::Remove(ObjectId::GridLine("B".into()))
        .apply(&site)
        .unwrap();
    after.validate().unwrap();
    let all = members(&after);
    let found = all.iter().find(|it| it.id.as_str() == "J-06/wC").unwrap();
    let place = 14.0 - found.start.y;
    assert!((found.underside_at(place) - 7.15).abs() < 1e-9);
}

#[test]
fn a_renamed_line_is_renamed_in_what_was_measured_from_it() {
    let site = sound::site();
    for (line, to) in [("1", "1a"), ("B", "Q")] {
        let edit = Edit::Rename {
            from: ObjectId::GridLine(line.into()),
            to: to.to_owned(),
        };
        let after = edit.apply(&site).unwrap();
        after.validate().unwrap();
        assert!(after.framings[0].is_measured_from(&to.into()));
        assert!(!after.framings[0].is_measured_from(&line.into()));
    }
}

#[test]
fn heights_and_places_go_with_a_site_that_is_moved_turned_or_mirrored() {
    let home = sound::site();
    let drawn = members(&home);
    let line = |degrees: f64| MirrorLine {
        through: DVec2::new(3.0, -20.0),
        bearing: Angle::degrees(degrees),
    };
    let turn = |degrees: f64| Motion::Turn {
        about: DVec2::new(3.0, -20.0),
        by: Angle::degrees(degrees),
    };
    let motions = [
        Motion::Move(DVec2::new(1_000.0, -730.5)),
        turn(90.0),
        turn(17.0),
        Motion::Mirror(line(0.0)),
        Motion::Mirror(line(71.0)),
    ];
    for motion in motions {
        let placed = motion.site(&home);
        placed.validate().unwrap();
        let found = members(&placed);
        assert_eq!(found.len(), drawn.len());
        for was in &drawn {
            let is = found.iter().find(|it| it.id == was.id).unwrap();
            let ends = |it: &rafterglow::structure::Member| {
                let (a, b) = (it.start, it.end());
                [(a, it.attach_at(0.0)), (b, it.attach_at(it.length_m))]
            };
            for (end, z) in ends(was) {
                let end = motion.point(end);
                let near = |(at, there_z): &(DVec2, f64)| {
                    at.distance(end) < 1e-8 && (z - there_z).abs() < 1e-8
                };
                assert!(ends(is).iter().any(near), "{} {motion:?}", was.id);
            }
        }
    }
}

/// The one problem that an adjustment of the small shed is refused for.
fn refusal(adjustment: MemberAdjustment) -> String {
    let neighbour = MemberAdjustment {
        measured_at: at("1", 6.5),
        ..MemberAdjustment::as_drawn(4)
    };
    let site = surveyed(&small(), vec![neighbour, adjustment]);
    let problems = site.validate().unwrap_err();
    assert_eq!(problems.n_all(), 1, "{problems}");
    problems.to_string()
}

#[test]
fn measurements_that_cannot_be_are_refused_and_say_why() {
    let fifth = MemberAdjustment::as_drawn(5);
    let place = |measured_at| MemberAdjustment {
        measured_at,
        ..fifth.clone()
    };
    let high = |measured_height| MemberAdjustment {
        measured_height,
        ..fifth.clone()
    };
    let cases = [
        (
            MemberAdjustment {
                moved: m(0.1),
                ..place(at("1", 8.0))
            },
            "as_built[1].measured_at (J): found a measured place beside `moved`; accepted: one",
        ),
        (
            MemberAdjustment {
                raised: m(0.1),
                ..high(height(6.5, HeightAt::LowEnd))
            },
            "as_built[1].measured_height (J): found a measured height beside `raised`",
        ),
        (
            place(at("9", 8.0)),
            "as_built[1].measured_at.from (J): found 9; accepted: the id of",
        ),
        (
            place(at("A", 8.0)),
            "found A, which does not run along the members; accepted: a grid line parallel",
        ),
        (
            // Drawn at 8.235; three spacings are 5.49 m.
            place(at("1", 14.0)),
            "found J-05 at 14 m from 1, 5.765 m from where it is drawn; \
             accepted: 8.235 m from 1 as drawn, and at most 5.49 m off: is it another member?",
        ),
        (
            place(at("1", 6.4)),
            "found J-05 at or before J-04, which was measured too; accepted: members in the order",
        ),
        (
            place(at("1", f64::NAN)),
            "measured_at.distance (J): found not a number",
        ),
        (
            MemberAdjustment {
                measured_at: at("1", -0.4),
                ..MemberAdjustment::as_drawn(1)
            },
            "found J-01 at -0.4 m from 1, outside bay B1; accepted: 0 to 36.6 m",
        ),
        (
            high(height(-0.2, HeightAt::LowEnd)),
            "measured_height.height (J): found -0.2 m; accepted: 0 to 200 m",
        ),
        (
            high(height(6.5, from_line("Z", 1.0))),
            "measured_height.at (J): found Z; accepted: the id of a grid line",
        ),
        (
            high(height(6.5, from_line("1", 1.0))),
            "found 1, which does not cross the members; accepted: a grid line that crosses them",
        ),
        (
            high(height(6.5, from_line("B", 20.0))),
            "found a place 20 m along J-05, outside bay B1; accepted: -13 to 13 m",
        ),
    ];
    for (adjustment, expected) in cases {
        let found = refusal(adjustment);
        assert!(
            found.contains(expected),
            "{found}\ndoes not say\n{expected}"
        );
    }
}

#[test]
fn what_was_measured_from_a_line_or_in_a_bay_is_checked_with_it() {
    let site = surveyed(
        &small(),
        vec![MemberAdjustment {
            measured_at: at("2", -0.2),
            ..MemberAdjustment::as_drawn(10)
        }],
    );
    site.validate().unwrap();
    let mut line = site
        .grid
        .iter()
        .find(|it| it.id.as_str() == "2")
        .unwrap()
        .as_ref()
        .clone();
    line.to.x += 1.0;
    let refused = Edit::Put(Object::GridLine(Arc::new(line)))
        .apply(&site)
        .unwrap_err();
    assert!(
        refused
            .to_string()
            .contains("does not run along the members"),
        "{refused}"
    );
    let mut bay = site.bays[0].as_ref().clone();
    for corner in &mut bay.outline {
        corner.x = corner.x.min(18.0);
    }
    let refused = Edit::Put(Object::Bay(Arc::new(bay)))
        .apply(&site)
        .unwrap_err();
    assert!(refused.to_string().contains("outside bay B1"), "{refused}");
}

#[test]
fn files_keep_what_was_measured() {
    let site = sound::site();
    let path = std::path::Path::new("survey.ron");
    let text = text_of(path, &site).unwrap();
    assert!(text.contains("measured_height"));
    assert_eq!(parse(path, &text).unwrap(), site);
}

fn studied(site: Site) -> (Study, Vec<Finding>) {
    let catalogue = Arc::new(embedded_catalogue());
    let site = Arc::new(site);
    let study = study(&site, &catalogue);
    let findings = judge(&site, &catalogue, &study);
    (study, findings)
}

fn report(site: Site) -> SurveyReport {
    let (study, findings) = studied(site);
    survey_report(&study, &findings, None).unwrap().0
}

/// The number of the member that the second hanger of a run hangs from, and its station.
fn second_hanger(study: &Study, run: usize) -> (usize, f64) {
    let at = &study.runs[run].hanging.hangers[1].at;
    let member = study.structure.member(&at.first.member).unwrap();
    (member.number, at.station_m)
}

#[test]
fn a_site_as_drawn_has_no_differences_to_tell() {
    let (study, findings) = studied(small());
    assert!(survey_report(&study, &findings, None).is_none());
    // A member that was measured exactly where it is drawn is told, and changes nothing.
    let report = report(surveyed(
        &small(),
        vec![MemberAdjustment {
            measured_at: at("1", 6.405),
            ..MemberAdjustment::as_drawn(4)
        }],
    ));
    assert_eq!(report.survey.members.len(), 1);
    assert!(report.survey.members[0].moved_m.abs() < 1e-9);
    assert_eq!(report.survey.runs, []);
    assert_eq!(report.findings, Changes::default());
}

/// Run R1 lies west to east, square to the joists: a hanger goes with its joist, and its
/// suspension is longer by what the joist is higher.
#[test]
fn hangers_follow_their_joist_by_what_it_moved_and_was_raised() {
    let (drawn, _) = studied(small());
    let (joist, station_m) = second_hanger(&drawn, 0);
    let is_on_it = |member: &str| drawn.structure.member(member).unwrap().number == joist;
    let on_it: Vec<String> = drawn
        .runs
        .iter()
        .flat_map(|run| {
            let numbered = run.hanging.hangers.iter().enumerate();
            numbered
                .filter(|(_, it)| it.at.members().any(is_on_it))
                .map(|(k, _)| format!("{}.{}", run.run.id, k + 1))
        })
        .collect();
    let report = report(surveyed(
        &small(),
        vec![MemberAdjustment {
            moved: m(0.02),
            raised: m(0.03),
            ..MemberAdjustment::as_drawn(joist)
        }],
    ));
    let member = &report.survey.members[0];
    assert_eq!((member.number, member.state), (joist, MemberState::Found));
    assert!((member.moved_m - 0.02).abs() < 1e-9 && (member.raised_m - 0.03).abs() < 1e-9);
    let found: Vec<String> = report
        .survey
        .runs
        .iter()
        .flat_map(|run| {
            run.hangers
                .iter()
                .map(|it| format!("{}.{}", run.run, it.place().unwrap().number))
        })
        .collect();
    assert!(
        on_it.iter().all(|it| found.contains(it)),
        "{on_it:?} {found:?}"
    );
    let hanger = report.survey.runs[0]
        .hangers
        .iter()
        .find(|it| it.is_moved())
        .unwrap();
    // Stations count along the tube, which falls.
    let slope = drawn.runs[0].geometry.slope;
    let per_plan_m = (1.0 + slope * slope).sqrt();
    assert!((hanger.shift_m().unwrap() - 0.02 * per_plan_m).abs() < 1e-8);
    assert!((hanger.drawn.as_ref().unwrap().station_m - station_m).abs() < 1e-9);
    // The tube falls 0.02 times its slope on the way, so the suspension grows a hair more.
    let grown_m = 0.03 + 0.02 * slope;
    assert!((hanger.suspension_change_m().unwrap() - grown_m).abs() < 1e-4);
    assert_eq!(report.survey.n_moved(), on_it.len());
}

#[test]
fn a_missing_joist_takes_a_kept_hanger_with_it_and_that_is_a_new_breach() {
    let mut site = small();
    let (drawn, _) = studied(site.clone());
    let (joist, station_m) = second_hanger(&drawn, 0);
    let kept = Arc::new(drawn.runs[0].with_kept_hangers());
    Arc::make_mut(&mut site.schemes[0]).runs[0] = kept;
    let report = report(surveyed(
        &site,
        vec![MemberAdjustment {
            missing: true,
            ..MemberAdjustment::as_drawn(joist)
        }],
    ));
    assert_eq!(report.survey.members[0].state, MemberState::Missing);
    let run = report
        .survey
        .runs
        .iter()
        .find(|it| it.run.as_str() == "R1")
        .unwrap();
    assert_eq!(run.lost.len(), 1);
    assert!((run.lost[0].station_m - station_m).abs() < 1e-9);
    assert_eq!(run.lost[0].why, Loss::NoSuchMember);
    let gone = run.hangers.iter().find(|it| it.built.is_none()).unwrap();
    assert_eq!(gone.drawn.as_ref().unwrap().number, 2);
    let rules: Vec<&str> = report.findings.new.iter().map(|it| it.rule).collect();
    assert!(rules.contains(&"kept-hanger-lost"), "{rules:?}");
}

#[test]
fn a_member_beyond_its_neighbour_and_one_that_is_not_there_are_told() {
    let report = report(surveyed(
        &small(),
        vec![
            MemberAdjustment {
                measured_at: at("1", 6.405 + 2.0 * 1.83 + 0.1),
                ..MemberAdjustment::as_drawn(4)
            },
            MemberAdjustment {
                moved: m(0.1),
                ..MemberAdjustment::as_drawn(99)
            },
        ],
    ));
    assert_eq!(report.survey.members[0].beyond, Some(6));
    assert_eq!(report.survey.members[1].state, MemberState::NotInBay);
}

#[test]
fn what_hangers_hang_from_is_listed_until_it_is_measured() {
    let (drawn, _) = studied(small());
    let (joist, _) = second_hanger(&drawn, 0);
    let listed = unmeasured(&drawn);
    let used = listed.iter().find(|it| it.number == joist).unwrap();
    assert!(used.hangers.contains(&"R1.2".to_owned()));
    // Along the eave 7.2 m, joists 0.6 m deep.
    assert!((used.low_end_m - 6.6).abs() < 1e-9);
    let site = surveyed(
        &small(),
        vec![MemberAdjustment {
            measured_at: at("1", used.offset_m),
            ..MemberAdjustment::as_drawn(joist)
        }],
    );
    let (built, _) = studied(site);
    let rest = unmeasured(&built);
    assert_eq!(rest.len(), listed.len() - 1);
    assert!(rest.iter().all(|it| it.number != joist));
}

#[test]
fn the_drawing_is_studied_again_only_where_it_changed() {
    let site = surveyed(
        &small(),
        vec![MemberAdjustment {
            moved: m(0.02),
            ..MemberAdjustment::as_drawn(3)
        }],
    );
    let (built, findings) = studied(site);
    let (_, first) = survey_report(&built, &findings, None).unwrap();
    let (again, second) = survey_report(&built, &findings, Some(&first)).unwrap();
    assert!(Arc::ptr_eq(&first.structure, &second.structure));
    assert_eq!(
        Some(again),
        survey_report(&built, &findings, None).map(|it| it.0)
    );
    assert_eq!(second, study(&second.site, &second.catalogue));
}
