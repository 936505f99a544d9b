//! PDF files, read by qpdf and poppler.

use rafterglow::sheets::{Format, Layer, Lettering, Mark, PaperPoint, Sheet, SheetSize, Text, pdf};

use super::MM_PER_M;
use super::demo;
use super::tools::{file, run, text};

const POPPLER: &str = "poppler-utils";

/// Points of PDF in a millimetre.
const POINTS_PER_MM: f64 = 72.0 / 25.4;

#[test]
fn a_set_passes_the_syntax_check() {
    let sheets = [demo::sheet(0.0), demo::sheet(20.0)];
    let set = pdf::pdf(&sheets, &demo::about()).expect("the sheets can be drawn");
    let path = file("syntax.pdf", set);
    let said = run("qpdf", "qpdf", &["--check", text(&path)]);
    assert!(
        said.contains("No syntax or stream encoding errors found"),
        "{said}"
    );
    let outlines = run(
        "qpdf",
        "qpdf",
        &["--json", "--json-key=outlines", text(&path)],
    );
    let outlines: serde_json::Value = serde_json::from_str(&outlines).expect("qpdf prints JSON");
    let titles: Vec<_> = outlines["outlines"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|entry| (entry["title"].as_str(), entry["destpageposfrom1"].as_u64()))
        .collect();
    let title = Some("02-hanging-plan Hanging plan");
    assert_eq!(titles, [(title, Some(1)), (title, Some(2))]);
}

#[test]
fn every_font_is_embedded_and_subset() {
    let set = pdf::pdf(&[demo::sheet(0.0)], &demo::about()).expect("the sheet can be drawn");
    let path = file("fonts.pdf", set);
    let said = run("pdffonts", POPPLER, &[text(&path)]);
    // After two lines of headings: name, type, encoding, then embedded, subset, to Unicode.
    let fonts: Vec<Vec<&str>> = said
        .lines()
        .skip(2)
        .map(|line| line.split_whitespace().collect())
        .collect();
    assert_eq!(fonts.len(), 3, "three faces are used: {said}");
    for font in fonts {
        let flags = &font[font.len() - 5..font.len() - 2];
        assert_eq!(flags, ["yes", "yes", "yes"], "{font:?}");
    }
}

#[test]
fn pages_have_the_size_of_their_sheets() {
    let sizes: Vec<SheetSize> = Format::ALL
        .into_iter()
        .flat_map(|format| [SheetSize::landscape(format), SheetSize::portrait(format)])
        .collect();
    let sheets: Vec<Sheet> = sizes
        .iter()
        .map(|&size| {
            let mut sheet = Sheet::new("01", "Sizes", size);
            let at = PaperPoint::new(30.0, 30.0);
            sheet.draw(Mark::new(
                Layer::Text,
                Text::new("size", Lettering::regular(2.5), at),
            ));
            sheet
        })
        .collect();
    let path = file(
        "sizes.pdf",
        pdf::pdf(&sheets, &demo::about()).expect("they can be drawn"),
    );
    let last = sheets.len().to_string();
    let said = run(
        "pdfinfo",
        POPPLER,
        &["-box", "-f", "1", "-l", &last, text(&path)],
    );
    for box_name in ["MediaBox", "CropBox", "TrimBox"] {
        let found: Vec<Vec<f64>> = said
            .lines()
            .filter(|line| line.contains(box_name))
            .map(|line| {
                line.split_whitespace()
                    .skip(3)
                    .filter_map(|n| n.parse().ok())
                    .collect()
            })
            .collect();
        assert_eq!(found.len(), sizes.len(), "{box_name}");
        for (corners, size) in found.iter().zip(&sizes) {
            let expected = [
                0.0,
                0.0,
                size.width_mm() * POINTS_PER_MM,
                size.height_mm() * POINTS_PER_MM,
            ];
            for (a, b) in corners.iter().zip(expected) {
                assert!((a - b).abs() < 0.006, "{box_name} of {size:?}: {corners:?}");
            }
        }
    }
}

#[test]
fn metadata_holds_what_was_passed_in() {
    let set = pdf::pdf(&[demo::sheet(0.0)], &demo::about()).expect("the sheet can be drawn");
    let path = file("metadata.pdf", set);
    let said = run("pdfinfo", POPPLER, &["-isodates", text(&path)]);
    for line in [
        "Title:           Skerry Harbour, freight shed",
        "Author:          A. Drafter",
        "Creator:         Rafterglow",
        "CreationDate:    2031-03-02T00:00:00Z",
        "Tagged:          yes",
    ] {
        assert!(said.contains(line), "{line} is not in\n{said}");
    }
}

#[test]
fn text_can_be_searched_for_and_copied() {
    let set = pdf::pdf(&[demo::sheet(20.0)], &demo::about()).expect("the sheet can be drawn");
    let path = file("search.pdf", set);
    let said = run("pdftotext", POPPLER, &["-raw", text(&path), "-"]);
    for words in [
        "Hanging plan",
        "R3 36 kW z 6.20 tilt 15° S",
        "⌀ 100 ± 5 ≥ 2.5 m ≤ 40 kW m² √",
        "The heater's certified manual, local codes & the",
    ] {
        let plain: Vec<&str> = said.split_whitespace().collect();
        assert!(
            plain.join(" ").contains(words),
            "“{words}” is not in\n{said}"
        );
    }
}

#[test]
fn grid_lines_are_to_scale_on_the_page() {
    let set = pdf::pdf(&[demo::sheet(0.0)], &demo::about()).expect("the sheet can be drawn");
    let path = file("scale.pdf", set);
    let said = run("pdftotext", POPPLER, &["-bbox", text(&path), "-"]);
    let middle = |name: &str| {
        let line = said
            .lines()
            .find(|line| line.contains(&format!(">{name}</word>")))
            .unwrap_or_else(|| panic!("no {name} in\n{said}"));
        let number = |key: &str| -> f64 {
            let after = line
                .split(&format!("{key}=\""))
                .nth(1)
                .expect("the box is given");
            after
                .split('"')
                .next()
                .and_then(|n| n.parse().ok())
                .expect("it is a number")
        };
        (
            f64::midpoint(number("xMin"), number("xMax")) / POINTS_PER_MM,
            f64::midpoint(number("yMin"), number("yMax")) / POINTS_PER_MM,
        )
    };
    // Digits have one width, so the middles of their boxes are as far apart as the lines.
    let (two, five) = (middle("2"), middle("5"));
    assert!(
        (five.0 - two.0 - 36.0 * MM_PER_M).abs() < 0.01,
        "{two:?} {five:?}"
    );
    let (a, c) = (middle("A"), middle("C"));
    assert!((a.1 - c.1 - 30.0 * MM_PER_M).abs() < 0.01, "{a:?} {c:?}");
}
