//! A sheet as a PNG image: our own SVG, drawn with the embedded faces.

use std::sync::{Arc, LazyLock};

use resvg::tiny_skia::{Color, Pixmap, Transform};
use resvg::usvg::{Options, Tree, fontdb};

use crate::sheets::error::{MOST_MEGAPIXELS, SheetError};
use crate::sheets::fonts::Face;
use crate::sheets::mark::Sheet;
use crate::sheets::metadata::{CREATOR, Metadata};
use crate::sheets::svg::svg;

/// The sheet as an image with so many dots per inch; its file states the density, so
/// that it prints at its true size. No other font than the embedded ones is used.
///
/// # Errors
/// If the sheet can't be drawn or the image would be too large.
pub fn png(sheet: &Sheet, about: &Metadata, dots_per_inch: f64) -> Result<Vec<u8>, SheetError> {
    let refused = |reason: String| SheetError::Refused {
        sheet: sheet.id.clone(),
        format: "PNG",
        reason,
    };
    let dots_per_mm = dots_per_inch / 25.4;
    let (width, height) = pixels(sheet, dots_per_inch)?;
    let text = svg(sheet, about)?;
    let options = Options {
        fontdb: Arc::clone(&FACES),
        font_family: "DejaVu Sans".to_owned(),
        ..Options::default()
    };
    let tree = Tree::from_str(&text, &options).map_err(|error| refused(error.to_string()))?;
    let mut pixmap =
        Pixmap::new(width, height).ok_or_else(|| refused("the image has no size".to_owned()))?;
    pixmap.fill(Color::WHITE);
    let scale = single(sheet.size.width_mm() * dots_per_mm) / tree.size().width();
    resvg::render(
        &tree,
        Transform::from_scale(scale, scale),
        &mut pixmap.as_mut(),
    );
    encoded(&pixmap, dots_per_mm, about).map_err(|error| refused(error.to_string()))
}

/// Raw colours, row by row, as a PNG file's bytes: a picture for a [`Sheet`].
///
/// # Errors
/// If there are not three bytes for each pixel, or none at all.
pub fn png_of_rgb(width: u32, height: u32, rgb: &[u8]) -> Result<Vec<u8>, png::EncodingError> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, width, height);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    let mut writer = encoder.write_header()?;
    writer.write_image_data(rgb)?;
    writer.finish()?;
    Ok(bytes)
}

/// The embedded faces as the renderer wants them.
static FACES: LazyLock<Arc<fontdb::Database>> = LazyLock::new(|| {
    let mut faces = fontdb::Database::new();
    for face in Face::ALL {
        faces.load_font_data(face.bytes().to_vec());
    }
    faces.set_sans_serif_family("DejaVu Sans");
    Arc::new(faces)
});

/// Width and height of the image.
fn pixels(sheet: &Sheet, dots_per_inch: f64) -> Result<(u32, u32), SheetError> {
    let dots = |mm: f64| whole(mm * dots_per_inch / 25.4);
    let width = dots(sheet.size.width_mm());
    let height = dots(sheet.size.height_mm());
    let megapixels = (u64::from(width) * u64::from(height)).div_ceil(1_000_000);
    if width == 0 || height == 0 || MOST_MEGAPIXELS < megapixels {
        return Err(SheetError::TooManyPixels {
            sheet: sheet.id.clone(),
            dots_per_inch,
            megapixels,
        });
    }
    Ok((width, height))
}

/// Rounded to a whole number; zero for what is negative or not a number.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the cast saturates, and saturated sizes are refused by their megapixels"
)]
fn whole(value: f64) -> u32 {
    value.round() as u32
}

/// Single precision, which is what the renderer takes.
#[expect(
    clippy::cast_possible_truncation,
    reason = "the renderer works in single precision"
)]
fn single(value: f64) -> f32 {
    value as f32
}

/// The image as a file without transparency, which paper doesn't have.
fn encoded(
    pixmap: &Pixmap,
    dots_per_mm: f64,
    about: &Metadata,
) -> Result<Vec<u8>, png::EncodingError> {
    let opaque: Vec<u8> = pixmap
        .data()
        .chunks_exact(4)
        .flat_map(|pixel| [pixel[0], pixel[1], pixel[2]])
        .collect();
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, pixmap.width(), pixmap.height());
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    let per_metre = whole(dots_per_mm * 1000.0);
    encoder.set_pixel_dims(Some(png::PixelDimensions {
        xppu: per_metre,
        yppu: per_metre,
        unit: png::Unit::Meter,
    }));
    encoder.add_text_chunk("Software".to_owned(), CREATOR.to_owned())?;
    if !about.title.is_empty() {
        encoder.add_itxt_chunk("Title".to_owned(), about.title.clone())?;
    }
    let mut writer = encoder.write_header()?;
    writer.write_image_data(&opaque)?;
    writer.finish()?;
    Ok(bytes)
}
