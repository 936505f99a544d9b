//! Draws the profile.

use super::scene::{Crossing, Scene};
use crate::clearance::Part;
use crate::editor::Editor;
use crate::editor::canvas::findings::{colour, concerns, mark_shapes};
use crate::editor::canvas::labels::{Label, Labels, Weight};
use crate::editor::canvas::pen::{DASHED, LONG_DASH_DOUBLE_DOT, broken};
use crate::editor::figures;
use crate::editor::theme::{CanvasRoles, TextSize, Theme, faded};
use crate::findings::Severity;
use crate::site::ObjectId;
use crate::study::RunStudy;
use crate::units::{Length, UnitSystem};
use eframe::egui::{Align2, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2, pos2};

/// What is needed throughout.
pub(super) struct Side<'a> {
    pub(super) painter: &'a Painter,
    pub(super) roles: &'static CanvasRoles,
    pub(super) scene: &'a Scene,
    pub(super) study: &'a RunStudy,
    pub(super) units: UnitSystem,
    pub(super) labels: Labels,
}

pub(super) fn draw(painter: &Painter, editor: &Editor, study: &RunStudy, scene: &Scene) {
    let mut side = Side {
        painter,
        roles: &Theme::of(painter.ctx()).canvas,
        scene,
        study,
        units: editor.site().units,
        labels: Labels::default(),
    };
    side.solids();
    side.roof();
    side.envelope();
    side.crossings();
    side.tube();
    side.as_it_is(editor);
    side.hang_points(editor);
    side.hangers(editor);
    side.growth();
    side.measures();
    side.findings(editor);
    side.stacking();
    let within = painter.clip_rect().shrink(2.0);
    side.labels.paint(painter, within);
}

impl Side<'_> {
    pub(super) fn at(&self, station_m: f64, z_m: f64) -> Pos2 {
        self.scene.camera.screen_from_side(station_m, z_m)
    }

    fn rect(&self, stations: (f64, f64), z: (f64, f64)) -> Rect {
        Rect::from_two_pos(self.at(stations.0, z.0), self.at(stations.1, z.1))
    }

    pub(super) fn label(
        &mut self,
        text: String,
        weight: Weight,
        colour: Colour,
        places: Vec<(Pos2, Align2)>,
    ) {
        let colour = match colour {
            Colour::Hanger => self.roles.hanger_text,
            Colour::Load => self.roles.load_text,
            Colour::Quiet => self.roles.dimension_quiet,
            Colour::Solid => self.roles.obstruction_text,
            Colour::Caution => self.roles.caution,
            Colour::Breach => self.roles.breach,
            Colour::Draft => self.roles.draft,
        };
        self.labels.want(Label {
            text,
            font: TextSize::Small.font(),
            colour,
            ground: Some(faded(self.roles.label_ground, 0.8)),
            weight,
            places,
        });
    }

    /// What stands below, over and beside.
    fn solids(&mut self) {
        let stroke = Stroke::new(1.0, self.roles.obstruction);
        for solid in &self.scene.solids {
            let fill = if solid.passes {
                faded(self.roles.obstruction_fill, 0.5)
            } else {
                self.roles.obstruction_fill
            };
            for outline in &solid.outlines {
                let mut ring: Vec<Pos2> = outline.iter().map(|p| self.at(p.x, p.y)).collect();
                self.painter
                    .add(Shape::convex_polygon(ring.clone(), fill, Stroke::NONE));
                ring.extend(ring.first().copied());
                if solid.passes {
                    let mut shapes = Vec::new();
                    for ends in ring.windows(2) {
                        let ends = [ends[0], ends[1]];
                        broken(&mut shapes, ends, stroke, LONG_DASH_DOUBLE_DOT, 0.0);
                    }
                    self.painter.extend(shapes);
                } else {
                    self.painter.add(Shape::line(ring, stroke));
                }
            }
        }
        for solid in &self.scene.solids.clone() {
            let corners = solid.outlines.iter().flatten();
            let corners: Vec<Pos2> = corners.map(|p| self.at(p.x, p.y)).collect();
            let rect = Rect::from_points(&corners);
            let top = figures::length(self.units, Length::metres(solid.top_m));
            let text = format!("{}, top {top}", solid.name);
            let under = rect.center_top() + Vec2::new(0.0, 3.0);
            let over = rect.center_top() - Vec2::new(0.0, 3.0);
            let places = vec![(under, Align2::CENTER_TOP), (over, Align2::CENTER_BOTTOM)];
            self.label(text, Weight::Thing, Colour::Solid, places);
        }
    }

    fn roof(&self) {
        let points: Vec<Pos2> = self.scene.roof.iter().map(|p| self.at(p.x, p.y)).collect();
        self.painter
            .add(Shape::line(points, Stroke::new(2.0, self.roles.steel)));
    }

    fn envelope(&self) {
        let ring: Vec<Pos2> = self
            .scene
            .envelope
            .iter()
            .map(|p| self.at(p.x, p.y))
            .collect();
        let stroke = Stroke::new(1.0, self.roles.envelope);
        let mut shapes = Vec::new();
        for (place, from) in ring.iter().enumerate() {
            let to = ring[(place + 1) % ring.len()];
            broken(&mut shapes, [*from, to], stroke, DASHED, 0.0);
        }
        self.painter.extend(shapes);
    }

    /// Members cut by the run's plane: a section each, and its number over it.
    fn crossings(&mut self) {
        for crossing in &self.scene.crossings.clone() {
            let rect = self.section(crossing);
            let stroke = Stroke::new(1.0, self.roles.steel);
            self.painter
                .rect(rect, 1.0, self.roles.steel_fill, stroke, StrokeKind::Middle);
            let id = crossing.member.id.as_str();
            // The span's letters say which bay it is in; the number is what a crew counts.
            let name = id.split('/').next().unwrap_or(id).to_owned();
            let over = rect.center_top() - Vec2::new(0.0, 3.0);
            let beside = rect.right_center() + Vec2::new(3.0, 0.0);
            let before = rect.left_center() - Vec2::new(3.0, 0.0);
            let places = vec![
                (beside, Align2::LEFT_CENTER),
                (before, Align2::RIGHT_CENTER),
                (over, Align2::CENTER_BOTTOM),
            ];
            self.label(name, Weight::Steel, Colour::Quiet, places);
        }
    }

    fn section(&self, crossing: &Crossing) -> Rect {
        let half = crossing.width_m / 2.0;
        let rect = self.rect(
            (crossing.station_m - half, crossing.station_m + half),
            (crossing.underside_m, crossing.top_m),
        );
        Rect::from_center_size(rect.center(), rect.size().max(Vec2::new(3.0, 3.0)))
    }

    /// Burner, tube, bend and exhaust as they slope, with the tube's joints.
    fn tube(&self) {
        let bodies = &self.study.clearance.bodies;
        let axis = self.study.geometry.axis();
        let side = |s: f64, u: f64| {
            let at = bodies
                .frame
                .site_from_local(crate::geometry::DVec3::new(s, 0.0, u));
            self.at(self.scene.station(at.truncate()), at.z)
        };
        for body in &bodies.bodies {
            let (low, high) = (body.local.low, body.local.high);
            let quad = vec![
                side(low.x, low.z),
                side(high.x, low.z),
                side(high.x, high.z),
                side(low.x, high.z),
            ];
            let (fill, stroke) = match body.part {
                Part::Burner => (self.roles.burner, Stroke::NONE),
                Part::Tube => (
                    faded(self.roles.run, 0.14),
                    Stroke::new(0.8, faded(self.roles.run, 0.7)),
                ),
                Part::Bend | Part::Exhaust => {
                    (faded(self.roles.run, 0.3), Stroke::new(0.8, self.roles.run))
                }
            };
            self.painter.add(Shape::convex_polygon(quad, fill, stroke));
        }
        let length = self.study.geometry.tube_length_m;
        let point = |s: f64| {
            let at = axis.point(s);
            self.at(self.scene.station(at.truncate()), at.z)
        };
        let diameter = self.study.family.tube_diameter.as_metres();
        let width = self.scene.camera.screen_length(diameter).max(3.0);
        let ends = [point(0.0), point(length)];
        self.painter
            .line_segment(ends, Stroke::new(width, self.roles.run));
        for joint in &self.study.rule.joints_m {
            let at = point(*joint);
            let half = Vec2::new(0.0, width / 2.0 + 1.5);
            let stroke = Stroke::new(1.5, self.roles.burner);
            self.painter.line_segment([at - half, at + half], stroke);
        }
    }

    /// While something that is offered is previewed: where the run is.
    fn as_it_is(&mut self, editor: &Editor) {
        let Some(was) = editor.run_as_it_is() else {
            return;
        };
        let stroke = Stroke::new(1.4, self.roles.draft);
        let bodies = &was.clearance.bodies;
        let mut shapes = Vec::new();
        for body in &bodies.bodies {
            let (low, high) = (body.local.low, body.local.high);
            let corners = [
                (low.x, low.z),
                (high.x, low.z),
                (high.x, high.z),
                (low.x, high.z),
            ];
            let ring = corners.map(|(s, u)| {
                let local = crate::geometry::DVec3::new(s, 0.0, u);
                self.scene.at(bodies.frame.site_from_local(local))
            });
            for k in 0..ring.len() {
                let ends = [ring[k], ring[(k + 1) % ring.len()]];
                broken(&mut shapes, ends, stroke, LONG_DASH_DOUBLE_DOT, 0.0);
            }
        }
        self.painter.extend(shapes);
        let far = was.geometry.axis().point(was.geometry.tube_length_m);
        let at = self.scene.at(far);
        let off = Vec2::new(0.0, 16.0);
        let places = vec![
            (at + off, Align2::RIGHT_CENTER),
            (at - off, Align2::RIGHT_CENTER),
            (at + off * 2.0, Align2::RIGHT_CENTER),
        ];
        let text = format!("{} as it is", was.run.id);
        self.label(text, Weight::Drawn, Colour::Draft, places);
    }

    /// Breaches and cautions of the run, where they are.
    fn findings(&mut self, editor: &Editor) {
        let id = ObjectId::Run(self.study.run.id.clone());
        for finding in editor.results.findings().iter() {
            let place = finding.place.filter(|_| concerns(finding, &id));
            let Some(place) = place.filter(|_| finding.severity != Severity::Note) else {
                continue;
            };
            let at = self.at(self.scene.station(place.truncate()), place.z);
            let size = Vec2::splat(18.0);
            let beside = [
                Vec2::new(0.0, 16.0),
                Vec2::new(18.0, 10.0),
                Vec2::new(-18.0, 10.0),
            ];
            let free = beside
                .iter()
                .map(|by| at + *by)
                .find(|at| self.labels.is_free(Rect::from_center_size(*at, size)));
            let Some(stand) = free else { continue };
            let colour = colour(self.roles, finding.severity);
            self.painter
                .line_segment([at, stand], Stroke::new(1.0, colour));
            self.painter
                .extend(mark_shapes(finding, stand, colour, self.roles.ground));
            self.labels.keep_off(Rect::from_center_size(stand, size));
        }
    }

    /// How high goods may be stacked below, as the posted notice says.
    fn stacking(&mut self) {
        let limit = &self.study.clearance.stacking;
        let height = limit.posted;
        let (from, to) = self.scene.camera.stations();
        let y = self.at(from, height.as_metres()).y;
        let clip = self.painter.clip_rect();
        let said = figures::length(self.units, height);
        let text = format!("stack no higher than {said} below this run");
        let right = self.at(to, 0.0).x;
        if clip.y_range().contains(y) {
            let mut shapes = Vec::new();
            let stroke = Stroke::new(1.0, self.roles.caution);
            broken(
                &mut shapes,
                [pos2(clip.left(), y), pos2(clip.right(), y)],
                stroke,
                DASHED,
                0.0,
            );
            self.painter.extend(shapes);
            let at = pos2(right, y);
            let places = vec![
                (at - Vec2::new(2.0, 2.0), Align2::RIGHT_BOTTOM),
                (at + Vec2::new(-2.0, 2.0), Align2::RIGHT_TOP),
                (pos2(clip.left() + 8.0, y - 2.0), Align2::LEFT_BOTTOM),
            ];
            self.label(text, Weight::Run, Colour::Caution, places);
        } else {
            let at = clip.right_bottom() - Vec2::new(8.0, 4.0);
            self.label(
                text,
                Weight::Run,
                Colour::Caution,
                vec![(at, Align2::RIGHT_BOTTOM)],
            );
        }
    }
}

/// Colours of the profile's labels.
#[derive(Debug, Clone, Copy)]
pub(super) enum Colour {
    Hanger,
    Load,
    Quiet,
    Solid,
    Caution,
    Breach,
    Draft,
}
