//! Draws the section: the order in which things lie on each other, and the pen.

use crate::editor::Editor;
use crate::editor::camera::SideCamera;
use crate::editor::canvas::labels::{Label, Labels, Weight};
use crate::editor::canvas::pen::{Dashes, HATCH_TILE, broken};
use crate::editor::theme::{CanvasRoles, TextSize, Theme, faded};
use crate::geometry::DVec2;
use crate::units::UnitSystem;
use crate::views::Section;
use eframe::egui::epaint::{Mesh, Vertex};
use eframe::egui::{Align2, Color32, FontId, Painter, Pos2, Shape, Stroke, TextureId, pos2};

/// What is needed throughout.
pub(super) struct Drawing<'a> {
    pub(super) painter: &'a Painter,
    pub(super) roles: &'static CanvasRoles,
    pub(super) editor: &'a Editor,
    pub(super) section: &'a Section,
    pub(super) camera: &'a SideCamera,
    pub(super) units: UnitSystem,
    hatch: TextureId,
    pub(super) labels: Labels,
}

pub(super) fn draw(
    painter: &Painter,
    editor: &Editor,
    (section, standing): (&Section, Option<&Section>),
    camera: &SideCamera,
    hatch: TextureId,
) {
    let mut drawing = Drawing {
        painter,
        roles: &Theme::of(painter.ctx()).canvas,
        editor,
        section,
        camera,
        units: editor.site().units,
        hatch,
        labels: Labels::default(),
    };
    for it in &section.seen {
        drawing.seen(it);
    }
    drawing.envelopes();
    for it in &section.cut {
        drawing.cut(it);
    }
    drawing.floor();
    drawing.grid();
    drawing.heaters();
    if let Some(standing) = standing {
        drawing.as_it_is(standing);
    }
    drawing.hangers();
    drawing.chain();
    for height in &section.heights {
        drawing.height(height);
    }
    for room in &section.rooms {
        drawing.room(room);
    }
    drawing.findings();
    drawing.names();
    let within = painter.clip_rect().shrink(4.0);
    drawing.labels.paint(painter, within);
}

impl Drawing<'_> {
    pub(super) fn at(&self, p: DVec2) -> Pos2 {
        self.camera.screen_from_side(p.x, p.y)
    }

    pub(super) fn ring(&self, ring: &[DVec2]) -> Vec<Pos2> {
        ring.iter().map(|p| self.at(*p)).collect()
    }

    pub(super) fn fill(&self, ring: &[DVec2], colour: Color32) {
        let points = self.ring(ring);
        self.painter
            .add(Shape::convex_polygon(points, colour, Stroke::NONE));
    }

    /// Hatches a convex area.
    pub(super) fn hatched(&self, ring: &[DVec2], colour: Color32) {
        let mut mesh = Mesh::with_texture(self.hatch);
        let origin = self.at(DVec2::ZERO);
        for at in self.ring(ring) {
            let uv = (at - origin) / HATCH_TILE;
            mesh.vertices.push(Vertex {
                pos: at,
                uv: pos2(uv.x, uv.y),
                color: colour,
            });
        }
        let Ok(n_corners) = u32::try_from(mesh.vertices.len()) else {
            return;
        };
        for k in 2..n_corners {
            mesh.add_triangle(0, k - 1, k);
        }
        self.painter.add(Shape::mesh(mesh));
    }

    pub(super) fn line(&self, (a, b): (DVec2, DVec2), stroke: Stroke) {
        self.painter.line_segment([self.at(a), self.at(b)], stroke);
    }

    pub(super) fn dashed(&self, ends: [Pos2; 2], stroke: Stroke, dashes: Dashes) {
        let mut shapes = Vec::new();
        broken(&mut shapes, ends, stroke, dashes, 0.0);
        self.painter.extend(shapes);
    }

    pub(super) fn label(
        &mut self,
        text: String,
        look: Look,
        weight: Weight,
        places: Vec<(Pos2, Align2)>,
    ) {
        self.labels.want(Label {
            text,
            font: look.font,
            colour: look.colour,
            ground: Some(faded(self.roles.label_ground, 0.85)),
            weight,
            places,
        });
    }

    pub(super) fn small(&self, colour: Color32) -> Look {
        Look {
            font: TextSize::Small.font(),
            colour,
        }
    }

    pub(super) fn bold(&self, colour: Color32) -> Look {
        Look {
            font: TextSize::Small.bold(),
            colour,
        }
    }
}

/// How a label looks.
pub(super) struct Look {
    pub(super) font: FontId,
    pub(super) colour: Color32,
}
