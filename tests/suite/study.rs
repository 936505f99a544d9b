//! The study as a whole: what changed is computed again, the rest is kept, and nobody
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
//! can tell the difference.

use crate::made::{Shed, shed};
use rafterglow::catalogue::Catalogue;
use rafterglow::findings::judge;
use rafterglow::geometry::DVec2;
use rafterglow::site::edit::{Edit, Object, ObjectId};
use rafterglow::site::place::moved;
use rafterglow::site::{MemberAdjustment, Policy, PolicyItem, Site};
use rafterglow::study::{Study, restudy, study};
use rafterglow::units::{Length, UnitSystem};
use std::sync::Arc;

fn embedded() -> Arc<Catalogue> {
    Arc::new(rafterglow::store::catalogue_file::embedded())
}

/// A change of the kind that a user makes, picked by a seeded generator.
fn some_edit(random: &mut fastrand::Rng, site: &Site) -> Edit {
    let ids = site.object_ids();
    let id = &ids[random.usize(..ids.len())];
    let Some(object) = site.object(id) else {
        panic!("{id} is listed but not there");
    };
    let step = DVec2::new(random.f64() * 4.0 - 2.0, random.f64() * 4.0 - 2.0);
    match random.u32(..8) {
        0 => Edit::Units(if random.bool() {
            UnitSystem::Metric
        } else {
            UnitSystem::FeetInches
        }),
        1 => {
            let given = rafterglow::site::policy::Override {
                value: 1.0 + random.f64() * 3.0,
                reason: "test".into(),
            };
            Edit::Policy(Policy::default().with(PolicyItem::CostChannel, Some(given)))
        }
        2 => {
            let mut framing = site.framings[0].as_ref().clone();
            framing.as_built.push(MemberAdjustment {
                moved: Length::metres(random.f64() * 0.4 - 0.2),
                raised: Length::metres(random.f64() * 0.1),
                missing: random.u32(..4) == 0,
                ..MemberAdjustment::as_drawn(random.usize(1..10))
            });
            Edit::Put(Object::Framing(Arc::new(framing)))
        }
        3 if matches!(id, ObjectId::Run(_) | ObjectId::Obstruction(_)) => Edit::Remove(id.clone()),
        _ => Edit::Put(moved(&object, step)),
    }
}

#[test]
fn studying_again_equals_studying_afresh_to_the_bit() {
    let catalogue = embedded();
    for seed in 0..12 {
        let mut random = fastrand::Rng::with_seed(seed);
        let mut site = Arc::new(shed(Shed::SMALL));
        let mut known = study(&site, &catalogue);
        for step in 0..12 {
            let Ok(next) = some_edit(&mut random, &site).apply(&site) else {
                continue;
            };
            site = Arc::new(next);
            known = restudy(&known, &site, &catalogue);
            assert!(
                known == study(&site, &catalogue),
                "seed {seed}, step {step}"
            );
        }
    }
}

/// The small shed with runs beside its runs, so near that a joist's chord can't bear two of
/// their burners.
fn crowded() -> Site {
    let mut site = shed(Shed::SMALL);
    let mut scheme = site.schemes[0].as_ref().clone();
    for run in scheme.runs.clone() {
        for (letter, across) in [("a", 0.4), ("b", 0.75)] {
            let mut other = run.as_ref().clone();
            other.id = format!("{}{letter}", run.id).as_str().into();
            other.burner += DVec2::new(0.0, across);
            scheme.runs.push(Arc::new(other));
        }
    }
    site.schemes[0] = Arc::new(scheme);
    site
}

#[test]
fn runs_hung_together_are_studied_again_to_the_bit() {
    let catalogue = embedded();
    let (mut in_groups, mut kept_groups, mut steps) = (0, 0, 0);
    for seed in 100..108 {
        let mut random = fastrand::Rng::with_seed(seed);
        let mut site = Arc::new(crowded());
        let mut known = study(&site, &catalogue);
        assert!(!known.groups.is_empty());
        for step in 0..10 {
            let any = random.usize(..known.runs.len());
            let edit = match random.u32(..4) {
                0 => Edit::Put(Object::Run(Arc::new(known.runs[any].with_kept_hangers()))),
                1 => {
                    let run = known.runs[any].run.as_ref().clone();
                    let hanging = rafterglow::site::Hanging::Solved;
                    Edit::Put(Object::Run(Arc::new(rafterglow::site::Run {
                        hanging,
                        ..run
                    })))
                }
                2 => {
                    let run = Object::Run(Arc::clone(&known.runs[any].run));
                    let by = DVec2::new(random.f64() * 0.4 - 0.2, random.f64() * 0.2 - 0.1);
                    Edit::Put(moved(&run, by))
                }
                _ => some_edit(&mut random, &site),
            };
            let Ok(next) = edit.apply(&site) else {
                continue;
            };
            site = Arc::new(next);
            let before = known;
            known = restudy(&before, &site, &catalogue);
            assert!(
                known == study(&site, &catalogue),
                "seed {seed}, step {step}"
            );
            steps += 1;
            in_groups += known.groups.len();
            let was_known = |group: &&Arc<rafterglow::study::RunGroup>| {
                before.groups.iter().any(|known| Arc::ptr_eq(known, group))
            };
            kept_groups += known.groups.iter().filter(was_known).count();
        }
    }
    assert!(in_groups > steps, "{in_groups} groups in {steps} steps");
    assert!(
        kept_groups * 2 > in_groups,
        "{kept_groups} of {in_groups} were kept"
    );
}

#[test]
fn moving_one_run_computes_one_run() {
    let catalogue = embedded();
    let site = Arc::new(shed(Shed::SMALL));
    let before = study(&site, &catalogue);
    let run = site.object(&ObjectId::Run("R1".into())).unwrap();
    let next = Arc::new(
        Edit::Put(moved(&run, DVec2::new(0.5, 0.0)))
            .apply(&site)
            .unwrap(),
    );
    let after = restudy(&before, &next, &catalogue);
    let kept = before
        .runs
        .iter()
        .zip(&after.runs)
        .map(|(a, b)| Arc::ptr_eq(a, b))
        .collect::<Vec<_>>();
    assert_eq!(kept, [false, true, true, true]);
    assert!(Arc::ptr_eq(&before.structure, &after.structure));
}

fn hung_weight(study: &Study) -> f64 {
    study.totals.mass.as_kilograms()
}

#[test]
fn every_run_of_the_made_shed_hangs_from_panel_points_with_its_whole_weight() {
    let catalogue = embedded();
    let study = study(&Arc::new(shed(Shed::SMALL)), &catalogue);
    assert_eq!(study.totals.n_runs, 4);
    assert_eq!(study.totals.n_hung, 4);
    assert_eq!(study.totals.n_panel, study.totals.n_hangers());
    let by_places: f64 = study.loads.values().map(|place| place.sum_n).sum();
    assert!((by_places / rafterglow::hanging::GRAVITY - hung_weight(&study)).abs() < 1e-9);
}

#[test]
fn findings_come_in_one_order_and_again_the_same() {
    let catalogue = embedded();
    let site = Arc::new(shed(Shed::SMALL));
    let study = study(&site, &catalogue);
    let once = judge(&site, &catalogue, &study);
    assert_eq!(once, judge(&site, &catalogue, &study));
    assert!(
        once.windows(2)
            .all(|pair| pair[0].severity <= pair[1].severity)
    );
}

#[test]
fn an_empty_site_has_an_empty_study() {
    let study = study(&Arc::new(Site::default()), &embedded());
    assert!(study.runs.is_empty() && study.pairs.is_empty() && study.loads.is_empty());
    assert_eq!(study.totals.n_hangers(), 0);
}

#[test]
fn a_large_site_hangs_whole() {
    let study = study(&Arc::new(shed(Shed::LARGE)), &embedded());
    assert_eq!((study.totals.n_runs, study.totals.n_hung), (200, 200));
    assert_eq!(study.structure.members.len(), 2_000);
}
