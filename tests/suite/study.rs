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
