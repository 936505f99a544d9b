//! Images and SVG: the PDF's page and our own image of the sheet must look alike.

use rafterglow::sheets::{Format, Sheet, SheetSize, pdf, png, svg};
use resvg::usvg;

use super::demo;
use super::tools::{file, run, text};

/// An image's width, height and grey values, 0 black.
struct Grey {
    width: usize,
    height: usize,
    values: Vec<u8>,
}

fn decoded(bytes: &[u8]) -> Grey {
    let mut decoder = ::png::Decoder::new(std::io::Cursor::new(bytes));
    decoder.set_transformations(::png::Transformations::normalize_to_color8());
    let mut reader = decoder.read_info().expect("it is a PNG file");
    let mut bytes = vec![0; reader.output_buffer_size().expect("it fits in memory")];
    let info = reader.next_frame(&mut bytes).expect("it is whole");
    let channels = info.color_type.samples();
    let grey = |pixel: &[u8]| {
        let colours = &pixel[..channels.min(3)];
        let sum: usize = colours.iter().map(|&value| usize::from(value)).sum();
        u8::try_from(sum / colours.len()).expect("a mean of bytes is a byte")
    };
    Grey {
        width: usize::try_from(info.width).expect("it fits in memory"),
        height: usize::try_from(info.height).expect("it fits in memory"),
        values: bytes[..info.buffer_size()]
            .chunks_exact(channels)
            .map(grey)
            .collect(),
    }
}

/// Mean over squares of some pixels, so that how edges are smoothed doesn't count.
fn blurred(image: &Grey, side: usize) -> Vec<f64> {
    let mut means = Vec::new();
    for top in (0..image.height - side).step_by(side) {
        for left in (0..image.width - side).step_by(side) {
            let rows = (top..top + side).map(|y| &image.values[y * image.width + left..][..side]);
            let sum: u32 = rows.flatten().map(|&value| u32::from(value)).sum();
            means.push(f64::from(sum) / f64::from(u32::try_from(side * side).expect("small")));
        }
    }
    means
}

fn poppler(name: &str, sheet: &Sheet, dots_per_inch: &str) -> Grey {
    let page = pdf::pdf(std::slice::from_ref(sheet), &demo::about()).expect("it can be drawn");
    let path = file(&format!("{name}.pdf"), page);
    let out = path.with_extension("");
    run(
        "pdftoppm",
        "poppler-utils",
        &[
            "-r",
            dots_per_inch,
            "-png",
            "-singlefile",
            text(&path),
            text(&out),
        ],
    );
    decoded(&std::fs::read(out.with_extension("png")).expect("pdftoppm wrote it"))
}

/// How much two images of one page differ: the mean difference of their squares in parts
/// of the mean ink, and the greatest one in parts of full black.
fn difference(ours: &Grey, theirs: &Grey) -> (f64, f64) {
    let (ours, theirs) = (blurred(ours, SQUARE), blurred(theirs, SQUARE));
    assert_eq!(ours.len(), theirs.len());
    let each = || ours.iter().zip(&theirs).map(|(a, b)| (a - b).abs());
    let ink: f64 = ours.iter().map(|value| 255.0 - value).sum();
    (
        each().sum::<f64>() / ink,
        each().fold(0.0, f64::max) / 255.0,
    )
}

/// Side of the squares over which images are compared, pixels: 1.3 mm at 200 dots per
/// inch, so that the two programs' ways to smooth edges and widen hairlines don't count.
const SQUARE: usize = 10;

#[test]
fn pdf_and_image_look_alike() {
    for turn_degrees in [0.0, 20.0] {
        let sheet = demo::sheet(turn_degrees);
        let ours = decoded(&png::png(&sheet, &demo::about(), 200.0).expect("it can be drawn"));
        let theirs = poppler(&format!("alike-{turn_degrees}"), &sheet, "200");
        let (mean, worst) = difference(&ours, &theirs);
        assert!(mean < 0.11, "mean difference {mean}, worst {worst}");
        assert!(
            worst < 0.16,
            "worst difference {worst}: something is missing or displaced"
        );
        // The comparison can tell: it notices half a millimetre.
        let displaced = Grey {
            values: [&vec![255; 4][..], &ours.values[..ours.values.len() - 4]].concat(),
            ..ours
        };
        let (mean, _) = difference(&displaced, &theirs);
        assert!(
            0.3 < mean,
            "displaced by half a millimetre the mean difference is only {mean}"
        );
    }
}

#[test]
fn images_have_the_size_and_density_asked_for() {
    let sheet = demo::sheet(0.0);
    let bytes = png::png(&sheet, &demo::about(), 100.0).expect("it can be drawn");
    let reader = ::png::Decoder::new(std::io::Cursor::new(&bytes))
        .read_info()
        .expect("a PNG file");
    let info = reader.info();
    assert_eq!((info.width, info.height), (1654, 1169));
    let density = info.pixel_dims.expect("the density is stated");
    assert_eq!((density.xppu, density.unit), (3937, ::png::Unit::Meter));
}

#[test]
fn svg_is_well_formed_and_measures_millimetres() {
    let text = svg::svg(&demo::sheet(0.0), &demo::about()).expect("it can be drawn");
    let tree = usvg::Tree::from_str(&text, &usvg::Options::default()).expect("it is well-formed");
    let per_mm = 96.0 / 25.4;
    assert!((tree.size().width() - 420.0 * per_mm).abs() < 0.01);
    assert!((tree.size().height() - 297.0 * per_mm).abs() < 0.01);
    for part in [
        "viewBox=\"0 0 420 297\"",
        "local codes &amp; the",
        "data-subject=\"hanger:R2.3\"",
        "<g class=\"M-HEAT-TUBE\" clip-path=\"url(#view-0)\">",
        "stroke-dasharray",
    ] {
        assert!(text.contains(part), "{part}");
    }
}

#[test]
fn text_in_the_image_is_as_wide_as_measured() {
    use rafterglow::sheets::{Face, Ink, Layer, Lettering, Mark, PaperPoint, Text};
    for face in Face::ALL {
        let mut sheet = Sheet::new("01", "Width", SheetSize::landscape(Format::A4));
        let lettering = Lettering {
            face,
            height_mm: 7.0,
        };
        let text = Text::new(
            "HAVE To. fit: 12.60 m",
            lettering,
            PaperPoint::new(30.0, 60.0),
        );
        let ink = text.ink_box().expect("there is ink");
        sheet.draw(Mark::new(Layer::Text, text).ink(Ink::Black));
        let dots_per_mm = 200.0 / 25.4;
        for (name, image) in [
            (
                "ours",
                decoded(&png::png(&sheet, &demo::about(), 200.0).expect("it can be drawn")),
            ),
            (
                "poppler's",
                poppler(&format!("width-{face:?}"), &sheet, "200"),
            ),
        ] {
            let inked =
                |x: &usize| (0..image.height).any(|y| image.values[y * image.width + x] < 128);
            let left = (0..image.width).find(inked).expect("there is ink");
            let right = (0..image.width).rfind(inked).expect("there is ink") + 1;
            let mm = |x: usize| f64::from(u32::try_from(x).expect("small")) / dots_per_mm;
            let expected = (ink.centre.x - ink.half.x, ink.centre.x + ink.half.x);
            assert!(
                (mm(left) - expected.0).abs() < 0.2 && (mm(right) - expected.1).abs() < 0.2,
                "{face:?}, {name}: {} to {}, measured {expected:?}",
                mm(left),
                mm(right)
            );
        }
    }
}
