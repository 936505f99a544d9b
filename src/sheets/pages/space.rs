//! A picture of the site in space, with its caption and the cautions.

use std::sync::Arc;

use crate::geometry::{Bounds, DVec2, DVec3};
use crate::sheets::error::{MOST_MEGAPIXELS, SheetError};
use crate::sheets::layer::Layer;
use crate::sheets::lettering::Lettering;
use crate::sheets::mark::{Area, Mark, Picture, Polyline, Sheet};
use crate::sheets::paper::{PaperPoint, PaperRect, SheetSize};
use crate::sheets::pen::{Ink, Pen};
use crate::sheets::png::png_of_rgb;
use crate::sheets::text::{Across, Along, Anchor, Text};
use crate::views::space::{
    Camera, CaptionOf, Finish, Image, Inks, Scene, draw, runs_scene, site_scene,
};

use super::labels::{Label, Spot, Taken, Wording};
use super::{PageInput, notes, wording};

/// What a picture is to be like.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PictureOrder {
    /// The bearing at which one stands, degrees clockwise from plan north.
    pub from_degrees: f64,
    /// How steeply one looks down, degrees.
    pub tilt_degrees: f64,
    /// Width on paper, mm.
    pub width_mm: f64,
    /// Dots per inch.
    pub dots_per_inch: f64,
    /// Where one stands, instead of a place from which the whole site is in view.
    pub camera: Option<Camera>,
}

/// Height of the view for its width.
const SHAPE: f64 = 0.62;
/// Margin of the caption, mm.
const MARGIN_MM: f64 = 4.0;

/// The site in space, as a page cut to the picture.
///
/// # Errors
/// If the picture would have too many pixels, or none.
pub fn picture(input: &PageInput<'_>, order: &PictureOrder) -> Result<Sheet, SheetError> {
    let (width, tallest) = pixels(order)?;
    let still = site_scene(input.site, input.study);
    let runs = runs_scene(input.study, input.findings);
    let all = still.bounds.union(runs.bounds);
    // An empty site has a floor to look at all the same.
    let all = if all.low.cmple(all.high).all() {
        all
    } else {
        Bounds {
            low: DVec3::ZERO,
            high: DVec3::ONE,
        }
    };
    let whole = Camera {
        from_degrees: order.from_degrees,
        tilt_degrees: order.tilt_degrees,
        ..Camera::default()
    };
    let (camera, height) = match order.camera {
        Some(camera) => (camera, tallest),
        None => cropped(&whole, &all, width, tallest),
    };
    let size = sized(width, height);
    let image = draw(
        &[&still, &runs],
        &camera,
        &Inks {
            // Names clear the paper below them: it must be the same white.
            ground: [255, 255, 255],
            ..Inks::PAPER
        },
        (width, height),
        Finish::Fine,
        2,
    );
    let mm_per_pixel = 25.4 / order.dots_per_inch;
    let view = PaperRect::at(
        PaperPoint::ZERO,
        size.x * mm_per_pixel,
        size.y * mm_per_pixel,
    );
    let wide_mm = view.width_mm() - 2.0 * MARGIN_MM;
    let caution = notes::cautions(wide_mm);
    let warning = notes::warning(input, wide_mm);
    let warning_mm = warning.as_ref().map_or(0.0, |block| block.height_mm + 2.0);
    let below_mm = 22.0 + warning_mm + caution.height_mm + MARGIN_MM;
    let page = SheetSize::cut(view.width_mm(), view.height_mm() + below_mm);
    let mut sheet = Sheet::new("picture", &title(input), page);
    sheet.draw(Mark::new(Layer::HeatWarmth, shown(&image, view)?));
    let taken = Taken::none(page, view.inset(1.0));
    label(
        &mut sheet,
        taken,
        [&runs, &still],
        &camera,
        (&image, size),
        mm_per_pixel,
    );
    breaches(&mut sheet, input, &camera, size, mm_per_pixel);
    let ruled = [
        PaperPoint::new(0.0, view.bottom),
        PaperPoint::new(view.right, view.bottom),
    ];
    sheet.draw(Mark::new(Layer::Frame, Polyline::open(Pen::THIN, ruled)));
    let at = PaperPoint::new(MARGIN_MM, view.bottom + 5.5);
    let name = Text::new(&title(input), Lettering::bold(3.0), at);
    sheet.draw(Mark::new(Layer::Text, name));
    let said = format!(
        "Seen from {:.0}° and {:.0}° above level, in perspective: not to scale. Keep-clear envelopes are translucent; those with something in them are marked.",
        camera.from_degrees, camera.tilt_degrees
    );
    let letters = Lettering::condensed(2.5);
    let lines = letters.wrapped(&said, wide_mm);
    let mut y = at.y;
    for line in &lines {
        y += 4.0;
        let text = Text::new(line, letters, PaperPoint::new(MARGIN_MM, y));
        sheet.draw(Mark::new(Layer::Text, text));
    }
    y += 3.0;
    for block in warning.iter().chain([&caution]) {
        let corner = PaperPoint::new(MARGIN_MM, y);
        block.at(corner).for_each(|mark| sheet.draw(mark));
        y += block.height_mm + 2.0;
    }
    Ok(sheet)
}

fn title(input: &PageInput<'_>) -> String {
    format!(
        "{}, {}",
        wording::project(input.site),
        wording::scheme(input.site)
    )
}

fn sized(width: usize, height: usize) -> DVec2 {
    #[expect(clippy::cast_precision_loss, reason = "at most some thousand pixels")]
    let size = DVec2::new(width as f64, height as f64);
    size
}

/// The camera from which all is in view, and no more rows than that takes.
fn cropped(whole: &Camera, all: &Bounds, width: usize, tallest: usize) -> (Camera, usize) {
    let size = sized(width, tallest);
    let camera = whole.fitted(all, size);
    let (low, high) = (all.low, all.high);
    let rows = [low.x, high.x]
        .into_iter()
        .flat_map(|x| [low.y, high.y].map(|y| (x, y)))
        .flat_map(|(x, y)| [low.z, high.z].map(|z| DVec3::new(x, y, z)))
        .filter_map(|corner| camera.see(corner, size))
        .map(|seen| seen.at.y);
    let (least, greatest) = rows.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), y| {
        (a.min(y), b.max(y))
    });
    // Room for names above and below.
    let needed = (greatest - least + size.x * 0.06).clamp(size.x * 0.3, size.y);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between 0 and the rows there may be"
    )]
    let height = needed.round() as usize;
    (whole.fitted(all, sized(width, height)), height)
}

/// Columns and rows of the view.
fn pixels(order: &PictureOrder) -> Result<(usize, usize), SheetError> {
    let dots = order.width_mm * order.dots_per_inch / 25.4;
    let rows = dots * SHAPE;
    // Four samples a pixel, eight bytes each: a tenth of what a plain image may have.
    #[expect(clippy::cast_precision_loss, reason = "a small number")]
    let most = MOST_MEGAPIXELS as f64 * 1e5;
    if !(16.0 <= dots && dots * rows <= most) {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "`as` saturates"
        )]
        return Err(SheetError::TooManyPixels {
            sheet: "picture".to_owned(),
            dots_per_inch: order.dots_per_inch,
            megapixels: (dots * rows / 1e6).ceil() as u64,
        });
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "checked above"
    )]
    Ok((dots.round() as usize, rows.round() as usize))
}

fn shown(image: &Image, place: PaperRect) -> Result<Picture, SheetError> {
    let refused = |reason: String| SheetError::Picture {
        sheet: "picture".to_owned(),
        reason,
    };
    let side = |n: usize| u32::try_from(n).map_err(|error| refused(error.to_string()));
    let png = png_of_rgb(side(image.width)?, side(image.height)?, &image.rgb)
        .map_err(|error| refused(error.to_string()))?;
    Ok(Picture {
        png: Arc::from(png),
        place,
    })
}

/// Names of runs, grid lines and of what can be seen of the obstructions, each where
/// there is room.
fn label(
    sheet: &mut Sheet,
    mut taken: Taken,
    scenes: [&Scene; 2],
    camera: &Camera,
    (image, size): (&Image, DVec2),
    mm_per_pixel: f64,
) {
    for scene in scenes {
        for caption in &scene.captions {
            let Some(seen) = camera.see(caption.at, size) else {
                continue;
            };
            let is_in =
                0.0 <= seen.at.x && seen.at.x < size.x && 0.0 <= seen.at.y && seen.at.y < size.y;
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "within the picture"
            )]
            let is_hidden =
                is_in && image.hides(seen.at.x as usize, seen.at.y as usize, seen.depth_m);
            let is_run = matches!(caption.of, CaptionOf::Run(_));
            if !is_in || (is_hidden && !is_run) {
                continue;
            }
            let at = seen.at * mm_per_pixel;
            let (letters, leads) = match caption.of {
                CaptionOf::Run(_) => (Lettering::bold(2.5), true),
                CaptionOf::Obstruction(_) => (Lettering::condensed(2.5), true),
                CaptionOf::Grid => (Lettering::regular(2.5), false),
            };
            let spot = |by: DVec2, along| Spot {
                at: at + by,
                turn_degrees: 0.0,
                anchor: Anchor {
                    along,
                    across: Across::Middle,
                },
            };
            let wording = Wording::line(caption.text.clone(), letters);
            let spots = vec![
                spot(DVec2::new(0.0, -3.2), Along::Middle),
                spot(DVec2::new(2.5, -2.0), Along::Start),
                spot(DVec2::new(-2.5, -2.0), Along::End),
                spot(DVec2::new(0.0, 3.2), Along::Middle),
            ];
            let label = Label {
                tries: vec![(wording.clone(), spots)],
                leader: leads.then(|| (at, vec![wording])),
                layer: Layer::Text,
                ink: Ink::Black,
            };
            for mark in taken.place(&label).into_iter().flatten() {
                sheet.draw(mark);
            }
        }
    }
}

/// A triangle where an open breach is.
fn breaches(
    sheet: &mut Sheet,
    input: &PageInput<'_>,
    camera: &Camera,
    size: DVec2,
    mm_per_pixel: f64,
) {
    for finding in input.findings.iter().filter(|it| it.is_open_breach()) {
        let Some(seen) = finding.place.and_then(|place| camera.see(place, size)) else {
            continue;
        };
        let at = seen.at * mm_per_pixel;
        if size.cmplt(seen.at).any() || seen.at.cmplt(DVec2::ZERO).any() {
            continue;
        }
        let ring = [
            at + DVec2::new(0.0, -1.9),
            at + DVec2::new(1.8, 1.3),
            at + DVec2::new(-1.8, 1.3),
        ];
        sheet.draw(Mark::new(Layer::Finding, Area::new(ring)).ink(Ink::Alarm));
        let edge = Polyline::closed(Pen::FINE, ring);
        sheet.draw(Mark::new(Layer::Finding, edge).ink(Ink::Paper));
    }
}
