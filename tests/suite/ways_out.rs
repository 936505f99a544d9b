//! Ways out of a breach, against a fine search that knows nothing of depths: random
//! sheds with one breach each, many of them with something standing where the nearest
//! way out leads.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use crate::made::{Shed, shed};
use crate::rules;
use rafterglow::catalogue::Catalogue;
use rafterglow::findings::{Finding, Severity, judge};
use rafterglow::geometry::{DVec2, DVec3};
use rafterglow::hanging::Kind;
use rafterglow::remedies::Base;
use rafterglow::remedies::clearance::{Change, Measure, Way, is_geometric_breach, ways_out};
use rafterglow::site::bay::along;
use rafterglow::site::edit::{Edit, Object};
use rafterglow::site::*;
use rafterglow::study::{RunStudy, Study, restudy, study};
use rafterglow::units::{Angle, Length};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

const LIMIT_M: f64 = 3.0;

fn is_full() -> bool {
    std::env::var_os("RAFTERGLOW_FULL").is_some()
}

/// A box of goods, turned with the run.
fn goods(id: usize, centre: DVec3, half: DVec3, bearing: Angle) -> Arc<Obstruction> {
    let (forward, left) = (along(bearing), along(bearing).perp());
    let corner = |f: f64, l: f64| centre.truncate() + forward * (half.x * f) + left * (half.y * l);
    Arc::new(Obstruction {
        id: ObstructionId::new(format!("O{id}")),
        name: String::new(),
        kind: ObstructionKind::Other,
        footprint: Footprint::Area {
            outline: vec![
                corner(-1.0, -1.0),
                corner(1.0, -1.0),
                corner(1.0, 1.0),
                corner(-1.0, 1.0),
            ],
            holes: Vec::new(),
        },
        bottom: Length::metres(centre.z - half.z),
        top: Length::metres(centre.z + half.z),
        upright_top: None,
        burns: Combustibility::Combustible,
        temperature_limit: None,
        particulars: Default::default(),
        notes: String::new(),
    })
}

fn random_site(random: &mut fastrand::Rng) -> Site {
    let mut site = shed(Shed {
        runs_along: 2,
        rows: 2,
        stacks_per_row: 0,
    });
    let between =
        |random: &mut fastrand::Rng, low: f64, high: f64| low + (high - low) * random.f64();
    let bearing =
        Angle::degrees([90.0, 270.0, 90.0, 90.0 + between(random, -4.0, 4.0)][random.usize(0..4)]);
    let mut scheme = Scheme::clone(&site.scheme());
    let mut run = Run::clone(&scheme.runs[0]);
    let centre = DVec2::new(between(random, 10.0, 26.0), between(random, 8.0, 16.0));
    run.bearing = bearing;
    run.burner = centre - along(bearing) * 6.0;
    run.tube_height = Length::metres(between(random, 5.0, 5.9));
    run.tilt = Angle::degrees([0.0, 0.0, 25.0, -25.0][random.usize(0..4)]);
    // At each place one thing, the first of them in the way of the run, the others
    // where it might go.
    let n_things = random.usize(1..5);
    let tube = run.tube_height.as_metres();
    for id in 1..=n_things {
        let reach = if id == 1 { 1.0 } else { 1.8 };
        let at = centre
            + along(bearing) * between(random, -7.5, 7.5)
            + along(bearing).perp() * between(random, -2.2 * reach, 2.2 * reach);
        let half = DVec3::new(
            between(random, 0.2, 1.2),
            between(random, 0.2, 0.8),
            between(random, 0.2, 0.9),
        );
        let below = between(random, 0.6, 3.2);
        site.obstructions
            .push(goods(id, at.extend(tube - below), half, bearing));
    }
    scheme.runs = vec![Arc::new(run)];
    site.schemes = vec![Arc::new(scheme)];
    site
}

fn breaches(study: &Study, catalogue: &Catalogue) -> Vec<Finding> {
    let mut all = judge(&study.site, catalogue, study);
    all.retain(|finding| finding.severity == Severity::Breach);
    all
}

/// The study with the run moved by a vector.
fn moved(before: &Study, by: DVec3) -> Option<Study> {
    let mut run = Run::clone(&before.site.scheme().runs[0]);
    run.burner += by.truncate();
    run.tube_height = run.tube_height + Length::metres(by.z);
    let site = Edit::Put(Object::Run(Arc::new(run)))
        .apply(&before.site)
        .ok()?;
    Some(restudy(before, &Arc::new(site), &before.catalogue))
}

fn is_clean(before: &Study, by: DVec3) -> bool {
    moved(before, by).is_some_and(|study| breaches(&study, &study.catalogue).is_empty())
}

fn directions(way: Way, run: &Run) -> Option<[DVec3; 2]> {
    let forward = along(run.bearing);
    let one = match way {
        Way::Height => DVec3::Z,
        Way::Across => forward.perp().extend(0.0),
        Way::Along => forward.extend(0.0),
        _ => return None,
    };
    Some([one, -one])
}

#[test]
fn the_least_move_is_the_least_that_a_fine_search_finds() {
    let catalogue = Arc::new(rafterglow::store::catalogue_file::embedded());
    let (n_wanted, step_m) = if is_full() { (300, 0.005) } else { (24, 0.05) };
    let mut random = fastrand::Rng::with_seed(77);
    let (mut n_sites, mut n_blocked, mut n_offers, mut n_closed) = (0, 0, 0, 0);
    while n_sites < n_wanted {
        let site = Arc::new(random_site(&mut random));
        let before = study(&site, &catalogue);
        let findings = judge(&site, &catalogue, &before);
        let found = breaches(&before, &catalogue);
        let [fault] = &found[..] else {
            continue;
        };
        if fault.rule != "combustible-inside-keep-clear" {
            continue;
        }
        n_sites += 1;
        let run = &before.runs[0];
        let inside = run
            .clearance
            .near
            .iter()
            .find(|near| near.burns.counts_as_combustible() && near.measured.is_breach())
            .unwrap();
        let heading = along(run.run.bearing);
        let left = heading.perp().extend(0.0);
        let ahead = heading.extend(0.0);
        let away = [DVec3::Z, -DVec3::Z, -left, left, ahead, -ahead];
        let nearest = inside
            .measured
            .moves_m
            .iter()
            .zip(away)
            .min_by(|a, b| a.0.total_cmp(b.0))
            .unwrap();
        n_blocked += usize::from(!is_clean(&before, nearest.1 * (nearest.0 + 1e-4)));
        let base = Base {
            study: &before,
            findings: &findings,
        };
        let all = ways_out(&base, fault);
        assert_eq!(all.len(), 1);
        let offers = &all[0].offers;
        for way in [Way::Height, Way::Across, Way::Along] {
            let offer = offers.iter().find(|offer| offer.way == way);
            let least_m = offer.map(|offer| match offer.least {
                Measure::Moved(step, by_m) => {
                    let by = step.direction(&run.run) * by_m;
                    assert!(is_clean(&before, by), "{n_sites} {way:?} {by_m}");
                    by_m
                }
                _ => panic!("{way:?} is a move"),
            });
            // Nothing nearer is free, as far as a fine search sees.
            let farthest =
                least_m.map_or(0.95 * LIMIT_M, |least| (least * 0.95).min(least - 0.005));
            for direction in directions(way, &run.run).unwrap() {
                let mut at_m = step_m;
                while at_m < farthest {
                    assert!(
                        !is_clean(&before, direction * at_m),
                        "site {n_sites}, {way:?}: {least_m:?} proposed, {at_m} m will do"
                    );
                    at_m += step_m;
                }
            }
            n_closed += usize::from(offer.is_none());
        }
        for offer in offers {
            let next = Arc::new(offer.edit.apply(&site).unwrap());
            let after = study(&next, &catalogue);
            assert_eq!(breaches(&after, &catalogue), [], "{:?}", offer.offered);
            n_offers += 1;
        }
    }
    assert!(3 * n_blocked >= n_sites, "{n_blocked} of {n_sites} blocked");
    assert!(
        n_offers > n_sites && n_closed > 0,
        "{n_offers} offers, {n_closed} closed"
    );
}

/// What the fixtures of the rules hold: each geometric breach of them, by rule.
fn of_fixtures(mut each: impl FnMut(&str, &Base<'_>, &Finding)) {
    let catalogue = rules::catalogue();
    for rule in rafterglow::findings::RULES {
        for path in rules::fixtures(rule.name) {
            let site = Arc::new(rules::open(&path));
            let before = study(&site, &catalogue);
            let findings = judge(&site, &catalogue, &before);
            let base = Base {
                study: &before,
                findings: &findings,
            };
            let of_rule = findings.iter().filter(|it| it.rule == rule.name);
            for fault in of_rule.filter(|it| is_geometric_breach(it)) {
                each(&path.display().to_string(), &base, fault);
            }
        }
    }
}

/// What is told of a change, against both studies.
fn changes_are_those_of_the_studies(change: &Change, run: &RunStudy, was: &Study, is: &Study) {
    let now = is.run(&run.run.id).unwrap();
    let kinds = |run: &RunStudy, kind: Kind| {
        let hangers = run.hanging.hangers.iter();
        hangers.filter(|hanger| hanger.at.kind == kind).count()
    };
    let both = |kind| (kinds(run, kind), kinds(now, kind));
    let n_hangers = |run: &RunStudy| run.hanging.hangers.len();
    assert_eq!(change.n_hangers, (n_hangers(run), n_hangers(now)));
    assert_eq!(change.n_channels, both(Kind::Channel));
    assert_eq!(change.n_off_panel, both(Kind::OffPanel));
    assert_eq!(change.input_net, (run.size.input_net, now.size.input_net));
    let cost = |run: &RunStudy| {
        let hangers = run.hanging.hangers.iter();
        (n_hangers(run) > 0).then(|| hangers.map(|it| u64::from(it.at.cost)).sum::<u64>())
    };
    assert_eq!(change.cost, (cost(run), cost(now)));
    let stations = |study: &Study, id: &RunId| -> Vec<f64> {
        let hangers = study.run(id).unwrap().hanging.hangers.iter();
        hangers.map(|hanger| hanger.at.station_m).collect()
    };
    for other in was.runs.iter().filter(|it| it.run.id != run.run.id) {
        let id = &other.run.id;
        let moves = stations(was, id) != stations(is, id);
        assert!(!moves || change.rehung.contains(id), "{id}: {change:?}");
    }
}

#[test]
fn every_way_out_of_every_fixture_cures_it_and_none_is_nearer() {
    let step_m = if is_full() { 0.01 } else { 0.3 };
    let mut cured: BTreeMap<&str, BTreeSet<Way>> = BTreeMap::new();
    of_fixtures(|name, base, fault| {
        for found in ways_out(base, fault) {
            let run = base.study.run(&found.run).unwrap();
            for offer in &found.offers {
                let tried = base.tried(&offer.edit).unwrap();
                let what = format!("{name}, {:?}: {:?}", offer.way, offer.offered);
                assert!(tried.is_cured(fault), "{what}");
                let new: Vec<_> = base.new_breaches(&tried).collect();
                assert!(new.is_empty(), "{what}: {new:?}");
                changes_are_those_of_the_studies(&offer.change, run, base.study, &tried.study);
                cured.entry(fault.rule).or_default().insert(offer.way);
            }
            for way in [Way::Height, Way::Across, Way::Along] {
                let offer = found.offers.iter().find(|offer| offer.way == way);
                let farthest = offer.map_or(LIMIT_M, |offer| match offer.least {
                    Measure::Moved(_, by_m) => (by_m * 0.95).min(by_m - 0.005),
                    _ => panic!("{way:?} is a move"),
                });
                for direction in directions(way, &run.run).unwrap() {
                    let mut at_m = step_m;
                    while at_m < farthest {
                        let by = direction * at_m;
                        let mut run = Run::clone(&run.run);
                        run.burner += by.truncate();
                        run.tube_height = run.tube_height + Length::metres(by.z);
                        let tried = base.tried(&Edit::Put(Object::Run(Arc::new(run))));
                        let is_way_out = tried.is_some_and(|tried| {
                            tried.is_cured(fault) && base.new_breaches(&tried).next().is_none()
                        });
                        assert!(!is_way_out, "{name}, {way:?}: {at_m} m will do");
                        at_m += step_m;
                    }
                }
            }
        }
    });
    // What is cured, and how, as the rules have it.
    let ways = |rule: &str| cured.get(rule).map(|ways| ways.iter().copied().collect());
    let heights = [
        "garage-heater-too-low",
        "hangar-heater-too-low",
        "hangar-shop-heater-too-low",
        "mounting-height-outside-range",
        "vehicle-door-head-above-heater",
    ];
    for rule in heights {
        let found: Vec<Way> = ways(rule).unwrap();
        assert!(found.contains(&Way::Height), "{rule}: {found:?}");
    }
    for rule in [
        "combustible-inside-keep-clear",
        "crane-inside-lawful-distance",
        "sprinkler-rating-too-low",
        "heater-in-hazard-zone",
        "runs-crossing",
        "solid-meets-heater",
    ] {
        assert!(cured.contains_key(rule), "{rule}: {cured:?}");
    }
}

#[test]
fn away_from_sprayed_paint_is_just_as_far_as_is_missing() {
    let catalogue = rules::catalogue();
    let mut site = rules::open(&rules::folder().join("paint-sprayed-near-heater/fires.ron"));
    // The fixture's booth is farther inside the distance than a run may be moved.
    let heading = along(site.scheme().runs[0].bearing);
    for thing in &mut site.obstructions {
        if let Footprint::Area { outline, .. } = &mut Arc::make_mut(thing).footprint {
            outline
                .iter_mut()
                .for_each(|corner| *corner += heading * 2.5);
        }
    }
    let site = Arc::new(site);
    let before = study(&site, &catalogue);
    let findings = judge(&site, &catalogue, &before);
    let of_rule = |it: &&Finding| it.rule == "paint-sprayed-near-heater";
    let fault = findings.iter().find(of_rule).unwrap();
    let base = Base {
        study: &before,
        findings: &findings,
    };
    let offers = &ways_out(&base, fault)[0].offers;
    let back = offers.iter().find(|it| it.way == Way::Along).unwrap();
    let Measure::Moved(_, by_m) = back.least else {
        panic!("{back:?}");
    };
    let missing_m = fault.required.unwrap() - fault.measured.unwrap();
    // The tube slopes: level moves are a little longer, and the last jump is a millimetre.
    let over_m = by_m - missing_m;
    assert!((0.0..0.0015).contains(&over_m), "{by_m}, {missing_m}");
    assert!(base.tried(&back.edit).unwrap().is_cured(fault));
}
