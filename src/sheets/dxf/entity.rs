//! Shapes as DXF entities.

use crate::geometry::DVec2;
use crate::sheets::dxf::fill;
use crate::sheets::dxf::look::{self, Look, Owner};
use crate::sheets::dxf::space::Space;
use crate::sheets::dxf::tags::{Handles, Tags};
use crate::sheets::mark::{Arc, Ends, Finish, Polyline, Shape};
use crate::sheets::paper::PaperPoint;
use crate::sheets::pen::{Ink, LineKind, Pen};
use crate::sheets::text::Text;

/// Where entities are being written.
#[derive(Debug)]
pub(super) struct Sink<'a> {
    /// The lines so far.
    pub(super) tags: &'a mut Tags,
    /// Gives each entity its handle.
    pub(super) handles: &'a mut Handles,
    /// To what they belong.
    pub(super) owner: Owner,
    /// Where they lie.
    pub(super) space: Space<'a>,
}

impl Sink<'_> {
    /// Begins an entity of a kind.
    pub(super) fn begin(&mut self, kind: &str, look: &Look<'_>) {
        look::begin(self.tags, kind, self.handles, self.owner, look);
    }

    /// Writes a shape that isn't a symbol. `ink` tells paper, which is cleared, from
    /// ink, which is drawn.
    pub(super) fn shape(&mut self, shape: &Shape, ink: Ink, look: &Look<'_>) {
        match shape {
            Shape::Polyline(line) => self.polyline(line, look),
            Shape::Area(area) => {
                let rings: Vec<_> = area.rings().collect();
                fill::area(self, &rings, ink, look);
            }
            Shape::Circle(circle) => match circle.finish {
                Finish::Drawn(pen) => self.circle(circle.centre, circle.radius_mm, pen, look),
                Finish::Filled => fill::disc(self, circle, ink, look),
            },
            Shape::Arc(arc) => self.arc(arc, look),
            Shape::Hatch(hatch) => fill::hatch(self, hatch, look),
            Shape::Text(text) => self.text(text, look),
            // This format can't hold pictures, only name files; the edge shows where one is.
            Shape::Picture(picture) => {
                self.polyline(&Polyline::around(Pen::HAIR, picture.place), look)
            }
            // Symbols are inserted as blocks.
            Shape::Symbol(_) => {}
        }
    }

    fn polyline(&mut self, line: &Polyline, look: &Look<'_>) {
        match line.points[..] {
            [] | [_] => {}
            [from, to] => self.line(from, to, line.pen, look),
            _ => self.long_polyline(line, look),
        }
    }

    fn line(&mut self, from: PaperPoint, to: PaperPoint, pen: Pen, look: &Look<'_>) {
        let [from, to] = [from, to].map(|p| self.space.point(p));
        self.begin("LINE", look);
        look::pen(self.tags, pen, self.space.per_mm());
        self.tags.tag(100, "AcDbLine");
        self.tags.point(10, from);
        self.tags.point(11, to);
        look::subject(self.tags, look);
    }

    fn long_polyline(&mut self, line: &Polyline, look: &Look<'_>) {
        self.begin("LWPOLYLINE", look);
        look::pen(self.tags, line.pen, self.space.per_mm());
        self.tags.tag(100, "AcDbPolyline");
        self.tags.tag(90, line.points.len());
        let closed = u8::from(line.ends == Ends::Closed);
        // Dashes run on round corners.
        let dashes = if line.pen.kind == LineKind::Continuous {
            0
        } else {
            128
        };
        self.tags.tag(70, closed + dashes);
        self.tags.real(43, 0.0);
        for &at in &line.points {
            let at = self.space.point(at);
            self.tags.point_2d(10, at);
        }
        look::subject(self.tags, look);
    }

    fn circle(&mut self, centre: PaperPoint, radius_mm: f64, pen: Pen, look: &Look<'_>) {
        self.begin("CIRCLE", look);
        look::pen(self.tags, pen, self.space.per_mm());
        self.round("AcDbCircle", centre, radius_mm);
        look::subject(self.tags, look);
    }

    fn round(&mut self, class: &str, centre: PaperPoint, radius_mm: f64) {
        let centre = self.space.point(centre);
        self.tags.tag(100, class);
        self.tags.point(10, centre);
        self.tags.real(40, radius_mm.abs() * self.space.per_mm());
    }

    fn arc(&mut self, arc: &Arc, look: &Look<'_>) {
        if 360.0 <= arc.sweep_degrees.abs() {
            self.circle(arc.centre, arc.radius_mm, arc.pen, look);
            return;
        }
        let from = self.space.turn_degrees(arc.from_degrees);
        let to = from + arc.sweep_degrees;
        // Arcs of this format run anticlockwise.
        let (from, to) = if arc.sweep_degrees < 0.0 {
            (to, from)
        } else {
            (from, to)
        };
        self.begin("ARC", look);
        look::pen(self.tags, arc.pen, self.space.per_mm());
        self.round("AcDbCircle", arc.centre, arc.radius_mm);
        self.tags.tag(100, "AcDbArc");
        self.tags.real(50, from.rem_euclid(360.0));
        self.tags.real(51, to.rem_euclid(360.0));
        look::subject(self.tags, look);
    }

    fn text(&mut self, text: &Text, look: &Look<'_>) {
        if let Some(cleared) = text.cleared_box() {
            fill::cleared(self, &cleared.corners(), look);
        }
        if text.content().trim().is_empty() {
            return;
        }
        self.begin("TEXT", look);
        let start = self.space.point(text.start());
        text_body(self.tags, text, start, &self.space);
        self.tags.tag(100, "AcDbText");
        look::subject(self.tags, look);
    }
}

/// What text, attributes and their definitions have in common.
pub(super) fn text_body(tags: &mut Tags, text: &Text, start: DVec2, space: &Space<'_>) {
    tags.tag(100, "AcDbText");
    tags.point(10, start);
    tags.real(40, text.lettering().height_mm * space.per_mm());
    tags.text(1, text.content());
    tags.real(
        50,
        space.turn_degrees(text.turn_degrees()).rem_euclid(360.0),
    );
    tags.tag(7, look::style(text.lettering().face));
}
