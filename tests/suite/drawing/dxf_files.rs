//! DXF files, read by ezdxf.

use std::sync::LazyLock;

use rafterglow::geometry::DVec2;
use rafterglow::sheets::dxf::{ModelUnit, dxf};
use rafterglow::sheets::{Layer, Sheet};
use serde_json::Value;

use super::tools::{file, python_with_ezdxf};
use super::{demo, same};

/// Turns of the plan and units of the files that are read.
const CASES: [(f64, ModelUnit); 5] = [
    (0.0, ModelUnit::Metres),
    (20.0, ModelUnit::Metres),
    (0.0, ModelUnit::Inches),
    (20.0, ModelUnit::Inches),
    (90.0, ModelUnit::Inches),
];

/// What ezdxf finds in each case, and then in an empty sheet; read once for all tests,
/// since starting Python takes a second.
static FOUND: LazyLock<Vec<Value>> = LazyLock::new(|| {
    let mut sheets: Vec<(Sheet, ModelUnit)> = CASES
        .iter()
        .map(|&(turn_degrees, unit)| (demo::sheet(turn_degrees), unit))
        .collect();
    sheets.push((Sheet::new("", "", demo::sheet(0.0).size), ModelUnit::Metres));
    let files: Vec<_> = sheets
        .iter()
        .enumerate()
        .map(|(number, (sheet, unit))| {
            let text = dxf(sheet, &demo::about(), *unit).expect("the sheet can be drawn");
            file(&format!("case-{number}.dxf"), text)
        })
        .collect();
    let said = python_with_ezdxf(include_str!("read_dxf.py"), &files);
    serde_json::from_str(&said).expect("the script prints JSON")
});

fn point(value: &Value) -> DVec2 {
    let number = |index: usize| value[index].as_f64().expect("a coordinate");
    DVec2::new(number(0), number(1))
}

fn list(value: &Value) -> &Vec<Value> {
    value.as_array().expect("a list")
}

/// The insertion that draws the subject.
fn insert<'a>(found: &'a Value, subject: &str) -> &'a Value {
    list(&found["inserts"])
        .iter()
        .find(|insert| insert["subject"] == subject)
        .unwrap_or_else(|| panic!("nothing draws {subject}"))
}

#[test]
fn the_audit_finds_nothing() {
    for found in FOUND.iter() {
        assert_eq!(found["errors"], serde_json::json!([]));
        assert_eq!(found["fixes"], serde_json::json!([]));
        assert_eq!(found["version"], "AC1024");
    }
    assert_eq!(FOUND.len(), CASES.len() + 1);
}

#[test]
fn handles_are_unique_and_below_the_seed() {
    let text = dxf(&demo::sheet(0.0), &demo::about(), ModelUnit::Metres).expect("it can be drawn");
    let lines: Vec<&str> = text.lines().collect();
    let mut handles = std::collections::BTreeSet::new();
    let mut seed = 0;
    for (index, pair) in lines.chunks_exact(2).enumerate() {
        let number = || u64::from_str_radix(pair[1], 16).expect("handles are hexadecimal");
        match pair[0].trim() {
            "5" if lines[2 * index - 1] == "$HANDSEED" => seed = number(),
            "5" | "105" => assert!(handles.insert(number()), "{} is given twice", pair[1]),
            _ => {}
        }
    }
    assert!(300 < handles.len());
    assert!(handles.last().is_some_and(|&last| last < seed));
}

#[test]
fn model_space_is_the_site_at_full_size() {
    for ((_, unit), found) in CASES.into_iter().zip(FOUND.iter()) {
        let (per_metre, code, metric) = match unit {
            ModelUnit::Metres => (1.0, 6, 1),
            ModelUnit::Inches => (1.0 / 0.0254, 1, 0),
        };
        assert_eq!(
            (&found["units"], &found["metric"]),
            (&code.into(), &metric.into())
        );
        let hanger = insert(found, "hanger:CHECK");
        assert!(
            same(point(&hanger["at"]), demo::A_HANGER * per_metre),
            "{hanger}"
        );
        assert_eq!(hanger["layer"], "M-HEAT-HANGER");
        assert_eq!(hanger["block"], "HANGER-PANEL");
        // A millimetre of paper is 0.2 m at 1 : 200.
        let scale = hanger["scale"].as_f64().expect("a scale");
        assert!((scale - 0.2 * per_metre).abs() < 1e-6);
        let label = list(&found["texts"])
            .iter()
            .find(|text| text[0] == "R2.1")
            .expect("the hanger's name is there");
        assert!((label[1].as_f64().expect("a height") - 2.5 * 0.2 * per_metre).abs() < 1e-6);
        let turn = label[3].as_f64().expect("a turn");
        assert!(turn.min(360.0 - turn) < 1e-6, "level on the site: {label}");
    }
}

#[test]
fn the_layout_shows_model_space_where_the_sheet_has_it() {
    for ((turn_degrees, unit), found) in CASES.into_iter().zip(FOUND.iter()) {
        let sheet = demo::sheet(turn_degrees);
        let site = point(&list(&found["inserts"])[0]["at"]) / unit.per_metre();
        let paper = sheet
            .size
            .counted_up(sheet.viewports[0].paper_from_site(site));
        let shown = point(&found["first_insert_on_paper"][0]);
        assert!(
            shown.distance(paper) < 1e-4,
            "{shown} for {paper} at {turn_degrees}"
        );
        assert_eq!(found["layout"], "Hanging plan");
    }
}

#[test]
fn furniture_lies_on_paper_in_millimetres() {
    let sheet = demo::sheet(0.0);
    let found = &FOUND[0];
    let title = list(&found["paper_texts"])
        .iter()
        .find(|text| text[0] == "Hanging plan")
        .expect("the title block is there");
    assert_eq!(title[1].as_f64(), Some(5.0));
    let (_, text) = sheet
        .texts()
        .find(|(_, text)| text.content() == "Hanging plan")
        .expect("the sheet has the title too");
    assert!(same(point(&title[2]), sheet.size.counted_up(text.start())));
}

#[test]
fn symbols_are_blocks_with_attributes() {
    let found = &FOUND[0];
    let grid = insert(found, "grid:B");
    assert_eq!(
        grid["attributes"],
        serde_json::json!({ "NAME": ["B", false] })
    );
    let hanger = insert(found, "hanger:R2.3");
    assert_eq!(
        hanger["attributes"],
        serde_json::json!({ "ID": ["R2.3", true] })
    );
}

#[test]
fn entities_keep_their_kind_layer_and_pen() {
    let found = &FOUND[0];
    let layers = list(&found["layers"]);
    for layer in Layer::ALL {
        assert!(
            layers.iter().any(|name| name == layer.name()),
            "{}",
            layer.name()
        );
    }
    let grid: Vec<&Value> = list(&found["lines"])
        .iter()
        .filter(|line| line[0] == "S-GRID")
        .collect();
    assert_eq!(grid.len(), 9);
    for line in &grid {
        assert_eq!((&line[1], &line[2]), (&"LONG-DASH-DOT".into(), &18.into()));
    }
    let across = (point(&grid[3][3]) - point(&grid[2][3])).x;
    assert!(
        (across - 12.0).abs() < 1e-9,
        "grid lines are {across} m apart"
    );
    let n_of = |space: &str, kind: &str| found[space][kind].as_u64().unwrap_or(0);
    assert_eq!(n_of("model", "ARC"), 3);
    assert_eq!(n_of("model", "HATCH"), 3, "two racks, one wall");
    assert_eq!(n_of("paper", "HATCH"), 7);
    assert!(list(&found["hatches"]).iter().any(|hatch| {
        (&hatch[0], &hatch[1], &hatch[2]) == (&"G-HATCH".into(), &0.into(), &2.into())
    }));
    // Cleared: two racks, three door openings, one label of each of the six runs.
    assert_eq!(n_of("model", "WIPEOUT"), 11);
}
