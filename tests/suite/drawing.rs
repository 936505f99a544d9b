//! The drawing list and its writers, judged by other programs.

mod demo;
mod dxf_files;
mod images;
mod pdf_files;
mod refusals;
pub(crate) mod tools;

use rafterglow::geometry::DVec2;
use rafterglow::sheets::dxf::{ModelUnit, dxf};
use rafterglow::sheets::{Metadata, Sheet, clashes, pdf, png, svg};

#[test]
fn nothing_on_the_demonstration_lies_on_anything() {
    let found: Vec<String> = clashes(&demo::sheet(0.0))
        .iter()
        .map(ToString::to_string)
        .collect();
    assert!(found.is_empty(), "{}", found.join("\n"));
}

/// All files of a sheet.
fn files(sheet: &Sheet, about: &Metadata) -> [Vec<u8>; 4] {
    [
        pdf::pdf(std::slice::from_ref(sheet), about).expect("the sheet can be drawn"),
        svg::svg(sheet, about)
            .expect("the sheet can be drawn")
            .into_bytes(),
        png::png(sheet, about, 60.0).expect("the sheet can be drawn"),
        dxf(sheet, about, ModelUnit::Metres)
            .expect("the sheet can be drawn")
            .into_bytes(),
    ]
}

#[test]
fn the_same_sheet_gives_the_same_bytes() {
    let first = files(&demo::sheet(20.0), &demo::about());
    let threads: Vec<_> = (0..2)
        .map(|_| std::thread::spawn(|| files(&demo::sheet(20.0), &demo::about())))
        .collect();
    for thread in threads {
        assert!(thread.join().expect("the writers don't panic") == first);
    }
    let other = files(&demo::sheet(21.0), &demo::about());
    assert!(
        first.iter().zip(&other).all(|(a, b)| a != b),
        "another sheet gives other bytes"
    );
}

/// The plan's scale on the demonstration: millimetres of paper in a metre.
const MM_PER_M: f64 = 5.0;

/// Whether two points are the same to a micrometre of whatever unit they are in.
fn same(a: DVec2, b: DVec2) -> bool {
    a.distance(b) < 1e-6
}
