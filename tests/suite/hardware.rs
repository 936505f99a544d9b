//! Suspension hardware on whole sites: strong enough for the worst case, made up to
//! length, listed so that it can be cut and bought.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use rafterglow::catalogue::{Catalogue, HangerEyes, SuspensionKind};
use rafterglow::geometry::math::tan;
use rafterglow::hanging::GRAVITY;
use rafterglow::site::{Edit, Object, Run, RunId, Site};
use rafterglow::store::{self, embedded_catalogue, samples::SAMPLES};
use rafterglow::study::{Assumption, Leg, Study, channel_list, cut_list, restudy, study};
use rafterglow::units::{Angle, Length};
use std::collections::BTreeMap;
use std::sync::Arc;

use crate::made::{Shed, shed};

fn sample(name: &str) -> Site {
    let sample = SAMPLES.iter().find(|known| known.name == name).unwrap();
    sample.open().unwrap()
}

fn studied(site: Site, catalogue: Catalogue) -> Study {
    study(&Arc::new(site), &Arc::new(catalogue))
}

/// The embedded catalogue with two suspensions a hanger.
fn with_two_eyes(apart: Length) -> Catalogue {
    let mut catalogue = embedded_catalogue();
    for family in catalogue.families().to_vec() {
        let mut family = family.as_ref().clone();
        family.hanging.eyes = HangerEyes::Two { apart };
        catalogue.put(family);
    }
    catalogue.validate().unwrap();
    catalogue
}

/// A site with every run changed.
fn with_runs(site: Site, change: impl Fn(&mut Run)) -> Site {
    let runs = site.scheme().runs.clone();
    runs.iter().fold(site, |site, run| {
        let mut next = run.as_ref().clone();
        change(&mut next);
        let put = Edit::Put(Object::Run(Arc::new(next)));
        put.apply(&site).unwrap()
    })
}

/// What holds for every suspension of every study.
fn check(study: &Study) {
    let list = cut_list(study);
    let mut pieces = list.pieces.iter();
    for run in &study.runs {
        assert_eq!(run.hardware.len(), run.hanging.hangers.len());
        let weight_n: f64 = run.hanging.hangers.iter().map(|it| it.load.load_n).sum();
        assert!(weight_n >= 0.0);
        for (which, (hanger, hardware)) in run.hanging.hangers.iter().zip(&run.hardware).enumerate()
        {
            assert!(hanger.cases.greatest_n() >= hanger.load.load_n);
            let up_n: f64 = hanger
                .suspensions
                .iter()
                .map(|it| it.pull_n * (it.attach.z - it.eye.z) / it.length_m)
                .sum();
            assert!((up_n - hanger.load.load_n).abs() < 1e-9 * weight_n.max(1.0));
            let shortest_m = hanger
                .suspensions
                .iter()
                .map(|it| it.length_m)
                .fold(f64::INFINITY, f64::min);
            assert!((shortest_m - hanger.at.suspension_m).abs() < 1e-12);
            assert_eq!(hardware.legs.len(), hanger.suspensions.len());
            for (leg, suspension) in hardware.legs.iter().zip(&hanger.suspensions) {
                let piece = pieces.next().unwrap();
                assert_eq!((&piece.run, piece.hanger), (&run.run.id, which + 1));
                assert_eq!(piece.length_m, suspension.length_m);
                assert_eq!(leg.pull_n, hanger.greatest_pull_n(suspension));
                assert!(piece.verify.contains(&Assumption::GenericHardware));
                if let Some(allowed_n) = piece.allowed_n {
                    assert!(piece.pull_n <= allowed_n * (1.0 + 1e-6));
                }
                if let (Some((least_m, greatest_m)), true) =
                    (piece.range_m, piece.adjuster.is_some())
                {
                    assert!(least_m <= piece.length_m + 1e-6);
                    assert!(piece.length_m <= greatest_m + 1e-6);
                }
            }
        }
    }
    assert_eq!(pieces.next(), None);
    // The sums are those of the lines, taken another way.
    let mut cut: BTreeMap<&str, (usize, f64)> = BTreeMap::new();
    let mut parts: BTreeMap<&str, usize> = BTreeMap::new();
    for piece in &list.pieces {
        if let (Some(size), Some(cut_m)) = (&piece.size, piece.cut_m) {
            let sum = cut.entry(size).or_default();
            *sum = (sum.0 + 1, sum.1 + cut_m);
        }
        for part in piece.adjuster.iter().chain(&piece.clamp) {
            *parts.entry(part).or_default() += 1;
        }
    }
    for clamp in list
        .channels
        .iter()
        .flat_map(|it| it.clamps.iter().flatten())
    {
        *parts.entry(clamp).or_default() += 1;
    }
    assert_eq!(list.stock.len(), cut.len());
    for total in &list.stock {
        let (n_pieces, cut_m) = cut[total.size.as_str()];
        assert_eq!(total.n_pieces, n_pieces);
        assert!((total.cut_m - cut_m).abs() < 1e-9);
    }
    assert_eq!(list.parts.len(), parts.len());
    for total in &list.parts {
        assert_eq!(total.count, parts[total.name.as_str()]);
    }
}

#[test]
fn every_suspension_of_the_samples_is_strong_enough_and_listed() {
    for name in ["freight-shed", "boat-hall", "net-store"] {
        for kind in SuspensionKind::ALL {
            let mut site = sample(name);
            site.conditions.suspension = kind;
            let study = studied(site, embedded_catalogue());
            check(&study);
            for run in &study.runs {
                for hardware in &run.hardware {
                    assert!(hardware.is_strong_enough(), "{name} {} {kind}", run.run.id);
                    assert!(hardware.legs.iter().all(|leg| leg.kind == kind));
                }
            }
        }
    }
}

#[test]
fn a_tilted_reflectors_second_eye_has_its_own_length_in_the_list() {
    let site = with_runs(sample("freight-shed"), |run| {
        run.tilt = Angle::degrees(20.0);
    });
    let study = studied(site, with_two_eyes(Length::metres(0.4)));
    check(&study);
    let list = cut_list(&study);
    assert!(!list.pieces.is_empty());
    for pair in list.pieces.chunks(2) {
        let [left, right] = pair else { panic!() };
        assert_eq!((left.leg, right.leg), (Leg::Left, Leg::Right));
        // Aimed left, the left eye is higher by 0.4 sin 20 degrees.
        assert!(left.length_m < right.length_m - 0.1, "{left:?} {right:?}");
        assert!(
            left.clamp.is_some() && right.clamp.is_none(),
            "one clamp for both"
        );
    }
    let level = with_runs(sample("freight-shed"), |run| run.tilt = Angle::degrees(0.0));
    let one = studied(level.clone(), embedded_catalogue());
    let two = studied(level, with_two_eyes(Length::metres(0.4)));
    for (one, two) in one.runs.iter().zip(&two.runs) {
        for (one, two) in one.hanging.hangers.iter().zip(&two.hanging.hangers) {
            assert_eq!(
                one.load.load_n, two.load.load_n,
                "loads are those of the run"
            );
            let [left, right] = two.suspensions[..] else {
                panic!()
            };
            let drop_m = one.suspensions[0].length_m;
            if one.at.lean_rad == 0.0 {
                let leg_m = (drop_m * drop_m + 0.04).sqrt();
                assert!((left.length_m - leg_m).abs() < 1e-9);
                assert!((left.pull_n - right.pull_n).abs() < 1e-9);
            }
        }
    }
}

/// The tilted reflector lifts one eye: where the lower eye alone would do, the higher
/// one is what makes a suspension too short.
#[test]
fn the_shorter_of_two_suspensions_is_the_one_that_is_judged() {
    let lower_m = 0.7;
    let of = |catalogue: Catalogue, tilt: f64| {
        let site = with_runs(sample("freight-shed"), |run| {
            run.tilt = Angle::degrees(tilt);
            run.tube_height = run.tube_height + Length::metres(lower_m);
        });
        let study = studied(site, catalogue);
        let run = study.runs[0].clone();
        study.considered(&run)
    };
    let one = of(embedded_catalogue(), 30.0);
    let two = of(with_two_eyes(Length::metres(0.5)), 30.0);
    let refused = |all: &[rafterglow::hanging::Candidate]| {
        all.iter().filter(|it| it.refused.is_some()).count()
    };
    assert!(
        refused(&one) < refused(&two),
        "{} {}",
        refused(&one),
        refused(&two)
    );
    for (a, b) in one.iter().zip(&two) {
        if a.station_m == b.station_m && a.lean_rad == 0.0 && b.lean_rad == 0.0 {
            assert!(b.suspension_m < a.suspension_m);
        }
    }
}

/// A shed with short runs along its joists, each between two of them, so that they hang
/// from cross channels.
fn along_joists(burners: &[(f64, f64)]) -> Study {
    let mut site = shed(Shed::SMALL);
    site.obstructions.clear();
    let mut scheme = site.schemes[0].as_ref().clone();
    let like = scheme.runs[0].as_ref().clone();
    let placed = (1..).zip(burners).map(|(number, &burner)| {
        Arc::new(Run {
            id: RunId::new(format!("R{number}")),
            burner: burner.into(),
            bearing: Angle::degrees(0.0),
            size: "18-6".into(),
            ..like.clone()
        })
    });
    scheme.runs = placed.collect();
    site.schemes[0] = Arc::new(scheme);
    studied(site, embedded_catalogue())
}

/// How many of a part are to be bought.
fn to_buy(study: &Study, name: &str) -> usize {
    let list = cut_list(study);
    let found = list.parts.iter().find(|total| total.name == name);
    found.map_or(0, |total| total.count)
}

#[test]
fn each_channel_has_two_clamps_whoever_hangs_from_it() {
    const CLAMP: &str = "chord clamp over both angles";
    const EYE: &str = "channel nut with eye bolt";
    let x = 1.83 * 3.0;
    let one = along_joists(&[(x, 2.0)]);
    let n_hangers = one.runs[0].hanging.hangers.len();
    assert_eq!(channel_list(&one).len(), n_hangers);
    assert_eq!(to_buy(&one, EYE), n_hangers);
    assert_eq!(to_buy(&one, CLAMP), 2 * n_hangers);
    // Abreast of each other two runs share each channel: as many clamps, twice the eyes.
    let both = along_joists(&[(x - 0.4, 2.0), (x + 0.4, 2.0)]);
    assert_eq!(channel_list(&both).len(), n_hangers);
    assert_eq!(to_buy(&both, EYE), 2 * n_hangers);
    assert_eq!(to_buy(&both, CLAMP), 2 * n_hangers);
    // Out of step they share nothing.
    let apart = along_joists(&[(x - 0.4, 2.0), (x + 0.4, 2.03)]);
    assert_eq!(to_buy(&apart, CLAMP), 4 * n_hangers);
    for study in [&one, &both, &apart] {
        check(study);
        for (clamps, channel) in cut_list(study).channels.iter().zip(channel_list(study)) {
            assert_eq!(
                (&clamps.channel, &clamps.members),
                (&channel.name, &channel.members)
            );
            // Moments about the first member, and forces, in balance.
            let (mut forces_n, mut moment_n_m) = (0.0, 0.0);
            for it in &channel.hangers {
                let run = study.run(&it.run).unwrap();
                let load_n = run.hanging.hangers[it.number - 1].cases.greatest_n();
                forces_n += load_n;
                moment_n_m += load_n * it.to_first_m;
            }
            let [first_n, second_n] = clamps.loads_n;
            assert!((first_n + second_n - forces_n).abs() < 1e-9 * forces_n);
            assert!((second_n * channel.span_m - moment_n_m).abs() < 1e-9 * moment_n_m);
            for (worst_n, level_n) in clamps.loads_n.into_iter().zip(channel.end_loads_n) {
                assert!(level_n <= worst_n * (1.0 + 1e-9));
            }
        }
    }
}

#[test]
fn another_kind_is_studied_again_as_if_afresh() {
    let catalogue = Arc::new(embedded_catalogue());
    let site = Arc::new(sample("boat-hall"));
    let before = study(&site, &catalogue);
    let mut rope = site.as_ref().clone();
    rope.conditions.suspension = SuspensionKind::Rope;
    let rope = Arc::new(rope);
    let again = restudy(&before, &rope, &catalogue);
    assert_eq!(again, study(&rope, &catalogue));
    assert_ne!(again.runs[0].hardware, before.runs[0].hardware);
    let one = with_runs(rope.as_ref().clone(), |run| {
        if run.id.as_str() == "R2" {
            run.suspension = Some(SuspensionKind::Rod);
        }
    });
    let one = Arc::new(one);
    let again = restudy(&again, &one, &catalogue);
    assert_eq!(again, study(&one, &catalogue));
    let kinds = |id: &str| again.run(&id.into()).unwrap().hardware[0].legs[0].kind;
    assert_eq!(kinds("R1"), SuspensionKind::Rope);
    assert_eq!(kinds("R2"), SuspensionKind::Rod);
}

#[test]
fn a_file_of_hardware_adds_and_replaces() {
    let folder = std::env::temp_dir().join(format!("rafterglow-hardware-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let path = folder.join("mine.ron");
    let mut mine = store::embedded_hardware();
    mine.sizes.truncate(1);
    mine.adjusters.clear();
    mine.attachments.clear();
    let mut chain = mine.sizes[0].as_ref().clone();
    chain.name = "chain as bought".to_owned();
    chain.source.certified = true;
    mine.sizes = vec![Arc::new(chain)];
    let text = store::catalogue_file::text_of_hardware(&path, &mine).unwrap();
    std::fs::write(&path, &text).unwrap();
    let catalogue = store::catalogue_with([path.as_path()]).unwrap();
    assert_eq!(
        catalogue.hardware.sizes.len(),
        embedded_catalogue().hardware.sizes.len()
    );
    assert_eq!(catalogue.hardware.sizes[0].name, "chain as bought");
    std::fs::write(&path, text.replace("factor: 4.0", "factor: 0.4")).unwrap();
    let refused = store::catalogue_with([path.as_path()])
        .unwrap_err()
        .to_string();
    assert!(
        refused.contains("hardware.sizes[0].strength.factor"),
        "{refused}"
    );
    std::fs::remove_dir_all(&folder).unwrap();
}

/// Side pulls on both sides of the fixed hanger work against each other, and what is
/// left of them is at the fixed hanger.
#[test]
fn side_pull_is_load_times_tangent_of_swing() {
    let study = studied(sample("freight-shed"), embedded_catalogue());
    for run in &study.runs {
        let mut sum_n = 0.0;
        for hanger in &run.hanging.hangers {
            let expected = hanger.load.load_n * tan(hanger.swing_rad);
            assert!((hanger.side_pull_n.abs() - expected).abs() < 1e-9 * GRAVITY);
            sum_n += hanger.side_pull_n;
        }
        assert!((run.hanging.fixed_pull_n - sum_n.abs()).abs() < 1e-9);
        assert!(
            run.hanging.fixed_pull_n > 0.0,
            "the fixed hanger holds the rest"
        );
    }
}
