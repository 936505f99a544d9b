//! Draws in site space: one pen for a layer, with the camera, the colours and the
//! clipping that keep a far zoom from drawing a million dashes.

use crate::editor::camera::{Camera, narrow};
use crate::editor::theme::CanvasRoles;
use crate::geometry::DVec2;
use crate::geometry::polygon::Polygon;
use eframe::egui::epaint::{CircleShape, Mesh, PathShape, Vertex};
use eframe::egui::{Color32, Pos2, Rect, Shape, Stroke, TextureId, Vec2, pos2};

/// Side of the tile of a hatch, points.
pub(in crate::editor) const HATCH_TILE: f32 = 8.0;

/// A line that is broken: lengths of dash, gap, dash, gap, ... in points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::editor) struct Dashes(pub(super) &'static [f32]);

/// Long dash, dot: centre and grid lines (ISO 128-2, type 10).
pub(in crate::editor) const LONG_DASH_DOT: Dashes = Dashes(&[14.0, 3.0, 2.0, 3.0]);
/// Dash: what is hidden or above (ISO 128-2, type 02).
pub(in crate::editor) const DASHED: Dashes = Dashes(&[6.0, 4.0]);
/// Long dash, double dot: positions of moving parts (ISO 128-2, type 12).
pub(in crate::editor) const LONG_DASH_DOUBLE_DOT: Dashes = Dashes(&[10.0, 3.0, 2.0, 2.5, 2.0, 3.0]);

/// Draws in site space.
#[derive(Debug)]
pub(super) struct Pen<'a> {
    pub(super) camera: &'a Camera,
    pub(super) roles: &'static CanvasRoles,
    shapes: Vec<Shape>,
}

impl<'a> Pen<'a> {
    pub(super) fn new(camera: &'a Camera, roles: &'static CanvasRoles) -> Self {
        Self {
            camera,
            roles,
            shapes: Vec::new(),
        }
    }

    /// What has been drawn.
    pub(super) fn into_shapes(self) -> Vec<Shape> {
        self.shapes
    }

    pub(super) fn add(&mut self, shape: Shape) {
        self.shapes.push(shape);
    }

    pub(super) fn at(&self, point: DVec2) -> Pos2 {
        self.camera.screen_from_site(point)
    }

    /// Whether anything of a stretch of the plan may be in view.
    pub(super) fn sees(&self, points: &[DVec2]) -> bool {
        let mut rect = Rect::NOTHING;
        for point in points {
            rect.extend_with(self.at(*point));
        }
        rect.expand(24.0).intersects(self.camera.rect())
    }

    /// The piece of a line that is in view, with some margin; none if nothing is.
    pub(super) fn visible_piece(&self, a: DVec2, b: DVec2) -> Option<(DVec2, DVec2)> {
        let (least, greatest) = self.camera.in_view();
        let margin = DVec2::splat(self.camera.site_length(32.0));
        clip(a, b, least - margin, greatest + margin)
    }

    pub(super) fn line(&mut self, a: DVec2, b: DVec2, stroke: Stroke) {
        if let Some((a, b)) = self.visible_piece(a, b) {
            let ends = [self.at(a), self.at(b)];
            self.add(Shape::line_segment(ends, stroke));
        }
    }

    pub(super) fn dashed(&mut self, a: DVec2, b: DVec2, stroke: Stroke, dashes: Dashes) {
        let Some((from, to)) = self.visible_piece(a, b) else {
            return;
        };
        // Dashes keep their place on the line when only a piece of it is in view.
        let period: f32 = dashes.0.iter().sum();
        let begun = narrow((from - a).length() * self.camera.scale() % f64::from(period));
        let ends = [self.at(from), self.at(to)];
        broken(&mut self.shapes, ends, stroke, dashes, begun);
    }

    pub(super) fn closed(&mut self, ring: &[DVec2], stroke: Stroke) {
        if self.sees(ring) {
            let points = ring.iter().map(|p| self.at(*p)).collect();
            self.add(Shape::closed_line(points, stroke));
        }
    }

    pub(super) fn open_line(&mut self, points: &[DVec2], stroke: Stroke) {
        if self.sees(points) {
            let points = points.iter().map(|p| self.at(*p)).collect();
            self.add(Shape::Path(PathShape::line(points, stroke)));
        }
    }

    pub(super) fn closed_dashed(&mut self, ring: &[DVec2], stroke: Stroke, dashes: Dashes) {
        for (a, b) in crate::geometry::polygon::ring_edges(ring) {
            self.dashed(a, b, stroke, dashes);
        }
    }

    /// Fills an area with one colour.
    pub(super) fn fill(&mut self, outline: &[DVec2], holes: &[Vec<DVec2>], colour: Color32) {
        if let Some(mesh) = self.mesh(outline, holes, |at| Vertex {
            pos: at,
            uv: eframe::egui::epaint::WHITE_UV,
            color: colour,
        }) {
            self.add(Shape::mesh(mesh));
        }
    }

    /// Hatches an area; the hatch moves with the plan and keeps its width on the screen.
    pub(super) fn hatch(
        &mut self,
        outline: &[DVec2],
        holes: &[Vec<DVec2>],
        texture: TextureId,
        colour: Color32,
    ) {
        let origin = self.at(DVec2::ZERO);
        let origin = Vec2::new(
            origin.x.rem_euclid(HATCH_TILE),
            origin.y.rem_euclid(HATCH_TILE),
        );
        let mesh = self.mesh(outline, holes, |at| {
            let uv = (at - origin) / HATCH_TILE;
            Vertex {
                pos: at,
                uv: pos2(uv.x, uv.y),
                color: colour,
            }
        });
        if let Some(mut mesh) = mesh {
            mesh.texture_id = texture;
            self.add(Shape::mesh(mesh));
        }
    }

    fn mesh(
        &self,
        outline: &[DVec2],
        holes: &[Vec<DVec2>],
        vertex: impl Fn(Pos2) -> Vertex,
    ) -> Option<Mesh> {
        if outline.len() < 3 || !self.sees(outline) {
            return None;
        }
        let mut mesh = Mesh::default();
        let mut fan = |ring: &[DVec2]| {
            let Ok(first) = u32::try_from(mesh.vertices.len()) else {
                return;
            };
            for point in ring {
                mesh.vertices.push(vertex(self.at(*point)));
            }
            for (second, _) in (first + 1..).zip(ring.iter().skip(2)) {
                mesh.add_triangle(first, second, second + 1);
            }
        };
        if holes.is_empty() && is_convex(outline) {
            fan(outline);
        } else {
            let polygon = Polygon {
                outline: outline.to_vec(),
                holes: holes.to_vec(),
            };
            for piece in polygon.convex_pieces() {
                fan(&piece);
            }
        }
        Some(mesh)
    }

    /// A filled and outlined circle of a size on the screen.
    pub(super) fn disc(&mut self, at: DVec2, radius: f32, fill: Color32, stroke: Stroke) {
        self.add(Shape::Circle(CircleShape {
            center: self.at(at),
            radius,
            fill,
            stroke,
        }));
    }
}

/// Whether a ring turns one way all along.
fn is_convex(ring: &[DVec2]) -> bool {
    let mut sign = 0.0_f64;
    for place in 0..ring.len() {
        let a = ring[place];
        let b = ring[(place + 1) % ring.len()];
        let c = ring[(place + 2) % ring.len()];
        let turn = (b - a).perp_dot(c - b);
        if turn * sign < 0.0 {
            return false;
        }
        if turn != 0.0 {
            sign = turn;
        }
    }
    ring.len() <= 4
}

/// A line broken into dashes.
pub(in crate::editor) fn broken(
    shapes: &mut Vec<Shape>,
    [from, to]: [Pos2; 2],
    stroke: Stroke,
    dashes: Dashes,
    begun: f32,
) {
    let length = (to - from).length();
    if length <= 0.0 {
        return;
    }
    let direction = (to - from) / length;
    let mut at = -begun;
    let mut place = 0;
    while at < length {
        let step = dashes.0[place % dashes.0.len()];
        let (start, end) = (at.max(0.0), (at + step).min(length));
        if place % 2 == 0 && start < end {
            let ends = [from + direction * start, from + direction * end];
            shapes.push(Shape::line_segment(ends, stroke));
        }
        at += step;
        place += 1;
    }
}

/// The piece of a segment inside an upright rectangle (Liang and Barsky, ACM TOG 3:1, 1984).
pub(super) fn clip(a: DVec2, b: DVec2, least: DVec2, greatest: DVec2) -> Option<(DVec2, DVec2)> {
    let along = b - a;
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (start, step, low, high) in [
        (a.x, along.x, least.x, greatest.x),
        (a.y, along.y, least.y, greatest.y),
    ] {
        if step == 0.0 {
            if start < low || high < start {
                return None;
            }
        } else {
            let (one, other) = ((low - start) / step, (high - start) / step);
            from = from.max(one.min(other));
            to = to.min(one.max(other));
        }
    }
    (from <= to).then(|| (a + along * from, a + along * to))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_clipped_to_what_is_in_view() {
        let (least, greatest) = (DVec2::ZERO, DVec2::new(10.0, 5.0));
        let across = clip(
            DVec2::new(-5.0, 2.0),
            DVec2::new(20.0, 2.0),
            least,
            greatest,
        );
        assert_eq!(across, Some((DVec2::new(0.0, 2.0), DVec2::new(10.0, 2.0))));
        let beside = clip(
            DVec2::new(-5.0, 6.0),
            DVec2::new(20.0, 6.0),
            least,
            greatest,
        );
        assert_eq!(beside, None);
        let inside = clip(DVec2::new(1.0, 1.0), DVec2::new(2.0, 3.0), least, greatest);
        assert_eq!(inside, Some((DVec2::new(1.0, 1.0), DVec2::new(2.0, 3.0))));
    }

    #[test]
    fn dashes_cover_the_line_and_nothing_else() {
        let mut shapes = Vec::new();
        let ends = [pos2(0.0, 0.0), pos2(25.0, 0.0)];
        broken(
            &mut shapes,
            ends,
            Stroke::new(1.0, Color32::BLACK),
            DASHED,
            0.0,
        );
        assert_eq!(shapes.len(), 3);
    }
}
