//! The sheet of survey differences.

use rafterglow::sheets::Sheet;
use rafterglow::site::{MeasuredAt, MemberAdjustment, Paper, Site};
use rafterglow::units::UnitSystem;
use std::sync::Arc;

use super::sites::{Set, m};
use super::{assert_readable, texts};

/// A joist with hangers found 20 mm off and 30 mm low, one gone, one where it is drawn.
fn surveyed(site: &mut Site) {
    let at = |distance_m: f64| {
        Some(MeasuredAt {
            from: "1".into(),
            distance: m(distance_m),
        })
    };
    Arc::make_mut(&mut site.framings[0]).as_built = vec![
        MemberAdjustment {
            measured_at: at(2.765),
            raised: m(-0.03),
            notes: "welded stub, ask the engineer before hanging here".to_owned(),
            ..MemberAdjustment::as_drawn(2)
        },
        MemberAdjustment {
            measured_at: at(4.575),
            ..MemberAdjustment::as_drawn(3)
        },
        MemberAdjustment {
            missing: true,
            ..MemberAdjustment::as_drawn(5)
        },
    ];
}

fn page(set: &Set) -> Option<Sheet> {
    let mut sheets = set.sheets();
    let at = sheets
        .iter()
        .position(|sheet| sheet.id.ends_with("survey-differences"))?;
    Some(sheets.swap_remove(at))
}

#[test]
fn only_a_surveyed_site_has_the_sheet() {
    assert!(page(&Set::small()).is_none());
}

#[test]
fn it_tells_members_hangers_and_what_is_still_to_be_measured() {
    let mut set = Set::small();
    set.change(surveyed);
    let sheet = page(&set).unwrap();
    let said = texts(&sheet).join("\n");
    for expected in [
        "J-02",
        "1 + 2.75",
        "20 mm east",
        "30 mm lower",
        "not there",
        "as drawn",
        "welded stub",
        "verify on site",
        "moved",
    ] {
        assert!(said.contains(expected), "no “{expected}” in\n{said}");
    }
}

#[test]
fn nothing_overlaps_on_it() {
    let mut set = Set::small();
    set.change(surveyed);
    for paper in [Paper::A4, Paper::A3, Paper::AnsiB] {
        for units in UnitSystem::ALL {
            set.change(|site| {
                site.sheets.paper = paper;
                site.units = units;
            });
            assert_readable(&set.sheets(), &format!("surveyed, {}", paper.label()));
        }
    }
}
