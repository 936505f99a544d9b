//! The document: edits, undo and redo, the door, and placing things elsewhere.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use crate::sound::{deg, m, site};
use rafterglow::geometry::DVec2;
use rafterglow::problem::Problems;
use rafterglow::site::place::{MirrorLine, Motion};
use rafterglow::site::{
    Acceptance, Bay, Document, Edit, Hanging, Object, ObjectId, Policy, PolicyItem, Run, Scheme,
    Site,
};
use rafterglow::structure::{Member, members};
use rafterglow::units::UnitSystem;
use std::sync::Arc;

/// How many random histories are tried; `RAFTERGLOW_FULL` asks for more.
fn n_histories() -> u64 {
    if std::env::var_os("RAFTERGLOW_FULL").is_some() {
        2_000
    } else {
        60
    }
}

fn run(id: &str) -> ObjectId {
    ObjectId::Run(id.into())
}

fn paths(refused: &Problems) -> Vec<&str> {
    refused.kept().iter().map(|it| it.path.as_str()).collect()
}

/// Some edit; many make sense and some do not.
fn some_edit(site: &Site, random: &mut fastrand::Rng) -> Edit {
    let ids = site.object_ids();
    let some_id = ids.get(random.usize(..ids.len().max(1))).cloned();
    let object = some_id.as_ref().and_then(|id| site.object(id));
    match (random.u32(..14), some_id, object) {
        (0, Some(id), _) => Edit::Remove(id),
        (1, Some(from), _) => Edit::Rename {
            from,
            to: format!("X{}", random.u32(..30)),
        },
        (2, ..) => Edit::Name(format!("name {}", random.u32(..5))),
        (3, ..) => Edit::Units(if random.bool() {
            UnitSystem::Metric
        } else {
            UnitSystem::FeetInches
        }),
        (4, ..) => {
            let mut scheme = site.scheme().as_ref().clone();
            scheme.id = format!("S{}", random.u32(..4)).as_str().into();
            Edit::PutScheme(Arc::new(scheme))
        }
        (5, ..) => {
            let scheme = random.usize(..site.schemes.len());
            let id = site.schemes[scheme].id.clone();
            if random.bool() {
                Edit::RemoveScheme(id)
            } else {
                Edit::ShowScheme(id)
            }
        }
        (6, Some(id), _) => Edit::Accept(Acceptance {
            rule: "some-rule".to_owned(),
            subjects: vec![id.as_str().to_owned()],
            reason: if random.u32(..4) == 0 { "" } else { "seen" }.to_owned(),
            date: String::new(),
        }),
        (7, ..) => match site.acceptances.first() {
            Some(first) => Edit::TakeBackAcceptance {
                rule: first.rule.clone(),
                subjects: first.subjects.clone(),
            },
            None => Edit::Notes("nothing accepted".to_owned()),
        },
        (8, _, Some(object)) => {
            // A copy beside its original.
            let id = site.free_id("N");
            let by = DVec2::new(random.f64() * 4.0, 0.0);
            Edit::Put(Motion::Move(by).object(&object.with_id(&id)))
        }
        (9, ..) => Edit::All(
            (0..random.usize(..4))
                .map(|_| some_edit(site, random))
                .collect(),
        ),
        (10, _, Some(object)) => {
            let line = MirrorLine {
                through: DVec2::new(random.f64() * 30.0, 5.0),
                bearing: deg(random.f64() * 400.0 - 200.0),
            };
            Edit::Put(Motion::Mirror(line).object(&object))
        }
        (_, _, Some(object)) => {
            // Now and then far outside, or nowhere.
            let reach = [1.0, 1.0, 1.0, 100.0, 20_000.0, f64::NAN];
            let reach = reach[random.usize(..reach.len())];
            let by = DVec2::new(random.f64() - 0.5, random.f64() - 0.5) * reach;
            Edit::Put(Motion::Move(by).object(&object))
        }
        _ => Edit::Place("elsewhere".to_owned()),
    }
}

#[test]
fn any_edits_undone_are_gone_and_redone_are_back() {
    let (mut n_done, mut n_refused) = (0, 0);
    for seed in 0..n_histories() {
        let mut random = fastrand::Rng::with_seed(seed);
        let mut document = Document::new(site());
        let mut sites = vec![Arc::clone(document.committed())];
        for step in 0..30 {
            let before = Arc::clone(document.committed());
            let edit = some_edit(&before, &mut random);
            let name = format!("step {step}");
            let result = if random.bool() {
                let other = some_edit(&before, &mut random);
                // Whatever was previewed before, only the last preview counts.
                document.preview("other", &other).ok();
                document.cancel_preview();
                let result = document.preview(name, &edit);
                assert!(Arc::ptr_eq(&before, document.committed()));
                document.commit_preview();
                result
            } else {
                document.carry_out(name, &edit)
            };
            match result {
                Ok(()) => {
                    n_done += 1;
                    let after = document.committed();
                    assert_eq!(after.validate(), Ok(()), "seed {seed}, after {edit:?}");
                    if **after != *before {
                        sites.push(Arc::clone(after));
                    }
                }
                Err(problems) => {
                    n_refused += 1;
                    assert!(!problems.is_empty());
                    assert_eq!(**document.committed(), *before, "refused means unchanged");
                }
            }
        }
        for before in sites.iter().rev().skip(1) {
            assert!(document.undo().is_some());
            assert!(Arc::ptr_eq(document.committed(), before));
        }
        assert_eq!(document.undo(), None);
        assert!(document.is_saved());
        assert_eq!(**document.committed(), site());
        for after in sites.iter().skip(1) {
            assert!(document.redo().is_some());
            assert!(Arc::ptr_eq(document.committed(), after));
        }
        assert_eq!(document.redo(), None);
    }
    assert!(
        n_done > 2 * n_refused && n_refused > 50,
        "{n_done} done, {n_refused} refused"
    );
}

#[test]
fn what_an_edit_leaves_alone_stays_the_same_in_memory() {
    let before = site();
    for id in before.object_ids() {
        let object = before.object(&id).unwrap();
        let moved = Motion::Move(DVec2::new(0.01, 0.0)).object(&object);
        let Ok(after) = Edit::Put(moved).apply(&before) else {
            continue;
        };
        for other in before.object_ids() {
            let same = before
                .object(&other)
                .unwrap()
                .is_same(&after.object(&other).unwrap());
            // An opening goes where its bay goes: moving it alone changes nothing.
            let is_changed = other == id && !matches!(id, ObjectId::Opening(_));
            assert_eq!(same, !is_changed, "{other} after moving {id}");
        }
        assert!(Arc::ptr_eq(&before.schemes[1], &after.schemes[1]));
    }
    // Equal, but elsewhere in memory: what is there stays.
    let copy = Run::clone(&before.schemes[0].runs[0]);
    let after = Edit::Put(Object::Run(Arc::new(copy)))
        .apply(&before)
        .unwrap();
    assert!(Arc::ptr_eq(
        &before.schemes[0].runs[0],
        &after.schemes[0].runs[0]
    ));
}

#[test]
fn removing_a_bay_takes_what_cannot_stand_without_it() {
    let before = site();
    let after = Edit::Remove(ObjectId::Bay("B1".into()))
        .apply(&before)
        .unwrap();
    assert!(after.openings.is_empty());
    assert_eq!(after.framings.len(), 1);
    let run = after.schemes[0].run(&"R2".into()).unwrap();
    assert_eq!(run.hanging, Hanging::Solved, "its members are gone");
    let rules: Vec<&str> = after
        .acceptances
        .iter()
        .map(|it| it.rule.as_str())
        .collect();
    assert_eq!(rules, ["mounting-height"], "the other was about J-03");
    assert_eq!(after.validate(), Ok(()));
}

#[test]
fn removing_a_grid_line_takes_it_from_the_framings() {
    let after = Edit::Remove(ObjectId::GridLine("B".into()))
        .apply(&site())
        .unwrap();
    assert_eq!(after.framings[0].bears_on, ["A".into(), "C".into()]);
    assert_eq!(after.validate(), Ok(()));
}

#[test]
fn an_acceptance_does_not_outlive_the_run_that_it_is_about() {
    // Scheme B has an R1 too: its acceptance stays until that is gone as well.
    let once = Edit::Remove(run("R1")).apply(&site()).unwrap();
    assert_eq!(once.acceptances.len(), 2);
    let twice = Edit::All(vec![Edit::ShowScheme("B".into()), Edit::Remove(run("R1"))])
        .apply(&once)
        .unwrap();
    assert_eq!(twice.acceptances.len(), 1);
}

#[test]
fn references_follow_a_new_name() {
    let rename = |site: &Site, from: ObjectId, to: &str| {
        let to = to.to_owned();
        Edit::Rename { from, to }.apply(site).unwrap()
    };
    let members_of = |site: &Site| -> Vec<String> {
        let Hanging::Locked(hangers) = &site.schemes[0].runs[1].hanging else {
            panic!("the hangers were locked");
        };
        let members = hangers.iter().flat_map(|it| &it.members);
        members.map(ToString::to_string).collect()
    };
    let site = site();
    let bay = rename(&site, ObjectId::Bay("B1".into()), "Shed");
    assert_eq!(bay.openings[0].bay.as_str(), "Shed");
    assert_eq!(bay.framings[0].bay.as_str(), "Shed");
    assert!(Arc::ptr_eq(&bay.framings[1], &site.framings[1]));

    let framing = rename(&site, ObjectId::Framing("J".into()), "K2");
    let expected = ["K2-03/BC", "K2-04/BC", "K2-05/BC", "K2-06/BC.2"];
    assert_eq!(members_of(&framing), expected);
    assert_eq!(framing.acceptances[0].subjects, ["R2", "K2-03/AB"]);

    let line = rename(&site, ObjectId::GridLine("B".into()), "B2");
    assert_eq!(
        line.framings[0].bears_on,
        ["A".into(), "B2".into(), "C".into()]
    );
    let expected = ["J-03/B2-C", "J-04/B2-C", "J-05/B2-C", "J-06/B2-C.2"];
    assert_eq!(members_of(&line), expected);
    assert_eq!(line.acceptances[0].subjects, ["R2", "J-03/A-B2"]);

    // Scheme B has an R1 of its own, whose acceptance stays.
    let renamed = rename(&site, run("R1"), "R9");
    assert!(renamed.schemes[1].run(&"R1".into()).is_some());
    let about: Vec<&str> = renamed
        .acceptances
        .iter()
        .flat_map(|it| &it.subjects)
        .map(String::as_str)
        .collect();
    assert_eq!(about, ["R2", "J-03/AB", "R1", "R9"]);
    for after in [bay, framing, line, renamed] {
        assert_eq!(after.validate(), Ok(()));
    }
}

#[test]
fn renamed_lines_name_the_spans_that_the_structure_makes() {
    let renamed = Edit::Rename {
        from: ObjectId::GridLine("C".into()),
        to: "C3".to_owned(),
    }
    .apply(&site())
    .unwrap();
    let spans: Vec<String> = members(&renamed)
        .iter()
        .map(|it| it.id.to_string())
        .collect();
    let Hanging::Locked(hangers) = &renamed.schemes[0].runs[1].hanging else {
        panic!("the hangers were locked");
    };
    for hanger in &hangers[..2] {
        for member in &hanger.members {
            assert!(spans.contains(&member.to_string()), "{member} in {spans:?}");
        }
    }
}

#[test]
fn names_are_taken_once_whatever_they_name() {
    let site = site();
    let rename = |from: ObjectId, to: &str| {
        let to = to.to_owned();
        Edit::Rename { from, to }.apply(&site)
    };
    assert!(rename(run("R1"), "R2").is_err());
    assert!(rename(run("R1"), "O1").is_err());
    assert!(rename(run("R1"), "").is_err());
    assert!(rename(run("R7"), "R8").is_err());
    assert!(rename(run("R1"), "R1").is_ok());
    // Grid lines have a lettering of their own.
    assert!(rename(ObjectId::GridLine("A".into()), "J").is_ok());
    assert_eq!(site.free_id("R"), "R3");
}

#[test]
fn all_or_nothing_and_checked_at_the_end() {
    let site = site();
    let Some(Object::Bay(bay)) = site.object(&ObjectId::Bay("B2".into())) else {
        panic!("the bay is there");
    };
    let other = Bay {
        id: "B3".into(),
        ..Bay::clone(&bay)
    };
    let Some(door) = site.object(&ObjectId::Opening("D1".into())) else {
        panic!("the door is there");
    };
    let Object::Opening(door) = door.with_id("D2") else {
        panic!("a door stays a door");
    };
    let door = Object::Opening(Arc::new(rafterglow::site::Opening {
        bay: "B3".into(),
        ..rafterglow::site::Opening::clone(&door)
    }));
    let bay = Object::Bay(Arc::new(other));
    // The door stands before its bay does: only the end counts.
    let both = Edit::All(vec![Edit::Put(door.clone()), Edit::Put(bay)]);
    assert_eq!(both.apply(&site).unwrap().openings.len(), 2);
    assert_eq!(
        paths(&Edit::Put(door).apply(&site).unwrap_err()),
        ["openings[1].bay"]
    );
    let late = Edit::All(vec![Edit::Name("new".to_owned()), Edit::Remove(run("R7"))]);
    assert!(late.apply(&site).is_err());
}

#[test]
fn what_stands_on_a_bay_is_checked_with_it() {
    let site = site();
    let low = Bay {
        eave: m(4.0),
        ..Bay::clone(&site.bays[0])
    };
    let refused = Edit::Put(Object::Bay(Arc::new(low)))
        .apply(&site)
        .unwrap_err();
    assert_eq!(paths(&refused), ["openings[0].height"]);
}

#[test]
fn the_last_scheme_stays() {
    let one = Edit::RemoveScheme("A".into()).apply(&site()).unwrap();
    assert_eq!(one.shown_scheme.as_str(), "B");
    assert!(Edit::RemoveScheme("B".into()).apply(&one).is_err());
    assert!(Edit::ShowScheme("A".into()).apply(&one).is_err());
}

#[test]
fn an_override_needs_a_reason_and_its_bounds() {
    let set = |value: f64, reason: &str| {
        let reason = reason.to_owned();
        let given = rafterglow::site::policy::Override { value, reason };
        Edit::Policy(Policy::default().with(PolicyItem::ChannelSpan, Some(given))).apply(&site())
    };
    assert!(set(2.0, "stock lengths").is_ok());
    assert_eq!(
        paths(&set(2.0, " ").unwrap_err()),
        ["policy[channel_greatest_span].reason"]
    );
    let refused = set(f64::INFINITY, "why not").unwrap_err();
    assert_eq!(paths(&refused), ["policy[channel_greatest_span].value"]);
}

#[test]
fn bearings_enter_within_one_turn() {
    let mut turned = Run::clone(&site().schemes[0].runs[0]);
    turned.bearing = deg(-30.0);
    let after = Edit::Put(Object::Run(Arc::new(turned)))
        .apply(&site())
        .unwrap();
    assert_eq!(after.schemes[0].runs[0].bearing, deg(330.0));
}

#[test]
fn thousands_of_edits_at_once_are_no_hardship() {
    let mut large = Scheme::clone(&site().schemes[0]);
    let first = Run::clone(&large.runs[0]);
    large.runs = (0..5_000)
        .map(|i| {
            Arc::new(Run {
                id: format!("R{i}").as_str().into(),
                ..first.clone()
            })
        })
        .collect();
    let all = Edit::All(
        large
            .runs
            .iter()
            .map(|run| Edit::Put(Motion::Move(DVec2::X).object(&Object::Run(Arc::clone(run)))))
            .collect(),
    );
    let only = Edit::All(vec![
        Edit::RemoveScheme("B".into()),
        Edit::PutScheme(Arc::new(large)),
    ]);
    let site = only.apply(&site()).unwrap();
    let start = std::time::Instant::now();
    let after = all.apply(&site).unwrap();
    assert!(
        start.elapsed().as_secs_f64() < 2.0,
        "took {:?}",
        start.elapsed()
    );
    assert_eq!(after.schemes[0].runs[4_999].burner, first.burner + DVec2::X);
}

/// Ways to place a site elsewhere, each with the way back.
fn there_and_back() -> Vec<(Motion, Motion)> {
    let mut motions = vec![(
        Motion::Move(DVec2::new(1_000.0, -730.5)),
        Motion::Move(DVec2::new(-1_000.0, 730.5)),
    )];
    for degrees in [17.0, 90.0, 180.0, 261.3, -40.0] {
        let about = DVec2::new(3.0, -20.0);
        motions.push((
            Motion::Turn {
                about,
                by: deg(degrees),
            },
            Motion::Turn {
                about,
                by: deg(-degrees),
            },
        ));
        let mirror = Motion::Mirror(MirrorLine {
            through: about,
            bearing: deg(degrees),
        });
        motions.push((mirror, mirror));
    }
    motions
}

#[test]
fn a_site_placed_elsewhere_is_as_sound_and_comes_back() {
    for (there, back) in there_and_back() {
        let placed = there.site(&site());
        assert_eq!(placed.validate(), Ok(()), "{there:?}");
        let returned = back.site(&placed);
        let home = site();
        for id in home.object_ids() {
            let (was, is) = (home.object(&id).unwrap(), returned.object(&id).unwrap());
            assert_near(&was, &is);
        }
    }
}

fn assert_near(was: &Object, is: &Object) {
    let near = |a: DVec2, b: DVec2| assert!((a - b).length() < 1e-9, "{was:?} became {is:?}");
    match (was, is) {
        (Object::Run(a), Object::Run(b)) => {
            near(a.burner, b.burner);
            let burner = a.burner;
            let turn = (a.bearing - b.bearing).as_degrees().abs();
            assert!(turn.min(360.0 - turn) < 1e-9);
            let bearing = a.bearing;
            assert_eq!(
                **a,
                Run {
                    burner,
                    bearing,
                    ..Run::clone(b)
                }
            );
        }
        (Object::Bay(a), Object::Bay(b)) => {
            a.outline
                .iter()
                .zip(&b.outline)
                .for_each(|(a, b)| near(*a, *b));
        }
        (Object::WorkSpot(a), Object::WorkSpot(b)) => near(a.at, b.at),
        _ => {}
    }
}

#[test]
fn roofs_and_members_go_with_the_site() {
    let home = site();
    let drawn = members(&home);
    for (there, _) in there_and_back() {
        let placed = there.site(&home);
        for (was, is) in home.bays.iter().zip(&placed.bays) {
            for point in [DVec2::new(3.0, 1.0), DVec2::new(40.0, 8.5)] {
                let (z, there_z) = (
                    was.roof_planes().elevation_at(point),
                    is.roof_planes().elevation_at(there.point(point)),
                );
                assert!((z - there_z).abs() < 1e-9, "{there:?}");
            }
        }
        // Panel points count from the lowest grid line, so spans keep their direction
        // where there is one; the purlins have none, and no panel points either.
        let found = members(&placed);
        assert_eq!(found.len(), drawn.len(), "{there:?}");
        for was in &drawn {
            let is = found.iter().find(|it| it.id == was.id);
            let is: &Member = is.unwrap_or_else(|| panic!("{} is gone: {there:?}", was.id));
            let ends = [is.start, is.end()];
            for end in [was.start, was.end()] {
                let end = there.point(end);
                let gap = ends
                    .map(|it| it.distance(end))
                    .into_iter()
                    .fold(9.0, f64::min);
                assert!(gap < 1e-8, "{} is {gap} m off: {there:?}", was.id);
            }
            for (a, b) in was.panel_points.iter().zip(&is.panel_points) {
                let a = there.point(was.plan_at(a.at_m));
                assert!(a.distance(is.plan_at(b.at_m)) < 1e-8, "{}", was.id);
            }
        }
    }
}
