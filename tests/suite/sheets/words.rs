//! What sheets say, and what they never leave out.

use std::sync::Arc;

use rafterglow::catalogue::{Catalogue, Family};
use rafterglow::findings::CAUTIONS;
use rafterglow::sheets::pages::metadata;
use rafterglow::sheets::{Sheet, dxf, pdf, svg};
use rafterglow::site::*;
use rafterglow::store;
use rafterglow::units::{Force, UnitSystem};

use super::sites::{Set, m};
use super::{assert_readable, texts};
use crate::made::{Shed, shed};

/// All texts of a sheet as one, words a blank apart.
fn said(sheet: &Sheet) -> String {
    texts(sheet).join(" ")
}

fn says(sheet: &Sheet, what: &str) -> bool {
    said(sheet).contains(what)
}

/// The embedded families as if their figures were those of certified manuals.
fn certified() -> Catalogue {
    let families = store::embedded_catalogue();
    let certified = families.families().iter().map(|family| {
        let mut family = Family::clone(family);
        family.source.certified = true;
        family
    });
    Catalogue::new(certified)
}

#[test]
fn every_sheet_carries_every_caution() {
    let mut set = Set::small();
    for paper in [Paper::A4, Paper::A3, Paper::AnsiD] {
        set.change(|site| site.sheets.paper = paper);
        for sheet in set.sheets() {
            for caution in CAUTIONS {
                assert!(says(&sheet, caution), "{} lacks “{caution}”", sheet.id);
            }
        }
    }
}

#[test]
fn uncertified_figures_make_every_sheet_not_for_construction() {
    let warning = "NOT FOR CONSTRUCTION";
    assert!(
        Set::small()
            .sheets()
            .iter()
            .all(|sheet| says(sheet, warning))
    );
    let set = Set::with(shed(Shed::SMALL), certified());
    assert!(!set.sheets().iter().any(|sheet| says(sheet, warning)));
    assert_readable(&set.sheets(), "certified");
}

#[test]
fn open_breaches_make_every_sheet_not_for_construction() {
    let mut site = shed(Shed::SMALL);
    let mut goods = site.obstructions[0].as_ref().clone();
    goods.footprint = obstruction::Footprint::Area {
        outline: vec![
            (3.0, 5.0).into(),
            (6.0, 5.0).into(),
            (6.0, 7.0).into(),
            (3.0, 7.0).into(),
        ],
        holes: Vec::new(),
    };
    goods.top = m(5.0);
    site.obstructions[0] = Arc::new(goods);
    let sheets = Set::with(site, certified()).sheets();
    for sheet in &sheets {
        assert!(says(sheet, "NOT FOR CONSTRUCTION"), "{}", sheet.id);
        assert!(says(sheet, "open, see the findings"), "{}", sheet.id);
    }
    assert!(
        !sheets
            .iter()
            .any(|sheet| says(sheet, "heater figures are not certified"))
    );
}

#[test]
fn unknown_capacities_are_named_and_never_a_percentage() {
    let mut set = Set::small();
    set.change(|site| {
        let mut framing = site.framings[0].as_ref().clone();
        framing.allowed_at_point = Allowance::Unknown;
        framing.allowed_off_panel = Allowance::Unknown;
        site.framings[0] = Arc::new(framing);
    });
    let n_hangers = set.hangers().count();
    let sheets = set.sheets();
    let schedules = sheets
        .iter()
        .filter(|it| it.id.ends_with("hanging-schedule"));
    let schedule: Vec<String> = schedules.flat_map(texts).collect();
    let n_unknown = schedule
        .iter()
        .filter(|text| *text == "unknown: engineer")
        .count();
    assert_eq!(n_unknown, n_hangers);
    assert!(!schedule.iter().any(|text| text.ends_with(" %")));
    assert!(
        texts(&sheets[0]).iter().any(|text| text == "1v"),
        "hangers carry their mark"
    );
    assert!(
        says(&sheets[0], "unknown: engineer"),
        "the legend explains it"
    );
    let csv = set.csv();
    let named = csv.matches(",capacity unknown: engineer;").count();
    assert_eq!(named, n_hangers);
}

#[test]
fn what_cannot_be_hung_says_why_on_plan_and_schedule() {
    let mut set = Set::small();
    set.change(|site| {
        let mut framing = site.framings[0].as_ref().clone();
        framing.allowed_at_point = Allowance::Known(Force::newtons(1.0));
        framing.allowed_off_panel = Allowance::Known(Force::newtons(1.0));
        site.framings[0] = Arc::new(framing);
    });
    assert_eq!(set.hangers().count(), 0);
    let sheets = set.sheets();
    assert_readable(&sheets, "not hung");
    assert!(says(&sheets[0], "NOT HUNG"));
    assert!(says(&sheets[1], "Can't be hung"));
    assert!(says(&sheets[1], "load allowed on the steel"));
    assert!(set.csv().contains("Can't be hung"));
}

#[test]
fn a_scale_that_does_not_fit_is_told_and_one_that_does_is_kept() {
    let mut set = Set::small();
    let scale = |set: &Set| set.sheets()[0].viewports[0].scale.denominator;
    let by_itself = scale(&set);
    set.change(|site| site.sheets.scale = Some(20));
    assert_eq!(scale(&set), by_itself, "the next that fits");
    assert!(says(&set.sheets()[0], "The scale 1 : 20 was asked for"));
    set.change(|site| site.sheets.scale = Some(500));
    assert_eq!(scale(&set), 500.0);
    assert!(!says(&set.sheets()[0], "was asked for"));
    set.change(|site| {
        site.sheets.scale = None;
        site.units = UnitSystem::FeetInches;
    });
    assert!(says(&set.sheets()[0], "= 1'-0\""), "inches to the foot");
}

#[test]
fn a_larger_paper_never_gives_a_smaller_drawing() {
    let mut set = Set::sample("freight-shed");
    let mut before = f64::INFINITY;
    for paper in [Paper::A4, Paper::A3, Paper::A2, Paper::A1, Paper::A0] {
        set.change(|site| site.sheets.paper = paper);
        let denominator = set.sheets()[0].viewports[0].scale.denominator;
        assert!(denominator <= before, "{}", paper.label());
        before = denominator;
    }
}

#[test]
fn long_names_shorten_visibly() {
    let long = "the old eastern quay's transit and sorting ".repeat(8);
    let mut set = Set::small();
    set.change(|site| {
        site.name = long.clone();
        site.place = long.clone();
        site.sheets.owner = long.clone();
        site.sheets.document_number = long.clone();
        for obstruction in &mut site.obstructions {
            let mut named = obstruction.as_ref().clone();
            named.name = long.clone();
            *obstruction = Arc::new(named);
        }
        let mut scheme = site.schemes[0].as_ref().clone();
        scheme.name = long.clone();
        site.schemes[0] = Arc::new(scheme);
    });
    let sheets = set.sheets();
    assert_readable(&sheets, "long names");
    for sheet in &sheets {
        assert!(
            texts(sheet)
                .iter()
                .filter(|text| text.ends_with('…'))
                .count()
                >= 3
        );
    }
}

#[test]
fn an_empty_site_gives_a_page_that_says_so() {
    let set = Set::of(Site::default());
    let sheets = set.sheets();
    assert_readable(&sheets, "empty");
    assert!(says(&sheets[0], "Hanging plan"));
    assert!(says(&sheets[0], "no grid line and no wall to measure from"));
    assert!(says(&sheets[1], "There are no runs."));
    let about = set.drawn_by(metadata);
    assert!(pdf::pdf(&sheets, &about).unwrap().starts_with(b"%PDF"));
    for sheet in &sheets {
        assert!(svg::svg(sheet, &about).unwrap().contains("<svg"));
        assert!(
            !dxf::dxf(sheet, &about, dxf::ModelUnit::Metres)
                .unwrap()
                .is_empty()
        );
    }
}

#[test]
fn a_site_without_grid_is_measured_from_its_walls() {
    let mut set = Set::small();
    set.change(|site| {
        site.grid.clear();
        let mut framing = site.framings[0].as_ref().clone();
        framing.bears_on.clear();
        site.framings[0] = Arc::new(framing);
    });
    let sheets = set.sheets();
    assert_readable(&sheets, "no grid");
    assert!(says(&sheets[0], "running from W wall and S wall"));
    assert!(
        texts(&sheets[1])
            .iter()
            .any(|text| text.starts_with("W wall + "))
    );
}

#[test]
fn odd_sites_are_drawn_without_clash() {
    // One run alone, far from the origin; a wall a kilometre long; a grid of 200 lines.
    let mut lone = shed(Shed::SMALL);
    lone.bays.clear();
    lone.grid.clear();
    lone.framings.clear();
    lone.obstructions.clear();
    let mut dense = shed(Shed {
        runs_along: 2,
        rows: 2,
        stacks_per_row: 200,
    });
    for number in 0..200_u32 {
        let x = 0.18 * f64::from(number);
        dense.grid.push(Arc::new(GridLine {
            id: GridId::new(format!("L{number}")),
            from: (x, -2.0).into(),
            to: (x, 26.0).into(),
            notes: String::new(),
        }));
    }
    let mut wide = shed(Shed::SMALL);
    let mut bay = wide.bays[0].as_ref().clone();
    bay.outline[1].x = 1_000.0;
    bay.outline[2].x = 1_000.0;
    wide.bays[0] = Arc::new(bay);
    let mut pipe = wide.obstructions[0].as_ref().clone();
    pipe.id = "P1".into();
    pipe.kind = ObstructionKind::Pipe;
    pipe.footprint = obstruction::Footprint::Line {
        points: vec![(3.0, 3.0).into(), (900.0, 3.0).into(), (900.0, 20.0).into()],
        width: m(0.1),
    };
    wide.obstructions.push(Arc::new(pipe));
    for (site, what) in [(lone, "lone"), (dense, "dense"), (wide, "wide")] {
        assert_readable(&Set::of(site).sheets(), what);
    }
}
