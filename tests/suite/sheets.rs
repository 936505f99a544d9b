//! The plan set, judged on its drawing list: nothing overlaps, nothing is missing,
//! everything is to scale and measured from the grid.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

mod dimensions;
mod golden;
mod lists;
mod sites;
mod survey;
mod words;

use std::collections::BTreeMap;
use std::sync::LazyLock;

use rafterglow::geometry::DVec2;
use rafterglow::sheets::occupied::clashes;
use rafterglow::sheets::{Layer, Mark, Shape, Sheet};
use rafterglow::site::Paper;
use rafterglow::units::UnitSystem;
use sites::Set;

/// The texts of a sheet, in order.
fn texts(sheet: &Sheet) -> Vec<String> {
    sheet
        .texts()
        .map(|(_, text)| text.content().to_owned())
        .collect()
}

/// Fails naming what clashes.
fn assert_readable(sheets: &[Sheet], what: &str) {
    for sheet in sheets {
        let found = clashes(sheet);
        let shown: Vec<String> = found.iter().take(5).map(ToString::to_string).collect();
        assert!(
            found.is_empty(),
            "{what}, {}: {} clashes: {shown:#?}",
            sheet.id,
            found.len()
        );
        for (_, text) in sheet.texts() {
            let height = text.lettering().height_mm;
            assert!(
                2.5 <= height,
                "{what}, {}: “{}” is {height} mm",
                sheet.id,
                text.content()
            );
        }
    }
}

#[test]
fn nothing_overlaps_on_any_paper_in_either_unit_system() {
    let mut set = Set::small();
    for paper in Paper::ALL {
        for units in UnitSystem::ALL {
            set.change(|site| {
                site.sheets.paper = paper;
                site.units = units;
            });
            assert_readable(
                &set.sheets(),
                &format!("{} {}", paper.label(), units.name()),
            );
        }
    }
}

/// Four hundred runs on A1 with their sheets, drawn once for all tests.
static LARGE: LazyLock<(Set, Vec<Sheet>)> = LazyLock::new(|| {
    let mut set = Set::large();
    set.change(|site| site.sheets.paper = Paper::A1);
    let sheets = set.sheets();
    (set, sheets)
});

#[test]
fn nothing_overlaps_with_four_hundred_runs() {
    assert_readable(&LARGE.1, "A1");
    // On A3 hardly anything has room.
    let mut set = Set::large();
    set.change(|site| site.sheets.paper = Paper::A3);
    assert_readable(&set.sheets()[..1], "A3");
}

#[test]
fn nothing_overlaps_on_the_samples() {
    for name in ["freight-shed", "boat-hall", "net-store"] {
        let mut set = Set::sample(name);
        for paper in [Paper::A4, Paper::A3, Paper::A1] {
            set.change(|site| site.sheets.paper = paper);
            assert_readable(&set.sheets(), &format!("{name} {}", paper.label()));
        }
    }
}

#[test]
fn nothing_overlaps_at_odd_angles() {
    let set = Set::slanting();
    let sheets = set.sheets();
    assert_readable(&sheets, "slanting");
    let plan = &sheets[0];
    assert!(
        plan.viewports[0].turn_degrees.abs() > 1.0,
        "the plan lies square to the sheet"
    );
}

/// The hangers on a sheet: id and place on paper.
fn hangers_drawn(sheet: &Sheet) -> BTreeMap<String, Vec<DVec2>> {
    let mut found: BTreeMap<String, Vec<DVec2>> = BTreeMap::new();
    for mark in &sheet.marks {
        if let (Some(id), Shape::Symbol(used)) = (hanger_of(mark), &mark.shape) {
            found.entry(id.to_owned()).or_default().push(used.at);
        }
    }
    found
}

fn hanger_of(mark: &Mark) -> Option<&str> {
    mark.subject.as_deref()?.strip_prefix("hanger:")
}

#[test]
fn every_hanger_is_once_on_the_plan_and_once_in_the_schedule() {
    for name in ["freight-shed", "boat-hall", "net-store"] {
        let set = Set::sample(name);
        assert_listed_once(&set, &set.sheets());
    }
    assert_listed_once(&LARGE.0, &LARGE.1);
}

fn assert_listed_once(set: &Set, sheets: &[Sheet]) {
    let mut expected: Vec<String> = set.hangers().map(|(id, _)| id).collect();
    expected.sort();
    assert!(!expected.is_empty());
    let drawn = hangers_drawn(&sheets[0]);
    assert!(drawn.values().all(|places| places.len() == 1));
    assert_eq!(drawn.into_keys().collect::<Vec<_>>(), expected);
    let schedules = sheets
        .iter()
        .filter(|sheet| sheet.id.ends_with("hanging-schedule"));
    let mut listed: Vec<String> = schedules
        .flat_map(|sheet| &sheet.marks)
        .filter_map(hanger_of)
        .map(str::to_owned)
        .collect();
    listed.sort();
    assert_eq!(listed, expected);
}

#[test]
fn distances_on_the_page_are_the_sites_at_the_scale() {
    for set in [Set::small(), Set::slanting(), Set::sample("freight-shed")] {
        let sheets = set.sheets();
        let plan = &sheets[0];
        let scale = plan.viewports[0].scale;
        let drawn = hangers_drawn(plan);
        let hangers: Vec<(String, DVec2)> = set.hangers().collect();
        for pair in hangers.windows(2) {
            let on_site = pair[0].1.distance(pair[1].1);
            let on_paper = drawn[&pair[0].0][0].distance(drawn[&pair[1].0][0]);
            assert!(
                (scale.paper_mm(on_site) - on_paper).abs() < 0.1,
                "{} to {}",
                pair[0].0,
                pair[1].0
            );
        }
        // Two grid lines, by their drawn lines.
        let site = set.site();
        let middle = |id: &str| {
            let subject = format!("grid:{id}");
            let line = plan.marks.iter().find_map(|mark| match &mark.shape {
                Shape::Polyline(line) if mark.subject.as_ref() == Some(&subject) => Some(line),
                _ => None,
            });
            line.unwrap().points.clone()
        };
        let (one, two) = (&site.grid[0], &site.grid[1]);
        let (a, b) = (middle(one.id.as_str()), middle(two.id.as_str()));
        let along = (a[1] - a[0]).normalize();
        let apart = (b[0] - a[0]).perp_dot(along).abs();
        let on_site = one.offset_of(two.from).abs();
        assert!(
            (apart - scale.paper_mm(on_site)).abs() < 0.1,
            "{apart} for {on_site} m"
        );
    }
}

#[test]
fn the_same_site_gives_the_same_sheets() {
    for set in [Set::small(), Set::sample("net-store")] {
        assert_eq!(set.sheets(), set.sheets());
    }
}

#[test]
fn sheets_are_numbered_in_order() {
    let sheets = &LARGE.1;
    assert!(3 < sheets.len());
    for (index, sheet) in sheets.iter().enumerate() {
        assert!(
            sheet.id.starts_with(&format!("{:02}-", index + 1)),
            "{}",
            sheet.id
        );
        let number = format!("{} of {}", index + 1, sheets.len());
        assert!(
            texts(sheet).contains(&number),
            "{} lacks “{number}”",
            sheet.id
        );
    }
}

#[test]
fn every_mark_of_the_plan_is_seen_through_its_window() {
    let sheets = Set::small().sheets();
    let plan = &sheets[0];
    let of_site = [
        Layer::HeatTube,
        Layer::HeatHanger,
        Layer::Member,
        Layer::Grid,
        Layer::Wall,
    ];
    let through = |mark: &&Mark| of_site.contains(&mark.layer) && mark.viewport.is_some();
    assert!(100 < plan.marks.iter().filter(through).count());
    let frame = plan.size.frame();
    let window = plan.viewports[0].window;
    assert!(
        window
            .corners()
            .into_iter()
            .all(|corner| frame.contains(corner))
    );
}
