//! A sheet as a DXF drawing: the site at full size, the sheet as a layout that looks at it.
//!
//! Plain text, release R2010 (AC1024), UTF-8. What was drawn through a viewport lies in
//! model space in the site's unit; the plan at the site's own coordinates, other views
//! beside it. Frame, title block and tables lie in paper space in millimetres, and
//! viewports there show model space to scale. Symbols are blocks, their fields
//! attributes; each entity says which object of the site it draws.

mod blocks;
mod entity;
mod fill;
mod header;
mod look;
mod objects;
mod space;
mod tables;
mod tags;

pub use space::ModelUnit;

use crate::geometry::DVec2;
use crate::sheets::check::check;
use crate::sheets::dxf::blocks::Block;
use crate::sheets::dxf::entity::Sink;
use crate::sheets::dxf::look::{Colour, Look, OnPaper, Owner, VIEWPORT_LAYER};
use crate::sheets::dxf::space::{Space, grown, outer_points, shifts_m};
use crate::sheets::dxf::tables::{Anchors, Extents, MODEL_SPACE, PAPER_SPACE};
use crate::sheets::dxf::tags::{Handle, Handles, Tags};
use crate::sheets::error::SheetError;
use crate::sheets::mark::{Mark, Shape, Sheet};
use crate::sheets::metadata::Metadata;
use crate::sheets::paper::Viewport;

/// The sheet as a DXF file.
///
/// # Errors
/// If a coordinate can't be drawn.
pub fn dxf(sheet: &Sheet, about: &Metadata, unit: ModelUnit) -> Result<String, SheetError> {
    check(sheet)?;
    let mut handles = Handles::new();
    let anchors = Anchors::new(&mut handles);
    let blocks = blocks::blocks(sheet, &mut handles);
    let shifts = shifts_m(sheet);
    let extents = extents(sheet, &shifts, unit);
    let tables = tables::tables(&mut handles, &anchors, &blocks, extents);
    let definitions = definitions(&mut handles, &anchors, &blocks);
    let mut entities = Tags::default();
    let drawing = Drawing {
        sheet,
        unit,
        anchors,
        blocks: &blocks,
        shifts: &shifts,
    };
    let paper_viewport = drawing.viewports(&mut entities, &mut handles);
    for mark in &sheet.marks {
        drawing.mark(&mut entities, &mut handles, mark);
    }
    let objects = objects::objects(&mut handles, &anchors, sheet, extents, paper_viewport);

    let mut file = Tags::default();
    file.section(
        "HEADER",
        &header::header(about, sheet, unit, extents, handles.seed()),
    );
    file.section("CLASSES", &header::classes());
    file.section("TABLES", &tables);
    file.section("BLOCKS", &definitions);
    file.section("ENTITIES", &entities);
    file.section("OBJECTS", &objects);
    file.tag(0, "EOF");
    Ok(file.into_text())
}

/// What model space covers; a unit square where it is empty.
fn extents(sheet: &Sheet, shifts: &[DVec2], unit: ModelUnit) -> Extents {
    let mut around = None;
    for mark in &sheet.marks {
        let (Some(id), Some(viewport)) = (mark.viewport, sheet.viewport_of(mark)) else {
            continue;
        };
        let space = Space::Model(viewport, shifts[id.0], unit);
        for paper in outer_points(&mark.shape) {
            around = grown(around, space.point(paper));
        }
    }
    around.unwrap_or((DVec2::ZERO, DVec2::ONE))
}

/// The blocks of both spaces, which are empty here, and those of the symbols.
fn definitions(handles: &mut Handles, anchors: &Anchors, blocks: &[Block]) -> Tags {
    let mut tags = Tags::default();
    for (record, name) in [(anchors.model, MODEL_SPACE), (anchors.paper, PAPER_SPACE)] {
        blocks::begin_block(&mut tags, handles, record, name, 0);
        blocks::end_block(&mut tags, handles, record);
    }
    blocks::define(&mut tags, handles, blocks);
    tags
}

/// What the entities of a sheet are written from.
struct Drawing<'a> {
    sheet: &'a Sheet,
    unit: ModelUnit,
    anchors: Anchors,
    blocks: &'a [Block],
    shifts: &'a [DVec2],
}

impl<'a> Drawing<'a> {
    fn mark(&self, tags: &mut Tags, handles: &mut Handles, mark: &Mark) {
        let (owner, space) = self.place(mark);
        let colour = if mark.ink == mark.layer.ink() {
            Colour::OfLayer
        } else {
            Colour::Own(mark.ink)
        };
        let look = Look {
            layer: mark.layer.name(),
            colour,
            subject: mark.subject.as_deref(),
        };
        let mut sink = Sink {
            tags,
            handles,
            owner,
            space,
        };
        match &mark.shape {
            Shape::Symbol(used) => blocks::insert(&mut sink, self.blocks, used, &look),
            shape => sink.shape(shape, mark.ink, &look),
        }
    }

    fn place(&self, mark: &Mark) -> (Owner, Space<'a>) {
        match (mark.viewport, self.sheet.viewport_of(mark)) {
            (Some(id), Some(viewport)) => (
                Owner {
                    record: self.anchors.model,
                    on_paper: OnPaper::No,
                },
                Space::Model(viewport, self.shifts[id.0], self.unit),
            ),
            _ => (self.on_paper(), Space::Paper(self.sheet.size)),
        }
    }

    fn on_paper(&self) -> Owner {
        Owner {
            record: self.anchors.paper,
            on_paper: OnPaper::Yes,
        }
    }

    /// Writes the viewports of the layout and returns the handle of the first, which is
    /// the sheet itself.
    fn viewports(&self, tags: &mut Tags, handles: &mut Handles) -> Handle {
        let size = DVec2::new(self.sheet.size.width_mm(), self.sheet.size.height_mm());
        let whole = PaperView {
            centre: size / 2.0,
            size,
            number: 1,
            seen: size / 2.0,
            height: size.y,
            turn: 0.0,
        };
        let first = self.viewport(tags, handles, &whole);
        for (number, (viewport, &shift)) in (2..).zip(self.sheet.viewports.iter().zip(self.shifts))
        {
            let view = self.paper_view(viewport, shift, number);
            self.viewport(tags, handles, &view);
        }
        first
    }

    fn paper_view(&self, viewport: &Viewport, shift_m: DVec2, number: usize) -> PaperView {
        let window = viewport.window;
        let space = Space::Model(viewport, shift_m, self.unit);
        PaperView {
            centre: self.sheet.size.counted_up(window.centre()),
            size: DVec2::new(window.width_mm(), window.height_mm()),
            number,
            seen: space.point(window.centre()),
            height: window.height_mm() * space.per_mm(),
            turn: viewport.turn_degrees,
        }
    }

    fn viewport(&self, tags: &mut Tags, handles: &mut Handles, view: &PaperView) -> Handle {
        let look = Look {
            layer: VIEWPORT_LAYER,
            colour: Colour::OfLayer,
            subject: None,
        };
        let handle = look::begin(tags, "VIEWPORT", handles, self.on_paper(), &look);
        tags.tag(100, "AcDbViewport");
        tags.point(10, view.centre);
        tags.real(40, view.size.x);
        tags.real(41, view.size.y);
        tags.tag(68, view.number);
        tags.tag(69, view.number);
        // The centre of the view, as it is turned.
        let (sin, cos) = crate::geometry::math::sin_cos_degrees(view.turn);
        tags.point_2d(12, DVec2::new(cos, sin).rotate(view.seen));
        tags.point_2d(13, DVec2::ZERO);
        tags.point_2d(14, DVec2::ONE);
        tags.point_2d(15, DVec2::ONE);
        tags.point_2d(16, DVec2::ZERO);
        tags.real(36, 1.0);
        tags.point(17, DVec2::ZERO);
        tags.real(42, 50.0);
        tags.real(43, 0.0);
        tags.real(44, 0.0);
        tags.real(45, view.height);
        tags.real(50, 0.0);
        tags.real(51, view.turn.rem_euclid(360.0));
        tags.tag(72, 1000);
        // 0x4000: the scale is locked.
        tags.tag(90, if view.number == 1 { 0 } else { 0x4000 });
        tags.tag(1, "");
        for (code, value) in [(281, 0), (71, 0), (74, 0)] {
            tags.tag(code, value);
        }
        tags.point(110, DVec2::ZERO);
        tags.point(111, DVec2::X);
        tags.point(112, DVec2::Y);
        tags.tag(79, 0);
        tags.real(146, 0.0);
        handle
    }
}

/// A viewport of the layout.
struct PaperView {
    /// Its middle on paper, mm, y up.
    centre: DVec2,
    /// Its size on paper, mm.
    size: DVec2,
    /// Its number; 1 is the sheet itself.
    number: usize,
    /// What lies in its middle, in the unit of what it shows.
    seen: DVec2,
    /// How much of that it shows from top to bottom.
    height: f64,
    /// How far what it shows is turned, degrees anticlockwise.
    turn: f64,
}
