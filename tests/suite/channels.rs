//! Cross channels as pieces of stock, shared or side by side, and the loads table, on
//! sites made for it.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use rafterglow::geometry::DVec2;
use rafterglow::hanging::{Capacity, Kind, Place, Status};
use rafterglow::site::policy::{Override, PolicyItem};
use rafterglow::site::*;
use rafterglow::store::embedded_catalogue;
use rafterglow::study::{Study, channel_list, channel_plan, loads_table, study};
use rafterglow::units::{Angle, Force, Length};
use std::collections::BTreeMap;
use std::sync::Arc;

use crate::made::{Shed, shed};

/// The small shed with its runs turned along the joists and moved to where asked.
fn along_joists(at: &[(f64, f64)]) -> Site {
    placed(at, 0.0)
}

fn placed(at: &[(f64, f64)], bearing: f64) -> Site {
    let mut site = shed(Shed::SMALL);
    site.obstructions.clear();
    let mut scheme = site.schemes[0].as_ref().clone();
    let like = scheme.runs[0].as_ref().clone();
    scheme.runs = (1..)
        .zip(at)
        .map(|(number, &(x, y))| {
            Arc::new(Run {
                id: RunId::new(format!("R{number}")),
                burner: DVec2::new(x, y),
                bearing: Angle::degrees(bearing),
                size: "18-6".into(),
                ..like.clone()
            })
        })
        .collect();
    site.schemes[0] = Arc::new(scheme);
    site
}

fn with_framing(site: &mut Site, change: impl FnOnce(&mut Framing)) {
    let mut framing = site.framings[0].as_ref().clone();
    change(&mut framing);
    site.framings[0] = Arc::new(framing);
}

fn studied(site: Site) -> Study {
    study(&Arc::new(site), &Arc::new(embedded_catalogue()))
}

/// Every hanger on a channel: run, number, load.
fn on_channels(study: &Study) -> BTreeMap<(RunId, usize), f64> {
    let mut all = BTreeMap::new();
    for run in &study.runs {
        for (number, hanger) in (1..).zip(&run.hanging.hangers) {
            if hanger.at.kind == Kind::Channel {
                all.insert((run.run.id.clone(), number), hanger.load.load_n);
            }
        }
    }
    all
}

/// Each hanger on one piece, each load on it, each end with its share.
fn assert_listed(study: &Study) {
    let list = channel_list(study);
    let mut listed = BTreeMap::new();
    for (number, piece) in (1..).zip(&list) {
        assert_eq!(piece.name, format!("C{number}"));
        for hanger in &piece.hangers {
            let known = listed.insert((hanger.run.clone(), hanger.number), hanger.load_n);
            assert!(known.is_none(), "{}.{} twice", hanger.run, hanger.number);
        }
        let on_ends = piece.end_loads_n[0] + piece.end_loads_n[1];
        assert!((on_ends - piece.load_n()).abs() < 1e-9);
        let moment: f64 = piece
            .hangers
            .iter()
            .map(|hanger| hanger.load_n * hanger.to_first_m)
            .sum();
        assert!((piece.end_loads_n[1] * piece.span_m - moment).abs() < 1e-9);
        assert!((piece.ends[0].distance(piece.ends[1]) - piece.span_m).abs() < 1e-6);
        let over = piece.length_m - piece.span_m;
        assert!((0.1 - 1e-6..0.11).contains(&over), "{over}");
        let steps = piece.length_m / 0.01;
        assert!((steps - steps.round()).abs() < 1e-6);
    }
    assert_eq!(listed, on_channels(study));
    let plan = channel_plan(study, &list);
    let mut cut: Vec<usize> = Vec::new();
    for bar in &plan.bars {
        let pieces: f64 = bar.pieces.iter().map(|&which| list[which].length_m).sum();
        assert!((pieces + bar.kerf_m + bar.offcut_m - 6.0).abs() < 1e-9);
        cut.extend(&bar.pieces);
    }
    cut.sort_unstable();
    assert_eq!(cut, (0..list.len()).collect::<Vec<_>>());
    assert!(plan.too_long.is_empty());
}

#[test]
fn a_run_between_joists_hangs_from_channels_that_are_all_listed() {
    // Joists at 0.915 + 1.83 k: this run lies midway between two.
    let study = studied(along_joists(&[(1.83 * 3.0, 2.0)]));
    assert_eq!(study.runs[0].hanging.status, Status::Solved);
    let list = channel_list(&study);
    assert!(!list.is_empty() && list.len() == on_channels(&study).len());
    for piece in &list {
        assert!((piece.span_m - 1.83).abs() < 1e-9);
        assert_eq!(piece.length_m, 1.93);
        // Square to the members, midway.
        assert!((piece.ends[0].y - piece.ends[1].y).abs() < 1e-9);
        assert!((piece.hangers[0].to_first_m - 0.915).abs() < 1e-6);
    }
    assert_listed(&study);
}

#[test]
fn two_runs_abreast_share_channels_where_these_bear_both() {
    let x = 1.83 * 3.0;
    let apart = |dy: f64| along_joists(&[(x - 0.4, 2.0), (x + 0.4, 2.0 + dy)]);
    let both = studied(apart(0.0));
    let n_hangers = on_channels(&both).len();
    let list = channel_list(&both);
    assert_listed(&both);
    assert_eq!(
        2 * list.len(),
        n_hangers,
        "each piece carries one of each run"
    );
    assert!(list.iter().all(|piece| piece.check.passes()));
    // A hand's breadth apart along the joists: nothing is shared.
    let offset = studied(apart(0.03));
    assert_listed(&offset);
    assert_eq!(channel_list(&offset).len(), on_channels(&offset).len());
    // Within half a channel's width they still share, midway.
    let near = studied(apart(0.015));
    assert_listed(&near);
    let shared = channel_list(&near);
    let first = shared
        .iter()
        .find(|piece| piece.hangers.len() == 2)
        .unwrap();
    let of = |which: usize| {
        let hanger = &first.hangers[which];
        let run = near.run(&hanger.run).unwrap();
        run.hanging.hangers[hanger.number - 1].at.attach.y
    };
    assert!((first.middle().y - f64::midpoint(of(0), of(1))).abs() < 1e-9);
    // A channel that bears one of them, not both: two pieces side by side.
    let mut weak = apart(0.0);
    let most = list
        .iter()
        .map(|it| it.check.moment_n_m)
        .fold(0.0, f64::max);
    let given = Override {
        value: most * 0.7 / 172.0e6,
        reason: "light channel in stock".to_owned(),
    };
    weak.policy = weak
        .policy
        .with(PolicyItem::ChannelSectionModulus, Some(given));
    let weak = studied(weak);
    assert_listed(&weak);
    let pieces = channel_list(&weak);
    assert!(pieces.iter().all(|piece| piece.check.passes()));
    assert!(list.len() < pieces.len());
}

#[test]
fn skewed_and_parallel_runs_load_both_members_of_their_channels() {
    for bearing in [0.0, 3.0, 8.0, 20.0, 45.0, 90.0, 180.0] {
        let study = studied(placed(&[(1.83 * 5.0 + 0.2, 3.0)], bearing));
        let run = &study.runs[0];
        assert!(
            matches!(run.hanging.status, Status::Solved | Status::Impossible),
            "{bearing}"
        );
        assert_listed(&study);
        let weight: f64 = run.hanging.hangers.iter().map(|it| it.load.load_n).sum();
        let on_members: f64 = loads_table(&study).spans.iter().map(|it| it.load_n).sum();
        assert!((weight - on_members).abs() < 1e-9, "{bearing}");
        for hanger in &run.hanging.hangers {
            let shares: f64 = hanger.at.holds().map(|hold| hold.share).sum();
            assert!((shares - 1.0).abs() < 1e-12);
        }
    }
}

#[test]
fn nothing_is_proposed_that_is_longer_than_a_stock_length() {
    let mut site = along_joists(&[(1.83 * 3.0, 2.0)]);
    let given = |value: f64| {
        Some(Override {
            value,
            reason: "what the store has".to_owned(),
        })
    };
    site.policy = site.policy.with(PolicyItem::ChannelStock, given(1.93));
    assert!(!channel_list(&studied(site.clone())).is_empty());
    site.policy = site.policy.with(PolicyItem::ChannelStock, given(1.92));
    assert!(channel_list(&studied(site)).is_empty());
}

#[test]
fn the_loads_table_sums_to_the_whole_weight_every_way() {
    for name in ["freight-shed", "boat-hall", "net-store"] {
        let path = format!("{}/sample-sites/{name}.ron", env!("CARGO_MANIFEST_DIR"));
        let site = rafterglow::store::open(std::path::Path::new(&path)).unwrap();
        let study = studied(site);
        let table = loads_table(&study);
        let weight = study.totals.mass.as_kilograms() * rafterglow::hanging::GRAVITY;
        assert!(weight > 0.0);
        let sums = [
            table.total_n,
            table.places.iter().map(|it| it.load_n).sum(),
            table.spans.iter().map(|it| it.load_n).sum(),
            table.bays.iter().map(|it| it.load_n).sum(),
        ];
        for sum in sums {
            assert!((sum - weight).abs() < 1e-6, "{name}: {sum} of {weight}");
        }
        for place in &table.places {
            let parts: f64 = place.parts.iter().map(|it| it.load_n).sum();
            assert!((parts - place.load_n).abs() < 1e-9);
            assert!(place.load_n <= place.worst_n + 1e-9);
            // The rules judge the very same sum.
            let member = place.member.as_str().into();
            let known = &study.loads[&rafterglow::hanging::LoadPlace {
                member,
                place: place.place,
            }];
            if place.place != Place::Line {
                assert!((known.sum_n - place.load_n).abs() < 1e-9);
                assert_eq!(known.allowed, Some(place.allowed));
            }
        }
        assert!(table.spans.iter().all(|it| it.load_n <= it.worst_n + 1e-9));
    }
}

#[test]
fn what_a_span_may_carry_in_all_turns_a_run_to_other_members() {
    // A run along a joist: everything comes to one span.
    let site = along_joists(&[(0.915 + 1.83 * 3.0, 2.0)]);
    let free = studied(site.clone());
    let spans = loads_table(&free).spans;
    let heaviest = spans.iter().map(|it| it.load_n).fold(0.0, f64::max);
    assert!(heaviest > 300.0 && spans.iter().all(|it| it.allowed == Capacity::Unknown));
    let mut limited = site;
    with_framing(&mut limited, |framing| {
        framing.allowed_in_all = Some(Force::newtons(heaviest * 0.9));
    });
    let study = studied(limited);
    for span in loads_table(&study).spans {
        assert!(span.load_n <= heaviest * 0.9 * (1.0 + 1e-6));
        assert_eq!(span.allowed, Capacity::Known(heaviest * 0.9));
    }
}

/// Girders of a framing of their own, deeper than the joists: either may serve.
#[test]
fn a_run_hangs_from_joists_and_girders_of_two_framings() {
    let mut site = shed(Shed::SMALL);
    site.obstructions.clear();
    let mut girders = site.framings[0].as_ref().clone();
    girders.id = "G".into();
    girders.kind = MemberKind::Beam;
    girders.anchor = DVec2::ZERO;
    // At 4.3 m and 22.3 m, 0.9 m deep under the deck.
    girders.first = Length::metres(4.3);
    girders.spacing = Length::metres(18.0);
    girders.depth = Length::metres(0.9);
    girders.hang_from = HangFrom::Flange;
    girders.panels = None;
    girders.allowed_off_panel = Allowance::Unknown;
    site.framings.push(Arc::new(girders));
    // The joists near the burner are gone: only the girder is there.
    with_framing(&mut site, |joists| {
        joists.as_built = (1..=3)
            .map(|member| MemberAdjustment {
                member,
                missing: true,
                ..MemberAdjustment::as_drawn(member)
            })
            .collect();
    });
    let mut scheme = site.schemes[0].as_ref().clone();
    scheme.runs.truncate(1);
    let mut run = scheme.runs[0].as_ref().clone();
    run.burner = DVec2::new(4.0, 6.0);
    run.tube_height = Length::metres(5.4);
    scheme.runs[0] = Arc::new(run);
    site.schemes[0] = Arc::new(scheme);
    let study = studied(site);
    let hanging = &study.runs[0].hanging;
    assert_eq!(hanging.status, Status::Solved);
    let of = |framing: &str| {
        let of_framing = |member: &str| MemberId::new(member).is_of(&framing.into());
        hanging
            .hangers
            .iter()
            .filter(|it| it.at.members().any(of_framing))
            .collect::<Vec<_>>()
    };
    let (girder, joist) = (of("G"), of("J"));
    assert!(!girder.is_empty() && !joist.is_empty());
    assert!(girder[0].at.attach.z < joist[0].at.attach.z - 0.2);
    assert!(girder[0].at.suspension_m < joist[0].at.suspension_m - 0.2);
}
