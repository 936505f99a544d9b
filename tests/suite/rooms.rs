//! The room in each direction of a run: what the window, the sheets and the command line
//! say of it.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use rafterglow::clearance::Direction;
use rafterglow::geometry::{DVec3, tolerance};
use rafterglow::store;
use rafterglow::study::{Study, Thing, rooms, study, worst_rooms};
use std::sync::Arc;

const SAMPLES: [&str; 3] = ["freight-shed", "boat-hall", "net-store"];

fn studied(name: &str) -> Study {
    let path = format!("{}/sample-sites/{name}.ron", env!("CARGO_MANIFEST_DIR"));
    let site = store::open(path.as_ref()).unwrap();
    study(&Arc::new(site), &Arc::new(store::embedded_catalogue()))
}

#[test]
fn what_is_near_has_the_figures_of_the_check() {
    for name in SAMPLES {
        let study = studied(name);
        let mut n_compared = 0;
        for run in &study.runs {
            let all = rooms(&study, run);
            for near in &run.clearance.near {
                let is_breach = near.measured.is_breach();
                for reach in near.measured.reaches.iter().flatten() {
                    let room = all
                        .iter()
                        .find(|it| it.thing == near.thing && it.direction == reach.direction);
                    if is_breach && near.measured.governing != Some(reach.direction) {
                        assert_eq!(room, None, "{name} {}", run.run.id);
                        continue;
                    }
                    let room = room.expect("what is near lies in the same directions");
                    assert_eq!(room.available_m, reach.available_m);
                    assert_eq!(room.required_m, reach.required_m);
                    assert_eq!(room.contact, reach.place);
                    assert_eq!(room.depth_m > 0.0, is_breach);
                    n_compared += 1;
                }
            }
        }
        assert!(0 < n_compared, "{name}");
    }
}

/// How far outside a convex solid a point lies, m, by its faces.
fn outside_m(study: &Study, thing: &Thing, at: DVec3) -> f64 {
    let known = study.surroundings.things.iter();
    let solids = known
        .filter(|it| it.thing == *thing)
        .flat_map(|it| &it.solids);
    solids
        .map(|solid| {
            let faces = solid.faces().iter();
            faces
                .map(|face| face.normal.dot(at) - face.offset)
                .fold(f64::NEG_INFINITY, f64::max)
        })
        .fold(f64::INFINITY, f64::min)
}

#[test]
fn a_measure_ends_on_the_thing_that_it_is_to() {
    for name in SAMPLES {
        let study = studied(name);
        for run in &study.runs {
            let frame = &run.clearance.bodies.frame;
            for room in rooms(&study, run) {
                let along = room.direction.axis();
                let local = |p: DVec3| frame.local_from_site(p)[along];
                let gone = (local(room.contact) - local(room.from)) * room.direction.sign();
                assert!((gone - room.available_m).abs() < 1e-6, "{name} {room:?}");
                assert!((room.from.distance(room.to) - room.available_m.abs()).abs() < 1e-6);
                if !matches!(room.thing, Thing::Run(_)) {
                    let off_m = outside_m(&study, &room.thing, room.contact);
                    assert!(off_m < 10.0 * tolerance::LIMIT, "{name} {off_m} {room:?}");
                }
            }
        }
    }
}

#[test]
fn under_a_roof_and_between_walls_there_is_a_figure_to_all_sides_but_below() {
    let study = studied("freight-shed");
    for run in &study.runs {
        let all = rooms(&study, run);
        let worst = worst_rooms(&all);
        for direction in Direction::ALL {
            let found = worst[direction.index()];
            assert!(
                found.is_some() || direction == Direction::Below,
                "{} {direction:?}",
                run.run.id
            );
            for room in all.iter().filter(|it| it.direction == direction) {
                let least = found.expect("there is a worst of these");
                assert!(room.missing_m() <= least.missing_m());
            }
        }
    }
}

/// The room to a crane is that which the law asks for, whatever the crane is made of.
#[test]
fn a_crane_that_is_too_near_by_law_leaves_too_little_room() {
    let path = crate::rules::folder().join("crane-inside-lawful-distance/fires.ron");
    let site = Arc::new(crate::rules::open(&path));
    let study = study(&site, &crate::rules::catalogue());
    let run = &study.runs[0];
    let unlawful = &run.clearance.neighbours.cranes_unlawful[0];
    let reach = unlawful.measured.governing_reach().unwrap();
    let all = rooms(&study, run);
    let to_crane: Vec<_> = all.iter().filter(|it| it.thing == unlawful.thing).collect();
    let [room] = to_crane[..] else {
        panic!("{to_crane:?}");
    };
    assert!(room.is_breach());
    assert!((room.available_m - reach.available_m).abs() < 1e-9);
    assert!(reach.required_m <= room.required_m + 1e-9);
}
