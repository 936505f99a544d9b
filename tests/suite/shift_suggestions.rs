//! Shifts that are suggested, proven against what they promise.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use super::made::{Shed, shed};
use rafterglow::catalogue::Catalogue;
use rafterglow::findings::judge;
use rafterglow::geometry::DVec2;
use rafterglow::hanging::Outcome;
use rafterglow::remedies::Base;
use rafterglow::remedies::hanging::{Purpose, Suggestions, Tally, site_suggestion, suggestions};
use rafterglow::site::place::{MirrorLine, Motion};
use rafterglow::site::policy::{Override, PolicyItem};
use rafterglow::site::*;
use rafterglow::store;
use rafterglow::study::{Study, study};
use rafterglow::units::{Angle, Length};
use std::sync::Arc;

/// More of everything with RAFTERGLOW_FULL set.
fn n_sites() -> usize {
    if std::env::var_os("RAFTERGLOW_FULL").is_some() {
        60
    } else {
        6
    }
}

fn catalogue() -> Arc<Catalogue> {
    Arc::new(store::embedded_catalogue())
}

fn studied(site: &Site) -> Study {
    study(&Arc::new(site.clone()), &catalogue())
}

fn suggested(study: &Study, id: &RunId) -> Suggestions {
    let findings = judge(&study.site, &study.catalogue, study);
    let base = Base {
        study,
        findings: &findings,
    };
    suggestions(&base, id)
}

fn with_runs(site: &Site, change: &mut dyn FnMut(&mut Run)) -> Site {
    let mut site = site.clone();
    let scheme = Arc::make_mut(&mut site.schemes[0]);
    for run in &mut scheme.runs {
        change(Arc::make_mut(run));
    }
    site
}

/// A made shed whose runs stand a little off the panel points, here and there, with a
/// small limit of shifts, so that every place can be tried.
fn shaken(random: &mut fastrand::Rng, limit_m: f64) -> Site {
    let mut site = shed(Shed {
        stacks_per_row: 0,
        ..Shed::SMALL
    });
    let given = |value| {
        Some(Override {
            value,
            reason: "small enough to try all".to_owned(),
        })
    };
    site.policy = site
        .policy
        .with(PolicyItem::ShiftAlong, given(limit_m))
        .with(PolicyItem::ShiftAcross, given(limit_m));
    let mut framing = site.framings[0].as_ref().clone();
    if random.bool() {
        framing.allowed_off_panel = Allowance::Known(rafterglow::units::Force::newtons(0.0));
    }
    framing.spacing = Length::metres([1.83, 2.4, 3.2][random.usize(0..3)]);
    site.framings = vec![Arc::new(framing)];
    with_runs(&site, &mut |run| {
        run.burner += DVec2::new(random.f64() * 1.2, 0.3 - 0.6 * random.f64());
    })
}

fn outcome(study: &Study, id: &RunId) -> Outcome {
    Outcome::of_hanging(&study.run(id).unwrap().hanging)
}

#[test]
fn every_suggestion_keeps_what_it_promises() {
    let mut random = fastrand::Rng::with_seed(71);
    let mut n_offered = 0;
    for _ in 0..n_sites() {
        let site = shaken(&mut random, 0.4);
        let before = studied(&site);
        let breaches = |study: &Study| -> Vec<(String, Vec<String>)> {
            judge(&study.site, &study.catalogue, study)
                .iter()
                .filter(|finding| finding.is_open_breach())
                .map(|it| {
                    let subjects = it.subjects.iter().map(ToString::to_string).collect();
                    (it.rule.to_owned(), subjects)
                })
                .collect()
        };
        let known = breaches(&before);
        for run in &site.schemes[0].runs {
            let found = suggested(&before, &run.id);
            let now = outcome(&before, &run.id);
            assert_eq!(found, suggested(&before, &run.id));
            assert_eq!(found.list.is_empty(), !found.none.is_empty());
            let mut cost = now.cost.unwrap_or(u64::MAX);
            for suggestion in &found.list {
                assert_eq!(suggestion.before, now);
                let after = studied(&suggestion.edit.apply(&site).unwrap());
                assert_eq!(outcome(&after, &run.id), suggestion.after);
                assert!(suggestion.after.cost.unwrap() < cost);
                cost = suggestion.after.cost.unwrap();
                for breach in breaches(&after) {
                    assert!(known.contains(&breach), "{breach:?}");
                }
                let moved = after.run(&run.id).unwrap();
                let unmoved = Run {
                    burner: run.burner,
                    bearing: run.bearing,
                    ..moved.run.as_ref().clone()
                };
                assert_eq!(unmoved, **run);
                let turned = suggestion.shift.clockwise_deg;
                let farthest = suggestion
                    .shift
                    .along_m
                    .abs()
                    .max(suggestion.shift.across_m.abs());
                assert!(farthest < 0.4 + 1e-9 && (turned.abs() <= 5.0 || turned.abs() == 90.0));
                n_offered += 1;
            }
        }
    }
    assert!(n_offered > n_sites(), "{n_offered}");
}

#[test]
fn the_nearest_shift_is_the_nearest_of_all() {
    let mut random = fastrand::Rng::with_seed(72);
    let mut n_found = 0;
    for _ in 0..n_sites() {
        let site = shaken(&mut random, 0.05);
        let before = studied(&site);
        for run in &site.schemes[0].runs {
            let now = outcome(&before, &run.id).cost.unwrap_or(u64::MAX);
            let found = suggested(&before, &run.id);
            let mut nearest: Option<i32> = None;
            for along in -5..=5_i32 {
                for across in -5..=5_i32 {
                    let moved = with_runs(&site, &mut |it| {
                        if it.id == run.id {
                            // Bearing east: along is x, left is y.
                            it.burner +=
                                DVec2::new(f64::from(along) / 100.0, f64::from(across) / 100.0);
                        }
                    });
                    let after = rafterglow::study::restudy(&before, &Arc::new(moved), &catalogue());
                    let size = along * along + across * across;
                    if outcome(&after, &run.id).cost.is_some_and(|cost| cost < now)
                        && nearest.is_none_or(|nearest| size < nearest)
                    {
                        nearest = Some(size);
                    }
                }
            }
            let first = found
                .list
                .first()
                .filter(|it| it.shift.clockwise_deg == 0.0);
            #[expect(clippy::cast_possible_truncation, reason = "a few centimetres")]
            let steps = |length_m: f64| (length_m * 100.0).round() as i32;
            let size = first.map(|it| {
                let (along, across) = (steps(it.shift.along_m), steps(it.shift.across_m));
                along * along + across * across
            });
            assert_eq!(size, nearest, "{} {:?}", run.id, found);
            n_found += usize::from(size.is_some());
        }
    }
    assert!(n_found > 2, "{n_found}");
}

#[test]
fn a_moved_turned_or_mirrored_site_gets_the_same_suggestions() {
    let mut random = fastrand::Rng::with_seed(73);
    for _ in 0..n_sites().div_ceil(3) {
        let site = shaken(&mut random, 0.5);
        let as_drawn = studied(&site);
        let about = DVec2::new(3.0, -4.0);
        for motion in [
            Motion::Move(DVec2::new(120.0, -35.5)),
            Motion::Turn {
                about,
                by: Angle::degrees(37.0),
            },
            Motion::Mirror(MirrorLine {
                through: about,
                bearing: Angle::degrees(20.0),
            }),
        ] {
            let elsewhere = studied(&motion.site(&site));
            for run in &site.schemes[0].runs {
                let shown = |study: &Study| {
                    let found = suggested(study, &run.id);
                    let list: Vec<_> = found
                        .list
                        .iter()
                        .map(|it| {
                            let mm = |length_m: f64| (length_m.abs() * 1000.0).round();
                            let shift = it.shift;
                            (
                                it.purpose,
                                [mm(shift.along_m), mm(shift.across_m)],
                                shift.clockwise_deg.abs(),
                                (it.after.cost, it.after.n_hangers, it.after.n_channels),
                            )
                        })
                        .collect();
                    list
                };
                assert_eq!(shown(&elsewhere), shown(&as_drawn), "{} {motion:?}", run.id);
            }
        }
    }
}

#[test]
fn runs_with_kept_hangers_and_runs_at_hang_points_get_none() {
    let site = shed(Shed::SMALL);
    let study = studied(&site);
    let id: RunId = "R1".into();
    let found = suggested(&study, &id);
    assert!(found.list.is_empty() && !found.none.is_empty());
    let kept = study.run(&id).unwrap().with_kept_hangers();
    let site = with_runs(&site, &mut |run| {
        if run.id == id {
            *run = kept.clone();
        }
    });
    let found = suggested(&studied(&site), &id);
    assert!(found.list.is_empty() && !found.none.is_empty());
    let found = suggested(&study, &"R99".into());
    assert!(found.list.is_empty() && !found.none.is_empty());
}

#[test]
fn a_run_off_its_panel_points_is_brought_under_them() {
    let site = with_runs(&shed(Shed::SMALL), &mut |run| run.burner.y += 0.37);
    let study = studied(&site);
    let found = suggested(&study, &"R1".into());
    let first = &found.list[0];
    assert_eq!(first.purpose, Purpose::NearestCheaper);
    assert!(first.before.n_off_panel > 0);
    assert!(first.after.n_off_panel < first.before.n_off_panel);
    assert_eq!(found.list.last().unwrap().after.n_off_panel, 0);
    let words: String = first
        .words
        .iter()
        .map(|phrase| format!("{phrase:?}"))
        .collect();
    assert!(words.contains("to its right"), "{words}");
}

#[test]
fn a_site_s_shift_saves_what_it_says_and_breaks_nothing() {
    let mut random = fastrand::Rng::with_seed(74);
    let mut n_moved = 0;
    for _ in 0..n_sites().div_ceil(2) {
        let site = shaken(&mut random, 1.5);
        let before = studied(&site);
        let findings = judge(&before.site, &before.catalogue, &before);
        let base = Base {
            study: &before,
            findings: &findings,
        };
        let found = site_suggestion(&base, 0.3);
        assert_eq!(found, site_suggestion(&base, 0.3));
        let after = studied(&found.edit.apply(&site).unwrap());
        assert_eq!(Tally::of(&before), found.before);
        assert_eq!(Tally::of(&after), found.after);
        if found.moved.is_empty() {
            assert_eq!(found.before, found.after);
        } else if found.after.n_hung == found.before.n_hung {
            assert!(found.after.cost < found.before.cost);
        } else {
            assert!(found.after.n_hung > found.before.n_hung);
        }
        for (id, moved) in &found.moved {
            assert!(moved.along_m.abs().max(moved.across_m.abs()) <= 0.3 + 1e-9);
            assert_eq!(moved.before, outcome(&before, id));
            assert_eq!(moved.after, outcome(&after, id));
        }
        let judged = judge(&after.site, &after.catalogue, &after);
        let tried = rafterglow::remedies::Tried {
            study: after,
            findings: judged,
        };
        assert_eq!(base.new_breaches(&tried).count(), 0);
        // Nothing is left to gain by less than is asked for, and nothing by nothing.
        assert!(site_suggestion(&base, 0.0).moved.is_empty());
        n_moved += found.moved.len();
    }
    assert!(n_moved > 2, "{n_moved}");
}
