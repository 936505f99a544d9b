//! The drawing list: a sheet and the marks on it.

use std::sync::Arc as Shared;

use crate::geometry::DVec2;
use crate::sheets::hatch::Hatch;
use crate::sheets::layer::Layer;
use crate::sheets::paper::{self, PaperPoint, PaperRect, SheetSize, Viewport};
use crate::sheets::pen::{Ink, Pen};
use crate::sheets::symbol::SymbolUse;
use crate::sheets::text::Text;

/// One page of the plan set, complete: writers add nothing to it.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Short name, unique in the set, fit for a file name: `02-hanging-plan`.
    pub id: String,
    /// What a reader calls it: `Hanging plan`.
    pub title: String,
    /// Size and orientation.
    pub size: SheetSize,
    /// Windows to the site; marks refer to them by their place here.
    pub viewports: Vec<Viewport>,
    /// Everything on the page; later marks lie on earlier ones.
    pub marks: Vec<Mark>,
}

/// Which viewport of its sheet a mark was drawn through: the place in
/// [`Sheet::viewports`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ViewportId(pub usize);

impl Sheet {
    /// An empty sheet.
    #[must_use]
    pub fn new(id: &str, title: &str, size: SheetSize) -> Self {
        Self {
            id: id.to_owned(),
            title: title.to_owned(),
            size,
            viewports: Vec::new(),
            marks: Vec::new(),
        }
    }

    /// Adds a window to the site and returns what marks drawn through it refer to.
    pub fn add_viewport(&mut self, viewport: Viewport) -> ViewportId {
        self.viewports.push(viewport);
        ViewportId(self.viewports.len() - 1)
    }

    /// Adds a mark on top.
    pub fn draw(&mut self, mark: Mark) {
        self.marks.push(mark);
    }

    /// The viewport that a mark was drawn through, if it was.
    #[must_use]
    pub fn viewport_of(&self, mark: &Mark) -> Option<&Viewport> {
        self.viewports.get(mark.viewport?.0)
    }

    /// Every text on the sheet with the place of its mark in [`Sheet::marks`]; those
    /// of symbols included.
    pub fn texts(&self) -> impl Iterator<Item = (usize, &Text)> {
        self.marks
            .iter()
            .enumerate()
            .flat_map(|(index, mark)| mark.texts().into_iter().map(move |text| (index, text)))
    }
}

/// Whether text may lie on a mark.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Standing {
    /// Text may lie on it: walls, members, hatches, grid lines.
    Ground,
    /// Text must keep off: hangers, burners, dimension lines, arrows.
    Key,
}

/// One thing drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Its form, in paper millimetres.
    pub shape: Shape,
    /// What kind of thing it draws.
    pub layer: Layer,
    /// Its colour.
    pub ink: Ink,
    /// Whether text may lie on it.
    pub standing: Standing,
    /// Which object of the site it draws, kind and id: `hanger:R3.2`.
    pub subject: Option<String>,
    /// The viewport through which it was drawn; none for the sheet's own furniture.
    pub viewport: Option<ViewportId>,
}

impl Mark {
    /// A mark in the layer's usual ink, ground, of no subject, on the sheet itself.
    #[must_use]
    pub fn new(layer: Layer, shape: impl Into<Shape>) -> Self {
        Self {
            shape: shape.into(),
            layer,
            ink: layer.ink(),
            standing: Standing::Ground,
            subject: None,
            viewport: None,
        }
    }

    /// In this ink.
    #[must_use]
    pub fn ink(mut self, ink: Ink) -> Self {
        self.ink = ink;
        self
    }

    /// Text must keep off it.
    #[must_use]
    pub fn key(mut self) -> Self {
        self.standing = Standing::Key;
        self
    }

    /// Drawing the object of this kind with this id.
    #[must_use]
    pub fn of(mut self, kind: &str, id: &str) -> Self {
        self.subject = Some(format!("{kind}:{id}"));
        self
    }

    /// Drawn through the viewport.
    #[must_use]
    pub fn through(mut self, viewport: ViewportId) -> Self {
        self.viewport = Some(viewport);
        self
    }

    /// The texts of the mark: itself, or those shown by a symbol.
    #[must_use]
    pub fn texts(&self) -> Vec<&Text> {
        match &self.shape {
            Shape::Text(text) => vec![text],
            Shape::Symbol(used) => used.shown().collect(),
            _ => Vec::new(),
        }
    }
}

/// A form on paper, mm.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// Straight lines from point to point.
    Polyline(Polyline),
    /// A filled polygon.
    Area(Area),
    /// A circle, drawn or filled.
    Circle(Circle),
    /// A part of a circle.
    Arc(Arc),
    /// Parallel lines within an outline.
    Hatch(Hatch),
    /// A line of text.
    Text(Text),
    /// A raster picture.
    Picture(Picture),
    /// A repeated symbol.
    Symbol(SymbolUse),
}

/// Whether the last point of a polyline is joined to the first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ends {
    /// Not joined.
    Open,
    /// Joined.
    Closed,
}

/// Straight lines from point to point. Fewer than two points draw nothing.
#[derive(Debug, Clone, PartialEq)]
pub struct Polyline {
    /// Its points.
    pub points: Vec<PaperPoint>,
    /// Whether the last is joined to the first.
    pub ends: Ends,
    /// Width and line type.
    pub pen: Pen,
}

impl Polyline {
    /// From point to point.
    #[must_use]
    pub fn open(pen: Pen, points: impl Into<Vec<PaperPoint>>) -> Self {
        Self {
            points: points.into(),
            ends: Ends::Open,
            pen,
        }
    }

    /// Round and back to the first point.
    #[must_use]
    pub fn closed(pen: Pen, points: impl Into<Vec<PaperPoint>>) -> Self {
        Self {
            points: points.into(),
            ends: Ends::Closed,
            pen,
        }
    }

    /// Round the rectangle.
    #[must_use]
    pub fn around(pen: Pen, rect: PaperRect) -> Self {
        Self::closed(pen, rect.corners())
    }

    /// Its straight pieces.
    pub fn segments(&self) -> impl Iterator<Item = [PaperPoint; 2]> + '_ {
        let closing = match (self.ends, self.points.first(), self.points.last()) {
            (Ends::Closed, Some(&first), Some(&last)) if 2 < self.points.len() => {
                Some([last, first])
            }
            _ => None,
        };
        self.points
            .windows(2)
            .map(|pair| [pair[0], pair[1]])
            .chain(closing)
    }
}

/// A filled polygon; what lies in an even number of its rings is not filled.
#[derive(Debug, Clone, PartialEq)]
pub struct Area {
    /// Its outer ring.
    pub outline: Vec<PaperPoint>,
    /// What is left out.
    pub holes: Vec<Vec<PaperPoint>>,
}

impl Area {
    /// Without holes.
    #[must_use]
    pub fn new(outline: impl Into<Vec<PaperPoint>>) -> Self {
        Self {
            outline: outline.into(),
            holes: Vec::new(),
        }
    }

    /// All rings, the outer one first.
    pub fn rings(&self) -> impl Iterator<Item = &[PaperPoint]> {
        std::iter::once(&self.outline)
            .chain(&self.holes)
            .map(Vec::as_slice)
    }
}

/// How a circle is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Finish {
    /// As a line.
    Drawn(Pen),
    /// As a disc.
    Filled,
}

/// A circle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Circle {
    /// Its centre.
    pub centre: PaperPoint,
    /// Its radius, mm.
    pub radius_mm: f64,
    /// Line or disc.
    pub finish: Finish,
}

/// A part of a circle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arc {
    /// The circle's centre.
    pub centre: PaperPoint,
    /// The circle's radius, mm.
    pub radius_mm: f64,
    /// Where it begins, degrees anticlockwise as seen from the direction of x.
    pub from_degrees: f64,
    /// How far it runs from there, degrees anticlockwise as seen; negative runs
    /// clockwise; clamped to one turn.
    pub sweep_degrees: f64,
    /// Width and line type.
    pub pen: Pen,
}

impl Arc {
    /// The point on its circle at an angle, degrees anticlockwise as seen.
    #[must_use]
    pub fn point_at(&self, degrees: f64) -> PaperPoint {
        let (along, _) = paper::directions(degrees);
        self.centre + along * self.radius_mm
    }

    /// Where it begins and ends.
    #[must_use]
    pub fn tips(&self) -> [PaperPoint; 2] {
        [
            self.point_at(self.from_degrees),
            self.point_at(self.from_degrees + self.sweep_degrees),
        ]
    }
}

/// A raster picture, upright.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// A PNG file's bytes.
    pub png: Shared<[u8]>,
    /// Where it lies; it is stretched to fill this.
    pub place: PaperRect,
}

impl Shape {
    /// The same form turned by degrees anticlockwise as seen about the paper's origin,
    /// then moved. Pictures are moved but stay upright.
    #[must_use]
    pub fn moved(&self, turn_degrees: f64, by: DVec2) -> Self {
        let point = |p: PaperPoint| paper::turned(p, turn_degrees) + by;
        let ring = |ring: &Vec<PaperPoint>| ring.iter().copied().map(point).collect::<Vec<_>>();
        match self {
            Self::Polyline(line) => Self::Polyline(Polyline {
                points: ring(&line.points),
                ..*line
            }),
            Self::Area(area) => Self::Area(Area {
                outline: ring(&area.outline),
                holes: area.holes.iter().map(ring).collect(),
            }),
            Self::Circle(circle) => Self::Circle(Circle {
                centre: point(circle.centre),
                ..*circle
            }),
            Self::Arc(arc) => Self::Arc(Arc {
                centre: point(arc.centre),
                from_degrees: arc.from_degrees + turn_degrees,
                ..*arc
            }),
            Self::Hatch(hatch) => Self::Hatch(Hatch {
                outline: ring(&hatch.outline),
                holes: hatch.holes.iter().map(ring).collect(),
                angle_degrees: hatch.angle_degrees + turn_degrees,
                ..*hatch
            }),
            Self::Text(text) => Self::Text(text.clone().moved(turn_degrees, by)),
            Self::Picture(picture) => {
                let corner = point(PaperPoint::new(picture.place.left, picture.place.top));
                let place =
                    PaperRect::at(corner, picture.place.width_mm(), picture.place.height_mm());
                Self::Picture(Picture {
                    png: Shared::clone(&picture.png),
                    place,
                })
            }
            Self::Symbol(used) => Self::Symbol(used.moved(turn_degrees, by)),
        }
    }
}

impl From<Polyline> for Shape {
    fn from(line: Polyline) -> Self {
        Self::Polyline(line)
    }
}

impl From<Area> for Shape {
    fn from(area: Area) -> Self {
        Self::Area(area)
    }
}

impl From<Circle> for Shape {
    fn from(circle: Circle) -> Self {
        Self::Circle(circle)
    }
}

impl From<Arc> for Shape {
    fn from(arc: Arc) -> Self {
        Self::Arc(arc)
    }
}

impl From<Hatch> for Shape {
    fn from(hatch: Hatch) -> Self {
        Self::Hatch(hatch)
    }
}

impl From<Text> for Shape {
    fn from(text: Text) -> Self {
        Self::Text(text)
    }
}

impl From<Picture> for Shape {
    fn from(picture: Picture) -> Self {
        Self::Picture(picture)
    }
}

impl From<SymbolUse> for Shape {
    fn from(used: SymbolUse) -> Self {
        Self::Symbol(used)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheets::lettering::Lettering;

    #[test]
    fn a_quarter_turn_goes_anticlockwise_as_seen() {
        let line = Polyline::open(Pen::THIN, [PaperPoint::ZERO, PaperPoint::new(10.0, 0.0)]);
        let Shape::Polyline(turned) = Shape::from(line).moved(90.0, DVec2::new(5.0, 5.0)) else {
            panic!("a polyline stays a polyline");
        };
        assert_eq!(
            turned.points,
            [PaperPoint::new(5.0, 5.0), PaperPoint::new(5.0, -5.0)]
        );
    }

    #[test]
    fn arcs_run_anticlockwise_as_seen() {
        let arc = Arc {
            centre: PaperPoint::ZERO,
            radius_mm: 2.0,
            from_degrees: 0.0,
            sweep_degrees: 90.0,
            pen: Pen::THIN,
        };
        assert_eq!(
            arc.tips(),
            [PaperPoint::new(2.0, 0.0), PaperPoint::new(0.0, -2.0)]
        );
    }

    #[test]
    fn turning_a_text_keeps_its_measures() {
        let text = Text::new("R3.2", Lettering::regular(2.5), PaperPoint::new(4.0, 7.0));
        let Shape::Text(turned) = Shape::from(text.clone()).moved(90.0, DVec2::ZERO) else {
            panic!("a text stays a text");
        };
        assert_eq!(turned.start(), PaperPoint::new(7.0, -4.0));
        assert!((turned.turn_degrees() - 90.0).abs() < f64::EPSILON);
        assert!((turned.advance_mm() - text.advance_mm()).abs() < f64::EPSILON);
    }
}
