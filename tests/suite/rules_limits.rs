//! Exactly at a limit a rule stays quiet; two millionths beyond it, it fires.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use crate::rules::{catalogue, findings, folder, open};
use rafterglow::catalogue::{Catalogue, Family};
use rafterglow::findings::Finding;
use rafterglow::geometry::DVec2;
use rafterglow::site::framing::Allowance;
use rafterglow::site::policy::{Override, PolicyItem};
use rafterglow::site::{Footprint, Framing, Hanging, Obstruction, Run, RunId, Site};
use rafterglow::study::study;
use rafterglow::units::{Angle, Force, Length};
use std::sync::Arc;

/// How far beyond a limit is a breach: more than the millionth that still passes.
const HAIR: f64 = 2e-6;

/// A fixture that stands exactly at the limit of its rule, and how to change it by a
/// little: m, rad, or a share of a load.
struct AtLimit {
    rule: &'static str,
    fixture: &'static str,
    change: fn(&mut Site, f64),
}

fn site(rule: &str, fixture: &str) -> Site {
    open(&folder().join(rule).join(fixture).with_extension("ron"))
}

fn run(site: &mut Site, which: usize) -> &mut Run {
    Arc::make_mut(&mut Arc::make_mut(&mut site.schemes[0]).runs[which])
}

fn obstruction(site: &mut Site, which: usize) -> &mut Obstruction {
    Arc::make_mut(&mut site.obstructions[which])
}

fn framing(site: &mut Site) -> &mut Framing {
    Arc::make_mut(&mut site.framings[0])
}

fn shift(obstruction: &mut Obstruction, by: DVec2) {
    let points = match &mut obstruction.footprint {
        Footprint::Area { outline, .. } => outline,
        Footprint::Line { points, .. } => points,
    };
    for point in points {
        *point += by;
    }
}

fn higher(run: &mut Run, by_m: f64) {
    run.tube_height = run.tube_height + Length::metres(by_m);
}

/// Moves the member of a kept hanger and the hanger with it. Members run north and are
/// counted to the east, as the run does.
fn move_hanger(site: &mut Site, which: usize, by_m: f64) {
    let Hanging::Locked(hangers) = &mut run(site, 0).hanging else {
        unreachable!("the fixture keeps its hangers");
    };
    let hanger = &mut hangers[which];
    hanger.station = hanger.station + Length::metres(by_m);
    let member = hanger.members[0].clone();
    let number = member.as_str().split(['-', '/']).nth(1).unwrap();
    framing(site)
        .as_built
        .push(rafterglow::site::MemberAdjustment {
            moved: Length::metres(by_m),
            ..rafterglow::site::MemberAdjustment::as_drawn(number.parse().unwrap())
        });
}

const LIMITS: &[AtLimit] = &[
    // Below, beside and above.
    AtLimit {
        rule: "combustible-inside-keep-clear",
        fixture: "quiet",
        change: |site, by| {
            let rack = obstruction(site, 0);
            rack.top = rack.top + Length::metres(by);
        },
    },
    AtLimit {
        rule: "combustible-inside-keep-clear",
        fixture: "quiet",
        change: |site, by| shift(obstruction(site, 1), DVec2::new(0.0, -by)),
    },
    AtLimit {
        rule: "combustible-inside-keep-clear",
        fixture: "quiet-trusses",
        change: |site, by| higher(run(site, 0), by),
    },
    AtLimit {
        rule: "non-combustible-too-near",
        fixture: "quiet",
        change: |site, by| {
            let duct = obstruction(site, 0);
            duct.top = duct.top + Length::metres(by);
        },
    },
    AtLimit {
        rule: "non-combustible-too-near",
        fixture: "quiet",
        change: |site, by| shift(obstruction(site, 1), DVec2::new(by, 0.0)),
    },
    AtLimit {
        rule: "solid-meets-heater",
        fixture: "quiet",
        change: |site, by| shift(obstruction(site, 0), DVec2::new(0.0, -by)),
    },
    AtLimit {
        rule: "heater-in-hazard-zone",
        fixture: "quiet",
        change: |site, by| shift(obstruction(site, 0), DVec2::new(by, 0.0)),
    },
    AtLimit {
        rule: "mezzanine-below-low-heater",
        fixture: "quiet",
        change: |site, by| {
            let loft = obstruction(site, 0);
            loft.top = loft.top + Length::metres(by);
        },
    },
    AtLimit {
        rule: "vehicle-door-of-unknown-use",
        fixture: "quiet",
        change: |site, by| {
            let door = Arc::make_mut(&mut site.openings[0]);
            door.height = door.height + Length::metres(by);
        },
    },
    AtLimit {
        rule: "runs-crossing",
        fixture: "quiet",
        change: |site, by| run(site, 1).burner.y -= by,
    },
    AtLimit {
        rule: "runs-too-near",
        fixture: "quiet",
        change: |site, by| run(site, 1).burner.y -= by,
    },
    AtLimit {
        rule: "run-outside-bay",
        fixture: "quiet",
        change: |site, by| run(site, 0).burner.x -= by,
    },
    AtLimit {
        rule: "mounting-height-outside-range",
        fixture: "quiet",
        change: |site, by| higher(run(site, 0), -by),
    },
    AtLimit {
        rule: "tilt-outside-bands",
        fixture: "quiet",
        change: |site, by| {
            let run = run(site, 0);
            run.tilt = Angle::degrees(run.tilt.as_degrees() + by.to_degrees());
        },
    },
    AtLimit {
        rule: "first-hanger-outside-window",
        fixture: "quiet",
        change: |site, by| move_hanger(site, 0, by),
    },
    AtLimit {
        rule: "second-hanger-outside-window",
        fixture: "quiet",
        change: |site, by| move_hanger(site, 1, by),
    },
    AtLimit {
        rule: "hanger-gap-outside-limits",
        fixture: "quiet",
        change: |site, by| move_hanger(site, 3, by),
    },
    AtLimit {
        rule: "overhang-too-long",
        fixture: "quiet",
        change: |site, by| move_hanger(site, 3, -by),
    },
    AtLimit {
        rule: "hanger-on-tube-joint",
        fixture: "quiet",
        change: |site, by| move_hanger(site, 2, -by),
    },
    AtLimit {
        rule: "suspension-too-short",
        fixture: "quiet",
        change: |site, by| higher(run(site, 0), by),
    },
];

fn fires(found: &[Finding], rule: &str) -> bool {
    found.iter().any(|finding| finding.rule == rule)
}

#[test]
fn equal_passes_and_a_hair_beyond_does_not() {
    let catalogue = catalogue();
    for limit in LIMITS {
        let about = format!("{} {}", limit.rule, limit.fixture);
        let exact = site(limit.rule, limit.fixture);
        assert!(!fires(&findings(&exact, &catalogue), limit.rule), "{about}");
        let mut beyond = exact;
        (limit.change)(&mut beyond, HAIR);
        let found = findings(&beyond, &catalogue);
        assert!(fires(&found, limit.rule), "{about} by a hair");
        // And reads as what it is: no figure is rounded to the safe side of the limit.
        for finding in found.iter().filter(|finding| finding.rule == limit.rule) {
            let (Some(measured), Some(required)) = (finding.measured, finding.required) else {
                continue;
            };
            assert!(
                (measured - required).abs() < 1e-3 || required == 0.0,
                "{about}"
            );
        }
    }
}

/// The test families with one changed.
fn with_family(change: impl Fn(&mut Family)) -> Arc<Catalogue> {
    let families = catalogue().families().to_vec();
    Arc::new(Catalogue::new(families.into_iter().map(|family| {
        let mut family = family.as_ref().clone();
        change(&mut family);
        family
    })))
}

#[test]
fn loads_leans_and_swings_pass_at_exactly_what_is_allowed() {
    let first = |site: &Site, catalogue: &Arc<Catalogue>| {
        let studied = study(&Arc::new(site.clone()), catalogue);
        studied.runs[0].hanging.clone()
    };
    let allowed_at = |site: &mut Site, force_n: f64| {
        framing(site).allowed_at_point = Allowance::Known(Force::newtons(force_n));
    };
    let catalogue = catalogue();
    let mut site_by_load = site("hang-point-overloaded", "fires");
    let heaviest = first(&site_by_load, &catalogue).hangers[0].load.load_n;
    allowed_at(&mut site_by_load, heaviest);
    assert!(!fires(
        &findings(&site_by_load, &catalogue),
        "hang-point-overloaded"
    ));
    allowed_at(&mut site_by_load, heaviest * (1.0 - HAIR));
    assert!(fires(
        &findings(&site_by_load, &catalogue),
        "hang-point-overloaded"
    ));

    let leaning = site("lean-too-great", "fires");
    let lean = first(&leaning, &catalogue).hangers[0].at.lean_rad;
    for (greatest, expected) in [(lean, false), (lean - HAIR, true)] {
        let catalogue = with_family(|family| {
            family.hanging.lean_greatest = Angle::degrees(greatest.to_degrees());
        });
        assert_eq!(
            fires(&findings(&leaning, &catalogue), "lean-too-great"),
            expected
        );
    }

    let swinging = site("swing-too-great", "fires");
    let swing = first(&swinging, &catalogue)
        .hangers
        .last()
        .unwrap()
        .swing_rad;
    for (greatest, expected) in [(swing, false), (swing - HAIR, true)] {
        let catalogue = with_family(|family| {
            family.hanging.swing_greatest = Angle::degrees(greatest.to_degrees());
        });
        assert_eq!(
            fires(&findings(&swinging, &catalogue), "swing-too-great"),
            expected
        );
    }
}

#[test]
fn coming_down_as_far_as_it_says_lets_a_run_hang_and_a_millimetre_less_does_not() {
    let catalogue = catalogue();
    for fixture in ["fires-too-high", "fires-above-the-steel"] {
        let high = site("run-cannot-be-hung", fixture);
        let studied = study(&Arc::new(high.clone()), &catalogue);
        let obstacle = studied.runs[0].hanging.obstacle.clone().unwrap();
        let down_m = obstacle.come_down_m.unwrap();
        let mut low = high.clone();
        higher(run(&mut low, 0), -down_m);
        assert!(
            !fires(&findings(&low, &catalogue), "run-cannot-be-hung"),
            "{fixture}"
        );
        higher(run(&mut low, 0), 0.001);
        assert!(
            fires(&findings(&low, &catalogue), "run-cannot-be-hung"),
            "{fixture}"
        );
    }
}

/// What the heater's own clearances, hazard zones, ventilation, garages, hangars and the
/// law ask for may be more in a site's policy, never less.
#[test]
fn policy_can_only_tighten_what_nobody_may_accept() {
    const TIGHTENS: &[PolicyItem] = &[
        PolicyItem::KeepClearMargin,
        PolicyItem::ExhaustJet,
        PolicyItem::GarageHeight,
        PolicyItem::VehicleDoorMargin,
        PolicyItem::HangarHeight,
        PolicyItem::HangarShopHeight,
        PolicyItem::CraneLeastAbove,
        PolicyItem::CraneLeastBeside,
        PolicyItem::SprayDistance,
    ];
    let site = site("policy-overridden", "quiet");
    for item in TIGHTENS {
        let facts = item.facts();
        let with = |value: f64| {
            let given = Override {
                value,
                reason: "the town asks for it".to_owned(),
            };
            let mut changed = site.clone();
            changed.policy = changed.policy.with(*item, Some(given));
            changed.validate()
        };
        assert_eq!(facts.least, facts.default, "{} can be loosened", facts.name);
        assert!(with(facts.default - HAIR).is_err(), "{}", facts.name);
        assert!(with(facts.default + 0.5).is_ok(), "{}", facts.name);
    }
}

#[test]
fn a_finding_is_accepted_with_a_reason_where_its_rule_lets_it_be() {
    let catalogue = catalogue();
    let accept = |rule: &str, fixture: &str| {
        let mut site = site(rule, fixture);
        let subjects = findings(&site, &catalogue)
            .iter()
            .find(|finding| finding.rule == rule)
            .map(|finding| finding.subjects.iter().map(ToString::to_string).collect())
            .unwrap();
        site.acceptances.push(rafterglow::site::Acceptance {
            rule: rule.to_owned(),
            subjects,
            reason: "the engineer has agreed".to_owned(),
            date: String::new(),
        });
        let found = findings(&site, &catalogue);
        found
            .iter()
            .any(|finding| finding.rule == rule && finding.accepted.is_some())
    };
    assert!(accept("hang-point-overloaded", "fires"));
    assert!(accept("hang-point-load-unknown", "fires"));
    assert!(!accept("combustible-inside-keep-clear", "fires"));
    assert!(!accept("heater-in-hazard-zone", "fires"));
    assert!(!accept("tilt-outside-bands", "fires"));
    assert!(!accept("paint-sprayed-near-heater", "fires"));
    assert!(!accept("garage-heater-too-low", "fires"));
    assert!(!accept("hangar-heater-too-low", "fires"));
    assert!(!accept("hangar-heater-unvented", "fires"));
    assert!(!accept("hangar-shop-heater-too-low", "fires"));
    assert!(!accept("heater-over-gas-vehicles", "fires"));
    assert!(!accept("vehicle-door-head-above-heater", "fires"));
    // Hangers that other runs add make it another finding.
    let mut site = site("hang-point-load-unknown", "fires");
    let mut another = run(&mut site, 0).clone();
    another.id = RunId::new("R2");
    another.burner.y += 3.0;
    Arc::make_mut(&mut site.schemes[0])
        .runs
        .push(Arc::new(another));
    assert!(
        findings(&site, &catalogue)
            .iter()
            .all(|finding| finding.accepted.is_none())
    );
}
