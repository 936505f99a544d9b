//! Heaters that are cut, and their suspensions.

use super::draw::Drawing;
use crate::clearance::Part;
use crate::editor::canvas::labels::Weight;
use crate::editor::canvas::pen::LONG_DASH_DOUBLE_DOT;
use crate::editor::figures;
use crate::editor::theme::faded;
use crate::site::ObjectId;
use crate::units::Length;
use crate::views::Section;
use eframe::egui::{Align2, Rect, Shape, Stroke, StrokeKind, Vec2};

impl Drawing<'_> {
    pub(super) fn heaters(&mut self) {
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

    /// While something that is offered is previewed: where its run is.
    pub(super) fn as_it_is(&mut self, standing: &Section) {
        let Some(was) = self.editor.run_as_it_is() else {
            return;
        };
        let stroke = Stroke::new(1.4, self.roles.draft);
        for cut in standing.runs.iter().filter(|it| it.run == was.run.id) {
            for area in &cut.boxes {
                let ring = self.ring(area);
                for k in 0..ring.len() {
                    let ends = [ring[k], ring[(k + 1) % ring.len()]];
                    self.dashed(ends, stroke, LONG_DASH_DOUBLE_DOT);
                }
            }
            let at = self.at(cut.at);
            let places = [36.0, -36.0, 48.0, -48.0].map(|y| {
                let align = if y < 0.0 {
                    Align2::CENTER_BOTTOM
                } else {
                    Align2::CENTER_TOP
                };
                (at + Vec2::new(0.0, y), align)
            });
            let text = format!("{} as it is", cut.run);
            let look = self.small(self.roles.draft);
            self.label(text, look, Weight::Drawn, places.to_vec());
        }
    }

    pub(super) fn hangers(&mut self) {
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
}
