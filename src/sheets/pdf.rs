//! Sheets as one PDF file: vectors, embedded subset fonts, bookmarks, tags.

use krilla::Document;
use krilla::SerializeSettings;
use krilla::color::rgb;
use krilla::destination::XyzDestination;
use krilla::geom::{Path, PathBuilder, Point, Rect, Size, Transform};
use krilla::image::Image;
use krilla::metadata::DateTime;
use krilla::num::NormalizedF32;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::tagging::{Artifact, ArtifactType, ContentTag, SpanTag, Tag, TagGroup, TagTree};
use krilla::text::{Font, GlyphId, KrillaGlyph};

use crate::sheets::check::check;
use crate::sheets::curve::cubics;
use crate::sheets::error::SheetError;
use crate::sheets::fonts::{Face, glyphs};
use crate::sheets::mark::{Arc, Circle, Ends, Finish, Mark, Picture, Shape, Sheet, ViewportId};
use crate::sheets::metadata::{CREATOR, Metadata};
use crate::sheets::paper::{PaperPoint, PaperRect};
use crate::sheets::pen::{Ink, LineKind, Pen};
use crate::sheets::text::Text;

/// Points in a millimetre (PDF's unit is 1/72 inch).
const POINTS_PER_MM: f64 = 72.0 / 25.4;

/// The sheets as one PDF file, a page to the sheet and a bookmark to the page.
///
/// Texts are tagged as paragraphs in the order of the marks, what a viewport shows as
/// a figure with the viewport's name; the rest is furniture.
///
/// # Errors
/// If a sheet can't be drawn, or a picture can't be read.
pub fn pdf(sheets: &[Sheet], about: &Metadata) -> Result<Vec<u8>, SheetError> {
    let mut document = Document::new_with(SerializeSettings::default());
    let fonts = Face::ALL.map(|face| {
        Font::new(face.bytes().into(), 0)
            .expect("the embedded font files are committed and loaded by the tests")
    });
    let mut outline = Outline::new();
    let mut tags = TagTree::new().with_lang(language(about));
    for (index, sheet) in sheets.iter().enumerate() {
        check(sheet)?;
        let mut page = document.start_page_with(page_settings(sheet)?);
        let mut surface = page.surface();
        let mut drawing = Drawing::new(&mut surface, &fonts, sheet);
        let outcome = sheet
            .marks
            .iter()
            .try_for_each(|mark| drawing.draw_mark(mark));
        // Even a failed drawing is finished: an unfinished surface panics when it is dropped.
        tags.push(drawing.finish());
        surface.finish();
        page.finish();
        outcome?;
        let top = XyzDestination::new(index, Point::from_xy(0.0, 0.0));
        outline.push_child(OutlineNode::new(
            format!("{} {}", sheet.id, sheet.title),
            top,
        ));
    }
    document.set_outline(outline);
    document.set_tag_tree(tags);
    document.set_metadata(metadata(about));
    document.finish().map_err(|error| SheetError::Refused {
        sheet: sheets
            .iter()
            .map(|sheet| sheet.id.as_str())
            .collect::<Vec<_>>()
            .join(", "),
        format: "PDF",
        reason: error.to_string(),
    })
}

fn language(about: &Metadata) -> Option<String> {
    Some(about.language.clone()).filter(|language| !language.is_empty())
}

fn metadata(about: &Metadata) -> krilla::metadata::Metadata {
    let mut metadata = krilla::metadata::Metadata::new()
        .title(about.title.clone())
        .creator(CREATOR.to_owned())
        .producer(CREATOR.to_owned());
    if !about.subject.is_empty() {
        metadata = metadata.description(about.subject.clone());
    }
    if !about.author.is_empty() {
        metadata = metadata.authors(vec![about.author.clone()]);
    }
    if let Some(language) = language(about) {
        metadata = metadata.language(language);
    }
    if let Some(date) = about.issued {
        metadata = metadata.creation_date(
            DateTime::new(date.year())
                .month(date.month())
                .day(date.day()),
        );
    }
    metadata
}

fn page_settings(sheet: &Sheet) -> Result<PageSettings, SheetError> {
    let refused = || SheetError::Refused {
        sheet: sheet.id.clone(),
        format: "PDF",
        reason: "the page has no size".to_owned(),
    };
    let width = single(sheet.size.width_mm() * POINTS_PER_MM);
    let height = single(sheet.size.height_mm() * POINTS_PER_MM);
    let whole = Rect::from_xywh(0.0, 0.0, width, height).ok_or_else(refused)?;
    Ok(PageSettings::from_wh(width, height)
        .ok_or_else(refused)?
        .with_media_box(Some(whole))
        .with_crop_box(Some(whole))
        .with_trim_box(Some(whole)))
}

/// Single precision, which is what the PDF library takes. On the largest sheet it is
/// off by less than a tenth of a micrometre.
#[expect(
    clippy::cast_possible_truncation,
    reason = "rounding to single precision is the point; the check keeps values in its range"
)]
fn single(value: f64) -> f32 {
    value as f32
}

fn point(paper: PaperPoint) -> Point {
    Point::from_xy(single(paper.x), single(paper.y))
}

/// To what the content that is being drawn belongs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Belonging {
    Furniture,
    Figure(ViewportId),
}

/// A page being drawn. Units are millimetres: the page's transform scales them.
struct Drawing<'a, 'b> {
    surface: &'a mut Surface<'b>,
    fonts: &'a [Font; 3],
    sheet: &'a Sheet,
    /// Where what follows is clipped to a viewport's window.
    clipped_to: Option<ViewportId>,
    tagged: Option<Belonging>,
    page: TagGroup,
    figures: Vec<TagGroup>,
}

impl<'a, 'b> Drawing<'a, 'b> {
    fn new(surface: &'a mut Surface<'b>, fonts: &'a [Font; 3], sheet: &'a Sheet) -> Self {
        let scale = single(POINTS_PER_MM);
        surface.push_transform(&Transform::from_scale(scale, scale));
        let figure = |name: &str| TagGroup::new(Tag::Figure(Some(name.to_owned())));
        Self {
            surface,
            fonts,
            sheet,
            clipped_to: None,
            tagged: None,
            page: TagGroup::new(Tag::Part),
            figures: sheet
                .viewports
                .iter()
                .map(|viewport| figure(&viewport.name))
                .collect(),
        }
    }

    /// Ends the page and returns its tags, figures first.
    fn finish(mut self) -> TagGroup {
        self.belong_to(None);
        self.clip_to(None);
        self.surface.pop();
        let mut all = TagGroup::new(Tag::Part);
        for figure in self.figures {
            all.push(figure);
        }
        all.push(self.page);
        all
    }

    fn draw_mark(&mut self, mark: &Mark) -> Result<(), SheetError> {
        if self.clipped_to != mark.viewport {
            // A clip begun within tagged content may not end outside it.
            self.belong_to(None);
            self.clip_to(mark.viewport);
        }
        match &mark.shape {
            Shape::Symbol(used) => {
                for (shape, ink) in used.drawn(mark.ink) {
                    self.draw_shape(&shape, ink, mark.viewport)?;
                }
            }
            shape => self.draw_shape(shape, mark.ink, mark.viewport)?,
        }
        Ok(())
    }

    fn clip_to(&mut self, viewport: Option<ViewportId>) {
        if self.clipped_to.take().is_some() {
            self.surface.pop();
        }
        let window = viewport
            .and_then(|id| self.sheet.viewports.get(id.0))
            .map(|v| v.window);
        if let Some(path) = window.and_then(|window| rings([&window.corners()[..]])) {
            self.surface.push_clip_path(&path, &FillRule::NonZero);
            self.clipped_to = viewport;
        }
    }

    /// Ends the tagged stretch that is open, and opens the next one.
    fn belong_to(&mut self, next: Option<Belonging>) {
        if self.tagged == next {
            return;
        }
        if self.tagged.take().is_some() {
            self.surface.end_tagged();
        }
        match next {
            Some(Belonging::Furniture) => {
                let artifact = Artifact::with_kind(ArtifactType::Layout);
                self.surface.start_tagged(ContentTag::Artifact(artifact));
            }
            Some(Belonging::Figure(id)) => {
                let identifier = self.surface.start_tagged(ContentTag::Other);
                if let Some(figure) = self.figures.get_mut(id.0) {
                    figure.push(identifier);
                }
            }
            None => {}
        }
        self.tagged = next;
    }

    fn draw_shape(
        &mut self,
        shape: &Shape,
        ink: Ink,
        viewport: Option<ViewportId>,
    ) -> Result<(), SheetError> {
        let lines = viewport.map_or(Belonging::Furniture, Belonging::Figure);
        match shape {
            Shape::Text(text) => {
                if let Some(cleared) = text.cleared_box() {
                    self.belong_to(Some(Belonging::Furniture));
                    self.fill(rings([&cleared.corners()[..]]), Ink::Paper);
                }
                self.draw_text(text, ink);
                return Ok(());
            }
            _ => self.belong_to(Some(lines)),
        }
        match shape {
            Shape::Polyline(line) => self.stroke(polyline(&line.points, line.ends), line.pen, ink),
            Shape::Area(area) => self.fill(rings(area.rings()), ink),
            Shape::Circle(circle) => match circle.finish {
                Finish::Drawn(pen) => self.stroke(arc(&whole(circle, pen)), pen, ink),
                Finish::Filled => self.fill(arc(&whole(circle, Pen::THIN)), ink),
            },
            Shape::Arc(part) => self.stroke(arc(part), part.pen, ink),
            Shape::Hatch(hatch) => {
                let mut path = PathBuilder::new();
                for [from, to] in hatch.lines() {
                    path.move_to(single(from.x), single(from.y));
                    path.line_to(single(to.x), single(to.y));
                }
                self.stroke(path.finish(), hatch.pen, ink);
            }
            Shape::Picture(picture) => self.draw_picture(picture)?,
            // Texts are drawn above, symbols are taken apart by the caller.
            Shape::Text(_) | Shape::Symbol(_) => {}
        }
        Ok(())
    }

    fn stroke(&mut self, path: Option<Path>, pen: Pen, ink: Ink) {
        let Some(path) = path else { return };
        self.surface.set_fill(None);
        self.surface.set_stroke(Some(Stroke {
            paint: colour(ink).into(),
            width: single(pen.width.mm()),
            miter_limit: 4.0,
            // The pen is round, as the patterns of broken lines assume.
            line_cap: LineCap::Round,
            line_join: LineJoin::Miter,
            opacity: NormalizedF32::ONE,
            dash: (pen.kind != LineKind::Continuous).then(|| StrokeDash {
                array: pen.pattern_mm().into_iter().map(single).collect(),
                offset: 0.0,
            }),
        }));
        self.surface.draw_path(&path);
    }

    fn fill(&mut self, path: Option<Path>, ink: Ink) {
        let Some(path) = path else { return };
        self.set_fill(ink);
        self.surface.draw_path(&path);
    }

    fn set_fill(&mut self, ink: Ink) {
        self.surface.set_stroke(None);
        self.surface.set_fill(Some(Fill {
            paint: colour(ink).into(),
            opacity: NormalizedF32::ONE,
            rule: FillRule::EvenOdd,
        }));
    }

    fn draw_text(&mut self, text: &Text, ink: Ink) {
        if text.content().trim().is_empty() {
            return;
        }
        self.belong_to(None);
        let identifier = self
            .surface
            .start_tagged(ContentTag::Span(SpanTag::empty()));
        let mut paragraph = TagGroup::new(Tag::P);
        paragraph.push(identifier);
        self.page.push(paragraph);
        self.set_fill(ink);
        let start = text.start();
        let turned = !text.turn_degrees().rem_euclid(360.0).eq(&0.0);
        if turned {
            let (along, _) = crate::sheets::paper::directions(text.turn_degrees());
            self.surface.push_transform(&Transform::from_row(
                single(along.x),
                single(along.y),
                single(-along.y),
                single(along.x),
                single(start.x),
                single(start.y),
            ));
        }
        self.surface.draw_glyphs(
            if turned {
                Point::from_xy(0.0, 0.0)
            } else {
                point(start)
            },
            &glyph_run(text),
            self.fonts[text.lettering().face as usize].clone(),
            text.content(),
            single(text.lettering().em_mm()),
            false,
        );
        if turned {
            self.surface.pop();
        }
        self.surface.end_tagged();
    }

    fn draw_picture(&mut self, picture: &Picture) -> Result<(), SheetError> {
        let unreadable = |reason: String| SheetError::Picture {
            sheet: self.sheet.id.clone(),
            reason,
        };
        let image = Image::from_png(picture.png.to_vec().into(), true).map_err(unreadable)?;
        let PaperRect { left, top, .. } = picture.place;
        let size = Size::from_wh(
            single(picture.place.width_mm()),
            single(picture.place.height_mm()),
        );
        if let Some(size) = size {
            self.surface
                .push_transform(&Transform::from_translate(single(left), single(top)));
            self.surface.draw_image(image, size);
            self.surface.pop();
        }
        Ok(())
    }
}

fn colour(ink: Ink) -> rgb::Color {
    let [red, green, blue] = ink.rgb();
    rgb::Color::new(red, green, blue)
}

/// The glyphs with the stretch of text that each stands for, so that text can be
/// searched for and copied.
fn glyph_run(text: &Text) -> Vec<KrillaGlyph> {
    let placed = glyphs(text.lettering().face, text.content());
    let mut starts: Vec<usize> = placed.iter().map(|glyph| glyph.cluster).collect();
    starts.push(text.content().len());
    starts.sort_unstable();
    placed
        .iter()
        .map(|glyph| {
            let next = starts.partition_point(|&start| start <= glyph.cluster);
            let end = starts.get(next).copied().unwrap_or(glyph.cluster);
            KrillaGlyph::new(
                GlyphId::new(u32::from(glyph.id)),
                single(glyph.advance_em),
                single(glyph.offset_em.x),
                single(glyph.offset_em.y),
                0.0,
                glyph.cluster..end,
                None,
            )
        })
        .collect()
}

fn add_points(path: &mut PathBuilder, points: &[PaperPoint], ends: Ends) {
    if points.len() < 2 {
        return;
    }
    path.move_to(single(points[0].x), single(points[0].y));
    for at in &points[1..] {
        path.line_to(single(at.x), single(at.y));
    }
    if ends == Ends::Closed {
        path.close();
    }
}

fn polyline(points: &[PaperPoint], ends: Ends) -> Option<Path> {
    let mut path = PathBuilder::new();
    add_points(&mut path, points, ends);
    path.finish()
}

fn rings<'r>(rings: impl IntoIterator<Item = &'r [PaperPoint]>) -> Option<Path> {
    let mut path = PathBuilder::new();
    for ring in rings {
        add_points(&mut path, ring, Ends::Closed);
    }
    path.finish()
}

fn whole(circle: &Circle, pen: Pen) -> Arc {
    Arc {
        centre: circle.centre,
        radius_mm: circle.radius_mm,
        from_degrees: 0.0,
        sweep_degrees: 360.0,
        pen,
    }
}

fn arc(part: &Arc) -> Option<Path> {
    let (start, curves) = cubics(part);
    let mut path = PathBuilder::new();
    path.move_to(single(start.x), single(start.y));
    for curve in curves {
        let [a, b, end] = [curve.control_1, curve.control_2, curve.end];
        path.cubic_to(
            single(a.x),
            single(a.y),
            single(b.x),
            single(b.y),
            single(end.x),
            single(end.y),
        );
    }
    if 360.0 <= part.sweep_degrees.abs() {
        path.close();
    }
    path.finish()
}
