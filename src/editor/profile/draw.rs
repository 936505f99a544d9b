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
use crate::hanging::{Hanger, Kind};
use crate::site::{ObjectId, ObstructionKind};
use crate::study::RunStudy;
use crate::units::{Force, Length, UnitSystem};
use eframe::egui::{Align2, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2, pos2};

/// Longest bar of a load, points.
const LONGEST_BAR: f32 = 30.0;

/// What is needed throughout.
struct Side<'a> {
    painter: &'a Painter,
    roles: &'static CanvasRoles,
    scene: &'a Scene,
    study: &'a RunStudy,
    units: UnitSystem,
    labels: Labels,
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
    side.hangers();
    side.findings(editor);
    side.stacking();
    let within = painter.clip_rect().shrink(2.0);
    side.labels.paint(painter, within);
}

impl Side<'_> {
    fn at(&self, station_m: f64, z_m: f64) -> Pos2 {
        self.scene.camera.screen_from_side(station_m, z_m)
    }

    fn rect(&self, stations: (f64, f64), z: (f64, f64)) -> Rect {
        Rect::from_two_pos(self.at(stations.0, z.0), self.at(stations.1, z.1))
    }

    fn label(&mut self, text: String, weight: Weight, colour: Colour, places: Vec<(Pos2, Align2)>) {
        let colour = match colour {
            Colour::Hanger => self.roles.hanger_text,
            Colour::Load => self.roles.load_text,
            Colour::Quiet => self.roles.dimension_quiet,
            Colour::Solid => self.roles.obstruction_text,
            Colour::Caution => self.roles.caution,
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

    /// What stands below, over and beside: cut off where the drawing ends.
    fn solids(&mut self) {
        let floor = self.painter.clip_rect().bottom() + 4.0;
        for solid in &self.scene.solids {
            let mut rect = self.rect(solid.stations, (solid.bottom_m, solid.top_m));
            rect.max.y = rect.max.y.min(floor);
            if rect.is_negative() {
                continue;
            }
            let stroke = Stroke::new(1.0, self.roles.obstruction);
            self.painter
                .rect_filled(rect, 0.0, self.roles.obstruction_fill);
            let passes = matches!(
                solid.kind,
                ObstructionKind::CraneTravel
                    | ObstructionKind::DoorTravel
                    | ObstructionKind::HazardZone
            );
            let dashes = if passes {
                Some(LONG_DASH_DOUBLE_DOT)
            } else {
                None
            };
            let ring = [
                rect.left_bottom(),
                rect.left_top(),
                rect.right_top(),
                rect.right_bottom(),
                rect.left_bottom(),
            ];
            for ends in ring.windows(2) {
                match dashes {
                    Some(dashes) => {
                        let mut shapes = Vec::new();
                        broken(&mut shapes, [ends[0], ends[1]], stroke, dashes, 0.0);
                        self.painter.extend(shapes);
                    }
                    None => {
                        self.painter.line_segment([ends[0], ends[1]], stroke);
                    }
                }
            }
        }
        for solid in &self.scene.solids.clone() {
            let rect = self.rect(solid.stations, (solid.bottom_m, solid.top_m));
            let named = if solid.name.is_empty() {
                solid.kind.label()
            } else {
                &solid.name
            };
            let top = figures::length(self.units, Length::metres(solid.top_m));
            let text = format!("{named} {}, top {top}", solid.id);
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
            let places = vec![(over, Align2::CENTER_BOTTOM), (beside, Align2::LEFT_CENTER)];
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

    fn hangers(&mut self) {
        let hangers = self.study.hanging.hangers.clone();
        let heaviest = hangers.iter().map(|it| it.load.load_n).fold(1.0, f64::max);
        let axis = self.study.geometry.axis();
        let mut feet: Vec<Pos2> = Vec::new();
        for hanger in &hangers {
            let eye = axis.eye(hanger.at.station_m);
            let foot = self.at(self.scene.station(eye.truncate()), eye.z);
            let attach = hanger.at.attach;
            let head = self.at(self.scene.station(attach.truncate()), attach.z);
            self.painter
                .line_segment([head, foot], Stroke::new(1.4, self.roles.hanger));
            self.hold(hanger, head);
            self.painter.circle_filled(foot, 1.8, self.roles.hanger);
            self.load(hanger, heaviest);
            let middle = head + (foot - head) * 0.5;
            let length = Length::metres(hanger.at.suspension_m);
            let text = figures::length(self.units, length);
            let places = vec![
                (middle + Vec2::new(5.0, 0.0), Align2::LEFT_CENTER),
                (middle - Vec2::new(5.0, 0.0), Align2::RIGHT_CENTER),
            ];
            self.label(text, Weight::Hanger, Colour::Hanger, places);
            feet.push(head);
        }
        self.spacings(&hangers, &feet);
    }

    /// Distances between hangers along the tube, on the line of their holds.
    fn spacings(&mut self, hangers: &[Hanger], heads: &[Pos2]) {
        let stroke = Stroke::new(0.8, self.roles.dimension_quiet);
        for (pair, ends) in hangers.windows(2).zip(heads.windows(2)) {
            let gap = (ends[1] - ends[0]).normalized() * 5.0;
            self.painter
                .line_segment([ends[0] + gap, ends[1] - gap], stroke);
            let apart = Length::metres(pair[1].at.station_m - pair[0].at.station_m);
            let text = figures::bare_length(self.units, apart);
            let middle = ends[0] + (ends[1] - ends[0]) * 0.5;
            self.label(
                text,
                Weight::Steel,
                Colour::Quiet,
                vec![(middle, Align2::CENTER_CENTER)],
            );
        }
    }

    /// How the hanger gets its hold, as on the plan.
    fn hold(&self, hanger: &Hanger, at: Pos2) {
        let stroke = Stroke::new(1.4, self.roles.hanger);
        let fill = self.roles.hanger_fill;
        let corners: &[(f32, f32)] = match hanger.at.kind {
            Kind::Panel | Kind::Line => {
                self.painter.circle(at, 3.2, fill, stroke);
                return;
            }
            Kind::OffPanel => &[(-3.0, -3.0), (3.0, -3.0), (3.0, 3.0), (-3.0, 3.0)],
            Kind::Channel => &[(0.0, -4.6), (4.2, 3.0), (-4.2, 3.0)],
        };
        let points = corners
            .iter()
            .map(|(x, y)| at + Vec2::new(*x, *y))
            .collect();
        self.painter
            .add(Shape::convex_polygon(points, fill, stroke));
    }

    /// What the hanger carries: a bar under the tube, and the figure.
    fn load(&mut self, hanger: &Hanger, heaviest: f64) {
        let axis = self.study.geometry.axis();
        let tube = axis.point(hanger.at.station_m);
        let lowest = self.study.clearance.bodies.bodies.iter();
        let below = lowest.map(|body| body.local.low.z).fold(0.0, f64::min);
        let top = self.at(self.scene.station(tube.truncate()), tube.z + below);
        let part = crate::editor::camera::narrow(hanger.load.load_n / heaviest);
        let bar = Rect::from_min_size(
            top + Vec2::new(-6.0, 4.0),
            Vec2::new(12.0, (LONGEST_BAR * part).max(1.0)),
        );
        self.painter.rect_filled(bar, 0.0, self.roles.load);
        let text = if hanger.load.slack {
            "slack".to_owned()
        } else {
            figures::force(self.units, Force::newtons(hanger.load.load_n))
        };
        let under = bar.center_bottom() + Vec2::new(0.0, 2.0);
        let beside = bar.right_center() + Vec2::new(4.0, 0.0);
        let places = vec![(under, Align2::CENTER_TOP), (beside, Align2::LEFT_CENTER)];
        self.label(text, Weight::Hanger, Colour::Load, places);
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
enum Colour {
    Hanger,
    Load,
    Quiet,
    Solid,
    Caution,
}
