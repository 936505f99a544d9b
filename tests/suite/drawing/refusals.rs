//! What can't be drawn is refused with its place, and odd input never panics.

use rafterglow::geometry::DVec2;
use rafterglow::sheets::dxf::{ModelUnit, dxf};
use rafterglow::sheets::{
    Area, Format, Hatch, Layer, Lettering, Mark, PaperPoint, PaperRect, Pen, Picture, Polyline,
    Sheet, SheetError, SheetSize, Symbol, SymbolUse, Text, ViewportId, pdf, png, svg,
};

use super::demo;

fn sheet_with(mark: Mark) -> Sheet {
    let mut sheet = Sheet::new("01", "Odd", SheetSize::landscape(Format::A4));
    sheet.draw(mark);
    sheet
}

/// What each writer says to a sheet.
fn answers(sheet: &Sheet) -> [Result<(), SheetError>; 4] {
    let about = demo::about();
    [
        pdf::pdf(std::slice::from_ref(sheet), &about).map(drop),
        svg::svg(sheet, &about).map(drop),
        png::png(sheet, &about, 40.0).map(drop),
        dxf(sheet, &about, ModelUnit::Inches).map(drop),
    ]
}

#[test]
fn coordinates_that_are_no_numbers_are_refused_by_all() {
    for bad in [f64::NAN, f64::INFINITY, -1e300] {
        let line = Polyline::open(Pen::THIN, [PaperPoint::ZERO, PaperPoint::new(1.0, bad)]);
        for answer in answers(&sheet_with(Mark::new(Layer::Wall, line))) {
            let said = answer.expect_err("it can't be drawn").to_string();
            assert!(said.contains("sheet 01: mark 0 on layer A-WALL"), "{said}");
        }
    }
}

#[test]
fn unknown_viewports_are_refused_by_all() {
    let text = Text::new("x", Lettering::regular(2.5), PaperPoint::new(50.0, 50.0));
    for answer in answers(&sheet_with(
        Mark::new(Layer::Text, text).through(ViewportId(3)),
    )) {
        assert!(matches!(
            answer,
            Err(SheetError::UnknownViewport {
                viewport: 3,
                n_viewports: 0,
                ..
            })
        ));
    }
}

#[test]
fn viewports_without_scale_are_refused_by_all() {
    for denominator in [0.0, -50.0, f64::NAN, f64::INFINITY] {
        let mut sheet = demo::sheet(0.0);
        sheet.viewports[0].scale.denominator = denominator;
        for answer in answers(&sheet) {
            assert!(
                matches!(answer, Err(SheetError::BadViewport { .. })),
                "{denominator}"
            );
        }
    }
}

#[test]
fn a_picture_that_is_none_is_refused_by_all() {
    let sound = demo::picture().png;
    for bytes in [
        &b"not a picture"[..],
        &[],
        &sound[..20],
        &sound[..sound.len() - 40],
    ] {
        let place = PaperRect::at(PaperPoint::new(30.0, 30.0), 20.0, 20.0);
        let picture = Picture {
            png: bytes.into(),
            place,
        };
        for answer in answers(&sheet_with(Mark::new(Layer::Text, picture))) {
            let said = answer.expect_err("it can't be read").to_string();
            assert!(said.contains("PNG"), "{said}");
        }
    }
}

#[test]
fn images_beyond_memory_are_refused() {
    for dots_per_inch in [1e6, f64::INFINITY, 0.0, -3.0, f64::NAN] {
        let sheet = Sheet::new("01", "Large", SheetSize::landscape(Format::A0));
        let answer = png::png(&sheet, &demo::about(), dots_per_inch);
        assert!(
            matches!(answer, Err(SheetError::TooManyPixels { .. })),
            "{dots_per_inch}"
        );
    }
}

#[test]
fn odd_but_finite_input_is_drawn_without_panic() {
    let far = PaperRect::at(PaperPoint::splat(-9e7), 1.8e8, 1.8e8).corners();
    let deep = SymbolUse::new(
        &std::sync::Arc::new(Symbol {
            name: String::new(),
            parts: vec![rafterglow::sheets::Part::new(SymbolUse::new(
                &std::sync::Arc::new(Symbol {
                    name: "inner".into(),
                    parts: vec![],
                }),
                PaperPoint::ZERO,
            ))],
        }),
        PaperPoint::new(40.0, 40.0),
    )
    .keeping("", "]]> <&\u{0}\u{ffff}\n%%d^J");
    let marks = [
        Mark::new(Layer::Wall, Polyline::open(Pen::THIN, [])),
        Mark::new(Layer::Wall, Polyline::closed(Pen::THIN, [DVec2::ZERO; 5])),
        Mark::new(Layer::Wall, Area::new([])),
        Mark::new(Layer::Wall, Area::new(far)),
        Mark::new(Layer::Hatch, Hatch::new(far, 45.0, 1.0, Pen::HAIR)),
        Mark::new(Layer::Hatch, Hatch::new([], 45.0, 0.0, Pen::HAIR)),
        Mark::new(
            Layer::Text,
            Text::new("", Lettering::regular(2.5), DVec2::splat(30.0)),
        ),
        Mark::new(
            Layer::Text,
            Text::new(
                "a\u{0}\n\u{fffe}<&>\"港",
                Lettering::regular(0.0),
                DVec2::splat(30.0),
            ),
        ),
        Mark::new(
            Layer::Text,
            Text::new(
                "ﬁ مرحبا שלום e\u{301}",
                Lettering::regular(3.5),
                DVec2::splat(50.0),
            ),
        ),
        Mark::new(Layer::Text, deep).of("odd", "]]>\u{1}\n"),
    ];
    let mut sheet = Sheet::new("01", "]]> <odd> & \u{0}", SheetSize::landscape(Format::A4));
    marks.into_iter().for_each(|mark| sheet.draw(mark));
    for answer in answers(&sheet) {
        answer.expect("finite input can be drawn");
    }
}
