//! The hangers from the side: hold, suspension with its length, what it carries, how far
//! the hot tube leans it, and where else it could be.

use super::draw::{Colour, Side};
use crate::editor::Editor;
use crate::editor::camera::narrow;
use crate::editor::canvas::labels::Weight;
use crate::editor::canvas::pen::{DASHED, broken};
use crate::editor::figures;
use crate::editor::hangers::{is_too_much, part, percent};
use crate::editor::icons::Icon;
use crate::editor::theme::faded;
use crate::geometry::DVec3;
use crate::hanging::{Hanger, Kind};
use crate::site::Hanging;
use crate::units::{Force, Length, Precision, Quantity, Rounding, SmallLength};
use eframe::egui::{Align2, Color32, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2};

/// Longest bar of a load, points.
const LONGEST_BAR: f32 = 30.0;
/// A lean along the run is drawn from this far on, points: less can't be seen.
const LEAN_FROM: f32 = 1.5;
/// Half the side of the section of a channel, points: at scale it would be a dot.
const SECTION: f32 = 4.0;

impl Side<'_> {
    /// Where else the picked run could hang from: quiet marks on the steel.
    pub(super) fn hang_points(&self, editor: &Editor) {
        let colour = faded(self.roles.hang_point, 0.8);
        let stroke = Stroke::new(1.0, colour);
        for it in editor.hang_points.of(&self.study.run.id) {
            let at = self.scene.at(it.attach);
            if it.kind == Kind::Channel {
                // Those are everywhere between members: seen while one is in the hand.
                if editor.selection.hanger().is_some() && it.refused.is_none() {
                    let tick = Vec2::new(0.0, 1.5);
                    self.painter.line_segment([at - tick, at + tick], stroke);
                }
            } else {
                self.painter.circle(at, 2.2, self.roles.ground, stroke);
            }
        }
    }

    pub(super) fn hangers(&mut self, editor: &Editor) {
        let hangers = self.study.hanging.hangers.clone();
        let heaviest = hangers
            .iter()
            .map(|it| it.load.load_n.max(it.cases.greatest_n()))
            .fold(1.0, f64::max);
        let axis = self.study.geometry.axis();
        let is_kept = matches!(self.study.run.hanging, Hanging::Locked(_));
        for (place, hanger) in hangers.iter().enumerate() {
            let eye = axis.eye(hanger.at.station_m);
            let (foot, head) = (self.scene.at(eye), self.scene.at(hanger.at.attach));
            let is_picked = editor.selection.hanger() == Some((&self.study.run.id, place));
            let colour = if is_picked {
                self.roles.selection
            } else {
                self.roles.hanger
            };
            self.hot(hanger, eye, head);
            let width = if is_picked { 2.4 } else { 1.4 };
            self.painter
                .line_segment([head, foot], Stroke::new(width, colour));
            self.channel(editor, hanger, head);
            let excess = editor
                .results
                .study()
                .and_then(|study| part(study, hanger))
                .filter(|part| is_too_much(*part));
            self.hold(hanger, head, excess);
            if is_picked {
                let ring = Stroke::new(2.0, colour);
                self.painter.circle_stroke(head, 7.5, ring);
            }
            self.painter.circle_filled(foot, 1.8, colour);
            self.labels
                .keep_off(Rect::from_two_pos(head, foot).expand(1.0));
            if is_kept {
                let corner = head + Vec2::new(4.0, 2.0);
                let square = Rect::from_min_size(corner, Vec2::splat(9.0));
                self.painter
                    .extend(Icon::Lock.shapes(square, self.roles.hanger));
                self.labels.keep_off(square);
            }
            self.load(hanger, heaviest, excess);
            let middle = head + (foot - head) * 0.55;
            let length = Length::metres(hanger.at.suspension_m);
            let text = figures::length(self.units, length);
            let places = vec![
                (middle + Vec2::new(6.0, 0.0), Align2::LEFT_CENTER),
                (middle - Vec2::new(6.0, 0.0), Align2::RIGHT_CENTER),
            ];
            self.label(text, Weight::Hanger, Colour::Hanger, places);
        }
    }

    /// Where the hot tube takes the suspension.
    fn hot(&self, hanger: &Hanger, eye: DVec3, head: Pos2) {
        let by = self.study.geometry.heading * hanger.movement_m;
        let hot = self.scene.at(eye + by.extend(0.0));
        if LEAN_FROM <= (hot - self.scene.at(eye)).length() {
            let mut shapes = Vec::new();
            let stroke = Stroke::new(1.0, faded(self.roles.run, 0.8));
            broken(&mut shapes, [head, hot], stroke, DASHED, 0.0);
            self.painter.extend(shapes);
        }
    }

    /// A cross channel: from member to member, or its section where it lies across.
    fn channel(&self, editor: &Editor, hanger: &Hanger, head: Pos2) {
        let (Some(second), Some(structure)) = (&hanger.at.second, editor.structure()) else {
            return;
        };
        let end = |hold: &crate::hanging::Hold| {
            let member = structure.member(&hold.member)?;
            let plan = member.plan_at(hold.position_m);
            Some(self.scene.at(plan.extend(hanger.at.attach.z)))
        };
        let stroke = Stroke::new(2.4, self.roles.channel);
        let (Some(a), Some(b)) = (end(&hanger.at.first), end(second)) else {
            return;
        };
        if (b - a).length() < 3.0 * SECTION {
            // Open side down, as it is hung from.
            let up = head - Vec2::new(0.0, 2.0 * SECTION);
            let corners = vec![
                head + Vec2::new(-SECTION, 0.0),
                up - Vec2::new(SECTION, 0.0),
                up + Vec2::new(SECTION, 0.0),
                head + Vec2::new(SECTION, 0.0),
            ];
            let stroke = Stroke::new(1.8, self.roles.channel);
            self.painter.add(Shape::line(corners, stroke));
        } else {
            self.painter.line_segment([a, b], stroke);
        }
    }

    /// How the hanger gets its hold, as on the plan; in a frame where it carries too much.
    fn hold(&self, hanger: &Hanger, at: Pos2, excess: Option<f64>) {
        let (colour, fill) = match excess {
            Some(_) => (self.roles.breach, self.roles.breach),
            None => (self.roles.hanger, self.roles.hanger_fill),
        };
        let stroke = Stroke::new(1.4, colour);
        if excess.is_some() {
            let frame = Rect::from_center_size(at, Vec2::splat(14.0));
            self.painter
                .rect_stroke(frame, 0.0, stroke, StrokeKind::Middle);
        }
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
    fn load(&mut self, hanger: &Hanger, heaviest: f64, excess: Option<f64>) {
        let axis = self.study.geometry.axis();
        let tube = axis.point(hanger.at.station_m);
        let lowest = self.study.clearance.bodies.bodies.iter();
        let below = lowest.map(|body| body.local.low.z).fold(0.0, f64::min);
        let top = self.at(self.scene.station(tube.truncate()), tube.z + below);
        let share = narrow(hanger.load.load_n / heaviest);
        let bar = Rect::from_min_size(
            top + Vec2::new(-6.0, 4.0),
            Vec2::new(12.0, (LONGEST_BAR * share).max(1.0)),
        );
        let fill: Color32 = match excess {
            Some(_) => self.roles.breach,
            None => self.roles.load,
        };
        self.painter.rect_filled(bar, 0.0, fill);
        // Empty as far as it goes where a hanger is hung low or goes slack.
        let worst_n = hanger.cases.greatest_n();
        let long = LONGEST_BAR * narrow(worst_n / heaviest);
        let worst = Rect::from_min_size(bar.min, Vec2::new(12.0, long.max(bar.height())));
        let line = Stroke::new(1.0, faded(fill, 0.8));
        self.painter
            .rect_stroke(worst, 0.0, line, StrokeKind::Inside);
        self.labels.keep_off(worst);
        if hanger.load.load_n * 1.05 < worst_n {
            let text = figures::force(self.units, Force::newtons(worst_n));
            let foot = worst.right_bottom() + Vec2::new(7.0, 0.0);
            let before = worst.left_bottom() - Vec2::new(7.0, 0.0);
            let places = vec![(foot, Align2::LEFT_BOTTOM), (before, Align2::RIGHT_BOTTOM)];
            let text = format!("worst {text}");
            self.label(text, Weight::Steel, Colour::Quiet, places);
        }
        let bar = worst;
        let load = figures::force(self.units, Force::newtons(hanger.load.load_n));
        let (text, colour) = match (hanger.load.slack, excess) {
            (true, _) => ("slack".to_owned(), Colour::Caution),
            (false, Some(part)) => {
                let text = format!("{load}\n{} of allowed", percent(part));
                (text, Colour::Breach)
            }
            (false, None) => (load, Colour::Load),
        };
        let under = bar.center_bottom() + Vec2::new(0.0, 3.0);
        let beside = bar.right_center() + Vec2::new(7.0, 0.0);
        let before = bar.left_center() - Vec2::new(7.0, 0.0);
        let places = vec![
            (under, Align2::CENTER_TOP),
            (beside, Align2::LEFT_CENTER),
            (before, Align2::RIGHT_CENTER),
        ];
        self.label(text, Weight::Hanger, colour, places);
    }

    /// The hanger that stays put, and how far the ends move when the tube is hot.
    pub(super) fn growth(&mut self) {
        let growth = &self.study.hanging.growth;
        if self.study.hanging.hangers.is_empty() {
            return;
        }
        let axis = self.study.geometry.axis();
        let fixed = self.scene.at(axis.point(growth.fixed_station_m));
        let foot = fixed + Vec2::new(0.0, 4.0);
        let corners = vec![
            fixed,
            foot + Vec2::new(-4.0, 4.0),
            foot + Vec2::new(4.0, 4.0),
        ];
        self.painter.add(Shape::convex_polygon(
            corners,
            self.roles.burner,
            Stroke::NONE,
        ));
        let length = self.study.geometry.tube_length_m;
        let after = self.study.clearance.bodies.bodies.iter();
        let end_m = after.map(|body| body.local.high.x).fold(length, f64::max);
        let before = self.study.clearance.bodies.bodies.iter();
        let start_m = before.map(|body| body.local.low.x).fold(0.0, f64::min);
        for (station, by_m, toward) in [
            (end_m, growth.exhaust_end_m, 1.0),
            (start_m, growth.burner_end_m, -1.0),
        ] {
            // Less than this is not worth an arrow.
            if by_m < 0.002 {
                continue;
            }
            let from = self.scene.at(axis.point(station)) + Vec2::new(4.0 * toward, 0.0);
            let tip = from + Vec2::new(14.0 * toward, 0.0);
            let stroke = Stroke::new(1.2, self.roles.run);
            self.painter.line_segment([from, tip], stroke);
            let barb = Vec2::new(-4.0 * toward, 3.0);
            let flipped = Vec2::new(barb.x, -barb.y);
            self.painter
                .add(Shape::line(vec![tip + barb, tip, tip + flipped], stroke));
            self.labels
                .keep_off(Rect::from_two_pos(from, tip).expand(3.0));
            let precision = Precision {
                decimals: 0,
                inch_parts: 16,
            };
            let by = SmallLength(Length::metres(by_m));
            let by = by.show_rounded(self.units, precision, Rounding::Up);
            let text = format!("+{} hot", SmallLength::with_unit(by, self.units));
            let places = if 0.0 < toward {
                vec![
                    (tip + Vec2::new(3.0, 0.0), Align2::LEFT_CENTER),
                    (from - Vec2::new(0.0, 7.0), Align2::LEFT_BOTTOM),
                    (from + Vec2::new(0.0, 7.0), Align2::LEFT_TOP),
                ]
            } else {
                vec![
                    (tip - Vec2::new(3.0, 0.0), Align2::RIGHT_CENTER),
                    (from - Vec2::new(0.0, 7.0), Align2::RIGHT_BOTTOM),
                ]
            };
            self.label(text, Weight::Thing, Colour::Quiet, places);
        }
    }
}
