//! Draws the section.

use crate::clearance::Part;
use crate::editor::Editor;
use crate::editor::camera::SideCamera;
use crate::editor::canvas::findings::{colour, mark_shapes, short};
use crate::editor::canvas::labels::{Label, Labels, Weight};
use crate::editor::canvas::pen::{
    DASHED, Dashes, HATCH_TILE, LONG_DASH_DOT, LONG_DASH_DOUBLE_DOT, broken,
};
use crate::editor::figures;
use crate::editor::theme::{CanvasRoles, TextSize, Theme, faded};
use crate::findings::Severity;
use crate::geometry::DVec2;
use crate::site::{ObjectId, ObstructionKind};
use crate::study::Thing;
use crate::units::{Length, UnitSystem};
use crate::views::Section;
use crate::views::section::{Cut, Height, Room, Seen, words};
use eframe::egui::epaint::{Mesh, Vertex};
use eframe::egui::{
    Align2, Color32, FontId, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, TextureId, Vec2, pos2,
};

/// Radius of a grid line's bubble, points.
const BUBBLE: f32 = 11.0;

/// What is needed throughout.
struct Drawing<'a> {
    painter: &'a Painter,
    roles: &'static CanvasRoles,
    editor: &'a Editor,
    section: &'a Section,
    camera: &'a SideCamera,
    units: UnitSystem,
    hatch: TextureId,
    labels: Labels,
}

pub(super) fn draw(
    painter: &Painter,
    editor: &Editor,
    section: &Section,
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
    fn at(&self, p: DVec2) -> Pos2 {
        self.camera.screen_from_side(p.x, p.y)
    }

    fn ring(&self, ring: &[DVec2]) -> Vec<Pos2> {
        ring.iter().map(|p| self.at(*p)).collect()
    }

    fn fill(&self, ring: &[DVec2], colour: Color32) {
        let points = self.ring(ring);
        self.painter
            .add(Shape::convex_polygon(points, colour, Stroke::NONE));
    }

    /// Hatches a convex area.
    fn hatched(&self, ring: &[DVec2], colour: Color32) {
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

    fn line(&self, (a, b): (DVec2, DVec2), stroke: Stroke) {
        self.painter.line_segment([self.at(a), self.at(b)], stroke);
    }

    fn dashed(&self, ends: [Pos2; 2], stroke: Stroke, dashes: Dashes) {
        let mut shapes = Vec::new();
        broken(&mut shapes, ends, stroke, dashes, 0.0);
        self.painter.extend(shapes);
    }

    fn label(&mut self, text: String, look: Look, weight: Weight, places: Vec<(Pos2, Align2)>) {
        self.labels.want(Label {
            text,
            font: look.font,
            colour: look.colour,
            ground: Some(faded(self.roles.label_ground, 0.85)),
            weight,
            places,
        });
    }

    fn small(&self, colour: Color32) -> Look {
        Look {
            font: TextSize::Small.font(),
            colour,
        }
    }

    fn bold(&self, colour: Color32) -> Look {
        Look {
            font: TextSize::Small.bold(),
            colour,
        }
    }

    /// Seen behind the plane: light, the nearer hiding the farther.
    fn seen(&self, it: &Seen) {
        let ground = match it.thing {
            Thing::Obstruction(_) => self.roles.obstruction_fill,
            _ => self.roles.floor,
        };
        for area in &it.areas {
            self.fill(area, ground);
            if let Thing::Run(_) = it.thing {
                self.fill(area, faded(self.roles.run, 0.10));
            }
        }
        let colour = match it.thing {
            Thing::Run(_) => faded(self.roles.run, 0.55),
            Thing::Member(_) => self.roles.member_quiet,
            _ => faded(self.roles.obstruction, 0.55),
        };
        for ends in &it.lines {
            self.line(*ends, Stroke::new(0.7, colour));
        }
        for ends in &it.outline {
            self.line(*ends, Stroke::new(1.0, colour));
        }
    }

    fn envelopes(&self) {
        for it in &self.section.envelopes {
            let is_breached = self
                .section
                .rooms
                .iter()
                .any(|room| room.run == it.run && room.is_breach());
            let colour = if is_breached {
                self.roles.breach
            } else {
                self.roles.envelope
            };
            for area in &it.areas {
                self.hatched(area, faded(colour, 0.22));
            }
            for (a, b) in &it.outline {
                let ends = [self.at(*a), self.at(*b)];
                self.dashed(ends, Stroke::new(1.2, colour), DASHED);
            }
        }
    }

    fn cut(&self, it: &Cut) {
        let (ground, hatch, stroke) = match (it.kind, &it.thing) {
            (Some(_), _) => (
                self.roles.obstruction_fill,
                Some(self.roles.obstruction_hatch),
                Stroke::new(1.4, self.roles.obstruction_text),
            ),
            (None, Thing::Member(_)) => (
                self.roles.steel_fill,
                None,
                Stroke::new(1.4, self.roles.steel),
            ),
            (None, _) => (
                self.roles.steel_fill,
                Some(self.roles.obstruction_hatch),
                Stroke::new(2.2, self.roles.wall),
            ),
        };
        for area in &it.areas {
            self.fill(area, ground);
            if let Some(hatch) = hatch {
                self.hatched(area, hatch);
            }
        }
        let passes = matches!(
            it.kind,
            Some(
                ObstructionKind::CraneTravel
                    | ObstructionKind::DoorTravel
                    | ObstructionKind::HazardZone
                    | ObstructionKind::Aircraft
            )
        );
        for (a, b) in &it.outline {
            let ends = [self.at(*a), self.at(*b)];
            if passes {
                self.dashed(ends, stroke, LONG_DASH_DOUBLE_DOT);
            } else {
                self.painter.line_segment(ends, stroke);
            }
        }
    }

    fn floor(&self) {
        let (a, b) = (
            self.at(DVec2::ZERO),
            self.at(DVec2::new(self.section.width_m, 0.0)),
        );
        let strip = Rect::from_min_max(a, b + Vec2::new(0.0, 7.0));
        let to = |p: Pos2| self.camera.side_from_screen(p);
        let ring = [
            to(strip.left_bottom()),
            to(strip.right_bottom()),
            to(strip.right_top()),
            to(strip.left_top()),
        ];
        self.hatched(&ring, self.roles.obstruction);
        self.painter
            .line_segment([a, b], Stroke::new(2.4, self.roles.wall));
    }

    fn grid(&mut self) {
        let top = self.at(DVec2::new(0.0, self.section.top_m)).y - 12.0;
        let bottom = self.at(DVec2::ZERO).y + 34.0;
        let stroke = Stroke::new(1.0, self.roles.grid);
        for (u, id) in &self.section.grid {
            let x = self.at(DVec2::new(*u, 0.0)).x;
            self.dashed([pos2(x, top), pos2(x, bottom)], stroke, LONG_DASH_DOT);
            let centre = pos2(x, top - BUBBLE);
            let rect = Rect::from_center_size(centre, Vec2::splat(2.0 * BUBBLE));
            if !self.labels.is_free(rect) {
                continue;
            }
            self.labels.keep_off(rect);
            self.painter
                .circle_filled(centre, BUBBLE, self.roles.ground);
            self.painter
                .circle_stroke(centre, BUBBLE, Stroke::new(1.0, self.roles.grid_text));
            self.painter.text(
                centre,
                Align2::CENTER_CENTER,
                id.as_str(),
                TextSize::Small.font(),
                self.roles.grid_text,
            );
        }
    }

    fn heaters(&mut self) {
        for run in &self.section.runs {
            for (part, area) in &run.areas {
                let (fill, line) = match part {
                    Part::Burner => (self.roles.burner, self.roles.burner),
                    Part::Tube => (self.roles.run, self.roles.burner),
                    Part::Bend | Part::Exhaust => (faded(self.roles.run, 0.35), self.roles.run),
                };
                let points = self.ring(area);
                let stroke = Stroke::new(1.0, line);
                self.painter
                    .add(Shape::convex_polygon(points, fill, stroke));
            }
            for ends in &run.reflector {
                self.line(*ends, Stroke::new(2.0, self.roles.run));
            }
            for area in &run.boxes {
                let rect = Rect::from_points(&self.ring(area));
                self.labels.keep_off(rect.expand(2.0));
            }
            let id = ObjectId::Run(run.run.clone());
            if self.editor.selection.has(&id) {
                for area in &run.boxes {
                    let rect = Rect::from_points(&self.ring(area)).expand(4.0);
                    let stroke = Stroke::new(1.8, self.roles.selection);
                    self.painter
                        .rect_stroke(rect, 2.0, stroke, StrokeKind::Middle);
                }
            }
        }
    }

    fn hangers(&mut self) {
        for hanger in &self.section.hangers {
            let (head, foot) = (self.at(hanger.attach), self.at(hanger.eye));
            let stroke = Stroke::new(1.4, self.roles.hanger);
            self.painter.line_segment([head, foot], stroke);
            self.painter
                .circle(head, 3.0, self.roles.hanger_fill, stroke);
            self.painter.circle_filled(foot, 1.8, self.roles.hanger);
            self.labels
                .keep_off(Rect::from_two_pos(head, foot).expand(2.0));
            let middle = head + (foot - head) * 0.5;
            let length = figures::length(self.units, Length::metres(hanger.length_m));
            let text = format!("{}.{}: {length}", hanger.run, hanger.number);
            let places = vec![
                (middle + Vec2::new(7.0, 0.0), Align2::LEFT_CENTER),
                (middle - Vec2::new(7.0, 0.0), Align2::RIGHT_CENTER),
            ];
            let look = self.small(self.roles.hanger_text);
            self.label(text, look, Weight::Hanger, places);
        }
    }

    /// Below the floor: from grid line to run to grid line.
    fn chain(&mut self) {
        let mut stops: Vec<f64> = self.section.grid.iter().map(|(u, _)| *u).collect();
        stops.extend(self.section.runs.iter().map(|run| run.at.x));
        stops.retain(|u| 0.0 <= *u && *u <= self.section.width_m);
        stops.sort_by(f64::total_cmp);
        stops.dedup_by(|a, b| (*a - *b).abs() < 0.005);
        let y = self.at(DVec2::ZERO).y + 24.0;
        let stroke = Stroke::new(1.0, self.roles.dimension_quiet);
        let xs: Vec<f32> = stops
            .iter()
            .map(|u| self.at(DVec2::new(*u, 0.0)).x)
            .collect();
        for x in &xs {
            let tick = [pos2(x - 3.0, y + 3.0), pos2(x + 3.0, y - 3.0)];
            self.painter
                .line_segment(tick, Stroke::new(1.4, stroke.color));
        }
        for (x, stop) in xs.windows(2).zip(stops.windows(2)) {
            self.painter
                .line_segment([pos2(x[0], y), pos2(x[1], y)], stroke);
            let apart = figures::bare_length(self.units, Length::metres(stop[1] - stop[0]));
            let galley = self.painter.layout_no_wrap(
                apart,
                TextSize::Small.font(),
                self.roles.dimension_quiet,
            );
            let middle = f32::midpoint(x[0], x[1]);
            if galley.size().x + 8.0 < x[1] - x[0] {
                let at = pos2(middle - galley.size().x / 2.0, y - galley.size().y - 1.0);
                self.labels.keep_off(Rect::from_min_size(at, galley.size()));
                self.painter.galley(at, galley, self.roles.dimension_quiet);
            }
        }
    }

    /// From the floor to the lowest part; what may be stacked below.
    fn height(&mut self, height: &Height) {
        let axis = self.at(height.axis);
        // At the edge of the envelope, so that nothing of the run lies on it.
        let x = self.at(DVec2::new(height.stacking_from_to.0, 0.0)).x;
        let (foot, head) = (
            pos2(x, self.at(DVec2::ZERO).y),
            pos2(x, self.at(DVec2::new(0.0, height.lowest_m)).y),
        );
        self.dimension(foot, head, self.roles.dimension_quiet);
        let hair = Stroke::new(0.7, self.roles.dimension_quiet);
        self.painter.hline(x - 5.0..=axis.x, head.y, hair);
        let quiet = self.small(self.roles.dimension_quiet);
        let places = [0.5_f32, 0.35, 0.65, 0.2, 0.8]
            .into_iter()
            .flat_map(|part| {
                let at = foot + (head - foot) * part;
                [
                    (at - Vec2::new(6.0, 0.0), Align2::RIGHT_CENTER),
                    (at + Vec2::new(14.0, 0.0), Align2::LEFT_CENTER),
                ]
            })
            .collect();
        let lowest = words::lowest(self.units, height);
        self.label(lowest, quiet, Weight::Hanger, places);
        let z = height.stacking.as_metres();
        if 0.0 < z {
            let (from, to) = height.stacking_from_to;
            let ends = [self.at(DVec2::new(from, z)), self.at(DVec2::new(to, z))];
            self.dashed(ends, Stroke::new(1.6, self.roles.caution), DASHED);
            let middle = ends[0] + (ends[1] - ends[0]) * 0.5;
            let places = vec![
                (middle + Vec2::new(0.0, 3.0), Align2::CENTER_TOP),
                (middle - Vec2::new(0.0, 3.0), Align2::CENTER_BOTTOM),
                (ends[1] + Vec2::new(5.0, 0.0), Align2::LEFT_CENTER),
                (ends[0] - Vec2::new(5.0, 0.0), Align2::RIGHT_CENTER),
                (middle + Vec2::new(0.0, 18.0), Align2::CENTER_TOP),
            ];
            let look = self.small(self.roles.caution);
            let said = words::stacking(self.units, height);
            self.label(said, look, Weight::Run, places);
        }
        let name = words::height(self.units, height);
        let look = self.bold(self.roles.run_text);
        let away = Vec2::new(26.0, 0.0);
        let places = [10.0, 24.0, -14.0, -28.0, 38.0]
            .into_iter()
            .flat_map(|down| {
                let at = axis + Vec2::new(0.0, down);
                [
                    (at + away, Align2::LEFT_CENTER),
                    (at - away, Align2::RIGHT_CENTER),
                ]
            })
            .collect();
        self.label(name, look, Weight::Run, places);
    }

    fn room(&mut self, room: &Room) {
        let is_breach = room.is_breach();
        let colour = if is_breach {
            self.roles.breach
        } else {
            self.roles.dimension
        };
        let (a, b) = (self.at(room.from), self.at(room.to));
        self.dimension(a, b, colour);
        self.labels.keep_off(Rect::from_two_pos(a, b).expand(2.0));
        let middle = a + (b - a) * 0.5;
        let is_level = (a.y - b.y).abs() < (a.x - b.x).abs();
        let places = if is_level {
            [-5.0, 5.0, -20.0, 20.0, -35.0, 35.0]
                .map(|down: f32| {
                    let align = if down < 0.0 {
                        Align2::CENTER_BOTTOM
                    } else {
                        Align2::CENTER_TOP
                    };
                    (middle + Vec2::new(0.0, down), align)
                })
                .to_vec()
        } else {
            [0.0, 14.0, -14.0, 28.0, -28.0, 44.0, -44.0]
                .into_iter()
                .flat_map(|down| {
                    [
                        (middle + Vec2::new(8.0, down), Align2::LEFT_CENTER),
                        (middle + Vec2::new(-8.0, down), Align2::RIGHT_CENTER),
                        (middle + Vec2::new(30.0, down), Align2::LEFT_CENTER),
                    ]
                })
                .collect()
        };
        let said = words::room_to(self.editor.site(), room);
        let (look, weight) = if is_breach {
            (self.bold(colour), Weight::Breach)
        } else {
            (self.small(colour), Weight::Hanger)
        };
        self.label(said, look, weight, places);
    }

    /// A dimension line with an arrow at each end, from outside where it is short.
    fn dimension(&self, a: Pos2, b: Pos2, colour: Color32) {
        /// Length of an arrow, points.
        const ARROW: f32 = 7.0;
        let length = (b - a).length();
        if length < 0.5 {
            return;
        }
        let along = (b - a) / length;
        let is_short = length < 2.5 * ARROW;
        let out = if is_short { 2.0 * ARROW } else { 0.0 };
        let ends = [a - along * out, b + along * out];
        self.painter.line_segment(ends, Stroke::new(1.0, colour));
        let inward = if is_short { -1.0 } else { 1.0 };
        for (tip, way) in [(a, along * inward), (b, along * -inward)] {
            let back = tip + way * ARROW;
            let half = way.rot90() * 2.0;
            let head = vec![tip, back + half, back - half];
            self.painter
                .add(Shape::convex_polygon(head, colour, Stroke::NONE));
        }
    }

    /// Marks where something is amiss: shape, colour and words together.
    fn findings(&mut self) {
        let findings = self.editor.results.findings();
        for (index, place) in &self.section.findings {
            let Some(finding) = findings.get(*index) else {
                continue;
            };
            let at = self.at(*place);
            if !self.painter.clip_rect().contains(at) {
                continue;
            }
            let colour = colour(self.roles, finding.severity);
            let size = Vec2::splat(18.0);
            let around = [
                Vec2::ZERO,
                Vec2::new(15.0, -14.0),
                Vec2::new(-15.0, -14.0),
                Vec2::new(15.0, 14.0),
                Vec2::new(-15.0, 14.0),
                Vec2::new(0.0, -24.0),
                Vec2::new(30.0, 0.0),
                Vec2::new(-30.0, 0.0),
            ];
            let free = around
                .iter()
                .map(|by| at + *by)
                .find(|at| self.labels.is_free(Rect::from_center_size(*at, size)));
            let Some(stand) = free else {
                continue;
            };
            if stand != at {
                self.painter
                    .line_segment([at, stand], Stroke::new(1.0, colour));
                self.painter.circle_filled(at, 1.8, colour);
            }
            self.painter
                .extend(mark_shapes(finding, stand, colour, self.roles.ground));
            self.labels.keep_off(Rect::from_center_size(stand, size));
            if finding.severity == Severity::Breach {
                let look = self.small(colour);
                let text = short(self.editor, finding);
                let off = 12.0;
                let places = vec![
                    (stand + Vec2::new(off, 0.0), Align2::LEFT_CENTER),
                    (stand - Vec2::new(off, 0.0), Align2::RIGHT_CENTER),
                    (stand - Vec2::new(0.0, off), Align2::CENTER_BOTTOM),
                    (stand + Vec2::new(0.0, off), Align2::CENTER_TOP),
                ];
                self.label(text, look, Weight::Breach, places);
            }
        }
    }

    /// Names of what is cut.
    fn names(&mut self) {
        let section = self.section;
        for it in &section.cut {
            if it.kind.is_none() {
                continue;
            }
            let name = words::thing(self.editor.site(), &it.thing);
            let points: Vec<Pos2> = it.areas.iter().flat_map(|area| self.ring(area)).collect();
            let rect = Rect::from_points(&points);
            let high = it.areas.iter().flatten().map(|p| p.y).fold(0.0, f64::max);
            let top = figures::length(self.units, Length::metres(high));
            let places = vec![
                (rect.center(), Align2::CENTER_CENTER),
                (rect.center_top() + Vec2::new(0.0, 4.0), Align2::CENTER_TOP),
                (
                    rect.center_top() - Vec2::new(0.0, 4.0),
                    Align2::CENTER_BOTTOM,
                ),
                (
                    rect.center_bottom() - Vec2::new(0.0, 6.0),
                    Align2::CENTER_BOTTOM,
                ),
                (
                    rect.right_center() + Vec2::new(5.0, 0.0),
                    Align2::LEFT_CENTER,
                ),
                (
                    rect.left_center() - Vec2::new(5.0, 0.0),
                    Align2::RIGHT_CENTER,
                ),
            ];
            let look = self.small(self.roles.obstruction_text);
            self.label(format!("{name}\ntop {top}"), look, Weight::Thing, places);
        }
    }
}

/// How a label looks.
struct Look {
    font: FontId,
    colour: Color32,
}
